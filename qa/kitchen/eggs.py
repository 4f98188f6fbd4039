"""Eggs by size and country, and a recipe scaled to the eggs on hand.

>>> in_shell("UK", "large")
EggClass(low=63.0, high=73.0, rule='rule:EGG-EU-L')
"""

from __future__ import annotations

from typing import NamedTuple

from qa.errors import InvalidMeasure
from qa.kitchen.sums import Sum
from qa.measures.measure import Measure
from qa.measures.resolve import rectangular
from qa.measures.show import plain
from qa.measures.units import factor


class EggClass(NamedTuple):
    """Grams of one egg in its shell: low belongs to the class, high does not; None for no end."""

    low: float
    high: float | None
    rule: str


# USDA AMS, Grades and Weight Classes for Shell Eggs (AMS 56): least ounces of a dozen, in shell. It is an average over
# the dozen: single eggs may be lighter.
US_OUNCES = {"jumbo": 30, "extra large": 27, "large": 24, "medium": 21, "small": 18, "peewee": 15}
# Commission Regulation (EC) No 589/2008, Article 4 (now Delegated Regulation (EU) 2023/2465, same bounds); UK the same.
EU_GRAMS: dict[str, tuple[float, float | None, str]] = {
    "extra large": (73.0, None, "XL"), "large": (63.0, 73.0, "L"), "medium": (53.0, 63.0, "M"),
    "small": (0.0, 53.0, "S"),
}  # fmt: skip
_LETTERS = {"xl": "extra large", "l": "large", "m": "medium", "s": "small", "very large": "extra large"}
# USDA SR26, Weight file: whole egg without shell (01123), white (01124) and yolk (01125) of a large one, to 1 g.
EDIBLE_US = {"small": 38.0, "medium": 44.0, "large": 50.0, "extra large": 56.0, "jumbo": 63.0}
PARTS_US_LARGE = {"white": 33.0, "yolk": 17.0}
_HALF_GRAM = 0.5


def in_shell(country: str, size: str) -> EggClass:
    """The weight class of an egg size in a country ('US'; 'UK', 'IE' and 'EU' share one), in the shell."""
    name = _LETTERS.get(size.lower(), size.lower())
    if country == "US" and name in US_OUNCES:
        order = list(US_OUNCES)
        above = order[order.index(name) - 1] if order.index(name) else None
        per_egg = factor("oz", "g") / 12
        rule = f"rule:EGG-US-{name.upper().replace(' ', '-')}"
        return EggClass(US_OUNCES[name] * per_egg, US_OUNCES[above] * per_egg if above else None, rule)
    if country in ("EU", "UK", "IE") and name in EU_GRAMS:
        low, high, letter = EU_GRAMS[name]
        return EggClass(low, high, f"rule:EGG-EU-{letter}")
    known = ", ".join(US_OUNCES if country == "US" else EU_GRAMS)
    raise InvalidMeasure(f"no egg class {size!r} is known for {country or 'an unnamed country'}", f"known are {known}")


def edible(size: str = "large") -> Measure:
    """Grams of one American egg without its shell, as USDA prints it (± half a gram)."""
    if size not in EDIBLE_US:
        raise InvalidMeasure(f"no edible weight is known for a {size!r} egg", f"known are {', '.join(EDIBLE_US)}")
    spread = rectangular(-_HALF_GRAM, _HALF_GRAM)
    return Measure.of(EDIBLE_US[size], "g", spread=spread, fact=f"rule:EGG-US-EDIBLE-{size.upper().replace(' ', '-')}")


def edible_in(country: str, size: str) -> Measure:
    """Grams of one egg of a weight class without its shell: anywhere in the class, less the shell of a US large egg.

    Jumbo and extra large classes without an upper end count as five grams wide. InvalidMeasure for an unknown class.

    >>> round(edible_in("UK", "medium").value)
    51
    """
    found = in_shell(country, size)
    if not found.low:
        raise InvalidMeasure(f"a {size} egg may be of any weight below its class", "weigh it")
    high = found.high or found.low + 5.0
    whole = Measure.of((found.low + high) / 2, "g", spread=rectangular(found.low, high), fact=found.rule)
    return whole * (1 - shell_share("US", "large").measure.to("dimensionless").value)


def shell_share(country: str, size: str) -> Sum:
    """How much of an egg is shell, in percent: edible weight against the lightest average of its class."""
    whole = Measure.of(in_shell(country, size).low, "g", fact=in_shell(country, size).rule)
    inside = edible(size)
    share = ((whole - inside) / whole).to("percent")
    return Sum(
        share, (f"({plain(whole.value)} − {plain(inside.value)}) ÷ {plain(whole.value)} = {plain(share.value)} %",)
    )


def egg_factor(wanted: float, on_hand: float, wanted_g: Measure | None = None, on_hand_g: Measure | None = None) -> Sum:
    """The factor for a whole recipe when eggs run short: by number, or by weight where the sizes differ."""
    if wanted <= 0 or on_hand <= 0:
        raise InvalidMeasure("eggs are counted above zero", "give the eggs in the recipe and the eggs on hand")
    if wanted_g is None or on_hand_g is None:
        ratio = Measure.exact(on_hand / wanted, "dimensionless")
        return Sum(ratio, (f"{plain(on_hand)} eggs ÷ {plain(wanted)} eggs = {plain(ratio.value)}",))
    ratio = (on_hand_g * on_hand / (wanted_g * wanted)).to("dimensionless")
    have, need = on_hand * on_hand_g.value, wanted * wanted_g.value
    return Sum(ratio, (f"{plain(have)} g of egg ÷ {plain(need)} g of egg = {plain(ratio.value)}",))


def beaten(eggs: float, one: Measure) -> Sum:
    """Grams of beaten egg for a part of an egg: beat whole ones, then weigh."""
    if eggs < 0:
        raise InvalidMeasure("eggs are not less than none", "give zero or more")
    mass = one * eggs
    return Sum(mass, (f"{plain(eggs)} × {plain(one.value)} g = {plain(mass.value)} g beaten egg",))
