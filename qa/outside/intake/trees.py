"""Reading JSON of any shape: what `objects` found in a sample, applied to every element, threads in reading order."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from typing import Any

from qa.outside.intake.build import Builder
from qa.outside.intake.found import Found, Rows
from qa.outside.intake.json_files import Broken, Source
from qa.outside.intake.linked import linked_shape
from qa.outside.intake.names import CONTAINERS, Role, meaning, words_of
from qa.outside.intake.objects import ROOT, Node, Path, groups_of, members, node_of, plans_of, roles_of
from qa.outside.intake.sniff import Sniffed
from qa.outside.intake.values import day_first_of
from qa.records import Comment, SetAside

SAMPLE_ELEMENTS = 500


def find_tree(file: Sniffed, mapping: Mapping[Role, str], builder: Builder) -> Found:
    """Look at the first objects and say how to read all of them."""
    source = Source(file)
    sample = list(islice(source.elements(), SAMPLE_ELEMENTS))
    good = [value for value in sample if not isinstance(value, Broken)]
    if linked := linked_shape(good, file, source.elements, builder, mapping):
        return linked
    groups = groups_of(good)
    plans = plans_of(groups, mapping, file.name)
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
        lambda: _read(source.elements(), {path: plans.get(path, {}) for path in groups}, builder),
        notes=() if plans.keys() <= {ROOT} else (f"comments found in {found_in}",),
    )


@dataclass(slots=True)
class _Here:
    """A value to be read and what stands around it."""

    path: Path
    value: Any
    parent: str = ""
    episode: str = ""
    around: Mapping[Role, str] | None = None


def _read(elements: Iterable[Any], plans: Mapping[Path, Mapping[Role, str]], builder: Builder) -> Rows:
    """Every comment-like object, threads in reading order; whatever else stands in their lists is set aside."""
    known = dict(plans)
    number = 0
    for element in elements:
        stack = [_Here(ROOT, element)]
        while stack:
            here = stack.pop()
            if isinstance(here.value, list):
                stack.extend(replace(here, value=child) for child in reversed(here.value))
                continue
            plan = known.get(here.path)
            node = node_of(here.value, here.path) if isinstance(here.value, dict) else None
            made = _made(number + 1, here, node, plan, builder)
            if made is not None:
                number += 1
                yield made
            if node is not None:
                stack.extend(_inside(here, node, plan, made, known))


def _made(
    number: int, here: _Here, node: Node | None, plan: Mapping[Role, str] | None, builder: Builder
) -> Comment | SetAside | None:
    """The row that a value makes; None if it is a wrapper or something beside the comments."""
    if isinstance(here.value, Broken):
        return builder.aside(number, here.value.reason, here.value.content)
    if plan:
        if node is not None:
            return _comment(number, node.flat, plan, here.parent, here.episode, builder)
        if isinstance(here.value, str) and plan.get("text") == "":
            return builder.comment(number, here.value, parent=here.parent, episode=here.episode)
        return builder.aside(number, "not an object", json.dumps(here.value, ensure_ascii=False))
    if here.path == ROOT and not (node and (node.lists or any(isinstance(v, list) for v in here.value.values()))):
        return builder.aside(number, "not a comment-like object", json.dumps(here.value, ensure_ascii=False))
    return None


def _inside(
    here: _Here,
    node: Node,
    plan: Mapping[Role, str] | None,
    made: Comment | SetAside | None,
    known: dict[Path, Mapping[Role, str]],
) -> Iterator[_Here]:
    """What stands in the lists inside an object, last first; lists that the sample did not hold are looked at now."""
    parent = made.id if isinstance(made, Comment) else here.parent  # replies to a set-aside row keep its parent
    episode = here.episode if plan else _episode(node.flat) or here.episode
    for path, listed in reversed(node.lists):
        inside = list(members(listed))
        if path not in known and (learnt := _learn(path, inside, plan or here.around)):
            known[path] = learnt
        yield from (_Here(path, member, parent, episode, plan or here.around) for member in reversed(inside))


def _learn(path: Path, listed: Sequence[Any], around: Mapping[Role, str] | None) -> Mapping[Role, str]:
    """The roles in a list that the sample did not hold, {} if it is none of comments."""
    group = groups_of(listed, path).get(path)
    if group is None:
        return {}
    if (
        around
        and around["text"] in group.values
        and (len(around) < 3 or len(group.values.keys() & around.values()) > 1)
    ):
        return around
    roles = roles_of(path, group)
    return roles if roles and (around is None or frozenset(words_of(path[-1])) & CONTAINERS) else {}


def _comment(
    number: int, flat: Mapping[str, object], plan: Mapping[Role, str], parent: str, episode: str, builder: Builder
) -> Comment | SetAside:
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
