"""Topics keep their identity whatever the order of arrival; texts are grouped alike on every run."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sklearn.metrics import adjusted_rand_score

from qa.knowledge.library import Library
from qa.records import Ask, AskType, Understood
from qa.stages.group import group, group_texts


def comment(name: str, *asks: tuple[AskType, tuple[str, ...]]) -> Understood:
    made = tuple(Ask(kind, 0, 1, "?", items) for kind, items in asks)
    return Understood(name, "?", "en", (("question", 1.0),), (), (), made)


WEEK = [
    comment("a", ("swap", ("moonflour.fine", "starflour"))),
    comment("b", ("swap", ("starflour", "moonflour"))),
    comment("c", ("weight", ("moonflour",)), ("swap", ("moonflour", "starflour.white"))),
    comment("d", ("storage", ())),
]


def test_asks_of_the_same_thing_are_one_topic_in_plain_words(moon: Library) -> None:
    first, *others = group(WEEK, moon, [])
    assert first.comments == ("a", "b", "c")
    assert first.items == ("moonflour", "starflour")
    assert "instead of" in first.name
    assert {topic.type for topic in others} == {"weight", "storage"}


def test_topics_do_not_depend_on_the_order_of_arrival(moon: Library) -> None:
    forwards, backwards = group(WEEK, moon, []), group(WEEK[::-1], moon, [])
    assert [t.id for t in forwards] == [t.id for t in backwards]
    assert [set(t.comments) for t in forwards] == [set(t.comments) for t in backwards]


def test_known_topics_go_on_and_nothing_is_counted_twice(moon: Library) -> None:
    known = group(WEEK[:2], moon, [])
    assert group(WEEK, moon, known) == group(WEEK, moon, []) == group(WEEK, moon, group(WEEK, moon, []))


def question(name: str, text: str, kind: AskType = "storage") -> Understood:
    return Understood(name, text, "en", (("question", 1.0),), (), (), (Ask(kind, 0, len(text), text),))


def test_a_pair_asked_about_once_stays_with_its_ingredient_and_parts_when_it_grows(moon: Library) -> None:
    early = [comment("a", ("swap", ("moonflour",))), comment("b", ("swap", ("moonflour", "starflour")))]
    known = group(early, moon, [])
    assert [(t.id, t.comments) for t in known] == [("swap:moonflour", ("a", "b"))]
    later = group([*early, comment("c", ("swap", ("moonflour", "starflour")))], moon, known)
    assert {t.id: (t.comments, t.parted) for t in later} == {
        "swap:moonflour+starflour": (("b", "c"), "swap:moonflour"),
        "swap:moonflour": (("a",), ""),
    }


def test_a_topic_that_goes_up_in_another_is_named_there(moon: Library) -> None:
    full = [comment("a", ("swap", ("moonflour",))), *(comment(x, ("swap", ("moonflour", "starflour"))) for x in "bc")]
    known = group(full, moon, [])
    forgotten = group(full[:2], moon, known)
    assert [(t.id, t.merged) for t in forgotten] == [("swap:moonflour", ("swap:moonflour+starflour",))]
    again = group(full, moon, forgotten)
    assert all(not t.merged for t in again)


def test_asks_that_name_nothing_are_gathered_by_their_telling_word(moon: Library) -> None:
    texts = [
        "do these freeze",
        "can I freeze them raw?",
        "freezing ok?",
        "which tin keeps them best",
        "in a tin?",
        "hm?",
    ]
    topics = group([question(str(i), text) for i, text in enumerate(texts)], moon, [])
    assert {t.id: t.comments for t in topics} == {
        "storage:freez": ("0", "1", "2"),
        "storage:tin": ("3", "4"),
        "storage:in general": ("5",),
    }


def test_comments_are_counted_by_iso_week(moon: Library) -> None:
    """2026-01-01 is a Thursday, so it lies in week 1 (ISO 8601: the week that holds the year's first Thursday)."""
    times = {"a": "2026-01-01T10:00:00Z", "b": "2026-01-05", "c": "not a time"}
    topic = group(WEEK[:3], moon, [], times)[0]
    assert topic.weeks == (("2026-W01", 1), ("2026-W02", 1))
    assert topic.first == "2026-01-01T10:00:00Z"


def subjects() -> tuple[list[str], list[int]]:
    """Invented one-line notes of a workshop on six subjects, each made of its own words and of words all share."""
    own = (
        "lathe chuck spindle bearing tailstock",
        "varnish brush resin lacquer shellac",
        "dovetail chisel mallet tenon plane",
        "circuit solder diode resistor flux",
        "kiln glaze clay slip bisque",
        "loom weft shuttle heddle yarn",
    )
    shared = "how do I fix the old worn new one without help".split()
    pick = random.Random(5)  # noqa: S311  # not for secrets
    rows = []
    for subject, words in enumerate(own * 40):
        text = [*pick.sample(words.split(), 3), *pick.sample(shared, 3)]
        pick.shuffle(text)
        rows.append((" ".join(text), subject % len(own)))
    return [text for text, _ in rows], [subject for _, subject in rows]


def test_texts_of_one_subject_come_together() -> None:
    texts, truth = subjects()
    assert adjusted_rand_score(truth, group_texts(texts, 6)) > 0.95


def test_the_number_of_groups_is_found() -> None:
    texts, truth = subjects()
    found = group_texts(texts)
    assert 5 <= len(set(found)) <= 8
    assert adjusted_rand_score(truth, found) > 0.8


def test_grouping_is_the_same_on_every_run() -> None:
    texts, _ = subjects()
    assert group_texts(texts[:80], 6) == group_texts(texts[:80], 6)


@given(st.lists(st.text(max_size=12), max_size=9), st.none() | st.integers(1, 4))
def test_any_texts_can_be_grouped(texts: list[str], wanted: int | None) -> None:
    labels = group_texts(texts, wanted)
    assert len(labels) == len(texts)
    assert list(dict.fromkeys(labels)) == list(range(len(set(labels))))
    assert len(set(labels)) <= min(wanted or len(texts), len(set(texts)))


def test_no_groups_cannot_be_made() -> None:
    with pytest.raises(ValueError, match="1 or more"):
        group_texts(["a"], 0)
