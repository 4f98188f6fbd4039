"""What can be done. Every act is a form sent back with this run's token, and ends by turning to a sheet."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING
from urllib.parse import parse_qsl

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData, UploadFile
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from qa.errors import LevelspoonError, StaleDraft
from qa.outside.store import Entry, seen_hash
from qa.records import Figure
from qa.web.desk import Act, Desk
from qa.web.pages import fragment, link, page
from qa.web.routes import Sheets, span_of
from qa.web.sheets import teach
from qa.web.sheets.comment import Answering, answering, standing_of, text_in_hand
from qa.web.sheets.differs import differences
from qa.web.sheets.own import cited, mine, without
from qa.workbench import now

if TYPE_CHECKING:
    from collections.abc import Sequence

LONGEST_REPLY = 20_000
"""Characters of a reply that a form may hold."""
MOST_FIELDS = 400
Deed = Callable[[FormData], Response]


class Acts:
    """The acts of one desk."""

    def __init__(self, desk: Desk, sheets: Sheets) -> None:
        self.desk = desk
        self.bench = desk.bench
        self.sheets = sheets

    def routes(self) -> list[Route]:
        """Every path that changes something."""
        deeds: dict[str, Deed] = {
            "/keep": self.keep,
            "/typed": self.typed,
            "/sign": self.sign,
            "/sign-together": self.sign_together,
            "/lay-aside": self.lay_aside,
            "/answer-myself": self.answer_myself,
            "/not-a-question": self.not_a_question,
            "/mine": self.mine,
            "/cite": self.cite,
            "/remove": self.remove,
            "/redraft": self.redraft,
            "/teach": self.teach,
            "/sent": self.sent,
            "/undo": self.undo,
            "/larder/add": self.add,
        }
        return [Route(path, self._guarded(deed), methods=["POST"]) for path, deed in deeds.items()]

    def _guarded(self, deed: Deed) -> Callable[[Request], object]:
        async def act(request: Request) -> Response:
            form = await _form(request)
            if _told(form, "token") != self.desk.form_token:
                words = "This page is from an earlier run. Open the address that was printed last; your words are kept."
                return PlainTextResponse(f"{words}\n", 403)
            try:
                return await run_in_threadpool(deed, form)
            finally:
                self.desk.touched()

        return act

    # -- a wording -----------------------------------------------------------------------------------------------

    def keep(self, form: FormData) -> Response:
        """Keep a wording without signing it."""
        entry, text = self._entry(form), _text(form)
        self._keep(entry, text, _standing(form))
        return self._back_to(entry.comment.id)

    def typed(self, form: FormData) -> Response:
        """The same while somebody types: what changed on the sheet comes back for the script to show."""
        entry, text = self._entry(form), _text(form)
        try:
            entry = self._keep(entry, text, _standing(form))
        except StaleDraft as fault:
            return JSONResponse({"stale": str(fault)}, 409)
        part = answering(entry, self.bench.checked(entry, text), self.bench.library, self.bench.settings)
        return JSONResponse(_typed_shape(entry, part))

    def _keep(self, entry: Entry, text: str, standing: int, own: Sequence[Figure] | None = None) -> Entry:
        """Save a wording if it is new; the entry as it stands then."""
        if text == text_in_hand(entry) and own is None:
            return entry
        key = entry.comment.id
        if own is None and entry.decision:
            own = tuple(figure for figure in entry.decision.own if figure.text in text)
        kept = self.bench.store.change(key, text, self.desk.who, now(), own=own, standing=standing)
        if not self.desk.acts or self.desk.acts[-1].words != "wording kept" or self.desk.acts[-1].comment != key:
            self._note("wording kept", key, standing_before=standing)
        del kept
        return self.bench.store.entry(key)

    def sign(self, form: FormData) -> Response:
        """Sign the text in the form; the next sheet turns in."""
        entry, text, standing = self._entry(form), _text(form), _standing(form)
        key = entry.comment.id
        if standing != standing_of(entry.decision) or _told(form, "seen") != seen_hash(text_in_hand(entry)):
            if not _is_that_wording(entry, text):
                return self._changed_meanwhile(entry, text)
            standing = standing_of(entry.decision)
        checked = self.bench.checked(entry, text)
        if checked.loose or not text.strip():
            self._keep(entry, text, standing)
            return RedirectResponse(link("/comment", id=key, held="number" if checked.loose else "empty"), 303)
        if (checked.lacking or checked.moved) and _told(form, "anyway") != "yes":
            entry = self._keep(entry, text, standing)
            part = answering(entry, self.bench.checked(entry, text), self.bench.library, self.bench.settings)
            return page(self.desk, "before", "/comment", status=409, id=key, part=part)
        self.bench.sign(key, text, seen_hash(text_in_hand(entry)), self.desk.who, standing=standing)
        self._note("signed", key, standing_before=standing)
        _, after = self.desk.neighbours(key)
        return RedirectResponse(link("/comment", id=after) if after else "/", 303)

    def _changed_meanwhile(self, entry: Entry, text: str) -> Response:
        return page(
            self.desk,
            "meanwhile",
            "/comment",
            status=409,
            entry=entry,
            text=text,
            stretches=differences(text_in_hand(entry), text),
            seen=seen_hash(text_in_hand(entry)),
            standing=standing_of(entry.decision),
        )

    def sign_together(self, form: FormData) -> Response:
        """Sign every ticked reply of a topic's sheet, each only if it is still the text that was shown."""
        topic, answer = _told(form, "topic"), _told(form, "answer")
        signed: list[str] = []
        held: list[str] = []
        for key in form.getlist("ticked"):
            entry = self.bench.store.entry(str(key))
            seen, standing = _told(form, f"seen:{key}"), int(_told(form, f"standing:{key}") or 0)
            checked = self.bench.checked(entry, entry.text)
            if checked.loose or checked.lacking or checked.moved:
                held.append(entry.comment.id)
                continue
            try:
                self.bench.sign(entry.comment.id, entry.text, seen, self.desk.who, standing=standing)
            except StaleDraft:
                held.append(entry.comment.id)
            else:
                signed.append(entry.comment.id)
        if signed:
            self._note_many(f"{len(signed)} signed" if len(signed) > 1 else "signed", signed)
        if held:
            return page(
                self.desk, "held", "/topic", status=409, held=held, signed=len(signed), topic=topic, answer=answer
            )
        left = topic if topic and self.sheets.waiting_of(topic, 1) else ""
        return RedirectResponse(link("/topic", id=left, answer=answer), 303)

    # -- the ways out of a number without a source ---------------------------------------------------------------

    def mine(self, form: FormData) -> Response:
        """Take a number on as one's own."""
        return self._vouch(form, lambda text, start, end: mine(text, start, end, self.desk.who))

    def cite(self, form: FormData) -> Response:
        """Lead a number back to a fact."""
        fact = _told(form, "fact")
        return self._vouch(form, lambda text, start, end: cited(text, start, end, fact, self.bench.library))

    def _vouch(self, form: FormData, figure_of: Callable[[str, int, int], Figure]) -> Response:
        entry, text, standing = self._entry(form), _text(form), _standing(form)
        start, end = span_of(_told(form, "at"))
        own = entry.decision.own if entry.decision else ()
        self._keep(entry, text, standing, (*own, figure_of(text, start, end)))
        return self._back_to(entry.comment.id)

    def remove(self, form: FormData) -> Response:
        """Take a number out of the text."""
        entry, text = self._entry(form), _text(form)
        self._keep(entry, without(text, *span_of(_told(form, "at"))), _standing(form))
        return self._back_to(entry.comment.id)

    # -- other acts ----------------------------------------------------------------------------------------------

    def lay_aside(self, form: FormData) -> Response:
        """No reply, or not now."""
        return self._decided(form, "laid aside", self.bench.store.lay_aside)

    def answer_myself(self, form: FormData) -> Response:
        """The tester answers by hand, elsewhere."""

        def by_hand(key: str, who: str, at: str, *, standing: int | None) -> object:
            return self.bench.store.answer_myself(key, "", who, at, standing=standing)

        return self._decided(form, "answered by hand", by_hand)

    def sent(self, form: FormData) -> Response:
        """Mark a signed reply as sent."""
        entry = self._entry(form)
        self.bench.store.mark_sent(entry.comment.id, self.desk.who, now(), standing=_standing(form))
        self._note("marked as sent", entry.comment.id, standing_before=_standing(form))
        return RedirectResponse("/signed", 303) if _told(form, "then") else self._back_to(entry.comment.id)

    def not_a_question(self, form: FormData) -> Response:
        """Nothing is asked: lay it aside, and keep it as an example."""
        entry = self._entry(form)
        example = teach.not_a_question(entry)
        before = next((one for one in self.bench.store.taught() if one.id == example.id), None)
        answer = self._decided(form, "no question", self.bench.store.lay_aside)
        self.bench.store.teach(example, now())
        laid = self.desk.acts.pop()

        def back() -> None:
            laid.back()
            self.bench.store.unteach(example.id) if before is None else self.bench.store.teach(before, now())

        self.desk.done(Act(laid.words, back, laid.comment))
        return answer

    def _decided(self, form: FormData, words: str, decide: Callable[..., object]) -> Response:
        entry, standing = self._entry(form), _standing(form)
        key = entry.comment.id
        decide(key, self.desk.who, now(), standing=standing)
        self._note(words, key, standing_before=standing)
        _, after = self.desk.neighbours(key)
        return RedirectResponse(link("/comment", id=after) if after else "/", 303)

    def redraft(self, form: FormData) -> Response:
        """Draft one comment anew from the knowledge as it is now; a person's wording stays."""
        entry = self._entry(form)
        self.bench.look_again()
        self._redo("drafted anew", entry, lambda: self.bench.redraft(entry.comment.id))
        return self._back_to(entry.comment.id)

    def teach(self, form: FormData) -> Response:
        """Put right what was understood."""
        entry = self._entry(form)
        lists = {
            name: [str(value) for value in form.getlist(name)] for name in ("kind", "words", "item", "ask", "about")
        }
        example = teach.taught_example(entry, lists, self.bench.library)
        before = next((one for one in self.bench.store.taught() if one.id == example.id), None)
        self._redo("taught", entry, lambda: self.bench.teach(entry.comment.id, example))
        taught = self.desk.acts.pop()

        def back() -> None:
            taught.back()
            self.bench.store.unteach(example.id) if before is None else self.bench.store.teach(before, now())

        self.desk.done(Act(taught.words, back, taught.comment))
        return self._back_to(entry.comment.id)

    def _redo(self, words: str, entry: Entry, do: Callable[[], None]) -> None:
        """Do something that makes a new draft; taking it back puts the old one in its place."""
        do()
        known, draft = entry.understood, entry.draft

        def back() -> None:
            self.bench.store.save([known] if known else [], [draft] if draft else [])

        self.desk.done(Act(words, back, entry.comment.id))

    def add(self, form: FormData) -> Response:
        """Write the stub of a fact into its file and show where it lies."""
        item, name = _told(form, "item").strip(), _told(form, "property")
        made = self.bench.add_stub(item, name, _told(form, "why"))
        back = _told(form, "comment")
        return page(self.desk, "added", "/larder", made=made, back=back)

    # -- taking back ---------------------------------------------------------------------------------------------

    def undo(self, form: FormData) -> Response:
        """Take back the last act of this run; before that, the last decision in the log, without limit."""
        key = _told(form, "id")
        if self.desk.acts:
            act = self.desk.acts.pop()
            act.back()
            return self._back_to(act.comment or key)
        last = next(iter(self.bench.store.recent(self.desk.who)), None)
        if last is None:
            return page(self.desk, "fault", "/", status=409, words="There is nothing left to take back.", remedy="")
        self.bench.store.undo(last.comment, self.desk.who, now(), standing=last.number)
        return self._back_to(last.comment)

    def _note(self, words: str, key: str, *, standing_before: int) -> None:
        """Note a decision just made: taking it back undoes until what stood before stands again."""

        def back() -> None:
            while standing_of(self.bench.store.entry(key).decision) != standing_before:
                if self.bench.store.undo(key, self.desk.who, now()) is None and standing_before:
                    raise StaleDraft("somebody else took that back already", "look at it again")

        self.desk.done(Act(words, back, key))

    def _note_many(self, words: str, keys: Sequence[str]) -> None:
        def back() -> None:
            for key in keys:
                self.bench.store.undo(key, self.desk.who, now())

        self.desk.done(Act(words, back, keys[0]))

    # -- small things --------------------------------------------------------------------------------------------

    def _entry(self, form: FormData) -> Entry:
        self.desk.overview()  # counted before the act, so that the next sheet is the one after this
        return self.bench.store.entry(_told(form, "id"))

    @staticmethod
    def _back_to(key: str) -> Response:
        return RedirectResponse(link("/comment", id=key) if key else "/", 303)


async def _form(request: Request) -> FormData:
    """A form in the one shape our pages send; LevelspoonError for any other, files above all."""
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind != "application/x-www-form-urlencoded":
        raise LevelspoonError("this is no form of the notebook's", "use the pages")
    body = await request.body()
    try:
        fields: list[tuple[str, UploadFile | str]] = [
            *parse_qsl(body.decode(), keep_blank_values=True, max_num_fields=MOST_FIELDS)
        ]
    except ValueError as fault:
        raise LevelspoonError(f"this form cannot be read ({fault})", "go back and try again") from fault
    return FormData(fields)


def _told(form: FormData, name: str) -> str:
    value = form.get(name, "")
    return value if isinstance(value, str) else ""


def _text(form: FormData) -> str:
    """A text field as it was typed: browsers send line ends as two characters."""
    text = _told(form, "text").replace("\r\n", "\n").replace("\r", "\n")
    if len(text) > LONGEST_REPLY:
        raise LevelspoonError(f"that reply has {len(text):,} characters", f"keep it under {LONGEST_REPLY:,}")
    return text


def _is_that_wording(entry: Entry, text: str) -> bool:
    """Whether what stands is this very text, only kept and not decided on."""
    return entry.decision is not None and entry.decision.kind == "changed" and entry.decision.text == text


def _standing(form: FormData) -> int:
    told = _told(form, "standing")
    if not told.isdecimal():
        raise LevelspoonError("this form lost its place", "go back and open the sheet again")
    return int(told)


def _typed_shape(entry: Entry, part: Answering) -> dict[str, object]:
    spans, at = [], 0
    for run in part.runs:
        if run.kind:
            spans.append([at, at + len(run.text), run.kind])
        at += len(run.text)
    return {
        "text": part.text,
        "spans": spans,
        "seen": part.seen,
        "standing": part.standing,
        "length": part.length,
        "margin": fragment("margin", part=part, id=entry.comment.id, decided=""),
    }
