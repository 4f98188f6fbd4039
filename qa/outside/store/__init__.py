"""The store: comments, what was understood, drafts with every fact, decisions, topics and taught examples.

SQLite or PostgreSQL by URL, the same code for both. One writer at a time; every write is on the disk when its call
returns. Time is passed in.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from types import TracebackType

from sqlalchemy import Engine, delete, func, insert, select

from qa.outside.store import asking, deciding, drafting, forgetting, taking
from qa.outside.store.codec import read_back, written
from qa.outside.store.deciding import seen_hash
from qa.outside.store.engine import open_engine, reading, writing
from qa.outside.store.records import SIGNED, Correction, Decision, DecisionKind, Entry, ReadCount, Waiting
from qa.outside.store.tables import decisions, draft_facts, earlier_texts, set_aside, standing, taught
from qa.records import Comment, Draft, Example, Figure, SetAside, Topic, Understood

__all__ = ["SIGNED", "Correction", "Decision", "DecisionKind", "Entry", "ReadCount", "Store", "Waiting", "seen_hash"]


class Store:
    """A channel's database.

    >>> with Store.open("sqlite://") as store:
    ...     store.take_in([Comment("c1", "Can I use chia?")], "week.csv", "2026-03-05T10:00:00")
    ReadCount(rows_read=1, stored=1, already_known=0, set_aside=0, number=1)
    """

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    @classmethod
    def open(cls, url: str) -> Store:
        """Open a database, make it if it is new and bring it up to date; NoWorkbench, in one line, if that fails."""
        return cls(open_engine(url))

    def close(self) -> None:
        """Give the database back."""
        self._engine.dispose()

    def __enter__(self) -> Store:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    # Reading in

    def take_in(
        self,
        rows: Iterable[Comment | SetAside],
        source: str,
        now: str,
        progress: Callable[[int], None] | None = None,
    ) -> ReadCount:
        """Store rows; the same row again adds nothing, a known id with a new text keeps the old one as well.

        `progress` is called with the number of rows that are safe on the disk.
        """
        return taking.take_in(self._engine, rows, source, now, progress)

    def set_aside(self, *, read: int | None = None, after: int = 0) -> Iterator[SetAside]:
        """Rows set aside, in order of arrival: of one read (`ReadCount.number`) or all, without the first `after`."""
        return taking.asides(self._engine, read, after)

    def set_aside_count(self) -> int:
        """How many set-aside rows are kept."""
        with reading(self._engine) as connection:
            return int(connection.execute(select(func.count()).select_from(set_aside)).scalar_one())

    def comments(
        self,
        *,
        undrafted: bool = False,
        undecided: bool = False,
        episode: str | None = None,
        ids: Sequence[str] | None = None,
    ) -> Iterator[Comment]:
        """Comments in order of arrival.

        `undrafted`: without a draft of their present text; `undecided`: that nobody signed, laid aside or answered.
        By `ids`: those that are stored, in that order.
        """
        return asking.stored_comments(self._engine, undrafted=undrafted, undecided=undecided, episode=episode, ids=ids)

    def texts(self) -> dict[str, str]:
        """The text of every comment that somebody replied to, by id."""
        return asking.parents_texts(self._engine)

    def earlier_texts(self, comment_id: str) -> list[str]:
        """What a comment said before its writer changed it, oldest first."""
        with reading(self._engine) as connection:
            seq = asking.number_of(connection, comment_id)
            query = select(earlier_texts.c.text).where(earlier_texts.c.seq == seq).order_by(earlier_texts.c.revision)
            return list(connection.execute(query).scalars())

    # Understood and drafted

    def save(self, understood: Iterable[Understood], drafts: Iterable[Draft]) -> None:
        """Save or replace; a draft that a person has decided on is kept beside the new one, with its facts."""
        drafting.save(self._engine, understood, drafts)

    def all_understood(self) -> Iterator[Understood]:
        """Everything understood, in order of the comments' arrival."""
        return asking.all_understood(self._engine)

    def earlier_drafts(self, comment_id: str) -> list[Draft]:
        """The drafts a person decided on before newer ones took their place, oldest first."""
        return drafting.earlier_drafts_of(self._engine, comment_id)

    def entries(  # noqa: PLR0913  (every filter is optional and named)
        self,
        *,
        status: str | Collection[str] | None = None,
        signed: bool | None = None,
        decided: bool | None = None,
        episode: str | None = None,
        topic: str | None = None,
        answer: str | None = None,
        limit: int | None = None,
        after: str | None = None,
    ) -> Iterator[Entry]:
        """Comments with all that is known of them, in order of arrival, going on after a comment's id.

        `decided` is true where a person signed, sent, laid aside or answered; a mere change is no decision yet.
        """
        wanted = asking.Wanted(status, signed, decided, episode, topic, answer)
        return asking.entries(self._engine, wanted, limit, after)

    def entry(self, comment_id: str) -> Entry:
        """One comment with all that is known of it; LevelspoonError if it is not stored."""
        with reading(self._engine) as connection:
            return asking.entries_of(connection, [asking.number_of(connection, comment_id)])[0]

    def count(
        self,
        *,
        status: str | Collection[str] | None = None,
        signed: bool | None = None,
        decided: bool | None = None,
        episode: str | None = None,
        topic: str | None = None,
        answer: str | None = None,
    ) -> int:
        """How many entries there are of a kind; the arguments are those of `entries`."""
        _, query = asking.numbers(asking.Wanted(status, signed, decided, episode, topic, answer))
        with reading(self._engine) as connection:
            return int(connection.execute(select(func.count()).select_from(query.subquery())).scalar_one())

    def counts(self) -> tuple[int, dict[str, int], dict[str, int]]:
        """How many comments there are, how many drafts of each status, and how many for each reason."""
        return asking.counts(self._engine)

    # Decisions

    # `standing` is the number of the decision that stood when a person looked (0 for none): StaleDraft if another does.

    def sign(
        self,
        comment_id: str,
        text: str,
        seen: str,
        who: str,
        now: str,
        *,
        own: Sequence[Figure] | None = None,
        standing: int | None = None,
    ) -> Decision:
        """Sign a text. `seen` is `seen_hash` of the text shown; StaleDraft if that is no longer the text in hand.

        `own` are numbers in it that the signer vouches for; those of the text in hand if left out.
        """
        return deciding.decide(
            self._engine, comment_id, "signed", text=text, seen=seen, standing=standing, own=own, who=who, at=now
        )

    def change(
        self,
        comment_id: str,
        text: str,
        who: str = "",
        now: str = "",
        *,
        own: Sequence[Figure] | None = None,
        standing: int | None = None,
    ) -> Decision:
        """Keep a person's wording; it is saved when this returns, and no longer signed."""
        return deciding.decide(
            self._engine, comment_id, "changed", text=text, standing=standing, own=own, who=who, at=now
        )

    def lay_aside(self, comment_id: str, who: str = "", now: str = "", *, standing: int | None = None) -> Decision:
        """No reply, or not now."""
        return deciding.decide(self._engine, comment_id, "laid_aside", standing=standing, who=who, at=now)

    def answer_myself(
        self, comment_id: str, text: str = "", who: str = "", now: str = "", *, standing: int | None = None
    ) -> Decision:
        """The tester answers in their own words, elsewhere."""
        return deciding.decide(
            self._engine, comment_id, "answered_myself", text=text, standing=standing, who=who, at=now
        )

    def mark_sent(self, comment_id: str, who: str = "", now: str = "", *, standing: int | None = None) -> Decision:
        """The signed reply went out; LevelspoonError if none is signed."""
        return deciding.decide(self._engine, comment_id, "sent", standing=standing, who=who, at=now)

    def undo(self, comment_id: str, who: str = "", now: str = "", *, standing: int | None = None) -> Decision | None:
        """Take the last decision back, and the one before it next time; gives the one that stands then."""
        return deciding.undo(self._engine, comment_id, who, now, standing)

    def recent(self, who: str, most: int = 1) -> list[Decision]:
        """The last decisions of a person that were not undone, newest first."""
        return deciding.recent(self._engine, who, most)

    def waiting(self) -> list[Waiting]:
        """Every comment that has a draft, asks something of a person and was not decided on, in order of arrival."""
        return asking.waiting(self._engine)

    def standing_counts(self) -> dict[str, int]:
        """How many comments stand signed, sent, laid aside, answered by hand or changed."""
        return asking.standing_counts(self._engine)

    def undecided(self, ids: Sequence[str]) -> list[str]:
        """Those of these comments that nobody signed, laid aside or answered, in their order."""
        return asking.undecided(self._engine, ids)

    def history(self, comment_id: str) -> list[Decision]:
        """Every decision about a comment that was not undone, oldest first."""
        return deciding.history(self._engine, comment_id)

    def leaning_on(self, fact: str, *, version: str | None = None, but_not: str | None = None) -> Iterator[Entry]:
        """Signed and sent replies that lean on a fact, in one version or any but one; with the draft signed."""
        return deciding.leaning_on(self._engine, fact, version, but_not)

    def facts_in_use(self) -> list[tuple[str, str]]:
        """Id and version of every fact that a signed or sent reply leans on."""
        query = (
            select(draft_facts.c.fact, draft_facts.c.version)
            .join(standing, standing.c.seq == draft_facts.c.seq)
            .join(decisions, decisions.c.number == standing.c.decision)
            .where(standing.c.kind.in_(SIGNED), draft_facts.c.revision == decisions.c.draft)
            .distinct()
            .order_by(draft_facts.c.fact, draft_facts.c.version)
        )
        with reading(self._engine) as connection:
            return [(row.fact, row.version) for row in connection.execute(query)]

    # Topics, corrections, examples

    def topics(self) -> Iterator[Topic]:
        """All topics in order of their ids, each with its comments in order."""
        return drafting.all_topics(self._engine)

    def save_topics(self, topics: Iterable[Topic]) -> None:
        """Put these in the place of all topics."""
        drafting.save_topics(self._engine, topics)

    def corrections(self, episode: str | None = None) -> Iterator[Correction]:
        """Where viewers say that video and written recipe disagree, with everyone who noticed."""
        return drafting.corrections(self._engine, episode)

    def teach(self, example: Example, now: str = "") -> None:
        """Keep a labelled example; one with the same id takes its place."""
        with writing(self._engine) as connection:
            connection.execute(delete(taught).where(taught.c.id == example.id))
            row = {"id": example.id, "voice": example.voice, "at": now, "body": written(example)}
            connection.execute(insert(taught).values(**row))

    def unteach(self, example_id: str) -> None:
        """Take a taught example back."""
        with writing(self._engine) as connection:
            connection.execute(delete(taught).where(taught.c.id == example_id))

    def taught(self) -> Iterator[Example]:
        """The examples taught, in order of their ids."""
        with reading(self._engine) as connection:
            bodies = list(connection.execute(select(taught.c.body).order_by(taught.c.id)).scalars())
        return (read_back(Example, body) for body in bodies)

    # Viewers' wishes

    def forget(self, author: str, now: str) -> int:
        """Remove a viewer from everything; how many comments went. Reading them again does not bring them back."""
        return forgetting.forget(self._engine, author, now)
