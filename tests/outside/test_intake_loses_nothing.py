"""Whatever table of comments is written in whatever shape: every row comes back, once, as it was or with a reason."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Callable
from pathlib import Path
from xml.sax.saxutils import escape

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl import Workbook

from qa.outside.intake import read_comments
from qa.outside.intake.values import plain
from qa.outside.store import Store
from qa.records import Comment, SetAside

Row = dict[str, str]
NAMES = ("id", "author", "time", "text")

# What XML 1.0 can carry (section 2.2), which is also what a spreadsheet can.
characters = st.characters(
    codec="utf-8", blacklist_categories=["Cs", "Cc"], blacklist_characters="\ufffe\uffff", whitelist_characters="\n\t"
)
plain_words = st.text(characters, max_size=60)
texts = st.one_of(
    plain_words,
    plain_words.map(lambda t: f'{t}, "{t}";\n{t}'),
    st.sampled_from(["=1+1", "<3 & more", "a;b;c", "'", '"', "|", "\\", "1", "2026-03-02", "{}", "[]", "null"]),
)
tables = st.lists(
    st.fixed_dictionaries(
        {
            "author": st.sampled_from(["ann", "bob", ""]),
            "time": st.sampled_from(["2026-03-02T10:00:00Z", ""]),
            "text": texts,
        }
    ),
    min_size=1,
    max_size=25,
).map(lambda rows: [{"id": f"c{n}", **row} for n, row in enumerate(rows)])


def delimited(delimiter: str, encoding: str) -> Callable[[list[Row]], bytes]:
    def write(rows: list[Row]) -> bytes:
        out = io.StringIO(newline="")
        writer = csv.DictWriter(out, NAMES, delimiter=delimiter)
        writer.writeheader()
        writer.writerows(rows)
        return out.getvalue().encode(encoding)

    return write


def as_lines(rows: list[Row]) -> bytes:
    return "\n".join(json.dumps(row, ensure_ascii=len(rows) % 2 == 0) for row in rows).encode()


def as_array(rows: list[Row]) -> bytes:
    return json.dumps(rows).encode()


def as_thread(rows: list[Row]) -> bytes:
    """Every row a reply to the one before, under a wrapper."""
    inner: list[object] = []
    for row in reversed(rows):
        inner = [{**row, "replies": inner}]
    return json.dumps({"export": {"comments": inner}}).encode()


def as_spreadsheet(rows: list[Row]) -> bytes:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Comments of the week (invented)"])
    sheet.append(NAMES)
    for number, row in enumerate(rows, 3):
        for column, name in enumerate(NAMES, 1):
            cell = sheet.cell(number, column, row[name] or None)
            cell.data_type = "s" if row[name] else "n"  # else a text that begins with = would become a formula
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def as_atom(rows: list[Row]) -> bytes:
    entries = "".join(
        f"<entry><id>{row['id']}</id><author><name>{row['author']}</name></author><published>{row['time']}</published>"
        f"<content type='text'>{escape(row['text'])}</content></entry>"
        for row in rows
    )
    return f"<feed xmlns='http://www.w3.org/2005/Atom'>{entries}</feed>".encode()


def as_activitystreams(rows: list[Row]) -> bytes:
    notes = [
        {"type": "Note", "id": r["id"], "attributedTo": r["author"], "published": r["time"], "content": r["text"]}
        for r in rows
    ]
    return json.dumps(
        {"@context": "https://www.w3.org/ns/activitystreams", "type": "Collection", "items": notes}
    ).encode()


def as_schema_org(rows: list[Row]) -> bytes:
    comments = [
        {
            "@type": "Comment",
            "@id": r["id"],
            "author": {"name": r["author"]},
            "dateCreated": r["time"],
            "text": r["text"],
        }
        for r in rows
    ]
    return json.dumps({"@context": "https://schema.org", "@graph": comments}).encode()


SHAPES: dict[str, tuple[str, Callable[[list[Row]], bytes]]] = {
    "comma": ("week.csv", delimited(",", "utf-8")),
    "semicolon, BOM": ("week.csv", delimited(";", "utf-8-sig")),
    "tab, UTF-16": ("week.tsv", delimited("\t", "utf-16")),
    "bar": ("week.txt", delimited("|", "utf-8")),
    "JSON Lines": ("week.jsonl", as_lines),
    "JSON array": ("week.json", as_array),
    "JSON thread": ("week.json", as_thread),
    "XLSX": ("week.xlsx", as_spreadsheet),
    "Atom": ("week.atom", as_atom),
    "ActivityStreams": ("week.json", as_activitystreams),
    "schema.org": ("week.jsonld", as_schema_org),
}


def squeezed(text: str) -> str:
    """Texts compared without blanks: XML and spreadsheets change line ends and edges."""
    return "".join(text.split())


@pytest.mark.parametrize("shape", SHAPES)
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60, deadline=None)
@given(rows=tables)
def test_every_row_comes_back(tmp_path: Path, shape: str, rows: list[Row]) -> None:
    name, write = SHAPES[shape]
    file = tmp_path / name
    file.write_bytes(write(rows))
    found = list(read_comments(file))
    assert len(found) == len(rows)
    for row, back in zip(rows, found, strict=True):
        if isinstance(back, SetAside):
            assert back.reason == "no text"
            assert not plain(row["text"]).strip()
        else:
            assert squeezed(back.text) == squeezed(plain(row["text"]))
            assert (back.id, back.author, back.time) == (row["id"], row["author"], row["time"])


@settings(max_examples=15, deadline=None)
@given(rows=tables)
def test_all_shapes_of_one_table_are_the_same_comments(
    tmp_path_factory: pytest.TempPathFactory, rows: list[Row]
) -> None:
    """Read from CSV first, every other shape of the same table adds nothing to the store."""
    rows = [{**row, "text": f"is it {squeezed(row['text'])}?"} for row in rows]
    folder = tmp_path_factory.mktemp("shapes")
    with Store.open("sqlite://") as store:
        for number, (name, write) in enumerate(SHAPES.values()):
            file = folder / f"{number}-{name}"
            file.write_bytes(write(rows))
            count = store.take_in(read_comments(file), file.name, "t", None)
            assert (count.rows_read, count.set_aside) == (len(rows), 0)
            assert count.stored == (len(rows) if number == 0 else 0)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.lists(st.text(st.sampled_from('ab ",;\n'), max_size=6), min_size=1, max_size=5), max_size=12))
def test_no_line_of_a_mangled_table_goes_missing(tmp_path: Path, rows: list[list[str]]) -> None:
    """Cells joined with no regard for quoting: every line with something in it is part of some row that comes out."""
    file = tmp_path / "week.csv"
    body = "\n".join(",".join(row) for row in rows)
    file.write_text(f"id,comment\n{body}\nlast,the end\n", newline="")
    found = list(read_comments(file))
    kept = "".join(row.text + row.id if isinstance(row, Comment) else row.content for row in found)
    assert kept.replace("made-", "").count("the end") == 1
    for line in body.split("\n"):
        for word in re.findall(r'[^\s",;]+', line):  # what parts cells is no word, whichever of the two it is
            assert word in kept
