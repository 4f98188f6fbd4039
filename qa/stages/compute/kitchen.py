"""Sweetness, yeast, pans, eggs and ovens."""

from __future__ import annotations

import re

from qa.errors import InvalidMeasure, Missing, NoKnowledge
from qa.kitchen import eggs as egg_sums
from qa.kitchen import heat, pans, sweetness, yeast
from qa.kitchen.read_pans import find_eggs, find_oven, find_pans
from qa.kitchen.read_yeast import Yeasts, find_yeasts
from qa.kitchen.sums import Sum, figure
from qa.knowledge.library import Library
from qa.measures.measure import Measure
from qa.measures.parse import Amount
from qa.measures.show import plain
from qa.records import Figure
from qa.stages.compute.asked import Asked
from qa.stages.compute.named import theirs

# What an energy table calls a sweetener, where that is not the name of the ingredient.
_ENERGY_NAMES = frozenset(
    ("erythritol", "xylitol", "maltitol", "sorbitol", "isomalt", "lactitol", "mannitol", "allulose")
)
_KINDS = {"allulose": "rare sugar", "tagatose": "rare sugar"}
_FAN = re.compile(r"\b(?:fan|convection|hot air|circulating)\b", re.IGNORECASE)
_IS_FAN = re.compile(
    r"(?:\d\s?(?:[°º]\s?)?c?\s?\(?fan|fan\s(?:is|of|at|temp\w*|oven\s(?:at|recipe))\s?\d|\d\s?c?\sconvection)\b",
    re.IGNORECASE,
)
# Who writes "200 fan" bakes in Celsius; "250 convection" may be either.
_BRITISH = re.compile(r"\bfan\b", re.IGNORECASE)
_SHAPES = re.compile(r"\b(?:round|circular|springform|square)s?\b", re.IGNORECASE)
_SUGARS = frozenset(("sugar", "syrup"))
YEASTS: dict[str, yeast.Yeast] = {
    "yeast.fresh": "fresh", "yeast.active-dry": "active dry", "yeast.instant": "instant",
}  # fmt: skip


def sweetness_of(item: str, library: Library) -> sweetness.Sweetness:
    """How sweet an item is beside sugar: the first fact, with its range."""
    fact = next((f for f in library.facts(library.usual(item), "sweetness") if f.measure is not None), None)
    if fact is None or fact.measure is None:
        forms = [f"{item.partition('.')[0]}.{form.id}" for form in library.ingredient(item).forms]
        known = [library.name(form) for form in forms if library.facts(form, "sweetness")]
        remedy = f"name the form: {', '.join(known)}" if known else "add one to knowledge/ingredients"
        raise NoKnowledge(f"nobody has given the sweetness of {library.name(library.usual(item))}", remedy)
    share = fact.measure.to("")
    half = share.spread * 3**0.5  # facts given as a range come as a rectangle of that half width (GUM 4.3.7)
    return sweetness.Sweetness(share, max(share.value - half, share.value / 100), share.value + half)


def kind_of(item: str, library: Library) -> str:
    """What sort of sweetener it is, as `sweetness.sweeten` names them."""
    ingredient = library.ingredient(item)
    if ingredient.id in _KINDS:
        return _KINDS[ingredient.id]
    if ingredient.family in _SUGARS:
        return "sugar"
    if sweetness_of(item, library).is_extract:
        return "high intensity"
    return "polyol" if ingredient.id in _ENERGY_NAMES else "bulking agent"


def sweetened(asked: Asked, amount: str, item: str, use: str, region: str = "") -> sweetness.Sweetened:
    """A sweetener in the place of an amount of sugar, with all that changes."""
    form, other = asked.item(item), asked.item(use)
    measure = asked.grams(asked.written(amount), form).measure
    sugar, new = sweetness_of(form, asked.library), sweetness_of(other, asked.library)
    component = asked.library.ingredient(other).id
    counted = component if component in _ENERGY_NAMES else ""
    relative = Measure(measure.quantity) if abs(sugar.measure.value - 1) < 0.01 else measure * sugar.measure
    try:
        return sweetness.sweeten(relative.to("g"), new, kind_of(other, asked.library), region=region if counted else "",
                                 component=counted)  # fmt: skip
    except InvalidMeasure:  # the region's labels have no energy factor of it
        return sweetness.sweeten(relative.to("g"), new, kind_of(other, asked.library))


def sweeten(asked: Asked, amount: str, item: str, use: str) -> Figure:
    """Grams of a sweetener as sweet as an amount of sugar, as the range that published sweetness leaves."""
    return figure(sweetened(asked, amount, item, use).amount, as_range=True)


def bulk(asked: Asked, amount: str, item: str, use: str) -> Figure:
    """Grams of bulk that go missing when a sweetener takes the place of sugar."""
    return figure(sweetened(asked, amount, item, use).bulk, as_range=True)


def sweetener_kind(asked: Asked, use: str) -> str:
    """'sugar', 'rare sugar', 'polyol', 'high intensity' or 'bulking agent'."""
    return kind_of(asked.item(use), asked.library)


def raised(asked: Asked, amount: str, item: str, use: str) -> Figure:
    """Grams of one kind of yeast that raise like another's, as the range that reference tables leave."""
    have, want = asked.item(item), asked.item(use)
    if have not in YEASTS or want not in YEASTS:
        raise NoKnowledge(f"{have} to {want} is no swap of yeasts", "ask about fresh, active dry or instant yeast")
    measure = asked.grams(asked.written(amount), have).measure
    return figure(yeast.convert_yeast(measure, YEASTS[have], YEASTS[want]), as_range=True)


def yeasts(asked: Asked, part: str) -> Figure | str:
    """Of two kinds of yeast: the amount `said`, its `result`; (word) `have`, `want`, `verdict` on what is claimed."""
    text = asked.showing("yeasts")
    found = find_yeasts(text)
    if found is None:
        raise Missing("missing_amount", "the ask does not name two kinds of yeast and an amount of one")
    if part in ("have", "want"):
        kind = found.have if part == "have" else found.want
        return "dry" if found.loose and kind == "active dry" else kind
    if part == "said":
        return theirs(text, found.amount.start, found.amount.end, found.amount)
    result = _as_other_yeast(asked.resolved(found.amount), found)
    if part == "verdict":
        return _yeast_verdict(found.claimed, result)
    return figure(result, as_range=True)


def _as_other_yeast(measure: Measure, found: Yeasts) -> Sum:
    """By weight; by the spoon the same ratio is taken, since the grains pack alike. "Dry" alone covers both kinds."""
    gram = yeast.convert_yeast(Measure.exact(1.0, "g"), found.have, found.want)
    low, high = gram.ends
    other: yeast.Yeast | None = next((kind for kind in yeast.YEASTS if kind not in (found.have, found.want)), None)
    if found.loose and other == "instant":
        kinds = ("instant" if kind == "active dry" else kind for kind in (found.have, found.want))
        also = yeast.convert_yeast(Measure.exact(1.0, "g"), *kinds)
        low, high = min(low, also.ends[0]), max(high, also.ends[1])
    ratio = (gram.measure / Measure.exact(1.0, "g")).to("dimensionless")
    line = f"{plain(measure.value)} × {plain(ratio.value)}; tables give {plain(low)} to {plain(high)}"
    return Sum(measure * ratio, (line,), low * measure.value, high * measure.value)


def _yeast_verdict(claimed: Amount | None, result: Sum) -> str:
    if claimed is None:
        return ""
    low, high = result.ends
    return "right" if 0.95 * low <= claimed.value <= 1.05 * high else "wrong"


def pan(asked: Asked, part: str) -> Figure | str:
    """Of two pans, the recipe's first: the 'factor', each 'old' or 'new' pan's 'area', or the 'verdict' in words."""
    found = find_pans(asked.showing("pans"))
    if len(found) < 2:
        raise Missing("missing_detail", "the ask names too few pans, or not their shapes")
    old, new = found[:2]
    factor = pans.pan_factor(old, new)
    if part == "verdict":
        change = factor.measure.value
        return "about the same" if abs(change - 1) <= 0.1 else "bigger" if change > 1 else "smaller"
    if part == "factor":
        return figure(factor)
    one = old if part == "old" else new
    shown = one.text if _SHAPES.search(asked.showing("pans")) else one.text.removesuffix(f" {one.shape}")
    return Figure(shown, one.area, one.area, one.area, "", (), "the asker's own pan", theirs=True)


def eggs(asked: Asked, part: str) -> Figure | str:
    """Eggs wanted and on hand: the 'factor' for the whole recipe, the grams 'beaten' that are missing, 'verdict'."""
    found = find_eggs(asked.showing("eggs"))
    if found is None:
        raise Missing("missing_detail", "the ask does not say the eggs in the recipe and those on hand")
    wanted, have = found
    if part == "verdict":
        return "short" if have < wanted else "over" if have > wanted else "even"
    if part == "missing":
        return figure(egg_sums.beaten(abs(wanted - have), egg_sums.edible("large")))
    if part == "factor":
        return figure(egg_sums.egg_factor(wanted, have))
    value = wanted if part == "wanted" else have
    return Figure(f"{value:g}", value, value, value, "", (), "the asker's own number", theirs=True)


def oven(asked: Asked, scale: str) -> Figure | str:
    """The oven setting asked about in degC, degF or gas_mark, or a 'fan' oven's; 'said' is as the asker wrote it.

    'dial' is what charts and dials print for it in °C, 'still' the setting of an oven without a fan for a fan oven's.
    'kind' is the word 'is fan' where their setting is a fan oven's already, 'fan' where they speak of one.
    """
    text = asked.showing("oven")
    is_fan = bool(_IS_FAN.search(text))
    if scale == "kind":
        return "is fan" if is_fan else "fan" if _FAN.search(text) else ""
    said = find_oven(text)
    if said is None:
        raise Missing("missing_amount", "the ask names no oven setting")
    if scale == "said":
        return theirs(text, said.start, said.end, said)
    try:
        readings = heat.oven(said.value, said.unit)
    except InvalidMeasure as fault:
        raise Missing("missing_detail", str(fault)) from fault
    if len(readings) > 1 and not (is_fan and _BRITISH.search(text)):
        raise Missing("missing_measure", "the degrees may be Celsius or Fahrenheit")
    found = _setting(readings[0], scale, is_fan=is_fan)
    if found is None:
        raise Missing("missing_detail", f"that setting has no {scale.replace('_', ' ')}")
    return figure(found)


def _setting(reading: heat.Oven, scale: str, *, is_fan: bool) -> Sum | None:
    """On one of the scales; a fan setting goes from what charts and dials print, since nobody sets 157 degrees."""
    celsius = reading.on["degC"]
    if scale == "gas_mark" and is_fan:
        return heat.gas_for_fan(celsius.measure.value)
    printed = heat.printed(celsius) if reading.scale == "degF" else celsius
    if scale == "dial":
        return printed
    if scale in ("fan", "still") and reading.fan is not None:
        return heat.fan(printed.measure.value) if scale == "fan" else heat.still(celsius.measure.value)
    return reading.on.get(scale)
