"""ActivityStreams 2.0 collections (W3C, 2017) and schema.org comments in JSON-LD."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from qa.outside.intake.build import Builder
from qa.outside.intake.found import Found, Rows
from qa.outside.intake.names import Role
from qa.outside.intake.sniff import Sniffed
from qa.records import Comment

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
    return any(True for _ in _schema_comments(objects))


@dataclass(slots=True)
class Met:
    """A member as it is met.

    Attributes:
        around: the comment it stands inside, if any.
        id: of the comment made from it, once it is made; replies inside it hang on that.
    """

    value: Any
    around: Met | None = None
    episode: str = ""
    id: str = ""

    @property
    def parent(self) -> str:
        """The id of the comment around it, or ''."""
        return self.around.id if self.around is not None else ""

    def inside(self, value: Any, *, reply: bool = False, episode: str = "") -> Met:
        """What stands inside this one: a reply to it, or a part of the same list."""
        return Met(value, self if reply else self.around, episode or self.episode)


def _numbered(members: Iterable[Met], builder: Builder, make: Callable[[int, Met, Builder], Any]) -> Rows:
    for number, met in enumerate(members, 1):
        made = make(number, met, builder)
        met.id = made.id if isinstance(made, Comment) else met.parent
        yield made


# ActivityStreams 2.0


def _activities(elements: Iterable[Any]) -> Iterator[Met]:
    """Members of collections, pages and embedded `replies`, in reading order."""
    for element in elements:
        stack = [Met(element)]
        while stack:
            met = stack.pop()
            value = met.value
            if isinstance(value, list):
                stack.extend(met.inside(child) for child in reversed(value))
            elif isinstance(value, dict) and _types(value) & _AS2_LISTS:
                pages = [value.get(key) for key in ("items", "orderedItems", "first")]
                stack.extend(met.inside(page) for page in reversed(pages) if page and not _is_page_link(page, pages))
            elif isinstance(value, dict) and isinstance(value.get("object"), dict) and "Create" in _types(value):
                made = {"attributedTo": value.get("actor"), "published": value.get("published"), **value["object"]}
                stack.append(met.inside(made))
            else:
                yield met
                if isinstance(value, dict) and isinstance(value.get("replies"), (dict, list)):
                    stack.append(met.inside(value["replies"], reply=True))


def _is_page_link(page: Any, pages: Sequence[Any]) -> bool:
    """Whether `first` only gives the address of a page; in a list of items such an address is a row."""
    return isinstance(page, str) and page is pages[-1]


def _note(number: int, met: Met, builder: Builder) -> Any:
    value = met.value
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
        parent=_iri(value.get("inReplyTo")) or met.parent,
        episode=_iri(value.get("context")) or met.episode,
    )


# schema.org


def _schema_comments(elements: Iterable[Any]) -> Iterator[Met]:
    """Comment objects anywhere: in @graph, under an article's `comment`, and inside other comments."""
    for element in elements:
        stack = [Met(element)]
        while stack:
            met = stack.pop()
            if isinstance(met.value, list):
                stack.extend(met.inside(child) for child in reversed(met.value))
            elif isinstance(met.value, dict):
                met.value = {_bare(key): child for key, child in met.value.items()}
                is_comment = bool(_types(met.value) & _SCHEMA_TEXTS)
                if is_comment:
                    yield met
                stack.extend(_below(met, is_comment))


def _below(met: Met, is_comment: bool) -> Iterator[Met]:
    """The lists that can hold comments; last first, as a stack wants them."""
    item = met.value
    upload = _iri(item.get("@id")) or _scalar(item.get("url")) or _scalar(item.get("headline"))
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
        if isinstance(child, (dict, list)):
            stands_under = upload if key == "comment" and not is_comment else ""
            yield met.inside(child, reply=is_comment, episode=stands_under)


def _schema_comment(number: int, met: Met, builder: Builder) -> Any:
    item = met.value
    return builder.comment(
        number,
        _text(item, "text") or _text(item, "description") or _text(item, "name"),
        author=_who(item.get("author")) or _who(item.get("creator")),
        time=_scalar(item.get("dateCreated")) or _scalar(item.get("datePublished")),
        likes=_scalar(item.get("upvoteCount")) or 0,
        id=_iri(item.get("@id")) or _scalar(item.get("identifier")),
        parent=_iri(item.get("parentItem")) or met.parent,
        episode=_iri(item.get("about")) or met.episode,
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
