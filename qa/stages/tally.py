"""Count viewers' own results by ingredient: the honest answer to "has anyone tried".

>>> said = Understood("c1", "Used duck egg, came out lovely", "en", (("result", 0.9),), (), (), ())
>>> tally([said])
{}
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable

from qa.records import Tally, Understood
from qa.text import word_set

_GOOD = word_set(
    "perfect perfectly lovely great delicious amazing fluffy moist soft crisp crispy works worked fine well yum yummy "
    "fantastic beautiful beautifully good better best excellent success nailed happy love loved tasty wonderful "
    "brilliant"
)
_BAD = word_set(
    "dense gummy dry flat sunk sank collapsed crumbly crumbled rubbery bitter soapy raw soggy gritty failed fail "
    "disaster worse worst horrible awful terrible inedible brick bricks purple grey gray wet sticky split curdled "
    "burnt ruined"
)
_NOT = word_set("not no never without isn't wasn't weren't aren't didn't don't hardly barely nothing neither nor")
_WORD = re.compile(r"[a-z']+")


def tally(understood: Iterable[Understood]) -> dict[str, Tally]:
    """Reports by ingredient id. A comment counts once for each ingredient its result names."""
    sorted_by_item: dict[str, dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for one in understood:
        if any(kind == "result" for kind, _ in one.kinds):
            how = outcome(_result_text(one))
            for ingredient in dict.fromkeys(mention.ingredient for mention in one.mentions):
                sorted_by_item[ingredient][how].append(one.comment)
    return {
        item: Tally(item, tuple(by["good"]), tuple(by["bad"]), tuple(by["unclear"]))
        for item, by in sorted(sorted_by_item.items())
    }


def outcome(text: str) -> str:
    """How a result went: 'good', 'bad' or 'unclear', by its verdict words; "not dense" counts as good.

    >>> outcome("came out dense and gummy"), outcome("not dense at all, lovely"), outcome("made it")
    ('bad', 'good', 'unclear')
    """
    words = _WORD.findall(text.casefold())
    score = 0
    for i, word in enumerate(words):
        sign = (word in _GOOD) - (word in _BAD)
        score += -sign if sign and any(w in _NOT for w in words[max(0, i - 3) : i]) else sign
    return "good" if score > 0 else "bad" if score < 0 else "unclear"


def _result_text(one: Understood) -> str:
    pieces = [piece.text for piece in one.pieces if any(kind == "result" for kind, _ in piece.kinds)]
    return " ".join(pieces) or one.text
