"""ActivityStreams 2.0 collections (W3C, 2017) and schema.org comments in JSON-LD."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any

from qa.outside.intake.build import Builder
from qa.outside.intake.found import Found, Rows
from qa.outside.intake.names import Role
from qa.outside.intake.sniff import Sniffed

Object = Mapping[str, Any]
_AS2 = "https://www.w3.org/ns/activitystreams"
_PREFIXES = ("schema:", "http://schema.org/", "https://schema.org/", "as:", f"{_AS2}#")
# Activity Vocabulary, section 3.3: the object types that carry a text in `content`.
_AS2_TEXTS = {"Note", "Article", "Question", "Page"}
_AS2_LISTS = {"Collection", "OrderedCollection", "CollectionPage", "OrderedCollectionPage"}
_SCHEMA_TEXTS = {"Comment", "Answer", "CorrectionComment"}

_AS2_ROLES: dict[Role, str] = {
    "text": "content", "author": "attributedTo", "time": "published", "likes": "likes.totalItems", "id": "id",
    "parent": "inReplyTo", "episode": "context",
}  # fmt: skip
_SCHEMA_ROLES: dict[Role, str] = {
    "text": "text", "author": "author.name", "time": "dateCreated", "likes": "upvoteCount", "id": "@id",
    "parent": "parentItem", "episode": "about",
}  # fmt: skip


def linked_shape(
    sample: Sequence[Any],
    file: Sniffed,
    elements: Callable[[], Iterable[Any]],
    builder: Builder,
    mapping: Mapping[Role, str],
) -> Found | None:
    """How to read a document of either vocabulary; None if it is of neither, or if the person maps keys by hand."""
    objects = [value for value in sample if isinstance(value, dict)]
    if mapping or not objects:
        return None
    if any(_types(o) & _AS2_LISTS or _in_context(o, _AS2) for o in objects[:20]):
        return Found(
            "ActivityStreams 2.0 collection",
            file.encoding,
            tuple(_AS2_ROLES.values()),
            _AS2_ROLES,
            lambda: _numbered(_activities(elements()), builder, _note),
        )
    if any(_in_context(o, "schema.org") or _types(o) & _SCHEMA_TEXTS for o in objects[:20]) and _has_schema_text(
        objects
    ):
        return Found(
            "schema.org comments (JSON-LD)",
            file.encoding,
            tuple(_SCHEMA_ROLES.values()),
            _SCHEMA_ROLES,
            lambda: _numbered(_schema_comments(elements()), builder, _schema_comment),
        )
    return None


def _in_context(value: Object, vocabulary: str) -> bool:
    return vocabulary in json.dumps(value.get("@context", ""))


def _has_schema_text(objects: Sequence[Object]) -> bool:
    return any(value is not None for value, _, _ in _schema_comments(objects))


Met = tuple[Any, str, str]
"""A member as it is met, the id of the comment around it, and the episode it stands under."""


def _numbered(members: Iterable[Met], builder: Builder, make: Callable[[int, Any, str, str, Builder], Any]) -> Rows:
    for number, (value, parent, episode) in enumerate(members, 1):
        yield make(number, value, parent, episode, builder)


# ActivityStreams 2.0


def _activities(elements: Iterable[Any]) -> Iterator[Met]:
    """Members of collections, pages and embedded `replies`, in reading order."""
    for element in elements:
        stack: list[Met] = [(element, "", "")]
        while stack:
            value, parent, episode = stack.pop()
            if isinstance(value, list):
                stack.extend((child, parent, episode) for child in reversed(value))
            elif isinstance(value, dict) and _types(value) & _AS2_LISTS:
                pages = [value.get(key) for key in ("items", "orderedItems", "first")]
                stack.extend((page, parent, episode) for page in reversed(pages) if isinstance(page, (list, dict)))
                stack.extend(_unlisted(value, parent, episode))
            elif isinstance(value, dict) and isinstance(value.get("object"), dict) and "Create" in _types(value):
                inner = {"attributedTo": value.get("actor"), "published": value.get("published"), **value["object"]}
                stack.append((inner, parent, episode))
            else:
                yield value, parent, episode
                if isinstance(value, dict) and isinstance(value.get("replies"), (dict, list)):
                    stack.append((value["replies"], _iri(value.get("id")) or parent, episode))


def _unlisted(value: Object, parent: str, episode: str) -> Iterator[Met]:
    """A single item may stand without its list (JSON-LD compaction)."""
    for key in ("items", "orderedItems"):
        if isinstance(value.get(key), str):
            yield value[key], parent, episode


def _note(number: int, value: Any, parent: str, episode: str, builder: Builder) -> Any:
    if not isinstance(value, dict):
        return builder.aside(number, "only a link to an object", value)
    if not _types(value) & _AS2_TEXTS:
        kind = ", ".join(sorted(_types(value))) or "object without a type"
        return builder.aside(number, f"{kind}: holds no comment", json.dumps(value, ensure_ascii=False))
    likes = value.get("likes")
    return builder.comment(
        number,
        _text(value, "content") or _text(value, "summary"),
        author=_who(value.get("attributedTo")),
        time=_scalar(value.get("published")),
        likes=likes.get("totalItems") if isinstance(likes, dict) else likes,
        id=_iri(value.get("id")),
        parent=_iri(value.get("inReplyTo")) or parent,
        episode=_iri(value.get("context")) or episode,
    )


# schema.org


def _schema_comments(elements: Iterable[Any]) -> Iterator[Met]:
    """Comment objects anywhere: in @graph, under an article's `comment`, and inside other comments."""
    for element in elements:
        stack: list[Met] = [(element, "", "")]
        while stack:
            value, parent, episode = stack.pop()
            if isinstance(value, list):
                stack.extend((child, parent, episode) for child in reversed(value))
                continue
            if not isinstance(value, dict):
                continue
            item = {_bare(key): child for key, child in value.items()}
            if _types(item) & _SCHEMA_TEXTS:
                yield item, parent, episode
                parent = _iri(item.get("@id")) or _scalar(item.get("identifier")) or parent
            elif "comment" in item:
                episode = _iri(item.get("@id")) or _scalar(item.get("url")) or _scalar(item.get("headline"))
            stack.extend(_below(item, parent, episode))


def _below(item: Object, parent: str, episode: str) -> Iterator[Met]:
    """The lists that can hold comments; last first, as a stack wants them."""
    for key in (
        "acceptedAnswer",
        "suggestedAnswer",
        "comment",
        "itemListElement",
        "item",
        "mainEntity",
        "hasPart",
        "@graph",
    ):
        child = item.get(key)
        if key == "comment" and isinstance(child, list):
            yield from ((member, parent, episode) for member in reversed(child))
        elif isinstance(child, (dict, list)):
            yield child, parent, episode


def _schema_comment(number: int, item: Object, parent: str, episode: str, builder: Builder) -> Any:
    about = item.get("about")
    return builder.comment(
        number,
        _text(item, "text") or _text(item, "description") or _text(item, "name"),
        author=_who(item.get("author")) or _who(item.get("creator")),
        time=_scalar(item.get("dateCreated")) or _scalar(item.get("datePublished")),
        likes=_scalar(item.get("upvoteCount")) or 0,
        id=_iri(item.get("@id")) or _scalar(item.get("identifier")),
        parent=_iri(item.get("parentItem")) or parent,
        episode=_iri(about) or episode,
    )


# Values in JSON-LD


def _bare(key: str) -> str:
    """A key or type without the vocabulary's prefix."""
    for prefix in _PREFIXES:
        if key.startswith(prefix):
            return key[len(prefix) :]
    return key


def _types(value: Object) -> frozenset[str]:
    kinds = value.get("type", value.get("@type", ()))
    return frozenset(_bare(k) for k in ([kinds] if isinstance(kinds, str) else kinds or ()) if isinstance(k, str))


def _scalar(value: Any) -> str:
    """A plain value, also where JSON-LD wraps it as {"@value": …} or lists several (the first counts)."""
    if isinstance(value, list):
        return _scalar(value[0]) if value else ""
    if isinstance(value, dict):
        return _scalar(value.get("@value", value.get("value", "")))
    return "" if value is None or isinstance(value, bool) else str(value)


def _text(value: Object, key: str) -> str:
    """A text, or its first language where it is given as a map (contentMap)."""
    if said := _scalar(value.get(key)):
        return said
    by_language = value.get(f"{key}Map")
    return next((_scalar(v) for v in by_language.values() if v), "") if isinstance(by_language, dict) else ""


def _iri(value: Any) -> str:
    """The address of an object, given as text or as an object with an id."""
    if isinstance(value, list):
        return _iri(value[0]) if value else ""
    if isinstance(value, dict):
        return _scalar(value.get("id") or value.get("@id") or value.get("href") or value.get("identifier") or "")
    return _scalar(value)


def _who(value: Any) -> str:
    """An author as a name if there is one, else as an address."""
    if isinstance(value, list):
        return _who(value[0]) if value else ""
    if isinstance(value, dict):
        bare = {_bare(key): child for key, child in value.items()}
        name = _scalar(bare.get("name")) or _scalar(bare.get("preferredUsername")) or _scalar(bare.get("alternateName"))
        return name or _iri(value)
    return _scalar(value)
