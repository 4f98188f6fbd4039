"""Atom (RFC 4287) with the threading extension (RFC 4685), read entry by entry."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any
from xml.etree.ElementTree import Element, ParseError

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import iterparse

from qa.errors import UnreadableInput
from qa.outside.intake.build import Builder
from qa.outside.intake.found import Found, Rows
from qa.outside.intake.names import Role
from qa.outside.intake.sniff import READS, Sniffed

ATOM = "{http://www.w3.org/2005/Atom}"
THREAD = "{http://purl.org/syndication/thread/1.0}"
XHTML = "{http://www.w3.org/1999/xhtml}"
ROLES: dict[Role, str] = {
    "text": "content", "author": "author/name", "time": "published", "id": "id", "parent": "thr:in-reply-to/@ref",
}  # fmt: skip
LONGEST_ENTRY = 200_000
"""Elements inside one entry; more is an attack, not a comment."""


def find_feed(file: Sniffed, mapping: Mapping[Role, str], builder: Builder) -> Found:
    """Check that an XML file is Atom and say how to read it."""
    if mapping:
        raise UnreadableInput(
            f"{file.name}: --map does not apply to Atom", "its elements are fixed by RFC 4287 and 4685"
        )
    first = next(_elements(file), None)
    root = first.tag if first is not None else ""
    if root not in {f"{ATOM}feed", f"{ATOM}entry"}:
        raise UnreadableInput(f"{file.name}: XML or HTML that is not an Atom feed", READS)
    return Found("Atom with threads", file.encoding, tuple(ROLES.values()), ROLES, lambda: _read(file, builder))


def _elements(file: Sniffed) -> Iterator[Element]:
    """The root when it opens, then each closed entry; XML bombs and broken XML end in one clear line."""
    try:
        with file.path.open("rb") as handle:
            inside, root = 0, None
            for event, element in iterparse(handle, events=("start", "end"), forbid_dtd=True):
                if root is None:
                    root = element
                    yield element
                inside += 1
                if inside > LONGEST_ENTRY:
                    raise UnreadableInput(
                        f"{file.name}: an entry of over {LONGEST_ENTRY:,} elements", "export it again"
                    )
                if event == "end" and element.tag == f"{ATOM}entry":
                    yield element
                    inside = 0
                    element.clear()
                    root.clear()
    except DefusedXmlException as fault:
        raise UnreadableInput(
            f"{file.name}: holds a document type or entities of its own, which is not safe to read",
            "export it as plain Atom",
        ) from fault
    except (ParseError, ValueError, LookupError) as fault:
        raise UnreadableInput(f"{file.name}: broken XML: {fault}", "export the comments again") from fault


def _read(file: Sniffed, builder: Builder) -> Rows:
    number = 0
    for element in _elements(file):
        if element.tag == f"{ATOM}entry" and (len(element) or number):
            number += 1
            yield _entry(number, element, builder)


def _entry(number: int, entry: Element, builder: Builder) -> Any:
    reply = entry.find(f"{THREAD}in-reply-to")
    author = entry.find(f"{ATOM}author/{ATOM}name")
    return builder.comment(
        number,
        next(filter(None, (_text(entry.find(f"{ATOM}{name}")) for name in ("content", "summary", "title"))), ""),
        author=author.text if author is not None else "",
        time=(entry.findtext(f"{ATOM}published") or entry.findtext(f"{ATOM}updated") or "").strip(),
        id=entry.findtext(f"{ATOM}id") or "",
        parent=(reply.get("ref") or reply.get("href") or "") if reply is not None else "",
    )


def _text(element: Element | None) -> str:
    """A text construct (RFC 4287, section 3.1): plain, escaped HTML, or XHTML elements."""
    if element is None:
        return ""
    if element.get("type") != "xhtml":
        return (element.text or "").strip()
    return "".join(_xhtml(element)).strip()


def _xhtml(element: Element) -> Iterator[str]:
    if element.tag == f"{XHTML}br":
        yield "\n"
    yield element.text or ""
    for child in element:
        yield from _xhtml(child)
        yield child.tail or ""
    if element.tag in {f"{XHTML}p", f"{XHTML}li", f"{XHTML}blockquote"}:
        yield "\n"
