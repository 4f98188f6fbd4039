"""Whether the standing answers chosen are those that a careful reader would sign."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from qa.records import Example, Matched
from qa.scoring.measures import Row
from qa.stages.match import aligned


class Judged(NamedTuple):
    """An ask that was understood, beside what a reader said of the labelled ask it goes with.

    Attributes:
        match: what was found for it.
        best: the standing answer that came first, whether or not it was sure enough; '' if there was none.
        sureness: how sure the match was of it.
        signable: the answers that the reader would sign.
    """

    row: Row
    match: Matched
    best: str
    sureness: float
    signable: tuple[str, ...]

    @property
    def right(self) -> bool:
        """Whether the reader would sign the first answer."""
        return self.best in self.signable


def judged(rows: Sequence[Row]) -> Iterator[Judged]:
    """Every ask whose labelled counterpart was judged."""
    for row in rows:
        for match, place in zip(row.draft.matched, _places(row.example, row.draft.matched), strict=True):
            signable = row.example.answers[place] if place is not None and row.example.answers else None
            if signable is not None:
                runner_up = match.runners_up[0][0] if match.runners_up else ""
                yield Judged(row, match, match.answer or runner_up, match.sureness, signable)


def _places(example: Example, matched: Sequence[Matched]) -> list[int | None]:
    return aligned([(match.ask.type, match.ask.ingredients) for match in matched], example.asks)


def right_and_complete(row: Row) -> bool | None:
    """Whether a reply answers every ask as the reader would sign it; None if it is none, or was not fully judged."""
    example, draft = row.example, row.draft
    if draft.reply is None or not example.answers or None in example.answers:
        return None
    served = {
        place
        for match, place in zip(draft.matched, _places(example, draft.matched), strict=True)
        if place is not None and match.answer in (example.answers[place] or ())
    }
    spare = sum(match.answer is not None for match in draft.matched) - len(served)
    return len(served) == len(example.answers) and spare == 0


def measure_answers(rows: Sequence[Row]) -> dict[str, Any]:
    """Shares over all judged asks and all judged replies; None where nothing was judged."""
    asks = list(judged(rows))
    could = [ask for ask in asks if ask.signable]
    replies = [verdict for row in rows if (verdict := right_and_complete(row)) is not None]
    return {
        "judged_asks": len(asks),
        "first_right": _share([ask.right for ask in could]),
        "answered": _share([ask.match.answer is not None for ask in could]),
        "judged_replies": len(replies),
        "right_and_complete": _share(replies),
    }


def _share(verdicts: Sequence[bool]) -> float | None:
    return round(sum(verdicts) / len(verdicts), 3) if verdicts else None
