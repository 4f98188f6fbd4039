"""Atom (RFC 4287) with the threading extension (RFC 4685), read entry by entry."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import islice
from xml.etree.ElementTree import Element, ParseError

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import iterparse

from qa.errors import UnreadableInput
from qa.outside.intake.build import Builder
from qa.outside.intake.found import Found, Rows
from qa.outside.intake.names import Role, meaning
from qa.outside.intake.sniff import READS, Sniffed
from qa.records import Comment, SetAside

ATOM = "{http://www.w3.org/2005/Atom}"
THREAD = "{http://purl.org/syndication/thread/1.0}"
XHTML = "{http://www.w3.org/1999/xhtml}"
ROLES: dict[Role, str] = {
    "text": "content", "author": "author/name", "time": "published", "id": "id", "parent": "thr:in-reply-to/@ref",
    "episode": "feed/id",
}  # fmt: skip
_ENTRY = f"{ATOM}entry"
_TAG_URI = re.compile(r"tag:[^:]+:([^/]+)")
"""A feed named by a tag URI (RFC 4151) is the comments of what the tag names."""
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
    """The root when it opens, then the feed's own id and each closed entry; faults end in one clear line."""
    try:
        with file.path.open("rb") as handle:
            events = iterparse(handle, events=("start", "end"), forbid_dtd=True)
            _, root = next(events)
            yield root
            inside = root.tag == _ENTRY
            elements = 0
            for event, element in events:
                elements += 1
                if elements > LONGEST_ENTRY:
                    raise UnreadableInput(
                        f"{file.name}: an entry of over {LONGEST_ENTRY:,} elements", "export it again"
                    )
                if event == "start":
                    inside = inside or element.tag == _ENTRY
                elif element.tag == _ENTRY:
                    yield element
                    inside, elements = False, 0
                    root.clear()
                elif element.tag == f"{ATOM}id" and not inside:
                    yield element
    except DefusedXmlException as fault:
        raise UnreadableInput(
            f"{file.name}: holds a document type or entities of its own, which is not safe to read",
            "export it as plain Atom",
        ) from fault
    except (ParseError, ValueError, LookupError) as fault:
        raise UnreadableInput(f"{file.name}: broken XML: {fault}", "export the comments again") from fault


def _read(file: Sniffed, builder: Builder) -> Rows:
    number, upload = 0, ""
    for element in islice(_elements(file), 1, None):
        if element.tag == _ENTRY:
            number += 1
            yield _entry(number, element, upload, builder)
        elif found := _TAG_URI.fullmatch((element.text or "").strip()):
            upload = builder.episode or found[1]


def _entry(number: int, entry: Element, upload: str, builder: Builder) -> Comment | SetAside:
    reply = entry.find(f"{THREAD}in-reply-to")
    author = entry.find(f"{ATOM}author/{ATOM}name")
    return builder.comment(
        number,
        next(filter(None, (_text(entry.find(f"{ATOM}{name}")) for name in ("content", "summary", "title"))), ""),
        author=author.text if author is not None else "",
        time=(entry.findtext(f"{ATOM}published") or entry.findtext(f"{ATOM}updated") or "").strip(),
        likes=next(filter(None, map(_likes, entry)), 0),
        id=entry.findtext(f"{ATOM}id") or "",
        parent=(reply.get("ref") or reply.get("href") or "") if reply is not None else "",
        episode=upload,
    )


def _likes(element: Element) -> str:
    """The approvals in an element of the export's own, which RFC 4287, section 6, allows; '' if it is none of those."""
    vocabulary, _, name = element.tag.rpartition("}")
    if vocabulary == ATOM[:-1] or meaning(name) != ("likes", 1.0):
        return ""
    return element.text or ""


def _text(element: Element | None) -> str:
    """A text construct (RFC 4287, section 3.1): plain, escaped HTML, or XHTML elements."""
    if element is None:
        return ""
    if element.get("type") != "xhtml":
        return (element.text or "").strip()
    return "".join(_xhtml(element)).strip()


def _xhtml(element: Element) -> Iterator[str]:
    """The text of XHTML elements however deep, breaks and paragraph ends as line breaks."""
    waiting: list[Element | str] = [element]
    while waiting:
        here = waiting.pop()
        if isinstance(here, str):
            yield here
            continue
        yield "\n" if here.tag == f"{XHTML}br" else here.text or ""
        waiting.append("\n" if here.tag in _BLOCKS else "")
        for child in reversed(here):
            waiting += [child.tail or "", child]


_BLOCKS = frozenset(f"{XHTML}{name}" for name in ("p", "li", "blockquote", "tr", "h1", "h2", "h3"))
