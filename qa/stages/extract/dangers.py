"""Tips that must not be repeated, and complaints that video and written recipe disagree.

How the phrases are written: see `qa.text.phrases`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from qa.knowledge import limits
from qa.knowledge.facts import Caution
from qa.records import Piece
from qa.stages.extract.tips import MATTERS, PLAYS_DOWN, RULES, WARNS
from qa.text.phrases import phrases

# A question without its mark recommends nothing either.
_ASKS = re.compile(
    r"^\W*(?:(?:so|and|but|or|hi|hello|hey|also|please|pls)\W+)*"
    r"(?:can|could|may|should|would|will|shall|is|are|was|do|does|did|has|have|how|what|why|when|where|which|who|any|anyone|"
    r"anybody)(?:'s)?\s(?!be\b|just\b|always\b|it\W*$)",
    re.IGNORECASE,
)
# A question in the second half of a sentence, or in its last words.
_ASKS_LATE = re.compile(
    r"[,;:.…–-]\s*(?:so\s|and\s|but\s)?(?:can|could|may|should|would|will|is|are|do|does|any|which|what|how|when)(?:'s)?\s"
    r"|\s(?:will|would|can|could|should|is)\s(?:a|an|it|this|that|these|they|he|she|i|we|my|the)\s"
    r"|\b(?:ok|okay|safe|alright|allowed|or no|or not|yes or no|problem|bad idea|worried|"
    r"please (?:help|advise)|pls help|help|abi|innit)\W*$"
    r"|^\W*(?:please|pls|plz)\W+help\b|\burgent",
    re.IGNORECASE,
)
# Nothing is asked, but something is about to be done, or was done against better knowledge.
_RESOLVED = phrases(
    """(i|we) (want|plan|intend|hope) to | (i'm|i am|we're|we are) (going|planning|thinking|hoping) |
        thinking (of|about) |
        (but|so|and) (i|we) (still )?(used|ate|baked|drank|served) (it|them)? | (in|into) the oven (now|already)"""
)
# A tip is short; a long story holds all words by chance.
_LONGEST_TIP = 320


def asks(piece: str) -> bool:
    """Whether a sentence has the form of a question, with or without its mark.

    >>> asks("will this push my sugar up"), asks("I would love to know more")
    (True, False)
    """
    return piece.rstrip().endswith("?") or bool(_ASKS.search(piece))


def asks_anywhere(piece: Piece) -> bool:
    """Whether a sentence has the form of a question, or is taken for one and turns into one: "I'm fasting, would it …".

    >>> text = "my sister can't have wheat, would sourdough be safe"
    >>> asks(text), asks_anywhere(Piece(0, len(text), text, (("question", 0.9),)))
    (False, True)
    """
    taken = any(kind == "question" for kind, _ in piece.kinds)
    return asks(piece.text) or (taken and bool(_ASKS_LATE.search(piece.text)))


def worries(pieces: Sequence[Piece], text: str) -> list[Piece]:
    """Sentences in the form of a question, not taken for one, that are for a person: to miss those costs most.

    >>> [piece.text for piece in worries([Piece(0, 25, "will this raise my sugar?")], "will this raise my sugar?")]
    ['will this raise my sugar?']
    """
    return [
        piece
        for piece in pieces
        if all(kind not in {"question", "spam"} for kind, _ in piece.kinds)
        and any(
            (asks(piece.text), _ASKS_LATE.search(piece.text), _RESOLVED.search(piece.text), limits.alarming(piece.text))
        )
        and (
            limits.alarming(piece.text)
            or limits.health_asked(piece.text, text)
            or limits.hazard_asked(piece.text, text)
            or limits.legal_asked(piece.text)
        )
    ]


def unsafe_tips(text: str, pieces: Sequence[Piece], cautions: Sequence[Caution]) -> tuple[str, ...]:
    """Ids of the cautions that a recommendation goes against; the rule's own name where no caution is filed for it.

    What is only asked recommends nothing, and who warns of it must not be taken for one who recommends it.

    >>> unsafe_tips("garlic in olive oil keeps all year in the cupboard", (), ())
    ('garlic in oil',)
    >>> unsafe_tips("never keep garlic in oil in the cupboard", (), ())
    ()
    """
    if len(text) > _LONGEST_TIP:
        return ()
    text = text.replace("’", "'")
    said = " ".join(piece.text.replace("’", "'") for piece in pieces if not asks(piece.text)) if pieces else text
    if not said or not MATTERS.search(text) or WARNS.search(PLAYS_DOWN.sub("", text)):
        return ()
    found: list[str] = []
    for rule in RULES:
        if rule.patterns[0].search(text) and all(pattern.search(said) for pattern in rule.patterns[1:]):
            filed = [
                c.id for c in cautions if rule.filed and any(rule.filed in w.lower() for w in (c.topic, *c.triggers))
            ]
            found += filed[:1] or [rule.name]
    return tuple(dict.fromkeys(found))


# Where a viewer may have read or heard an amount.
_SOURCES = tuple(
    map(
        phrases,
        (
            "videos? | vid | films? | clip | footage",
            """you (say|said|speak|add|added|put|use|used|set|go|went) | she (says?|said|sets?|adds?) | he
                (says?|said) | spoken | voice | the intro""",
            "on (the |your )?screen | screen | on camera | caption | subtitle",
            """recipe | written | write-?up | description | pdf | paper | print* | blog | website | text | card |
                table | notes | you wrote""",
            "ingredients? list | in the list | the list | ingredients | listed | list gives",
            "method | instructions? | steps?",
            "at \\d+:\\d\\d | \\d+:\\d\\d | minute \\d+ | in minute | timestamp | at \\w+ minutes",
        ),
    )
)
_CHOOSE = phrases(
    """which (one|is|of you|did|do|then|love)? ?(is|it|right|true|correct|of)* | pick one | one number |
        inconsisten* | disagree* | contradict* | doesn't match | don't match | not the same | never comes? |
        never (listed|mentioned|used|added|appears?|goes) | isn't (in|listed|mentioned) | that's not in | not in
        the | is missing | are missing | clarify | somebody's wrong | is wrong | card is wrong | mistake | typo
        | correction | what is correct | who is right | you wrote .. but | where is the | when
        (shall|does|do|should) (it|they|the .. ) go in | factor of | difference | explain the"""
)
_NUMBERS = re.compile(
    r"""\d+(?:[./]\d+)?|\b(?:one|two|three|four|five|six|seven|eight|ten|twelve|half|quarter|pint|teaspoon|tablespoon)\b""",
    re.IGNORECASE,
)
_LONGEST_CONFLICT = 360


def recipe_conflict(text: str) -> str:
    """What a viewer says disagrees between video and written recipe, in their words, or ''.

    >>> recipe_conflict("your video says 2 eggs, but the pdf says 3")
    'your video says 2 eggs, but the pdf says 3'
    >>> recipe_conflict("the recipe in the video is great")
    ''
    """
    if len(text) > _LONGEST_CONFLICT or sum(bool(source.search(text)) for source in _SOURCES) < 2:
        return ""
    numbers = {number.lower() for number in _NUMBERS.findall(text)}
    return text if _CHOOSE.search(text) or len(numbers) > 1 else ""
