"""What a column's or key's name says it holds, in the languages exports come in.

A name is cut into words (`created_at`, `createdAt` and "Created at" alike). The words around the head are context: a
`comment id` is an id, a `video id` names the episode, an `author id` is a poor man's author.
"""

from __future__ import annotations

import re
import tomllib
from functools import lru_cache
from pathlib import Path
from typing import Literal

from qa.text import folded

Role = Literal["text", "author", "time", "likes", "id", "parent", "episode"]
ROLES: tuple[Role, ...] = ("text", "author", "time", "likes", "id", "parent", "episode")


_WORDS = {
    key: frozenset(folded(words).split())
    for key, words in tomllib.loads(Path(__file__).with_name("names.toml").read_text(encoding="utf-8")).items()
}
TEXT, PERHAPS_TEXT, AUTHOR, NAME = (_WORDS[key] for key in ("text", "perhaps_text", "author", "name"))
TIME, LATER_TIME, LIKES, COUNT = (_WORDS[key] for key in ("time", "later_time", "likes", "count"))
ID, PARENT, EPISODE = (_WORDS[key] for key in ("id", "parent", "episode"))
ASIDE, CONTAINERS, REPLIES, CARRIERS = (_WORDS[key] for key in ("aside", "containers", "replies", "carriers"))
_VOCABULARY = frozenset().union(*_WORDS.values()) - ASIDE


@lru_cache(maxsize=4096)
def words_of(name: str) -> tuple[str, ...]:
    """The words of a column name, folded.

    >>> words_of("topLevelComment.createdAt_UTC")
    ('top', 'level', 'comment', 'created', 'at', 'utc')
    """
    spaced = re.sub(r"(?<=[a-z0-9])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])", " ", name)
    return tuple(w for w in re.split(r"[\W_]+", folded(spaced)) if w)


@lru_cache(maxsize=4096)
def meaning(name: str) -> tuple[Role, float] | None:
    """The role a name stands for and how plainly it says so (0 to 1), or None.

    >>> meaning("published_at"), meaning("Author Name"), meaning("likeCount"), meaning("reply count")
    (('time', 1.0), ('author', 1.0), ('likes', 1.0), None)
    >>> meaning("video_id"), meaning("comment id"), meaning("in reply to")
    (('episode', 1.0), ('id', 1.0), ('parent', 1.0))
    """
    context, _, last = name.strip().rpartition(".")
    words = words_of(last)
    if not words or len(words) > 6 or len(last) > 60:
        return None
    found = _of_holder(context, words) or _role_of(words, frozenset(words_of(context)))
    if found is None:
        return None
    role, strength = found
    known = len(words) if "".join(words) in _VOCABULARY else sum(word in _VOCABULARY for word in words)
    return role, round(strength * known / len(words), 3)


def _of_holder(context: str, words: tuple[str, ...]) -> tuple[Role, float] | None:
    """A key like `value`, `simpleText` or `rendered` says nothing itself; the key that holds it does."""
    if not context or not CARRIERS.issuperset(words):
        return None
    held = meaning(context)
    if held is None or (held[0] == "parent" and not {"value", "values", "raw"} & set(words)):
        return None
    return (held[0], 1.0) if held[0] == "text" else held


def _role_of(words: tuple[str, ...], context: frozenset[str]) -> tuple[Role, float] | None:  # noqa: PLR0911
    """The first rule that fits; the order matters, most telling words first."""
    here = frozenset(words)
    joined = "".join(words)
    everywhere = here | context
    is_id = bool(here & ID)
    if here & ASIDE:
        return None
    if here & PARENT or joined in PARENT or {"reply", "to"} <= here or ({"parent"} & context and is_id):
        return ("parent", 1.0) if not here & (TEXT - {"comment"} | AUTHOR | NAME | TIME - {"at"} | COUNT) else None
    if here & LIKES or joined in LIKES:
        return ("likes", 1.0)
    if here & COUNT:
        return ("likes", 0.9) if context & LIKES else None
    if (strength := _time(here)) and "by" not in here:
        return ("time", strength)
    if is_id:
        return _which_id(words, everywhere)
    if here & AUTHOR or (here & TIME and "by" in here):
        return ("author", 1.0)
    if here & NAME:
        return ("author", 0.9 if context & AUTHOR else 0.6) if not everywhere & EPISODE else ("episode", 0.6)
    return _text_or_episode(here, everywhere)


def _time(here: frozenset[str]) -> float:
    if here & (TIME - {"at", "data"}):
        return 1.0
    if here & LATER_TIME:
        return 0.6
    return 0.5 if here == {"data"} else 0.0  # Italian, Portuguese and Polish for "date"; the values decide


def _which_id(words: tuple[str, ...], everywhere: frozenset[str]) -> tuple[Role, float]:
    if everywhere & AUTHOR:
        return ("author", 0.4)
    if frozenset(words) & EPISODE:
        return ("episode", 1.0)
    if everywhere & {"thread", "conversation"}:
        return ("parent", 0.3)
    return ("id", 1.0 if len(words) == 1 or everywhere & (TEXT | PERHAPS_TEXT) else 0.7)


def _text_or_episode(here: frozenset[str], everywhere: frozenset[str]) -> tuple[Role, float] | None:
    if here & TEXT:
        written = 0.05 if here & {"html", "display", "displayed"} else 0.0
        return ("text", 1.0 - written - (0.3 if everywhere & (AUTHOR | EPISODE - {"post"}) else 0.0))
    if here & EPISODE - {"post", "page", "show", "beitrag"}:
        return ("episode", 1.0)
    if here & PERHAPS_TEXT:
        return ("text", 0.6)
    return ("episode", 0.5) if here & EPISODE else None
