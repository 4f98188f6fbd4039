"""How each type of question is tested in a kitchen: levels, dose, what to hold constant, what to read.

>>> shape_of("swap").dose
'equal weight, never equal spoonfuls'
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple


class Reads(NamedTuple):
    """A quantity to read, in which unit, and the step of the instrument."""

    quantity: str
    unit: str
    resolution: float


@dataclass(frozen=True, slots=True)
class Shape:
    """How a type of question is tested: `beside` and `alone` serve where it names one thing only.

    Attributes:
        effort: beside a series of bakes, our own estimate; told says it in words.
    """

    hypothesis: str
    factor: str
    beside: str
    alone: str
    dose: str
    constant: tuple[str, ...]
    read: tuple[str, ...]
    quantities: tuple[Reads, ...]
    effort: float = 1.0
    told: str = "a series of bakes"


_BAKE = (
    "recipe and batch size by weight",
    "oven, shelf and measured temperature",
    "tin and filling weight",
    "baking time",
)
_AS_WRITTEN = "the recipe as written"
_HEIGHT, _LOSS = Reads("height", "mm", 1), Reads("weight lost in baking", "g", 1)
_SHAPES: dict[str, Shape] = {
    "swap": Shape(
        "{second} gives the same height and crumb as {first} at equal weight",
        "ingredient",
        "without {first}",
        "the bake has the same height and crumb {second}",
        "equal weight, never equal spoonfuls",
        _BAKE,
        ("height when cold, in millimetres", "weight lost in baking, in grams", "crumb and flavour, tasted blind"),
        (_HEIGHT, _LOSS),
    ),
    "weight": Shape(
        "a level spoonful of {second} weighs as much as the same of {first}",
        "filling",
        "{first}, scooped and levelled",
        "a level spoonful of {first} weighs the same however it is filled",
        "level spoonfuls from a freshly stirred packet",
        ("spoon", "packet", "scale"),
        ("grams per spoonful, on a fine scale",),
        (Reads("spoonful", "g", 0.1),),
        0.25,
        "minutes with a scale",
    ),
    "colour": Shape(
        "{first} changes the colour whatever {second} does",
        "ingredient",
        _AS_WRITTEN,
        "{first} changes the colour",
        "equal weight",
        (*_BAKE, "light and camera setting"),
        ("colour against a printed scale, an hour and a day after baking",),
        (Reads("colour after a day, on the printed scale", "", 1),),
    ),
    "storage": Shape(
        "{first} keeps its texture as long as {second}",
        "storage",
        "eaten fresh",
        "{first} is as soft as when it was fresh",
        "equal portions, wrapped alike",
        ("batch", "wrapping", "room temperature"),
        ("softness by a weight set on the crumb, each day", "taste, blind"),
        (Reads("dent under the weight", "mm", 1),),
        2.0,
        "a few days",
    ),
}
_OTHER = Shape(
    "{first} makes a difference to the result beside {second}",
    "the thing asked about",
    _AS_WRITTEN,
    "{first} makes a difference to the result beside {second}",
    "by weight",
    _BAKE,
    ("height when cold, in millimetres", "crumb and flavour, tasted blind"),
    (_HEIGHT,),
)
_SHAPES["convert"] = _SHAPES["weight"]


def shape_of(kind: str) -> Shape:
    """How a type of question is tested."""
    return _SHAPES.get(kind, _OTHER)
