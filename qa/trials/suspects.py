"""What goes with an outcome that comes and goes: viewers' reports and own batches, pooled suspect by suspect.

A suspect is an ingredient ('lemon') or a form of it, less or none of one ('less:baking-soda') or a circumstance
('pan: glass'). In most reports several things changed at once, so what goes with an outcome is never called its cause.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from qa.knowledge.facts import Dose, Trial
from qa.knowledge.trials import JOIN
from qa.records import Figure
from qa.trials.chance import ALPHA, Table, chance_figure, fisher, holm, odds_ratio

# A suspect is looked at once so many batches tell of it; fewer only cost all others power.
LEAST_TOLD = 2
LESS = "less:"
Goes = Literal["with", "without", "cannot tell", "too few"]


@dataclass(frozen=True, slots=True)
class Batch:
    """One bake that somebody tells of, in which the outcome came or did not.

    Attributes:
        source: the comment's id, or trial and level.
        told: suspects that are spoken of: there, or not there.
        recipe: items and ingredients of the recipe it stands under, which whoever says nothing is taken to have
            followed; None where no recipe is known.
        reported: by a viewer; else the kitchen's own.
    """

    source: str
    had: bool
    told: Mapping[str, bool]
    recipe: frozenset[str] | None = None
    reported: bool = True

    def there(self, suspect: str) -> bool | None:
        """Whether the suspect was there, as told or else by the recipe; None where nobody can say."""
        if suspect in self.told:
            return self.told[suspect]
        if suspect.startswith(LESS) and self.told.get(suspect.removeprefix(LESS)) is False:
            return True
        if ":" in suspect and not suspect.startswith(LESS):
            return None
        return None if self.recipe is None else suspect in self.recipe

    def tells(self, suspect: str) -> bool:
        """Whether it speaks of the suspect, or of none of it."""
        return suspect in self.told or (suspect.startswith(LESS) and self.told.get(suspect.removeprefix(LESS)) is False)


@dataclass(frozen=True, slots=True)
class Suspect:
    """One suspect beside the outcome.

    Attributes:
        table: counts of batches that tell or whose recipe tells.
        silent: how many of those said nothing of it and count by the recipe.
        unreported: batches that say nothing and whose recipe does not tell either.
        p, corrected: the chance of such a table (Fisher), and the same corrected for the number of suspects (Holm);
            None where so few batches could show nothing whatever they said (Tarone, Biometrics 46 (1990), 515): such a
            suspect is asked about and not tested.
        odds: how many times the odds of the outcome are with it.
    """

    key: str
    table: Table
    silent: int
    unreported: int
    p: Figure
    corrected: Figure | None
    odds: Figure

    @property
    def goes(self) -> Goes:
        """Whether the outcome goes with it, with its absence, or nobody can tell."""
        if self.corrected is None:
            return "too few"
        if self.corrected.value >= ALPHA:
            return "cannot tell"
        return "with" if self.odds.value > 1 else "without"


def suspects(batches: Sequence[Batch]) -> tuple[Suspect, ...]:
    """Every suspect that is told of often enough and is there in some batches and not in others, likeliest first."""
    keys = sorted({key for batch in batches for key in batch.told})
    tables = {key: table for key in keys if _is_open(key, table := _table(key, batches), batches)}
    tables = {key: table for key, table in tables.items() if table != tables.get(_whole(key))}
    chances = {key: fisher(table) for key, table in tables.items()}
    tested = [key for key, table in tables.items() if _least_chance(table) < ALPHA]
    corrected = dict(zip(tested, holm([chances[key] for key in tested]), strict=True))
    made = [_suspect(key, tables[key], chances[key], corrected, batches) for key in tables]
    return tuple(sorted(made, key=lambda one: (one.corrected is None, one.p.value, one.key)))


def _whole(key: str) -> str:
    """The ingredient of a form, '' for anything else: a form that tells no more than its ingredient is left out."""
    return key.partition(".")[0] if "." in key else ""


def _table(key: str, batches: Sequence[Batch]) -> Table:
    cells = [0, 0, 0, 0]
    for batch in batches:
        there = batch.there(key)
        if there is not None:
            cells[(0 if there else 2) + (0 if batch.had else 1)] += 1
    return Table(*cells)


def _is_open(key: str, table: Table, batches: Sequence[Batch]) -> bool:
    """Told of often enough, and there in some batches but not in all."""
    told = sum(batch.tells(key) for batch in batches)
    return told >= LEAST_TOLD and sum(table[:2]) > 0 and sum(table[2:]) > 0


def _least_chance(table: Table) -> float:
    """The smallest chance that any table with these margins has."""
    there, absent = sum(table[:2]), sum(table[2:])
    had = table.with_had + table.without_had
    ends = (max(0, had - absent), min(there, had))
    return min(fisher(Table(a, there - a, had - a, absent - had + a)) for a in ends)


def _suspect(key: str, table: Table, p: float, corrected: Mapping[str, float], batches: Sequence[Batch]) -> Suspect:
    silent = sum(not batch.tells(key) and batch.there(key) is not None for batch in batches)
    counted = f"{table.with_had} with it and {table.without_had} without had the outcome, "
    counted += f"{table.with_not} with it and {table.without_not} without had not"
    value, low, high = odds_ratio(table)
    a, b, c, d = (f"{cell + 0.5:g}" for cell in table)
    working = (
        f"{counted}\nhalf a batch added to each (Haldane, Anscombe): ({a} × {d}) ÷ ({b} × {c}) = {value:.3g}; "
        "95 % range on the logarithm (Woolf)"
    )
    said = f"{counted}\nFisher's exact test, two-sided: p = {p:.2g}"
    many = len(corrected)
    holms = f"{said}\ncorrected for {many} suspect{'s' * (many != 1)} by Holm's method"
    return Suspect(
        key,
        table,
        silent,
        len(batches) - sum(table),
        chance_figure(p, said, "fisher-exact"),
        chance_figure(corrected[key], holms, "holm") if key in corrected else None,
        Figure(_short(value), value, low, high, "", ("method:odds-ratio", f"reports:{key}"), working),
    )


def _short(value: float) -> str:
    """Two digits of an odds ratio, whole from ten up.

    >>> _short(0.0312), _short(5.25), _short(123.4)
    ('0.031', '5.2', '123')
    """
    return f"{value:.0f}" if value >= 10 else f"{value:.2g}"


def own_batches(trial: Trial, recipe: Iterable[str] | None, had: Callable[[str], bool | None]) -> list[Batch]:
    """The levels of a trial as batches, where an observation tells whether the outcome came.

    Args:
        trial: its doses say what each level had, and what it had less of than the first.
        recipe: items of the episode it belongs to; None if there is none.
        had: whether words tell that the outcome came.
    """
    base = None if recipe is None else with_ingredients(recipe)
    items = {_ingredient(dose) for dose in trial.doses}
    first = {_ingredient(d): d for d in trial.doses if d.level == trial.levels[0]}
    found = []
    for level in trial.levels:
        came = had(". ".join(words for name, words in trial.observations if name == level))
        if came is None:
            continue
        own = {_ingredient(d): d for d in trial.doses if d.level == level}
        told = {item: item in own for item in sorted(items)}
        told |= {thing: thing in level.split(JOIN) for thing in trial.varied}
        told |= {f"{LESS}{item}": _less(dose, first[item]) for item, dose in own.items() if item in first}
        found.append(Batch(f"{trial.id}, {level}", came, told, base, reported=False))
    return found


def with_ingredients(items: Iterable[str]) -> frozenset[str]:
    """Items with their bare ingredients.

    >>> sorted(with_ingredients(["psyllium.husk"]))
    ['psyllium', 'psyllium.husk']
    """
    return frozenset(name for item in items for name in (item, item.partition(".")[0]))


def _ingredient(dose: Dose) -> str:
    return dose.item.partition(".")[0]


def _less(dose: Dose, first: Dose) -> bool:
    """Whether a dose is smaller than the first level's, in the same kind of measure."""
    return dose.item == first.item and dose.measure.value < first.measure.to(dose.measure.unit).value
