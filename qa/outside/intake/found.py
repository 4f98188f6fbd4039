"""What a reader found in a file, and what `look` shows of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from qa.outside.intake.names import Role
from qa.records import Comment, SetAside

Rows = Iterator[Comment | SetAside]


@dataclass(frozen=True, slots=True)
class Found:
    """How a file is to be read.

    Attributes:
        shape: what it is, in words a person knows: 'CSV', 'JSON Lines', 'Atom' ….
        encoding: of the text; '' for XLSX.
        delimiter: of a table, else ''.
        header: whether the columns' names stand in the file.
        columns: names of all columns, or dotted paths of all keys.
        roles: which column or key became what.
        notes: what a person should know before storing it.
        rows: starts reading; every input row comes out once.
    """

    shape: str
    encoding: str
    columns: tuple[str, ...]
    roles: Mapping[Role, str]
    rows: Callable[[], Rows]
    delimiter: str = ""
    header: bool = True
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Preview:
    """What was found in a file, with its first rows; nothing is stored.

    Attributes are those of `Found`; `rows` are the first comments and set-aside rows.
    """

    file: str
    shape: str
    encoding: str
    delimiter: str
    header: bool
    columns: tuple[str, ...]
    roles: dict[Role, str]
    notes: tuple[str, ...]
    rows: tuple[Comment | SetAside, ...] = field(default=())
