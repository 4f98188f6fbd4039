"""The whole week on the demo's invented channel, and the promises of the workbench."""

import json
import re
from pathlib import Path

import jsonschema
import pytest

from qa import contract
from qa.errors import LevelspoonError, NoWorkbench
from qa.knowledge.load import load_examples
from qa.settings import Settings, shipped
from qa.text import number_spans
from qa.workbench import Workbench, parse_mapping


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Workbench:
    folder = tmp_path_factory.mktemp("bench") / "demo"
    Workbench.demo(folder, lambda _words: None)
    return Workbench.open(folder)


@pytest.fixture(scope="module")
def starter() -> Workbench:
    return Workbench.starter()


@pytest.fixture(scope="module")
def replies(demo: Workbench) -> list[contract.ReplyShape]:
    return list(demo.replies())


def test_every_sample_comment_ends_somewhere(demo: Workbench, replies):
    labelled, _ = load_examples(shipped("sample_comments") / "labelled" / "demo.jsonl")
    assert {reply["comment_id"] for reply in replies} == {example.id for example in labelled}
    assert sum(demo.counts()["by_status"].values()) == len(labelled)


def test_reading_again_adds_nothing_and_the_account_adds_up(demo: Workbench):
    for path in sorted(shipped("sample_comments").glob("*.csv")):
        count = demo.read(path, episode=path.stem)
        assert count["stored"] == 0
        assert count["rows_read"] == count["already_known"] + len(count["set_aside"])


def test_every_number_in_every_reply_is_a_figure_or_stands_in_a_name(demo: Workbench, replies):
    names = [name.text for name, _ in demo.library.names() if number_spans(name.text)]
    for reply in replies:
        text = reply["reply"] or reply["part"] or ""
        spans = [(figure["start"], figure["end"]) for figure in reply["figures"]]
        for figure in reply["figures"]:
            assert text[figure["start"] : figure["end"]] == figure["text"]
            assert figure["low"] <= figure["value"] <= figure["high"]
            by_definition = "asker" in figure["working"] or "by definition" in figure["working"]
            assert figure["facts"] or by_definition or _is_their_sum(figure["working"], reply["text"])
        for start, end in number_spans(text):
            inside = any(a <= start and end <= b for a, b in spans)
            assert inside or any(text[start:end] in name and name in text for name in names), (
                reply["comment_id"],
                text,
            )


def _is_their_sum(working: str, text: str) -> bool:
    """A sum of the asker's own numbers is vouched for by them: each number before the "=" stands in the comment."""
    return all(number in text for number in re.findall(r"\d+", working.partition("=")[0]))


def test_replies_keep_to_the_contract(replies):
    schema = contract.schema("replies")
    for reply in replies:
        jsonschema.validate(reply, schema)
        assert (reply["reply"] is not None) == (reply["status"] in {"drafted", "ask_back"})


def test_viewers_of_one_upload_are_thanked_in_different_words(replies):
    lines = (shipped("templates") / "voice.txt").read_text(encoding="utf-8").splitlines()
    thanked = {line for line in lines for reply in replies if line and (reply["reply"] or "").startswith(line)}
    assert len(thanked) > 1


def test_no_comment_that_asks_about_health_or_a_hazard_is_drafted(replies):
    labelled, _ = load_examples(shipped("sample_comments") / "labelled" / "demo.jsonl")
    kept = {e.id for e in labelled if e.status == "needs_you" and set(e.reasons) & {"health", "unsafe", "legal"}}
    assert kept
    assert [r["comment_id"] for r in replies if r["comment_id"] in kept and r["status"] == "drafted"] == []


def test_cautions_of_a_reply_stand_in_it(demo: Workbench, replies):
    for reply in replies:
        if reply["reply"]:
            for caution in reply["cautions"]:
                assert demo.library.caution(caution).text in reply["reply"]


def test_invented_readings_never_reach_a_real_channel(starter: Workbench, tmp_path: Path):
    assert starter.library.knowledge.trials == ()
    real = Workbench.create(tmp_path / "real")
    assert not list((tmp_path / "real" / "knowledge" / "trials").glob("*.yaml"))
    assert not list((tmp_path / "real" / "knowledge" / "episodes").glob("*.yaml"))
    assert real.problems == ()


def test_the_tip_sheet_fits_credits_and_says_that_it_is_invented(demo: Workbench):
    sheet = demo.round_up()
    assert len(sheet["text"]) <= demo.settings.round_up_characters
    assert "invented" in sheet["title"]
    assert "thanks to" in sheet["text"]
    assert "invented for demonstration" in sheet["text"]
    for figure in sheet["figures"]:
        assert sheet["text"][figure["start"] : figure["end"]] == figure["text"]
    assert "<script" not in sheet["html"]
    sources = re.findall(r"<li>(.*?)</li>", sheet["html"])
    assert sources
    assert len(sources) == len(set(sources)), "a source stands once on the page, however many facts it gives"
    jsonschema.validate(sheet, contract.schema("roundup"))


def test_the_next_tests_are_planned_at_equal_weight_with_repeats(demo: Workbench):
    plans = demo.next(5)
    assert plans
    for plan in plans:
        assert len(plan["levels"]) >= 2
        assert plan["repeats"]["value"] >= 2
        assert plan["constant"]


def test_contradictions_between_video_and_recipe_are_owed(demo: Workbench):
    conflicts = demo.owed()["conflicts"]
    assert max(len(debt["comments"]) for debt in conflicts) >= 3


def test_forgetting_a_viewer_removes_every_trace(demo: Workbench, replies):
    author = "spreadsheet_sven"
    assert any(reply["author"] == author for reply in replies)
    assert demo.forget(author) > 0
    assert all(reply["author"] != author for reply in demo.replies())
    path = shipped("sample_comments") / "seed-eggs.csv"
    demo.read(path, episode="seed-eggs")
    demo.draft()
    assert all(reply["author"] != author for reply in demo.replies())
    assert author not in json.dumps(demo.round_up())


def test_the_same_question_gets_the_same_answer(starter: Workbench):
    question = "how many grams is 3 tbsp of ground flaxseed?"
    assert starter.ask(question) == starter.ask(question)


def test_the_published_weight_of_flax(starter: Workbench):
    """USDA SR26, NDB 12220: 1 tbsp of ground flaxseed is 7 g."""
    reply = starter.ask("how many grams is 3 tbsp of ground flaxseed?")
    assert reply["status"] == "drafted"
    figure = next(f for f in reply["figures"] if f["unit"] == "g")
    assert figure["low"] <= 21 <= figure["high"]
    assert figure["facts"]
    assert "3 tbsp × 7 g per tbsp = 21 g" in figure["working"]


def test_a_health_question_goes_to_a_person_without_advice(starter: Workbench):
    reply = starter.ask("I take blood thinners, can I eat flax every day?")
    assert (reply["status"], reply["reasons"], reply["reply"], reply["part"]) == ("needs_you", ["health"], None, None)
    assert "S34" in reply["cautions"]


@pytest.mark.parametrize("text", ["what size pan did you use?", "which cocoa did you use here?"])
def test_what_only_the_maker_of_the_video_knows_is_left_to_them(starter: Workbench, text: str):
    assert starter.ask(text)["status"] == "needs_you"


def test_a_measure_without_an_ingredient_is_asked_back(starter: Workbench):
    reply = starter.ask("how many grams in a cup")
    assert reply["status"] == "ask_back"
    assert "gredient" in (reply["reply"] or "")


@pytest.mark.parametrize(
    "text", ["", "   ", "😀😀😀", "\u200b", "?", "lovely " * 150_000, "\x00\x01", "{{ 7*7 }}", "=1+1"]
)
def test_odd_texts_end_quietly(starter: Workbench, text):
    reply = starter.ask(text)
    assert reply["status"] in {"no_reply", "needs_you"}
    assert reply["reply"] is None


def test_a_workbench_is_never_made_over_something(tmp_path: Path):
    (tmp_path / "notes.txt").write_text("mine")
    with pytest.raises(NoWorkbench, match="not empty"):
        Workbench.create(tmp_path)
    assert (tmp_path / "notes.txt").read_text() == "mine"


def test_what_is_no_workbench_says_how_to_make_one(tmp_path: Path):
    with pytest.raises(NoWorkbench, match="levelspoon new DIR"):
        Workbench.open(tmp_path)


def test_a_broken_knowledge_file_silences_only_itself(tmp_path: Path):
    bench = Workbench.create(tmp_path / "b", Settings(channel="x"))
    path = tmp_path / "b" / "knowledge" / "ingredients" / "chia.yaml"
    path.write_text(
        path.read_text(encoding="utf-8").replace("source: usda-sr26", "source: usda-sr62"), encoding="utf-8"
    )
    broken = Workbench.open(tmp_path / "b")
    assert broken.problems
    assert all("chia.yaml" in problem.place.file and problem.place.line for problem in broken.problems)
    assert broken.weigh("1 us tbsp ground flax") == bench.weigh("1 us tbsp ground flax")


def test_knowledge_is_read_once_until_something_in_it_changes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    bench = Workbench.create(tmp_path / "bench")
    first = bench.library
    monkeypatch.setattr("qa.workbench.load_knowledge", lambda *_, **__: pytest.fail("read again"))
    again = Workbench.open(tmp_path / "bench").library
    assert (again.counts(), again.problems) == (first.counts(), first.problems)
    monkeypatch.undo()
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    (tmp_path / "bench" / "knowledge" / "ingredients" / "spoilt.yaml").write_text("id: [", encoding="utf-8")
    assert len(Workbench.open(tmp_path / "bench").library.problems) == len(first.problems) + 1


@pytest.mark.parametrize(
    ("words", "mapping"),
    [("text=body", {"text": "body"}), ("text=a.b, author=c", {"text": "a.b", "author": "c"}), ("", {})],
)
def test_mappings_as_people_type_them(words, mapping):
    assert parse_mapping(words) == mapping


def test_every_schema_is_one():
    for name in contract.SHAPES:
        jsonschema.Draft202012Validator.check_schema(contract.schema(name))


def test_an_unknown_ingredient_is_one_clear_line(starter: Workbench):
    with pytest.raises(LevelspoonError, match="unobtainium"):
        starter.weigh("2 tbsp unobtainium")
