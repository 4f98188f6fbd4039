"""Ours beside two plain rivals, on the same comments."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from qa.records import KINDS, Example
from qa.scoring.answers import Judged, judged
from qa.scoring.baselines import RIVALS, Rival
from qa.scoring.measures import Row
from qa.scoring.rates import Tallied

Standing = Mapping[str, float | None]


def rivals(rows: Sequence[Row], known: Sequence[Example], phrasings: Sequence[tuple[str, str]]) -> dict[str, Standing]:
    """Ours and each rival on three tasks: kinds (macro-F1), type of the first ask, first standing answer.

    Args:
        rows: what is measured.
        known: the labelled comments a rival may look at.
        phrasings: phrasings of the standing answers with the answers' ids.
    """
    asking = [row for row in rows if row.example.asks]
    asks = [one for one in judged(rows) if one.signable]
    ours = _standing(
        rows,
        [[kind for kind, _ in row.said.kinds] for row in rows],
        [row.said.asks[0].type if row.said.asks else "" for row in asking],
        [one.right for one in asks],
    )
    return {"ours": ours} | {
        name: _standing(
            rows,
            _kinds(rival, rows, known),
            _types(rival, asking, known),
            _answers(rival, asks, phrasings),
        )
        for name, rival in RIVALS.items()
        if any(example.asks for example in known)
    }


def _kinds(rival: Rival, rows: Sequence[Row], known: Sequence[Example]) -> list[Sequence[str]]:
    places = rival([example.text for example in known], [row.example.text for row in rows])
    return [known[at].kinds for at in places]


def _types(rival: Rival, asking: Sequence[Row], known: Sequence[Example]) -> list[str]:
    askers = [example for example in known if example.asks]
    places = rival([example.text for example in askers], [row.example.text for row in asking])
    return [askers[at].asks[0][0] for at in places]


def _answers(rival: Rival, asks: Sequence[Judged], phrasings: Sequence[tuple[str, str]]) -> list[bool]:
    if not phrasings:
        return []
    places = rival([text for text, _ in phrasings], [one.match.ask.text for one in asks])
    return [phrasings[at][1] in one.signable for at, one in zip(places, asks, strict=True)]


def _standing(
    rows: Sequence[Row], kinds: Sequence[Sequence[str]], types: Sequence[str], answers: Sequence[bool]
) -> Standing:
    tallied = Tallied()
    for row, own in zip(rows, kinds, strict=True):
        tallied.add(own, row.example.kinds, 1.0)
    asking = [row for row in rows if row.example.asks]
    right = [type_ in {kind for kind, _ in row.example.asks} for row, type_ in zip(asking, types, strict=True)]
    return {
        "kinds_macro_f1": round(tallied.macro_f1(KINDS), 3),
        "first_type_right": round(sum(right) / len(right), 3) if right else None,
        "first_answer_right": round(sum(answers) / len(answers), 3) if answers else None,
    }
