"""Intake: comment exports of any usual shape, read row by row into comments; no row is lost.

A file is told by its content first and its name second. Every input row comes out as a `Comment` or a `SetAside` with
file, row and reason. Files that cannot be read as comments at all raise `UnreadableInput` in one line.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice
from pathlib import Path

from qa.outside.intake.build import Builder
from qa.outside.intake.columns import check_mapping
from qa.outside.intake.found import Found, Preview
from qa.outside.intake.names import ROLES
from qa.outside.intake.sniff import sniff
from qa.records import Comment, SetAside

__all__ = ["ROLES", "Preview", "look", "read_comments"]


def read_comments(
    path: Path, mapping: Mapping[str, str] | None = None, *, episode: str = ""
) -> Iterator[Comment | SetAside]:
    r"""Every row of a file, streamed.

    `mapping` names columns or dotted keys for roles ({"text": "body", "author": "user.name"}); it wins over looking.
    `episode` stands where the rows name none. Raises UnreadableInput, in one line that says what to do.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     _ = (file := Path(folder, "week.csv")).write_text("author,comment\nann,Can I use chia?\nbob,\n")
    ...     [getattr(row, "text", None) or row.reason for row in read_comments(file)]
    ['Can I use chia?', 'no text']
    """
    return _find(Path(path), mapping, episode).rows()


def look(path: Path, mapping: Mapping[str, str] | None = None, rows: int = 5, *, episode: str = "") -> Preview:
    """What a file is and which column became what, with its first rows; nothing is stored."""
    found = _find(Path(path), mapping, episode)
    first = tuple(islice(found.rows(), rows))
    return Preview(
        str(path),
        found.shape,
        found.encoding,
        found.delimiter,
        found.header,
        found.columns,
        dict(found.roles),
        found.notes,
        first,
    )


def _find(path: Path, mapping: Mapping[str, str] | None, episode: str) -> Found:
    checked = check_mapping(mapping)
    file = sniff(path)
    builder = Builder(file.name, episode)
    # Each reader is imported only when its kind of file comes.
    if file.kind == "table":
        from qa.outside.intake.tables import find_table

        return find_table(file, checked, builder)
    if file.kind == "xlsx":
        from qa.outside.intake.sheets import find_sheets

        return find_sheets(file, checked, builder)
    if file.kind == "xml":
        from qa.outside.intake.feeds import find_feed

        return find_feed(file, checked, builder)
    from qa.outside.intake.trees import find_tree

    return find_tree(file, checked, builder)
