"""The store keeps its promises on SQLite and PostgreSQL alike."""

from __future__ import annotations

import math
import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from qa.errors import LevelspoonError, Place, StaleDraft
from qa.outside.store import Entry, ReadCount, Store, seen_hash
from qa.outside.store.codec import read_back, written
from qa.outside.store.taking import BATCH
from qa.records import (
    Ask,
    Comment,
    Draft,
    Example,
    FactUse,
    Figure,
    Matched,
    Placed,
    SetAside,
    Topic,
    Understood,
)

NOW = "2026-03-05T10:00:00+00:00"
LATER = "2026-03-06T10:00:00+00:00"


def comment(number: int, text: str = "Can I use chia?", **more: object) -> Comment:
    return Comment(f"c{number}", text, place=Place("week.csv", number), **more)  # type: ignore[arg-type]


def understood(comment_id: str, **more: object) -> Understood:
    return Understood(comment_id, "Can I use chia?", "en", (("question", 0.9),), (), (), (), **more)  # type: ignore[arg-type]


def draft(comment_id: str, reply: str | None = "Yes, by weight.", **more: object) -> Draft:
    return Draft(comment_id, "drafted" if reply else "needs_you", reply=reply, **more)  # type: ignore[arg-type]


def take(store: Store, *rows: Comment | SetAside, now: str = NOW) -> ReadCount:
    return store.take_in(rows, "week.csv", now, None)


def drafted(store: Store, number: int, reply: str | None = "Yes, by weight.", **more: object) -> Draft:
    """A stored comment with a draft."""
    take(store, comment(number))
    made = draft(f"c{number}", reply, **more)
    store.save([understood(f"c{number}")], [made])
    return made


# Reading in


def test_rows_read_are_stored_already_known_or_set_aside(store: Store) -> None:
    aside = SetAside(Place("week.csv", 3), "no text", "ann")
    first = take(store, comment(1), comment(2), aside, comment(1))
    again = take(store, comment(1), comment(2), aside, comment(1))
    assert (first.rows_read, first.stored, first.already_known, first.set_aside) == (4, 2, 1, 1)
    assert (again.rows_read, again.stored, again.already_known, again.set_aside) == (4, 0, 3, 1)
    assert list(store.comments()) == [comment(1), comment(2)]
    assert list(store.set_aside()) == [aside]


def test_set_aside_rows_are_listed_by_read_also_the_second_time(store: Store) -> None:
    one, two = SetAside(Place("a.csv", 1), "no text"), SetAside(Place("b.csv", 1), "no text")
    first = take(store, one)
    take(store, two)
    again = take(store, one)
    assert list(store.set_aside(read=again.number)) == [one]
    assert list(store.set_aside(read=first.number)) == []
    assert list(store.set_aside(after=1)) == [two]
    assert store.set_aside_count() == 2


def test_progress_counts_only_what_is_safe(store: Store, url: str) -> None:
    seen = []

    def progress(rows: int) -> None:
        with Store.open(url) as other:
            seen.append((rows, sum(1 for _ in other.comments())))

    store.take_in((comment(n) for n in range(2 * BATCH + 1)), "week.csv", NOW, progress)
    assert seen == [(BATCH, BATCH), (2 * BATCH, 2 * BATCH), (2 * BATCH + 1, 2 * BATCH + 1)]


def test_a_changed_text_is_stored_and_the_old_one_kept(store: Store) -> None:
    take(store, comment(1, "teh recipe?"))
    count = take(store, comment(1, "the recipe?"), now=LATER)
    assert (count.stored, count.already_known) == (1, 0)
    assert [c.text for c in store.comments()] == ["the recipe?"]
    assert store.earlier_texts("c1") == ["teh recipe?"]


def test_a_text_changed_twice_within_a_batch_keeps_both(store: Store) -> None:
    count = take(store, comment(1, "one"), comment(1, "two"), comment(1, "two"), comment(1, "three"))
    assert (count.stored, count.already_known) == (3, 1)
    assert store.earlier_texts("c1") == ["one", "two"]
    assert store.entry("c1").comment.text == "three"


def test_a_changed_text_wants_a_new_draft(store: Store) -> None:
    drafted(store, 1)
    assert list(store.comments(undrafted=True)) == []
    take(store, comment(1, "and how much of it?"), now=LATER)
    assert [c.id for c in store.comments(undrafted=True)] == ["c1"]


def test_likes_follow_the_newest_export_without_a_revision(store: Store) -> None:
    take(store, comment(1, likes=1, author="ann"))
    count = take(store, comment(1, likes=7))
    assert count.already_known == 1
    assert store.entry("c1").comment == comment(1, likes=7, author="ann")
    assert store.earlier_texts("c1") == []


# Asking


def test_comments_come_by_episode_by_id_and_undecided(store: Store) -> None:
    take(store, comment(1, episode="seed-eggs"), comment(2, episode="white-loaf"), comment(3, episode="seed-eggs"))
    store.lay_aside("c3", "tester", NOW)
    assert [c.id for c in store.comments(episode="seed-eggs")] == ["c1", "c3"]
    assert [c.id for c in store.comments(ids=["c3", "gone", "c1"])] == ["c3", "c1"]
    assert [c.id for c in store.comments(undecided=True)] == ["c1", "c2"]


def test_texts_holds_what_was_replied_to(store: Store) -> None:
    take(store, comment(1, "the parent"), comment(2, "a reply", parent="c1"), comment(3, "alone", parent="elsewhere"))
    assert store.texts() == {"c1": "the parent"}


def test_entries_filter_and_page(store: Store) -> None:
    matched = Matched(Ask("swap", 0, 3, "chia"), "chia-for-flax", 0.9)
    take(store, *(comment(n, episode="seed-eggs" if n % 2 else "white-loaf") for n in range(1, 7)))
    store.save([understood(f"c{n}") for n in range(1, 6)], [])
    store.save(
        [], [draft("c1", matched=(matched, matched)), draft("c2"), draft("c3", None, reasons=("health", "unsafe"))]
    )
    store.save_topics([Topic("chia", "chia for flax", "swap", ("chia",), ("c5", "c1"))])
    store.sign("c1", "Yes, by weight.", seen_hash("Yes, by weight."), "tester", NOW)
    store.change("c2", "Yes!", "tester", NOW)

    def ids(**wanted: object) -> list[str]:
        found = [e.comment.id for e in store.entries(**wanted)]  # type: ignore[arg-type]
        unpaged = {k: v for k, v in wanted.items() if k not in {"limit", "after"}}
        if unpaged == wanted:
            assert store.count(**wanted) == len(found)  # type: ignore[arg-type]
        return found

    assert ids() == ["c1", "c2", "c3", "c4", "c5", "c6"]
    assert ids(status="drafted") == ["c1", "c2"]
    assert ids(status=["drafted", "needs_you"]) == ["c1", "c2", "c3"]
    assert ids(status=[]) == []
    assert ids(signed=True) == ["c1"]
    assert ids(signed=False) == ["c2", "c3", "c4", "c5", "c6"]
    assert ids(decided=False, status="drafted") == ["c2"]
    assert ids(decided=True, signed=True) == ["c1"]
    assert ids(episode="seed-eggs") == ["c1", "c3", "c5"]
    assert ids(topic="chia") == ["c1", "c5"]
    assert ids(topic="chia", status="drafted") == ["c1"]
    assert ids(answer="chia-for-flax") == ["c1"]
    assert ids(limit=2) == ["c1", "c2"]
    assert ids(limit=2, after="c2") == ["c3", "c4"]
    assert store.counts() == (6, {"drafted": 2, "needs_you": 1}, {"health": 1, "unsafe": 1})


def test_entries_run_over_many_pages(store: Store) -> None:
    take(store, *(comment(n) for n in range(2_500)))
    assert [e.comment.id for e in store.entries()] == [f"c{n}" for n in range(2_500)]


def test_an_entry_that_is_not_there_is_one_clear_line(store: Store) -> None:
    with pytest.raises(LevelspoonError, match="no comment 'c9' in the store; check the id"):
        store.entry("c9")


# Drafts


def test_a_draft_comes_back_as_it_was_saved(store: Store) -> None:
    figure = Figure("21 g", 21.0, 19.5, math.inf, "g", ("flax.ground.bulk-density.usda-sr26",), "3 × 7")
    made = drafted(store, 1, figures=(Placed(figure, 6, 10),), facts=(FactUse("f", "published", "usda-sr26", "v1"),))
    entry = store.entry("c1")
    assert entry == Entry(comment(1), understood("c1"), made, None)


def test_drafts_of_comments_that_are_not_stored_are_dropped(store: Store) -> None:
    store.save([understood("gone")], [draft("gone")])
    assert list(store.entries()) == []


def test_a_new_draft_replaces_an_undecided_one_with_its_facts(store: Store) -> None:
    drafted(store, 1, facts=(FactUse("f", "published", "s", "v1"),))
    store.save([], [draft("c1", "No.", facts=(FactUse("g", "published", "s", "v1"),))])
    assert store.entry("c1").text == "No."
    assert store.earlier_drafts("c1") == []
    store.sign("c1", "No.", seen_hash("No."), "tester", NOW)
    assert store.facts_in_use() == [("g", "v1")]


def test_a_decided_draft_is_kept_beside_the_new_one(store: Store) -> None:
    old = drafted(store, 1, facts=(FactUse("f", "published", "s", "v1"),))
    store.sign("c1", "Yes, by weight.", seen_hash("Yes, by weight."), "tester", NOW)
    store.mark_sent("c1", "tester", NOW)
    store.save([], [draft("c1", "No.", facts=(FactUse("f", "published", "s", "v2"),))])
    assert store.earlier_drafts("c1") == [old]
    assert store.entry("c1").signed == "Yes, by weight."
    (entry,) = store.leaning_on("f", but_not="v2")
    assert (entry.draft, entry.sent) == (old, True)
    assert list(store.leaning_on("f", version="v2")) == []
    assert store.facts_in_use() == [("f", "v1")]


def test_saving_the_same_draft_again_changes_nothing(store: Store) -> None:
    made = drafted(store, 1, facts=(FactUse("f", "published", "s", "v1"),))
    store.sign("c1", "Yes, by weight.", seen_hash("Yes, by weight."), "tester", NOW)
    store.save([understood("c1")], [made])
    assert store.earlier_drafts("c1") == []
    assert [e.comment.id for e in store.leaning_on("f", version="v1")] == ["c1"]


# Decisions


def test_what_is_signed_is_the_exact_text_seen(store: Store) -> None:
    drafted(store, 1)
    decision = store.sign("c1", "Yes, by weight.", seen_hash("Yes, by weight."), "tester", NOW)
    assert (decision.kind, decision.text, decision.who, decision.at, decision.draft) == (
        "signed", "Yes, by weight.", "tester", NOW, 1,
    )  # fmt: skip
    assert store.entry("c1").decision == decision


def test_signing_a_draft_that_changed_since_is_refused(store: Store) -> None:
    drafted(store, 1)
    store.save([], [draft("c1", "No.")])
    with pytest.raises(StaleDraft, match="changed since it was shown"):
        store.sign("c1", "Yes, by weight.", seen_hash("Yes, by weight."), "tester", NOW)
    assert store.entry("c1").decision is None


def test_signing_over_another_persons_wording_is_refused(store: Store) -> None:
    drafted(store, 1)
    store.change("c1", "Yes, gram for gram.", "helper", NOW)
    with pytest.raises(StaleDraft):
        store.sign("c1", "Yes, by weight.", seen_hash("Yes, by weight."), "tester", NOW)
    store.sign("c1", "Yes, gram for gram.", seen_hash("Yes, gram for gram."), "tester", NOW)
    assert store.entry("c1").signed == "Yes, gram for gram."


def test_signing_a_reply_to_a_text_that_its_writer_changed_is_refused(store: Store) -> None:
    drafted(store, 1)
    take(store, comment(1, "Can I use flax?"))
    with pytest.raises(StaleDraft, match="changed by its writer"):
        store.sign("c1", "Yes, by weight.", seen_hash("Yes, by weight."), "tester", NOW)


def test_the_answered_part_can_be_signed_where_there_is_no_reply(store: Store) -> None:
    drafted(store, 1, None, part="Chia works, by weight.")
    store.sign("c1", "Chia works, by weight.", seen_hash("Chia works, by weight."), "tester", NOW)
    assert store.entry("c1").signed == "Chia works, by weight."


def test_an_empty_text_cannot_be_signed_and_an_unsigned_one_not_sent(store: Store) -> None:
    drafted(store, 1, None)
    with pytest.raises(LevelspoonError, match="no text to sign"):
        store.sign("c1", "", seen_hash(""), "tester", NOW)
    with pytest.raises(LevelspoonError, match="is not signed; sign it first"):
        store.mark_sent("c1", "tester", NOW)


def test_a_change_after_signing_wants_a_new_signature(store: Store) -> None:
    drafted(store, 1)
    store.sign("c1", "Yes, by weight.", seen_hash("Yes, by weight."), "tester", NOW)
    store.change("c1", "Yes!", "tester", NOW)
    assert store.count(signed=True) == 0
    assert store.entry("c1").text == "Yes!"


def test_undo_has_no_end_and_the_log_only_grows(store: Store) -> None:
    drafted(store, 1)
    steps = [
        store.change("c1", "Yes!", "tester", NOW),
        store.lay_aside("c1", "tester", NOW),
        store.answer_myself("c1", "on the live show", "tester", NOW),
        store.sign("c1", "Yes, by weight.", seen_hash("on the live show"), "tester", NOW),
        store.mark_sent("c1", "tester", LATER),
    ]
    assert store.history("c1") == steps
    for left in range(len(steps) - 1, 0, -1):
        assert store.undo("c1", "tester", LATER) == steps[left - 1]
        assert store.entry("c1").decision == steps[left - 1]
    assert store.undo("c1") is None
    assert store.entry("c1").decision is None
    assert store.entry("c1").text == "Yes, by weight."
    with pytest.raises(LevelspoonError, match="nothing to undo"):
        store.undo("c1")
    again = store.change("c1", "Yes?", "tester", LATER)
    assert again.number > 2 * len(steps)
    assert store.history("c1") == [again]


# Topics, corrections, examples


def test_topics_come_back_and_name_their_comments(store: Store) -> None:
    drafted(store, 1)
    drafted(store, 2)
    topic = Topic("chia", "chia for flax", "swap", ("chia", "flax"), ("c2", "c1"), NOW, NOW, (("2026-W10", 2),))
    store.save_topics([topic, Topic("empty", "nobody", "other", ())])
    assert list(store.topics()) == [topic, Topic("empty", "nobody", "other", ())]
    assert store.entry("c1").understood == understood("c1", topic="chia")
    store.save([understood("c1")], [])
    assert store.entry("c1").understood == understood("c1", topic="chia")  # until it is grouped again
    store.save_topics([replace(topic, comments=("c2",))])
    assert store.entry("c1").understood == understood("c1")
    assert [u.topic for u in store.all_understood()] == ["", "chia"]


def test_corrections_list_everyone_who_noticed(store: Store) -> None:
    take(store, comment(1, author="ann", episode="seed-eggs"), comment(2), comment(3, episode="white-loaf"))
    store.save(
        [understood("c1", conflict="video 2 eggs, pdf 3"), understood("c2"), understood("c3", conflict="180 or 200")],
        [],
    )
    assert [(c.episode, c.comment, c.author, c.words) for c in store.corrections()] == [
        ("seed-eggs", "c1", "ann", "video 2 eggs, pdf 3"),
        ("white-loaf", "c3", "", "180 or 200"),
    ]
    assert [c.comment for c in store.corrections("white-loaf")] == ["c3"]


def test_taught_examples_come_back_newest_wording_only(store: Store) -> None:
    example = Example("c1", "chia?", "@ann", "en", ("question",), (("swap", ("chia",)),), ((0, 4, "chia"),), "drafted")
    store.teach(replace(example, text="chia"), NOW)
    store.teach(example, LATER)
    assert list(store.taught()) == [example]


# Forgetting


def test_a_forgotten_viewer_is_gone_from_everything(store: Store) -> None:
    mine = comment(1, "my secret recipe", author="@Oat_Fan")
    aside = SetAside(Place("week.csv", 9), "no text", "oat_fan | 2026")
    take(store, mine, comment(2, author="@oat_fanatic"), aside)
    take(store, replace(mine, text="my other secret"), now=LATER)
    store.save([understood("c1", conflict="mine")], [draft("c1", facts=(FactUse("f", "published", "s", "v1"),))])
    store.save_topics([Topic("t", "t", "swap", (), ("c1", "c2"))])
    store.sign("c1", "Yes, by weight.", seen_hash("Yes, by weight."), "tester", NOW)
    store.teach(Example("c1", "my secret", "@x", "en", (), (), (), "no_reply"), NOW)

    assert store.forget("oat_fan", LATER) == 1
    assert [c.id for c in store.comments()] == ["c2"]
    assert [t.comments for t in store.topics()] == [("c2",)]
    assert list(store.corrections()) == list(store.taught()) == list(store.leaning_on("f")) == []
    assert [row.content for row in store.set_aside()] == [""]


def test_a_forgotten_viewer_does_not_come_back_by_reading_again(store: Store) -> None:
    rows = (comment(1, author="ann"), SetAside(Place("week.csv", 2), "no text", "ann"), comment(3, author="bob"))
    take(store, *rows)
    assert store.forget("ann", LATER) == 1
    count = take(store, *rows)
    assert (count.stored, count.already_known, count.set_aside) == (0, 2, 1)
    assert [c.id for c in store.comments()] == ["c3"]
    assert [row.content for row in store.set_aside()] == [""]
    assert store.forget("ann", LATER) == 0
    assert store.forget("  ", LATER) == 0


def test_nothing_of_a_forgotten_viewer_is_left_in_the_file(tmp_path: Path) -> None:
    file = tmp_path / "store.db"
    with Store.open(f"sqlite:///{file}") as store:
        take(store, *(comment(n, f"tigernut secret {n}", author="ann") for n in range(300)), comment(1000, "keep me"))
        assert store.forget("ann", LATER) == 300
        left = b"".join(part.read_bytes() for part in tmp_path.iterdir())
    assert b"tigernut" not in left
    assert b"keep me" in left


# Round trips

words = st.text(st.characters(blacklist_categories=["Cs"], blacklist_characters="\x00"), max_size=40)
some_comments = st.lists(
    st.builds(
        Comment,
        id=words.filter(bool),
        text=words,
        author=words,
        time=words,
        likes=st.integers(0, 2**53),
        parent=words,
        episode=words,
        place=st.builds(Place, words, st.integers(0, 2**31 - 1)),
    ),
    max_size=20,
    unique_by=lambda c: c.id,
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60, deadline=None)
@given(rows=some_comments)
def test_comments_come_back_as_they_were(store: Store, rows: list[Comment]) -> None:
    known = {c.id: c for c in store.comments()}
    take(store, *rows)
    after = {c.id: c for c in store.comments()}
    for row in rows:
        if row.id not in known:
            assert after[row.id] == row
        else:
            assert after[row.id].text == row.text
    assert after.keys() == known.keys() | {row.id for row in rows}


@settings(max_examples=200, deadline=None)
@given(st.from_type(Draft))
def test_drafts_survive_writing_and_reading(made: Draft) -> None:
    back = read_back(Draft, written(made))
    assert repr(back) == repr(made)  # by repr, as NaN is not equal to itself


def test_every_table_of_a_comment_empties_when_it_goes(tmp_path: Path) -> None:
    """No table may keep rows of a comment that is gone: one that forgets to say so shows here."""
    file = tmp_path / "store.db"
    with Store.open(f"sqlite:///{file}") as store:
        made = drafted(store, 1, facts=(FactUse("f", "published", "s", "v"),))
        take(store, comment(1, "changed", author="ann"))
        store.save([understood("c1", topic="t")], [replace(made, matched=(Matched(Ask("swap", 0, 1, "x"), "a", 1.0),))])
        store.change("c1", "mine", "tester", NOW)
        store.save([], [draft("c1", "other")])
        store.forget("ann", LATER)
    with sqlite3.connect(file) as connection:
        tables = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        by_comment = [
            t
            for t in tables
            if "seq" in {c[1] for c in connection.execute(f"PRAGMA table_info({t})")} and "sqlite" not in t
        ]
        left = {t: connection.execute(f"SELECT count(*) FROM {t}").fetchone()[0] for t in by_comment}  # noqa: S608
    connection.close()
    assert len(left) == 10
    assert not any(left.values()), left


# What a page of several people needs


def test_a_decision_is_refused_if_another_was_taken_since(store: Store) -> None:
    drafted(store, 1)
    first = store.change("c1", "Yes!", "ann", NOW, standing=0)
    with pytest.raises(StaleDraft, match="ann changed its wording since you opened it"):
        store.lay_aside("c1", "bob", NOW, standing=0)
    with pytest.raises(StaleDraft):
        store.undo("c1", "bob", NOW, standing=0)
    assert store.lay_aside("c1", "bob", NOW, standing=first.number).kind == "laid_aside"


def test_numbers_a_signer_vouches_for_stay_with_the_text(store: Store) -> None:
    drafted(store, 1)
    mine = Figure("8 g", 8, 8, 8, "g", theirs=True)
    store.change("c1", "About 8 g.", "tester", NOW, own=[mine])
    store.sign("c1", "About 8 g.", seen_hash("About 8 g."), "tester", NOW)
    decision = store.entry("c1").decision
    assert decision is not None
    assert decision.own == (mine,)
    assert [one.own for one in store.history("c1")] == [(mine,), (mine,)]


def test_recent_decisions_are_one_persons_own_and_not_undone(store: Store) -> None:
    drafted(store, 1)
    drafted(store, 2)
    mine, theirs = store.change("c1", "Yes!", "ann", NOW), store.lay_aside("c2", "bob", NOW)
    later = store.lay_aside("c1", "ann", NOW)
    assert store.recent("ann", 5) == [later, mine]
    store.undo("c1", "ann", NOW)
    assert store.recent("ann") == [mine]
    assert store.recent("bob") == [theirs]
    assert store.standing_counts() == {"changed": 1, "laid_aside": 1}


def test_waiting_is_what_asks_for_a_person_and_is_undecided(store: Store) -> None:
    drafted(store, 1)
    drafted(store, 2, None, reasons=("health",))
    drafted(store, 3)
    take(store, comment(4))
    store.save([], [Draft("c4", "no_reply", reasons=("nothing_asked",))])
    store.lay_aside("c3", "tester", NOW)
    store.change("c1", "Yes!", "tester", NOW)
    assert [(one.comment, one.status, one.reasons) for one in store.waiting()] == [
        ("c1", "drafted", ()),
        ("c2", "needs_you", ("health",)),
    ]
    assert store.undecided(["c3", "c2", "c1"]) == ["c2", "c1"]


def test_a_taught_example_can_be_taken_back(store: Store) -> None:
    store.teach(Example("c1", "chia?", "@ann", "en", (), (), (), "no_reply"), NOW)
    store.unteach("c1")
    assert list(store.taught()) == []
