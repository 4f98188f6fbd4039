"""Several suspects in one test: which combinations to bake, what could be mistaken for what, and what came of it.

Every suspect is there in half of the bakes, independently of the others, so each bake says something about all of them.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from qa.errors import LevelspoonError
from qa.knowledge.facts import Trial
from qa.knowledge.library import READINGS
from qa.knowledge.trials import JOIN, NONE
from qa.measures.show import plain, unit_name
from qa.records import Figure
from qa.text import listed
from qa.trials.chance import chance_figure, factor, holm
from qa.trials.designs import Plan
from qa.trials.readings import Quantity
from qa.trials.shapes import shape_of

# Bakes beside the effects and the mean, so that chance can be judged at all. Our own choice, no source.
_SPARE = 2
_SIZES = (8, 12, 16, 20, 24)
_NAMED = 2  # pairs named in one sentence
FEWEST, MOST = 2, _SIZES[-1] - 1 - _SPARE


@dataclass(frozen=True, slots=True)
class Screening:
    """A screening test.

    Attributes:
        varied: the suspects.
        runs: for each bake, in the order to bake, whether each suspect is there.
        kind: which combinations these are, in words.
        mistaken: what an effect could be mistaken for, in words.
        size: how many bakes, with the working.
    """

    varied: tuple[str, ...]
    runs: tuple[tuple[bool, ...], ...]
    kind: str
    mistaken: tuple[str, ...]
    size: Figure

    @property
    def order(self) -> tuple[str, ...]:
        """What each bake has, first to last."""
        return tuple(
            run_name([name for name, there in zip(self.varied, run, strict=True) if there]) for run in self.runs
        )


@dataclass(frozen=True, slots=True)
class Effect:
    """What one suspect did to a quantity, all others being there as often with it as without.

    Attributes:
        difference: the mean with it less the mean without; p and corrected are None where too few bakes were left over.
    """

    suspect: str
    difference: Figure
    p: Figure | None
    corrected: Figure | None


def run_name(there: Sequence[str]) -> str:
    """The name of a combination, which is the trial's level.

    >>> run_name(["lemon", "rest"]), run_name([])
    ('lemon + rest', 'none of them')
    """
    return JOIN.join(there) or NONE


def screen(suspects: Sequence[str], topic: str) -> Screening:
    """The combinations to bake for several suspects, in an order fixed by the topic.

    Two-level fractional factorials where a power of two fits, else Plackett and Burman's designs (Biometrika 33 (1946),
    305), whichever needs fewer bakes and leaves enough of them to judge chance by.

    Raises:
        LevelspoonError: too few or too many suspects, or one of them twice.
    """
    varied = tuple(" ".join(name.split()) for name in suspects if name.strip())
    if len(set(varied)) < len(varied) or any(JOIN in name or name == NONE for name in varied):
        raise LevelspoonError("a suspect is named twice, or holds a plus sign", "name each once, parted by commas")
    if not FEWEST <= len(varied) <= MOST:
        raise LevelspoonError(f"{len(varied)} suspects cannot be screened at once", f"name {FEWEST} to {MOST} of them")
    rows = _rows(len(varied))
    if len(varied) <= 3:
        kind = "every combination"
    elif len(rows) in (8, 16):
        kind = "a balanced part of all combinations (fractional factorial)"
    else:
        kind = "a balanced part of all combinations (Plackett and Burman)"
    runs = [tuple(value > 0 for value in row) for row in rows]
    random.Random(topic).shuffle(runs)  # noqa: S311 - a run order, fixed by the topic
    count = len(runs)
    working = f"{len(varied)} effects and the mean, at least {_SPARE} bakes to judge chance by: {count} bakes"
    size = Figure(str(count), count, count, count, "", ("method:screening-design",), working)
    return Screening(varied, tuple(runs), kind, _mistaken(varied, rows), size)


def _rows(suspects: int) -> list[list[float]]:
    """A balanced design in -1 and 1, one row a bake."""
    import pydoe

    size = next(size for size in _SIZES if size >= suspects + 1 + _SPARE)
    if suspects == 2:
        design = [*pydoe.ff2n(2), *pydoe.ff2n(2)]
    elif suspects == 3:
        design = [*pydoe.ff2n(3)]
    elif size in (8, 16):
        design = [*pydoe.fracfact_by_res(suspects, 4 if suspects == 4 else 3)]
    else:
        design = [row[:suspects] for row in pydoe.pbdesign(size - 1)]
    return [[float(value) for value in row] for row in design]


def _mistaken(varied: Sequence[str], rows: Sequence[Sequence[float]]) -> tuple[str, ...]:
    """What could be mistaken for what, from the columns themselves."""
    columns = [[row[i] for row in rows] for i in range(len(varied))]
    pairs = {
        (i, j): [a * b for a, b in zip(columns[i], columns[j], strict=True)]
        for i, j in combinations(range(len(varied)), 2)
    }
    told = []
    partly = False
    for i, column in enumerate(columns):
        shares = {pair: _shared(column, acting) for pair, acting in pairs.items() if i not in pair}
        wholly = [pair for pair, share in shares.items() if share > 0.99]
        partly = partly or any(0.01 < share <= 0.99 for share in shares.values())
        if wholly:
            names = [f"{varied[a]} with {varied[b]}" for a, b in wholly[:_NAMED]]
            others = listed([*names, *(["another pair"] if len(wholly) > _NAMED else [])], "or")
            told.append(f"What {varied[i]} seems to do may instead be {others}, acting together.")
    for (one, acting), (other, beside) in combinations(pairs.items(), 2) if not told else ():
        if not set(one) & set(other) and _shared(acting, beside) > 0.99:
            first, second = (f"{varied[a]} with {varied[b]}" for a, b in (one, other))
            told.append(f"What {first} do together cannot be told from what {second} do together.")
    if partly:
        told.append(
            "Each effect is mixed with a part of what any pair of the others does together; bake again to be sure."
        )
    return tuple(told) or ("No effect can be mistaken for another.",)


def _shared(one: Sequence[float], other: Sequence[float]) -> float:
    """How much of one column stands in another, 0 to 1."""
    return abs(sum(a * b for a, b in zip(one, other, strict=True))) / len(one)


def screening_plan(topic: str, question: str, suspects: Sequence[str], kind: str) -> Plan:
    """The plan of a screening test; `kind` is a type of question, which says what to read and to hold constant."""
    found = screen(suspects, topic)
    shape = shape_of(kind)
    levels = tuple(dict.fromkeys(found.order))
    times = len(found.order) // len(levels)
    repeats = Figure(str(times), times, times, times, "", found.size.facts, found.size.working)
    return Plan(
        topic=topic,
        question=question,
        hypothesis=f"any of these makes a difference: {listed(found.varied)}",
        factor="several at once",
        levels=levels,
        dose="each suspect by weight, and at equal weight where it takes another's place",
        constant=shape.constant,
        read=shape.read,
        repeats=repeats,
        order=found.order,
        items=(),
        quantities=shape.quantities,
        varied=found.varied,
        notes=(f"These bakes are {found.kind}.", *found.mistaken),
        bakes=found.size,
    )


def effects(trial: Trial, quantity: Quantity) -> tuple[Effect, ...]:
    """What each varied suspect did, the largest first; nothing where the trial screens none or some were never parted.

    A linear model of main effects by least squares on the runs' means, or on single readings where the runs leave fewer
    than two over; what the suspects do together counts as chance. Ranges are about 95 % by Student's t.
    """
    levels = quantity.levels
    rows = [[1.0, *(1.0 if name in level.name.split(JOIN) else -1.0 for name in trial.varied)] for level in levels]
    values = [level.mean.value for level in levels]
    if len(rows) < len(trial.varied) + 1 + _SPARE:
        rows = [row for row, level in zip(rows, levels, strict=True) for _ in level.values]
        values = [value for level in levels for value in level.values]
    if not trial.varied:
        return ()
    import numpy as np

    design, read = np.array(rows), np.array(values)
    if np.linalg.matrix_rank(design) < design.shape[1]:
        return ()
    inverse = np.linalg.inv(design.T @ design)
    found = inverse @ design.T @ read
    spare = len(values) - design.shape[1]
    left = float(((read - design @ found) ** 2).sum())
    spreads = [2 * math.sqrt(left / spare * float(inverse[i, i])) if spare > 0 else 0.0 for i in range(len(found))]
    made = [(name, 2 * float(found[i]), spreads[i]) for i, name in enumerate(trial.varied, 1)]
    return _told(made, spare, quantity.unit, f"{READINGS}{trial.id}")


def _told(made: Sequence[tuple[str, float, float]], spare: int, unit: str, vouches: str) -> tuple[Effect, ...]:
    """Effects as figures, with the chance of each where any bake was left over."""
    judged = spare > 0 and all(spread > 0 for _, _, spread in made)
    chances = [_chance(value / spread, spare) if judged else 1.0 for _, value, spread in made]
    found = []
    for (name, value, spread), p, corrected in zip(made, chances, holm(chances), strict=True):
        reach = factor(spare) * spread if judged else 0.0
        sign = "+" if value > 0 else "−" if value < 0 else ""
        text = f"{sign}{plain(abs(float(f'{value:.3g}')))} {unit_name(unit, 2.0)}"
        said = f"mean with {name} less mean without = {plain(value)}"
        said += (
            f"; spread {spread:.2g} with {spare} bakes left over"
            if judged
            else "; no bake is left over to judge chance"
        )
        shown = Figure(text.strip(), value, value - reach, value + reach, unit, (vouches,), said)
        test = f"t = {value / spread:.3g} with {spare} degrees of freedom: p = {p:.2g}" if judged else ""
        holms = f"{test}\ncorrected for {len(made)} suspects by Holm's method"
        first = chance_figure(p, test, "least-squares") if judged else None
        found.append(Effect(name, shown, first, chance_figure(corrected, holms, "holm") if judged else None))
    return tuple(sorted(found, key=lambda effect: -abs(effect.difference.value)))


def _chance(t: float, freedom: int) -> float:
    from scipy.special import stdtr

    return float(2 * stdtr(freedom, -abs(t)))
