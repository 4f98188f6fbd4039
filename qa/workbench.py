"""The one public object: open a workbench, read comments, draft, ask, weigh, round up, plan, see what is owed.

A workbench is a folder with knowledge/, templates/, levelspoon.toml and the store; commands and pages are shells
around it.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, replace
from datetime import UTC, datetime
from functools import cached_property
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING, Any

from qa import calculator, contract, pipeline, scoring
from qa.errors import LevelspoonError, NoKnowledge, NoWorkbench, Place, Problem
from qa.knowledge import stubs, tables, told
from qa.knowledge.library import Library
from qa.knowledge.load import content, load_examples, load_knowledge, load_table, stamp
from qa.records import Ask, Comment, Draft, Example, Figure, Mention, Said, Tally, Topic, Understood
from qa.settings import SETTINGS_FILE, Settings, load_settings, settings_text, shipped
from qa.stages import clean, group, owe, propose, round_up, tally
from qa.text import nearest
from qa.trials import compare, designs, readings, screening, shapes, sheets, suspects, told_suspects
from qa.trials import told as trials

if TYPE_CHECKING:
    from qa.outside.intake import Preview
    from qa.outside.store import Decision, Entry, Store

_BATCH = 2_000
# The parts of the knowledge that the learned parts are fitted on; a new trial or episode needs no new fit.
_LABELLED = shipped("sample_comments") / "labelled"
_LEARNED_FROM = ("ingredients", "answers")
_COLOURS = frozenset(("green", "purple", "grey", "pale", "burnt"))
Step = Callable[[int], None]


class Workbench:
    """A channel's workbench.

    >>> Workbench.starter().weigh("3 us tbsp ground flax")["value"]
    21.0
    """

    def __init__(self, folder: Path | None, knowledge: Path, templates: Path, settings: Settings) -> None:
        self.folder = folder
        self.settings = settings
        self.settings_problems: tuple[Problem, ...] = ()
        self._knowledge = knowledge
        self._templates = templates
        self._read_at: tuple[tuple[str, int, int], ...] = ()
        self._to_learn = False
        self.say: Callable[[str], None] = lambda _words: None
        """Where to tell a person that something takes its time."""

    @classmethod
    def create(cls, folder: Path, settings: Settings | None = None) -> Workbench:
        """Make a workbench with the starter knowledge in a new or empty folder."""
        settings = settings or Settings()
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            raise NoWorkbench(f"{folder} is there already and not empty", "choose a new folder")
        folder.mkdir(parents=True, exist_ok=True)
        shutil.copytree(shipped("templates"), folder / "templates", ignore=shutil.ignore_patterns("pages"))
        shutil.copytree(shipped("knowledge"), folder / "knowledge", ignore=None if settings.invented else _invented)
        (folder / SETTINGS_FILE).write_text(settings_text(settings), encoding="utf-8")
        return cls.open(folder)

    @classmethod
    def open(cls, folder: Path) -> Workbench:
        """Open the workbench in a folder."""
        path = folder / SETTINGS_FILE
        if not path.exists():
            raise NoWorkbench(
                f"{folder.resolve().name or folder} is no workbench",
                "make one with `levelspoon new DIR`, or use --at DIR",
            )
        settings, problems = load_settings(path)
        bench = cls(folder, folder / "knowledge", folder / "templates", settings)
        bench.settings_problems = tuple(problems)
        return bench

    @classmethod
    def starter(cls) -> Workbench:
        """The knowledge that travels with the program, without a store: enough to ask and to weigh."""
        return cls(None, shipped("knowledge"), shipped("templates"), Settings())

    @classmethod
    def demo(cls, folder: Path, say: Callable[[str], None]) -> dict[str, Any]:
        """The invented channel, end to end: read, draft, topics, tip sheet, what to test next; all written to files."""
        bench = cls.create(folder, Settings(channel="Quillberry Test Kitchen", invented=True))
        bench.say = say
        exports = [
            path for path in sorted(shipped("sample_comments").iterdir()) if path.suffix in {".csv", ".json", ".xml"}
        ]
        for path in exports:
            say(f"reading {path.name}")
            bench.read(path, episode=path.stem)
        say("understanding and drafting")
        counts = bench.draft()
        say("compiling the tip sheet, ranking what to test next")
        sheet = bench.round_up()
        written = {
            "replies.csv": bench.export("csv"),
            "replies.jsonl": bench.export("jsonl"),
            "tip-sheet.txt": sheet["text"],
            "tip-sheet.html": sheet["html"],
            "topics.json": dumped(bench.topics()),
            "next.json": dumped(bench.next()),
            "owed.json": dumped(bench.owed()),
        }
        for name, made in written.items():
            (folder / name).write_bytes(made if isinstance(made, bytes) else made.encode())
        return {"folder": str(folder), "counts": counts, "files": [str(folder / name) for name in written]}

    # -- what it knows -------------------------------------------------------------------------------------------

    @cached_property
    def library(self) -> Library:
        """Everything good in knowledge/: read and checked, or remembered from an earlier run on the same content."""
        from qa.outside.shelf import content_key, remembered

        self._read_at = stamp(self._knowledge)
        invented = self.settings.invented
        key = content_key([*content(self._knowledge), b"with invented trials" if invented else b""])
        return remembered("knowledge", key, lambda: load_knowledge(self._knowledge, invented=invented)[0])

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Everything wrong in the settings and in knowledge/."""
        return (*self.settings_problems, *self.library.problems)

    @cached_property
    def voice(self) -> pipeline.Voice:
        """How the channel speaks."""
        path = self._templates / "voice.txt"
        lines = path.read_text(encoding="utf-8").splitlines() if path.exists() else []
        said = (line.strip() for line in lines)
        return pipeline.Voice(self._templates, tuple(line for line in said if line and not line.startswith("#")))

    @cached_property
    def models(self) -> pipeline.Models:
        """The learned parts: fitted on the spot, or remembered from an earlier run on the same content."""
        taught = self._taught()
        return self._learned(lambda: [*load_examples(_LABELLED)[0], *taught], repr(taught))

    def _learned(self, examples: Callable[[], Sequence[Example]], told_apart_by: str) -> pipeline.Models:
        """Models of these examples; the files of labelled comments need not be understood to know them again."""
        from qa.outside.shelf import content_key, remembered
        from qa.similarity import encoder

        encoder.use(remembered("encoder", content_key(()), encoder.read))
        folders = (_LABELLED, *(self._knowledge / name for name in _LEARNED_FROM))
        files = (path for folder in folders for path in sorted(folder.glob("*")) if path.is_file())
        key = content_key([*(path.read_bytes() for path in files), told_apart_by.encode()])

        def learn() -> pipeline.Models:
            self.say("learning from the labelled examples; once for this knowledge, some ten minutes")
            return pipeline.learn(examples(), self.library, lambda part: self.say(f"learning {part}"))

        return remembered("models", key, learn)

    def _taught(self) -> list[Example]:
        return list(self.store.taught()) if self.folder else []

    # -- comments in ---------------------------------------------------------------------------------------------

    @cached_property
    def store(self) -> Store:
        """The database; NoWorkbench if this is only the starter knowledge."""
        from qa.outside.store import Store

        if self.folder is None:
            raise NoWorkbench("this folder is no workbench", "make one with `levelspoon new DIR`, or use --at DIR")
        kind, relative, path = self.settings.store.partition("sqlite:///")
        local = relative and not kind and not path.startswith("/")
        return Store.open(f"sqlite:///{(self.folder / path).resolve()}" if local else self.settings.store)

    @staticmethod
    def look(path: Path, mapping: Mapping[str, str] | None = None) -> Preview:
        """What a file holds, in its first rows; nothing is stored."""
        from qa.outside.intake import look

        return look(path, mapping)

    def read(
        self, path: Path, mapping: Mapping[str, str] | None = None, progress: Step | None = None, episode: str = ""
    ) -> contract.ReadShape:
        """Store a file's comments; rows read = stored + already known + set aside, always."""
        from qa.outside.intake import read_comments

        count = self.store.take_in(read_comments(path, mapping, episode=episode), str(path), now(), progress)
        aside = self.store.set_aside(read=count.number)
        return contract.read_shape(count.rows_read, count.stored, count.already_known, list(aside))

    def set_aside(self) -> list[contract.SetAsideShape]:
        """Every row that was set aside, with file, row and reason."""
        return contract.read_shape(0, 0, 0, list(self.store.set_aside()))["set_aside"]

    # -- drafts --------------------------------------------------------------------------------------------------

    def draft(self, *, again: bool = False, progress: Step | None = None) -> dict[str, Any]:
        """Understand and draft every comment without a draft; with `again` also those nobody has decided on."""
        if self._to_learn:
            self.__dict__.pop("models", None)
            self._to_learn = False
        waiting: list[Understood] = []
        done = 0
        for batch in batches(self.store.comments(undrafted=not again, undecided=again), _BATCH):
            understood = self._understand(batch)
            at_once = [one for one in understood if not one.asks]
            waiting += (one for one in understood if one.asks)
            self.store.save(at_once, self._answer(at_once, {}))
            done += len(batch)
            if progress:
                progress(done)
        tallies = self.tallies(waiting)
        for part in batches(waiting, _BATCH):
            self.store.save(part, self._answer(part, tallies))
        self._regroup()
        return self.counts()

    def tallies(self, more: Iterable[Understood] = ()) -> dict[str, Tally]:
        """Viewers' results by ingredient, from everything stored and from what is just being read."""
        return tally.tally(chain(self.store.all_understood(), more))

    def _understand(self, comments: Sequence[Comment]) -> list[Understood]:
        parents = self.store.texts() if self.folder and any(comment.parent for comment in comments) else {}
        return pipeline.understand(comments, self.library, self.settings, self.models, parents)

    def _answer(self, understood: Sequence[Understood], tallies: Mapping[str, Tally]) -> list[Draft]:
        return pipeline.answer(understood, self.library, self.settings, self.models, self.voice, tallies)

    def _regroup(self) -> None:
        asking = [one for one in self.store.all_understood() if one.asks]
        times = {comment.id: comment.time for comment in self.store.comments()}
        self.store.save_topics(group.group(asking, self.library, list(self.store.topics()), times))

    def counts(self) -> dict[str, Any]:
        """Comments by status and by reason."""
        comments, by_status, by_reason = self.store.counts()
        return {"comments": comments, "by_status": by_status, "by_reason": by_reason}

    def ask(self, text: str, episode: str = "") -> contract.ReplyShape:
        """One comment, nothing stored."""
        comment = Comment("ask", text, episode=episode)
        understood = self._understand([comment])
        return contract.reply_shape(comment, understood[0], self._answer(understood, {})[0])

    def explain(self, text: str, episode: str = "") -> dict[str, Any]:
        """Each step from a comment to its draft, and why it fell silent."""
        comment = Comment("ask", text, episode=episode)
        understood = self._understand([comment])[0]
        draft = self._answer([understood], {})[0]
        return {
            "cleaned": understood.text,
            "repaired": list(clean.clean([comment])[0].steps),
            "language": understood.language,
            "pieces": [{"text": p.text, "kinds": dict(p.kinds)} for p in understood.pieces],
            "mentions": [contract.mention_shape(mention) for mention in understood.mentions],
            "asks": [asdict(match.ask) for match in draft.matched],
            "matched": [
                {"answer": m.answer, "sureness": m.sureness, "reason": m.reason, "runners_up": dict(m.runners_up)}
                for m in draft.matched
            ],
            "cut_off": self.settings.draft_from,
            "figures": [contract.figure_shape(placed) for placed in draft.figures],
            "draft": {"status": draft.status, "reasons": draft.reasons, "note": draft.note, "reply": draft.reply},
        }

    # -- a person's word -----------------------------------------------------------------------------------------

    def checked(self, entry: Entry, text: str, own: Sequence[Figure] | None = None) -> pipeline.Edit:
        """A wording with its figures, loose numbers, missing cautions and changed facts; `own` as in `sign`."""
        stood = entry.decision.own if entry.decision else ()
        return pipeline.check_edit(text, entry.draft, stood if own is None else own, self.library)

    def sign(
        self,
        comment_id: str,
        text: str,
        seen: str,
        who: str = "",
        *,
        own: Sequence[Figure] | None = None,
        standing: int | None = None,
    ) -> Decision:
        """Sign a text as it was seen; LevelspoonError if a number in it has no source, StaleDraft if it changed.

        `own` are numbers the signer vouches for; those kept with the wording if left out.
        """
        loose = self.checked(self.store.entry(comment_id), text, own).loose
        if loose:
            raise LevelspoonError(
                f"nothing vouches for {loose[0].text!r}", "cite a fact, mark it as yours or remove it"
            )
        return self.store.sign(comment_id, text, seen, who, now(), own=own, standing=standing)

    def teach(self, comment_id: str, example: Example) -> None:
        """Keep a corrected reading as a labelled example, and draft this comment anew from it.

        The learned parts take it into account from the next draft on.
        """
        entry = self.store.entry(comment_id)
        if entry.understood is None:
            raise LevelspoonError(f"comment {comment_id!r} was not read yet", "draft first")
        self.store.teach(example, now())
        corrected = as_taught(entry.understood, example)
        self.store.save([corrected], self._answer([corrected], self.tallies()))
        self._to_learn = True  # one comment does not wait for everything to be fitted anew

    def redraft(self, comment_id: str) -> None:
        """Understand and draft one comment anew, from the knowledge as it is now."""
        understood = self._understand([self.store.entry(comment_id).comment])
        self.store.save(understood, self._answer(understood, self.tallies()))

    def stamp(self) -> tuple[tuple[str, int, int], ...]:
        """How the files of knowledge and settings stand now; it differs once one of them is saved."""
        path = self.folder / SETTINGS_FILE if self.folder else None
        settings = path.stat() if path and path.exists() else None
        own = ((str(path), settings.st_mtime_ns, settings.st_size),) if settings else ()
        return (*own, *stamp(self._knowledge))

    def look_again(self) -> bool:
        """Read the knowledge anew if its files changed; whether they did."""
        changed = "library" in self.__dict__ and stamp(self._knowledge) != self._read_at
        if changed:
            self.__dict__.pop("library")
            self.__dict__.pop("models", None)
        return changed

    def knowledge_file(self, name: str) -> Path:
        """A file of the knowledge by the name that places carry; NoKnowledge for anything outside that folder."""
        path = (self._knowledge.parent / name).resolve()
        if not path.is_relative_to(self._knowledge.resolve()) or not path.is_file():
            raise NoKnowledge(f"no file of the knowledge is called {name!r}", "see the larder")
        return path

    def add_stub(self, item: str, name: str, why: str) -> tuple[Place, str]:
        """Write an inert stub of a fact into its ingredient's file; where it begins and what to fill in.

        An ingredient that nobody has named gets a file of its own, which is a problem until it is filled in.

        Args:
            item: an item, or the name of a new ingredient.
            name: the property wanted.
            why: what it is for, in words.
        """
        if self.folder is None:
            raise NoWorkbench("the starter knowledge is not edited here", "make a workbench with `levelspoon new DIR`")
        if self.library.has(item):
            place = self.library.ingredient(item).place
            path, lines = self.knowledge_file(place.file), stubs.fact_stub(item, name, why)
            text, line = stubs.with_facts(path.read_text(encoding="utf-8"), lines)
        else:
            path = self._knowledge / "ingredients" / f"{stubs.id_of(item)}.yaml"
            if path.exists():
                raise LevelspoonError(f"{path.name} is there already", "fill it in")
            text, line = stubs.ingredient_stub(item, [why] if why else [], name), 1
            lines = text
        replace_text(path, text)
        return Place(f"{self._knowledge.name}/ingredients/{path.name}", line), lines

    def replies(self, *, status: str | None = None, signed: bool | None = None) -> Iterator[contract.ReplyShape]:
        """Every stored comment with its draft, whatever its status; a person's own words where there are any."""
        for entry in self.store.entries(status=status, signed=signed):
            if entry.understood and entry.draft:
                shape = contract.reply_shape(entry.comment, entry.understood, entry.draft)
                text = entry.text or shape["reply"]
                if text and text != shape["reply"]:
                    shape["figures"] = [contract.figure_shape(placed) for placed in self.checked(entry, text).figures]
                yield {**shape, "reply": text}

    def _said(self) -> list[Said]:
        return [
            Said(entry.comment, entry.understood, entry.draft, entry.signed, entry.sent)
            for entry in self.store.entries()
            if entry.understood and entry.draft
        ]

    # -- growing the knowledge -----------------------------------------------------------------------------------

    def learn(self, least: int = 2, *, dry_run: bool = False) -> list[contract.ProposalShape]:
        """What at least so many comments ask for and the knowledge lacks, as files to fill in below `proposed/`.

        A file that is there already stays as it is. Nothing of it counts until it is moved out of that folder.
        """
        from qa.outside import proposals

        found = []
        for one in propose.propose(self._said(), self.library, least):
            state = "shown" if dry_run else "there already"
            if not dry_run and proposals.put(self._knowledge, one.file, one.text):
                state = "written"
            file = f"{self._knowledge.name}/{proposals.FOLDER}/{one.file}"
            found.append(contract.proposal_shape(file, one.what, one.comments, state, one.text))
        return found

    def import_table(
        self, path: Path, source: str, columns: Mapping[str, str], *, dry_run: bool = False
    ) -> contract.ImportShape:
        """Rows of an open composition table as facts: into the files of known ingredients, as proposals for the others.

        Facts that are there already stay as they are.

        Raises:
            NoKnowledge: the source is not listed.
            UnreadableInput: the file is no table.
        """
        from qa.outside import proposals

        self.library.source(source)
        rows = load_table(path)
        facts, problems = tables.facts_from_table(rows, source, columns, path.name, self._named)
        known = {fact.id for fact in self.library.knowledge.facts}
        fresh = [fact for fact in facts if fact.id not in known]
        files: dict[str, str] = {}
        for ingredient, lines in tables.by_ingredient(fresh).items():
            if not self.library.has(ingredient):
                file, text = f"ingredients/{ingredient}.yaml", stubs.ingredient_stub(ingredient)
                files[f"{self._knowledge.name}/{proposals.FOLDER}/{file}"] = lines
                if not dry_run:
                    proposals.put(self._knowledge, file, stubs.with_facts(text, lines)[0])
                continue
            place = self.library.ingredient(ingredient).place
            files[place.file] = lines
            if not dry_run:
                target = self.knowledge_file(place.file)
                replace_text(target, stubs.with_facts(target.read_text(encoding="utf-8"), lines)[0])
        return {
            "rows_read": len(rows),
            "facts": len(fresh),
            "already_known": len(facts) - len(fresh),
            "problems": [contract.problem_shape(problem) for problem in (*problems, *self._new_problems(dry_run))],
            "files": files,
        }

    def _named(self, words: str) -> str:
        """The item that a cell names; the words themselves for what is not known, NoKnowledge where in doubt."""
        found = (words,) if self.library.has(words) else self.library.meanings(words, self.settings.region or None)
        forms = [f"{one}.{form.id}" for one in found if "." not in one for form in self.library.ingredient(one).forms]
        if len(found) > 1 or len(forms) > 1:
            raise NoKnowledge(f"{words!r} can be several things", f"write one of {', '.join(forms or found)}")
        ingredient = words.partition(".")[0]
        if not found and self.library.has(ingredient):
            known = (f"{ingredient}.{form.id}" for form in self.library.ingredient(ingredient).forms)
            raise NoKnowledge(f"{words!r} is no form that is known", f"write one of {', '.join(known)}")
        return forms[0] if forms else found[0] if found else words

    def _new_problems(self, dry_run: bool) -> list[Problem]:
        """What is wrong in the knowledge after a change and was not before."""
        before = set() if dry_run else {problem[1:] for problem in self.library.problems}
        if dry_run or not self.look_again():
            return []
        return [problem for problem in self.library.problems if problem[1:] not in before]

    # -- sums ----------------------------------------------------------------------------------------------------

    def sums(self, region: str = "") -> calculator.Sums:
        """The trade's sums in a region's measures and labels, the channel's where none is named."""
        return calculator.Sums.of(self.library, region or self.settings.region)

    def weigh(self, words: str) -> contract.WeighShape:
        """Grams of "2 tbsp potato starch"; spoons of "100 g honey in tbsp"."""
        return calculator.weigh(words, self.library, self.settings.region)

    def swap(self, words: str, use: str) -> contract.SwapShape:
        """How much of another ingredient stands in for "1 tbsp ground flax"."""
        return calculator.swap(words, use, self.library, self.settings.region)

    # -- facts ---------------------------------------------------------------------------------------------------

    def facts_of(self, words: str) -> contract.FactsShape:
        """Everything known of an ingredient, or of one form of it, by tier, and how its sources agree."""
        return told.told(self._item(words), self.library)

    def plot_of(self, words: str, form: str) -> bytes:
        """The forest plot of every property that several sources give, as an SVG or PNG file's bytes."""
        from qa.outside.plots import forest_plot

        item = self._item(words)
        return forest_plot(self.library.name(item), told.compared(item, self.library), form)

    def _item(self, words: str) -> str:
        return calculator.item_of(words, self.library, self.settings.region)

    # -- out -----------------------------------------------------------------------------------------------------

    def topics(self) -> list[contract.TopicShape]:
        """Topics, most asked first."""
        return [contract.topic_shape(topic) for topic in self._ranked_topics()]

    def _ranked_topics(self) -> list[Topic]:
        return sorted(self.store.topics(), key=lambda topic: (-len(topic.comments), topic.name))

    def export(self, form: str, *, status: str | None = None, signed: bool | None = None) -> str | bytes:
        """Replies in a form for spreadsheets, programs or people; one row or line for every comment."""
        from qa.outside.exports import exported

        return exported(self.replies(status=status, signed=signed), form, f"Replies{self._of_channel}")

    def round_up(self) -> contract.RoundUpShape:
        """The pinned tip sheet as text and as a page, with what was left out and why."""
        topics = {topic.id: topic for topic in self.store.topics()}
        sheet = round_up.round_up(self._said(), self.tallies(), self.library, topics, self._weighed, self.voice.thanks)
        written = pipeline.write_round_up(sheet, self._title, self._foot, self.library, self.settings)
        return {
            "title": written.title,
            "text": written.text,
            "html": self._page(written),
            "figures": [contract.figure_shape(placed) for placed in written.figures],
            "facts": [contract.fact_shape(use) for use in written.facts],
            "left_out": [{"what": left.what, "why": left.why} for left in written.left_out],
        }

    def _weighed(self, amount: str, item: str) -> Figure:
        return calculator.weighed(amount, item, self.library)

    @property
    def _title(self) -> str:
        return f"Tip sheet{self._of_channel}"

    @property
    def _of_channel(self) -> str:
        invented = " (invented)" if self.settings.invented else ""
        return f" of {self.settings.channel}{invented}" if self.settings.channel else invented

    @property
    def _foot(self) -> str:
        words = "Weighed here, published, common practice and viewers' reports are told apart on this sheet."
        return (
            f"Everything about this channel is invented for demonstration. {words}" if self.settings.invented else words
        )

    def _page(self, written: pipeline.RoundUp) -> str:
        from qa.outside.render import html_page

        headings = dict.fromkeys(block.heading for block in written.blocks)
        cited = {self.library.source_of(use.id).citation for use in written.facts}
        values = {
            "title": written.title,
            "invented": self.settings.invented,
            "sections": [(heading, [b for b in written.blocks if b.heading == heading]) for heading in headings],
            "sources": sorted(cited),
            "foot": written.foot,
        }
        return html_page(self._templates, "round_up.html.j2", values)

    def next(self, most: int = 5) -> list[dict[str, Any]]:
        """Open questions, most needed first, each with the test that would answer it."""
        return [
            {**asdict(designs.plan(question, self._names(question.items))), **_standing(question)}
            for question in designs.rank(self._open_questions())[:most]
        ]

    # -- trials --------------------------------------------------------------------------------------------------

    def trials(self) -> list[contract.TrialLineShape]:
        """Every kitchen test, newest first."""
        ordered = sorted(self.library.knowledge.trials, key=lambda trial: (trial.date, trial.id), reverse=True)
        return [trials.line(trial, self.library) for trial in ordered]

    def trial(self, key: str) -> contract.TrialShape:
        """What a kitchen test's readings say, whether it was fair, and how it agrees with what was known."""
        return trials.report(self.library.trial(key), self.library)

    def trial_plot(self, key: str, form: str) -> bytes:
        """Every reading of a trial with the means and their ranges, as an SVG or PNG file's bytes."""
        from qa.outside.plots import readings_plot

        trial = self.library.trial(key)
        invented = " (invented)" if trial.invented else ""
        return readings_plot(f"{trial.title}{invented}", readings.read(trial), form)

    def suspects(self, outcome: str, episode: str = "") -> contract.SuspectsShape:
        """What goes with an outcome that comes and goes ('green'), by viewers' results and own trials."""
        word = " ".join(outcome.casefold().split())
        if not word.replace(" ", "").replace("-", "").isalpha():
            raise LevelspoonError(f"{outcome!r} names no outcome", "name it in a plain word, like green or sunk")
        if episode:
            self.library.episode(episode)
        episodes = {comment.id: comment.episode for comment in self.store.comments()}
        told = pipeline.reports_of(word, self.store.all_understood(), episodes, self.library, episode)
        found = suspects.suspects(told.batches)
        return told_suspects.told(word, told.batches, told.unsaid, found, pipeline.FOLLOW_UPS, self.library)

    def plan_trial(self, topic: str, vary: Sequence[str] = (), *, dry_run: bool = False) -> contract.PlannedShape:
        """The test of an open question, or a screening test of several suspects: a sheet and an empty readings file.

        The file lies below `proposed/` and counts for nothing until it is moved; one that is there already stays.
        """
        from qa.outside import proposals

        plan = self._planned(topic, vary)
        name = stubs.id_of(f"{plan.topic} screening" if plan.varied else plan.topic)
        file = f"trials/{name}.yaml"
        state = "shown" if dry_run else "there already"
        written = sheets.readings_file(plan, name, self._dosed(plan), invented=self.settings.invented)
        if not dry_run and proposals.put(self._knowledge, file, written):
            state = "written"
        where = f"{self._knowledge.name}/{proposals.FOLDER}/{file}"
        invented = " The channel is invented for demonstration." if self.settings.invented else ""
        foot = f"The readings go into {where}; moved to {self._knowledge.name}/trials/ they count.{invented}"
        even = compare.equal_weights(plan.items, self.library) if "equal weight" in plan.dose else None
        made = sheets.sheet(plan, even, foot)
        told = trials.planned(plan, made, self._sheet_page(made))
        return {**told, "id": name, "file": where, "state": state, "readings": written}

    def _planned(self, topic: str, vary: Sequence[str]) -> designs.Plan:
        word = " ".join(topic.split()).casefold()
        known = {key.casefold(): one for one in self._open_questions() for key in (one.topic, one.name)}
        question = known.get(word)
        if vary:
            kind = question.type if question else "colour" if word in _COLOURS else "other"
            return screening.screening_plan(
                question.topic if question else word, question.name if question else f"suspects of {topic}", vary, kind
            )
        if question is None:
            hint = nearest(word, known)
            remedy = f"did you mean {hint!r}?" if hint else "`levelspoon next` lists open questions"
            raise NoKnowledge(f"no open question is called {topic!r}", f"{remedy} Or name suspects with --vary A,B")
        return designs.plan(question, self._names(question.items))

    def _dosed(self, plan: designs.Plan) -> list[tuple[str, str]]:
        """Level and item of those levels that are one known thing."""
        names = self._names(plan.items)
        return [(names[item], self.library.usual(item)) for item in plan.items if names.get(item) in plan.levels]

    def _sheet_page(self, made: sheets.Sheet) -> str:
        from qa.outside.render import html_page

        name = "trial_sheet.html.j2"
        folder = self._templates if (self._templates / name).exists() else shipped("templates")
        return html_page(folder, name, {"sheet": made, "invented": self.settings.invented})

    def _names(self, items: Iterable[str]) -> dict[str, str]:
        return {item: self.library.name(item) for item in items if self.library.has(item)}

    def _open_questions(self) -> list[designs.Open]:
        """Topics as open as their comments on average: wholly where nothing is known, less where we were unsure."""
        openness: dict[str, float] = {}
        for entry in self.store.entries(status="needs_you"):
            if entry.draft:
                openness[entry.comment.id] = max(designs.OPENNESS.get(r, 0.0) for r in (*entry.draft.reasons, ""))
        return designs.open_questions(list(self.store.topics()), openness, self.library.has)

    def owed(self) -> dict[str, Any]:
        """Answers now possible, corrections now needed, contradictions to put right."""
        said = self._said()
        handed_over = [one for one in said if one.draft.status == "needs_you" and not one.signed]
        fresh: dict[str, Draft] = {}
        tallies = self.tallies()
        for part in batches(handed_over, _BATCH):
            understood = self._understand([one.comment for one in part])
            fresh |= {draft.comment: draft for draft in self._answer(understood, tallies)}
        return asdict(owe.owe(said, fresh, self.library))

    def score(self, path: Path) -> dict[str, Any]:
        """Measure the whole on labelled comments."""
        examples, problems = load_examples(path)
        taught = self._taught()
        known, left_out = _strangers_to(examples, load_examples(_LABELLED)[0])
        result = self._scored(examples, [*known, *_strangers_to(examples, taught)[0]])
        result |= {"left_out": left_out}
        if taught:
            without = scoring.headline(self._scored(examples, known)["as_labelled"])
            pairs = {name: [without[name], value] for name, value in scoring.headline(result["as_labelled"]).items()}
            result |= {"taught": {"examples": len(taught), "measures": pairs}}
        return {**result, "problems": [str(p) for p in problems]}

    def _scored(self, examples: Sequence[Example], known: Sequence[Example]) -> dict[str, Any]:
        """All measures of labelled comments, with what was learned from the known ones."""
        comments = [Comment(e.id, e.text, episode=e.episode, parent=f"{e.id}^") for e in examples]
        parents = {f"{e.id}^": e.parent_text for e in examples}
        models = self._learned(lambda: known, repr([one.id for one in known]))
        understood = pipeline.understand(comments, self.library, self.settings, models, parents)
        drafts = pipeline.answer(understood, self.library, self.settings, models, self.voice, {})
        phrasings = [(phrasing, one.id) for one in self.library.knowledge.answers for phrasing in one.phrasings]
        return scoring.score(examples, understood, drafts, known, phrasings)

    def score_page(self, result: Mapping[str, Any]) -> str:
        """The measures as a page of their own."""
        from qa.outside.render import html_page

        return html_page(shipped("templates") / "pages", "score.html.j2", scoring.page_values(result))

    def forget(self, author: str) -> int:
        """Remove a viewer from everything; how many comments went."""
        from qa.outside import proposals

        if (self._knowledge / proposals.FOLDER).is_dir():
            name = author.strip().lower().removeprefix("@")
            theirs = [e for e in self.store.entries() if e.comment.author.lower().removeprefix("@") == name]
            proposals.without(self._knowledge, [e.understood.text if e.understood else e.comment.text for e in theirs])
        return self.store.forget(author, now())


def _standing(question: designs.Open) -> dict[str, Any]:
    """How an open question stands, in figures for programs and in words for people."""
    growth = question.growth
    return {
        "askers": question.askers,
        "growth": round(growth, 2),
        "unknown": round(question.unknown, 2),
        "effort": question.effort,
        "effort_words": shapes.shape_of(question.type).told,
        "growth_words": "asked more and more" if growth > 1.5 else "asked less and less" if growth < 0.67 else "steady",
        "known_words": "nothing is known here" if question.unknown > 0.8 else "partly answered",
    }


def as_taught(understood: Understood, example: Example) -> Understood:
    """What was understood, corrected by a labelled example; spans, amounts and dishes of asks stay where they fit."""
    mentions = []
    for start, end, item in example.mentions:
        before = next((m for m in understood.mentions if (m.start, m.end) == (start, end)), None)
        ingredient, _, form = item.partition(".")
        amount = before.amount if before else None
        mentions.append(Mention(start, end, understood.text[start:end], ingredient, form, amount))
    whole = Ask("other", 0, len(understood.text), understood.text)
    asks = []
    for place, (kind, items) in enumerate(example.asks):
        before_ask = understood.asks[place] if place < len(understood.asks) else whole
        asks.append(replace(before_ask, type=kind, items=items, sureness=1.0))
    kinds = tuple((kind, 1.0) for kind in example.kinds)
    return replace(understood, kinds=kinds, mentions=tuple(mentions), asks=tuple(asks))


def _strangers_to(examples: Sequence[Example], known: Sequence[Example]) -> tuple[list[Example], int]:
    """Those known comments that none of the voices in `examples` wrote, and how many others there are."""
    voices, texts = {e.voice for e in examples if e.voice}, {e.text for e in examples}
    strangers = [one for one in known if one.voice not in voices and one.text not in texts]
    return strangers, len(known) - len(strangers)


def _invented(folder: str, names: list[str]) -> set[str]:
    """The files of invented trials and episodes, which a real channel does not get."""
    if Path(folder).name not in {"trials", "episodes"}:
        return set()
    return {name for name in names if "\ninvented: true" in Path(folder, name).read_text(encoding="utf-8")}


def replace_text(path: Path, text: str) -> None:
    """Put a text in a file's place in one step, so that a kill leaves the old one or the new one."""
    beside = path.with_name(f".{path.name}.new")
    beside.write_text(text, encoding="utf-8")
    beside.replace(path)


def batches(rows: Iterable[Any], size: int) -> Iterator[list[Any]]:
    """Rows in lists of a size.

    >>> list(batches("abc", 2))
    [['a', 'b'], ['c']]
    """
    batch: list[Any] = []
    for row in rows:
        batch.append(row)
        if len(batch) == size:
            yield batch
            batch = []
    if batch:
        yield batch


def dumped(value: Any) -> str:
    """JSON as people can read it."""
    return json.dumps(value, ensure_ascii=False, indent=2) + "\n"


def now() -> str:
    """The time, read here at the edge and passed in; no stage has a clock."""
    return datetime.now(UTC).isoformat(timespec="seconds")


def parse_mapping(words: str) -> dict[str, str]:
    """`text=body,author=user.name` as a mapping.

    >>> parse_mapping("text=body, author=user.name")
    {'text': 'body', 'author': 'user.name'}
    """
    pairs = [pair.partition("=") for pair in words.split(",") if pair.strip()]
    return {name.strip(): column.strip() for name, _, column in pairs}
