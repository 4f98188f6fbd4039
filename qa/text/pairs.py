"""Who is replaced and what is used instead: the trade's frames for a swap, and what a pronoun in them stands for.

The frames are looked for in marked sentences, in which every ingredient is X. In a frame R is the ingredient that is
replaced and U the one used instead. How the phrases are written: see `qa.text.phrases`.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from qa.text.phrases import as_pattern


class Pair(NamedTuple):
    """Places of the replaced and of the used ingredient among those of a sentence; None where it names none."""

    replaced: int | None
    used: int | None


def _frames(written: str) -> re.Pattern[str]:
    pattern = re.sub(r"\bR\b", "(?P<r>X)", re.sub(r"\bU\b", "(?P<u>X)", as_pattern(written)))
    return re.compile(rf"\b(?:{pattern})(?!\w)", re.IGNORECASE)


_INSTEAD = """instead of | in stead of | in place of | in lieu of | rather than | as a sub* for | stands? for | in for |
    (stands?|fill|step|go|put) in for | take the place of | take over from | pass for | go for | serve for |
    do the job of |
    where (it|you|the recipe|a recipe|a .. recipe) (says?|calls for|puts?|uses?|used|wants|have|has|had)"""
_NONE_OF = """no | nae | out of | ran out | run out of | don't have | haven't got | can't (have|get|find|eat|use) |
    (don't|do not|dont) (eat|do|get) | never any"""
_ASKED_FOR = "(recipe|it|you|video|book) (says?|said|calls for|called for|wants?|asks for|uses?|used|needs?)"
# The first that fits decides; each holds one frame, since a name may stand for one group only.
_BOTH = tuple(
    _frames(written)
    for written in (
        "(replac*|swap*|chang*|exchang*|switch*|trad*) .. R .. (with|for|by|to|into|and use) .. U",
        "(sub|subs|subbing|substitu*) .. R .. (with|by) .. U",
        "U .. (be )?(subbed|substituted) (in )?for .. R",
        "U .. (be )?(replaced|swapped|exchanged|switched) in for .. R",
        "R .. (be )?(replaced|swapped|subbed|substituted|exchanged|switched) .. (with|by|for|out for) .. U",
        "(sub|subs|subbing|substitu*) .. U .. for .. R",
        f"U .. ({_INSTEAD}) .. R",
        f"U ... ({_INSTEAD}) .. R",
        """U .. (in|into|for|to|when|if|though|although|since|because) (a|an|the|my|this) ..
            (calls for|called for|calling for|asks for|asked for|asking for|says|wants) .. R""",
        "(instead of|in place of|rather than|in lieu of) .. R .. (use|using|can i|could i|is|put|try|with) .. U",
        "U .. (replac*|substitu*) .. R",
        "U .. (behave|work|act|bind|hold|set|whip|brown|cream|do what|be|one to one|1:1) .. (like|as|with|way) .. R",
        f"({_NONE_OF}) .. R .. (can|could|use|have|got|only|will|would|works?|do|is|any good|instead) .. U",
        "U .. (because|since|as|but) .. (no|don't|haven't|not|without) .. R",
        f"(got|have|only|mine is|bought) .. U .. ({_ASKED_FOR}) .. R",
        f"({_ASKED_FOR}) .. R .. (have|got|only|mine|can i|could i|is it ok) .. U",
        "(leave|leaving|skip*|omit*|cut) .. R .. (if|and) .. (use|add|double|put|have) .. U",
        """(i|we) (always|usually|normally|mostly)? ?use .. R ..
            (is|are|would|will|can|could) .. U .. (ok|okay|fine|work|do)""",
    )
)
# "without X or X": both are replaced.
_JOINED = re.compile(r"\s(?:or|and)\s(?:the\s|any\s)?X\b")
# "X for the X" says it too, where no other word does.
_PLAIN, _OTHER_WORD = (
    _frames("U for .. R"),
    re.compile(r"what|which|instead|alternativ|substitut|replac|equivalent", re.IGNORECASE),
)
_WITHOUT = """instead of | in place of | rather than | replac* | (replac*|sub*|substitut*) (for|of) |
    need | put .. for | alternative* (to|for) | equivalent (of|to) | leave out | leave | leaving | skip* | omit* |
    without | out of | don't have | necessary | do without"""
_REPLACED = tuple(
    _frames(written)
    for written in (
        f"({_WITHOUT}) (the|any|my|all|dry|both)? ?R",
        "R (substitu*|replacement|alternative*|-?free)",
        "R .. (left out|out|be omitted|be skipped|necessary|optional|be replaced)",
    )
)
_USED = tuple(
    _frames(written)
    for written in (
        """(can|could|may|should|would|will|ok to|okay to|fine to|possible to|take) (i|you|we|u|one)? ?(just|also)?
            ?(use|used|try|take|put|do|go with|sub in|add|have)? ?(the|some|my|a|dry|fresh)? ?U""",
        "(with|using|use|from) (the|some|my|a)? ?U",
        "(will|would|does|do|could|can|is) (the|some|my)? ?U .. (work|works|do|ok|okay|fine|alright|hold|bind)",
        "(will|would|does|do|could|can|is) (the|some|my)? ?U .. (any good|pass|weird|odd)",
        "U (ok|okay|any good|yea|instead|works?|fine)",
    )
)
# Something is missing, not eaten or disliked: what is used elsewhere in the comment replaces it.
_LACKING = (
    _frames(
        f"({_NONE_OF} | haven't any | can't stand | off | allergic to | without | hate | says) (any|the|more|my)? ?R"
    ),
    _frames("R (doesn't suit|not available|isn't available|isn't sold|(is|are) (so|too|very) (dear|expensive|pricey))"),
)
# A pronoun that is used in place of R: "could that stand in for the flour?"
_POINTED = _frames(
    f"(it|that|this|those|these|they|am) ... "
    f"({_INSTEAD}|replac*|(do|bind|work|behave) (what|like)|(work|be good) for) .. R"
)


def pair_in(sentence: str) -> Pair:
    """Which of a marked sentence's ingredients is replaced, and which is used.

    >>> pair_in("can I use X instead of X in X cookies?"), pair_in("replace the X with X")
    (Pair(replaced=1, used=0), Pair(replaced=0, used=1))
    >>> pair_in("what can I use instead of X for the X?"), pair_in("leave out the X")
    (Pair(replaced=0, used=None), Pair(replaced=0, used=None))
    """
    for frame in _BOTH:
        if found := frame.search(sentence):
            return Pair(_place(sentence, found, "r"), _place(sentence, found, "u"))
    if (found := _PLAIN.search(sentence)) and not _OTHER_WORD.search(sentence):
        return Pair(_place(sentence, found, "r"), _place(sentence, found, "u"))
    for frame in (_POINTED, *_REPLACED):
        if found := frame.search(sentence):
            one = _place(sentence, found, "r")
            return Pair(one, one + 1 if _JOINED.match(sentence, found.end("r")) else None)
    for frame in _USED:
        if found := frame.search(sentence):
            return Pair(None, _place(sentence, found, "u"))
    return Pair(None, None)


def role_in(sentence: str, comment: str) -> int:
    """1 if a marked sentence tells only what is replaced, -1 if only what is used, else 0.

    What its comment says is lacking is replaced, though the sentence itself names something to use.

    >>> role_in("what can I use for it?", "no X here. what can I use for it?"), role_in("can I use X?", "can I use X?")
    (1, -1)
    >>> role_in("can I use X instead of X?", "can I use X instead of X?")
    0
    """
    pair, lacking = pair_in(sentence), lacking_in(comment) is not None
    if pair.replaced is None and (lacking or pair.used is None):
        return int(lacking)
    return (pair.replaced is not None) - (pair.used is not None)


def names_only_used(sentence: str) -> bool:
    """Whether a marked sentence says what shall be used, and not in place of what."""
    pair = pair_in(sentence)
    return pair.replaced is None and pair.used is not None


def points_at_used(sentence: str) -> bool:
    """Whether a pronoun of a marked sentence is what shall be used in place of an ingredient named there."""
    return bool(_POINTED.search(sentence))


def lacking_in(comment: str) -> int | None:
    """Which of a marked comment's ingredients the writer has not got, or will not have."""
    found = next((found for frame in _LACKING if (found := frame.search(comment))), None)
    return _place(comment, found, "r") if found else None


def _place(sentence: str, found: re.Match[str], group: str) -> int:
    """The how-manieth X of a sentence a group has found."""
    return len(re.findall(r"\bX\b", sentence[: found.start(group)]))
