"""Pans: base area, volume, and the factor that takes a recipe from one to another.

>>> pan_factor(Pan("round", (8.0,), "inch"), Pan("round", (9.0,), "inch")).text
'1.27'
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Literal

from qa.errors import InvalidMeasure
from qa.kitchen.sums import Sum
from qa.measures.measure import Measure
from qa.measures.parse import find_amounts
from qa.measures.show import plain
from qa.measures.units import factor

Shape = Literal["round", "square", "oblong"]
_SHAPES = re.compile(r"\b(round|circular|springform|square|tray|sheet|loaf|oblong|rectangular)\b", re.IGNORECASE)
_ROUND = frozenset({"round", "circular", "springform"})
_UNITS = ("inch", "cm", "mm", "pan")
_MOST_CM = 200.0


@dataclass(frozen=True, slots=True)
class Pan:
    """A pan by its inner base: one size for round (diameter) and square (side), two for oblong (loaf, tray).

    Attributes:
        unit: 'inch', 'cm' or 'mm'.
        depth: filled depth in the same unit; None to compare at equal depth.
        count: how many of them.
    """

    shape: Shape
    sizes: tuple[float, ...]
    unit: str
    depth: float | None = None
    count: int = 1

    def __post_init__(self) -> None:
        wanted = 2 if self.shape == "oblong" else 1
        if len(self.sizes) != wanted:
            raise InvalidMeasure(
                f"a {self.shape} pan has {wanted} size(s), not {len(self.sizes)}", "like 9x13 or 8 round"
            )
        lengths = [*self.sizes, *([] if self.depth is None else [self.depth])]
        if any(not 0 < length * factor(self.unit, "cm") <= _MOST_CM for length in lengths):
            raise InvalidMeasure(f"no oven holds a pan of {lengths} {self.unit}", "check the size and its unit")

    @property
    def area(self) -> float:
        """Base area of all of them in cm²; a round one is π d² / 4."""
        sides = [size * factor(self.unit, "cm") for size in self.sizes]
        one = math.pi * sides[0] ** 2 / 4 if self.shape == "round" else sides[0] * sides[-1]
        return self.count * one

    @property
    def text(self) -> str:
        """As a cook says it: '9 inch round', '9 × 13 inch'."""
        size = " × ".join(plain(size) for size in self.sizes)
        several = f"{self.count} of " if self.count > 1 else ""
        return f"{several}{size} {self.unit}" + ("" if self.shape == "oblong" else f" {self.shape}")


def pan_factor(old: Pan, new: Pan) -> Sum:
    """How much of a recipe for the old pan fills the new one as deep (or to the depths given)."""
    areas = new.area / old.area
    depths = 1.0
    if old.depth is not None and new.depth is not None:
        depths = new.depth * factor(new.unit, "cm") / (old.depth * factor(old.unit, "cm"))
    ratio = Measure.of(areas * depths, "dimensionless", fact="rule:PAN-FORMULA")
    lines = [f"{pan.text}: {plain(pan.area)} cm²" for pan in (old, new)]
    deeper = "" if depths == 1.0 else f" × {plain(depths)} for the depth"
    return Sum(ratio, (*lines, f"{plain(new.area)} ÷ {plain(old.area)}{deeper} = {plain(ratio.value)}"))


def read_pan(text: str, unit: str = "") -> Pan:
    """A pan as written: '9x13', '8 inch round', '20cm square', '9 x 5 x 3 in loaf'; `unit` where the text has none.

    >>> read_pan("an 8 inch springform").area > read_pan("20cm square").area
    False
    """
    lengths = [amount for amount in find_amounts(text) if amount.unit in (*_UNITS, "")]
    if not lengths:
        raise InvalidMeasure(f"no pan size stands in {text!r}", "write it like 9x13 inch or 20 cm round")
    written = next((a.unit for a in lengths if a.unit in _UNITS[:3]), unit)
    if not written:
        raise InvalidMeasure(f"whether {text!r} is in inches or centimetres is not said", "add inch or cm")
    sizes = tuple(amount.value for amount in lengths[:3])
    word = _SHAPES.search(text)
    shape: Shape = "round" if word and word[1].lower() in _ROUND else "square" if len(sizes) == 1 else "oblong"
    if len(sizes) == 1 and word is None:
        raise InvalidMeasure(f"whether {text!r} is round or square is not said", "add round or square")
    if shape == "round":
        return Pan("round", sizes[:1], written, sizes[1] if len(sizes) > 1 else None)
    return Pan(shape, sizes[:2] if shape == "oblong" else sizes, written, sizes[2] if len(sizes) > 2 else None)
