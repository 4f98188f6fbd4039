"""How each region rounds what it prints on a label, so that a printed figure is an interval of true ones.

Amounts are handled as exact fractions, so that the edges of the bands are where the law puts them.

>>> label_interval("1", "carbohydrate", "US").text
'0.5 ≤ x < 1.5'
>>> printed(4.8, "fat", "US")
('5',)
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from qa.errors import InvalidMeasure
from qa.text import nearest

FDA = "FDA, A Food Labeling Guide, Appendix H (Oct 2009); 21 CFR 101.9(c)"
FDA_2016 = "21 CFR 101.9(c)(6)(iii) (2016 rule), from memory"
EU = "European Commission guidance on tolerances (Dec 2012), rounding table; Regulation (EU) 1169/2011"
UK = "UK Department of Health technical guidance on nutrition labelling (2017), which keeps the EU table"
CANADA = "Canada Food and Drug Regulations, table to B.01.401, from memory"
FSANZ = "Australia New Zealand Food Standards Code, Standard 1.2.8 section 7, from memory"

# Regions whose printed total carbohydrate holds the fibre: 21 CFR 101.9(c)(6) (US), Food and Drug Regulations B.01.401
# (CA) and the Food Labeling Standards 2015 (JP), all from memory.
FIBRE_INSIDE = {"US": "rule:US-CARB-DEF", "CA": "rule:CA-CARB-DEF", "JP": "rule:JP-CARB-DEF"}
# Regions where it does not: Regulation (EU) 1169/2011, Annex I points 7 and 12 (EU, kept by UK and IE); Food Standards
# Code, Schedule 11, S11-3(2) (AU, NZ); R.146 of 2010 (ZA).
FIBRE_OUTSIDE = {
    "EU": "rule:EU-CARB-DEF", "IE": "rule:EU-CARB-DEF", "UK": "rule:UK-CARB-DEF", "AU": "rule:AU-CARB-DEF",
    "NZ": "rule:AU-CARB-DEF", "ZA": "rule:ZA-CARB-DEF",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Band:
    """One line of a rounding table.

    Attributes:
        rule: its id.
        low, high: the true amounts it is for; high None for no end.
        low_in, high_in: whether the ends belong to it.
        step: printed to the nearest multiple; 0 means printed as zero.
        ties_up: an exact half rounds up; False where the rule does not say, and either may be printed.
        wording: words that may be printed instead, or ''.
        source: where the rule stands.
    """

    rule: str
    low: Fraction
    high: Fraction | None
    step: Fraction
    source: str
    low_in: bool = True
    high_in: bool = False
    ties_up: bool = True
    wording: str = ""

    def holds(self, amount: Fraction) -> bool:
        """Whether a true amount falls in this band."""
        above = amount > self.low or (self.low_in and amount == self.low)
        below = self.high is None or amount < self.high or (self.high_in and amount == self.high)
        return above and below

    def prints(self, amount: Fraction) -> tuple[Fraction, ...]:
        """What may be printed for a true amount in it: one figure, or both neighbours at an open tie."""
        if not self.step:
            return (Fraction(0),)
        whole, rest = divmod(amount, self.step)
        if rest * 2 == self.step and not self.ties_up:
            return (whole * self.step, (whole + 1) * self.step)
        return (floor(amount / self.step + Fraction(1, 2)) * self.step,)


@dataclass(frozen=True, slots=True)
class Interval:
    """The true amounts behind a printed one: ends, whether they belong to it, and the rules that say so."""

    low: float
    high: float
    low_in: bool
    high_in: bool
    rules: tuple[str, ...]

    @property
    def text(self) -> str:
        """As an inequality, e.g. '0.5 ≤ x < 1.5'."""
        return f"{self.low:g} {'≤' if self.low_in else '<'} x {'≤' if self.high_in else '<'} {self.high:g}"

    def holds(self, amount: float) -> bool:
        """Whether a true amount could have been printed like that."""
        above = amount > self.low or (self.low_in and amount == self.low)
        return above and (amount < self.high or (self.high_in and amount == self.high))


def _bands(source: str, rows: str, *, ties_up: bool = True) -> tuple[Band, ...]:
    """Bands from lines 'rule [low high) step wording', brackets as in mathematics, '..' for no end, '-' for zero."""
    bands = []
    for row in rows.strip().splitlines():
        rule, low, high, step, *words = row.split()
        bands.append(
            Band(
                rule, Fraction(low[1:]), None if high == ".." else Fraction(high[:-1]),
                Fraction(0) if step == "-" else Fraction(step), source, low[0] == "[", high[-1] == "]", ties_up,
                " ".join(words),
            )
        )  # fmt: skip
    return tuple(bands)


def _us_grams(key: str, source: str = FDA) -> tuple[Band, ...]:
    return _bands(
        source, f"US-{key}-0 [0 0.5) -\nUS-{key}-LT1 [0.5 1) 1 less than 1 g\nUS-{key}-1 [1 .. 1"
    )  # fmt: skip


def _us_fat(key: str) -> tuple[Band, ...]:
    return _bands(FDA, f"US-{key}-0 [0 0.5) -\nUS-{key}-05 [0.5 5) 0.5\nUS-{key}-1 [5 .. 1")


def _eu(key: str, zero: str, middle: str, end: str, steps: tuple[str, str], region: str = "EU") -> tuple[Band, ...]:
    first = _bands(UK if region == "UK" else EU, f"{region}-{key}-0 [0 {zero}] - <{middle}")
    names = ("001", "01") if key == "SALT" else ("01", "1")
    rows = f"EU-{key}-{names[0]} ({zero} {end}) {steps[0]}\nEU-{key}-{names[1]} [{end} .. {steps[1]}"
    return first + _bands(EU, rows, ties_up=False)


def _european(region: str) -> dict[str, tuple[Band, ...]]:
    grams = {"carbohydrate": "CARB", "sugars": "SUGAR", "protein": "PROT", "fat": "FAT"}
    if region == "EU":
        grams |= {"fibre": "FIBRE", "sugar alcohol": "POLYOL", "starch": "STARCH"}
    table = {name: _eu(key, "0.5", "0.5", "10", ("0.1", "1"), region) for name, key in grams.items()}
    table["saturates"] = _eu("SAT", "0.1", "0.1", "10", ("0.1", "1"), region)
    table["salt"] = _eu("SALT", "0.0125", "0.01", "1", ("0.01", "0.1"), region)
    table["energy"] = _bands(EU, "EU-KCAL [0 .. 1", ties_up=False)
    return table


_US_NET = _bands("21 CFR 101.9 does not define it; taken as printed in whole grams like the total, common practice",
                 "US-NET-DEF [0 0.5) -\nUS-NET-DEF [0.5 .. 1")  # fmt: skip
_LABELS: dict[str, dict[str, tuple[Band, ...]]] = {
    "US": {
        "carbohydrate": _us_grams("CARB"), "fibre": _us_grams("FIBRE"), "sugars": _us_grams("SUGAR"),
        "added sugars": _us_grams("ADDSUG", FDA_2016), "sugar alcohol": _us_grams("POLYOL"),
        "protein": _us_grams("PROT"), "fat": _us_fat("FAT"), "saturates": _us_fat("SAT"), "net carbohydrate": _US_NET,
        "energy": _bands(FDA, "US-KCAL-0 [0 5) -\nUS-KCAL-0 [2.5 5) 5\nUS-KCAL-5 [5 50] 5\nUS-KCAL-10 (50 .. 10"),
        "sodium": _bands(FDA, "US-NA-0 [0 5) -\nUS-NA-5 [5 140] 5\nUS-NA-10 (140 .. 10"),
    },
    "CA": {
        "carbohydrate": _bands(CANADA, "CA-CARB-0 [0 0.5) -\nCA-CARB-1 [0.5 .. 1"),
        "fibre": _bands(CANADA, "CA-FIBRE-0 [0 0.5) -\nCA-FIBRE-1 [0.5 .. 1"),
        "sugars": _bands(CANADA, "CA-SUGAR-0 [0 0.5) -\nCA-SUGAR-1 [0.5 .. 1"),
        "protein": _bands(CANADA, "CA-PROT-01 [0 0.5) 0.1\nCA-PROT-1 [0.5 .. 1"),
        "fat": _bands(CANADA, "CA-FAT-01 [0 0.5) 0.1\nCA-FAT-05 [0.5 5] 0.5\nCA-FAT-1 (5 .. 1"),
        "energy": _bands(CANADA, "CA-KCAL-1 [0 5) 1\nCA-KCAL-5 [5 50] 5\nCA-KCAL-10 (50 .. 10"),
    },
    "EU": _european("EU"),
    "UK": _european("EU") | _european("UK"),
}  # fmt: skip
_LABELS["IE"] = _LABELS["EU"]
# Australia and New Zealand print at most three significant figures; below these amounts they may print words instead.
LESS_THAN: dict[str, tuple[str, float, str]] = {
    "carbohydrate": ("AU-CARB-LT1", 1.0, "less than 1 g"), "sugars": ("AU-SUGAR-LT1", 1.0, "less than 1 g"),
    "protein": ("AU-PROT-LT1", 1.0, "less than 1 g"), "fat": ("AU-FAT-LT1", 1.0, "less than 1 g"),
    "fibre": ("AU-FIBRE-LT1", 1.0, "less than 1 g"), "sodium": ("AU-NA-LT5", 5.0, "less than 5 mg"),
    "energy": ("AU-KJ-LT40", 40.0, "less than 40 kJ"),
}  # fmt: skip
_AS_WRITTEN = ("AU", "NZ", "ZA", "JP")
LABEL_REGIONS = (*_LABELS, *_AS_WRITTEN)
_LARGEST = Fraction(100_000)
_NUMBER = re.compile(r"[\d.]+")


def label_interval(declared: str, nutrient: str, region: str) -> Interval:
    """The true amounts that may be printed as `declared` (the figure as printed: '1', '0.6', '<0.5').

    Australia, New Zealand, Japan and South Africa print what digits they like; there it is half the last digit.
    InvalidMeasure for an unknown region or nutrient, or a figure that such a label cannot show.
    """
    text = declared.strip().lower().removesuffix("g").strip()
    less = text.startswith(("<", "less than"))
    amount = _figure(text.removeprefix("less than").lstrip("<").strip(), declared)
    if region in _AS_WRITTEN:
        return _as_written(text, amount, nutrient, less)
    bands = _table(region, nutrient)
    if less:
        return _worded(bands, amount, declared, region, nutrient)
    parts = [part for band in bands if (part := _printed_as(band, amount))]
    if not parts:
        steps = " or ".join(f"{float(step):g}" for step in sorted({band.step for band in bands if band.step}))
        raise InvalidMeasure(
            f"a {region} label prints {nutrient} in steps of {steps}, so it cannot say {declared}",
            "check the label, or say which country it is from",
        )
    low, low_in = min(((p[0], not p[1]) for p in parts), key=lambda end: end)
    high, high_in = max(((p[2], p[3]) for p in parts), key=lambda end: end)
    rules = tuple(dict.fromkeys(f"rule:{part[4]}" for part in parts))
    return Interval(float(low), float(high), not low_in, high_in, rules)


def printed(amount: float, nutrient: str, region: str) -> tuple[str, ...]:
    """What a label may print for a true amount: one figure, or several where the rule leaves a choice.

    >>> printed(0.7, "carbohydrate", "US"), printed(0.5, "carbohydrate", "EU")
    (('1', 'less than 1 g'), ('0', '<0.5'))
    """
    exact = _figure(repr(amount), repr(amount))
    found: list[str] = []
    for band in _table(region, nutrient):
        if band.holds(exact):
            found += [f"{float(figure):g}" for figure in band.prints(exact)]
            found += [band.wording] if band.wording else []
    return tuple(dict.fromkeys(found))


def sources() -> Iterator[tuple[str, str]]:
    """Id (without 'rule:') and source of every rule here."""
    for nutrients in _LABELS.values():
        yield from ((band.rule, band.source) for bands in nutrients.values() for band in bands)
    yield from ((name, FSANZ) for name, _, _ in LESS_THAN.values())
    yield from ((band.rule, f"{EU}, Table 1, from memory") for bands in TOLERANCES.values() for band in bands)
    yield from (("US-TOL-UPPER", "21 CFR 101.9(g)(5)"), ("US-TOL-LOWER", "21 CFR 101.9(g)(3), (4), (6), from memory"))


def _figure(text: str, declared: str) -> Fraction:
    try:
        amount = Fraction(text)
    except (ValueError, ZeroDivisionError) as fault:
        raise InvalidMeasure(f"{declared!r} is no figure of a label", "write it as printed, like 12 or <0.5") from fault
    if not 0 <= amount <= _LARGEST:
        raise InvalidMeasure(f"{declared} is no amount a label can show", "write it as printed, like 12 or <0.5")
    return amount


def _table(region: str, nutrient: str) -> tuple[Band, ...]:
    if region not in _LABELS:
        hint = f"known are {', '.join(LABEL_REGIONS)}"
        raise InvalidMeasure(f"no rounding table is known for labels of {region or 'an unnamed country'}", hint)
    if nutrient not in _LABELS[region]:
        near = nearest(nutrient, _LABELS[region])
        raise InvalidMeasure(
            f"no rounding rule is known for {nutrient!r} on labels of {region}",
            f"did you mean {near!r}?" if near else f"known are {', '.join(_LABELS[region])}",
        )
    return _LABELS[region][nutrient]


def _printed_as(band: Band, declared: Fraction) -> tuple[Fraction, bool, Fraction, bool, str] | None:
    """The part of a band printed as `declared`: low, low belongs, high, high belongs, rule; None for none."""
    if not band.step:
        if declared:
            return None
        high = band.high if band.high is not None else Fraction(0)
        return band.low, band.low_in, high, band.high_in, band.rule
    if declared % band.step:
        return None
    half = band.step / 2
    low, low_in = max((declared - half, True), (band.low, band.low_in), key=lambda end: (end[0], not end[1]))
    high, high_in = declared + half, not band.ties_up
    if band.high is not None and (band.high, band.high_in) < (high, high_in):
        high, high_in = band.high, band.high_in
    if low > high or (low == high and not (low_in and high_in)):
        return None
    return low, low_in, high, high_in, band.rule


def _worded(bands: tuple[Band, ...], amount: Fraction, declared: str, region: str, nutrient: str) -> Interval:
    for band in bands:
        if band.wording and band.high is not None and _NUMBER.findall(band.wording) == [f"{float(amount):g}"]:
            return Interval(float(band.low), float(band.high), band.low_in, band.high_in, (f"rule:{band.rule}",))
    raise InvalidMeasure(f"a {region} label does not print {declared!r} for {nutrient}", "write it as printed")


def _as_written(text: str, amount: Fraction, nutrient: str, less: bool) -> Interval:
    rule, least, _ = LESS_THAN.get(nutrient, ("AS-PRINTED", 0.0, ""))
    if less:
        return Interval(0.0, float(amount) or least, True, False, (f"rule:{rule}",))
    digits = len(text.partition(".")[2])
    half = Fraction(1, 2 * 10**digits)
    return Interval(float(max(amount - half, Fraction(0))), float(amount + half), True, True, ("rule:AS-PRINTED",))


@dataclass(frozen=True, slots=True)
class Tolerance:
    """How far a tested value may lie from the printed one: an absolute or a relative amount within a band."""

    rule: str
    low: float
    high: float | None
    absolute: float
    relative: float
    high_in: bool = True


def _tolerances(key: str, below: float) -> tuple[Tolerance, ...]:
    return (
        Tolerance(f"EU-TOL-{key}-LT10", 0.0, 10.0, below, 0.0, high_in=False),
        Tolerance(f"EU-TOL-{key}-10-40", 10.0, 40.0, 0.0, 0.2),
        Tolerance(f"EU-TOL-{key}-GT40", 40.0, None, 8.0, 0.0),
    )


# European Commission guidance on tolerances (Dec 2012), Table 1, per 100 g; from memory. Rounding is allowed on top.
TOLERANCES: dict[str, tuple[Tolerance, ...]] = {
    "carbohydrate": _tolerances("CARB", 2.0), "sugars": _tolerances("SUGAR", 2.0), "protein": _tolerances("PROT", 2.0),
    "fibre": _tolerances("FIBRE", 2.0), "fat": _tolerances("FAT", 1.5),
    "saturates": (Tolerance("EU-TOL-SAT-LT4", 0.0, 4.0, 0.8, 0.0, high_in=False),
                  Tolerance("EU-TOL-SAT-GE4", 4.0, None, 0.0, 0.2)),
    "salt": (Tolerance("EU-TOL-SALT-LT125", 0.0, 1.25, 0.375, 0.0, high_in=False),
             Tolerance("EU-TOL-SALT-GE125", 1.25, None, 0.0, 0.2)),
}  # fmt: skip
# 21 CFR 101.9(g)(5): a tested value more than 20 % above the printed one misbrands (these nutrients); 101.9(g)(3), (4)
# and (6), from memory: the others may not fall under 80 % of it.
US_UPPER = frozenset({"energy", "sugars", "added sugars", "fat", "saturates", "sodium"})
US_LOWER = frozenset({"carbohydrate", "fibre", "protein"})
_US_SHARE = 0.2


def tolerated(declared: float, nutrient: str, region: str) -> tuple[float, float, str]:
    """The tested values a printed one may stand for in law, rounding aside: low, high (inf for no limit) and the rule.

    >>> tolerated(12.0, "carbohydrate", "EU")
    (9.6, 14.4, 'rule:EU-TOL-CARB-10-40')
    """
    if region == "US" and nutrient in US_UPPER:
        return 0.0, declared * (1 + _US_SHARE), "rule:US-TOL-UPPER"
    if region == "US" and nutrient in US_LOWER:
        return declared * (1 - _US_SHARE), float("inf"), "rule:US-TOL-LOWER"
    for band in TOLERANCES.get(nutrient, ()) if region in ("EU", "IE", "UK") else ():
        if band.high is None or declared < band.high or (band.high_in and declared == band.high):
            width = band.absolute + band.relative * declared
            return round(max(0.0, declared - width), 9), round(declared + width, 9), f"rule:{band.rule}"
    raise InvalidMeasure(f"no tolerance is known for {nutrient!r} on labels of {region}", "known are the US and the EU")
