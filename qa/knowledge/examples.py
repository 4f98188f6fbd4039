"""Labelled comments, one JSON object a line: what a careful reader says should be understood of each."""

from __future__ import annotations

import json
from typing import Any, cast

from qa.knowledge.fields import ITEM, Report, did_you_mean
from qa.records import ASK_TYPES, KINDS, STATUSES, AskType, Example, Kind, Status

_LONGEST = 100_000


class _Wrong(Exception):
    def __init__(self, message: str, remedy: str) -> None:
        super().__init__(message)
        self.message, self.remedy = message, remedy


def example_lines(text: str, report: Report) -> list[Example]:
    """The examples of a JSON Lines text; each bad line is reported and left out."""
    good, ids = [], set()
    for line, row in enumerate(text.split("\n"), start=1):
        if not row.strip():
            continue
        try:
            example = _example(row, f"line {line}")
            if example.id in ids:
                raise _Wrong(f"the id {example.id!r} is given twice", "number one of them anew")
        except _Wrong as fault:
            report.say(line, fault.message, fault.remedy)
            continue
        ids.add(example.id)
        good.append(example)
    return good


def _example(row: str, place: str) -> Example:
    """One line; only the text must be there, and keys that say nothing to us are passed over."""
    if len(row) > _LONGEST:
        raise _Wrong(f"longer than {_LONGEST} characters", "shorten the text")
    try:
        found = json.loads(row)
    except (json.JSONDecodeError, RecursionError) as fault:
        raise _Wrong(f"not JSON: {fault}", "write one object on one line, with double quotes") from fault
    if not isinstance(found, dict):
        raise _Wrong("not an object", 'write {"id": …, "text": …}')
    text = found.get("text")
    if not isinstance(text, str):
        raise _Wrong("'text' is missing or no text", 'add "text": "…"')
    asks = _list(found, "asks")
    return Example(
        id=_text(found, "id", _text(found, "comment_id", place)),
        text=text,
        voice=_text(found, "voice", ""),
        language=_text(found, "language", "en"),
        kinds=cast(tuple[Kind, ...], _words(found, "kinds", KINDS)),
        asks=tuple(_ask(ask) for ask in asks),
        mentions=_mentions(_list(found, "mentions"), text),
        status=cast(Status, _one(_text(found, "status", "no_reply"), STATUSES, "status")),
        reasons=_words(found, "reasons", None),
        episode=_text(found, "episode", ""),
        parent_text=_text(found, "parent_text", ""),
        answers=tuple(_words(ask, "answers", None) if "answers" in ask else None for ask in asks),
    )


def _text(found: dict[str, Any], key: str, default: str) -> str:
    said = found.get(key, default)
    if not isinstance(said, str):
        raise _Wrong(f"{key!r} is no text", f'write "{key}": "…"')
    return said


def _list(found: dict[str, Any], key: str) -> list[Any]:
    said = found.get(key, [])
    if not isinstance(said, list):
        raise _Wrong(f"{key!r} is no list", "write it in [brackets]")
    return said


def _one(word: str, known: tuple[str, ...], key: str) -> str:
    if word not in known:
        raise _Wrong(f"{word!r} under {key!r} is not known", did_you_mean(word, known))
    return word


def _words(found: dict[str, Any], key: str, known: tuple[str, ...] | None) -> tuple[str, ...]:
    words = _list(found, key)
    if not all(isinstance(word, str) for word in words):
        raise _Wrong(f"{key!r} holds something that is no text", "write words in quotes")
    return tuple(_one(word, known, key) if known else word for word in words)


def _ask(ask: Any) -> tuple[AskType, tuple[str, ...]]:
    if not isinstance(ask, dict) or "type" not in ask:
        raise _Wrong("an ask is an object with type and ingredients", 'write {"type": "swap", "ingredients": ["flax"]}')
    kind = cast(AskType, _one(_text(ask, "type", ""), ASK_TYPES, "type"))
    return kind, _words(ask, "ingredients", None)


def _mentions(mentions: list[Any], text: str) -> tuple[tuple[int, int, str], ...]:
    """Each mention with its characters; where they are not given it is looked for after the one before."""
    found, since = [], 0
    for mention in mentions:
        if not isinstance(mention, dict) or "ingredient" not in mention:
            raise _Wrong("a mention is an object with text, ingredient and form", "see sample_comments/README.md")
        start, end = mention.get("start"), mention.get("end")
        by_place = type(start) is int and type(end) is int and 0 <= start < end <= len(text)
        words = _text(mention, "text", text[start:end] if by_place else "")
        form = _text(mention, "form", "")
        item = _text(mention, "ingredient", "") + (f".{form}" if form else "")
        if not ITEM.fullmatch(item):
            raise _Wrong(f"{item!r} is no item", "write ids in lower-case letters, digits and hyphens")
        if start is None:
            start = text.find(words, since) if words else -1
        if type(start) is not int or start < 0 or text[start : start + len(words)] != words:
            raise _Wrong(f"{words!r} does not stand in the text there", "copy it letter by letter, in the text's order")
        since = start + len(words)
        if mention.get("end", since) != since:
            raise _Wrong(f"the end of {words!r} is not {since}", "leave start and end out")
        found.append((start, since, item))
    return tuple(found)
