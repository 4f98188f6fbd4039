"""One input row made into a Comment, or set aside with the reason: nothing is lost on the way."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Sequence

from qa.errors import Place
from qa.outside.intake.values import as_count, as_time, plain
from qa.records import Comment, SetAside
from qa.text import storable

LONGEST_TEXT = 2_000_000
"""Characters; a longer text is no comment, and is set aside."""
LONGEST_ID = 500
SHOWN = 500
"""Characters of a set-aside row that are kept."""


class Builder:
    """Makes comments of one file; it remembers ids so that one id with two texts is noticed (about 0.1 kB a row).

    >>> make = Builder("week.csv")
    >>> make.comment(1, "Can I use chia?", author="@oat_fan", id="c1").id
    'c1'
    >>> make.comment(2, "Is flax the same?", id="c1").reason
    "id 'c1' stands earlier in this file with another text"
    """

    def __init__(self, file: str, episode: str = "") -> None:
        self.file = file
        self.episode = episode
        self.day_first: bool | None = None
        self._texts: dict[int, int] = {}
        self._nameless: Counter[str] = Counter()

    def comment(  # noqa: PLR0913  (one argument for each role)
        self,
        row: int,
        text: object,
        *,
        author: object = "",
        time: object = "",
        likes: object = 0,
        id: object = "",  # noqa: A002
        parent: object = "",
        episode: object = "",
        cells: Sequence[object] = (),
    ) -> Comment | SetAside:
        """The row as a comment, or set aside if it holds no text or contradicts an earlier row.

        `cells` are all that the row holds, those of no known column as well; shown where it has no text.
        """
        said = plain(words(text))
        if not said.strip():
            held = (words(value).strip() for value in (cells or (id, author, time, parent)))
            return self.aside(row, "no text", " | ".join(filter(None, held)))
        who, when = words(author).strip(), as_time(time, self.day_first)
        shown = f"{who}: {said}" if who else said  # with the name, so that a viewer can be forgotten here too
        if len(said) > LONGEST_TEXT:
            return self.aside(row, f"text of {len(said):,} characters (at most {LONGEST_TEXT:,})", shown)
        own = words(id).strip()
        if len(own) > LONGEST_ID:
            return self.aside(row, f"id of {len(own):,} characters (at most {LONGEST_ID})", shown)
        if own and self._texts.setdefault(hash(own), hash(said)) != hash(said):
            return self.aside(row, f"id {own[:80]!r} stands earlier in this file with another text", shown)
        return Comment(
            own or self._made_id(said, who, when or words(time)),
            said,
            who,
            when,
            as_count(likes) or 0,
            words(parent).strip()[:LONGEST_ID],
            words(episode).strip() or self.episode,
            Place(self.file, row),
        )

    def aside(self, row: int, reason: str, content: object = "") -> SetAside:
        """The row set aside, its content shortened."""
        return SetAside(Place(self.file, row), reason, storable(str(content))[:SHOWN])

    def _made_id(self, text: str, author: str, time: str) -> str:
        """The same for the same content in whatever file; without author and time, counted."""
        key = f"{text}\x1f{author}\x1f{time}"
        if not author and not time:
            self._nameless[text] += 1
            key += f"\x1f{self._nameless[text]}"
        return "made-" + hashlib.sha256(key.encode()).hexdigest()[:24]


def words(value: object) -> str:
    """A scalar as text; whole floats as spreadsheets give them lose their '.0'.

    >>> words(3.0), words(None), words("a")
    ('3', '', 'a')
    """
    if type(value) is str:
        return value if value.isascii() and "\x00" not in value else storable(value)
    if value is None:
        return ""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return storable(str(value))
