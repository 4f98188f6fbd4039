"""Standing answers: YAML front matter, then variants of the reply, parted by lines of three hyphens."""

from __future__ import annotations

import re
from contextlib import suppress
from typing import Literal, cast

from qa.errors import Problem
from qa.kitchen.shows import SHOWN
from qa.knowledge.facts import Answer
from qa.knowledge.fields import Fields, Report, Unusable, did_you_mean
from qa.knowledge.nodes import read_yaml
from qa.knowledge.recipes import read_recipe
from qa.knowledge.syntax import file_id
from qa.records import ASK_TYPES
from qa.text import word_set

Fits = Literal["any", "all", "swap"]
Basis = Literal["measured", "published", "common practice", "reasoned", "asker"]
BASES: tuple[Basis, ...] = ("measured", "published", "common practice", "reasoned", "asker")
WHEN = ("dish", "symptom", "region", "episode", "language", "says", "shows")

ANSWER_KEYS = ("id", "asks", "about", "fits", "phrasings", "figures", "cautions", "when", "basis", "asks_back", "note")
_LINE = "---"
# YAML 1.2 allows [family:starch]; the fast parser wants it in quotes, and the thorough one is fifty times slower.
_FAMILY = re.compile(r"(?<=[\[ ])family:[a-z-]+(?=[,\]])")
_FIGURE_NAME = re.compile(r"[a-z][a-z0-9_]*")
# What a body may name besides its figures; a figure of that name would hide it.
BODY_NAMES = word_set(
    "first second name asked_amount source tier assumed dish symptom tally holds changes extra not_when"
)


def answer_file(text: str, stem: str, report: Report) -> Answer:
    """One standing answer; Unusable if its front matter or its reply cannot be read."""
    matter, bodies = _parts(text, report)
    nodes, faults = read_yaml(_FAMILY.sub(r'"\g<0>"', matter), report.file, first_line=2)
    report.problems.extend(faults)
    if faults or not nodes:
        raise Unusable("no front matter")
    keys = Fields(nodes[0], "an answer", ANSWER_KEYS, report)
    answer = Answer(
        id=file_id(keys, stem),
        asks=keys.choices("asks", ASK_TYPES),  # type: ignore[arg-type]  # each is one of ASK_TYPES
        about=keys.texts("about"),
        fits=cast(Fits, keys.choice("fits", ("any", "all", "swap"), "any")),
        phrasings=keys.texts("phrasings"),
        figures=_figures(keys),
        cautions=keys.texts("cautions"),
        when=_when(keys),
        basis=cast(Basis, keys.choice("basis", BASES)),
        bodies=bodies,
        place=keys.place,
        asks_back=keys.flag("asks_back"),
    )
    if not answer.asks:
        keys.stop(
            keys.line("asks"), "an answer without 'asks' answers nothing", "add 'asks: [swap]' or another ask type"
        )
    if not answer.about:
        keys.stop(keys.line("about"), "an answer has no 'about'", "write items, [any], [none] or [family:starch]")
    return answer


def _parts(text: str, report: Report) -> tuple[str, tuple[str, ...]]:
    """The front matter and the variants."""
    lines = text.replace("\r\n", "\n").split("\n")
    marks = [i for i, line in enumerate(lines) if line.rstrip() == _LINE]
    if len(marks) < 2 or marks[0] != 0:
        report.say(1, "no front matter", "start with a line '---', the keys, and another line '---'")
        raise Unusable("no front matter")
    ends = [*marks[2:], len(lines)]
    parts = [(start + 1, "\n".join(lines[start + 1 : end]).strip()) for start, end in zip(marks[1:], ends, strict=True)]
    for start, body in parts:
        if not body:
            report.say(start, "a reply without words", "write it under the line of hyphens, or take the line out")
    bodies = tuple(body for _, body in parts if body)
    if not bodies:
        raise Unusable("no reply")
    return "\n".join(lines[1 : marks[1]]), bodies


def _figures(keys: Fields) -> tuple[tuple[str, str], ...]:
    """The figures whose name and recipe can be read; a wrong one makes the answer unusable."""
    pairs, node = keys.pairs("figures"), keys.node.get("figures")
    lines = {f.key: f.line for f in node.keys.values()} if node else {}
    for name, recipe in pairs:
        if not _FIGURE_NAME.fullmatch(name) or name in BODY_NAMES:
            keys.stop(
                lines[name], f"{name!r} cannot name a figure", "write a word of small letters that no body has yet"
            )
        if isinstance(found := read_recipe(recipe), str):
            keys.stop(
                lines[name], f"{recipe!r} is no recipe for a figure: {found}", "see 'Recipes' in knowledge/README.md"
            )
    return pairs


def _when(keys: Fields) -> tuple[tuple[str, str], ...]:
    node = keys.node.get("when")
    if node is not None and node.kind == "mapping":
        Fields(node, "'when'", WHEN, keys.report)
    pairs = keys.pairs("when")
    for said in dict(pairs).get("shows", "").split(","):
        if said.strip() and said.strip() not in SHOWN:
            keys.stop(keys.line("when"), f"no sum is called {said.strip()!r}", did_you_mean(said.strip(), SHOWN))
    return pairs


def problems_of(text: str, stem: str, file: str) -> list[Problem]:
    """All that is wrong with an answer by itself, for an editor that checks while one types."""
    report = Report(file)
    with suppress(Unusable):
        answer_file(text, stem, report)
    return report.problems
