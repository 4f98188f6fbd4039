"""Measure the whole on labelled comments, with two plain rivals measured on the same comments in the same run. Pure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from qa.records import ASK_TYPES, Draft, Example, Understood
from qa.scoring.answers import measure_answers
from qa.scoring.curves import calibration_error, curves
from qa.scoring.measures import Row, measure, natural_weights, share_asking
from qa.scoring.rivals import rivals
from qa.scoring.told import headline, page_values, report
from qa.scoring.worst import worst

__all__ = ["headline", "page_values", "report", "score"]


def score(
    examples: Sequence[Example],
    understood: Sequence[Understood],
    drafts: Sequence[Draft],
    known: Sequence[Example] = (),
    phrasings: Sequence[tuple[str, str]] = (),
) -> dict[str, Any]:
    """All measures of a labelled set.

    Args:
        examples: the labels.
        understood: what we made of the comments.
        drafts: what we would reply.
        known: the labelled comments that the rivals may look at; none of `examples`.
        phrasings: every phrasing of the standing answers with the answer's id, for the rivals.

    Returns:
        `as_labelled` and `natural` (re-weighted), each with `kinds`, `asks`, `mentions`, `held`, `drafts`; `answers`,
        where readers judged them; `rivals`; `reliability`; `confusion` of the first ask's type, wanted before found;
        `worst` mistakes; `must_not`, ids of comments that were drafted though they should go to a person or nowhere.
    """
    rows = [Row(*row) for row in zip(examples, understood, drafts, strict=True)]
    points = curves(rows)
    return {
        "comments": len(rows),
        "share_of_questions": round(share_asking(examples), 3),
        "as_labelled": measure(rows, [1.0] * len(rows)),
        "natural": measure(rows, natural_weights(examples)),
        "answers": measure_answers(rows),
        "rivals": rivals(rows, known, phrasings),
        "reliability": {
            name: {"error": round(calibration_error(curve), 3), "points": [point._asdict() for point in curve]}
            for name, curve in points.items()
        },
        "confusion": _confusion(rows),
        "worst": [mistake._asdict() for mistake in worst(rows)],
        "must_not": [e.id for e, _, d in rows if d.status == "drafted" and e.status in {"needs_you", "no_reply"}],
    }


def _confusion(rows: Sequence[Row]) -> dict[str, dict[str, int]]:
    """How often a first ask of each type was taken for each; 'none' where none was found."""
    counts: Counter[tuple[str, str]] = Counter()
    for example, said, _ in rows:
        wanted = [kind for kind, _ in example.asks]
        if wanted:
            found = said.asks[0].type if said.asks else "none"
            counts[found if found in wanted else wanted[0], found] += 1
    table = {want: {got: counts[want, got] for got in (*ASK_TYPES, "none") if counts[want, got]} for want in ASK_TYPES}
    return {want: row for want, row in table.items() if row}
