"""What the sums print for people: the result first, then the working, then what else to know."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from qa.cli.printed import wrapped
from qa.contract import (
    CarbsShape,
    CheckedShape,
    ComparedShape,
    HeatShape,
    LeavenShape,
    ScaleShape,
    SumShape,
    SweetenShape,
    WorkedShape,
)


def carbs(found: CarbsShape) -> str:
    """Each reading of the label or food, with what was refused or assumed."""
    lines = [f"{found['amount']}: digestible carbohydrate"]
    for reading in found["readings"]:
        place = f"{reading['region']}: " if reading["region"] else ""
        lines.append(f"  {place}{reading['text']}{_range(reading)}")
        lines += [f"    {line}" for line in reading["working"].splitlines()]
        lines += [wrapped(note, "    ") for note in reading["notes"]]
    return "\n".join([*lines, *_foot(found)])


def compared(found: ComparedShape) -> str:
    """Both labels over an equal weight, then the verdict."""
    verdict = "rounding alone can explain it" if found["explained"] else "rounding alone cannot explain it"
    lines = [f"{found['amount']}: {found['text']} apart as printed; {verdict}"]
    for name, part in (("first", found["first"]), ("second", found["second"])):
        lines.append(f"  {name}, per 100 g: {part['text']}")
        lines += [f"    {line}" for line in part["working"].splitlines()]
    return "\n".join([*lines, *_foot(found)])


def leaven(found: LeavenShape) -> str:
    """What stands in for baking powder, or what is left of the soda."""
    powder = found["ingredient"] == "baking-powder"
    head = "use this much soda" if powder else "soda left over"
    lines = [f"{found['amount']}: {head}: {found['text']}{_or(found['soda_spoons'])}"]
    lines += _working(found)
    wanted = "and cream of tartar" if powder else "cream of tartar that would use the rest up"
    if found["tartar"] and found["tartar"]["value"] > 0:
        lines.append(f"  {wanted}: {found['tartar']['text']}{_or(found['tartar_spoons'])}")
    lines += _parts({"used up": found["share"], "gas": found["gas"], "lifts like baking powder": found["as_powder"]})
    if found["signs"]:
        lines.append(wrapped(f"spare soda shows as {'; '.join(found['signs'])}"))
    return "\n".join([*lines, wrapped(found["verdict"]), *_foot(found)])


def sweeten(found: SweetenShape) -> str:
    """The range of equal sweetness and what changes."""
    name = f"{found['for_ingredient']}, {found['for_form'].replace('-', ' ')}".removesuffix(", ")
    lines = [f"{found['amount']} → {found['text']} of {name}", *_working(found)]
    lines += _parts({"bulk that goes missing": found["bulk_lost"], "energy saved": found["energy_saved"]})
    if found["is_extract"]:
        lines.append(wrapped("an extract: weigh it in milligrams or buy it bulked, and replace the bulk"))
    if found["changes"]:
        lines.append(wrapped(f"what changes: {found['changes']}"))
    return "\n".join([*lines, *_foot(found)])


def scale(found: ScaleShape) -> str:
    """The amount or the recipe, scaled."""
    lines = [f"{found['amount'] or 'factor'}: {found['text']}" if not found["lines"] else f"factor {found['text']}"]
    lines += _working(found)
    for line in found["lines"]:
        name = f"{line['ingredient']}, {line['form'].replace('-', ' ')}".removesuffix(", ")
        lines.append(f"  {line['text']:>10}  {name}   (was {line['was']})")
    lines += [wrapped(f"watch: {words}") for words in found["watch"]]
    return "\n".join([*lines, *_foot(found)])


def heat(found: HeatShape) -> str:
    """The setting on every scale, the boiling point, or the safe cores."""
    if found["cores"]:
        lines = [f"{found['amount']}: safe core temperatures"]
        lines += [wrapped(f"{c['food']}: {c['printed']} ({c['authority']}; {c['source']})") for c in found["cores"]]
    elif found["readings"]:
        lines = [f"{found['amount']}:"]
        for reading in found["readings"]:
            parts = [reading["celsius"], reading["fahrenheit"], reading["gas_mark"]]
            said = ", ".join(part["text"] for part in parts if part)
            fan = f"; fan oven {reading['fan']['text']}" if reading["fan"] else ""
            lines.append(f"  {said}{fan}")
            lines += [
                f"    {line}" for part in (*parts, reading["fan"]) if part for line in part["working"].splitlines()
            ]
    else:
        lines = [f"{found['amount']}: water boils at {found['text']}", *_working(found)]
    return "\n".join([*lines, *(wrapped(words) for words in found["cautions"]), *_foot(found)])


def checked(found: CheckedShape) -> str:
    """Right or not, and the line of working."""
    lines = [found["verdict"], *(line for line in _working(found) if line.strip() not in found["verdict"])]
    return "\n".join([*lines, *_foot(found)])


def _working(found: SumShape) -> list[str]:
    return [f"  {line}" for line in found["working"].splitlines()]


def _parts(parts: Mapping[str, WorkedShape | None]) -> Iterator[str]:
    for name, part in parts.items():
        if part is not None:
            yield f"  {name}: {part['text']}"


def _or(part: WorkedShape | None) -> str:
    return f" (about {part['text']})" if part else ""


def _range(part: Mapping[str, Any]) -> str:
    return f"   (range {part['low']:.3g} to {part['high']:.3g} {part['unit']})" if part["low"] != part["high"] else ""


def _foot(found: SumShape) -> list[str]:
    return [*([f"  {found['assumed']}"] if found["assumed"] else []), *(f"  from {fact}" for fact in found["facts"])]
