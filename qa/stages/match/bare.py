"""Where the words stand that say what is asked: a bare question ("what did I do?") is about what was told before."""

from __future__ import annotations

import re

from qa.records import Ask
from qa.text.telling import telling

# Up to so many telling words a question is bare; up to more where a failure is told before it is asked about.
_FEW, _FEW_OF_FAILURE = 2, 4
_FAILURES = frozenset(("went_wrong", "colour"))
# So far back, in characters, a bare question reaches, and so far on where nothing stands before it.
_BACK, _ON = 220, 120
_SENTENCE_END = re.compile(r"[.!?\n]+\s+")


def told_at(ask: Ask, text: str) -> tuple[int, int]:
    """Where in a comment an ask and, if it is bare, what it is about stand: start and end in characters.

    >>> text = "Lovely. My scones are flat as a tile. What did I do wrong?"
    >>> start, end = told_at(Ask("went_wrong", 38, len(text), text[38:]), text)
    >>> text[start:end]
    'Lovely. My scones are flat as a tile. What did I do wrong?'
    """
    if not _bare(ask):
        return ask.start, ask.end
    start = _reached_back(ask, text)
    end = ask.end if text[: ask.start].strip() else min(len(text), ask.end + _ON)
    while ask.end < end < len(text) and not text[end].isspace():
        end -= 1
    return start, end


def _reached_back(ask: Ask, text: str) -> int:
    """Where what was told before a bare question begins: at a sentence, or at a word of one that is too long.

    Another question tells nothing, but where something went wrong it often names the trouble.
    """
    start = max(0, ask.start - _BACK)
    if start:
        boundary = _SENTENCE_END.search(text, start, ask.start)
        start = boundary.end() if boundary and boundary.end() < ask.start else start
    if ask.type not in _FAILURES:
        start = max(start, text.rfind("?", start, ask.start) + 1)
    while 0 < start < ask.start and not text[start - 1].isspace():
        start += 1
    return start


def told(ask: Ask) -> str:
    """The words of an ask and, if it is bare, of what it is about."""
    if not ask.context:
        return ask.text
    start, end = told_at(ask, ask.context)
    return ask.context[start:end]


def _bare(ask: Ask) -> bool:
    return telling(ask.text) <= (_FEW_OF_FAILURE if ask.type in _FAILURES else _FEW)
