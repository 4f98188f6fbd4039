"""JSON of any shape: the lists of comment-like objects are found by looking, replies nested inside them included.

Objects are grouped by the keys that lead to them (list positions dropped, and a key that comes again closes the loop,
so replies to replies are one group). A group whose objects hold a text and look like comments is read; a group that
holds such lists is a wrapper, and may name the episode. An object's own keys are seen through single nested objects,
as dotted paths: `author.name`, `data.body`.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import islice
from typing import Any

from qa.errors import UnreadableInput
from qa.outside.intake.columns import choose, listing, no_text
from qa.outside.intake.names import CONTAINERS, REPLIES, Role, meaning, words_of

DEEPEST = 12
"""Nested single objects an object's keys are seen through."""
SAMPLE_VALUES = 500

Path = tuple[str, ...]
ROOT: Path = ()
KEY = "(key)"
"""The column of an object's own key where objects are listed by key instead of in an array."""


@dataclass(slots=True)
class Group:
    """Objects reached by the same keys: their values by dotted path, and the groups listed inside them."""

    count: int = 0
    values: dict[str, list[object]] = field(default_factory=lambda: defaultdict(list))
    inside: set[Path] = field(default_factory=set)


@dataclass(frozen=True, slots=True)
class Node:
    """One object of the tree as it is met: its group, flat values, lists inside, and what stands around it."""

    group: Path
    flat: Mapping[str, object]
    lists: Sequence[tuple[Path, Any]]


def node_of(value: Mapping[str, object], group: Path) -> Node:
    """An object with the values seen through its nested objects, and the lists that stand inside."""
    flat: dict[str, object] = {}
    lists: list[tuple[Path, Any]] = []
    stack: list[tuple[str, Path, Mapping[str, object], int]] = [("", group, value, 0)]
    while stack:
        prefix, path, here, depth = stack.pop(0)
        for key, child in here.items():
            inner = prefix + key
            if isinstance(child, dict):
                if depth < DEEPEST and not _is_reply(key, child, here) and not is_keyed(key, child):
                    stack.append((f"{inner}.", _step(path, key), child, depth + 1))
                elif child:
                    lists.append((_step(path, key), child))
            elif isinstance(child, list):
                joined = _runs(key, child)
                if joined is not None:
                    flat[inner] = joined
                elif child:
                    lists.append((_step(path, key), child))
            else:
                flat[inner] = child
    return Node(group, flat, lists)


def _step(path: Path, key: str) -> Path:
    """The path one key further; a key that comes again goes back to where it first came."""
    return path[: path.index(key) + 1] if key in path else (*path, key)


def _is_reply(key: str, child: Mapping[str, object], around: Mapping[str, object]) -> bool:
    """Whether a nested object is a comment of its own, under one that has its own text (an owner's single answer)."""
    return bool(frozenset(words_of(key)) & REPLIES) and _has_text(child) and _has_text(around)


def is_keyed(key: str, child: Any) -> bool:
    """Whether an object lists comments by key: {"c1": {"text": …}, "c2": {"text": …}}."""
    if not isinstance(child, dict):
        return False
    values = list(islice(child.values(), 50))
    if not values or not all(isinstance(v, dict) for v in values):
        return False
    if any(meaning(name) for name in islice(child, 50)):
        return False
    alike = sum(_has_text(v) for v in values if isinstance(v, dict))
    listed = len(values) > 1 or bool(frozenset(words_of(key)) & CONTAINERS)
    return listed and alike >= 0.5 * len(values)


def _has_text(value: Mapping[str, object]) -> bool:
    return any(isinstance(v, str) and (m := meaning(k)) and m[0] == "text" for k, v in islice(value.items(), 100))


def _runs(key: str, child: list[Any]) -> str | None:
    """A text cut into runs ([{"text": "Can I "}, {"text": "swap?"}] or a list of strings) as one, else None."""
    if not child or frozenset(words_of(key)) & CONTAINERS:
        return None
    if all(isinstance(run, str) for run in child):
        return "".join(child) if (m := meaning(key)) and m[0] == "text" else ", ".join(child)
    if all(isinstance(run, dict) and isinstance(run.get("text"), str) for run in child) and not any(
        (m := meaning(name)) and m[0] in {"author", "time", "id", "parent"} for run in child for name in run
    ):
        return "".join(run["text"] for run in child)
    return None


def members(value: Any) -> Iterator[Any]:
    """The elements of a list; of objects listed by key each with its key; one reply alone is a list of one."""
    if isinstance(value, list):
        yield from value
    elif _has_text(value):
        yield value
    else:
        for key, child in value.items():
            yield {KEY: key, **child} if isinstance(child, dict) else child


def groups_of(elements: Iterable[Any], root: Path = ROOT) -> dict[Path, Group]:
    """All groups of objects in a sample, each with its values."""
    groups: dict[Path, Group] = defaultdict(Group)
    stack: list[tuple[Path, Any, Path | None]] = [(root, element, None) for element in elements]
    while stack:
        path, value, around = stack.pop()
        if isinstance(value, list):
            stack.extend((path, child, around) for child in value)
            continue
        group = groups[path]
        if around is not None and around != path:
            groups[around].inside.add(path)
        if isinstance(value, str):
            group.count += 1
            group.values[""].append(value)
        elif isinstance(value, dict):
            group.count += 1
            node = node_of(value, path)
            for name, child in node.flat.items():
                if len(group.values[name]) < SAMPLE_VALUES:
                    group.values[name].append(child)
            stack.extend((inner, member, path) for inner, list_ in node.lists for member in members(list_))
    return groups


# Deciding which groups are comments


def plans_of(groups: Mapping[Path, Group], mapping: Mapping[Role, str], file: str) -> dict[Path, dict[Role, str]]:
    """The groups that are comments, with the key for each role; UnreadableInput if there are none."""
    found: dict[Path, dict[Role, str]] = {}
    for path, group in groups.items():
        roles = _mapped(group, mapping) if mapping else roles_of(path, group)
        if roles:
            found[path] = roles
    plans = {path: roles for path, roles in found.items() if mapping.get("text") or not _wraps(path, groups, found)}
    if not plans:
        columns = list(dict.fromkeys(name for group in groups.values() for name in group.values if name))
        if mapping and "text" in mapping:
            raise UnreadableInput(f"{file}: no key {mapping['text']!r} for text", f"there are: {listing(columns)}")
        raise no_text(file, columns)
    return plans


def roles_of(path: Path, group: Group) -> dict[Role, str]:
    """Roles of a group, or {} if its objects do not look like comments."""
    last = frozenset(words_of(path[-1])) if path else CONTAINERS
    if set(group.values) == {""}:  # texts alone, without objects around them
        return {"text": ""} if last & CONTAINERS else {}
    roles = choose({name: values for name, values in group.values.items() if name and name != KEY})
    if "text" not in roles:
        return {}
    if KEY in group.values:
        roles.setdefault("id", KEY)
    sure = (meaning(roles["text"]) or ("text", 0.0))[1] >= 0.6
    return roles if len(roles) > 1 or (sure and last & CONTAINERS) or (sure and not path) else {}


def _mapped(group: Group, mapping: Mapping[Role, str]) -> dict[Role, str]:
    """Roles by the person's mapping, the rest by looking; {} where the mapped text is not among the keys."""
    own = {role: key for role, key in mapping.items() if key in group.values}
    rest = {name: values for name, values in group.values.items() if name and name not in own.values()}
    roles = {**{r: c for r, c in choose(rest).items() if r not in mapping}, **own}
    return roles if "text" in roles else {}


def _wraps(path: Path, groups: Mapping[Path, Group], found: Mapping[Path, dict[Role, str]]) -> bool:
    """Whether a group is what the comments stand under (an upload, an article) rather than comments itself."""
    inner = [p for p in groups[path].inside if p in found]
    if not inner or (path and frozenset(words_of(path[-1])) & (REPLIES | {"comments", "kommentare", "comentarios"})):
        return False
    own = found[path]["text"].rpartition(".")[2]
    return any(found[p]["text"].rpartition(".")[2] != own and not frozenset(words_of(p[-1])) & REPLIES for p in inner)
