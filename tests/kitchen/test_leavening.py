"""Soda, acids and baking powder, against published molar masses, ratios and kitchen rules."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure
from qa.kitchen.leavening import (
    ACIDS,
    POWDER_GAS,
    acid_needed,
    balance,
    gas,
    judge_substitute,
    leaven,
    molar_mass,
    neutralising_value,
    powder_for_soda,
    ratio_to_soda,
    soda_neutralised,
    without_powder,
)
from qa.kitchen.weights import to_mass, to_volume
from qa.measures.measure import Measure
from qa.measures.resolve import rectangular

THEORY = {"COT": "cream of tartar", "GDL": "glucono-delta-lactone", "FUM": "fumaric acid", "CIT": "citric acid",
          "TART": "tartaric acid", "ACE": "acetic acid", "LAC": "lactic acid"}  # fmt: skip
# USDA SR26, Weight file, 18372, 18369 and 18373: grams of a level US teaspoon.
SODA_SPOON = Measure.of(4.6, "g/us_tsp", spread=rectangular(4.55, 4.65), fact="soda.sr26")
POWDER_SPOON = Measure.of(4.6, "g/us_tsp", spread=rectangular(4.55, 4.65), fact="powder.sr26")
TARTAR_SPOON = Measure.of(3.0, "g/us_tsp", spread=rectangular(2.95, 3.05), fact="tartar.sr26")


def grams(value, spread=0.0, fact=None):
    """A mass."""
    return Measure.of(value, "g", spread=spread, fact=fact)


def spoons(value):
    """A volume in US teaspoons."""
    return Measure.exact(value, "us_tsp")


@pytest.fixture
def table(rows):
    """Rows of the leavening table by id."""
    return {row["id"]: row for row in rows("leavening.csv")}


def test_molar_masses(table):
    """Nineteen substances from IUPAC atomic weights (memory), to a thousandth."""
    masses = {key: row for key, row in table.items() if key.startswith("MM-")}
    assert len(masses) == 19
    for row in masses.values():
        assert molar_mass(row["formula"]) == pytest.approx(float(row["value"]), abs=6e-4)


def test_cream_of_tartar_ratio(table):
    """2.24 g for each gram of soda: chemistry and the Food additives data book agree."""
    found = ratio_to_soda("cream of tartar")
    assert found.measure.value == pytest.approx(float(table["RATIO-COT-SODA"]["value"]), abs=5e-4)
    assert found.measure.value == pytest.approx(float(table["EQ-CREAM-OF-TARTAR"]["value"]), abs=5e-3)
    assert found.working[0].startswith("188.2 ÷ (1 × 84.01)")


def test_theoretical_neutralising_values(table):
    """Grams of soda per 100 g of acid from all its hydrogens."""
    for key, name in THEORY.items():
        value = neutralising_value(name, theory=True).to("percent").value
        assert value == pytest.approx(float(table[f"NVT-{key}"]["value"]), abs=0.06)


def test_titrated_neutralising_values(table):
    """Eight practical values of the trade; phosphates and sulfates are dosed by these and never by chemistry."""
    titrated = {
        row["quantity"].split(", ")[1]: float(row["value"]) for key, row in table.items() if key.startswith("NV-")
    }
    assert len(titrated) == 8
    for name, value in titrated.items():
        assert ACIDS[name].titrated == value
        if ACIDS[name].misleads:
            assert neutralising_value(name).to("percent").value == pytest.approx(value)
            assert neutralising_value(name).spread > 0


def test_parts_of_acid_per_part_of_soda(table):
    """Food additives data book: pure SAPP and GDL are their chemistry, commercial ones their titration."""
    sapp = 1 / neutralising_value("sodium acid pyrophosphate", theory=True).value
    assert sapp == pytest.approx(float(table["EQ-SAPP-PURE"]["value"]), abs=5e-3)
    assert 1 / neutralising_value("glucono-delta-lactone").value == pytest.approx(
        float(table["EQ-GLUCONO-DELTA-LACTONE"]["value"]), abs=5e-3
    )
    commercial = ratio_to_soda("sodium acid pyrophosphate").measure
    assert commercial.low <= float(table["EQ-SAPP-COMMERCIAL"]["value"]) <= commercial.high
    phosphate = ratio_to_soda("monocalcium phosphate monohydrate").measure
    assert phosphate.low <= float(table["EQ-ACID-CALCIUM-PHOSPHATE-COMMERCIAL"]["value"]) <= phosphate.high
    pure = 3 * molar_mass("Ca(H2PO4)2") / (8 * molar_mass("NaHCO3"))
    assert pure == pytest.approx(float(table["EQ-ACID-CALCIUM-PHOSPHATE-PURE"]["value"]), abs=5e-4)


def test_the_pyrophosphate_puzzle(table):
    """One free hydrogen in ten more than one would give 42, both give 76; titration gives 72."""
    per_hydrogen = 100 * molar_mass("NaHCO3") / molar_mass("Na2H2P2O7")
    assert (1.1 * per_hydrogen, 2 * per_hydrogen) == (pytest.approx(41.6, abs=0.05), pytest.approx(75.7, abs=0.05))
    assert ACIDS["sodium acid pyrophosphate"].titrated == float(table["SAPP-PUZZLE"]["value"])


def test_gas(table):
    """Carbon dioxide by acid, by heat alone, and its volume at two temperatures."""
    assert gas(grams(1.0)).measure.value == pytest.approx(float(table["CO2-ACID"]["value"]), abs=5e-5)
    assert gas(grams(1.0), by_heat=True).measure.value == pytest.approx(float(table["CO2-HEAT"]["value"]), abs=5e-5)
    assert gas(grams(1.0), celsius=25.0).measure.value == pytest.approx(float(table["CO2-VOL25"]["value"]), abs=0.5)
    assert gas(grams(1.0), celsius=100.0).measure.value == pytest.approx(float(table["CO2-VOL100"]["value"]), abs=0.6)


def test_the_popular_substitute_neutralises_58_percent(table):
    """¼ tsp soda and ½ tsp cream of tartar by USDA weights: 58 % neutral; 0.86 tsp would be."""
    soda, tartar = to_mass(spoons(0.25), SODA_SPOON), to_mass(spoons(0.5), TARTAR_SPOON)
    assert soda.measure.value == pytest.approx(float(table["KE-BP-MASSCHECK-SODA"]["value"]))
    assert tartar.measure.value == pytest.approx(float(table["KE-BP-MASSCHECK-COT"]["value"]))
    judged = judge_substitute(soda.measure, tartar.measure)
    assert judged.share.measure.value == pytest.approx(100 * float(table["KE-BP-MASSCHECK-NEUTRAL"]["value"]), abs=0.5)
    assert judged.share.text == "58 %"
    assert not judged.right
    needed = to_volume(judged.tartar.measure, TARTAR_SPOON, "us_tsp")
    assert needed.measure.value == pytest.approx(float(table["KE-BP-STOICH-TSP"]["value"]), abs=5e-3)
    assert needed.text == "⅞ tsp"


def test_the_stronger_rule_has_the_same_fault(table):
    """A third and two thirds of a teaspoon (KE-BP-THIRDS) have the same ratio, so the same 58 %."""
    assert table["KE-BP-THIRDS"]["value"] == "1/3 + 2/3"
    judged = judge_substitute(to_mass(spoons(1 / 3), SODA_SPOON).measure, to_mass(spoons(2 / 3), TARTAR_SPOON).measure)
    assert judged.share.text == "58 %"


def test_enough_cream_of_tartar_is_right_and_too_much_is_not():
    """At 2.24 to 1 it is neutral; twice that is sour."""
    assert judge_substitute(grams(1.0), grams(2.24)).right
    assert not judge_substitute(grams(1.0), grams(4.48)).right


def test_out_of_baking_powder_by_weight(table):
    """A powder must give 12 % gas (BP-CO2-MIN, memory): 1 tsp of it is matched by about ¼ tsp of soda."""
    assert float(table["BP-CO2-MIN"]["value"]) == 100 * POWDER_GAS
    powder = to_mass(spoons(1.0), POWDER_SPOON).measure
    assert powder.value == pytest.approx(float(table["W-BP-TSP"]["value"]))
    home = without_powder(powder, SODA_SPOON, TARTAR_SPOON)
    assert home.soda.measure.value == pytest.approx(4.6 * 0.12 / 0.52388, rel=1e-4)
    assert home.soda_spoons is not None
    assert home.soda_spoons.text == "¼ tsp"
    assert home.tartar.measure.value == pytest.approx(2.240 * home.soda.measure.value, rel=1e-3)
    assert without_powder(powder).tartar_spoons is None


def test_soda_is_matched_by_three_to_four_spoons_of_powder(table):
    """KE-SODA-FROM-BP says 3 to 4 tsp; at the legal minimum of gas the sum gives a little more."""
    spoonfuls = to_volume(powder_for_soda(to_mass(spoons(1.0), SODA_SPOON).measure).measure, POWDER_SPOON, "us_tsp")
    assert table["KE-SODA-FROM-BP"]["value"] == "3 to 4"
    assert spoonfuls.measure.value == pytest.approx(4.37, abs=0.01)


def test_the_spoon_weights_used_here(table):
    """USDA SR26, as the table prints them."""
    assert SODA_SPOON.value == float(table["W-SODA-TSP"]["value"])
    assert TARTAR_SPOON.value == float(table["W-COT-TSP"]["value"])


def test_every_row_of_the_table_is_used(table):
    """Two rows say what to pour and hold no sum: buttermilk for powder, and soured milk for buttermilk."""
    prefixes = ("MM-", "NVT-", "NV-", "EQ-", "CO2-", "KE-BP-MASSCHECK", "KE-BP-STOICH", "W-")
    named = {"RATIO-COT-SODA", "SAPP-PUZZLE", "BP-CO2-MIN", "KE-BP-THIRDS", "KE-SODA-FROM-BP", "KE-BP-SODA-COT"}
    left = {key for key in table if not key.startswith(prefixes)} - named
    assert left == {"KE-BP-BUTTERMILK", "KE-BUTTERMILK"}


def test_spare_soda_and_its_signs():
    """An acid food with a known neutralising value: what it leaves of the soda, and what that does."""
    acid = Measure.of(0.012, "dimensionless", spread=0.001, fact="acid-food.example")
    short = balance(grams(2.3), [("an acid food", grams(60.0), acid)])
    assert short.spare.measure.value == pytest.approx(2.3 - 0.72)
    assert short.signs
    assert short.neutralised.measure.facts == ("acid-food.example",)
    enough = balance(grams(2.3), [("an acid food", grams(240.0), acid)])
    assert (enough.spare.measure.value, enough.signs, enough.spare_acid) == (0.0, (), True)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: molar_mass("Xx2"),
        lambda: neutralising_value("tartar creme"),
        lambda: acid_needed(spoons(1.0), neutralising_value("citric acid")),
        lambda: soda_neutralised(grams(-1.0), neutralising_value("citric acid")),
        lambda: acid_needed(grams(1.0), Measure.exact(0.0, "dimensionless")),
        lambda: balance(grams(0.0), []),
    ],
)
def test_wrong_inputs_are_one_clear_line(wrong):
    """Unknown elements and acids, spoons for grams, nothing to neutralise."""
    with pytest.raises(InvalidMeasure):
        wrong()


masses = st.floats(0.01, 100.0)


@given(masses, masses, st.sampled_from(sorted(ACIDS)))
def test_soda_is_conserved(soda, acid, name):
    """What is neutralised and what is spare add up to the soda, and neither is negative."""
    found = balance(grams(soda), [(name, grams(acid), neutralising_value(name))])
    assert found.neutralised.measure.value + found.spare.measure.value == pytest.approx(soda)
    assert 0 <= found.share.measure.value <= 100 + 1e-9
    assert found.spare.measure.value >= 0


@given(masses, st.sampled_from(sorted(ACIDS)))
def test_acid_and_soda_there_and_back(soda, name):
    """The acid that a soda needs neutralises just that soda, without spread: the value is one variable."""
    value = neutralising_value(name)
    back = soda_neutralised(acid_needed(grams(soda), value).measure, value).measure
    assert back.value == pytest.approx(soda)
    assert back.spread == pytest.approx(0.0, abs=1e-9 * soda)


def test_a_recipes_leavening_as_a_whole():
    """Spare soda, gas, the cream of tartar that would balance it, and the powder that lifts as much."""
    value = neutralising_value("cream of tartar")
    found = leaven(grams(1.15), [("cream of tartar", grams(1.5), value)])
    assert found.balance.share.text == "58 %"
    assert found.gas.measure.value == pytest.approx(1.5 / 2.240 * 0.52388, rel=1e-3)
    assert found.tartar.measure.value == pytest.approx(1.15 * 2.240 - 1.5, abs=1e-3)
    assert found.as_powder.measure.value == pytest.approx(found.gas.measure.value / POWDER_GAS, rel=1e-4)
    assert leaven(grams(1.0)).balance.share.measure.value == 0
