"""Loading: what is good is kept, what is wrong is said, and no file can hold the program up."""

from __future__ import annotations

import pickle
import tracemalloc
from collections.abc import Callable
from pathlib import Path

import pytest

from qa.errors import Problem, UnreadableInput
from qa.knowledge.checks import check
from qa.knowledge.library import Library
from qa.knowledge.load import LARGEST_FILE, content, load_examples, load_knowledge, stamp
from qa.settings import shipped

Loaded = tuple[Library, tuple[Problem, ...]]
GOOD = Path(__file__).with_name("good")


def test_the_made_up_knowledge_has_no_problem() -> None:
    """So that every problem in the other tests comes from what they spoil."""
    library, problems = load_knowledge(GOOD, invented=True)
    assert [*map(str, problems)] == []
    assert library.counts() | {"names": 0, "facts_by_property": 0} == {
        "ingredients": 2, "forms": 3, "names": 0, "confusions": 1, "facts": 9, "facts_by_property": 0,
        "facts_by_tier": {"measured": 1, "published": 7, "common practice": 1, "viewers' reports": 0},
        "share_published": 0.778, "swaps": 2, "answers": 1, "phrasings": 5, "cautions": 1, "sources": 5, "trials": 1,
        "episodes": 1, "measure_words": 3, "problems": 0,
    }  # fmt: skip


def test_the_real_knowledge_has_no_problem() -> None:
    """Everything shipped reads, and nothing in it contradicts the rest."""
    _, problems = load_knowledge(shipped("knowledge"))
    assert not problems, "\n".join(map(str, problems))


def test_invented_trials_stay_out_of_a_real_channel() -> None:
    """They are checked, but what they gave, their citation and their episode are not there to lean on."""
    library, problems = load_knowledge(GOOD)
    assert problems == ()
    assert library.knowledge.trials == library.knowledge.episodes == ()
    assert [f for f in library.knowledge.facts if f.tier == "measured"] == []
    assert not any(source.invented for source in library.knowledge.sources)


def test_loading_twice_gives_the_same() -> None:
    """Same input, same output: problems, order and content hashes."""
    first, second = load_knowledge(GOOD)[0], load_knowledge(GOOD)[0]
    assert [f.version for f in first.knowledge.facts] == [f.version for f in second.knowledge.facts]
    assert first.names() == second.names()


def test_two_densities_of_one_kind_need_a_variant(facts_doc: Loaded) -> None:
    """
    - form: white
      property: bulk density
      value: 8 ± 0.3 g/us_tbsp
      source: moon-tables
    """
    _, problems = facts_doc
    assert "is given twice" in problems[0].message
    assert "variant" in problems[0].remedy


def test_a_note_explains_why_kin_differ(facts_doc: Loaded) -> None:
    """
    - form: white
      property: bulk density
      value: 11 ± 0.3 g/us_tbsp
      source: memory
      note: "shaken down in transport"
    """
    library, problems = facts_doc
    assert problems == ()
    assert len(library.density("starflour.white")) == 2


def test_other_conditions_are_no_kin(facts_doc: Loaded) -> None:
    """
    - form: white
      property: bulk density
      value: 11 ± 0.3 g/us_tbsp
      packing: packed
      source: memory
    """
    assert facts_doc[1] == ()


def test_available_carbohydrate_is_summed_with_its_fibre(facts_doc: Loaded) -> None:
    """
    - {form: white, property: water, value: 12.0 %, source: moon-tables}
    - {form: white, property: carbohydrate without fibre, value: 85.0 %, source: moon-tables}
    - {form: white, property: fibre, value: 10.0 %, source: moon-tables}
    """
    assert "sum to 107.0 g in 100 g" in facts_doc[1][0].message


def test_sugars_are_part_of_carbohydrate(facts_doc: Loaded) -> None:
    """
    - {form: white, property: carbohydrate with fibre, value: 5.0 %, source: moon-tables}
    - {form: white, property: sugars, value: 9.0 %, source: moon-tables}
    """
    assert "more sugars than carbohydrate with fibre" in facts_doc[1][0].message


def test_a_problem_silences_only_what_it_touches(facts_doc: Loaded) -> None:
    """
    - {form: white, property: water, value: 12 g, source: moon-tables}
    - {form: white, property: protein, value: 3.0 %, source: moon-tables}
    """
    library, problems = facts_doc
    assert len(problems) == 1
    assert library.facts("starflour.white", "water") == ()
    assert library.facts("starflour.white", "protein")[0].measure is not None
    assert check(library) == problems


def test_an_ingredient_without_its_caution_is_silent(folder: Path) -> None:
    """A reply about it could not carry the warning, so nothing is known of it until the caution is written."""
    (folder / "cautions.yaml").unlink()
    library, problems = load_knowledge(folder)
    assert not library.has("moonflour")
    assert library.facts("moonflour.fine") == ()
    assert library.knowledge.answers == ()
    assert [p.message for p in problems].count("nobody defines the caution 'M1'") == 2


def test_a_broken_list_of_sources_is_one_problem(write: Callable[[str, str], Loaded]) -> None:
    """Not one for each fact that names a source."""
    library, problems = write("sources.yaml", "- id: [\n")
    assert not any("not listed" in p.message for p in problems)
    assert any(p.place.file == "knowledge/sources.yaml" and "not YAML" in p.message for p in problems)
    assert {fact.tier for fact in library.knowledge.facts} <= {"measured"}


@pytest.mark.parametrize(("name", "content", "says"), [
    ("nested aliases", "a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\nd: &d [*c, *c]\n" * 1, "anchors"),
    ("deep brackets", "id: starflour\nname: " + "[" * 100_000, "nested more than"),
    ("deep braces", "{a: " * 50_000, "nested more than"),
    ("deep dashes", "- " * 50_000, "nested more than"),
    ("deep questions", "? " * 50_000, "a key must be a word"),
    ("very long", "name: " + "x" * LARGEST_FILE, "larger than"),
    ("no text", "\x00\x01\x02", "not YAML"),
    ("nothing", "", "0 documents"),
    ("a comment only", "# nothing\n", "0 documents"),
    ("many keys", "".join(f"k{i}: 1\n" for i in range(20_000)), "20000 keys"),
    ("many entries", "id: starflour\nname: x\nfamily: starch\ncautions: [" + "x, " * 100_000 + "x]", "100001 entries"),
    ("a long quoted text never ended", "name: '" + "x " * 100_000, "not YAML"),
], ids=lambda value: value if isinstance(value, str) and len(value) < 40 else "")  # fmt: skip
def test_a_file_bomb_is_refused(folder: Path, name: str, content: str, says: str) -> None:
    """With a problem at the file; the rest is read."""
    (folder / "ingredients/starflour.yaml").write_text(content)
    library, problems = load_knowledge(folder)
    assert any(says in p.message and p.place.file.endswith("starflour.yaml") for p in problems), problems[:3]
    assert library.has("moonflour")


def test_a_gigabyte_is_not_read(folder: Path) -> None:
    """Only as much as the limit is taken from the disk."""
    with (folder / "ingredients/starflour.yaml").open("wb") as stream:
        stream.truncate(2**30)  # a sparse file
    tracemalloc.start()
    try:
        problems = load_knowledge(folder)[1]
        most = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert most < 50 * LARGEST_FILE
    assert any("larger than" in p.message for p in problems)


def test_what_is_no_utf8_is_said(folder: Path) -> None:
    """With the byte where it stops."""
    (folder / "sources.yaml").write_bytes(b"- id: caf\xe9\n")
    assert any("not UTF-8" in p.message for p in load_knowledge(folder)[1])


def test_a_byte_order_mark_and_windows_line_ends_are_read(folder: Path) -> None:
    """Editors on other systems write them."""
    for path in folder.rglob("*.*"):
        path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes().replace(b"\n", b"\r\n"))
    assert [*map(str, load_knowledge(folder)[1])] == []


def test_a_file_that_is_not_read_is_said(folder: Path) -> None:
    """A wrong ending, or a folder where a file should be."""
    (folder / "ingredients/notes.txt").write_text("later")
    (folder / "answers/more.md").mkdir()
    assert [p.message for p in load_knowledge(folder)[1]] == ["not read", "not read"]


def test_a_saved_file_changes_the_stamp(folder: Path) -> None:
    """So does a new one; looking changes nothing."""
    before = stamp(folder)
    assert stamp(folder) == before
    path = folder / "sources.yaml"
    path.write_text(path.read_text() + "# a remark\n")
    after = stamp(folder)
    assert after != before
    (folder / "answers/new.md").write_text("")
    assert stamp(folder) != after


@pytest.mark.parametrize("change", [
    lambda folder: (folder / "sources.yaml").write_text((folder / "sources.yaml").read_text() + "# a remark\n"),
    lambda folder: (folder / "answers/new.md").write_text(""),
    lambda folder: (folder / "answers/new").mkdir(),
    lambda folder: (folder / "answers/weigh-moonflour.md").rename(folder / "answers/other.md"),
])  # fmt: skip
def test_the_content_is_another_once_anything_in_it_is(folder: Path, change: Callable[[Path], object]) -> None:
    """What is no file counts too, since it is a problem."""
    before = [*content(folder)]
    assert [*content(folder)] == before
    change(folder)
    assert [*content(folder)] != before


def test_a_library_that_was_kept_is_the_same(folder: Path) -> None:
    """Everything stands in it as it was read."""
    library, _ = load_knowledge(folder, invented=True)
    kept = pickle.loads(pickle.dumps(library))  # noqa: S301 - our own
    assert repr(kept.knowledge) == repr(library.knowledge)
    assert kept.problems == library.problems


def test_a_missing_folder_is_one_clear_line(tmp_path: Path) -> None:
    """It names the folder and the command that makes one."""
    with pytest.raises(UnreadableInput, match=r"no knowledge folder at .*; `levelspoon new DIR` makes one"):
        load_knowledge(tmp_path / "nowhere")


def test_flow_lists_may_hold_a_colon(folder: Path) -> None:
    """YAML 1.2 allows [family:starch]; the fast parser does not, the thorough one is asked then."""
    path = folder / "answers/weigh-moonflour.md"
    path.write_text(path.read_text().replace("[moonflour.fine]", "[family:flour]"))
    library, problems = load_knowledge(folder)
    assert problems == ()
    assert library.answer("weigh-moonflour").about == ("family:flour",)


EXAMPLE = (
    '{"id": "c1", "voice": "v1", "text": "flax or chia, flax?", "language": "en", "kinds": ["question"], "asks": '
    '[{"type": "swap", "ingredients": ["flax", "chia"]}], '
    '"mentions": [{"text": "flax", "ingredient": "flax", "form": "ground"}, '
    '{"text": "chia", "ingredient": "chia", "form": ""}, {"text": "flax", "ingredient": "flax", "form": ""}], '
    '"status": "drafted", "reasons": []}'
)


def test_a_labelled_comment_is_read_with_its_places(tmp_path: Path) -> None:
    """Mentions are found in order, so the second "flax" is the second one."""
    path = tmp_path / "some.jsonl"
    path.write_text(EXAMPLE + "\n\n")
    (example,), problems = load_examples(path)
    assert problems == []
    assert example.mentions == ((0, 4, "flax.ground"), (8, 12, "chia"), (14, 18, "flax"))
    assert example.asks == (("swap", ("flax", "chia")),)


@pytest.mark.parametrize(("old", "new", "says", "do"), [
    ('{"id"', '["id"', "not JSON", "one object"),
    ('"swap"', '"swop"', "'swop' under 'type'", "did you mean 'swap'?"),
    ('"question"', '"qestion"', "'qestion' under 'kinds'", "did you mean 'question'?"),
    ('"drafted"', '"draft"', "'draft' under 'status'", "did you mean 'drafted'?"),
    ('{"text": "chia"', '{"text": "chai"', "'chai' does not stand in the text", "letter by letter"),
    ('"ground"', '"Ground"', "'flax.Ground' is no item", "lower-case"),
    ('"kinds": ["question"]', '"kinds": "question"', "'kinds' is no list", "brackets"),
    ('"form": ""}, ', '"form": "", "end": 3}, ', "the end of 'chia' is not 12", "leave start and end out"),
])  # fmt: skip
def test_a_bad_labelled_line_is_a_problem_at_its_line(tmp_path: Path, old: str, new: str, says: str, do: str) -> None:
    """The other lines are kept."""
    path = tmp_path / "some.jsonl"
    path.write_text(EXAMPLE + "\n" + EXAMPLE.replace('"c1"', '"c2"').replace(old, new, 1) + "\n")
    examples, problems = load_examples(path)
    assert [e.id for e in examples] == ["c1"]
    assert [(p.place.file, p.place.line) for p in problems] == [("some.jsonl", 2)]
    assert says in problems[0].message
    assert do in problems[0].remedy


def test_a_labelled_comment_twice_is_a_problem(tmp_path: Path) -> None:
    """Ids tell examples apart."""
    path = tmp_path / "some.jsonl"
    path.write_text(f"{EXAMPLE}\n{EXAMPLE}\n")
    assert "given twice" in load_examples(tmp_path)[1][0].message


def test_missing_examples_are_one_clear_line(tmp_path: Path) -> None:
    """No traceback."""
    with pytest.raises(UnreadableInput, match="no labelled comments at"):
        load_examples(tmp_path / "none.jsonl")


def test_only_the_text_must_be_there_and_strange_keys_are_passed_over(tmp_path: Path) -> None:
    """Other people's labelled files measure as well as ours."""
    line = (
        '{"comment_id": "x1", "text": "chia for egg?", "seen": true, "asks": [{"type": "swap", "ingredients": [], '
        '"answer": null}], "mentions": [{"start": 0, "end": 4, "ingredient": "chia", "form": "", "sureness": 1}]}\n'
        '{"text": ""}\n'
    )
    (tmp_path / "theirs.jsonl").write_text(line, encoding="utf-8")
    examples, problems = load_examples(tmp_path / "theirs.jsonl")
    assert problems == []
    assert [(e.id, e.mentions, e.answers) for e in examples] == [("x1", ((0, 4, "chia"),), (None,)), ("line 2", (), ())]
