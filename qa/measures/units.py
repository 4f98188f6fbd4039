"""The registry of units: our own list, and what a region means by a bare spoon, cup, pint or ounce.

>>> factor("us_tbsp", "mL")
14.78676478125
>>> regional("tbsp", "AU")
'au_tbsp'
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from qa.errors import InvalidMeasure
from qa.text import nearest

REGIONS = ("US", "CA", "AU", "NZ", "UK", "IE", "EU", "JP")

_METRIC = {
    "tbsp": "metric_tbsp",
    "tsp": "metric_tsp",
    "cup": "metric_cup",
    "fl_oz": "imperial_fl_oz",
    "pint": "imperial_pint",
    "quart": "imperial_quart",
    "gallon": "imperial_gallon",
    "gill": "imperial_gill",
}
# What a bare measure means to a cook of that region. Figures and their sources stand in units.txt.
# That UK and Irish cooks use 15 mL spoons and (when at all) a 250 mL cup is common practice, no source.
_BY_REGION: dict[str, dict[str, str]] = {
    "US": {
        "tbsp": "us_tbsp",
        "tsp": "us_tsp",
        "cup": "us_cup",
        "fl_oz": "us_fl_oz",
        "pint": "us_pint",
        "quart": "us_quart",
        "gallon": "us_gallon",
    },
    "CA": _METRIC,
    "AU": _METRIC | {"tbsp": "au_tbsp"},
    "NZ": _METRIC,
    "UK": _METRIC,
    "IE": _METRIC,
    "EU": _METRIC,
    "JP": _METRIC | {"cup": "jp_cup"},
}
BARE = ("tbsp", "tsp", "cup", "fl_oz", "pint", "quart", "gallon", "gill")


@cache
def registry() -> Any:
    """The one pint registry, read from units.txt on first use (it is not imported at start-up)."""
    import pint  # heavy: reading comments needs only the names of units

    found: Any = pint.UnitRegistry(str(Path(__file__).with_name("units.txt")), autoconvert_offset_to_baseunit=True)
    found.formatter.default_format = "~"
    return found


@cache
def known(unit: str) -> bool:
    """Whether a unit, or a product such as g/us_tbsp, is in the registry."""
    try:
        registry().Unit(unit)
    except (AttributeError, ValueError, TypeError):  # pint's own errors are kinds of these
        return False
    return True


@cache
def factor(unit: str, other: str) -> float:
    """How many of the other unit one unit is; InvalidMeasure if they measure different things."""
    for name in (unit, other):
        if not known(name):
            hint = nearest(name, dir(registry()))
            raise InvalidMeasure(f"{name!r} is no unit", f"did you mean {hint!r}?" if hint else "see units.txt")
    try:
        return float(registry().Quantity(1.0, unit).to(other).magnitude)
    except TypeError as fault:  # pint's DimensionalityError is one
        raise InvalidMeasure(
            f"{unit} measures {dimension(unit)}, {other} measures {dimension(other)}",
            "a density (g/mL) is needed to go from one to the other",
        ) from fault


@cache
def dimension(unit: str) -> str:
    """What a unit measures: mass, volume, density, count, share, temperature, or pint's own words for it.

    >>> dimension("g/us_cup")
    'density'
    """
    words = {
        "[mass]": "mass",
        "[volume]": "volume",
        "[mass] / [volume]": "density",
        "[count]": "count",
        "dimensionless": "share",
        "[temperature]": "temperature",
        "[time]": "time",
    }
    found = str(registry().Unit(unit).dimensionality)
    return words.get(found, found)


def regional(unit: str, region: str | None) -> str | None:
    """The unit a region means by a bare measure; the unit itself if it is not bare; None if the region is unknown.

    >>> regional("cup", None) is None
    True
    """
    if unit not in BARE:
        return unit
    return _BY_REGION.get(region or "", {}).get(unit)
