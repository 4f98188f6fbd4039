"""Place, problem, and the error tree: every complaint says where, what is wrong, and what to do."""

from __future__ import annotations

from typing import NamedTuple


class Place(NamedTuple):
    """Where something stands: a file and a 1-based line (0 if the file as a whole is meant)."""

    file: str
    line: int = 0

    def __str__(self) -> str:
        return f"{self.file}:{self.line}" if self.line else self.file


class Problem(NamedTuple):
    """Something wrong in the data: where, what, and what to do about it.

    >>> print(Problem(Place("knowledge/sources.yaml", 3), "'yaer' is no key of a source", "did you mean 'year'?"))
    knowledge/sources.yaml:3: 'yaer' is no key of a source
        do: did you mean 'year'?
    """

    place: Place
    message: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.place}: {self.message}\n    do: {self.remedy}"


class LevelspoonError(Exception):
    """What is wrong and what to do, in one line; commands print it and exit with code 2.

    >>> print(LevelspoonError("no such file: week.csv", "check the spelling"))
    no such file: week.csv; check the spelling
    """

    def __init__(self, message: str, remedy: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.remedy = remedy

    def __str__(self) -> str:
        return f"{self.message}; {self.remedy}" if self.remedy else self.message


class InvalidMeasure(LevelspoonError):
    """An amount, unit or density that cannot be what it claims to be."""


class NoKnowledge(LevelspoonError):
    """A sum needs a fact that nobody has given; there are no physical defaults."""


class UnreadableInput(LevelspoonError):
    """A file that cannot be read as comments, knowledge or settings."""


class StaleDraft(LevelspoonError):
    """The draft or a fact behind it changed since it was shown; look again before signing."""


class NoWorkbench(LevelspoonError):
    """The folder is not a workbench, or its store cannot be opened."""


class Missing(LevelspoonError):
    """An ask lacks something before it can be answered; `reason` is one of records.REASONS."""

    def __init__(self, reason: str, message: str, remedy: str = "") -> None:
        super().__init__(message, remedy)
        self.reason = reason
