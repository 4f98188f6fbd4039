"""Digestible ("net") carbohydrate from a label, by region; whether rounding alone can explain two labels.

>>> us = Label("US", Measure.exact(15.0, "g"), carbohydrate="12", fibre="9")
>>> digestible(us)[0].sum.text, digestible(us)[0].sum.ends
('3 g', (2.0, 4.0))
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from qa.errors import InvalidMeasure
from qa.kitchen.energy import factor_of
from qa.kitchen.label_rules import FIBRE_INSIDE, FIBRE_OUTSIDE, Interval, label_interval
from qa.kitchen.sums import Sum, line, said
from qa.measures.measure import Measure
from qa.measures.resolve import rectangular
from qa.measures.show import plain, show_range

REFUSED = "this label's carbohydrate leaves the fibre out already; subtracting it again would count it twice"
UNKNOWN = "the label's country is not known, so both readings are given"
ONLY_ONE = "the label's country is not known, but only one kind of label can print such figures"
_KCAL_OF_CARBOHYDRATE = 4.0  # 21 CFR 101.9(c)(1)(i)(B)
# Sugar alcohols and allulose stand inside the printed total in the US and Canada; in the EU and UK the polyols do
# (Annex I point 7); Australia and New Zealand leave them out (Schedule 11, S11-3(2)), and so does South Africa (R.146).
_POLYOLS_INSIDE = frozenset({"US", "CA", "JP", "EU", "IE", "UK"})
_POLYOL_RULE = frozenset({"US", "EU", "IE", "UK"})
_ALLULOSE_INSIDE = frozenset({"US", "CA", "JP", "EU", "IE", "UK"})


@dataclass(frozen=True, slots=True)
class Label:
    """What a label prints.

    Attributes:
        region: 'US', 'CA', 'EU', 'UK', 'IE', 'AU', 'NZ', 'ZA', 'JP'; None if not known.
        serving: the mass the figures are for, in g; 100 g for a label per 100 g.
        carbohydrate, fibre, allulose: figures as printed ('1', '<0.5'); None if not printed.
        net: a figure printed as net or digestible carbohydrate, instead of the two lines.
        polyols: kind and figure of each sugar alcohol; the kind 'sugar alcohol' where it is not named.

    """

    region: str | None
    serving: Measure
    carbohydrate: str | None = None
    fibre: str | None = None
    net: str | None = None
    polyols: tuple[tuple[str, str], ...] = ()
    allulose: str | None = None


@dataclass(frozen=True, slots=True)
class Digestible:
    """Digestible carbohydrate in one serving, by one region's reading of the label.

    Attributes:
        region: whose reading.
        sum: grams in one serving; hard ends from the rounding.
        notes: what was refused or assumed, one sentence each.

    """

    region: str
    sum: Sum
    serving: Measure
    notes: tuple[str, ...] = ()


def digestible(label: Label) -> tuple[Digestible, ...]:
    """Grams of digestible carbohydrate in one serving; two readings, American first, for an unknown region."""
    if label.serving.to("g").value <= 0:
        raise InvalidMeasure("a serving of nothing has no carbohydrate", "give the serving in grams")
    if label.region is None:
        readings = [replace(label, region=region) for region in ("US", "EU")]
        found: list[Digestible] = []
        for reading in readings:
            try:
                one = digestible(reading)[0]
            except InvalidMeasure:  # a figure such a label cannot show: then it is not that kind of label
                continue
            found.append(one)
        if not found:
            raise InvalidMeasure("neither an American nor a European label prints such figures", "check the figures")
        note = UNKNOWN if len(found) > 1 else ONLY_ONE
        return tuple(replace(one, notes=(note, *one.notes)) for one in found)
    return (_read(label, label.region),)


def for_amount(reading: Digestible, amount: Measure) -> Sum:
    """Digestible carbohydrate in an amount by mass of the same food; the interval widens with the amount."""
    share = amount.to("g") / reading.serving.to("g")
    if share.value < 0:
        raise InvalidMeasure("an amount cannot be less than nothing", "give zero or more")
    total = reading.sum.measure * share.to("dimensionless")
    low, high = (end * share.value for end in reading.sum.ends)
    # The spread of the amount itself comes on top of the rounding.
    margin = 2 * share.spread / share.value if share.value else 0.0
    low, high = low * max(0.0, 1 - margin), high * (1 + margin)
    servings = f"{plain(reading.sum.measure.value)} g × {plain(share.value)} servings"
    scaled = f"{servings} = {plain(total.value)} g, between {plain(low)} and {plain(high)} g"
    return Sum(total, (*reading.sum.working, scaled), min(low, total.value), max(high, total.value))


def together(parts: Iterable[Sum], pieces: float = 1.0) -> Sum:
    """Carbohydrate of a whole recipe or, with `pieces`, of one piece: ends add up, then divide."""
    sums = list(parts)
    if not sums or pieces <= 0:
        raise InvalidMeasure("a recipe needs ingredients and pieces above zero", "give both")
    total = sums[0].measure
    for part in sums[1:]:
        total = total + part.measure
    low, high = sum(part.ends[0] for part in sums), sum(part.ends[1] for part in sums)
    added = " + ".join(plain(part.measure.value) for part in sums)
    working = [f"{added} g = {plain(total.value)} g in all, between {plain(low)} and {plain(high)} g"]
    if pieces != 1.0:
        each = total / pieces
        working.append(f"{plain(total.value)} g ÷ {plain(pieces)} pieces = {plain(each.value)} g a piece")
        total, low, high = each, low / pieces, high / pieces
    return Sum(total, tuple(working), min(low, total.value), max(high, total.value))


def carbs(label: Label, amount: Measure | None = None, pieces: float = 1.0) -> tuple[Digestible, ...]:
    """Digestible carbohydrate of an amount by mass (a serving if none is given), or of one of its pieces, by reading.

    >>> carbs(Label("US", Measure.exact(15.0, "g"), "12", "9"), Measure.exact(60.0, "g"), 4.0)[0].sum.text
    '3 g'
    """
    found = []
    for reading in digestible(label):
        eaten = label.serving if amount is None else amount
        part = for_amount(reading, eaten)
        part = part if pieces == 1.0 else together([part], pieces)
        found.append(replace(reading, sum=part, serving=eaten / pieces))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Compared:
    """Two labels side by side.

    Attributes:
        first, second: digestible carbohydrate per 100 g, with hard ends.
        ratio: the second's printed figure over the first's, per equal weight.
        explained: whether rounding alone can explain the difference: the two intervals share some amount.
        words: the verdict in one sentence.

    """

    first: Sum
    second: Sum
    ratio: float
    explained: bool
    words: str


def compare(first: Label, second: Label) -> Compared:
    """Whether two labels could describe the same powder; both per 100 g, spread of the servings included."""
    sums = [_per_hundred(label) for label in (first, second)]
    one, two = sums
    explained = one.ends[0] < two.ends[1] and two.ends[0] < one.ends[1]
    if one.measure.value <= 0:
        ratio = float("inf") if two.measure.value > 0 else 1.0
    else:
        ratio = (two.measure / one.measure).value
    ranges = " and ".join(show_range(*found.ends, "g") for found in sums)
    verdict = (
        "rounding alone can explain the difference" if explained else "rounding alone cannot explain the difference"
    )
    words = f"as printed they are {plain(ratio)} times apart by weight; per 100 g they are {ranges}: {verdict}"
    return Compared(one, two, ratio, explained, words)


def can_rounding_explain(first: Label, second: Label) -> bool:
    """Whether rounding alone can explain the difference between two labels; see `compare`."""
    return compare(first, second).explained


def salt(sodium: Measure) -> Sum:
    """Salt as European labels count it: sodium × 2.5 (Regulation (EU) 1169/2011, Annex I point 11)."""
    if sodium.to("g").value < 0:
        raise InvalidMeasure("sodium cannot be less than nothing", "give milligrams of zero or more")
    mass = (sodium * Measure.of(2.5, "dimensionless", fact="rule:EU-SALT-DEF")).to("g")
    return Sum(mass, (line(f"{said(sodium)} sodium × 2.5", mass),))


def _per_hundred(label: Label) -> Sum:
    return for_amount(digestible(label)[0], Measure.exact(100.0, "g"))


def _read(label: Label, region: str) -> Digestible:
    if label.net is not None:
        return _printed_net(label, region)
    if label.carbohydrate is None:
        raise InvalidMeasure("the label's carbohydrate is missing", "give it as printed")
    if region not in FIBRE_INSIDE and region not in FIBRE_OUTSIDE:
        known = ", ".join([*FIBRE_INSIDE, *FIBRE_OUTSIDE])
        raise InvalidMeasure(f"how labels of {region!r} count fibre is not known here", f"known are {known}")
    total = label_interval(label.carbohydrate, "carbohydrate", region)
    parts = [_Part("carbohydrate", label.carbohydrate, total, 1.0)]
    rules, notes = [FIBRE_INSIDE.get(region) or FIBRE_OUTSIDE[region]], []
    if label.fibre is not None and region in FIBRE_INSIDE:
        parts.append(_Part("fibre", label.fibre, label_interval(label.fibre, "fibre", region), -1.0))
    elif label.fibre is not None:
        notes.append(REFUSED)
    for kind, declared in label.polyols:
        if region in _POLYOLS_INSIDE:
            share, rule = _undigested(kind, region)
            parts.append(_Part(kind, declared, _other(declared, region), -share[0], -share[1]))
            rules.append(rule)
        else:
            notes.append(f"this label's carbohydrate leaves {kind} out already")
    if label.allulose is not None and region in _ALLULOSE_INSIDE:
        parts.append(_Part("allulose", label.allulose, _other(label.allulose, region), -1.0))
    elif label.allulose is not None:
        notes.append("this label's carbohydrate leaves allulose out already")
    return Digestible(region, _difference(parts, tuple(rules)), label.serving, tuple(notes))


@dataclass(frozen=True, slots=True)
class _Part:
    """A line that adds (+) or takes away (−): its share, or the least and most of it that counts."""

    name: str
    declared: str
    interval: Interval
    share: float
    other_share: float | None = None

    @property
    def shares(self) -> tuple[float, float]:
        other = self.share if self.other_share is None else self.other_share
        return min(self.share, other), max(self.share, other)

    @property
    def middle(self) -> float:
        return sum(self.shares) / 2

    @property
    def text(self) -> str:
        counted = "" if abs(self.middle) == 1.0 else f"{plain(100 * abs(self.middle))} % of "
        return f"{counted}{plain(self.printed)} g {self.name}"

    @property
    def printed(self) -> float:
        text = self.declared.strip().lower()
        if text.startswith(("<", "less")):
            return (self.interval.low + self.interval.high) / 2
        return min(max(float(text.removesuffix("g")), self.interval.low), self.interval.high)


def _difference(parts: Sequence[_Part], rules: tuple[str, ...]) -> Sum:
    low, high = 0.0, 0.0
    total = Measure.exact(0.0, "g")
    for part in parts:
        ends = [end * share for end in (part.interval.low, part.interval.high) for share in part.shares]
        low, high = low + min(ends), high + max(ends)
        spread = rectangular(part.interval.low, part.interval.high)
        total = total + Measure.of(part.printed, "g", spread=spread, fact=part.interval.rules[-1]) * part.middle
        rules += part.interval.rules[:-1]
    if high < 0:
        raise InvalidMeasure(
            f"{' and '.join(f'{part.declared} g {part.name}' for part in parts)} cannot stand on one such label: "
            "the part would be more than the whole",
            "check the figures, or say which country the label is from",
        )
    for rule in rules:
        total = total + Measure.of(0.0, "g", fact=rule)
    if total.value < 0:
        total = total - Measure.exact(total.value, "g")
    low = max(0.0, low)
    terms = " − ".join(part.text for part in parts)
    working = f"{terms} = {plain(total.value)} g a serving; rounding allows {plain(low)} to {plain(high)} g"
    return Sum(total, (working,), min(low, total.value), max(high, total.value))


def _printed_net(label: Label, region: str) -> Digestible:
    if label.net is None or region != "US":
        raise InvalidMeasure("net carbohydrate is printed on American labels only", "give carbohydrate and fibre")
    interval = label_interval(label.net, "net carbohydrate", region)
    found = _difference([_Part("net carbohydrate as printed", label.net, interval, 1.0)], ("rule:US-NET-DEF",))
    note = "net carbohydrate is no term of the US label law; taken as rounded like the total"
    return Digestible(region, found, label.serving, (note,))


def _other(declared: str, region: str) -> Interval:
    """The interval of a sugar alcohol or allulose line; where a region has no rule for it, that of carbohydrate."""
    return label_interval(declared, "sugar alcohol" if region in _POLYOL_RULE else "carbohydrate", region)


def _undigested(kind: str, region: str) -> tuple[tuple[float, float], str]:
    """What share of a sugar alcohol is not digested, as the region's energy factors imply; 0 to 1 if it is not named.

    A factor of 2.4 kcal/g against 4 for carbohydrate leaves 40 % of it undigested.
    """
    if kind == "sugar alcohol":
        return (0.0, 1.0), "rule:POLYOL-NOT-NAMED"
    counted = region if region in ("EU", "UK", "IE") else "US"
    kcal = factor_of(kind, counted).kcal or 0.0
    share = 1 - kcal / _KCAL_OF_CARBOHYDRATE
    return (share, share), f"rule:energy.{counted}.{kind}"
