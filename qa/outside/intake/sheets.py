"""XLSX: every sheet with a column of texts is read; title rows above the header are skipped."""

from __future__ import annotations

import warnings
import zipfile
from collections.abc import Iterator, Mapping
from itertools import chain, islice
from typing import Any
from xml.etree.ElementTree import ParseError

from qa.errors import UnreadableInput
from qa.outside.intake.build import Builder
from qa.outside.intake.found import Found, Rows
from qa.outside.intake.names import Role
from qa.outside.intake.sniff import READS, Sniffed
from qa.outside.intake.tables import SAMPLE_ROWS, Plan
from qa.outside.intake.values import day_first_of

LARGEST_UNPACKED = 2 * 1024**3
MOST_SQUEEZED = 400
"""Unpacked size over packed size; real sheets reach some 20, bombs 1000."""


def find_sheets(file: Sniffed, mapping: Mapping[Role, str], builder: Builder) -> Found:
    """Look at the first rows of each sheet and say how to read them all."""
    _check_archive(file)
    plans: dict[str, Plan | None] = {}
    complaint: UnreadableInput | None = None
    for title, rows in _sheets(file):
        sample = [row for row in islice(rows, SAMPLE_ROWS) if any(c is not None for c in row)]
        if not sample:
            continue
        try:
            plans[title] = Plan.of(sample, mapping, file.name)
        except UnreadableInput as fault:
            plans[title], complaint = None, complaint or fault
        else:
            builder.day_first = builder.day_first or day_first_of(plans[title].column("time", sample))  # type: ignore[union-attr]
    if any(plan and plan.header is not None for plan in plans.values()):  # then a sheet without names holds notes
        plans = {title: plan if plan and plan.header is not None else None for title, plan in plans.items()}
    good = {title: plan for title, plan in plans.items() if plan}
    if not good:
        raise complaint or UnreadableInput(f"{file.name}: a workbook without rows", "export the comments again")
    first = next(iter(good.values()))
    notes = tuple(f"sheet {title!r} has no column of comments; its rows are set aside" for title in plans.keys() - good)
    shape = "XLSX" if len(plans) == 1 else f"XLSX, sheets {', '.join(good)}"
    return Found(
        shape,
        "",
        tuple(first.names),
        first.roles,
        lambda: _read(file, plans, builder),
        header=first.header is not None,
        notes=notes,
    )


def _check_archive(file: Sniffed) -> None:
    """Refuse what is no workbook, and archives that unpack to something monstrous."""
    try:
        with zipfile.ZipFile(file.path) as archive:
            names = set(archive.namelist())
            unpacked = sum(info.file_size for info in archive.infolist())
            packed = max(1, sum(info.compress_size for info in archive.infolist()))
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError) as fault:
        raise UnreadableInput(f"{file.name}: a broken ZIP archive or workbook ({fault})", "export it again") from fault
    if "xl/workbook.xml" not in names:
        raise UnreadableInput(f"{file.name}: a ZIP archive that is no XLSX workbook", f"unpack it first; {READS}")
    if unpacked > LARGEST_UNPACKED or (unpacked > 100 * 1024**2 and unpacked / packed > MOST_SQUEEZED):
        raise UnreadableInput(f"{file.name}: unpacks to {unpacked / 2**20:,.0f} MiB", "export it as CSV")


def _sheets(file: Sniffed) -> Iterator[tuple[str, Iterator[tuple[Any, ...]]]]:
    """Title and rows of values of each sheet; whatever is wrong inside ends in one clear line."""
    from openpyxl import load_workbook

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # openpyxl warns of styles and extensions that do not matter here
            books = [load_workbook(file.path, read_only=True, data_only=True)]
            if _has_formulas(file):
                books.append(load_workbook(file.path, read_only=True, data_only=False))
            try:
                for sheets in zip(*(book.worksheets for book in books), strict=True):
                    for sheet in sheets:
                        sheet.reset_dimensions()  # what the file says of its size may be wrong
                    yield sheets[0].title, _values(*(sheet.iter_rows(values_only=True) for sheet in sheets))
            finally:
                for book in books:
                    book.close()
    except (UnreadableInput, GeneratorExit):
        raise
    except (
        ParseError,
        zipfile.BadZipFile,
        KeyError,
        ValueError,
        TypeError,
        AttributeError,
        IndexError,
        OSError,
    ) as fault:
        raise UnreadableInput(f"{file.name}: a broken workbook ({fault})", "save it again or export CSV") from fault


def _has_formulas(file: Sniffed) -> bool:
    """Whether any sheet has a formula cell: a comment that begins with = may have been written as one."""
    with zipfile.ZipFile(file.path) as archive:
        for name in archive.namelist():
            if name.startswith("xl/worksheets/"):
                with archive.open(name) as part:
                    tail = b""
                    while chunk := part.read(1 << 20):
                        if b"<f>" in tail + chunk or b"<f " in tail + chunk:
                            return True
                        tail = chunk[-3:]
    return False


def _values(results: Iterator[Any], formulas: Iterator[Any] | None = None) -> Iterator[tuple[Any, ...]]:
    """Rows of values; a formula without a result stands for itself, as text."""
    if formulas is None:
        yield from results
        return
    for row, written in zip(results, formulas, strict=True):
        yield tuple(f if value is None else value for value, f in zip(row, written, strict=True))


def _read(file: Sniffed, plans: Mapping[str, Plan | None], builder: Builder) -> Rows:
    for title, rows in _sheets(file):
        builder.file = file.name if len(plans) == 1 else f"{file.name}#{title}"
        if title not in plans:
            continue
        plan = plans[title]
        filled = (_trimmed(row) for row in rows if any(c is not None for c in row))
        if plan is not None:
            yield from plan.read(_padded(filled, len(plan.names)), builder)
        else:
            for number, row in enumerate(filled, 1):
                shown = " | ".join(str(c) for c in row if c is not None)
                yield builder.aside(number, f"sheet {title!r} has no column of comments", shown)


def _trimmed(row: tuple[Any, ...]) -> list[Any]:
    last = max((n for n, c in enumerate(row, 1) if c is not None), default=0)
    return list(row[:last])


def _padded(rows: Iterator[list[Any]], width: int) -> Iterator[list[Any]]:
    """A sheet leaves out empty cells at a row's end; that is no fault."""
    return (list(chain(row, [None] * (width - len(row)))) for row in rows)
