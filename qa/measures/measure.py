"""A value that never travels without its unit, its spread and the facts behind it.

Arithmetic goes through pint and uncertainties, so a fact used twice is one variable and cancels:

>>> density = Measure.of(7, "g/us_tbsp", spread=0.29, fact="flax.ground.bulk-density.usda-sr26")
>>> one, two = Measure.exact(1, "us_tbsp") * density, Measure.exact(2, "us_tbsp") * density
>>> ratio = two / one
>>> (ratio.value, round(ratio.spread, 9))
(2.0, 0.0)
"""

from __future__ import annotations

import math
import warnings
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import pint
from uncertainties import ufloat
from uncertainties.core import AffineScalarFunc

from qa.errors import InvalidMeasure
from qa.measures.units import dimension, registry

# A shown range is the value ± 2 standard spreads, about 95 % for a bell curve (GUM 6.3.3, from memory).
COVERAGE = 2.0


@dataclass(frozen=True, slots=True)
class Measure:
    """A quantity with spread.

    Attributes:
        quantity: a pint quantity whose magnitude is an uncertainties number; its variables are tagged with fact ids.

    """

    quantity: Any

    def __reduce__(self) -> tuple[Any, ...]:
        """Kept as number and unit, since a unit means something in our registry only."""
        return _again, (self.quantity.magnitude, str(self.quantity.units))

    @classmethod
    def of(cls, value: float, unit: str, *, spread: float = 0.0, fact: str | None = None) -> Measure:
        """A measured value; spread is one standard uncertainty in the same unit, fact the id that vouches for it."""
        if not (math.isfinite(value) and math.isfinite(spread)) or spread < 0:
            raise InvalidMeasure(f"{value} ± {spread} {unit} is no measure", "give a finite value and a spread of 0 up")
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # uncertainties warns of spread 0, which is right for a definition
            number = ufloat(value, spread, tag=fact)
        dimension(unit)
        return cls(registry().Quantity(number, unit))

    @classmethod
    def exact(cls, value: float, unit: str) -> Measure:
        """A value by definition or as somebody wrote it: no spread and no fact."""
        return cls.of(value, unit)

    @property
    def value(self) -> float:
        """The best estimate, in the measure's own unit."""
        return float(self._number.nominal_value)

    @property
    def spread(self) -> float:
        """One standard uncertainty, in the measure's own unit."""
        return float(self._number.std_dev)

    @property
    def unit(self) -> str:
        """The unit as the registry abbreviates it, e.g. 'g' or 'us_tbsp'."""
        return f"{self.quantity.units:~}".replace(" ", "")

    @property
    def low(self) -> float:
        """The low end of the shown range; never below zero for what cannot be negative."""
        low = self.value - COVERAGE * self.spread
        return max(0.0, low) if self.value >= 0 and dimension(str(self.quantity.units)) != "temperature" else low

    @property
    def high(self) -> float:
        """The high end of the shown range."""
        return self.value + COVERAGE * self.spread

    @property
    def facts(self) -> tuple[str, ...]:
        """Ids of all facts that went into it, in order."""
        return tuple(sorted({v.tag for v in self._number.derivatives if v.tag}))

    @property
    def _number(self) -> AffineScalarFunc:
        number = self.quantity.magnitude
        return number if isinstance(number, AffineScalarFunc) else ufloat(number, 0)

    def to(self, unit: str) -> Measure:
        """The same in another unit; InvalidMeasure if that unit measures something else."""
        try:
            return Measure(self.quantity.to(unit))
        except pint.DimensionalityError as fault:
            raise InvalidMeasure(
                f"cannot turn {dimension(str(self.quantity.units))} ({self.unit}) into {dimension(unit)} ({unit})",
                "a density (g/mL) of that ingredient is needed",
            ) from fault

    def __mul__(self, other: Measure | float) -> Measure:
        return Measure(self.quantity * (other.quantity if isinstance(other, Measure) else other))

    __rmul__ = __mul__

    def __truediv__(self, other: Measure | float) -> Measure:
        divisor = other.quantity if isinstance(other, Measure) else other
        try:
            return Measure(self.quantity / divisor)
        except ZeroDivisionError as fault:
            raise InvalidMeasure("division by nothing", "give an amount above zero") from fault

    def __add__(self, other: Measure) -> Measure:
        return Measure(self.quantity + other.to(self.unit).quantity)

    def __sub__(self, other: Measure) -> Measure:
        return Measure(self.quantity - other.to(self.unit).quantity)


def facts_of(measures: Iterable[Measure]) -> tuple[str, ...]:
    """Ids of all facts behind several measures, in order, each once."""
    return tuple(sorted({fact for measure in measures for fact in measure.facts}))


def _again(number: Any, unit: str) -> Measure:
    """A measure that was kept."""
    return Measure(registry().Quantity(number, unit))
