"""What can be looked at. Nothing here changes anything."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from qa.errors import LevelspoonError, NoKnowledge, Place
from qa.knowledge.facts import PROPERTIES
from qa.outside.store import Entry
from qa.records import ASK_TYPES, Topic
from qa.web.desk import Desk
from qa.web.pages import link, page
from qa.web.sheets import kitchen, larder, sums, teach
from qa.web.sheets.comment import comment_sheet, text_in_hand
from qa.web.sheets.differs import differences
from qa.web.sheets.own import cite_sheet
from qa.web.sheets.slips import item_name
from qa.web.sheets.topic import MOST, TopicSheet, answer_topic, topic_sheet
from qa.web.sheets.week import WeekSheet, stale_facts, week_sheet
from qa.web.slow import Slow
from qa.web.words import ASKS, date_words, untangled

View = Callable[[Request], Response]
_MOST_SIGNED = 40
_LONGEST_FILE = 400_000


class Sheets:
    """The sheets of one desk."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.bench = desk.bench
        self._slow = Slow()

    def routes(self) -> list[Route]:
        """Every path that can be looked at."""
        views: dict[str, View] = {
            "/": self.week,
            "/comment": self.comment,
            "/words": self.whole_text,
            "/differs": self.differs,
            "/teach": self.teach,
            "/cite": self.cite,
            "/topic": self.topic,
            "/tips": self.tips,
            "/owed": self.owed,
            "/kitchen": self.kitchen,
            "/larder": self.larder,
            "/larder/item": self.item,
            "/larder/answers": self.answers,
            "/larder/answer": self.answer,
            "/larder/cautions": self.cautions,
            "/larder/sources": self.sources,
            "/larder/file": self.file,
            "/larder/add": self.add,
            "/sums": self.sums,
            "/signed": self.signed,
            "/out/signed.csv": self.out_csv,
            "/out/signed.txt": self.out_text,
        }
        return [Route(path, view, methods=["GET"]) for path, view in views.items()]

    def kept(self, name: str, made: Callable[[], Any]) -> Any:
        """What takes long, worked out anew after each count of the store; BeingWorkedOut while that goes on."""
        return self._slow.get(name, self.desk.overview().made, made)

    # -- week, comment, topic ------------------------------------------------------------------------------------

    def week(self, request: Request) -> Response:
        """This week."""
        self.desk.overview(fresh="count" in request.query_params)
        return page(self.desk, "week", "/", sheet=self.kept("week", self._week), start=self.desk.first_of())

    def _week(self) -> WeekSheet:
        store, overview = self.bench.store, self.desk.overview()
        stale = stale_facts(store.facts_in_use(), self.bench.library)
        return week_sheet(overview, list(store.corrections()), stale, self.bench.problems, store.set_aside_count())

    def comment(self, request: Request) -> Response:
        """One comment; the first that waits if none is named."""
        key = request.query_params.get("id", "")
        if not key:
            first = self.desk.first_of()
            if first:
                return RedirectResponse(link("/comment", id=first), 303)
            return page(self.desk, "nothing", "/comment")
        entry = self.bench.store.entry(key)
        return self.comment_page(entry, text_in_hand(entry), held=request.query_params.get("held", ""))

    def comment_page(self, entry: Entry, text: str, *, held: str = "") -> Response:
        """The sheet of an entry with a text in its field."""
        parent = (
            next(iter(self.bench.store.comments(ids=[entry.comment.parent])), None) if entry.comment.parent else None
        )
        sheet = comment_sheet(
            entry,
            self.bench.checked(entry, text),
            self.bench.library,
            self.bench.settings,
            parent.text if parent else "",
        )
        before, after = self.desk.neighbours(entry.comment.id)
        overview = self.desk.overview()
        known = {one.id: one.name for one in overview.topics}
        return page(
            self.desk,
            "comment",
            "/comment",
            sheet=sheet,
            before=before,
            after=after,
            place=overview.place.get(entry.comment.id, -1) + 1,
            waiting=len(overview.pile),
            topic_name=known.get(sheet.topic, ""),
            held=held,
        )

    def whole_text(self, request: Request) -> Response:
        """A long comment in full, as plain text."""
        return PlainTextResponse(self.bench.store.entry(request.query_params.get("id", "")).comment.text)

    def differs(self, request: Request) -> Response:
        """What was drafted and what stands, word by word."""
        entry = self.bench.store.entry(request.query_params.get("id", ""))
        drafted = (entry.draft.reply or entry.draft.part or "") if entry.draft else ""
        history = [(decision, date_words(decision.at)) for decision in self.bench.store.history(entry.comment.id)]
        return page(
            self.desk,
            "differs",
            "/comment",
            id=entry.comment.id,
            stretches=differences(drafted, text_in_hand(entry)),
            history=history,
        )

    def teach(self, request: Request) -> Response:
        """What was understood, to be put right."""
        self.desk.warm()
        entry = self.bench.store.entry(request.query_params.get("id", ""))
        return page(
            self.desk,
            "teach",
            "/comment",
            sheet=teach.teach_sheet(entry),
            asks=[(kind, ASKS[kind]) for kind in ASK_TYPES],
            items=self._items(),
        )

    def _items(self) -> list[tuple[str, str]]:
        known = self.bench.library.knowledge.ingredients
        pairs = [(one.id, one.name) for one in known]
        pairs += [(f"{one.id}.{form.id}", form.name) for one in known for form in one.forms]
        return sorted(pairs, key=lambda pair: pair[1])

    def cite(self, request: Request) -> Response:
        """Facts that a number could be led back to."""
        given = request.query_params
        entry = self.bench.store.entry(given.get("id", ""))
        start, end = span_of(given.get("at", ""))
        sheet = cite_sheet(
            entry.comment.id,
            text_in_hand(entry),
            start,
            end,
            given.get("asked", ""),
            entry.understood,
            self.bench.library,
        )
        return page(self.desk, "cite", "/comment", sheet=sheet, standing=entry.decision.number if entry.decision else 0)

    def topic(self, request: Request) -> Response:
        """Everything that waits on one topic; the most needed topic if none is named."""
        if answer := request.query_params.get("answer", ""):
            return self._answer_topic(answer)
        overview = self.desk.overview()
        known = {one.id: one for one in overview.topics}
        key = request.query_params.get("id", "")
        if not key:
            key = next((one.id for one in overview.topics if self.waiting_of(one.id, 1)), "")
        if not key:
            return page(self.desk, "nothing", "/topic")
        if key not in known:
            raise NoKnowledge("that topic is not in the store any more", "start from This week")
        ids = self.waiting_of(key, MOST)
        entries = [self.bench.store.entry(one) for one in ids]
        waiting = len(overview.by_topic.get(key, ()))
        sheet = topic_sheet(known[key], entries, max(waiting, len(ids)), self.bench.checked, self.bench.library)
        return self._topic_page(sheet, self._beside(known[key]))

    def _answer_topic(self, answer: str) -> Response:
        """Everything that waits with one standing answer."""
        self.bench.library.answer(answer)
        store = self.bench.store
        entries = list(store.entries(answer=answer, decided=False, limit=MOST))
        waiting = store.count(answer=answer, decided=False)
        sheet = answer_topic(answer, entries, waiting, self.bench.checked, self.bench.library)
        return self._topic_page(sheet, [], by_answer=True)

    def _topic_page(self, sheet: TopicSheet, others: list[Topic], *, by_answer: bool = False) -> Response:
        careful = any(reply.careful and reply.ready for group in sheet.groups for reply in group.replies)
        return page(self.desk, "topic", "/topic", sheet=sheet, others=others, by_answer=by_answer, careful=careful)

    def waiting_of(self, key: str, most: int) -> list[str]:
        """The first comments of a topic that still wait."""
        ids = [one.comment for one in self.desk.overview().by_topic.get(key, ())]
        found: list[str] = []
        for start in range(0, len(ids), 50):
            found += self.bench.store.undecided(ids[start : start + 50])
            if len(found) >= most:
                break
        return found[:most]

    def _beside(self, here: Topic) -> list[Topic]:
        """The next topics in order of need that have something waiting."""
        overview = self.desk.overview()
        return [one for one in overview.topics if one.id != here.id and overview.by_topic.get(one.id)][:12]

    # -- what comes of it ----------------------------------------------------------------------------------------

    def tips(self, _request: Request) -> Response:
        """The round-up as it would be pinned."""
        return page(self.desk, "tips", "/tips", sheet=self.kept("tips", self.bench.round_up))

    def owed(self, _request: Request) -> Response:
        """Answers now possible, corrections now needed, contradictions to put right."""
        owed = self.kept("owed", self.bench.owed)
        ids = [c for debts in owed.values() for debt in debts for c in debt["comments"][:8]]
        words = {one.id: untangled(one.text[:160]) for one in self.bench.store.comments(ids=list(dict.fromkeys(ids)))}
        return page(self.desk, "owed", "/", owed=owed, words=words)

    def kitchen(self, _request: Request) -> Response:
        """Trials and what to test next."""
        plans = self.kept("next", lambda: self.bench.next(5))
        return page(self.desk, "kitchen", "/kitchen", sheet=kitchen.kitchen_sheet(self.bench.library, plans))

    def signed(self, request: Request) -> Response:
        """Signed replies, to be taken out."""
        after = request.query_params.get("after", "") or None
        entries = list(self.bench.store.entries(signed=True, limit=_MOST_SIGNED, after=after))
        counts = self.bench.store.standing_counts()
        return page(
            self.desk,
            "signed",
            "/",
            entries=[(e, untangled(e.comment.author) or "a viewer", untangled(e.comment.text[:300])) for e in entries],
            more=entries[-1].comment.id if len(entries) == _MOST_SIGNED else "",
            ready=counts.get("signed", 0),
            sent=counts.get("sent", 0),
        )

    def out_csv(self, _request: Request) -> Response:
        """All signed replies as a table."""
        return _file(self.bench.export("csv", signed=True), "signed.csv", "text/csv; charset=utf-8")

    def out_text(self, _request: Request) -> Response:
        """All signed replies as plain text."""
        replies = [
            f"{entry.comment.author or 'a viewer'} ({entry.comment.id})\n{entry.signed}\n"
            for entry in self.bench.store.entries(signed=True)
        ]
        return _file("\n".join(replies), "signed.txt", "text/plain; charset=utf-8")

    # -- the larder and the sums ---------------------------------------------------------------------------------

    def larder(self, request: Request) -> Response:
        """The way into the larder."""
        asked = request.query_params.get("asked", "")[:100]
        return page(
            self.desk,
            "larder",
            "/larder",
            sheet=larder.larder_sheet(self.bench.library, asked),
            problems=self.bench.problems,
        )

    def item(self, request: Request) -> Response:
        """Everything on one ingredient."""
        sheet = larder.ingredient_sheet(request.query_params.get("id", ""), self.bench.library)
        return page(self.desk, "item", "/larder", sheet=sheet, properties=list(PROPERTIES))

    def answers(self, request: Request) -> Response:
        """The standing answers, a sheet for each type of ask; there are too many for one."""
        library = self.bench.library
        written = {answer.asks[0] for answer in library.knowledge.answers}
        types = [(key, name) for key, name in ASKS.items() if key in written]
        chosen = request.query_params.get("to", types[0][0] if types else "")
        return page(
            self.desk, "answers", "/larder", found=larder.answers_to(chosen, library), types=types, chosen=chosen
        )

    def answer(self, request: Request) -> Response:
        """One standing answer."""
        sheet = larder.answer_sheet(request.query_params.get("id", ""), self.bench.library)
        return page(self.desk, "answer", "/larder", sheet=sheet)

    def cautions(self, _request: Request) -> Response:
        """All cautions."""
        return page(self.desk, "cautions", "/larder", cautions=self.bench.library.knowledge.cautions)

    def sources(self, _request: Request) -> Response:
        """All sources."""
        return page(self.desk, "sources", "/larder", sources=larder.all_sources(self.bench.library))

    def file(self, request: Request) -> Response:
        """A file of the knowledge with its lines numbered; nothing outside that folder."""
        place = Place(request.query_params.get("path", ""), 0)
        path = self.bench.knowledge_file(place.file)
        lines = path.read_text(encoding="utf-8", errors="replace")[:_LONGEST_FILE].splitlines()
        return page(self.desk, "file", "/larder", path=place.file, whole=str(Path(path).resolve()), lines=lines)

    def add(self, request: Request) -> Response:
        """The form for a fact that is wanted."""
        given = request.query_params
        item, comment = given.get("item", ""), given.get("comment", "")
        words, items = "", [item] if item else []
        if comment:
            entry = self.bench.store.entry(comment)
            words = untangled(entry.comment.text[:200])
            known = entry.understood
            items = list(dict.fromkeys([m.item for m in known.mentions])) if known else []
        named = [(one, item_name(one, self.bench.library)) for one in items]
        return page(
            self.desk, "add", "/larder", named=named, words=words, comment=comment, properties=list(PROPERTIES.values())
        )

    def sums(self, request: Request) -> Response:
        """The calculator."""
        typed = {name: value[:2_000] for name, value in request.query_params.items()}
        parts = sums.sums_sheet(typed.get("sum", ""), typed, self.bench.library, self.bench.settings.region)
        return page(self.desk, "sums", "/sums", parts=parts)


def span_of(words: str) -> tuple[int, int]:
    """A place in a text such as '12-15'; LevelspoonError for anything else."""
    start, _, end = words.partition("-")
    if not (start.isdecimal() and end.isdecimal() and len(words) < 20 and int(start) < int(end)):
        raise LevelspoonError(f"{words!r} is no place in a text", "go back and try again")
    return int(start), int(end)


def _file(content: str | bytes, name: str, kind: str) -> Response:
    body = content.encode() if isinstance(content, str) else content
    return Response(body, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{name}"'})
