"""What every sum of the trade gives: a measure, the lines of working, and the figure made from them.

>>> figure(Sum(Measure.of(21.0, "g", spread=0.87, fact="flax.density"), ("3 tbsp × 7 g per tbsp = 21 g",))).text
'21 g'
"""

from __future__ import annotations

from dataclasses import dataclass

from qa.errors import InvalidMeasure
from qa.measures.measure import Measure
from qa.measures.show import plain, show, show_range, unit_name
from qa.records import Figure

_FULL_NAMES = {"pct": "percent", "piece": "each", "dimensionless": ""}


@dataclass(frozen=True, slots=True)
class Sum:
    """The outcome of a sum.

    Attributes:
        measure: value with spread, tagged with the facts behind it.
        working: lines a person can follow, in order.
        low, high: hard ends (label rounding, a stated range) in the measure's unit; None for the value ± 2 spreads.

    """

    measure: Measure
    working: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None

    def __post_init__(self) -> None:
        if not self.ends[0] <= self.measure.value <= self.ends[1]:
            raise InvalidMeasure(
                f"{self.measure.value:g} {self.measure.unit} lies outside its own range {self.low:g} to {self.high:g}",
                "this is a fault of the sum; please report it",
            )

    @property
    def ends(self) -> tuple[float, float]:
        """The ends of the shown range, in the measure's unit."""
        low = self.measure.low if self.low is None else self.low
        high = self.measure.high if self.high is None else self.high
        return low, high

    @property
    def unit(self) -> str:
        """The registry unit of the result; '' for a ratio."""
        return full_unit(self.measure.unit)

    @property
    def text(self) -> str:
        """The value as it may be shown."""
        return show(self.measure.value, *self.ends, self.unit)


def figure(result: Sum, *, as_range: bool = False) -> Figure:
    """The figure a reply may show; as a range ('17 to 23 g') where the ends matter more than the middle."""
    low, high = result.ends
    text = show_range(low, high, result.unit) if as_range else result.text
    working = "\n".join(result.working)
    return Figure(text, result.measure.value, low, high, result.unit, result.measure.facts, working)


def full_unit(unit: str) -> str:
    """The registry's full name where its short one is not what we show: 'pct' is 'percent'."""
    return _FULL_NAMES.get(unit, unit)


def said(measure: Measure) -> str:
    """A measure in a line of working: '3 tbsp', '7 g per tbsp'.

    >>> said(Measure.exact(7.0, "g/us_tbsp"))
    '7 g per tbsp'
    """
    name = unit_name(full_unit(measure.unit), measure.value)
    return f"{plain(measure.value)} {name}".rstrip()


def line(left: str, result: Measure) -> str:
    """A line of working that ends in a result, with what is shown of it where that is rounder.

    >>> line("9.468 g", Measure.exact(9.468, "g"))
    '9.468 g = 9.468 g, about 9 g'
    """
    shown = show(result.value, result.low, result.high, full_unit(result.unit))
    exact = said(result)
    return f"{left} = {exact}" + ("" if exact == shown else f", about {shown}")
