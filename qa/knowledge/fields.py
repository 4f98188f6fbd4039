"""Reading a mapping key by key: every complaint gets its line and, for an unknown word, the nearest right spelling."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable

from qa.errors import InvalidMeasure, Place, Problem
from qa.knowledge.nodes import Node
from qa.knowledge.values import Value, read_value
from qa.text import nearest

ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
ITEM = re.compile(rf"{ID.pattern}(?:\.{ID.pattern})?")


MOST_ENTRIES = 1_000  # of one list or mapping; our longest has a tenth
MOST_LISTED = 30  # words in a remedy; a longer list helps nobody


class Unusable(Exception):
    """An entry that cannot be made; its problem is already on the list."""


class Report:
    """Collects the problems of one file."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.problems: list[Problem] = []

    def say(self, line: int, message: str, remedy: str) -> None:
        """Add a problem."""
        self.problems.append(Problem(self.place(line), message, remedy))

    def place(self, line: int) -> Place:
        """A line of this file."""
        return Place(self.file, line)


class Fields:
    """One mapping of a file, with the keys it may have; a wrong key is reported when it is made.

    Raises:
        Unusable: the node is no mapping.
    """

    def __init__(self, node: Node, what: str, keys: Iterable[str], report: Report) -> None:
        self.node, self.what, self.report = node, what, report
        if node.kind != "mapping":
            self.stop(
                node.line, f"{what} is written as keys with values, not as a {node.kind}", "see knowledge/README.md"
            )
        known = tuple(keys)
        if len(node.keys) > MOST_ENTRIES:
            self.stop(node.line, f"{what} with {len(node.keys)} keys", "see knowledge/README.md")
        for key, line, _ in node.keys.values():
            if key not in known:
                report.say(line, f"{key!r} is no key of {what}", did_you_mean(key, known))

    @property
    def place(self) -> Place:
        """Where the mapping starts."""
        return self.report.place(self.node.line)

    def stop(self, line: int, message: str, remedy: str) -> None:
        """Report and give the entry up."""
        self.report.say(line, message, remedy)
        raise Unusable(message)

    def line(self, key: str) -> int:
        """The line of a key, or of the mapping where the key is not given."""
        return self.node.keys[key].line if key in self.node.keys else self.node.line

    def text(self, key: str, default: str | None = None) -> str:
        """A text on one or several lines; without a default it must be there and not be empty."""
        node = self.node.get(key)
        if node is not None and node.kind != "text":
            self.stop(
                self.line(key), f"{key!r} of {self.what} is a {node.kind}", "write it as one text, in quotes if need be"
            )
        said = node.text.strip() if node is not None else ""
        if not said and default is None:
            self.stop(self.line(key), f"{self.what} has no {key!r}", f"add a line '{key}: …'")
        return said or default or ""

    def choice(self, key: str, known: Iterable[str], default: str | None = None) -> str:
        """One of some known words."""
        said, words = self.text(key, default), tuple(known)
        if said not in words and said != default:
            self.stop(self.line(key), f"{key} {said!r} of {self.what} is not known", did_you_mean(said, words))
        return said

    def id(self, key: str = "id", pattern: re.Pattern[str] = ID) -> str:
        """An id (or an item, with ITEM)."""
        said = self.text(key)
        if not pattern.fullmatch(said):
            shape = "ingredient or ingredient.form, in " if pattern is ITEM else ""
            self.stop(
                self.line(key), f"{key} {said!r} is no id", f"write {shape}lower-case letters, digits and hyphens"
            )
        return said

    def flag(self, key: str) -> bool:
        """True or false; false where it is not given."""
        said = self.text(key, "false")
        if said not in {"true", "false"}:
            self.report.say(self.line(key), f"{key} {said!r} of {self.what} is not known", "write true or false")
        return said == "true"

    def date(self, key: str) -> str:
        """A date as YYYY-MM-DD, or ''."""
        said = self.text(key, "")
        try:
            if said and datetime.date.fromisoformat(said).isoformat() != said:
                raise ValueError
        except ValueError:
            self.report.say(self.line(key), f"{key} {said!r} is no date", "write it as year-month-day, e.g. 2026-03-02")
            return ""
        return said

    def value(self, key: str, resolution: str = "") -> Value:
        """A value with spread and unit."""
        try:
            return read_value(self.text(key), resolution)
        except InvalidMeasure as fault:
            self.stop(self.line(key), fault.message, fault.remedy)
            raise

    def number(self, key: str) -> float | None:
        """A plain number, or None where it is not given."""
        said = self.text(key, "")
        return number(said, self.line(key), self.report) if said else None

    def items(self, key: str) -> list[Node]:
        """The entries of a list; empty where it is not given."""
        node = self.node.get(key)
        if node is None or (node.kind == "text" and node.plain and not node.text.strip()):
            return []
        if node.kind != "list":
            self.report.say(
                self.line(key), f"{key!r} of {self.what} is no list", "put '- ' before each entry, or [brackets]"
            )
            return []
        if len(node.items) > MOST_ENTRIES:
            self.stop(
                self.line(key), f"{key!r} of {self.what} has {len(node.items)} entries", f"keep to {MOST_ENTRIES}"
            )
        return node.items

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts."""
        found = []
        for node in self.items(key):
            if node.kind != "text" or not node.text.strip():
                self.report.say(node.line, f"an entry of {key!r} is not a text", "put it in quotes, or take it out")
            else:
                found.append(" ".join(node.text.split()))
        return tuple(found)

    def choices(self, key: str, known: Iterable[str]) -> tuple[str, ...]:
        """A list of known words; the others are reported and left out."""
        words, good = tuple(known), []
        for node in self.items(key):
            if node.kind == "text" and node.text in words:
                good.append(node.text)
            else:
                self.report.say(node.line, f"{node.text!r} under {key!r} is not known", did_you_mean(node.text, words))
        return tuple(good)

    def pairs(self, key: str) -> tuple[tuple[str, str], ...]:
        """A mapping of texts, as pairs in the order written."""
        node = self.node.get(key)
        if node is None or (node.kind == "text" and not node.text.strip()):
            return ()
        if node.kind != "mapping" or any(f.value.kind != "text" for f in node.keys.values()):
            self.report.say(
                self.line(key), f"{key!r} of {self.what} is no list of 'name: text' lines", "write one a line"
            )
            return ()
        return tuple((f.key, " ".join(f.value.text.split())) for f in node.keys.values())


def number(text: str, line: int, report: Report) -> float | None:
    """A finite number, or a problem and None."""
    if re.fullmatch(r"-?\d{1,12}(\.\d{1,12})?", text):
        return float(text)
    report.say(line, f"{text!r} is no number", "write digits with a point, e.g. 7.5")
    return None


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A remedy for an unknown word."""
    words = tuple(known)
    hint = nearest(word, words)
    if hint or not words:
        return f"did you mean {hint!r}?" if hint else "nothing is listed there yet"
    return f"known: {', '.join(words[:MOST_LISTED])}" + (" …" if len(words) > MOST_LISTED else "")
