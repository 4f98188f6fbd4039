"""CSV and TSV: delimiter, header and columns found; rows streamed; broken quoting costs one row, never the rest."""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import islice
from typing import IO

from qa.outside.intake.build import Builder
from qa.outside.intake.columns import choose, choose_by_looks, named, no_text, numbered
from qa.outside.intake.found import Found, Rows
from qa.outside.intake.names import Role, meaning
from qa.outside.intake.sniff import Sniffed
from qa.outside.intake.values import as_time, day_first_of

SAMPLE_ROWS = 300
LONGEST_LINE = 16 * 1024 * 1024
"""Characters; a longer line, or quoted field, is set aside."""
_SEPARATOR_LINE = re.compile(r"sep=(.)\s*")  # spreadsheets write it to name the delimiter

Cells = list[str]
Record = Cells | str
"""The cells of a row, or the reason why a line could not be split."""


def find_table(file: Sniffed, mapping: Mapping[Role, str], builder: Builder) -> Found:
    """Look at a table's first rows and say how to read all of it."""
    delimiter, escape, skip = _dialect(file)
    head = file.start[: file.start.rfind("\n") + 1] or file.start
    sample = list(islice(records(_skipped(io.StringIO(head, newline=""), skip), delimiter, escape), SAMPLE_ROWS))
    rows = [r for r in sample if isinstance(r, list) and r]
    plan = Plan.of(rows, mapping, file.name)
    builder.day_first = day_first_of(plan.column("time", rows))

    def read() -> Rows:
        with file.path.open(encoding=file.encoding, errors="replace", newline="") as handle:
            yield from plan.read(records(_skipped(handle, skip), delimiter, escape), builder)

    notes = (*plan.notes(rows, builder.day_first),)
    shape = "TSV" if delimiter == "\t" else "CSV"
    header = plan.header is not None
    return Found(shape, file.encoding, tuple(plan.names), plan.roles, read, delimiter, header, notes)


class Plan:
    """Which row is the header and which column holds what; shared by text tables and spreadsheets."""

    def __init__(self, names: Sequence[str], roles: Mapping[Role, str], header: int | None) -> None:
        self.names = names
        self.roles = roles
        self.header = header

    @classmethod
    def of(cls, rows: Sequence[Sequence[object]], mapping: Mapping[Role, str], file: str) -> Plan:
        """Decide from the first rows; UnreadableInput if no column can be the text."""
        header = header_at(rows, mapping)
        width = len(rows[header]) if header is not None else _usual_width(rows)
        names = _unique(rows[header]) if header is not None else [f"column {n + 1}" for n in range(width)]
        data = rows[header + 1 :] if header is not None else rows
        columns = {name: [r[n] for r in data if n < len(r)] for n, name in enumerate(names)}
        shown = names if header is not None else numbered(names, rows[0] if rows else [])
        own = named(mapping, names, file, shown)
        left = {name: values for name, values in columns.items() if name not in own.values()}
        if header is None:
            guessed = choose_by_looks(left)
        elif data:
            guessed = choose(left)
        else:
            guessed = _by_name_alone(left)
        roles = {**{role: name for role, name in guessed.items() if role not in own}, **own}
        if "text" not in roles:
            raise no_text(file, shown)
        return cls(names, roles, header)

    @property
    def _first(self) -> int:
        """Index of the first row after the header."""
        return 0 if self.header is None else self.header + 1

    def column(self, role: Role, rows: Sequence[Sequence[object]]) -> list[str]:
        """The sample's values for a role."""
        if role not in self.roles:
            return []
        at = self.names.index(self.roles[role])
        return [str(r[at]) for r in rows[self._first :] if at < len(r)]

    def read(self, rows: Iterable[Record | Sequence[object]], builder: Builder) -> Rows:
        """Every row after the header as a comment or set aside; blank lines are no rows."""
        width = len(self.names)
        at = {role: self.names.index(self.roles[role]) if role in self.roles else width for role in _ROLES}
        text, author, time, likes, own, parent, episode = (at[role] for role in _ROLES)
        number = 0
        for cells in _after(self._first, rows):
            number += 1
            if isinstance(cells, str):
                yield builder.aside(number, *cells.split("\x1f", 1))
                continue
            if len(cells) != width:
                cells = _squared(cells, width)  # noqa: PLW2901
                if isinstance(cells, str):
                    yield builder.aside(number, *cells.split("\x1f", 1))
                    continue
            row = [*cells, ""]
            yield builder.comment(
                number,
                row[text],
                author=row[author],
                time=row[time],
                likes=row[likes],
                id=row[own],
                parent=row[parent],
                episode=row[episode],
                cells=cells,
            )

    def notes(self, rows: Sequence[Sequence[object]], day_first: bool | None) -> Iterator[str]:
        """What a person should know before storing this file."""
        if self.header is None:
            yield "no header row: columns are told by their looks; name others with --map, e.g. --map likes=3"
        times = self.column("time", rows)
        if day_first is None and any(as_time(t, True) != as_time(t, False) for t in times):
            yield "dates like 03/04/2026 can be read two ways here; these times are left empty"
        ids = self.column("id", rows)
        if len(ids) > 2 and ids[0] in {"0", "1"} and ids == [str(int(ids[0]) + n) for n in range(len(ids))]:
            yield "the ids are running numbers; if another file counts from 1 too, its comments replace these"


_ROLES: tuple[Role, ...] = ("text", "author", "time", "likes", "id", "parent", "episode")


def _after(skip: int, rows: Iterable[Record | Sequence[object]]) -> Iterator[Record | Sequence[object]]:
    """The rows that are not blank, without the first few: the header and what stands above it."""
    for cells in rows:
        if skip and cells and not isinstance(cells, str):
            skip -= 1
        elif not skip and cells:
            yield cells


def _squared(cells: Sequence[object], width: int) -> Sequence[object] | str:
    """The cells if only empty ones are too many, else the reason why the row is ragged."""
    if len(cells) > width and not any(cells[width:]):
        return cells[:width]
    shown = " | ".join(map(str, cells))
    return f"{len(cells)} cells where the header has {width}\x1f{shown}"


def header_at(rows: Sequence[Sequence[object]], mapping: Mapping[Role, str]) -> int | None:
    """Index of the header row among the first rows, or None if there is none.

    Title rows above it are narrow: at most half as many filled cells as the header.

    >>> header_at([["Week 9", ""], ["author", "comment"], ["ann", "hi"]], {})
    1
    >>> header_at([["ann", "Can I use chia instead?"], ["bob", "How many grams is that?"]], {}) is None
    True
    """
    best, at = 1, None
    wanted = {name.casefold() for name in mapping.values() if not name.isdecimal()}
    for index, row in enumerate(rows[:20]):
        cells = [str(c).strip() for c in row if c is not None and str(c).strip()]
        found = {m[0] for c in cells if (m := meaning(c)) and m[1] >= 0.5}
        score = len(found) + ("text" in found) + 3 * sum(c.casefold() in wanted for c in cells)
        if score > best and all(_filled(above) <= max(1, len(cells) // 2) for above in rows[:index]):
            best, at = score, index
    return at if at is not None or not rows else _first_unlike_rest(rows)


def _filled(row: Sequence[object]) -> int:
    return sum(c is not None and str(c).strip() != "" for c in row)


def _first_unlike_rest(rows: Sequence[Sequence[object]]) -> int | None:
    """0 if the first row is made of words where the rest has numbers or times, else None."""
    first, rest = [str(c).strip() for c in rows[0]], rows[1:]
    if not rest or not all(first) or len(set(first)) < len(first) or any(len(c) > 40 for c in first):
        return None
    for n, cell in enumerate(first):
        below = [str(r[n]) for r in rest if n < len(r) and r[n] not in {"", None}]
        if below and not _is_value(cell) and sum(map(_is_value, below)) >= 0.8 * len(below):
            return 0
    return None


def _is_value(cell: str) -> bool:
    return cell.replace(".", "", 1).isdecimal() or as_time(cell, True) != ""


def _by_name_alone(columns: Mapping[str, Sequence[object]]) -> dict[Role, str]:
    """Roles of a table that has a header and no rows: it reads as nothing, which is no fault."""
    return {m[0]: name for name in reversed(list(columns)) if (m := meaning(name)) and m[1] >= 0.5}


def _unique(names: Sequence[object]) -> list[str]:
    """Column names as text, none empty, none twice; trailing empty ones stay so that the width is right."""
    seen: Counter[str] = Counter()
    unique = []
    for n, name in enumerate(names, 1):
        text = " ".join(str(name if name is not None else "").split()) or f"column {n}"
        seen[text] += 1
        unique.append(text if seen[text] == 1 else f"{text} ({seen[text]})")
    return unique


def _usual_width(rows: Sequence[Sequence[object]]) -> int:
    return Counter(map(len, rows)).most_common(1)[0][0] if rows else 0


def _dialect(file: Sniffed) -> tuple[str, str | None, int]:
    """Delimiter, escape character and the number of lines to skip, as they best explain the first rows."""
    first = file.start.split("\n", 1)[0]
    if found := _SEPARATOR_LINE.fullmatch(first):
        return found[1], None, 1
    head = file.start[: file.start.rfind("\n") + 1] or file.start
    tried: list[tuple[float, str, str | None]] = []
    escapes: tuple[str | None, ...] = (None, "\\") if re.search(r'[^\\]\\"[^,;\t|\r\n]', head) else (None,)
    for delimiter in ("\t", ",", ";", "|"):
        for escape in escapes:
            rows = list(islice(records(io.StringIO(head, newline=""), delimiter, escape), SAMPLE_ROWS))
            tried.append((_evenness(rows), delimiter, escape))
    score, delimiter, escape = max(tried, key=lambda t: t[0])
    if score <= 0.5:  # one column: no delimiter is better than a wrong one, unless quoting needs the usual one
        return ("," if '"' in head else "\x1e"), escape, 0
    return delimiter, escape, 0


def _evenness(rows: Sequence[Record]) -> float:
    """How well rows of cells look like a table: share of equal widths, told names in a header count for more."""
    cells = [r for r in rows if isinstance(r, list) and r]
    if not cells:
        return 0.0
    width, count = Counter(map(len, cells)).most_common(1)[0]
    share = count / len(rows)
    header = header_at(cells, {})
    roles = {m[0] for c in cells[header] if (m := meaning(c)) and m[1] >= 0.5} if header is not None else set()
    told = 0.5 * len(roles) if header is not None and len(cells[header]) > 1 else 0.0
    if told < 1 and (width < 2 or share < 0.8 or _is_prose(cells)):
        return 0.0
    return share + told + 0.01 * min(width, 9)


def _is_prose(rows: Sequence[Cells]) -> bool:
    """Whether the cells after the first begin with a blank, as what follows a comma in a sentence does."""
    later = [cell for row in rows for cell in row[1:] if cell]
    return sum(cell.startswith(" ") for cell in later) > 0.8 * len(later)


def _skipped(handle: IO[str], lines: int) -> IO[str]:
    for _ in range(lines):
        handle.readline()
    return handle


class _Tape:
    """Lines for the csv module that can be wound back to the second line of a broken record."""

    def __init__(self, handle: IO[str]) -> None:
        self.handle = handle
        self.pushed: list[str] = []
        self.record: list[str] = []

    def __iter__(self) -> Iterator[str]:
        return self

    def __next__(self) -> str:
        line = self.pushed.pop() if self.pushed else self.handle.readline(LONGEST_LINE)
        if not line:
            raise StopIteration
        self.record.append(line)
        if len(line) >= LONGEST_LINE:
            raise csv.Error("line too long")
        return line

    def wind_back(self) -> str:
        """Give the record's first line; the others will come again."""
        first, *others = self.record
        self.pushed.extend(reversed(others))
        return first

    def skip_rest_of_line(self) -> None:
        """Go to the end of a line that was longer than is read at once."""
        while (part := self.handle.readline(LONGEST_LINE)) and not part.endswith("\n"):
            pass


def records(handle: IO[str], delimiter: str, escape: str | None = None) -> Iterator[Record]:
    """Rows of cells; where quoting is broken the first line alone is read as it stands and reading goes on after it."""
    csv.field_size_limit(max(csv.field_size_limit(), LONGEST_LINE))
    tape = _Tape(handle)
    kept = tape.record
    while True:
        reader = csv.reader(tape, delimiter=delimiter, escapechar=escape, strict=True)
        try:
            for cells in reader:
                kept.clear()
                yield cells
        except csv.Error:
            yield _one_line(tape, delimiter, escape)
            kept.clear()
        else:
            return


def _one_line(tape: _Tape, delimiter: str, escape: str | None) -> Record:
    line = tape.wind_back()
    if len(line) >= LONGEST_LINE:
        if not line.endswith("\n"):
            tape.skip_rest_of_line()
        return f"a line of over {LONGEST_LINE:,} characters\x1f{line[:1000]}"
    try:
        return next(csv.reader([line.rstrip("\r\n")], delimiter=delimiter, escapechar=escape))
    except (csv.Error, StopIteration) as fault:
        return f"quoting that cannot be understood ({fault})\x1f{line[:1000]}"
