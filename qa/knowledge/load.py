"""The only reader of the disk among the knowledge modules: folders to a library and the problems found.

Files are read within bounds (size, number, depth), safely and without leaving the folder.
"""

from __future__ import annotations

import csv
import gc
import io
import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import replace
from pathlib import Path
from stat import S_ISREG
from typing import TypeVar

from qa.errors import Place, Problem, UnreadableInput
from qa.knowledge.answers import answer_file
from qa.knowledge.checks import check_knowledge
from qa.knowledge.examples import example_lines
from qa.knowledge.facts import Answer, Caution, Episode, Fact, Knowledge, Manner, Source, Trial
from qa.knowledge.fields import Report, Unusable
from qa.knowledge.library import Library
from qa.knowledge.lists import caution, manner, source
from qa.knowledge.nodes import Node, read_yaml
from qa.knowledge.syntax import Sources, each, ingredient_file
from qa.knowledge.trials import episode, trial, trial_facts, trial_source
from qa.records import Example

LARGEST_FILE = 400_000  # bytes; the largest of ours, sources.yaml, needs a tenth
LARGEST_EXAMPLES = 50_000_000  # bytes; ten thousand labelled comments need a tenth
FOLDERS = ("ingredients", "answers", "trials", "episodes")  # no other folder is looked into
LARGEST_TABLE = 50_000_000  # bytes
MOST_FILES = 5_000  # in one folder

_DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d+\s*$)")

Made = TypeVar("Made")


class _Reader:
    """Reads the files of one knowledge folder and collects what is wrong with them."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.problems: list[Problem] = []
        self.without_sources = False
        """sources.yaml is there but cannot be read; that is one problem, not one for each fact."""

    def report(self, path: Path) -> Report:
        return Report(f"{self.folder.name}/{path.relative_to(self.folder).as_posix()}")

    def files(self, name: str, suffix: str) -> list[Path]:
        """The files of a subfolder, in order; anything else in it is a problem."""
        found = sorted(p for p in (self.folder / name).glob("*") if not p.name.startswith("."))
        if len(found) > MOST_FILES:
            self._say(self.folder / name, f"more than {MOST_FILES} files", "split the folder into several workbenches")
            return []
        for path in found:
            if path.suffix != suffix or not path.is_file():
                self._say(path, "not read", f"files here end in {suffix}; move or rename it")
        return [path for path in found if path.suffix == suffix and path.is_file()]

    def text(self, path: Path) -> str | None:
        """A file's text, or None and a problem."""
        found = _bounded_text(path, LARGEST_FILE)
        if isinstance(found, tuple):
            self._say(path, *found)
            return None
        return found

    def each_file(self, name: str, suffix: str, read: Callable[[str, str, Report], Made]) -> list[Made]:
        """What a function makes of each file of a subfolder, given its text, its name without suffix and its report."""
        made = []
        for path in self.files(name, suffix):
            report, text = self.report(path), self.text(path)
            try:
                if text is not None:
                    made.append(read(text, path.stem, report))
            except Unusable:
                pass  # the report says why
            self.problems.extend(report.problems)
        return made

    def each_entry(self, name: str, read: Callable[[Node, Report], Made]) -> list[Made] | None:
        """The entries of one list file; empty where there is none, None where it cannot be read at all."""
        path = self.folder / name
        if not path.exists():
            return []
        report, text = self.report(path), self.text(path)
        node = _single(text, report) if text is not None else None
        made = None
        if node is not None and node.kind != "list":
            report.say(node.line, "not a list", "put '- ' before each entry")
        elif node is not None:
            made = each(node.items, lambda n: read(n, report))
        self.problems.extend(report.problems)
        return made

    def _say(self, path: Path, message: str, remedy: str) -> None:
        self.problems.append(Problem(Place(self.report(path).file), message, remedy))


def load_knowledge(folder: Path, *, invented: bool = False) -> tuple[Library, tuple[Problem, ...]]:
    """Everything good in a knowledge folder, and everything wrong with the rest, by file and line.

    A problem silences only the entry it stands at. The library holds the same problems. Invented trials and episodes
    are checked like all others but enter the library of an invented channel only (`invented`), so that a made-up
    reading never stands behind a real reply.

    Raises:
        UnreadableInput: there is no such folder.
    """
    if not folder.is_dir():
        raise UnreadableInput(f"no knowledge folder at {folder}", "`levelspoon new DIR` makes one")
    reader = _Reader(folder.resolve())
    with _collector_resting():
        knowledge = _read(reader)
        problems = [*reader.problems, *check_knowledge(knowledge)]
    if reader.without_sources:
        problems = [p for p in problems if "is not listed in sources.yaml" not in p.message]
    ordered = tuple(sorted(set(problems)))
    good = _without(knowledge, {problem.place for problem in ordered})
    return Library(good if invented else _real(good), ordered), ordered


def stamp(folder: Path) -> tuple[tuple[str, int, int], ...]:
    """Name, time of change and size of every file that is read as knowledge: it differs once one is saved.

    `levelspoon check --watch` looks at it and checks again when it has changed. A file that goes while one looks (many
    editors save by replacing) is left out.
    """
    found = []
    for path in sorted((*folder.glob("*"), *(path for name in FOLDERS for path in (folder / name).glob("*")))):
        with suppress(OSError):
            seen = path.stat()
            if not path.name.startswith(".") and S_ISREG(seen.st_mode):
                found.append((str(path), seen.st_mtime_ns, seen.st_size))
    return tuple(found)


def content(folder: Path) -> Iterator[bytes]:
    """Name and content of everything that is looked at as knowledge: the same content makes the same library.

    What is no file, cannot be read or is too large to be read is a problem by that alone, so only that is told of it.
    """
    yield folder.name.encode()
    for path in sorted((*folder.glob("*"), *(path for name in FOLDERS for path in (folder / name).glob("*")))):
        found = _bounded_text(path, LARGEST_FILE) if path.is_file() else ("no file", "")
        yield repr((path.relative_to(folder).as_posix(), found)).encode()


def load_table(path: Path) -> list[dict[str, str]]:
    """The rows of a table as text, by column: CSV with commas, semicolons or tabs, headed by the names of its columns.

    With semicolons a comma stands for the decimal point, as spreadsheets of many countries write it.

    Raises:
        UnreadableInput: there is no such file, or it is no table of reasonable size.
    """
    text = _bounded_text(path, LARGEST_TABLE)
    if isinstance(text, tuple):
        raise UnreadableInput(f"{path}: {text[0]}", text[1])
    header = text.partition("\n")[0]
    mark = max(",;\t", key=header.count)
    rows = list(csv.DictReader(io.StringIO(text, newline=""), delimiter=mark))
    if not rows or header.count(mark) == 0:
        raise UnreadableInput(f"{path} holds no table", "save it as CSV with the columns named in line 1")
    made = [{key: value or "" for key, value in row.items() if isinstance(key, str)} for row in rows]
    if mark != ";":
        return made
    return [{key: _DECIMAL_COMMA.sub(".", value) for key, value in row.items()} for row in made]


@contextmanager
def _collector_resting() -> Iterator[None]:
    """The garbage collector would walk the growing knowledge again and again, and free nothing of it."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def load_examples(path: Path) -> tuple[list[Example], list[Problem]]:
    """The labelled comments of a JSON Lines file, or of all such files in a folder, and what is wrong with the rest.

    Raises:
        UnreadableInput: there is no such file, or it is not a text of reasonable size.
    """
    if not path.exists():
        raise UnreadableInput(f"no labelled comments at {path}", "name a .jsonl file or a folder of them")
    examples: list[Example] = []
    problems: list[Problem] = []
    for file in sorted(path.glob("*.jsonl")) if path.is_dir() else [path]:
        text = _bounded_text(file, LARGEST_EXAMPLES)
        if isinstance(text, tuple):
            raise UnreadableInput(f"{file}: {text[0]}", text[1])
        report = Report(file.name)
        examples += example_lines(text, report)
        problems += report.problems
    return examples, problems


def _read(reader: _Reader) -> Knowledge:
    """All entries that can be read one by one."""
    listed = reader.each_entry("sources.yaml", source)
    reader.without_sources = listed is None
    trials = reader.each_file("trials", ".yaml", _tree(trial))
    sources: list[Source] = [*(listed or []), *(trial_source(t) for t in trials)]
    by_id: Sources = {s.id: s for s in sources}
    files = reader.each_file("ingredients", ".yaml", _tree(lambda n, stem, r: ingredient_file(n, stem, by_id, r)))
    manners = reader.each_entry("measures.yaml", lambda n, r: manner(n, by_id, r))
    return Knowledge(
        ingredients=tuple(f.ingredient for f in files),
        facts=(*(fact for f in files for fact in f.facts), *_trial_facts(trials, reader)),
        swaps=tuple(swap for f in files for swap in f.swaps),
        confusions=tuple(c for f in files for c in f.confusions),
        answers=tuple(reader.each_file("answers", ".md", answer_file)),
        cautions=tuple(reader.each_entry("cautions.yaml", caution) or ()),
        sources=tuple(sources),
        trials=tuple(trials),
        episodes=tuple(reader.each_file("episodes", ".yaml", _tree(episode))),
        manners=tuple(manners or ()),
    )


def _tree(read: Callable[[Node, str, Report], Made]) -> Callable[[str, str, Report], Made]:
    """A reader of a YAML text from a reader of its one document."""

    def read_text(text: str, stem: str, report: Report) -> Made:
        node = _single(text, report)
        if node is None:
            raise Unusable("no document")
        return read(node, stem, report)

    return read_text


def _single(text: str, report: Report) -> Node | None:
    """The one document of a YAML text, or None and a problem."""
    nodes, faults = read_yaml(text, report.file)
    report.problems.extend(faults)
    if faults:
        return None
    if len(nodes) != 1 or (nodes[0].kind == "text" and not nodes[0].text.strip()):
        report.say(nodes[1].line if len(nodes) > 1 else 1, f"{len(nodes)} documents in the file", "write exactly one")
        return None
    return nodes[0]


def _trial_facts(trials: Iterable[Trial], reader: _Reader) -> Iterator[Fact]:
    for made in trials:
        report = Report(made.place.file)
        yield from trial_facts(made, report)
        reader.problems.extend(report.problems)


def _bounded_text(path: Path, largest: int) -> str | tuple[str, str]:
    """A text within bounds, or what is wrong and what to do."""
    try:
        with path.open("rb") as stream:
            content = stream.read(largest + 1)
    except OSError as fault:
        return f"cannot be read: {fault.strerror}", "check the file's permissions"
    if len(content) > largest:
        return f"larger than {largest // 1000} kB", "split it, or take out what is not knowledge"
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        return f"not UTF-8 text: {fault.reason} at byte {fault.start}", "save it as UTF-8"


def _without(known: Knowledge, bad: set[Place]) -> Knowledge:
    """The knowledge without entries at a bad place, nor anything that hangs on an ingredient left out."""
    ingredients = tuple(
        replace(
            ingredient,
            names=tuple(n for n in ingredient.names if n.place not in bad),
            forms=tuple(
                replace(form, names=tuple(n for n in form.names if n.place not in bad)) for form in ingredient.forms
            ),
        )
        for ingredient in known.ingredients
        if ingredient.place not in bad
    )
    items = {i.id for i in ingredients} | {f"{i.id}.{form.id}" for i in ingredients for form in i.forms}
    return Knowledge(
        ingredients=ingredients,
        facts=tuple(f for f in known.facts if f.place not in bad and f.item in items),
        swaps=tuple(s for s in known.swaps if s.place not in bad and s.replace in items),
        confusions=tuple(c for c in known.confusions if c.place not in bad and c.item in items),
        answers=_good(known.answers, bad),
        cautions=_good(known.cautions, bad),
        sources=known.sources,
        trials=_good(known.trials, bad),
        episodes=_good(known.episodes, bad),
        manners=_good(known.manners, bad),
    )


def _real(known: Knowledge) -> Knowledge:
    """The knowledge without invented trials, what they gave, and invented episodes."""
    made_up = {trial.id for trial in known.trials if trial.invented}
    return replace(
        known,
        trials=tuple(trial for trial in known.trials if trial.id not in made_up),
        facts=tuple(fact for fact in known.facts if fact.source not in made_up),
        sources=tuple(source for source in known.sources if source.id not in made_up),
        episodes=tuple(episode for episode in known.episodes if not episode.invented),
    )


Placed = TypeVar("Placed", Answer, Caution, Trial, Episode, Manner)


def _good(entries: Iterable[Placed], bad: set[Place]) -> tuple[Placed, ...]:
    return tuple(entry for entry in entries if entry.place not in bad)
