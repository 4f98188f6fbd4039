"""Equal sweetness from published ranges."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import InvalidMeasure
from qa.kitchen.sweetness import Sweetness, blend_sweetness, equal_sweetness, lost_bulk, shown_sweetness, sweeten
from qa.measures.measure import Measure

SUGAR = Measure.exact(100.0, "g")


def test_every_published_range_gives_its_range(rows):
    """41 rows of four journals, the FDA's page and a dictionary: 100 g of sugar over each end of the range."""
    table = rows("sweetness.csv")
    faults = []
    for row in table:
        low, high = float(row["low"]), float(row["high"])
        usual = float(row["typical"]) if row["typical"] else None
        sweetness = Sweetness.of(low, usual, high, fact=row["sweetener"])
        found = equal_sweetness(SUGAR, sweetness)
        if found.ends != (pytest.approx(100 / high), pytest.approx(100 / low)):
            faults.append(row["sweetener"])
        if usual and found.measure.value != pytest.approx(100 / usual):
            faults.append(row["sweetener"])
        if sweetness.is_extract != (row["class"] == "high intensity"):
            faults.append(f"{row['sweetener']} is {row['class']}")
    assert not faults
    assert len(table) == 41


def test_erythritol_for_sugar():
    """0.6 to 0.8, usually 0.7: 143 g for 100 g of sugar, 125 to 167."""
    erythritol = Sweetness.of(0.6, 0.7, 0.8, fact="erythritol")
    found = sweeten(SUGAR, erythritol, "polyol", region="EU", component="erythritol")
    assert found.amount.measure.value == pytest.approx(142.857, abs=1e-3)
    assert found.amount.ends == pytest.approx((125.0, 166.667), abs=1e-3)
    assert found.bulk.measure.value == 0
    assert found.energy is not None
    assert found.energy.measure.value == pytest.approx(400.0)
    assert "brown" in found.words


def test_an_extract_leaves_nearly_all_the_bulk_to_make_up():
    """Steviol glycosides at 200 to 400: a quarter to half a gram for 100 g of sugar."""
    stevia = Sweetness.of(200.0, None, 400.0, fact="stevia")
    found = sweeten(SUGAR, stevia, "high intensity")
    assert found.amount.ends == pytest.approx((0.25, 0.5))
    assert found.is_extract
    assert found.bulk.measure.value == pytest.approx(100 - 100 / (200 * 400) ** 0.5)
    assert found.energy is None


def test_a_blend_is_sweeter_than_its_bulk():
    """Three parts in a thousand of extract double the sweetness of erythritol."""
    parts = {"erythritol": (0.997, Sweetness.of(0.6, 0.7, 0.8)), "extract": (0.003, Sweetness.of(200.0, 250.0, 300.0))}
    blend = blend_sweetness(parts)
    assert blend.measure.value == pytest.approx(0.997 * 0.7 + 0.75)
    assert not blend.is_extract
    with pytest.raises(InvalidMeasure, match="add up"):
        blend_sweetness({"half": (0.5, Sweetness.of(0.6, 0.7, 0.8))})


def test_between_two_sweeteners_the_order_does_not_matter():
    """From honey to sugar and back is where we began, within the ranges."""
    honey = Sweetness.of(1.0, 1.0, 1.5, fact="honey")
    sugar = equal_sweetness(Measure.exact(100.0, "g"), Sweetness.of(1.0, 1.0, 1.0), honey)
    assert sugar.ends == pytest.approx((100.0, 150.0))


def test_sweetness_from_a_fact_and_in_words():
    """A fact with a spread becomes a range; words name it without false digits."""
    fact = Measure.of(0.7, "dimensionless", spread=0.05, fact="erythritol.sweetness.table")
    assert Sweetness.from_measure(fact).high == pytest.approx(0.8)
    assert shown_sweetness(Sweetness.of(0.6, 0.7, 0.8)) == "0.7 times as sweet as sugar"


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Sweetness.of(0.0, None, 1.0),
        lambda: Sweetness.of(2.0, None, 1.0),
        lambda: Sweetness.of(0.5, 0.9, 0.8),
        lambda: Sweetness.from_measure(Measure.exact(1.0, "g")),
        lambda: equal_sweetness(Measure.exact(1.0, "us_cup"), Sweetness.of(1.0, 1.0, 1.0)),
        lambda: equal_sweetness(Measure.exact(-1.0, "g"), Sweetness.of(1.0, 1.0, 1.0)),
    ],
)
def test_what_is_no_sweetness_is_refused(wrong):
    """Zero, turned-about ranges, cups for grams."""
    with pytest.raises(InvalidMeasure):
        wrong()


@given(st.floats(0.1, 1000.0), st.floats(0.1, 500.0), st.floats(1.0, 3.0), st.floats(1.0, 10.0))
def test_linear_and_the_range_holds_the_value(sugar, low, wider, times):
    """N times the sugar needs N times the sweetener; bulk lost is never negative."""
    sweetness = Sweetness.of(low, None, low * wider)
    once = equal_sweetness(Measure.exact(sugar, "g"), sweetness)
    more = equal_sweetness(Measure.exact(sugar * times, "g"), sweetness)
    assert more.measure.value == pytest.approx(times * once.measure.value)
    assert once.ends[0] <= once.measure.value <= once.ends[1]
    assert lost_bulk(Measure.exact(sugar, "g"), once).measure.value >= 0
