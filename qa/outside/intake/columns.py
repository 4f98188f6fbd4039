"""Which column holds what: the names propose, the values decide."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from qa.errors import UnreadableInput
from qa.outside.intake.build import words
from qa.outside.intake.names import ROLES, Role, meaning
from qa.outside.intake.values import as_count, as_time
from qa.text import nearest

_FEW = 10  # values that say little against a name
PLAIN_ENOUGH = 0.35
"""How plainly a name must say its role before it is believed."""


@dataclass(frozen=True, slots=True)
class Looks:
    """What the first values of a column look like, as shares 0 to 1 of those that are filled."""

    filled: int
    times: float
    counts: float
    lettered: float
    distinct: float
    length: float
    """Mean characters."""
    spaces: float
    """Mean spaces a value."""
    spaced: float
    """Share of values with a space in them; a few mangled ones make no ids of words."""


def looks(values: Iterable[object]) -> Looks:
    """Look at a column's values (a few hundred are enough)."""
    texts = [t for v in values if (t := words(v).strip())]
    n = max(1, len(texts))
    return Looks(
        filled=len(texts),
        times=sum(as_time(t, True) != "" for t in texts) / n,
        counts=sum(as_count(t) is not None for t in texts) / n,
        lettered=sum(any(c.isalpha() or ord(c) > 0x2000 for c in t) for t in texts) / n,
        distinct=len(set(texts)) / n,
        length=sum(map(len, texts)) / n,
        spaces=sum(t.count(" ") for t in texts) / n,
        spaced=sum(" " in t for t in texts) / n,
    )


def fits(role: Role, seen: Looks) -> bool:
    """Whether a column with these looks can be that at all; an empty one can be anything but the text."""
    if not seen.filled:
        return role != "text"
    if role == "time":
        return seen.times >= 0.5
    if role == "likes":
        return seen.counts >= 0.7
    if role == "text":
        return seen.lettered >= 0.2 and seen.times < 0.6
    if role == "id":
        few = seen.filled < _FEW
        return (seen.distinct >= 0.5 or few) and seen.spaced < (1 if few else 0.8) and seen.length <= 300
    return seen.length <= 300 and (role != "author" or seen.times < 0.8)


def choose(columns: Mapping[str, Sequence[object]]) -> dict[Role, str]:
    """The column for each role, by name and looks; roles nobody fills are left out.

    >>> choose({"Nutzer": ["ann"], "Kommentar": ["Geht das mit Chia?"], "Datum": ["2026-03-02"]})
    {'text': 'Kommentar', 'author': 'Nutzer', 'time': 'Datum'}
    """
    seen = {name: looks(values) for name, values in columns.items()}
    best: dict[Role, tuple[float, float, str]] = {}
    for name, look in seen.items():
        found = meaning(name)
        if not found or found[1] < PLAIN_ENOUGH or not fits(found[0], look):
            continue
        role, strength = found
        # Between equals: the shallower path, then the fuller column, then the first.
        rank = (strength - 0.02 * name.count("."), min(look.filled, 1), name)
        if role not in best or rank[:2] > best[role][:2]:
            best[role] = rank
    chosen = {role: best[role][2] for role in ROLES if role in best}
    if "text" not in chosen:
        text = _text_by_looks(seen, set(chosen.values())) or _text_by_name(columns)
        chosen = {"text": text, **chosen} if text else chosen
    return chosen


def _text_by_name(columns: Mapping[str, Sequence[object]]) -> str | None:
    """The last resort: a column that is plainly named for texts, whatever stands in it, if it is not all numbers."""
    for name, values in columns.items():
        found = meaning(name)
        if found and found[0] == "text" and found[1] >= 0.9:
            filled = [value for value in values if value is not None]
            if not filled or any(isinstance(value, str) for value in filled):
                return name
    return None


def choose_by_looks(columns: Mapping[str, Sequence[object]]) -> dict[Role, str]:
    """The same without names to go by: text, time and author only, each only if one column stands out."""
    seen = {name: looks(values) for name, values in columns.items()}
    text = _text_by_looks(seen, set())
    if text is None:
        return {}
    chosen: dict[Role, str] = {"text": text}
    rest = {name: look for name, look in seen.items() if name != text and look.filled}
    times = [name for name, look in rest.items() if look.times >= 0.8]
    authors = [
        name
        for name, look in rest.items()
        if name not in times and look.lettered >= 0.9 and look.counts < 0.2 and look.spaces < 2 and look.length < 40
    ]
    if len(authors) == 1:
        chosen["author"] = authors[0]
    if len(times) == 1:
        chosen["time"] = times[0]
    return chosen


def _text_by_looks(seen: Mapping[str, Looks], taken: set[str]) -> str | None:
    """The one column of sentences, if it stands out from the rest."""
    sentences = sorted(
        (
            (look.length, name)
            for name, look in seen.items()
            if name not in taken and look.filled and look.lettered >= 0.6 and look.times < 0.3 and look.counts < 0.3
            if look.spaces >= 1 or len(seen) == 1
        ),
        reverse=True,
    )
    if not sentences or (len(sentences) > 1 and sentences[0][0] < 1.5 * sentences[1][0]):
        return None
    return sentences[0][1]


def check_mapping(mapping: Mapping[str, str] | None) -> dict[Role, str]:
    """The mapping with its roles checked; UnreadableInput for an unknown one.

    >>> check_mapping({"txet": "body"})
    Traceback (most recent call last):
        ...
    qa.errors.UnreadableInput: --map: no role 'txet'; did you mean 'text'? roles: text, author, time, ...
    """
    checked: dict[Role, str] = {}
    for name, column in (mapping or {}).items():
        role = next((r for r in ROLES if r == name.strip()), None)
        if role is None:
            hint = f"did you mean {nearest(name, ROLES)!r}? " if nearest(name, ROLES) else ""
            raise UnreadableInput(f"--map: no role {name!r}", f"{hint}roles: {', '.join(ROLES)}")
        checked[role] = column.strip()
    return checked


def named(mapping: Mapping[Role, str], columns: Sequence[str], file: str, shown: Sequence[str]) -> dict[Role, str]:
    """The mapping's columns as the file spells them, found by name, by name in another case, or by 1-based number."""
    lower = {c.casefold(): c for c in reversed(columns)}
    found: dict[Role, str] = {}
    for role, wanted in mapping.items():
        if wanted in columns:
            found[role] = wanted
        elif wanted.casefold() in lower:
            found[role] = lower[wanted.casefold()]
        elif wanted.isdecimal() and 1 <= int(wanted) <= len(columns):
            found[role] = columns[int(wanted) - 1]
        else:
            hint = nearest(wanted, columns)
            there = f"did you mean {hint!r}?" if hint else f"there are: {listing(shown)}"
            raise UnreadableInput(f"{file}: no column {wanted!r} for {role}", there)
    return found


def listing(columns: Sequence[str], most: int = 30) -> str:
    """The columns' names in one line."""
    names = ", ".join(c or "(no name)" for c in columns[:most])
    return names + (f" and {len(columns) - most} more" if len(columns) > most else "")


def numbered(names: Sequence[str], first_row: Sequence[object]) -> list[str]:
    """Columns without names, shown by number with their first value.

    >>> numbered(["column 1"], ["Can I use chia?"])
    ['1 (Can I use chia?)']
    """
    return [f"{n} ({words(value)[:24]})" for n, (_, value) in enumerate(zip(names, first_row, strict=False), 1)]


def no_text(file: str, columns: Sequence[str]) -> UnreadableInput:
    """The complaint when nobody can tell which column holds the comments."""
    if not columns:
        return UnreadableInput(f"{file}: holds no comments that I can find", "check that it is a comment export")
    return UnreadableInput(
        f"{file}: cannot tell which column holds the comments",
        f"name it with --map text=COLUMN; columns: {listing(columns)}",
    )
