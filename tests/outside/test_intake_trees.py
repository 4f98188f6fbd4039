"""JSON of any shape, and the shapes of open standards: Atom with threads, ActivityStreams 2.0, schema.org Comment."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from qa.errors import UnreadableInput
from qa.outside.intake import look, read_comments
from qa.records import Comment, SetAside

Thread = list[tuple[str, str, str]]


def rows_of(folder: Path, content: Any, name: str = "week.json", **mapping: str) -> list[Comment | SetAside]:
    file = folder / name
    file.write_text(content if isinstance(content, str) else json.dumps(content, ensure_ascii=False), encoding="utf-8")
    return list(read_comments(file, mapping or None))


def thread(folder: Path, content: Any, name: str = "week.json", **mapping: str) -> Thread:
    """Text, author and the text replied to of every comment; a set-aside row by its reason."""
    rows = rows_of(folder, content, name, **mapping)
    said = {row.id: row.text for row in rows if isinstance(row, Comment)}
    return [
        (row.text, row.author, said.get(row.parent, row.parent))
        if isinstance(row, Comment)
        else (f"({row.reason})", "", "")
        for row in rows
    ]


# One small conversation: Ann asks, Bob answers, Cat answers Bob; Dan says thanks.
CONVERSATION = [("Chia?", "ann", ""), ("Yes", "bob", "Chia?"), ("Why?", "cat", "Yes"), ("Thanks", "dan", "")]

SHAPES: dict[str, Any] = {
    "flat, with parents by id": [
        {"id": 1, "text": "Chia?", "author": "ann", "parent_id": None},
        {"id": 2, "text": "Yes", "author": "bob", "parent_id": 1},
        {"id": 3, "text": "Why?", "author": "cat", "parent_id": 2},
        {"id": 4, "text": "Thanks", "author": "dan", "parent_id": 0},
    ],
    "replies inside, without ids": [
        {"body": "Chia?", "user": "ann", "replies": [
            {"body": "Yes", "user": "bob", "replies": [{"body": "Why?", "user": "cat"}]}]},
        {"body": "Thanks", "user": "dan", "replies": []},
    ],
    "authors as objects, under wrappers": {
        "meta": {"exported": "2026-03-02", "tool": {"name": "kitchen exporter", "version": 3}},
        "data": {"comments": [
            {"id": "a", "message": "Chia?", "from": {"id": "u1", "name": "ann", "badges": [{"name": "early bird"}]},
             "children": {"data": [
                 {"id": "b", "message": "Yes", "from": {"id": "u2", "name": "bob"},
                  "children": {"data": [{"id": "c", "message": "Why?", "from": {"id": "u3", "name": "cat"}}]}}]}},
            {"id": "d", "message": "Thanks", "from": {"id": "u4", "name": "dan"}, "children": {"data": []}}]},
    },
    "edges and nodes": {"comments": {"edges": [
        {"node": {"id": "a", "content": "Chia?", "author": {"login": "ann"}, "replies": {"edges": [
            {"node": {"id": "b", "content": "Yes", "author": {"login": "bob"}, "replies": {"edges": [
                {"node": {"id": "c", "content": "Why?", "author": {"login": "cat"}}}]}}}]}}},
        {"node": {"id": "d", "content": "Thanks", "author": {"login": "dan"}, "replies": {"edges": []}}},
    ]}},
    "comments by key": {
        "x1": {"text": "Chia?", "author": "ann", "replies": {
            "x2": {"text": "Yes", "author": "bob", "replies": {"x3": {"text": "Why?", "author": "cat"}}}}},
        "x4": {"text": "Thanks", "author": "dan"},
    },
    "each comment in its own envelope": [
        {"thread": {"top": {"details": {"text": "Chia?", "authorName": "ann"}}}, "replies": [
            {"thread": {"top": {"details": {"text": "Yes", "authorName": "bob"}}}, "replies": [
                {"thread": {"top": {"details": {"text": "Why?", "authorName": "cat"}}}}]}]},
        {"thread": {"top": {"details": {"text": "Thanks", "authorName": "dan"}}}},
    ],
    "texts in runs": [
        {"contentText": {"runs": [{"text": "Ch"}, {"text": "ia?"}]}, "authorText": {"simpleText": "ann"}, "answers": [
            {"contentText": {"runs": [{"text": "Yes"}]}, "authorText": {"simpleText": "bob"}, "answers": [
                {"contentText": {"runs": [{"text": "Why?"}]}, "authorText": {"simpleText": "cat"}}]}]},
        {"contentText": {"runs": [{"text": "Thanks"}]}, "authorText": {"simpleText": "dan"}},
    ],
    "German keys": {"beitraege": [
        {"kommentar": "Chia?", "benutzer": "ann", "antworten": [
            {"kommentar": "Yes", "benutzer": "bob", "antworten": [{"kommentar": "Why?", "benutzer": "cat"}]}]},
        {"kommentar": "Thanks", "benutzer": "dan"},
    ]},
}  # fmt: skip


@pytest.mark.parametrize("shape", SHAPES)
def test_a_conversation_is_found_in_any_shape(tmp_path: Path, shape: str) -> None:
    assert thread(tmp_path, SHAPES[shape]) == CONVERSATION


@pytest.mark.parametrize("shape", ["flat, with parents by id", "replies inside, without ids", "texts in runs"])
def test_the_same_shapes_are_found_line_by_line(tmp_path: Path, shape: str) -> None:
    lines = "\n".join(json.dumps(element) for element in SHAPES[shape])
    assert thread(tmp_path, lines, "week.jsonl") == CONVERSATION
    assert look(tmp_path / "week.jsonl").shape.startswith("JSON Lines")


def test_the_upload_around_the_comments_is_no_comment_but_names_the_episode(tmp_path: Path) -> None:
    content = {
        "uploads": [
            {
                "slug": "seed-eggs",
                "title": "Three seed eggs, one muffin tin",
                "description": "In this upload we bake muffins with three seeds.",
                "author": "Quillberry Test Kitchen",
                "published": "2026-03-01",
                "comments": [{"text": "Chia?", "author": "ann"}, {"text": "Thanks", "author": "dan"}],
            },
            {"slug": "white-loaf", "title": "Starch or flour?", "comments": [{"text": "Flax?", "author": "bob"}]},
            {"slug": "green-cookies", "title": "Green cookies", "comments": []},
        ]
    }
    rows = rows_of(tmp_path, content)
    assert [(r.text, r.episode) for r in rows if isinstance(r, Comment)] == [
        ("Chia?", "seed-eggs"),
        ("Thanks", "seed-eggs"),
        ("Flax?", "white-loaf"),
    ]
    assert len(rows) == 3


def test_times_likes_and_ids_are_found_by_looking(tmp_path: Path) -> None:
    content = {"items": [
        {"key": "k1", "entry": {"textDisplay": "1 &lt; 2<br>ok", "textOriginal": "1 < 2\nok",
                                "authorDisplayName": "ann", "authorImageUrl": "https://pictures.example/a.png",
                                "likeCount": 7, "replyCount": 4,
                                "createdAt": 1772445600, "updatedAt": 1772445999, "language": "en"}}
    ]}  # fmt: skip
    (row,) = rows_of(tmp_path, content)
    assert isinstance(row, Comment)
    assert (row.id, row.text, row.author, row.likes, row.time) == (
        "k1", "1 < 2\nok", "ann", 7, "2026-03-02T10:00:00+00:00",
    )  # fmt: skip


def test_an_owners_single_answer_is_a_reply(tmp_path: Path) -> None:
    content = [{"comment": "Chia?", "author": "ann", "owner_reply": {"text": "Yes", "author": "kitchen"}}]
    assert thread(tmp_path, content) == [("Chia?", "ann", ""), ("Yes", "kitchen", "Chia?")]


def test_what_is_no_comment_in_a_list_of_comments_is_set_aside(tmp_path: Path) -> None:
    content = [
        {"text": "Chia?", "author": "ann"},
        {"text": None, "author": "bob"},
        "stray",
        5,
        None,
        {"author": "cat"},
        {"text": " "},
    ]
    rows = rows_of(tmp_path, content)
    assert [row.reason for row in rows if isinstance(row, SetAside)] == [
        "no text", "not an object", "not an object", "not an object", "no text", "no text",
    ]  # fmt: skip
    assert [row.place.line for row in rows] == [1, 2, 3, 4, 5, 6, 7]


def test_broken_lines_are_set_aside_and_reading_goes_on(tmp_path: Path) -> None:
    content = '{"text": "Chia?"}\n{"text": "cut\n\n[]\n{"text": "Thanks"}\n' + "[" * 100_000 + "\n"
    rows = rows_of(tmp_path, content, "week.jsonl")
    assert [type(row).__name__ for row in rows] == ["Comment", "SetAside", "Comment", "SetAside"]
    assert isinstance(rows[1], SetAside)
    assert rows[1].reason.startswith("a line that is no JSON")


def test_a_list_of_plain_texts_is_read(tmp_path: Path) -> None:
    assert thread(tmp_path, ["Chia?", "Thanks"]) == [("Chia?", "", ""), ("Thanks", "", "")]
    assert thread(tmp_path, {"comments": ["Chia?", "Thanks"]}) == [("Chia?", "", ""), ("Thanks", "", "")]


def test_replies_first_met_after_the_sample_are_not_lost(tmp_path: Path) -> None:
    content: list[Any] = [{"text": f"text {n}", "author": "ann"} for n in range(700)]
    content[650]["replies"] = [{"text": "late reply", "author": "bob"}]
    content[660]["antworten"] = [{"kommentar": "späte Antwort", "benutzer": "cat"}]
    found = thread(tmp_path, content)
    assert len(found) == 702
    assert ("late reply", "bob", "text 650") in found
    assert ("späte Antwort", "cat", "text 660") in found


def test_map_takes_dotted_keys(tmp_path: Path) -> None:
    content = {"list": [{"x": {"y": "Chia? or what else do you use"}, "z": {"w": "ann"}, "text": "not this"}]}
    rows = rows_of(tmp_path, content, text="x.y", author="z.w")
    assert [(r.text, r.author) for r in rows if isinstance(r, Comment)] == [("Chia? or what else do you use", "ann")]
    with pytest.raises(UnreadableInput, match=r"no key 'x\.q' for text; there are: text, x\.y, z\.w"):
        rows_of(tmp_path, content, text="x.q")


def test_keys_that_cannot_be_told_are_listed(tmp_path: Path) -> None:
    with pytest.raises(UnreadableInput, match=r"name it with --map text=COLUMN; columns: temperature, pan"):
        rows_of(tmp_path, [{"temperature": 180, "pan": 2}])


def test_an_array_too_large_to_load_whole_is_streamed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("qa.outside.intake.json_files.LARGEST_WHOLE", 1_000_000)
    content = [{"id": n, "text": f"Can I use chia? {n} " + "x" * 300, "likes": n} for n in range(9_000)]
    rows = rows_of(tmp_path, json.dumps(content, indent=1))
    assert [row.id for row in rows if isinstance(row, Comment)] == [str(n) for n in range(9_000)]


def test_an_object_too_large_to_load_whole_is_one_clear_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("qa.outside.intake.json_files.LARGEST_WHOLE", 1_000)
    with pytest.raises(
        UnreadableInput, match=r"too large to load at once .*export it as JSON Lines or CSV, or in parts"
    ):
        rows_of(tmp_path, {"comments": [{"text": "x" * 2_000}]})


# Open standards

ATOM = """<?xml version="1.0" encoding="utf-8"?>
<feed xmlns="http://www.w3.org/2005/Atom" xmlns:thr="http://purl.org/syndication/thread/1.0"
  xmlns:q="urn:example:quillberry">
  <id>tag:quillberry.example,2026:seed-eggs</id><title>Comments (invented)</title>
  <updated>2026-03-02T12:00:00Z</updated>
  <entry>
    <id>tag:quillberry.example,2026:1</id><title>Comment</title><author><name>ann</name></author>
    <published>2026-03-02T10:00:00Z</published><updated>2026-03-02T11:00:00Z</updated>
    <content type="html">&lt;p&gt;Chia &amp;amp; flax?&lt;/p&gt;&lt;p&gt;2 &amp;lt; 3&lt;/p&gt;</content>
  </entry>
  <entry>
    <id>tag:quillberry.example,2026:2</id><title>Re</title><author><name>bob</name></author>
    <thr:in-reply-to ref="tag:quillberry.example,2026:1" type="application/xhtml+xml"/>
    <updated>2026-03-02T11:00:00Z</updated><q:likes>7</q:likes>
    <content type="xhtml"><div xmlns="http://www.w3.org/1999/xhtml">Yes<br/>by <b>weight</b>: 1 &lt; 2</div></content>
  </entry>
  <entry/>
  <entry><id>tag:quillberry.example,2026:3</id><author><name>cat</name></author><updated>2026-03-02T11:00:00Z</updated></entry>
</feed>"""


def test_atom_with_threads_is_read(tmp_path: Path) -> None:
    """RFC 4287 sections 3.1.1 and 4.1.3 (text, HTML and XHTML content), RFC 4685 section 3 (thr:in-reply-to)."""
    first, second, empty, last = rows_of(tmp_path, ATOM, "comments.xml")
    assert isinstance(first, Comment)
    assert isinstance(second, Comment)
    assert (first.text, first.author, first.time) == ("Chia & flax?\n2 < 3", "ann", "2026-03-02T10:00:00Z")
    assert (second.text, second.parent, second.time) == ("Yes\nby weight: 1 < 2", first.id, "2026-03-02T11:00:00Z")
    assert (second.likes, second.episode) == (7, "seed-eggs")
    assert isinstance(empty, SetAside)
    assert isinstance(last, SetAside)
    assert last.reason == "no text"


def test_deeply_nested_xhtml_is_read(tmp_path: Path) -> None:
    div = '<div xmlns="http://www.w3.org/1999/xhtml">'
    content = f'<content type="xhtml">{div * 20_000}Chia?{"</div>" * 20_000}</content>'
    (row,) = rows_of(tmp_path, f'<feed xmlns="http://www.w3.org/2005/Atom"><entry>{content}</entry></feed>', "f.xml")
    assert isinstance(row, Comment)
    assert row.text == "Chia?"


def test_activitystreams_is_read(tmp_path: Path) -> None:
    """Activity Streams 2.0 (W3C, 2017): collections, pages; Activity Vocabulary: Note, inReplyTo, replies."""
    content = {
        "@context": "https://www.w3.org/ns/activitystreams",
        "type": "OrderedCollection",
        "totalItems": 5,
        "orderedItems": [
            {"type": "Note", "id": "https://q.example/1", "attributedTo": "https://q.example/ann",
             "content": "<p>Chia &amp; flax?</p>", "published": "2026-03-02T10:00:00Z",
             "replies": {"type": "Collection", "first": {"type": "CollectionPage", "items": [
                 {"type": "Note", "content": "Yes", "attributedTo": {"type": "Person", "name": "bob"}}]}}},
            {"type": "Create", "actor": "https://q.example/cat", "published": "2026-03-02T11:00:00Z",
             "object": {"type": "Note", "id": "https://q.example/3", "inReplyTo": {"id": "https://q.example/1"},
                        "contentMap": {"en": "Why?"}, "likes": {"type": "Collection", "totalItems": 4}}},
            {"type": "Like", "actor": "https://q.example/dan", "object": "https://q.example/1"},
            "https://q.example/5",
        ],
    }  # fmt: skip
    rows = rows_of(tmp_path, content, "outbox.json")
    assert [(r.text, r.author, r.parent, r.likes) if isinstance(r, Comment) else r.reason for r in rows] == [
        ("Chia & flax?", "https://q.example/ann", "", 0),
        ("Yes", "bob", "https://q.example/1", 0),
        ("Why?", "https://q.example/cat", "https://q.example/1", 4),
        "Like: holds no comment",
        "only a link to an object",
    ]


SCHEMA_ORG = {
    "under an article": {
        "@context": "https://schema.org",
        "@type": "Article",
        "@id": "https://q.example/seed-eggs",
        "headline": "Three seed eggs",
        "articleBody": "Today we bake.",
        "author": {"@type": "Person", "name": "Quillberry"},
        "comment": [
            {"@type": "Comment", "@id": "#1", "text": "Chia?", "author": {"@type": "Person", "name": "ann"},
             "dateCreated": "2026-03-02T10:00:00Z", "upvoteCount": 3,
             "comment": {"@type": "Comment", "text": "Yes", "author": {"@type": "Person", "name": "bob"}}},
        ],
    },
    "in a graph": {
        "@context": {"schema": "https://schema.org/"},
        "@graph": [
            {"@type": "schema:WebPage", "schema:name": "page"},
            {"@type": "schema:Comment", "@id": "#1", "schema:text": {"@value": "Chia?", "@language": "en"},
             "schema:author": {"schema:name": "ann"}, "schema:dateCreated": "2026-03-02T10:00:00Z",
             "schema:upvoteCount": {"@value": 3}, "schema:about": {"@id": "https://q.example/seed-eggs"}},
            {"@type": ["schema:Comment"], "schema:parentItem": {"@id": "#1"}, "schema:text": "Yes",
             "schema:author": "bob", "schema:about": {"@id": "https://q.example/seed-eggs"}},
        ],
    },
}  # fmt: skip


@pytest.mark.parametrize("shape", SCHEMA_ORG)
def test_schema_org_comments_are_read(tmp_path: Path, shape: str) -> None:
    """schema.org/Comment: text, author, dateCreated, upvoteCount, parentItem; schema.org/comment of a CreativeWork."""
    rows = rows_of(tmp_path, SCHEMA_ORG[shape], "page.jsonld")
    assert [(r.text, r.author, r.time, r.likes, r.parent, r.episode) for r in rows if isinstance(r, Comment)] == [
        ("Chia?", "ann", "2026-03-02T10:00:00Z", 3, "", "https://q.example/seed-eggs"),
        ("Yes", "bob", "", 0, "#1", "https://q.example/seed-eggs"),
    ]
