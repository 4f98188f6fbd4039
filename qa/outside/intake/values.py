"""Values as exports write them: times in a dozen shapes, counts like "1.2K", text with HTML in it."""

from __future__ import annotations

import html
import re
from datetime import UTC, datetime
from email.utils import parsedate_to_datetime

from qa.text import storable

_DMY = re.compile(r"(\d{1,2})([./-])(\d{1,2})\2(\d{4}|\d{2})(?:,?\s+(.{3,15}))?")
_YMD = re.compile(r"(\d{4})[/.](\d{1,2})[/.](\d{1,2})(?:,?\s+(.{3,15}))?")
_ZONE_WORD = re.compile(r"\s?(?:UTC|GMT|\+0000)$")
_EPOCH = re.compile(r"\d{10}(?:\.\d+)?|\d{13}|\d{16}")
_CLOCKS = ("%H:%M", "%H:%M:%S", "%I:%M %p", "%I:%M:%S %p", "%I:%M%p", "%H.%M", "%H:%M:%S.%f")
_DATES = ("%b %d, %Y", "%B %d, %Y", "%d %b %Y", "%d %B %Y", "%a %b %d %Y")


def as_time(value: object, day_first: bool | None = None) -> str:
    """A time as ISO 8601, or '' if it cannot be told.

    A date like 03/04/2026 can be read two ways: `day_first` says which (None: neither, unless only one is possible).

    >>> as_time("2026-03-02 10:11:12"), as_time(1772445600), as_time("2.3.2026 10:11")
    ('2026-03-02T10:11:12', '2026-03-02T10:00:00+00:00', '2026-03-02T10:11:00')
    >>> as_time("03/04/2026"), as_time("03/04/2026", day_first=False), as_time("25/04/2026"), as_time("two days ago")
    ('', '2026-03-04', '2026-04-25', '')
    """
    if isinstance(value, datetime):
        return value.isoformat()
    text = str(value).strip() if value is not None and not isinstance(value, bool) else ""
    if not 6 <= len(text) <= 40:
        return ""
    if text[4:5] == "-":
        return _iso(_ZONE_WORD.sub("Z", text))
    if _EPOCH.fullmatch(text):
        return _epoch(text)
    if found := _DMY.fullmatch(text):
        return _day_month_year(found, day_first)
    if found := _YMD.fullmatch(text):
        return _joined(int(found[1]), int(found[2]), int(found[3]), found[4])
    return _in_words(text)


def _iso(text: str) -> str:
    try:
        datetime.fromisoformat(text)
    except ValueError:
        return ""
    return text.replace(" ", "T", 1)


def _epoch(text: str) -> str:
    """Seconds, milliseconds or microseconds since 1970, told apart by length; 10 digits reach from 2001 to 2286."""
    digits = text.partition(".")[0]
    seconds = float(text) / 10 ** (len(digits) - 10)
    return datetime.fromtimestamp(seconds, UTC).isoformat() if seconds >= 1e9 else ""


def _day_month_year(found: re.Match[str], day_first: bool | None) -> str:
    first, second, year = int(found[1]), int(found[3]), int(found[4])
    if found[2] == "." or first > 12:
        day_first = True
    elif second > 12:
        day_first = False
    if day_first is None:
        return ""
    day, month = (first, second) if day_first else (second, first)
    return _joined(year if year > 99 else 2000 + year, month, day, found[5])


def _joined(year: int, month: int, day: int, clock: str | None) -> str:
    try:
        date = datetime(year, month, day)
    except ValueError:
        return ""
    if not clock:
        return date.date().isoformat()
    for shape in _CLOCKS:
        try:
            time = datetime.strptime(clock.strip().upper(), shape).time()
        except ValueError:
            continue
        return datetime.combine(date, time).isoformat()
    return date.date().isoformat()


def _in_words(text: str) -> str:
    """'Mon, 02 Mar 2026 10:11:12 +0000' (RFC 5322) and 'Mar 2, 2026'."""
    if not any(c.isdigit() for c in text) or not any(c.isalpha() for c in text):
        return ""
    try:
        return parsedate_to_datetime(text).isoformat()
    except (ValueError, TypeError, IndexError):
        pass
    for shape in _DATES:
        try:
            return datetime.strptime(text, shape).date().isoformat()
        except ValueError:
            continue
    return ""


def day_first_of(values: list[str]) -> bool | None:
    """Whether a column of dates puts the day first, by those that can be read only one way; None if none tells.

    >>> day_first_of(["03/04/2026", "25/04/2026"]), day_first_of(["03/04/2026"])
    (True, None)
    """
    firsts = {(int(f[1]) > 12, int(f[3]) > 12) for v in values if (f := _DMY.fullmatch(v.strip()))}
    if (True, False) in firsts and (False, True) not in firsts:
        return True
    return False if (False, True) in firsts and (True, False) not in firsts else None


_COUNT = re.compile(r"[+-]?(\d{1,3}(?:[,  ' ]\d{3})+|\d+)(?:[.,](\d+))?\s?([kKmM])?")
_SCALE = {"": 1, "k": 1_000, "m": 1_000_000}


def as_count(value: object) -> int | None:
    """A count of approvals; None if it is no number. Below nothing counts as nothing.

    >>> as_count("1,234"), as_count("1.2K"), as_count(7.0), as_count(""), as_count("-3"), as_count("many")
    (1234, 1200, 7, None, 0, None)
    """
    if isinstance(value, bool) or value is None:
        return None
    if isinstance(value, (int, float)):
        return max(0, int(value)) if value == value and abs(value) < 2**53 else None  # noqa: PLR0124  (not a number)
    text = str(value).strip()
    if text.isascii() and text.isdigit():
        return int(text) if len(text) < 16 else None
    if len(text) > 24 or not (found := _COUNT.fullmatch(text)):
        return None
    if text.startswith("-"):
        return 0
    whole = int(re.sub(r"\D", "", found[1]))
    return int((whole + float(f"0.{found[2] or 0}")) * _SCALE[(found[3] or "").lower()])


_BREAKS = re.compile(r"<br\b[^<>]*>|</(?:p|div|li|h[1-6]|blockquote|tr)\s*>", re.IGNORECASE)
_TAGS = re.compile(
    r"</?(?:a|abbr|b|big|blockquote|br|cite|code|del|div|em|font|h[1-6]|hr|i|img|ins|li|mark|ol|p|pre|q|s|small|span|"
    r"strike|strong|sub|sup|table|tbody|td|th|tr|tt|u|ul)(?:\s[^<>]*)?/?>",
    re.IGNORECASE,
)
_HIDDEN = re.compile(r"<(/?)(script|style)\b[^<>]*>", re.IGNORECASE)
_ENTITY = re.compile(r"&(?:#\d{1,7}|#[xX][0-9a-fA-F]{1,6}|[A-Za-z][A-Za-z0-9]{1,31});")


def plain(text: str) -> str:
    r"""Text as the viewer saw it: HTML that the carrier put around it undone, all else as received.

    >>> plain("it&#39;s great<br>2 &lt; 3 and <b>1<5</b>")
    "it's great\n2 < 3 and 1<5"
    >>> plain("I <3 this & that"), plain("a &lt;br&gt; b")
    ('I <3 this & that', 'a \n b')
    """
    if "<" in text:
        text = from_html(text)
    if "&" in text and _ENTITY.search(text):
        raw = "<" in text
        text = _ENTITY.sub(lambda found: html.unescape(found[0]), text)
        if not raw and "<" in text:  # the whole of it was escaped once more
            text = from_html(text)
    return storable(text)


def from_html(text: str) -> str:
    """HTML tags taken out, breaks and paragraph ends as line breaks; what only looks like a tag stays."""
    untagged = _TAGS.sub("", _BREAKS.sub("\n", _shown(text)))
    return untagged if untagged == text else untagged.strip("\n")


def _shown(text: str) -> str:
    """Without scripts and styles, in one pass; an opening tag that is never closed stays."""
    kept, last, opened = [], 0, None
    for tag in _HIDDEN.finditer(text):
        if not tag[1]:
            opened = opened or tag
        elif opened is not None and tag[2].lower() == opened[2].lower():
            kept.append(text[last : opened.start()])
            last, opened = tag.end(), None
    return "".join((*kept, text[last:])) if kept or last else text
