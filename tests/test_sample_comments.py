"""The invented comments are readable with the standard library alone, and their labels are sound."""

from __future__ import annotations

import csv
import html
import json
import re
from collections import Counter
from datetime import datetime
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET  # our own file, not a stranger's

import pytest

from qa.knowledge.load import load_knowledge
from qa.records import ASK_TYPES, KINDS, REASONS, STATUSES

SAMPLES = Path(__file__).parent.parent / "sample_comments"
LABELLED = sorted((SAMPLES / "labelled").glob("*.jsonl"))
ATOM = "{http://www.w3.org/2005/Atom}"
THREAD = "{http://purl.org/syndication/thread/1.0}"  # RFC 4685, section 2

# Real ingredients that the starter knowledge has no figures for; viewers ask about them all the same.
UNMEASURED = frozenset(
    {
        "acorn",
        "baobab",
        "breadfruit",
        "cricket",
        "cushuro",
        "lucuma",
        "mesquite",
        "moringa",
        "tigernut",
        "wattleseed",
    }
)

Row = tuple[str, str, str, str]  # id, text, parent, time


def _csv_rows() -> list[Row]:
    with (SAMPLES / "seed-eggs.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert {row["data"] for row in rows} == {"invented"}
    return [(r["comment_id"], r["comment"], r["reply_to"], r["posted"]) for r in rows]


def _tree_rows(comments: list[dict[str, Any]], parent: str = "") -> list[Row]:
    found: list[Row] = []
    for c in comments:
        text = html.unescape(c["body"].replace("<br>", "\n"))
        found.append((c["id"], text, parent, c["posted"]))
        found += _tree_rows(c["replies"], c["id"])
    return found


def _json_rows() -> list[Row]:
    document = json.loads((SAMPLES / "white-loaf.json").read_text(encoding="utf-8"))
    assert "Invented" in document["about"]["notice"]
    return _tree_rows(document["threads"])


def _atom_rows() -> list[Row]:
    feed = ET.parse(SAMPLES / "green-cookies.xml").getroot()  # noqa: S314
    assert "invented" in (feed.findtext(f"{ATOM}subtitle") or "")
    rows = []
    for entry in feed.iter(f"{ATOM}entry"):
        reply = entry.find(f"{THREAD}in-reply-to")
        parent = "" if reply is None else reply.attrib["ref"]
        id_, text, time = (entry.findtext(f"{ATOM}{tag}") or "" for tag in ("id", "content", "updated"))
        rows.append((id_, text, parent, time))
    return rows


def _exports() -> list[Row]:
    return _csv_rows() + _json_rows() + _atom_rows()


def _labels(file: Path) -> list[dict[str, Any]]:
    return [json.loads(line) for line in file.read_text(encoding="utf-8").splitlines()]


def _all_labels() -> list[dict[str, Any]]:
    return [label for file in LABELLED for label in _labels(file)]


def _bare(text: str) -> str:
    return re.sub(r"[\W_]+", " ", text.casefold()).strip() or text


def test_every_export_is_labelled_with_the_text_it_holds() -> None:
    """All comments of the three exports are in demo.jsonl, text, parent and all."""
    exports = _exports()
    texts = {id_: text for id_, text, _, _ in exports}
    assert len(texts) == len(exports) >= 430
    labels = {label["id"]: label for label in _labels(SAMPLES / "labelled" / "demo.jsonl")}
    assert {id_: label["text"] for id_, label in labels.items()} == texts
    assert {i: texts.get(parent, "") for i, _, parent, _ in exports} == {
        i: label.get("parent_text", "") for i, label in labels.items()
    }


def test_replies_come_after_what_they_reply_to() -> None:
    """Parents exist, lie in the same export and are older."""
    for rows in (_csv_rows(), _json_rows(), _atom_rows()):
        times = {id_: datetime.fromisoformat(time) for id_, _, _, time in rows}
        late = [(id_, parent) for id_, _, parent, _ in rows if parent and times[id_] <= times[parent]]
        assert late == []
        assert any(parent for _, _, parent, _ in rows)


def test_comments_spread_over_five_weeks_and_more() -> None:
    """From the first upload in March to well into April."""
    times = [datetime.fromisoformat(time).replace(tzinfo=None) for *_, time in _exports()]
    assert min(times) >= datetime(2026, 3, 5)
    assert (max(times) - min(times)).days >= 35


@pytest.mark.parametrize("file", LABELLED, ids=lambda f: f.stem)
def test_labels_use_the_words_of_the_records(file: Path) -> None:
    """Kinds, ask types, status and reasons are the contract's, and each status has its reason."""
    for label in _labels(file):
        where = f"{file.name}: {label['id']}"
        assert set(label["kinds"]) <= set(KINDS), where
        assert label["kinds"], where
        assert {ask["type"] for ask in label["asks"]} <= set(ASK_TYPES), where
        assert label["status"] in STATUSES, where
        assert set(label["reasons"]) <= set(REASONS), where
        assert bool(label["reasons"]) == (label["status"] != "drafted"), where
        assert bool(label["asks"]) == (label["status"] != "no_reply"), where
        assert re.fullmatch(r"[a-z]{2,3}", label["language"]), where


@pytest.mark.parametrize("file", LABELLED, ids=lambda f: f.stem)
def test_mentions_stand_where_they_say(file: Path) -> None:
    """Offsets hold their text, in document order, and ids are well formed."""
    for label in _labels(file):
        end = 0
        for m in label["mentions"]:
            assert label["text"][m["start"] : m["end"]] == m["text"], label["id"]
            assert end <= m["start"] < m["end"], label["id"]
            assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", m["ingredient"]), label["id"]
            assert re.fullmatch(r"([a-z0-9]+(-[a-z0-9]+)*)?", m["form"]), label["id"]
            end = m["end"]


@pytest.fixture(scope="module")
def forms() -> dict[str, set[str]]:
    """Ids of the forms of every ingredient that the starter knowledge holds."""
    library, _ = load_knowledge(SAMPLES.parent / "knowledge", invented=True)
    return {one.id: {form.id for form in one.forms} for one in library.knowledge.ingredients}


@pytest.mark.parametrize("file", LABELLED, ids=lambda f: f.stem)
def test_ingredients_are_those_of_the_knowledge_or_known_to_be_unmeasured(
    file: Path, forms: dict[str, set[str]]
) -> None:
    """Ids and forms of mentions and asks are in knowledge/ingredients/, but for the few that nobody has measured."""
    for label in _labels(file):
        asked = {one for ask in label["asks"] for one in ask["ingredients"]}
        assert asked <= forms.keys() | UNMEASURED, label["id"]
        for m in label["mentions"]:
            assert m["ingredient"] in forms.keys() | UNMEASURED, (label["id"], m)
            assert m["ingredient"] in UNMEASURED or m["form"] in {"", *forms[m["ingredient"]]}, (label["id"], m)


def test_what_nobody_measured_goes_to_a_person() -> None:
    """An ask about an unmeasured ingredient is needs_you."""
    asks = [x for x in _all_labels() if {i for ask in x["asks"] for i in ask["ingredients"]} & UNMEASURED]
    assert len(asks) >= 20
    assert [x["id"] for x in asks if x["status"] != "needs_you"] == []


def test_whoever_asks_about_health_or_allergy_gets_a_person() -> None:
    """Every ask of these types is needs_you, for health unless it is in a language without templates."""
    asks = [x for x in _all_labels() if {"health", "allergy"} & {ask["type"] for ask in x["asks"]}]
    assert len(asks) >= 80
    assert [x["id"] for x in asks if x["status"] != "needs_you" or "health" not in x["reasons"]] == []


def test_a_failure_with_too_little_to_go_on_is_asked_back_for_detail() -> None:
    """went_wrong and colour, asked back, have the reason missing_detail; no other ask has it alone."""
    back = [x for x in _all_labels() if x["status"] == "ask_back"]
    failures = [x for x in back if {"went_wrong", "colour"} & {ask["type"] for ask in x["asks"]}]
    assert {x["id"] for x in back if "missing_detail" in x["reasons"]} == {x["id"] for x in failures}
    assert {reason for x in failures for reason in x["reasons"]} == {"missing_detail"}


def test_questions_ask_and_asks_are_questions() -> None:
    """All but questions to other viewers have an ask; all asks but reported contradictions stand in a question."""
    labels = _all_labels()
    silent = [x for x in labels if "question" in x["kinds"] and not x["asks"]]
    told = [x for x in labels if "question" not in x["kinds"] and x["asks"]]
    assert all(x["parent_text"] for x in silent)
    assert {tuple(x["reasons"]) for x in told} == {("recipe_conflict",)}


def test_ids_are_unique() -> None:
    """No id stands twice, in one file or across files."""
    assert [i for i, n in Counter(label["id"] for label in _all_labels()).items() if n > 1] == []


def test_no_two_comments_are_alike_but_spam_and_single_words() -> None:
    """Letters and digits alone tell all comments apart; spam repeats itself on purpose, and anybody may say "first"."""
    counts = Counter(_bare(label["text"]) for label in _all_labels() if "spam" not in label["kinds"])
    assert [text for text, n in counts.items() if n > 1 and len(text.split()) > 2] == []


def test_there_are_many_voices_and_natural_proportions() -> None:
    """Forty voices and more; questions are a good third, and about one in five asks several things."""
    labels = _labels(SAMPLES / "labelled" / "demo.jsonl")
    questions = [label for label in labels if "question" in label["kinds"]]
    assert len({label["voice"] for label in labels}) >= 40
    assert 0.35 <= len(questions) / len(labels) <= 0.40
    assert 0.15 <= sum(len(q["asks"]) > 1 for q in questions) / len(questions) <= 0.25
    assert {label["language"] for label in labels} >= {"en", "de", "es", "fr", "pt", "nl", "hi", "ja"}
    assert {kind for label in labels for kind in label["kinds"]} == set(KINDS)
    assert {label["status"] for label in labels} == set(STATUSES)


def test_the_shapes_that_people_write_in_are_there() -> None:
    """voices-d: fifty voices and more, a third questions; long reviews, replies, languages, damage, time marks."""
    labels = _labels(SAMPLES / "labelled" / "voices-d.jsonl")
    texts = [x["text"] for x in labels]
    assert len(labels) >= 700
    assert len({x["voice"] for x in labels}) >= 50
    assert 0.25 <= sum("question" in x["kinds"] for x in labels) / len(labels) <= 0.35
    assert sum(80 <= len(text.split()) <= 250 for text in texts) >= 30
    assert sum(x["language"] != "en" for x in labels) >= 60
    assert sum(bool(x.get("parent_text")) for x in labels) >= 30
    for sign, least in {r"\n\n": 3, r"^\d+:\d\d": 10, r"[a-z][A-Z]": 5, r"Ã|â€|Â": 5, r"&\w+;": 4, r"^@": 8}.items():
        assert sum(bool(re.search(sign, text)) for text in texts) >= least, sign


@pytest.mark.parametrize(
    ("episode", "words"),
    [("seed-eggs", ("flax", "two", "three")), ("white-loaf", ("200", "220"))],
)
def test_several_viewers_notice_the_same_disagreement(episode: str, words: tuple[str, ...]) -> None:
    """Video and written recipe disagree, and at least four voices say so."""
    labels = _labels(SAMPLES / "labelled" / "demo.jsonl")
    found = [x for x in labels if x["episode"] == episode and "recipe_conflict" in x["reasons"]]
    assert len({x["voice"] for x in found}) >= 4
    assert any(all(word in x["text"] for word in words) for x in found)


def test_more_and_more_viewers_ask_about_tigernut() -> None:
    """An ingredient nobody has measured, asked about by several, more often towards the end."""
    tigernut = {x["id"] for x in _all_labels() if any(m["ingredient"] == "tigernut" for m in x["mentions"])}
    times = sorted(datetime.fromisoformat(t).replace(tzinfo=None) for i, _, _, t in _exports() if i in tigernut)
    assert len(times) >= 9
    middle = datetime(2026, 3, 27)
    early = sum(time < middle for time in times)
    assert len(times) - early > 2 * early


def test_answers_that_would_be_signed_are_there() -> None:
    """An id that is gone would teach nothing, without a word."""
    known = {path.stem for path in (SAMPLES.parent / "knowledge" / "answers").glob("*.md")}
    named = {
        (label["id"], one)
        for file in LABELLED
        for label in _labels(file)
        for ask in label["asks"]
        for one in ask.get("answers", [])
    }
    assert len(named) > 1000
    assert not {pair for pair in named if pair[1] not in known}
