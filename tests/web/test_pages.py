"""Hostile comments show as text on every page; pages stay light and need nothing from outside."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest

from qa.web.pages import STATIC

SCRIPTS = re.compile(r"<script>|<img|onerror=(?![^<]*&)", re.IGNORECASE)


class Seen(HTMLParser):
    """Every tag and attribute of a page."""

    def __init__(self, html):
        super().__init__()
        self.tags, self.attributes = [], []
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += [(tag, name, value or "") for name, value in attrs]


def walk(notebook):
    """Every page that shows a comment's words, its author or a note about it."""
    yield "comment", notebook.see("/comment", id="hostile")
    yield "teach", notebook.see("/teach", id="hostile")
    yield "differs", notebook.see("/differs", id="hostile")
    yield "add", notebook.see("/larder/add", comment="hostile")
    yield "topic", notebook.see("/topic", id="other:odd")
    yield "week", notebook.see("/")
    yield "tips", notebook.see("/larder", asked="<script>alert(1)</script>")
    notebook.act("/keep", notebook.form("hostile", text="</textarea><script>alert(1)</script> {{ 7193*11 }}"))
    yield "edited", notebook.see("/comment", id="hostile")
    yield "typed", notebook.act("/typed", notebook.form("hostile", text="<script>alert(1)</script> 3")).json()["margin"]
    yield "differs edited", notebook.see("/differs", id="hostile")
    notebook.act("/sign", notebook.form("hostile", text="</textarea><script>alert(1)</script>"))
    yield "signed", notebook.see("/signed")
    yield "fault", notebook.client.get("/comment", params={"id": "<script>alert(1)</script>"}).text


def test_hostile_words_are_text_everywhere(notebook):
    for name, html in walk(notebook):
        seen = Seen(html)
        assert seen.tags.count("script") <= 1, name
        assert "img" not in seen.tags, name
        assert not [a for a in seen.attributes if a[1].startswith("on") or a[1] == "style"], name
        assert "79123" not in re.sub(r"<[^>]*>|,", "", html), name
        assert "\u202e" not in html, name


def test_a_megabyte_weighs_no_more_than_a_page_may(notebook):
    key = "a/long?id=<b>&x"
    for path in ("/comment", "/larder/add", "/differs"):
        assert len(notebook.see(path, id=key, comment=key).encode()) < 100_000, path
    assert len(notebook.see("/topic", id="other:odd").encode()) < 100_000
    whole = notebook.client.get("/words", params={"id": key})
    assert whole.headers["content-type"].startswith("text/plain")
    assert len(whole.text) == 1_200_000


@pytest.mark.parametrize(
    "path",
    [
        "/",
        "/comment",
        "/topic",
        "/larder",
        "/larder/answers",
        "/larder/answers?to=swap",
        "/larder/cautions",
        "/larder/sources",
        "/sums",
        "/kitchen",
    ],
)
def test_a_page_weighs_under_a_hundred_kilobytes(notebook, monkeypatch, path):
    monkeypatch.setattr(type(notebook.bench), "next", lambda _bench, _most=5: [])
    assert len(notebook.see(path).encode()) < 100_000


def test_nothing_comes_from_outside(notebook):
    for name, html in walk(notebook):
        links = [
            value
            for _, attribute, value in Seen(html).attributes
            if attribute in {"href", "src", "action", "formaction"}
        ]
        assert [link for link in links if not link.startswith(("/", "#")) or link.startswith("//")] == [], name
    for file in STATIC.iterdir():
        text = file.read_text().replace("http://www.w3.org/2000/svg", "")
        assert "http" not in text, file.name


def test_ids_of_any_characters_lead_back_to_their_comment(notebook):
    page = notebook.see("/topic", id="other:odd")
    link = re.search(r'href="(/comment\?id=a%2Flong[^"]*)"', page)
    assert link
    assert notebook.client.get(link[1]).status_code == 200


def test_an_unknown_comment_is_told_plainly(notebook):
    answer = notebook.client.get("/comment", params={"id": "nobody"})
    assert answer.status_code == 400
    assert "That did not work" in answer.text
    assert notebook.client.get("/nowhere").status_code == 404


def test_every_figure_leads_to_its_line(notebook):
    page = notebook.see("/comment", id="flax-3")
    link = re.search(r'class="place" href="(/larder/file\?path=[^"#]*)#L(\d+)"', page)
    assert link
    assert f'id="L{link[2]}"' in notebook.client.get(link[1]).text


def test_what_is_owed_names_the_comments(notebook, monkeypatch):
    owed = {
        "answerable": ({"what": "now answered by weigh-any", "comments": ("flax-3", "gone")},),
        "corrections": (),
        "conflicts": ({"what": f"seed-eggs: “{'<b>eggs</b>'}”", "comments": ("hostile",)},),
    }
    monkeypatch.setattr(type(notebook.bench), "owed", lambda _bench: owed)
    page = notebook.see("/owed")
    assert "Now answered by weigh-any" in page
    assert "how many grams is 3 tbsp ground flax??" in page
    assert "No signed reply leans on anything that changed." in page
    assert "<b>eggs" not in page
