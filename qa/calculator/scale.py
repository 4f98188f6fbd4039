"""Recipes and amounts times a factor: a number, two pans, or the eggs on hand."""

from __future__ import annotations

from qa.calculator.words import amount_of, asked_of, plainly
from qa.contract import ScaledLineShape, ScaleShape, sum_shape, worked_shape
from qa.errors import InvalidMeasure
from qa.kitchen.formulas import Line, formula_of
from qa.kitchen.pans import Pan, read_pan
from qa.kitchen.scaling import Scaled
from qa.kitchen.scaling import scale as scaled
from qa.kitchen.sums import Sum, figure, line, said
from qa.knowledge.library import Library
from qa.measures.show import plain
from qa.records import Figure

_MOST = 1000.0


def scale(
    words: str,
    library: Library,
    region: str,
    *,
    times: float | None = None,
    pans: tuple[str, str] | None = None,
    eggs: tuple[float, float] | None = None,
    episode: str = "",
) -> ScaleShape:
    """An amount ("500 g flour"), an episode's recipe, or nothing but the factor, by one way of scaling.

    Raises:
        InvalidMeasure: no way of scaling or several, or a factor no kitchen meets.
        NoKnowledge: an ingredient or episode that is not known.
    """
    if times is not None and not 0 < times <= _MOST:
        raise InvalidMeasure(f"{plain(times)} is no factor of a kitchen", f"give a number from 0 to {plain(_MOST)}")
    recipe = library.episode(episode) if episode else None
    lines = [Line(one.item, one.grams, one.role) for one in recipe.lines if one.grams is not None] if recipe else []
    grams = formula_of(lines)[0]
    found = scaled(grams, times=times, pans=_pans(pans) if pans else None, eggs=eggs)
    factor = figure(found.factor)
    main, item, assumed = (factor, "", "") if not words.strip() else _amount(words, found.factor, library, region)
    return {
        **sum_shape(words.strip() or episode, item, main, assumed),
        "factor": worked_shape(factor),
        "lines": _lines(lines, found),
        "watch": list(found.watch),
    }


def _amount(words: str, factor: Sum, library: Library, region: str) -> tuple[Figure, str, str]:
    amount, item = amount_of(words, library, region)
    asked = asked_of(words, (amount,), (item,), library, region)
    measure = plainly(lambda: asked.amount("asked"))
    result = measure * factor.measure
    result = type(result)(result.quantity.to(measure.quantity.units))
    working = (*factor.working, line(f"{said(measure)} × {plain(factor.measure.value)}", result))
    return figure(Sum(result, working)), asked.item("first"), asked.assumption


def _pans(pans: tuple[str, str]) -> tuple[Pan, Pan]:
    """The two pans as typed; a shape or unit that one leaves out is that of the other."""
    old = read_pan(pans[0])
    shape = "" if old.shape == "oblong" else old.shape
    try:
        return old, read_pan(pans[1], old.unit)
    except InvalidMeasure:
        return old, read_pan(f"{pans[1]} {shape}", old.unit)


def _lines(before: list[Line], found: Scaled) -> list[ScaledLineShape]:
    was: dict[str, list[str]] = {}
    for one in before:
        was.setdefault(one.item, []).append(f"{one.grams:g} g")
    shapes: list[ScaledLineShape] = []
    for item, total in found.lines.items():
        ingredient, _, form = item.partition(".")
        shape = worked_shape(figure(total))
        shapes.append({**shape, "ingredient": ingredient, "form": form, "was": " + ".join(was[item])})
    return shapes
