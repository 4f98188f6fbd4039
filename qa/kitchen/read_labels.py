"""Labels as people quote them: "carbs 14g fibre 38g per 100g", "3 g carbs per 15 g, the other 2 g per 7 g".

>>> quoted = find_labels("3g carbs per 15 g or 2g per 7 g")
>>> [(label.lines["carbohydrate"].printed, label.serving.value) for label in quoted]
[('3', 15.0), ('2', 7.0)]
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from qa.measures.parse import Amount, find_amounts
from qa.measures.units import BARE, dimension, known

_LINE_NAMES = re.compile(
    r"\b(?:(?P<net>(?:net|digestible)(?:\s(?:carbs?|carbohydrates?))?)|(?P<carbohydrate>(?:total\s)?carb(?:s|ohydrates?)?|kohlenhydrate)"
    r"|(?P<fibre>(?:dietary\s)?fib(?:re|er)s?|ballaststoffe)|(?P<allulose>allulose)"
    r"|(?P<polyol>sugar alcohols?|polyols?|erythritol|xylitol|maltitol|sorbitol|isomalt|lactitol|mannitol))\b",
    re.IGNORECASE,
)
_FOR = re.compile(
    r"(?:\bper|/|\bin|\bfor|\bevery|\beach|\bout of|\b(?:serving|portion)(?:\sof|\ssize(?:\s(?:of|is))?)?)"
    r"\s?(?:an?|every|each)?\s?[(:=]?\s?$",
    re.IGNORECASE,
)
_SERVING_AFTER = re.compile(r"^[\s-]?(?:serving|portion|scoop)s?\b", re.IGNORECASE)
_CLAIM = re.compile(
    r"(?:=|\b(?:so|that'?s|thats|that is|makes|leaves|gives|is|equals|minus|to))\s[-−]?\s?$", re.IGNORECASE
)
_ONE_SPOON = re.compile(
    r"\b(?:per|in an?|for an?|each)\s(?:an?\s)?"
    r"(?P<spoon>(?P<tbsp>tablespoon|tbsp?s?)|(?P<tsp>teaspoon|tsp)|(?P<cup>cup))s?\b",
    re.IGNORECASE,
)
_PRINTED = re.compile(r"\d{1,4}(?:[.,]\d{1,3})?")
_LESS = re.compile(r"(?:<|\b(?:less than|under))\s?$", re.IGNORECASE)
_OF_WHAT = re.compile(r"^\s?(?:of\s)?(?:the\s)?([^\W\d_]{2,15}(?:[ -][^\W\d_]{2,15}){0,3})", re.IGNORECASE)
_FARTHEST = 16  # characters between a line's name and its figure


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a label as quoted: the figure as printed ('14', '<1') and where it stands in the text."""

    printed: str
    value: float
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class SaidLabel:
    """A label as somebody quoted it.

    Attributes:
        lines: 'carbohydrate', 'fibre', 'net', 'allulose' and kinds of sugar alcohol, with their figures.
        serving: what they are for; None if it was not said.
        of: the words after the serving, which may name the food; ''.
        claimed: digestible carbohydrate as the writer worked it out; None if nothing was claimed.
        claimed_at: where that stands; (-1, -1) if nowhere.
    """

    lines: dict[str, Line] = field(default_factory=dict)
    serving: Amount | None = None
    of: str = ""
    claimed: float | None = None
    claimed_at: tuple[int, int] = (-1, -1)


@lru_cache(maxsize=1024)
def find_labels(text: str, bare: str = "") -> tuple[SaidLabel, ...]:
    """The labels a text quotes, in order; a figure without a name is taken for the line named in `bare`, if any."""
    names = list(_LINE_NAMES.finditer(text))
    if not names and not bare:
        return ()
    amounts = _with_single_spoons(text, find_amounts(text))
    found: list[SaidLabel] = []
    group: list[Amount] = []
    serving: Amount | None = None
    for place, amount in enumerate(amounts):
        if _is_serving(text, amounts, place):
            if group and serving is None:
                _close(text, group, amount, names, found, bare)
                group = []
            else:
                _close(text, group, serving, names, found, bare)
                group, serving = [], amount
        elif amount.unit in ("g", ""):
            group.append(amount)
    if serving is not None or not found:
        _close(text, group, serving, names, found, bare)
        group = []
    return tuple(_with_claim(text, label, group, names) for label in found)


def _with_single_spoons(text: str, amounts: list[Amount]) -> list[Amount]:
    """The amounts, with the one that "per teaspoon" leaves unsaid."""
    spoons = []
    for match in _ONE_SPOON.finditer(text):
        unit = next(name for name in ("tbsp", "tsp", "cup") if match[name])
        spoons.append(Amount(1.0, 1.0, 1.0, unit, "", *match.span("spoon")))
    return sorted([*amounts, *spoons], key=lambda amount: amount.start)


def _is_serving(text: str, amounts: Sequence[Amount], place: int) -> bool:
    amount = amounts[place]
    if not (known(amount.unit) and dimension(amount.unit) in ("mass", "volume")) and amount.unit not in (*BARE, ""):
        return False
    before = text[amounts[place - 1].end if place else 0 : amount.start]
    return bool(_FOR.search(before) or _SERVING_AFTER.match(text[amount.end :]))


def _close(
    text: str,
    group: Sequence[Amount],
    serving: Amount | None,
    names: Sequence[re.Match[str]],
    found: list[SaidLabel],
    bare: str,
) -> None:
    """Add the label that a group of figures makes, if it makes one."""
    lines = _paired(text, group, names)
    spoken = [name.lastgroup or "" for name in names if name.lastgroup in ("carbohydrate", "net")]
    earlier = next((name for label in found for name in label.lines if name in ("carbohydrate", "net")), bare)
    earlier = earlier or next(iter(spoken), "")
    if not lines and group and earlier and serving is not None:
        lines = {earlier: _line(text, group[0])}
    if not {"carbohydrate", "net"} & set(lines):
        return
    claimed, at = None, (-1, -1)
    if "carbohydrate" in lines and "net" in lines:  # beside the total, a net figure is the writer's own sum
        said = lines.pop("net")
        claimed, at = said.value, (said.start, said.end)
    rest = _OF_WHAT.match(text[serving.end :]) if serving else None
    found.append(SaidLabel(lines, serving, rest[1] if rest else "", claimed, at))


def _paired(text: str, group: Sequence[Amount], names: Sequence[re.Match[str]]) -> dict[str, Line]:
    """Each figure with the name before it or after it, whichever way the writer began."""
    if not group:
        return {}
    first = group[0]
    leads = any(0 <= first.start - name.end() <= _FARTHEST for name in names)
    lines: dict[str, Line] = {}
    for place, amount in enumerate(group):
        low = group[place - 1].end if place else 0
        high = group[place + 1].start if place + 1 < len(group) else len(text)
        if leads:
            near = [n for n in names if low <= n.start() and 0 <= amount.start - n.end() <= _FARTHEST]
            name = near[-1] if near else None
        else:
            near = [n for n in names if n.end() <= high and 0 <= n.start() - amount.end <= _FARTHEST]
            name = near[0] if near else None
        if name is not None:
            kind = name.lastgroup or ""
            kind = name.group().lower().removesuffix("s") if kind == "polyol" else kind
            lines.setdefault("sugar alcohol" if kind == "polyol" else kind, _line(text, amount))
    return lines


def _line(text: str, amount: Amount) -> Line:
    written = text[amount.start : amount.end]
    number = _PRINTED.search(written)
    printed = number[0].replace(",", ".") if number else f"{amount.value:g}"
    less = _LESS.search(text[max(0, amount.start - 10) : amount.start])
    start = amount.start - len(less[0]) if less else amount.start
    return Line(f"<{printed}" if less else printed, amount.value, start, amount.end)


def _with_claim(text: str, label: SaidLabel, after: Sequence[Amount], names: Sequence[re.Match[str]]) -> SaidLabel:
    """The label with what its writer made of it: "so thats 24 net"."""
    if label.claimed is not None or "carbohydrate" not in label.lines:
        return label
    for amount in after:
        named = any(n.lastgroup == "net" and 0 <= n.start() - amount.end <= _FARTHEST for n in names)
        before = text[max(0, amount.start - 12) : amount.start]
        if named and _CLAIM.search(before):
            less = before.rstrip().lower().endswith(("minus", "-", "−"))
            value = -amount.value if less and amount.value > 0 else amount.value
            return SaidLabel(label.lines, label.serving, label.of, value, (amount.start, amount.end))
    return label
