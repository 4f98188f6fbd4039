"""Replies given out: what a viewer wrote can be neither a formula, nor a tag, nor Markdown."""

import csv
import io
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from qa.errors import LevelspoonError
from qa.outside.exports import COLUMNS, FORMS, exported, safe_cell

REPLY = {
    "comment_id": "c1", "episode": "e1", "author": "ann", "text": "chia?", "status": "drafted", "reasons": [],
    "topic": "swap:chia", "reply": "Yes, 7 g.", "part": None, "note": "", "cautions": ["S01"], "sureness": 0.9,
}  # fmt: skip


def reply(**changes):
    return {**REPLY, **changes}


@given(st.text())
def test_no_text_is_a_formula(text):
    assert not safe_cell(text).startswith(("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠"))
    assert safe_cell(text).removeprefix("'") == text.removeprefix("'") or safe_cell(text) == f"'{text}"


@given(st.lists(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00")), max_size=5))
def test_csv_reads_back_row_for_row(texts):
    written = exported([reply(text=text, comment_id=str(i)) for i, text in enumerate(texts)], "csv", "t")
    rows = list(csv.reader(io.StringIO(written, newline="")))
    assert rows[0] == list(COLUMNS)
    assert [row[COLUMNS.index("text")] for row in rows[1:]] == [safe_cell(text) for text in texts]


def test_json_lines_hold_the_whole_contract_object():
    written = exported([reply(extra=1), reply(text="a\nb\u2028c")], "jsonl", "t")
    assert [json.loads(line) for line in written.split("\n")[:-1]] == [reply(extra=1), reply(text="a\nb\u2028c")]


def test_a_spreadsheet_holds_text_and_no_formula():
    from openpyxl import load_workbook

    content = exported([reply(text='=HYPERLINK("x")', author="\x07bell", reply="x" * 40_000)], "xlsx", "t")
    sheet = load_workbook(io.BytesIO(content)).active
    cells = {sheet.cell(1, i + 1).value: sheet.cell(2, i + 1) for i in range(len(COLUMNS))}
    assert cells["text"].data_type == "s"
    assert cells["text"].value == '\'=HYPERLINK("x")'
    assert cells["author"].value == " bell"
    assert len(cells["reply"].value) == 32_767


@pytest.mark.parametrize("form", ["html", "md"])
def test_pages_escape_what_viewers_wrote(form):
    nasty = '<script>alert(1)</script> <img onerror=x> [link](javascript:x) **bold** "quoted"'
    written = exported([reply(text=nasty, author=nasty, reply=nasty)], form, nasty)
    assert "<script>" not in written.replace("# <script>", "")
    assert "<img" not in written.removeprefix(f"# {nasty}")
    if form == "md":
        assert r"\[link\]" in written


def test_the_faq_names_topics_and_never_quotes_a_viewer():
    best, worse = reply(sureness=0.9), reply(sureness=0.8, reply="Perhaps.")
    page = json.loads(exported([worse, best, reply(topic="", reply="x"), reply(topic="t2", reply=None)], "faq", "Ours"))
    assert page["@type"] == "FAQPage"
    assert [(q["name"], q["acceptedAnswer"]["text"]) for q in page["mainEntity"]] == [("swap:chia", "Yes, 7 g.")]
    assert "chia?" not in json.dumps(page)


@pytest.mark.parametrize("form", sorted(FORMS))
def test_every_form_takes_no_replies_and_a_silent_one(form):
    assert exported([], form, "t") or form == "jsonl"
    assert exported([reply(status="needs_you", reasons=["health"], reply=None, author="")], form, "t")


def test_an_unknown_form_is_named_with_the_nearest():
    with pytest.raises(LevelspoonError, match="did you mean 'jsonl'"):
        exported([], "jsnl", "t")
