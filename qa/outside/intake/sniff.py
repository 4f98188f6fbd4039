"""What a file is, by its content first and its name second; and in which encoding."""

from __future__ import annotations

import codecs
import json
import re
import stat
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from qa.errors import UnreadableInput
from qa.outside.intake.names import meaning

Kind = Literal["table", "json", "json lines", "xlsx", "xml"]
SAMPLE = 256 * 1024
"""Bytes looked at to tell what a file is."""

_MAGIC = (
    (b"\xd0\xcf\x11\xe0", "an old Excel workbook", "save it as .xlsx or .csv"),
    (b"\x1f\x8b", "a gzip archive", "unpack it first"),
    (b"PK\x05\x06", "an empty ZIP archive", "export the comments again"),
    (b"7z\xbc\xaf", "a 7-Zip archive", "unpack it first"),
    (b"%PDF", "a PDF", "export the comments as CSV or JSON"),
    (b"\x89PNG", "a picture", "export the comments as CSV or JSON"),
    (b"\xff\xd8\xff", "a picture", "export the comments as CSV or JSON"),
    (b"GIF8", "a picture", "export the comments as CSV or JSON"),
    (b"SQLite format 3\x00", "a database", "export its comments as CSV or JSON"),
    (b"PAR1", "a Parquet file", "save it as CSV"),
)
READS = "CSV, TSV, XLSX, JSON, JSON Lines, Atom, ActivityStreams and schema.org Comment can be read"


@dataclass(frozen=True, slots=True)
class Sniffed:
    """A readable file: what kind, in which encoding, and its beginning as text ('' for XLSX)."""

    path: Path
    kind: Kind
    encoding: str
    start: str

    @property
    def name(self) -> str:
        """How messages and places name the file."""
        return str(self.path)


def sniff(path: Path) -> Sniffed:
    """Find out what a file is; UnreadableInput, in one line, for what cannot hold comments."""
    start = _first_bytes(path)
    for magic, what, remedy in _MAGIC:
        if start.startswith(magic):
            raise UnreadableInput(f"{path}: {what}, not a comment export", remedy)
    if start.startswith(b"PK\x03\x04"):
        return Sniffed(path, "xlsx", "", "")
    encoding = _encoding(path, start)
    text = codecs.getincrementaldecoder(encoding)("replace").decode(start).lstrip("\ufeff")
    body = text.replace("\x00", "").lstrip()
    if not body:
        raise UnreadableInput(f"{path}: holds nothing but blanks", "export the comments again")
    return Sniffed(path, _kind(path, body), encoding, text)


def _first_bytes(path: Path) -> bytes:
    try:
        mode = path.stat().st_mode
        if stat.S_ISDIR(mode):
            raise UnreadableInput(f"{path} is a folder", "name the files in it")
        if not stat.S_ISREG(mode):
            raise UnreadableInput(f"{path} is no ordinary file", "save the comments to a file first")
        with path.open("rb") as handle:
            start = handle.read(SAMPLE)
    except FileNotFoundError as fault:
        raise UnreadableInput(f"no such file: {path}", "check the spelling") from fault
    except (OSError, ValueError) as fault:
        raise UnreadableInput(f"{path}: cannot be opened ({fault})", "check its name and your rights") from fault
    if not start:
        raise UnreadableInput(f"{path}: is empty", "export the comments again")
    return start


def _kind(path: Path, text: str) -> Kind:
    suffix = path.suffix.lower()
    if text[:200].lower().startswith(("<!doctype html", "<html")):
        raise UnreadableInput(f"{path}: a web page, not a comment export", READS)
    if text.startswith("<"):
        return "xml"
    if text[0] in "[{" and not (suffix in {".csv", ".tsv"} and not re.match(r"[\[{]\s*[\[{\"\]}]", text)):
        return "json lines" if _is_json_lines(text, suffix) else "json"
    if suffix in {".json", ".jsonl", ".ndjson"} and not _looks_tabular(text):
        raise UnreadableInput(f"{path}: is named {suffix} but does not begin like JSON", "export the comments again")
    if suffix in {".csv", ".tsv", ".tab"} or _looks_tabular(text):
        return "table"
    raise UnreadableInput(f"{path}: an unknown kind of file", READS)


def _is_json_lines(text: str, suffix: str) -> bool:
    """Whether the first line is an object of its own, and either more follow or the name says so."""
    first, _, rest = text.partition("\n")
    try:
        value = json.loads(first)
    except (ValueError, RecursionError):
        return suffix in {".jsonl", ".ndjson"}
    return suffix in {".jsonl", ".ndjson"} or (isinstance(value, dict) and rest.lstrip().startswith("{"))


def _looks_tabular(text: str) -> bool:
    """Whether the first lines hold the same number of some delimiter, or one of them is a header."""
    lines = [line for line in text.splitlines()[:20] if line.strip()]
    return any(
        _is_even(lines, delimiter) or any(_is_header(line, delimiter) for line in lines) for delimiter in "\t;,|"
    )


def _is_even(lines: list[str], delimiter: str) -> bool:
    counts = [line.count(delimiter) for line in lines]
    usual = max(set(counts), key=counts.count)
    return usual > 0 and len(lines) > 1 and counts.count(usual) >= 0.7 * len(counts)


def _is_header(line: str, delimiter: str) -> bool:
    roles = {found[0] for cell in line.split(delimiter) if (found := meaning(cell)) and found[1] >= 0.5}
    return "text" in roles and len(roles) > 1


_BOMS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
LEGACY = ("cp1252", "cp932", "euc_jp", "gb18030", "big5", "cp949", "cp1251", "koi8_r", "cp1250", "cp1253", "cp1254")
_CONTROL = bytes(sorted(set(range(32)) - {0x09, 0x0A, 0x0B, 0x0C, 0x0D, 0x1B})) + b"\x7f"


def _encoding(path: Path, start: bytes) -> str:
    for bom, name in _BOMS:
        if start.startswith(bom):
            return name
    even, odd = start[::2].count(0) / len(start), start[1::2].count(0) / len(start)
    if len(start) >= 8 and max(even, odd) > 0.2 > 10 * min(even, odd):
        return "utf-16-le" if odd > even else "utf-16-be"
    controls = len(start) - len(start.translate(None, _CONTROL))
    if controls > max(8, len(start) // 20) or controls > len(start) // 3:
        raise UnreadableInput(f"{path}: binary data, not a comment export", READS)
    return _utf8_or_older(path)


def _utf8_or_older(path: Path) -> str:
    """UTF-8 if the whole file is (nearly) that; else the likeliest older encoding of its non-ASCII lines."""
    good = 0
    odd: list[bytes] = []
    with path.open("rb") as handle:
        for line in iter(lambda: handle.readline(1 << 20), b""):
            if line.isascii():
                continue
            try:
                line.decode()
            except UnicodeDecodeError:
                odd.append(line[:2000])
                if len(odd) >= 400:
                    break
            else:
                good += 1
    if not odd or good > 20 * len(odd):
        return "utf-8"
    return _older(b"".join(odd))


def _older(sample: bytes) -> str:
    from charset_normalizer import from_bytes

    best = from_bytes(sample[:64_000], cp_isolation=list(LEGACY)).best()
    if best is None or best.encoding in _USUAL_LETTERS:
        return max(_USUAL_LETTERS, key=lambda name: _usual(sample.decode(name, "replace"), _USUAL_LETTERS[name]))
    return best.encoding


# These differ in few letters, so the letters decide; the first wins a tie.
_USUAL_LETTERS = {
    "cp1252": frozenset("äöüßéèàçñáíóúêâîôûëïåøæãõÄÖÜÉÀÇÑÅØ£€°½¼¾·¡¿«»"),
    "cp1250": frozenset("äöüßéáíóúýąćęłńśźżčšžřěůďťňőűşţăâîŁŚŻČŠŽŘŐŰ€°"),
    "cp1254": frozenset("äöüçğışâîûİĞŞÇÖÜ€°½"),
}


def _usual(text: str, letters: frozenset[str]) -> int:
    return sum(c in letters for c in text)
