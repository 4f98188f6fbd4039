r"""YAML as a tree that keeps its lines, read from the parser's events so that nothing can grow behind our back.

Text stays text: `7.0` keeps its last digit, `no` is a word, a date is ten characters. Anchors, aliases and tags are
refused (none is needed here, and they are how a small file becomes a huge one); so are deep nesting and doubled keys.

>>> (tree,), problems = read_yaml("a: 7.0\nb: [x, y]\n", "file.yaml")
>>> [(field.key, field.line, field.value.text or len(field.value.items)) for field in tree.keys.values()]
[('a', 1, '7.0'), ('b', 2, 2)]
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple, NoReturn

from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
    StreamEndEvent,
)

from qa.errors import Place, Problem

DEEPEST = 12  # the deepest file of ours needs six
LONGEST_READ_TWICE = 20_000  # characters: a fifth of a second at most

_KINDS: dict[type[Any], str] = {
    ScalarEvent: "text",
    MappingStartEvent: "mapping",
    SequenceStartEvent: "list",
    AliasEvent: "alias",
    MappingEndEvent: "end",
    SequenceEndEvent: "end",
}


class Field(NamedTuple):
    """One key of a mapping with the line it stands on."""

    key: str
    line: int
    value: Node


# A text has neither; sharing two that stay empty saves tens of thousands.
_NO_ITEMS: list[Node] = []
_NO_KEYS: dict[str, Field] = {}


class Node(NamedTuple):
    """A text, a list or a mapping, with its 1-based line."""

    kind: str
    line: int
    text: str = ""
    plain: bool = False
    """Written without quotes, so that an empty one means 'nothing given'."""
    items: list[Node] = _NO_ITEMS
    keys: dict[str, Field] = _NO_KEYS

    def get(self, key: str) -> Node | None:
        """The value of a key, or None."""
        return self.keys[key].value if key in self.keys else None


class _Refused(Exception):
    def __init__(self, line: int, message: str, remedy: str) -> None:
        super().__init__(message)
        self.line, self.message, self.remedy = line, message, remedy


def read_yaml(text: str, file: str, first_line: int = 1) -> tuple[list[Node], list[Problem]]:
    """The documents of a YAML text; at the first fault none of them, and one problem.

    Args:
        text: the YAML.
        file: how problems name it.
        first_line: the line of the file on which the text starts.
    """
    offset = first_line - 1
    try:
        return list(_documents(_fast_events(text), offset)), []
    except _Refused as fault:
        return [], [Problem(Place(file, fault.line), fault.message, fault.remedy)]
    except MarkedYAMLError:
        return _read_thoroughly(text[:LONGEST_READ_TWICE], file, offset)
    except YAMLError as fault:
        said = str(fault).splitlines()[0].strip()
        return [], [Problem(Place(file), f"not YAML: {said}", "save it as plain UTF-8 text")]


def _read_thoroughly(text: str, file: str, offset: int) -> tuple[list[Node], list[Problem]]:
    """Once more with ruamel's own parser, which is slow but reads YAML 1.2: libyaml refuses `[family:starch]`."""
    try:
        return list(_documents(_slow_events(text), offset)), []
    except _Refused as fault:
        return [], [Problem(Place(file, fault.line), fault.message, fault.remedy)]
    except MarkedYAMLError as fault:
        mark = fault.problem_mark or fault.context_mark
        line = mark.line + 1 + offset if mark else 0
        said = " ".join(part for part in (fault.context, fault.problem) if part)
        remedy = "mend the indentation, quotes or brackets there; a text with ': ' or '#' in it needs quotes"
        return [], [Problem(Place(file, line), f"not YAML: {said}", remedy)]


def _fast_events(text: str) -> Iterator[Any]:
    """The events of libyaml where it is installed (fifty times faster), else of ruamel's own parser."""
    try:
        from ruamel.yaml.cyaml import CParser  # type: ignore[attr-defined]
    except ImportError:
        yield from _slow_events(text)
        return
    parser = CParser(text)
    while not isinstance(event := parser.get_event(), StreamEndEvent):
        yield event


def _slow_events(text: str) -> Iterator[Any]:
    from ruamel.yaml import YAML

    yield from YAML(typ="safe", pure=True).parse(text)


def _documents(events: Iterable[Any], offset: int) -> Iterator[Node]:
    open_nodes: list[Node] = []
    keys: list[tuple[str, int] | None] = []  # for each open mapping the key whose value comes next
    for event in events:
        kind = _KINDS.get(type(event))
        if kind is None:
            continue
        if kind == "end":
            open_nodes.pop()
            keys.pop()
            continue
        line = event.start_mark.line + 1 + offset
        if kind == "alias" or event.anchor or event.tag or len(open_nodes) > DEEPEST:
            _refuse(event, line)
        holder = open_nodes[-1] if open_nodes else None
        if holder is not None and holder.kind == "mapping" and keys[-1] is None:
            keys[-1] = (_key(event, kind, line, holder), line)
            continue
        node = Node(kind, line, event.value, not event.style) if kind == "text" else Node(kind, line, "", False, [], {})
        if holder is None:
            yield node
        elif holder.kind == "list":
            holder.items.append(node)
        elif (key := keys[-1]) is not None:
            holder.keys[key[0]] = Field(*key, node)
            keys[-1] = None
        if kind != "text":
            open_nodes.append(node)
            keys.append(None)


def _refuse(event: Any, line: int) -> NoReturn:
    """Stop at what is not used in these files."""
    if isinstance(event, AliasEvent) or event.anchor:
        raise _Refused(line, "anchors (&) and aliases (*) are not read", "write the text out, or put it in quotes")
    if event.tag:
        raise _Refused(line, f"the tag {event.tag!r} is not read", "leave it out, or put the text in quotes")
    raise _Refused(line, f"nested more than {DEEPEST} deep", "see knowledge/README.md for the shape of the file")


def _key(event: Any, kind: str, line: int, mapping: Node) -> str:
    if kind != "text":
        raise _Refused(line, "a key must be a word", "put text with braces or brackets in quotes")
    key: str = event.value
    if key in mapping.keys:
        raise _Refused(line, f"the key {key!r} is given twice", "keep one of the two")
    return key
