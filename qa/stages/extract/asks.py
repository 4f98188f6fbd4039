"""Find the asks of a comment: which sentences ask, what is wanted, of which ingredients, in which order."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from qa.knowledge import limits
from qa.measures.parse import Amount
from qa.records import AskType, Mention, Piece
from qa.stages.extract.dangers import asks
from qa.stages.extract.frames import marked
from qa.stages.extract.learn import Typed
from qa.text.pairs import lacking_in, pair_in, points_at_used
from qa.text.phrases import as_pattern, phrases
from qa.text.telling import telling

# "if so how much", "and do I need more water": goes on with the ask before it.
_GOES_ON = re.compile(
    r"^\W{0,3}(?:(?:and|or|also|but|so)\W{1,2})?(?:"
    + as_pattern(
        """if (so|yes|not) | how much | how many | what (else|would|will) (change|i) | what ratio | in what
        | same amount | one for one | 1:1 | (would|will|does) (that|it|this) (change|work|be) | was it
        | is it (because|the|that|due) | could it be | did i | or (is|did|do|does|was|should)
        | do i (need|have) to (adjust|change|add)"""
    )
    + r")\b",
    re.IGNORECASE,
)
# "is it a must or can I leave it": the other half of a choice is no question of its own.
_OR = re.compile(r"[\s,]*or\s+", re.IGNORECASE)
# "what can I use instead of glucose? honey?": the asker's own idea is no second question.
_WHAT_INSTEAD = phrases("what | which | anything | something | alternative* | substitute*")
_IDEA = re.compile(r"\W*(?:(?:maybe|perhaps|or|like)\W+)?(?:the |some |my )?X\s*\?+\s*", re.IGNORECASE)
_KEPT: frozenset[AskType] = frozenset(("health", "allergy", "safety"))
# A question of the same kind that tells so little goes on with the one before: "and would it rise?".
_LITTLE = 1
_FAILED: frozenset[AskType] = frozenset(("went_wrong", "colour"))
# What a question after a failure wants if it only blames something for it.
_BLAMED: frozenset[AskType] = frozenset(
    ("went_wrong", "colour", "purpose", "check", "method", "equipment", "same_thing", "other")
)
_SUSPECTS = phrases("""is it | was it | because | could it be | did i | is that | too much | too little | under |
    over | the cause""")
_FOLLOWING: frozenset[AskType] = frozenset(("weight", "check", "purpose", "other", "method", "scaling"))
_POINTS_BACK = phrases("it | that | this | these | those | them | they | one | either | so | mine | both | which")
# Asks that are about something named before, even where no word points back to it.
_ABOUT_WHAT_WENT_BEFORE: frozenset[AskType] = frozenset(
    ("went_wrong", "colour", "swap", "weight", "convert", "carbs", "check", "same_thing")
)
# These are about the last thing named, others about the last two.
_ABOUT_ONE: frozenset[AskType] = frozenset(("swap", "weight", "convert", "carbs"))


# Asks that may be about two ingredients.
TAKE_TWO: frozenset[AskType] = frozenset(("swap", "same_thing", "check", "tried"))


@dataclass(frozen=True, slots=True)
class Asked:
    """Sentences that ask one thing: their place, what is wanted, how sure that is, and what else it could be."""

    start: int
    end: int
    type: AskType
    sureness: float
    others: tuple[tuple[AskType, float], ...] = ()


def asking(pieces: Sequence[Piece]) -> list[tuple[Piece, float]]:
    """The sentences that ask something, with their sureness."""
    return [(piece, sureness) for piece in pieces for kind, sureness in piece.kinds if kind == "question"]


def asked(
    text: str,
    questions: Sequence[tuple[Piece, float]],
    sentences: Sequence[str],
    types: Sequence[Typed],
) -> list[Asked]:
    """What a comment asks, in order; a chain of conditions is one ask.

    Args:
        text: the comment.
        questions: its sentences that ask, with their sureness.
        sentences: the same, marked.
        types: what each of them wants, with its sureness.
    """
    found: list[Asked] = []
    for (piece, sureness), sentence, told in zip(questions, sentences, types, strict=True):
        sure = round(sureness * told.sureness, 4)
        kind = _kept_from_us(told.type, text, piece.text)
        last = found[-1] if found else None
        if last and _belongs(last, kind, sentence, *_parted(text, last, piece)):
            found[-1] = Asked(last.start, piece.end, last.type, max(last.sureness, sure), last.others)
        else:
            found.append(Asked(piece.start, piece.end, kind, sure, told.others if kind == told.type else ()))
    return found


def _parted(text: str, last: Asked, piece: Piece) -> tuple[str, str, str]:
    """A question, what stands after it, and the next question."""
    return text[last.start : last.end], text[last.end : piece.start], text[piece.start : piece.end]


def _kept_from_us(kind: AskType, comment: str, sentence: str) -> AskType:
    """Questions of body and safety are told by rule too, since to miss one costs more than any other mistake."""
    if limits.health_asked(sentence, comment) or limits.allergy_asked(sentence, comment):
        return "allergy" if kind == "allergy" else "health"
    return "safety" if limits.hazard_asked(sentence, comment) else kind


def _belongs(last: Asked, kind: AskType, sentence: str, said: str, between: str, own: str) -> bool:
    """Whether a question only goes on with the one before it."""
    if between.strip(" ,;.?!") and len(between) > 40:
        return False
    if kind in _KEPT or last.type in _KEPT:
        return last.type == kind
    if _OR.fullmatch(between) or (last.type == kind != "other" and not (asks(said) and _asks_more(own))):
        return True
    if last.type == "swap" and _WHAT_INSTEAD.search(said) and _IDEA.fullmatch(sentence):
        return True
    if last.type in _FAILED and kind in _BLAMED and _SUSPECTS.search(sentence):
        return True
    return kind in _FOLLOWING and last.type in {"swap", "weight", "scaling"} and bool(_GOES_ON.search(sentence))


def _asks_more(own: str) -> bool:
    """Whether a sentence is a question with words of its own."""
    return asks(own) and telling(own) > _LITTLE


def items_of(ask: Asked, text: str, mentions: Sequence[Mention], amounts: Sequence[Amount]) -> tuple[str, ...]:
    """The ingredients asked about: those named in the asking, else those it points back to."""
    inside = [m for m in mentions if ask.start <= m.start and m.end <= ask.end]
    before = [m for m in mentions if m.end <= ask.start]
    if ask.type == "swap":
        return _swapped(ask, text, inside, mentions, amounts)
    if not inside and (_POINTS_BACK.search(text[ask.start : ask.end]) or ask.type in _ABOUT_WHAT_WENT_BEFORE):
        inside = _one_thing(before) if ask.type in _ABOUT_ONE else before[-2:]
    return tuple(dict.fromkeys(m.item for m in inside))


def _one_thing(before: list[Mention]) -> list[Mention]:
    """The thing named before, if it is one: of flax and the oil pressed from it, either may be meant."""
    return before[-1:] if len({mention.ingredient for mention in before}) == 1 else []


def _swapped(
    ask: Asked, text: str, inside: Sequence[Mention], mentions: Sequence[Mention], amounts: Sequence[Amount]
) -> tuple[str, ...]:
    """For a swap: first what is replaced, then what is used; what else the asking names is left out."""
    sentence = marked(text, ask.start, ask.end, mentions, amounts)
    before = [m for m in mentions if m.end <= ask.start]
    replaced, used = pair_in(sentence)
    found = [inside[place].item for place in (replaced, used) if place is not None and place < len(inside)]
    if replaced is None and (used is not None or not inside):
        found = found or [m.item for m in before[-1:]]
        lacking = lacking_in(marked(text, 0, len(text), mentions, amounts))
        if lacking is not None and lacking < len(mentions):
            missing = mentions[lacking].item
            found = _other_than(missing, found) or _other_than(missing, [m.item for m in before])[-1:]
            found.insert(0, missing)
    elif used is None and before and points_at_used(sentence):
        found.append(before[-1].item)
    return tuple(dict.fromkeys(found or (m.item for m in inside)))


def _other_than(missing: str, items: Sequence[str]) -> list[str]:
    """What else was named than the thing that is missing: that is what would be used."""
    return [item for item in items if item != missing]


def amounts_of(ask: Asked, text: str, amounts: Sequence[Amount]) -> tuple[Amount, ...]:
    """The amounts said in the asking, else the last one that it points back to ("2 cups flour. How much is this?")."""
    inside = tuple(a for a in amounts if ask.start <= a.start and a.end <= ask.end)
    if inside or ask.type not in {"weight", "convert"} or not _POINTS_BACK.search(text[ask.start : ask.end]):
        return inside
    return tuple(a for a in amounts if a.end <= ask.start and a.unit)[-1:]
