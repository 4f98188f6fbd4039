"""Files to begin with can be read at once, whatever people typed."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import LevelspoonError
from qa.knowledge.load import load_knowledge
from qa.knowledge.nodes import read_yaml
from qa.knowledge.stubs import answer_stub, fact_stub, id_of, ingredient_stub, names_stub, phrasings_stub, with_facts

NASTY = 'is "tiger: nut" #1 {{ 7*7 }} {% evil %} \\ or\n---\nid: not? & *x'


def test_an_ingredient_stub_lacks_its_family_alone(folder: Path) -> None:
    """Moved as it is, it is a problem with one remedy; filled in, it is knowledge."""
    path = folder / "ingredients/tigernut.yaml"
    path.write_text(ingredient_stub("tigernut", ["does it work with tigernut", NASTY]))
    library, problems = load_knowledge(folder)
    assert [(p.place.file, p.message) for p in problems] == [
        ("knowledge/ingredients/tigernut.yaml", "an ingredient has no 'family'")
    ]
    assert not library.has("tigernut")
    path.write_text(path.read_text().replace("family: ", "family: seed "))
    library, problems = load_knowledge(folder)
    assert problems == ()
    assert library.ingredient("tigernut").name == "tigernut"
    assert library.facts("tigernut") == ()


def test_an_answer_stub_asks_for_its_reply(folder: Path) -> None:
    """The phrasings are kept letter by letter; without a reply it answers nobody."""
    asked = ["does moonflour glow", "moonflour glow??", "why is it glowing", "glow or no glow", "glowing loaf"]
    path = folder / "answers/moon-glow.md"
    path.write_text(answer_stub("moon glow", ["colour"], ["moonflour"], asked, ["weigh-moonflour"]))
    library, problems = load_knowledge(folder)
    assert [p.message for p in problems] == ["a reply without words"]
    assert "moon-glow" not in [answer.id for answer in library.knowledge.answers]
    assert "# nearest answers: weigh-moonflour" in path.read_text()
    path.write_text(path.read_text() + "It does, by moonlight.\n")
    library, problems = load_knowledge(folder)
    assert problems == ()
    assert library.answer("moon-glow").phrasings == tuple(asked)


def test_a_fact_stub_sleeps_until_it_is_filled_in(folder: Path) -> None:
    """With the marks in front nothing is read; without them it is a fact."""
    path = folder / "ingredients/starflour.yaml"
    stub = fact_stub("starflour.white", "gel time", NASTY)
    text, line = with_facts(path.read_text(), stub)
    path.write_text(text)
    assert text.splitlines()[line - 1].startswith("# To fill in: is")
    assert load_knowledge(folder)[1] == ()
    awake = "\n".join(row.removeprefix("#") if row.startswith("#  ") else row for row in text.splitlines())
    value = awake.replace("value:  ", "value: 5 to 10 min ").replace("source:  ", "source: memory ")
    path.write_text(value + "\n")
    library, problems = load_knowledge(folder)
    assert [*map(str, problems)] == []
    assert [fact.source for fact in library.facts("starflour.white", "gel time")] == ["memory"]
    with pytest.raises(LevelspoonError, match="no property is called 'glow'"):
        fact_stub("starflour.white", "glow")


@pytest.mark.parametrize("facts", ["facts: []\nswaps: []\n", "facts:   # none yet\n", "swaps: []\n", ""])
def test_facts_find_their_place_wherever_there_were_none(folder: Path, facts: str) -> None:
    """An empty list, an empty key, no key at all."""
    text = f"id: moondust\nname: moondust\nfamily: seed\n{facts}"
    line = "  - {property: water, value: 3 %, source: moon-tables}\n"
    made, at = with_facts(text, line)
    (folder / "ingredients/moondust.yaml").write_text(made)
    library, problems = load_knowledge(folder)
    assert problems == ()
    (fact,) = library.facts("moondust")
    assert fact.place.line == at


@given(
    st.lists(st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=80), min_size=1, max_size=5)
)
def test_what_people_type_stays_text(typed: list[str]) -> None:
    """No key, anchor or second document comes out of it."""
    for stub in (
        ingredient_stub(f"x {typed[0]}", typed),
        answer_stub("x", ["other"], [], typed).split("\n---\n")[0],
        "names:\n" + names_stub("flax", dict.fromkeys(typed, 1), typed),
        "phrasings:\n" + phrasings_stub("x", typed),
        "facts:\n  - {property: water}\n" + fact_stub("flax", "water", typed[0]),
    ):
        nodes, problems = read_yaml(stub, "stub")
        assert problems == []
        assert len(nodes) == 1
        assert nodes[0].kind == "mapping"


def test_nasty_phrasings_come_back_as_they_are() -> None:
    """But for line breaks."""
    front = answer_stub("x", ["other"], [], [NASTY]).split("\n---\n")[0]
    (node,), _ = read_yaml(front, "stub")
    phrasings = node.get("phrasings")
    assert phrasings is not None
    assert phrasings.items[0].text == " ".join(NASTY.split())


def test_an_id_is_made_from_a_latin_name() -> None:
    """And refused for any other, so that no two of them get one file."""
    assert [id_of(name) for name in ("Tigernut Flour!", "ñame", "../../etc")] == ["tigernut-flour", "name", "etc"]
    with pytest.raises(LevelspoonError, match="in Latin letters"):
        id_of("面粉")
