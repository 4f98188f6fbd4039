"""Energy factors by region, and the energy of a food from them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure
from qa.kitchen.energy import FACTORS, KJ_PER_KCAL, KJ_PER_KCAL_AU, energy, factor_of
from qa.measures.measure import Measure

REGION = {"general": "general", "US": "US", "EU": "EU", "Australia/New Zealand": "AU", "South Africa": "ZA"}
COMPONENT = {
    "carbohydrate less non-digestible carbohydrate and sugar alcohols": "digestible carbohydrate",
    "soluble non-digestible carbohydrate": "soluble fibre", "insoluble non-digestible carbohydrate": "insoluble fibre",
    "carbohydrate except polyols": "carbohydrate", "alcohol (ethanol)": "alcohol",
    "carbohydrate excluding unavailable carbohydrate": "carbohydrate",
    "dietary fibre (unavailable carbohydrate)": "fibre", "organic acids": "organic acid", "D-tagatose": "tagatose",
    "D-allulose": "allulose", "sugar alcohol": "polyols",
}  # fmt: skip
CONVERSIONS = {"conversion kJ per kcal": KJ_PER_KCAL_AU, "conversion kJ per kcal (thermochemical)": KJ_PER_KCAL}


def test_every_published_factor_is_reproduced(rows):
    """51 rows: 21 CFR 101.9(c)(1)(i), Annex XIV, Schedule 11, R.146; memory rows are marked so in the table."""
    faults, done = [], 0
    for row in rows("energy_factors.csv"):
        name = row["component"]
        if name in CONVERSIONS:
            assert CONVERSIONS[name] == float(row["kj_per_g"])
            continue
        factor = factor_of(COMPONENT.get(name, name), REGION[row["region"]])
        for ours, printed in ((factor.kcal, row["kcal_per_g"]), (factor.kj, row["kj_per_g"])):
            if printed and ours != pytest.approx(float(printed), abs=5e-4):
                faults.append(f"{row['region']} {name}: {ours} is not {printed}")
        done += 1
    assert not faults
    assert done == 49


def test_energy_of_a_food_adds_up():
    """10 g carbohydrate, 5 g fibre, 2 g fat: 68 kcal by the EU's factors, 284 kJ."""
    food = {"carbohydrate": Measure.exact(10.0, "g"), "fibre": Measure.exact(5.0, "g"), "fat": Measure.exact(2.0, "g")}
    assert energy(food, "EU").measure.value == pytest.approx(68.0)
    assert energy(food, "EU", "kJ").measure.value == pytest.approx(170 + 40 + 74)
    assert energy(food, "EU").working[1] == "fibre: 5 g × 2 kcal per g = 10 kcal"


def test_where_a_region_prints_one_unit_the_other_is_converted():
    """South Africa prints kJ, the US kcal."""
    ten = {"carbohydrate": Measure.exact(10.0, "g")}
    assert energy(ten, "ZA").measure.value == pytest.approx(170 / 4.184)
    assert energy({"erythritol": Measure.exact(10.0, "g")}, "US", "kJ").measure.value == 0


def test_allulose_has_a_factor_in_two_regions_only():
    """0.4 kcal/g in the US, 2 kJ/g in Australia and New Zealand; the EU lists none."""
    assert factor_of("allulose", "US").kcal == 0.4
    assert factor_of("allulose", "NZ").kj == 2
    with pytest.raises(InvalidMeasure, match="no energy factor"):
        factor_of("allulose", "EU")


@pytest.mark.parametrize(
    ("grams", "region", "unit"), [({}, "EU", "kcal"), ({"fat": 1.0}, "XX", "kcal"), ({"fat": 1.0}, "EU", "BTU"),
                                  ({"fat": -1.0}, "EU", "kcal"), ({"sand": 1.0}, "EU", "kcal")],
)  # fmt: skip
def test_what_cannot_be_counted_is_refused(grams, region, unit):
    """Unknown regions, units and components."""
    with pytest.raises(InvalidMeasure):
        energy({name: Measure.exact(value, "g") for name, value in grams.items()}, region, unit)


@given(st.sampled_from(sorted(FACTORS)), st.floats(0.0, 500.0), st.floats(0.0, 500.0))
def test_energy_grows_with_the_amount(region, a, b):
    """Monotone, and never negative."""
    low, high = sorted((a, b))
    found = [energy({"fat": Measure.exact(x, "g")}, region).measure.value for x in (low, high)]
    assert 0 <= found[0] <= found[1]
