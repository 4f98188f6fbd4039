"""Spoons and cups to grams and back, against two published tables."""

from __future__ import annotations

import json
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure, NoKnowledge
from qa.kitchen.sums import figure
from qa.kitchen.weights import disagreement, normalised_error, to_mass, to_volume
from qa.measures.measure import Measure
from qa.measures.resolve import rectangular

# Measures by count have no volume; their weights are facts of a piece, not sums.
BY_COUNT = {
    "stick", "large", "egg", "packet (0.5 oz)", "envelope (1-1/3 cup)", "extra large", "jumbo", "medium", "small",
    "cake (0.6 oz)", "packet", "envelope (1 tbsp)", "date, pitted", "fig", "prune, pitted",
    'medium (7" to 7-7/8" long)', "lemon yields", "lime yields", "fruit yields", 'cracker (2-1/2" square)',
}  # fmt: skip
FIRST_WORD = {"cup": "us_cup", "tbsp": "us_tbsp", "tablespoon": "us_tbsp", "tsp": "us_tsp", "quart": "us_quart",
              "fl oz": "us_fl_oz"}  # fmt: skip
SECOND = {
    "US cup": "us_cup", "US tablespoon": "us_tbsp", "US teaspoon": "us_tsp", "250 mL": "metric_cup",
    "15 mL": "metric_tbsp", "5 mL": "metric_tsp", "200 mL": "jp_cup", "250 mL cup (xicara)": "metric_cup",
    "15 mL spoon (sopa)": "metric_tbsp", "5 mL spoon (cha)": "metric_tsp",
}  # fmt: skip


def unit_of(measure):
    """Our unit for a measure of the USDA table: 'cup, chopped' is a US cup."""
    return next(unit for word, unit in FIRST_WORD.items() if measure.startswith(word))


def density_of(grams, amount, unit, fact="published"):
    """A bulk density with the spread of its last digit."""
    per = grams / amount
    digits = len(f"{grams:.10f}".rstrip("0").partition(".")[2])
    return Measure.of(per, f"g/{unit}", spread=0.5 * 10**-digits / amount / math.sqrt(3), fact=fact)


def test_the_first_published_table_is_reproduced(rows):
    """USDA SR26: 436 volume weights from their printed densities and back; 27 rows are counts."""
    faults, counted, weighed = [], set(), 0
    for row in rows("household_weights.csv"):
        if not row["density_g_per_ml"]:
            counted.add(row["measure"])
            continue
        unit, amount, grams = unit_of(row["measure"]), float(row["amount"]), float(row["grams"])
        printed = Measure.of(float(row["density_g_per_ml"]), "g/mL", spread=0.5e-4 / math.sqrt(3), fact=row["ndb_no"])
        found = to_mass(Measure.exact(amount, unit), printed)
        low, high = found.ends
        if not low - 1e-9 <= grams <= high + 1e-9 and abs(found.measure.value - grams) > 1e-3 * grams:
            faults.append(f"{row['description']}, {row['measure']}: {found.measure.value} is not {grams} g")
        back = to_volume(Measure.exact(grams, "g"), density_of(grams, amount, unit), unit)
        if abs(back.measure.value - amount) > 1e-9:
            faults.append(f"{row['description']}: {back.measure.value} {unit} is not {amount}")
        weighed += 1
    assert not faults
    assert counted <= BY_COUNT
    assert weighed == 436


def test_the_second_published_table_is_reproduced(rows):
    """593 rows of other authorities, by their own spoons and cups; 16 of them have no volume."""
    faults, without, done = [], 0, 0
    for row in rows("household_weights_2.csv"):
        if not row["density_g_per_ml"]:
            without += 1
            continue
        amount, grams, density = float(row["amount"]), float(row["grams"]), float(row["density_g_per_ml"])
        unit = SECOND.get(row["measure"])
        volume = Measure.exact(amount, unit) if unit else Measure.exact(amount * float(row["measure_ml"]), "mL")
        found = to_mass(volume, Measure.of(density, "g/mL", spread=0.5e-4 / math.sqrt(3), fact=row["source"]))
        if abs(found.measure.value - grams) > max(0.6e-4 * volume.to("mL").value, 1e-3 * grams):
            faults.append(
                f"{row['ingredient']} {row['form']}, {row['measure']}: {found.measure.value} is not {grams} g"
            )
        done += 1
    assert not faults
    assert (done, without) == (577, 16)


def test_the_working_reads_as_a_cook_would_write_it():
    """3 tbsp × 7 g per tbsp = 21 g, with the fact behind it."""
    flax = Measure.of(7.0, "g/us_tbsp", spread=rectangular(6.5, 7.5), fact="flax.ground.bulk-density.usda-sr26")
    shown = figure(to_mass(Measure.exact(3.0, "us_tbsp"), flax))
    assert (shown.text, shown.working) == ("21 g", "3 tbsp × 7 g per tbsp = 21 g")
    assert shown.facts == ("flax.ground.bulk-density.usda-sr26",)
    assert shown.low <= 19.5
    assert shown.high >= 22.5


def test_another_regions_spoon_is_said_in_the_working():
    """Three Australian tablespoons are 60 mL, so 28 g."""
    flax = Measure.of(7.0, "g/us_tbsp", spread=rectangular(6.5, 7.5), fact="flax")
    found = to_mass(Measure.exact(3.0, "au_tbsp"), flax)
    assert found.text == "28 g"
    assert found.working == (
        "3 Australian tbsp = 4.058 US tbsp",
        "4.058 US tbsp × 7 g per US tbsp = 28.4 g, about 28 g",
    )


def test_filling_and_scale_add_their_spread():
    """A heaped spoon is more and less sure; a scale that steps by 1 g adds a rectangle of half a gram."""
    flax = Measure.of(7.0, "g/us_tbsp", spread=rectangular(6.5, 7.5), fact="flax")
    spoon = Measure.exact(1.0, "us_tbsp")
    level = to_mass(spoon, flax).measure
    heaped = to_mass(spoon, flax, fill=Measure.of(1.5, "dimensionless", spread=0.15, fact="heaped")).measure
    weighed = to_mass(spoon, flax, resolution_g=1.0).measure
    assert heaped.value == pytest.approx(1.5 * level.value)
    assert heaped.spread / heaped.value > level.spread / level.value
    assert weighed.spread == pytest.approx(math.hypot(level.spread, rectangular(-0.5, 0.5)))
    assert heaped.facts == ("flax", "heaped")


def test_sources_that_disagree_are_both_given(rows):
    """White rice flour, one cup filled two ways in one test: 148 g spooned and 204 g scooped."""
    table = [r for r in rows("household_weights_2.csv") if r["source"].startswith("Kitchen test of two filling")]
    sums = [
        to_mass(Measure.exact(1.0, "us_cup"), density_of(float(r["grams"]), float(r["amount"]), "us_cup", r["packing"]))
        for r in table
    ]
    found = disagreement(sums)
    assert found is not None
    assert found.ratio == pytest.approx(204 / 148, rel=0.01)
    assert "148 g" in found.words
    assert "204 g" in found.words


def test_normalised_error(rows):
    """ISO/IEC 17043:2010, B.4.1.1 and ISO 13528:2015, 9.7: the worked value; expanded means two spreads here."""
    row = next(row for row in rows("spreads.csv") if row["id"] == "en-number")
    inputs, expected = json.loads(row["inputs_json"]), json.loads(row["expected_json"])
    lab = Measure.of(inputs["x"], "g", spread=inputs["U_lab"] / 2)
    reference = Measure.of(inputs["X"], "g", spread=inputs["U_ref"] / 2)
    found = normalised_error(lab, reference)
    assert found == pytest.approx(expected["En"], abs=float(row["tolerance"]))
    assert (abs(found) <= 1) == expected["satisfactory"]
    assert normalised_error(Measure.exact(2.0, "g"), Measure.exact(1.0, "g")) == math.inf
    assert normalised_error(lab, lab) == 0.0


def test_sources_within_their_spread_do_not_disagree():
    """7 and 7.2 g a spoon are the same figure, printed twice."""
    spoon = Measure.exact(1.0, "us_tbsp")
    pair = [Measure.of(v, "g/us_tbsp", spread=0.29, fact=str(v)) for v in (7.0, 7.2)]
    assert disagreement([to_mass(spoon, density) for density in pair]) is None
    assert disagreement([to_mass(spoon, pair[0])]) is None


@pytest.mark.parametrize(
    ("amount", "density", "says"),
    [
        (Measure.exact(1.0, "us_tbsp"), Measure.of(53.0, "g/mL"), "no density of a food"),
        (Measure.exact(1.0, "us_tbsp"), Measure.of(0.0, "g/mL"), "no density of a food"),
        (Measure.exact(1.0, "us_tbsp"), Measure.of(7.0, "g"), "a density is needed"),
        (Measure.exact(20.0, "min"), Measure.of(0.5, "g/mL"), "a volume is needed"),
        (Measure.exact(-1.0, "us_tbsp"), Measure.of(0.5, "g/mL"), "less than nothing"),
        (Measure.exact(1e9, "us_cup"), Measure.of(0.5, "g/mL"), "more than a kitchen holds"),
    ],
)
def test_impossible_sums_are_one_clear_line(amount, density, says):
    """Wrong units, impossible densities and absurd amounts say what is wrong and what to do."""
    with pytest.raises(InvalidMeasure, match=says) as fault:
        to_mass(amount, density)
    assert fault.value.remedy
    assert "\n" not in str(fault.value)


def test_no_density_no_answer():
    """There is no default, not even water's."""
    with pytest.raises(NoKnowledge):
        to_mass(Measure.exact(1.0, "us_cup"), None)
    with pytest.raises(NoKnowledge):
        to_volume(Measure.exact(100.0, "g"), None, "us_cup")


amounts = st.floats(0.0, 500.0)
densities = st.tuples(st.floats(0.05, 1.6), st.floats(0.001, 0.2))
units = st.sampled_from(["us_tbsp", "us_tsp", "us_cup", "au_tbsp", "metric_cup", "jp_cup", "mL"])


def made(density):
    """A density from a value and a relative spread."""
    return Measure.of(density[0], "g/mL", spread=density[0] * density[1], fact="d")


@given(amounts, amounts, densities, units)
def test_more_volume_never_weighs_less(a, b, density, unit):
    """Monotone in the amount."""
    low, high = sorted((a, b))
    fact = made(density)
    masses = [to_mass(Measure.exact(x, unit), fact).measure.value for x in (low, high)]
    assert masses[0] <= masses[1]


@given(st.floats(0.01, 100.0), st.floats(0.1, 20.0), densities, units)
def test_linear_and_shared_facts_cancel(amount, times, density, unit):
    """N times the amount weighs N times as much, and their ratio has no spread."""
    fact = made(density)
    once, more = (to_mass(Measure.exact(x, unit), fact).measure for x in (amount, amount * times))
    ratio = more / once
    assert ratio.value == pytest.approx(times, rel=1e-9)
    assert ratio.spread == pytest.approx(0.0, abs=1e-9 * times)


@given(st.floats(0.01, 500.0), densities, units, units)
def test_there_and_back(amount, density, unit, other):
    """Weighed, then measured in any spoon, it is the volume it was: the density cancels."""
    fact = made(density)
    mass = to_mass(Measure.exact(amount, unit), fact).measure
    back = to_volume(mass, fact, other).measure.to(unit)
    assert back.value == pytest.approx(amount, rel=1e-9)
    assert back.spread == pytest.approx(0.0, abs=1e-9 * amount)


@given(amounts, densities, units)
def test_a_figure_contains_its_value_and_is_a_number(amount, density, unit):
    """Never NaN, never negative, never outside its own range; the published density stays inside too."""
    shown = figure(to_mass(Measure.exact(amount, unit), made(density)))
    assert 0.0 <= shown.low <= shown.value <= shown.high < math.inf
    assert shown.text
    assert "nan" not in shown.text + shown.working


def test_cups_of_flour_and_sugar_by_kind_and_filling(rows):
    """USDA SR26: 120 to 137 g of wheat flour, 100 to 220 g of sugar in a cup, as the kitchen rules repeat them."""
    cups = {(r["ndb_no"], r["measure"]): float(r["grams"]) for r in rows("household_weights.csv") if r["amount"] == "1"}
    flour = [
        cups[key] for key in (("20080", "cup"), ("20081", "cup"), ("20083", "cup"), ("20084", "cup unsifted, dipped"))
    ]
    assert flour == [120, 125, 137, 137]
    rule = next(row for row in rows("kitchen_rules.csv") if row["id"] == "FLOUR-CUP-SPREAD")
    assert rule["output"] == f"{min(flour):g} to {max(flour):g}"
    sugar = [cups[key] for key in (("19335", "cup"), ("19334", "cup packed"), ("19334", "cup unpacked"),
                                   ("19336", "cup unsifted"), ("19336", "cup sifted"))]  # fmt: skip
    rule = next(row for row in rows("kitchen_rules.csv") if row["id"] == "SUGAR-CUP")
    assert [float(word) for word in rule["output"].split() if word.isdigit()] == sugar
