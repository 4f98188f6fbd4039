"""Replies given out: tables that paste into a spreadsheet safely, lines for programs, pages for people.

>>> safe_cell("=HYPERLINK(1)"), safe_cell("- a pinch"), safe_cell("two spoons")
("'=HYPERLINK(1)", "'- a pinch", 'two spoons')
"""

from __future__ import annotations

import csv
import html
import io
import json
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from qa.errors import LevelspoonError
from qa.text import nearest

COLUMNS = (
    "comment_id", "episode", "author", "text", "status", "reasons", "topic", "reply", "part", "note", "cautions",
    "sureness",
)  # fmt: skip
# What makes a spreadsheet take a cell for a formula, full-width forms included (OWASP, CSV injection, from memory).
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_LONGEST_CELL = 32_767  # characters; Excel specifications and limits (from memory)


def safe_cell(text: str) -> str:
    """A text that no spreadsheet takes for a formula."""
    return f"'{text}" if text.startswith(_FORMULA_STARTS) else text


def exported(replies: Iterable[Mapping[str, Any]], form: str, title: str) -> str | bytes:
    """Replies in a form: csv, jsonl, xlsx, md, html or faq; LevelspoonError for any other.

    Args:
        replies: objects of the contract's reply shape.
        form: one of FORMS.
        title: heading of pages and the name of the FAQ page.
    """
    if form not in FORMS:
        hint = nearest(form, FORMS)
        known = f"did you mean {hint!r}?" if hint else f"there are: {', '.join(FORMS)}"
        raise LevelspoonError(f"no form of export is called {form!r}", known)
    return FORMS[form](replies, title)


def _csv(replies: Iterable[Mapping[str, Any]], _title: str) -> str:
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\r\n")  # RFC 4180
    table.writerow(COLUMNS)
    table.writerows(_row(reply) for reply in replies)
    return out.getvalue()


def _row(reply: Mapping[str, Any]) -> list[str]:
    return [safe_cell(_words(reply[column])) for column in COLUMNS]


def _words(value: Any) -> str:
    if isinstance(value, list):
        return "; ".join(map(str, value))
    return "" if value is None else str(value)


def _jsonl(replies: Iterable[Mapping[str, Any]], _title: str) -> str:
    return "".join(json.dumps(reply, ensure_ascii=False) + "\n" for reply in replies)


def _xlsx(replies: Iterable[Mapping[str, Any]], title: str) -> bytes:
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE

    book = Workbook(write_only=True)
    sheet = book.create_sheet("replies")
    sheet.append(list(COLUMNS))
    for reply in replies:
        cells = []
        for text in _row(reply):
            cell = WriteOnlyCell(sheet, ILLEGAL_CHARACTERS_RE.sub(" ", text)[:_LONGEST_CELL])
            cell.data_type = "s"
            cells.append(cell)
        sheet.append(cells)
    book.properties.title = title
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _markdown(replies: Iterable[Mapping[str, Any]], title: str) -> str:
    blocks = [f"# {title}"]
    for reply in replies:
        said = "\n".join(f"> {_plain(line)}" for line in reply["text"].splitlines() or [""])
        answer = _plain(reply["reply"]) if reply["reply"] else f"*{_state(reply)}*"
        blocks.append(
            f"## {_plain(reply['author'] or 'a viewer')} ({_plain(reply['comment_id'])})\n\n{said}\n\n{answer}"
        )
    return "\n\n".join(blocks) + "\n"


def _plain(text: str) -> str:
    """Text that Markdown shows as it is: no tags, links or emphasis from a comment."""
    escaped = html.escape(text, quote=False)
    return "".join(f"\\{c}" if c in r"\`*_{}[]#|!" else c for c in escaped)


_STYLE = "body{max-width:66ch;margin:2rem auto;font:18px/1.5 ui-serif,Georgia,serif}blockquote{white-space:pre-wrap}"


def _html(replies: Iterable[Mapping[str, Any]], title: str) -> str:
    rows = [
        f"<article><h2>{_e(r['author'] or 'a viewer')}</h2><blockquote>{_e(r['text'])}</blockquote>"
        f"<p>{_e(r['reply']) if r['reply'] else f'<em>{_e(_state(r))}</em>'}</p></article>"
        for r in replies
    ]
    head = f'<meta charset="utf-8"><title>{_e(title)}</title><style>{_STYLE}</style>'
    body = f"<h1>{_e(title)}</h1>{''.join(rows)}"
    return f'<!doctype html><html lang="en"><head>{head}</head><body>{body}</body></html>\n'


def _e(text: str) -> str:
    return html.escape(text)


def _state(reply: Mapping[str, Any]) -> str:
    reasons = ", ".join(reply["reasons"]).replace("_", " ")
    return f"{reply['status'].replace('_', ' ')}{f': {reasons}' if reasons else ''}"


def _faq(replies: Iterable[Mapping[str, Any]], title: str) -> str:
    """schema.org FAQPage as JSON-LD; the best reply of each topic, named by the topic and not by a viewer's words."""
    best: dict[str, Mapping[str, Any]] = {}
    for reply in replies:
        name = reply["topic"]
        if reply["reply"] and name and (name not in best or reply["sureness"] > best[name]["sureness"]):
            best[name] = reply
    page = {
        "@context": "https://schema.org",
        "@type": "FAQPage",
        "name": title,
        "mainEntity": [
            {"@type": "Question", "name": name, "acceptedAnswer": {"@type": "Answer", "text": reply["reply"]}}
            for name, reply in sorted(best.items())
        ],
    }
    return json.dumps(page, ensure_ascii=False, indent=2) + "\n"


FORMS: dict[str, Callable[[Iterable[Mapping[str, Any]], str], str | bytes]] = {
    "csv": _csv,
    "jsonl": _jsonl,
    "xlsx": _xlsx,
    "md": _markdown,
    "html": _html,
    "faq": _faq,
}
