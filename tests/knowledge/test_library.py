"""Looking things up: by id, by item, by name, by measure."""

from __future__ import annotations

from pathlib import Path
from textwrap import dedent, indent

import pytest

from qa.errors import NoKnowledge
from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge
from qa.measures.measure import Measure


def test_a_fact_carries_its_id_into_every_sum(library: Library) -> None:
    """And twice the amount over the amount is exactly two, because it is one variable."""
    density = library.fact("moonflour.fine.bulk-density.moon-tables").measure
    assert density is not None
    one, two = (Measure.exact(n, "us_tbsp") * density for n in (1, 2))
    assert one.facts == ("moonflour.fine.bulk-density.moon-tables",)
    assert ((two / one).value, (two / one).spread) == (2, 0)


@pytest.mark.parametrize(("look", "key", "hint"), [
    ("ingredient", "moonfluor", "moonflour"),
    ("fact", "moonflour.fine.bulk-densty.moon-tables", "moonflour.fine.bulk-density.moon-tables"),
    ("source", "moon-tabels", "moon-tables"),
    ("answer", "weigh-moonflower", "weigh-moonflour"),
    ("episode", "moon-bred", "moon-bread"),
    ("trial", "moon-spoon", "moon-spoons"),
    ("name", "moonflour.fien", "fine"),
])  # fmt: skip
def test_an_unknown_id_gets_the_nearest_spelling(library: Library, look: str, key: str, hint: str) -> None:
    """One line that says what was meant."""
    with pytest.raises(NoKnowledge, match=f"did you mean '{hint}'"):
        getattr(library, look)(key)


def test_the_usual_form_is_filled_in(library: Library) -> None:
    """A cook who says moonflour means the fine one; a form said stays."""
    assert library.usual("moonflour") == "moonflour.fine"
    assert library.usual("moonflour.coarse") == "moonflour.coarse"


def test_facts_of_a_form_come_before_those_of_all_forms(library: Library) -> None:
    """The coarse form has the shared water; its own facts lead."""
    facts = library.facts("moonflour.coarse")
    assert [f.item for f in facts] == ["moonflour.coarse"] * 2 + ["moonflour"] * 3
    assert [f.property for f in library.facts("moonflour.coarse", "water")] == ["water"]
    assert library.facts("no.such") == ()


@pytest.mark.parametrize(("unit", "packing", "first"), [
    ("us_tbsp", "", "moonflour.fine.bulk-density.moon-tables"),
    ("au_tbsp", "", "moonflour.fine.bulk-density.moon-tables"),
    ("us_cup", "", "moonflour.fine.bulk-density.moon-tables:cup"),
    ("cup", "", "moonflour.fine.bulk-density.moon-tables:cup"),
    (None, "", "moonflour.fine.bulk-density.moon-tables"),  # the order of the file
    ("metric_cup", "", "moonflour.fine.bulk-density.moon-tables:cup"),
    ("us_tbsp", "sifted", "moonflour.fine.bulk-density.moon-tables:sifted"),
])  # fmt: skip
def test_the_density_read_with_the_same_measure_comes_first(
    library: Library, unit: str | None, packing: str, first: str
) -> None:
    """A spoonful is worked out from a spoonful weighed, unless the packing asked for was weighed otherwise."""
    found = library.density("moonflour", unit, packing)
    assert found[0].id == first
    assert len(found) == 3


def test_another_country_s_spoon_and_a_laboratory_s_figure_come_last(folder: Path) -> None:
    """And memory comes after a publication, whatever its measure; a wide range after a narrow one."""
    path = folder / "ingredients/starflour.yaml"
    facts = """
        - {form: white, property: bulk density, variant: a, value: 0.5412 g/mL, source: moon-tables}
        - {form: white, property: bulk density, variant: b, value: 8 g/metric_tbsp, region: JP, source: moon-tables}
        - {form: white, property: bulk density, variant: c, value: 8 g/us_tbsp, source: memory}
        - {form: white, property: bulk density, variant: d, value: 80 to 180 g/us_cup, source: moon-tables}
        - {form: white, property: bulk density, variant: e, value: 128 g/us_cup, source: moon-tables}
    """
    path.write_text(path.read_text() + indent(dedent(facts), "  "))
    library, problems = load_knowledge(folder)
    assert problems == ()
    found = library.density("starflour", "us_cup")
    assert [fact.id.partition(":")[2] for fact in found] == ["e", "d", "", "a", "c", "b"]


def test_what_our_kitchen_measured_leads_and_replaces_nothing(folder: Path) -> None:
    """The trial's coarse moonflour (8.2 g a spoon) comes before a published 9 g, which stays to be told."""
    path = folder / "ingredients/moonflour.yaml"
    fact = "  - {form: coarse, property: bulk density, value: 9 ± 0.05 g/us_tbsp, source: moon-tables}\n"
    path.write_text(path.read_text().replace("facts:\n", f"facts:\n{fact}"))
    library, problems = load_knowledge(folder, invented=True)
    assert [*map(str, problems)] == []
    for unit in ("us_tbsp", "us_cup", None):
        assert [fact.tier for fact in library.density("moonflour.coarse", unit)] == ["measured", "published"]
    real, _ = load_knowledge(folder)
    assert [fact.tier for fact in real.density("moonflour.coarse")] == ["published"]


def test_a_trial_gives_a_measured_fact(library: Library) -> None:
    """Mean 8.2 g; spread from s = 0.1 over √3 and 0.1 g of resolution over √12: √(0.0577² + 0.0289²) = 0.0645 g."""
    fact = library.fact("moonflour.coarse.bulk-density.moon-spoons")
    assert fact.tier == "measured"
    assert fact.measure is not None
    assert fact.measure.value == pytest.approx(8.2)
    assert fact.measure.spread == pytest.approx(0.0645, abs=1e-4)
    assert fact.measure.facts == (fact.id,)
    assert library.source_of(fact.id).invented


def test_swaps_are_found_with_the_usual_forms(library: Library) -> None:
    """From the bare names too; one way only."""
    swap = library.swap("moonflour", "starflour")
    assert swap is not None
    assert swap.id == "moonflour.fine.swap.starflour.white"
    assert (swap.ratio.value, swap.ratio.spread, swap.ratio.facts) == (1, 0.1, (swap.id,))
    assert library.swaps_for("moonflour") == (swap,)
    assert library.swap("starflour", "moonflour") is None


def test_a_form_is_not_guessed_between_forms_of_one_ingredient(folder: Path) -> None:
    """Only the usual form stands for the bare name there: sugar beside jaggery is not brown sugar."""
    (folder / "ingredients/moonsugar.yaml").write_text(
        """id: moonsugar
name: moonsugar
family: sugar
forms:
  - {id: white, name: white moonsugar, usual: true}
  - {id: brown, name: brown moonsugar}
  - {id: block, name: block moonsugar}
swaps:
  - {replace: brown, use: moonsugar.block, ratio: 1 ± 0.1, by: weight, changes: darker, source: common-practice}
"""
    )
    library, _ = load_knowledge(folder)
    assert library.swap("moonsugar.brown", "moonsugar.block") is not None
    assert library.swap("moonsugar", "moonsugar.block") is None
    assert library.swap("moonsugar.brown", "moonsugar") is None


def test_what_a_figure_names_can_be_used(library: Library) -> None:
    """Facts, swaps and ways of filling alike have source, tier and version."""
    for key in ("moonflour.fine.swap.starflour.white", "measure.heaped", "moonflour.water.moon-tables"):
        use = library.use(key)
        assert use.id == key
        assert use.source == library.source_of(key).id
        assert len(use.version) == 12


def test_a_name_means_what_it_means_in_the_asker_s_region(library: Library) -> None:
    """Regional names lead in their region, and both stay possible where it is not known."""
    assert library.meanings("Moonstarch", "UK")[0] == "moonflour.fine"
    assert library.meanings("Moonstarch", "US")[0] == "starflour.white"
    assert set(library.meanings("moonstarch")) == {"moonflour.fine", "starflour.white"}
    assert library.meanings("moon-flour") == ("moonflour",)
    assert library.meanings("marble") == ()


def test_an_item_is_called_in_the_region_s_words(library: Library) -> None:
    """English by region, then other languages."""
    assert library.name("moonflour.fine", "UK") == "moonstarch"
    assert library.name("moonflour.fine", "US") == "fine moonflour"
    assert library.name("moonflour", language="de") == "Mondmehl"
    assert library.name("moonflour", language="fr") == "moonflour"


def test_confusions_are_seen_from_both_sides(library: Library) -> None:
    """Of the form, of the ingredient, and of the other one."""
    items = ("moonflour.fine", "moonflour", "starflour.white", "moonflour.coarse")
    assert [len(library.confusions(item)) for item in items] == [1, 1, 1, 0]


def test_a_way_of_filling_depends_on_the_family(library: Library) -> None:
    """Packed sugar has its own factor; other words for heaped are known."""
    heaped = library.measure_word("rounded")
    assert heaped is not None
    assert heaped.word == "heaped"
    packed = library.measure_word("packed", "moonflour")
    assert packed is not None
    assert packed.factor.value == 1.3
    assert library.measure_word("sideways") is None


def test_cautions_and_answers(library: Library) -> None:
    """By item and by ask type."""
    assert library.cautions_for("moonflour.fine") == ("M1",)
    assert library.caution("M1").authority.startswith("Moon Office")
    assert [a.id for a in library.answers("weight")] == ["weigh-moonflour"]
    assert library.answers("colour") == ()


def test_the_nearest_items_to_a_word(library: Library) -> None:
    """For "did you mean" where nothing is known."""
    assert "moonflour" in library.nearest_items("moonflor")
    assert library.nearest_items("xyzzy") == ()
