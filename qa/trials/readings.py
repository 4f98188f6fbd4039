"""What a trial's readings say: means, spreads, how many times the first level, the order, and what can be told apart.

A spread is that of repeats and of the instrument's step together. Few repeats know their own spread badly, so ranges
are as many spreads wide as Student's t asks for (GUM G.3); of many repeats that is two.
"""

from __future__ import annotations

import math
import statistics
from dataclasses import dataclass
from itertools import combinations, pairwise

from qa.kitchen.sums import Sum, full_unit
from qa.knowledge.facts import Reading, Trial
from qa.knowledge.library import READINGS
from qa.knowledge.readings import mean_and_spread
from qa.measures.measure import Measure
from qa.measures.show import plain, unit_name
from qa.measures.units import dimension
from qa.records import Figure
from qa.trials.chance import ALPHA, Sample, chance_figure, chance_words, factor, freedom_of, holm, welch
from qa.trials.designs import repeats_needed

# A smaller difference, in spreads between repeats, takes more than sixty bakes of each. Our own choice, no source.
_LEAST_EFFECT = 0.5


@dataclass(frozen=True, slots=True)
class Level:
    """The readings of one quantity at one level of the factor.

    Attributes:
        values: as read, in the quantity's unit.
        mean: with its spread; vouched for by the trial's readings.
        deviation: how far single readings scatter (standard deviation); None for a single reading.
        resolution: the step of the instrument.
        freedom: degrees of freedom of the spread; infinite where only the step speaks.
    """

    name: str
    values: tuple[float, ...]
    mean: Measure
    deviation: float | None
    resolution: float
    freedom: float

    @property
    def single(self) -> bool:
        """There is one reading only, so how well it repeats is not known."""
        return len(self.values) == 1

    @property
    def ends(self) -> tuple[float, float]:
        """The ends of the range of the mean, about 95 %."""
        reach = factor(self.freedom) * self.mean.spread
        return self.mean.value - reach, self.mean.value + reach

    @property
    def sample(self) -> Sample:
        """For tests: readings that scatter less than the step allows are taken to scatter that much."""
        variance = max((self.deviation or 0.0) ** 2, self.resolution**2 / 12)
        return Sample(self.mean.value, variance, len(self.values))

    @property
    def figure(self) -> Figure:
        """The mean as a figure, with its working."""
        unit = full_unit(self.mean.unit)
        return Figure(as_read(self.mean, unit), self.mean.value, *self.ends, unit, self.mean.facts, self._working(unit))

    def _working(self, unit: str) -> str:
        name = unit_name(unit, 2.0)
        step = f"step of {plain(self.resolution)} ÷ √12"
        if self.deviation is None:
            return (
                f"a single reading; its spread is the instrument's alone: {step} = {_digits(self.mean.spread)} {name}"
            )
        shown = " + ".join(plain(value) for value in self.values)
        return (
            f"({shown}) ÷ {len(self.values)} = {plain(self.mean.value)} {name}\n"
            f"spread: repeats {_digits(self.deviation)} ÷ √{len(self.values)}, with the instrument's {step},"
            f" = {_digits(self.mean.spread)} {name}\n"
            f"range: {factor(self.freedom):.3g} spreads to each side (about 95 %)"
        )


@dataclass(frozen=True, slots=True)
class Pair:
    """Two levels, the greater mean first.

    Attributes:
        chance, corrected: by Welch's test, and corrected for all pairs; None where one of them has a single reading.
        needed: how many readings of each would show a difference of this size, if it is real and was not shown; None
            where that is more than anybody bakes.
    """

    greater: str
    lesser: str
    chance: Figure | None
    corrected: Figure | None
    needed: Figure | None = None

    @property
    def apart(self) -> bool | None:
        """Whether they can be told apart; None where nobody can say."""
        return None if self.corrected is None else self.corrected.value < ALPHA

    @property
    def words(self) -> str:
        """The same in words."""
        if self.corrected is None:
            return f"{self.greater} and {self.lesser}: a single reading tells nothing of chance"
        if self.apart:
            return f"{self.greater} more than {self.lesser} ({chance_words(self.corrected)})"
        more = f"; if they do differ so much, {self.needed.text} of each would show it" if self.needed else ""
        return f"{self.greater} and {self.lesser} cannot be told apart ({chance_words(self.corrected)}{more})"


@dataclass(frozen=True, slots=True)
class Quantity:
    """One quantity that was read.

    Attributes:
        levels: in the order of the file.
        times: how many times the first level each is; None for the first, and where a ratio means nothing.
        pairs: every two levels, corrected for the number of pairs.
        order: names of the levels, the greatest mean first.
    """

    name: str
    unit: str
    levels: tuple[Level, ...]
    times: tuple[Figure | None, ...]
    pairs: tuple[Pair, ...]
    order: tuple[str, ...]

    @property
    def neighbours(self) -> tuple[Pair, ...]:
        """The pairs that stand beside each other in the order."""
        found = {frozenset((pair.greater, pair.lesser)): pair for pair in self.pairs}
        return tuple(found[frozenset(two)] for two in pairwise(self.order))

    @property
    def words(self) -> tuple[str, ...]:
        """What the neighbours say, once for all where nothing but single readings was taken."""
        if len(self.levels) > 1 and all(level.single for level in self.levels):
            return ("each level has a single reading, which tells nothing of chance",)
        return tuple(pair.words for pair in self.neighbours)


def read(trial: Trial) -> tuple[Quantity, ...]:
    """Everything a trial's readings say, quantity by quantity; readings in another unit are another quantity."""
    kinds = dict.fromkeys((reading.quantity, reading.unit) for reading in trial.readings)
    return tuple(_quantity(trial, name, unit) for name, unit in kinds)


def _quantity(trial: Trial, name: str, unit: str) -> Quantity:
    own = [reading for reading in trial.readings if (reading.quantity, reading.unit) == (name, unit)]
    by_level = {level: [r for r in own if r.level == level] for level in trial.levels}
    levels = tuple(_level(level, read_, f"{READINGS}{trial.id}") for level, read_ in by_level.items() if read_)
    times = (None, *(_times(level, levels[0]) for level in levels[1:]))
    order = sorted(levels, key=lambda level: -level.mean.value)
    return Quantity(name, unit, levels, times, _pairs(order), tuple(level.name for level in order))


def _level(name: str, own: list[Reading], vouches: str) -> Level:
    values = tuple(reading.value for reading in own)
    resolution = max(reading.resolution for reading in own)
    mean, spread = mean_and_spread(values, resolution)
    deviation = statistics.stdev(values) if len(values) > 1 else None
    repeat = (deviation or 0.0) ** 2 / len(values)
    freedom = freedom_of([(repeat, len(values) - 1), (resolution**2 / 12, math.inf)])
    return Level(
        name, values, Measure.of(mean, own[0].unit, spread=spread, fact=vouches), deviation, resolution, freedom
    )


def _times(level: Level, first: Level) -> Figure | None:
    """How many times the first level; None where there is no true zero (a temperature, marks on a scale of our own)."""
    unit = level.mean.unit
    if not unit or dimension(unit) == "temperature" or first.mean.value <= 0 or level.mean.value <= 0:
        return None
    ratio = level.mean / first.mean
    parts = [((one.mean.spread / one.mean.value) ** 2, one.freedom) for one in (level, first)]
    reach = factor(freedom_of(parts)) * ratio.spread
    of_what = "of the instrument's step alone, a reading being single" if level.single or first.single else "about 95 %"
    working = f"{plain(level.mean.value)} ÷ {plain(first.mean.value)} = {plain(ratio.value)}, range {of_what}"
    found = Sum(ratio, (working,), max(0.0, ratio.value - reach), ratio.value + reach)
    return Figure(as_read(ratio, ""), ratio.value, *found.ends, "", ratio.facts, working)


def _pairs(order: list[Level]) -> tuple[Pair, ...]:
    """Every two levels with the chance that repeats alone part them so far."""
    twos = list(combinations(order, 2))
    tested = [None if a.single or b.single else welch(a.sample, b.sample) for a, b in twos]
    corrected = iter(holm([test.p for test in tested if test]))
    pairs = []
    for (greater, lesser), test in zip(twos, tested, strict=True):
        if test is None:
            pairs.append(Pair(greater.name, lesser.name, None, None))
            continue
        p = next(corrected)
        said = f"Welch's t = {test.t:.3g} with {test.freedom:.3g} degrees of freedom: p = {test.p:.2g}"
        holms = f"{said}\ncorrected for {len(twos)} pair{'s' * (len(twos) != 1)} by Holm's method"
        chances = chance_figure(test.p, said, "welch"), chance_figure(p, holms, "holm")
        pairs.append(Pair(greater.name, lesser.name, *chances, _needed(greater, lesser) if p >= ALPHA else None))
    return tuple(pairs)


def _needed(greater: Level, lesser: Level) -> Figure | None:
    """Readings of each to show a difference as large as the one seen, with the scatter that was seen."""
    scatter = math.sqrt((greater.sample.variance + lesser.sample.variance) / 2)
    effect = (greater.mean.value - lesser.mean.value) / scatter if scatter else 0.0
    return repeats_needed(effect) if effect >= _LEAST_EFFECT else None


def as_read(measure: Measure, unit: str) -> str:
    """A value to the last digit that its spread leaves sure, with its unit: finer than a kitchen needs, as read.

    Two digits of the spread where it begins with a 1 or 2, else one (within GUM 7.2.6, at most two).

    >>> as_read(Measure.of(5.9812, "g", spread=0.1114), "g"), as_read(Measure.of(1.6756, "", spread=0.04), "")
    ('5.98 g', '1.68')
    """
    decade = math.floor(math.log10(measure.spread)) if measure.spread > 0 else -3
    decimals = max(0, (1 if measure.spread < 3 * 10.0**decade else 0) - decade)
    number = f"{measure.value:.{min(decimals, 6)}f}"
    return f"{number.rstrip('0').rstrip('.') if '.' in number else number} {unit_name(unit, 2.0)}".strip()


def _digits(value: float) -> str:
    """A spread with two digits, never with an exponent."""
    return plain(float(f"{value:.2g}"))
