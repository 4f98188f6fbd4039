"""Fresh, active dry and instant yeast for one another; published ratios disagree by a tenth, and that is shown.

>>> found = convert_yeast(Measure.exact(30.0, "g"), "fresh", "instant")
>>> found.text, [round(end, 1) for end in found.ends]
('10 g', [8.4, 10.9])
"""

from __future__ import annotations

from typing import Literal, get_args

from qa.errors import InvalidMeasure
from qa.kitchen.sums import Sum, line, said
from qa.measures.measure import Measure
from qa.measures.resolve import rectangular
from qa.measures.show import plain
from qa.measures.units import dimension

Yeast = Literal["fresh", "active dry", "instant"]
YEASTS: tuple[Yeast, ...] = get_args(Yeast)

SOURCE = "baking reference tables"
SOURCE_OLD = "US yeast-equivalents table: 2/3 oz of cake for a 1/4 oz envelope"
# Mass of the second for one of the first; the first of several is the usual one.
RATIOS: dict[tuple[Yeast, Yeast], tuple[tuple[float, str], ...]] = {
    ("fresh", "active dry"): ((0.4, "YEAST-FRESH-TO-ACTIVE-DRY"), (0.375, "YEAST-FRESH-TO-ACTIVE-DRY-OLD")),
    ("fresh", "instant"): ((0.33, "YEAST-FRESH-TO-INSTANT"),),
    ("active dry", "instant"): ((0.75, "YEAST-ACTIVE-DRY-TO-INSTANT"),),
    ("instant", "active dry"): ((1.33, "YEAST-INSTANT-TO-ACTIVE-DRY"),),
}
# The reference tables differ from one another by about this much.
_DISAGREEMENT = 0.1
# A US packet is sold as 7 g or 2¼ tsp, which makes 3.1 g a teaspoon; USDA SR26 prints 7.2 g a packet and 4.0 g a
# teaspoon of active dry yeast. The two do not go together, so a teaspoon of yeast needs a density of its own source.
PACKET_G = 7.0
PACKET_US_TSP = 2.25


def convert_yeast(amount: Measure, have: Yeast, want: Yeast) -> Sum:
    """Mass of one kind of yeast that raises like a mass of another, with hard ends from the tables' disagreement."""
    if have not in YEASTS or want not in YEASTS:
        raise InvalidMeasure(f"{have!r} to {want!r} is no swap of yeasts", f"known are {', '.join(YEASTS)}")
    if dimension(amount.unit) != "mass" or amount.value < 0:
        raise InvalidMeasure(f"{said(amount)} is no weight of yeast", "give grams of zero or more")
    grams = amount.to("g")
    if have == want:
        return Sum(grams, (f"{said(amount)} stays {said(amount)}",))
    ratio, shares = _ratio(have, want)
    mass = grams * ratio
    low, high = grams.value * min(shares), grams.value * max(shares)
    tables = f"tables give {plain(min(shares))} to {plain(max(shares))}"
    return Sum(mass, (f"{line(f'{said(amount)} × {plain(ratio.value)}', mass)}; {tables}",), low, high)


def _ratio(have: Yeast, want: Yeast) -> tuple[Measure, list[float]]:
    direct = list(RATIOS.get((have, want), ()))
    turned = [(1 / share, rule) for share, rule in RATIOS.get((want, have), ())]
    published = direct or turned
    usual, rule = published[0]
    # Both directions are published; so is a third way round by the other yeast. All of them count as tables.
    other = next(yeast for yeast in YEASTS if yeast not in (have, want))
    around = [a * b for a in _published(have, other) for b in _published(other, want)]
    shares = [*(share for share, _ in direct + turned), *around]
    spread_shares = [*shares, usual * (1 - _DISAGREEMENT), usual * (1 + _DISAGREEMENT)]
    spread = rectangular(min(spread_shares), max(spread_shares))
    return Measure.of(usual, "dimensionless", spread=spread, fact=f"rule:{rule}"), spread_shares


def _published(have: Yeast, want: Yeast) -> list[float]:
    direct = [share for share, _ in RATIOS.get((have, want), ())]
    return direct or [1 / share for share, _ in RATIOS.get((want, have), ())]
