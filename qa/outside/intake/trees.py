"""JSON of any shape: the lists of comment-like objects are found by looking, replies nested inside them included.

Objects are grouped by the keys that lead to them (list positions dropped, and a key that comes again closes the loop,
so replies to replies are one group). A group whose objects hold a text and look like comments is read; a group that
holds such lists is a wrapper, and may name the episode. An object's own keys are seen through single nested objects,
as dotted paths: `author.name`, `data.body`.
"""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import islice
from typing import IO, Any

from qa.errors import UnreadableInput
from qa.outside.intake.build import Builder
from qa.outside.intake.columns import choose, listing, no_text
from qa.outside.intake.found import Found, Rows
from qa.outside.intake.linked import linked_shape
from qa.outside.intake.names import CONTAINERS, REPLIES, Role, meaning, words_of
from qa.outside.intake.sniff import Sniffed
from qa.outside.intake.values import day_first_of

LARGEST_WHOLE = 256 * 1024 * 1024
"""Bytes of a JSON document that is loaded whole; arrays and JSON Lines above that are streamed."""
SAMPLE_ELEMENTS = 500
DEEPEST = 12
"""Nested single objects an object's keys are seen through."""

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


def find_tree(file: Sniffed, mapping: Mapping[Role, str], builder: Builder) -> Found:
    """Look at the first objects and say how to read all of them."""
    source = _Source(file)
    sample = list(islice(source.elements(), SAMPLE_ELEMENTS))
    good = [value for value in sample if not isinstance(value, Broken)]
    if linked := linked_shape(good, file, source.elements, builder, mapping):
        return linked
    groups = _groups(good)
    plans = _plans(groups, mapping, file.name)
    times = [str(v) for path, plan in plans.items() if "time" in plan for v in groups[path].values[plan["time"]]]
    builder.day_first = day_first_of(times)
    main = max(plans, key=lambda path: groups[path].count)
    columns = tuple(dict.fromkeys(name for path in plans for name in groups[path].values))
    found_in = " and ".join(".".join(path) or "the top level" for path in plans)
    return Found(
        source.shape if plans.keys() <= {ROOT} else f"{source.shape}, a tree of threads",
        file.encoding,
        columns,
        plans[main],
        lambda: _read(source.elements(), plans, builder),
        notes=() if plans.keys() <= {ROOT} else (f"comments found in {found_in}",),
    )


@dataclass(frozen=True, slots=True)
class Broken:
    """A line of JSON Lines that is no JSON."""

    reason: str
    content: str


class _Source:
    """The top-level elements of a JSON document, streamed where its shape allows."""

    def __init__(self, file: Sniffed) -> None:
        self.file = file
        self.lines = file.kind == "json lines"
        self.array = file.start.lstrip("\x00 \t\r\n").startswith("[")
        self.shape = "JSON Lines" if self.lines else "JSON array" if self.array else "JSON"

    def elements(self) -> Iterator[Any]:
        """Each line's value, each element of an array, or the one object."""
        if self.lines:
            return self._of_lines()
        size = self.file.path.stat().st_size
        if size <= LARGEST_WHOLE:
            return self._of_whole()
        if self.array:
            return self._of_array()
        raise UnreadableInput(
            f"{self.file.name}: one JSON object of {size / 2**20:,.0f} MiB is too large to load at once "
            f"(at most {LARGEST_WHOLE // 2**20} MiB)",
            "export it as JSON Lines or CSV, or in parts",
        )

    def _open(self) -> IO[str]:
        return self.file.path.open(encoding=self.file.encoding, errors="replace", newline="\n")

    def _of_lines(self) -> Iterator[Any]:
        with self._open() as handle:
            for line in iter(lambda: handle.readline(LARGEST_WHOLE), ""):
                if not line.strip("\ufeff\x00 \t\r\n"):
                    continue
                try:
                    yield json.loads(line.strip("\ufeff\x00 \t\r\n"), parse_int=_int)
                except (ValueError, RecursionError) as fault:
                    yield Broken(f"a line that is no JSON ({_what(fault)})", line[:1000])

    def _of_whole(self) -> Iterator[Any]:
        with self._open() as handle:
            text = handle.read()
        try:
            value = json.loads(text.strip("\ufeff\x00 \t\r\n"), parse_int=_int)
        except (ValueError, RecursionError) as fault:
            raise UnreadableInput(
                f"{self.file.name}: broken JSON: {_what(fault)}", "export the comments again"
            ) from fault
        yield from _members(value) if isinstance(value, list) or _is_keyed("comments", value) else [value]

    def _of_array(self) -> Iterator[Any]:
        """Elements decoded one by one from a window that moves over the file."""
        decode = json.JSONDecoder(parse_int=_int).raw_decode
        with self._open() as handle:
            window = handle.read(1 << 20).lstrip("\ufeff\x00 \t\r\n")[1:]
            more = True
            while True:
                window = window.lstrip(" \t\r\n,")
                if window.startswith("]"):
                    return
                try:
                    value, end = decode(window)
                    if end == len(window) and more:  # a number may go on in the next part
                        raise json.JSONDecodeError("cut", window, end)
                except RecursionError as fault:
                    raise UnreadableInput(f"{self.file.name}: {_what(fault)}", "export it flat") from fault
                except ValueError as fault:
                    part = handle.read(max(1 << 20, len(window)))
                    more = part != ""
                    if not more or len(window) > LARGEST_WHOLE:
                        raise UnreadableInput(
                            f"{self.file.name}: broken JSON: {_what(fault)}; what stood before it was read",
                            "export the comments again",
                        ) from fault
                    window += part
                else:
                    yield value
                    window = window[end:]


def _int(digits: str) -> int | str:
    """Integers; absurdly long ones stay text, as turning them into numbers takes quadratic time."""
    return int(digits) if len(digits) < 40 else digits


def _what(fault: Exception) -> str:
    return "nested too deeply" if isinstance(fault, RecursionError) else str(fault).replace("\n", " ")


# Looking at objects


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
                if depth < DEEPEST and not _is_reply(key, child, here) and not _is_keyed(key, child):
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


def _is_keyed(key: str, child: Any) -> bool:
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


def _members(value: Any) -> Iterator[Any]:
    """The elements of a list; of objects listed by key each with its key; one reply alone is a list of one."""
    if isinstance(value, list):
        yield from value
    elif _has_text(value):
        yield value
    else:
        for key, child in value.items():
            yield {KEY: key, **child} if isinstance(child, dict) else child


def _groups(elements: Iterable[Any]) -> dict[Path, Group]:
    """All groups of objects in a sample, each with its values."""
    groups: dict[Path, Group] = defaultdict(Group)
    stack: list[tuple[Path, Any, Path | None]] = [(ROOT, element, None) for element in elements]
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
                if len(group.values[name]) < SAMPLE_ELEMENTS:
                    group.values[name].append(child)
            stack.extend((inner, member, path) for inner, list_ in node.lists for member in _members(list_))
    return groups


# Deciding which groups are comments


def _plans(groups: Mapping[Path, Group], mapping: Mapping[Role, str], file: str) -> dict[Path, dict[Role, str]]:
    """The groups that are comments, with the key for each role; UnreadableInput if there are none."""
    found: dict[Path, dict[Role, str]] = {}
    for path, group in groups.items():
        roles = _mapped(group, mapping) if mapping else _roles(path, group)
        if roles:
            found[path] = roles
    plans = {path: roles for path, roles in found.items() if mapping.get("text") or not _wraps(path, groups, found)}
    if not plans:
        columns = list(dict.fromkeys(name for group in groups.values() for name in group.values if name))
        if mapping and "text" in mapping:
            raise UnreadableInput(f"{file}: no key {mapping['text']!r} for text", f"there are: {listing(columns)}")
        raise no_text(file, columns)
    return plans


def _roles(path: Path, group: Group) -> dict[Role, str]:
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


# Reading


def _read(elements: Iterable[Any], plans: Mapping[Path, Mapping[Role, str]], builder: Builder) -> Rows:
    """Every comment-like object, threads in reading order; whatever else stands in their lists is set aside."""
    number = 0
    stack: list[tuple[Path, Any, str, str, bool]] = []
    for element in elements:
        stack.append((ROOT, element, "", "", ROOT in plans))
        while stack:
            path, value, parent, episode, listed = stack.pop()
            if isinstance(value, list):
                stack.extend((path, child, parent, episode, listed) for child in reversed(value))
                continue
            plan = plans.get(path)
            if not isinstance(value, dict):
                if isinstance(value, Broken) or listed or path in plans:
                    number += 1
                    yield _scalar(number, value, plan, parent, episode, builder)
                continue
            node = node_of(value, path)
            if plan is not None:
                number += 1
                made = _comment(number, node.flat, plan, parent, episode, builder)
                yield made
                parent = getattr(made, "id", parent)
            else:
                episode = _episode(node.flat) or episode
                if path is ROOT and not node.lists:
                    number += 1
                    yield builder.aside(number, "not a comment-like object", json.dumps(value, ensure_ascii=False))
            stack.extend(
                (inner, member, parent, episode, inner in plans)
                for inner, list_ in reversed(node.lists)
                for member in reversed(list(_members(list_)))
            )


def _comment(
    number: int, flat: Mapping[str, object], plan: Mapping[Role, str], parent: str, episode: str, builder: Builder
) -> Any:
    text = flat.get(plan["text"])
    if text is None or isinstance(text, bool):
        return builder.aside(number, "no text", json.dumps(dict(flat), ensure_ascii=False, default=str))
    values = {role: flat.get(key, "") for role, key in plan.items() if role != "text"}
    said_parent = values.pop("parent", "")
    return builder.comment(
        number,
        text,
        author=values.get("author", ""),
        time=values.get("time", ""),
        likes=values.get("likes", 0),
        id=values.get("id", ""),
        parent=said_parent or parent,
        episode=values.get("episode") or episode,
    )


def _scalar(
    number: int, value: Any, plan: Mapping[Role, str] | None, parent: str, episode: str, builder: Builder
) -> Any:
    if isinstance(value, Broken):
        return builder.aside(number, value.reason, value.content)
    if isinstance(value, str) and plan is not None and plan.get("text") == "":
        return builder.comment(number, value, parent=parent, episode=episode)
    return builder.aside(number, "not an object", json.dumps(value, ensure_ascii=False))


def _episode(flat: Mapping[str, object]) -> str:
    """What a wrapper says the upload is called: a key that says episode, else its id, else its title."""
    for wanted in (_says_episode, _says_id, _says_title):
        for name, value in flat.items():
            if isinstance(value, (str, int)) and value and wanted(name):
                return str(value)
    return ""


def _says_episode(name: str) -> bool:
    found = meaning(name)
    return found is not None and found[0] == "episode" and found[1] >= 0.5


def _says_id(name: str) -> bool:
    return words_of(name) in {("id",), ("slug",), ("identifier",)} and "." not in name


def _says_title(name: str) -> bool:
    return words_of(name) in {("title",), ("name",)}
