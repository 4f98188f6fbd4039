"""Patterns written as the phrases they find, so that a table of them can be read and mended by a person."""

from __future__ import annotations

import re
from functools import cache

# Up to four words, and up to ten; bounded, so that a search stays linear in the text.
_FEW = r"(?:\W{1,3}[\w'%-]+){0,4}?\W{1,3}"
_SOME = r"(?:\W{1,3}[\w'%-]+){0,10}?\W{1,3}"


def phrases(*written: str) -> re.Pattern[str]:
    """One pattern for all the phrases, whole words, whatever their case.

    Phrases are parted by `|`; `( | )` holds alternatives inside one, `?` makes what stands before it optional, `*` ends
    a word in any way, `..` stands for up to four words between, `...` for up to ten; an apostrophe may be left out.

    >>> found = phrases("how (many|much) .. grams? | freez*")
    >>> [bool(found.search(t)) for t in ("How many of those grams", "freezing", "how gram")]
    [True, True, False]
    """
    return re.compile(rf"\b(?:{'|'.join(map(as_pattern, written))})\b", re.IGNORECASE)


@cache
def as_pattern(written: str) -> str:
    """The regular expression for phrases, to build a larger one from."""
    text = re.sub(r"\s*\|\s*", "|", " ".join(written.split()))
    text = text.replace("(", "(?:").replace("'", "'?").replace("*", r"\w*")
    text = text.replace(" ... ", _SOME).replace(" .. ", _FEW)
    return re.sub(r" (?!\{)", r"\\s", text)
