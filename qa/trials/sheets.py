"""A plan on paper and the file its readings go into: what to bake in which order, with room to write.

Every number on a sheet is a figure of the plan or a place in its order.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from textwrap import wrap

from qa.measures.show import unit_name
from qa.records import Figure, Placed
from qa.trials.compare import Told
from qa.trials.designs import Plan
from qa.trials.shapes import Reads

_WIDTH, _BLANK, _HARD = 96, "________", "\xa0"


@dataclass(frozen=True, slots=True)
class Run:
    """One line of the order: its place as a figure, and what to bake."""

    place: Figure
    level: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """A plan ready to print.

    Attributes:
        parts: headings with their text, each with the figures in it.
        columns: what to write down for each bake.
        runs: in the order to bake.
        foot: where the readings go, and that the channel is invented.
    """

    title: str
    parts: tuple[tuple[str, Told], ...]
    columns: tuple[str, ...]
    runs: tuple[Run, ...]
    foot: str


def sheet(plan: Plan, even: Told | None, foot: str) -> Sheet:
    """The sheet of a plan; `even` says what equal weights are, where that is known."""
    dose = Told(f"{_sentence(plan.dose)}{f' {even.words}' if even else ''}", even.figures if even else ())
    each = f" of each; {plan.bakes.text} in all" if len(plan.levels) > 1 else ""
    bakes = Told(f"{plan.repeats.text}{each}, in the order below, which was drawn by lot.", (plan.repeats, plan.bakes))
    parts = [
        ("To find out", Told(f"whether {plan.hypothesis}")),
        ("Side by side", Told("; ".join(plan.varied or plan.levels))),
        ("Dose", dose),
        ("Keep the same", Told("; ".join(plan.constant))),
        ("Read", Told("; ".join(plan.read))),
        ("Bakes", bakes),
        *(("To know before", Told(note)) for note in plan.notes),
    ]
    runs = tuple(Run(_place(number, len(plan.order)), level) for number, level in enumerate(plan.order, 1))
    columns = tuple(_column(one) for one in plan.quantities)
    return Sheet(f"Trial sheet: {plan.question}", tuple(parts), columns, runs, foot)


def _place(number: int, last: int) -> Figure:
    return Figure(
        str(number), number, number, number, "", ("method:random-order",), f"place {number} of {last}, by lot"
    )


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."


def _column(one: Reads) -> str:
    unit = unit_name(one.unit, 2.0)
    return f"{one.quantity}, {unit}" if unit else one.quantity


def text_of(made: Sheet) -> tuple[str, tuple[Placed, ...]]:
    """The sheet as plain text, and where its figures stand."""
    lines = [made.title.upper(), ""]
    for heading, told in made.parts:
        lines += wrap(f"{heading}: {_kept_whole(told)}", _WIDTH, subsequent_indent="  ", break_on_hyphens=False)
    upper = "\n".join(lines).replace(_HARD, " ")
    placed = _found(upper, [figure for _, told in made.parts for figure in told.figures])
    wide = max(len(run.level) for run in made.runs)
    columns = (*made.columns, "notes")
    head = f"bake  {'what':<{wide}}  {'  '.join(columns)}"
    text = f"{upper}\n\nDay: {_BLANK}   Oven: {_BLANK}   Scale: {_BLANK}\n\n{head}\n"
    blanks = "  ".join(f"{_BLANK:<{max(len(_BLANK), len(column))}}" for column in columns).rstrip()
    for run in made.runs:
        at = len(text) + 4 - len(run.place.text)
        placed.append(Placed(run.place, at, at + len(run.place.text)))
        text += f"{run.place.text:>4}  {run.level:<{wide}}  {blanks}\n"
    foot = "\n".join(wrap(made.foot, _WIDTH, break_on_hyphens=False))
    return f"{text}\n{foot}\n", tuple(placed)


def _kept_whole(told: Told) -> str:
    """The words with every figure as one word, so that no line breaks inside."""
    words = told.words
    for figure in told.figures:
        words = words.replace(figure.text, figure.text.replace(" ", _HARD))
    return words


def _found(text: str, figures: Sequence[Figure]) -> list[Placed]:
    """Figures where they stand, each after the one before."""
    at, found = 0, []
    for figure in figures:
        at = text.index(figure.text, at)
        found.append(Placed(figure, at, at + len(figure.text)))
        at += len(figure.text)
    return found


def readings_file(plan: Plan, name: str, items: Sequence[tuple[str, str]], *, invented: bool) -> str:
    """An empty trial file: complete but for the readings, and a problem that `levelspoon check` reports until then.

    Args:
        plan: what is tested.
        name: the trial's id.
        items: level and item of what is known, for the doses.
        invented: the channel is.
    """
    levels = dict.fromkeys(plan.levels)
    return "\n".join(
        [
            f"# To fill in: the readings of each level between the brackets, {plan.repeats.text} in each; take out the",
            "# lines of what was not baked. Then move this file to knowledge/trials/ and run `levelspoon check`.",
            f"id: {name}",
            f"title: {_quoted(plan.question)}",
            f"question: {_quoted(f'Is it so that {plan.hypothesis}?')}",
            *(["invented: true"] if invented else []),
            "date:                  # of the test, year-month-day",
            f"factor: {_quoted(plan.factor)}",
            f"levels: {_listed(levels)}",
            *([f"varied: {_listed(plan.varied)}"] if plan.varied else []),
            f"dose: {_quoted(plan.dose)}",
            *_doses(items),
            "constant:",
            *(f"  - {_quoted(words)}" for words in plan.constant),
            "readings:",
            *(_reading(level, one) for one in plan.quantities for level in levels),
            "observations: []       # like {level: …, words: …}",
            "gives: []              # readings that become facts; see knowledge/README.md",
            "",
        ]
    )


def _doses(items: Sequence[tuple[str, str]]) -> list[str]:
    """The lines for the doses, asleep until somebody knows them."""
    if not items:
        return []
    lines = [f"#  - {{level: {_quoted(level)}, item: {item}, amount: 0 g}}" for level, item in items]
    return ["# What each level got, by weight; take the marks away when the amounts are there.", "#doses:", *lines]


def _reading(level: str, one: Reads) -> str:
    unit = f", unit: {one.unit}" if one.unit else ""
    return (
        f"  - {{level: {_quoted(level)}, quantity: {_quoted(one.quantity)}, values: []{unit}, "
        f"resolution: {one.resolution:g}}}"
    )


def _listed(words: Sequence[str] | dict[str, None]) -> str:
    return f"[{', '.join(_quoted(word) for word in words)}]"


def _quoted(words: str) -> str:
    return json.dumps(words, ensure_ascii=False)
