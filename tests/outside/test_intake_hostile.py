"""Hostile and hopeless files: one clear line each, quickly, and never a traceback of another kind."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from qa.errors import UnreadableInput
from qa.outside.intake import look, read_comments
from qa.outside.intake.values import plain
from qa.records import Comment, SetAside


def zipped(parts: dict[str, bytes]) -> bytes:
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return buffer.getvalue()


BOMB = b"""<?xml version="1.0"?><!DOCTYPE f [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">
<!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;">]><feed xmlns="http://www.w3.org/2005/Atom"><entry><id>&c;</id></entry></feed>"""
OUTSIDE = b"""<?xml version="1.0"?><!DOCTYPE f [<!ENTITY a SYSTEM "file:///etc/passwd">]>
<feed xmlns="http://www.w3.org/2005/Atom"><entry><id>1</id><content>&a;</content></entry></feed>"""
WORKBOOK = b'<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheets/></workbook>'

HOPELESS = {
    "empty.csv": (b"", "is empty; export the comments again"),
    "blank.csv": (b"\n\n  \n", "holds nothing but blanks"),
    "bom.csv": (b"\xef\xbb\xbf", "holds nothing but blanks"),
    "binary.csv": (bytes(range(256)) * 40, "binary data, not a comment export"),
    "zeros.csv": (b"\x00" * 5_000, "binary data"),
    "picture.csv": (b"\x89PNG\r\n\x1a\n" + bytes(100), "a picture, not a comment export"),
    "paper.json": (b"%PDF-1.7 ...", "a PDF, not a comment export"),
    "old.xls": (
        b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(100),
        r"an old Excel workbook.*; save it as \.xlsx or \.csv",
    ),
    "packed.gz": (b"\x1f\x8b\x08" + bytes(20), r"a gzip archive.*; unpack it first"),
    "prose.txt": (b"Dear all,\nthe muffins were good.\nBye\n", "an unknown kind of file; CSV, TSV, XLSX, JSON"),
    "program.py": (b"import os\n\n\ndef bake():\n    return os\n", "an unknown kind of file"),
    "page.html": (b"<!DOCTYPE html><html><body>hi</body></html>", "a web page, not a comment export"),
    "other.xml": (b"<?xml version='1.0'?><notes><note>hi</note></notes>", "XML or HTML that is not an Atom feed"),
    "cut.xml": (b"<feed xmlns='http://www.w3.org/2005/Atom'><entry><id>1</id>", "broken XML"),
    "bomb.xml": (BOMB, "document type or entities of its own"),
    "outside.xml": (OUTSIDE, "document type or entities of its own"),
    "cut.json": (b'{"comments": [{"text": "Chia', "broken JSON"),
    "words.json": (b"hello there", "is named .json but does not begin like JSON"),
    "deep.json": (b"[" * 200_000, "nested too deeply"),
    "deeper.json": (b'{"a":' * 200_000 + b"1" + b"}" * 200_000, "nested too deeply"),
    "numbers.json": (b"[1, 2, 3]", "holds no comments that I can find"),
    "nothing.json": (b"[]", "holds no comments that I can find"),
    "fake.xlsx": (b"PK\x03\x04 and then nothing", "a broken ZIP archive or workbook"),
    "archive.zip": (zipped({"week.csv": b"id,text\n"}), "a ZIP archive that is no XLSX workbook"),
    "hollow.xlsx": (zipped({"xl/workbook.xml": WORKBOOK}), "a broken workbook"),
    "swollen.xlsx": (
        zipped({"xl/workbook.xml": WORKBOOK, "xl/worksheets/sheet1.xml": bytes(150 * 1024 * 1024)}),
        "unpacks to 150 MiB",
    ),
}


@pytest.mark.parametrize("name", HOPELESS)
def test_a_hopeless_file_is_one_clear_line(tmp_path: Path, name: str) -> None:
    content, says = HOPELESS[name]
    file = tmp_path / name
    file.write_bytes(content)
    with pytest.raises(UnreadableInput, match=says) as caught:
        list(read_comments(file))
    with pytest.raises(UnreadableInput, match=says):
        look(file)
    assert "\n" not in str(caught.value)
    assert str(file) in str(caught.value)


def test_a_missing_file_and_a_folder_are_one_clear_line(tmp_path: Path) -> None:
    with pytest.raises(UnreadableInput, match=r"no such file: .*; check the spelling"):
        read_comments(tmp_path / "weak.csv")
    with pytest.raises(UnreadableInput, match="is a folder; name the files in it"):
        read_comments(tmp_path)
    with pytest.raises(UnreadableInput, match="is no ordinary file"):
        read_comments(Path("/dev/null"))


def test_an_absurd_number_does_not_stall_reading(tmp_path: Path) -> None:
    file = tmp_path / "week.json"
    file.write_text('[{"text": "Chia?", "likes": ' + "9" * 400_000 + "}]")
    (row,) = read_comments(file)
    assert isinstance(row, Comment)
    assert row.likes == 0


def test_a_formula_stays_text(tmp_path: Path) -> None:
    file = tmp_path / "week.csv"
    file.write_text('id,comment\n1,"=HYPERLINK(""http://q.example"",""chia"")"\n2,+1 great\n')
    assert [row.text for row in read_comments(file) if isinstance(row, Comment)] == [
        '=HYPERLINK("http://q.example","chia")',
        "+1 great",
    ]


@pytest.mark.parametrize("part", ["<br", "<a href=", "&amp", "<script>", "&#", "<p ", "</", "<style><"])
def test_undoing_html_that_never_ends_ends(part: str) -> None:
    """A hundred thousand times the same beginning of something; `tests/benchmarks.py` prints how the time grows."""
    assert len(plain(part * 100_000)) <= 100_000 * len(part)


shapes = st.sampled_from(["week.csv", "week.tsv", "week.json", "week.jsonl", "week.xml", "week.xlsx", "week.txt"])


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=300, deadline=None)
@given(
    name=shapes,
    content=st.one_of(st.binary(max_size=300), st.text(max_size=200).map(lambda t: t.encode("utf-8", "replace"))),
)
@example("week.csv", b'a,"b\n')
@example("week.csv", b'comment\n"')
@example("week.json", b'[{"text": "\\ud800"}]')
@example("week.json", b"[NaN, Infinity]")
@example("week.xml", b'<?xml version="1.0" encoding="nonsense"?><feed/>')
def test_no_bytes_at_all_break_it_in_another_way(tmp_path: Path, name: str, content: bytes) -> None:
    file = tmp_path / name
    file.write_bytes(content)
    try:
        rows = list(read_comments(file))
    except UnreadableInput as fault:
        assert "\n" not in str(fault)  # noqa: PT017  (either outcome is right)
    else:
        for row in rows:
            assert isinstance(row, (Comment, SetAside))
            assert row.place.file.startswith(str(file))
            if isinstance(row, Comment):
                row.text.encode()
                assert row.text.strip()
                assert "\x00" not in row.text
