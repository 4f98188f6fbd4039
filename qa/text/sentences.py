"""Split a comment into sentences and clauses, also where punctuation or line breaks were lost."""

from __future__ import annotations

import re

# So many characters before an inversion tell whether it goes on with the clause.
_SEEN = 60
# A clause shorter than this many words is not cut off from the question after it ("So can I ...").
_FEWEST_WORDS = 2

# Where one sentence ends and another begins: after closing marks, at line breaks, at "P.S." and "Question:",
# and at numbered notes ("2) ").
_END = re.compile(
    r"""(?<=[.!?…])(?<!\b[ie]\.[eg]\.)(?<!\bapprox\.)(?<!^[1-9]\.)(?<!\s[1-9]\.)["')\]]{0,3}\s+(?=\S)
      | \s*\n\s*
      | \s+(?=(?:p\.?\s?s\.?|ps|q|question|quick\ question|tip|update|edit|note|eta)\s?[:,.])
      | \s+(?=\(?[1-9][.)]\s)
      | \s+(?=[•▪*]\s)
      | [ ]?;\s+ | \s+[-–—]{1,3}\s+(?=(?:can|could|how|what|why|is|do|does|did|should|would|any|has|but|also)\b)
    """,
    re.VERBOSE | re.IGNORECASE,
)
# Glued text, where a break was lost: "great!Can I", "recipeWhat can". Here capitals count.
_GLUED = re.compile(
    r"(?<=[a-z0-9)][.!?])(?=[A-Z][a-z'])"
    r"|(?<=[a-z]{3})(?=(?:What|How|Can|Could|Is|Do|Does|Why|Where|When|Has|Would|Also|Thank)\b)"
)
_SUBJECT = (
    r"(?:i|you|u|we|it|they|this|that|these|those|the|my|your|there|he|she|any(?:one|body)|some(?:one|body)|one|ya)\b"
)
# A question that begins in mid-sentence: a joining word and an inversion, a question word, or "has anyone".
_INVERTED = (
    r"(?:can|could|should|would|will|may|do|does|did|is|are|was|were|has|have|am|isn't|aren't|can't|don't|doesn't|"
    r"couldn't|shouldn't|wouldn't)\s+" + _SUBJECT
)
_WH = (
    r"(?:how\s+(?:much|many|long|do|does|did|can|could|would|should|is|are|about|come|big|hot|far)\b|"
    r"wh(?:at|ich|ere|en|y|o)(?:'s)?\s+(?:can|could|should|would|do|does|did|is|are|was|were|will|size|kind|type|brand|"
    r"temp(?:erature)?|about|if|else|happens|flour|went|am|didn't|isn't|doesn't)\b|why\s+(?:do|does|did|is|are|was|were)\b)"
)
_ASKS = (
    rf"(?:{_INVERTED}|{_WH}|any\s+(?:idea|ideas|tips|suggestions|advice|chance|thoughts|substitute)\b|"
    r"please\s+(?:tell|help|advise|share))"
)
# ", and is margarine all right?": after a comma and a joining word any subject does, if all ends in a question mark.
_ASKS_AS_WELL = (
    r"(?:is|are|would|will|does|can|could|should)\s+"
    r"(?!(?:be|been|make|bake|use|say|love|like|recommend|very|so|really|quite|too|not|now|still|always|just|also|never|only|all|\w+ly|\w+ing|\w+ed|more|less)\b)"
    r"[\"'“a-z][^.!?\n]{5,160}\?"
)
_OPENING = re.compile(
    rf"(?:,\s*|\s+)(?:(?:but|and|also|so|because|btw|otherwise|however|now|though|or)\s+){{0,2}}(?={_ASKS})"
    rf"|,\s*(?:and|also|or|but)\s+(?={_ASKS_AS_WELL})"
    r"|,\s+(?=(?:but|so|however|though|although)\s)|\s+(?=(?:but|however)\s+(?:i|it|the|my|we|they|this|mine)\b)",
    re.IGNORECASE,
)
# Words after which an inversion is no new question: "what can i", "so can you", "if is", "know what is".
_HOLDS = re.compile(
    r"(?:\b(?:what|which|how|why|where|when|who|much|many|long|flour|if|whether|that|than|as|know|wonder|wondering|"
    r"tell me|see|ask|like|not|or|of|for|to|with|(?<!\bgo\s)(?<!\bput\s)(?:on|in)|"
    r"the|a|depends|depending|is|are|idea|sure|about|why it|how it|what it)|^)\s*,?$",
    re.IGNORECASE,
)
# "instead of lard can I use butter": what is replaced stays with its question.
_FRONTED = re.compile(r"(?:^|[,;:.]\s*)(?:instead of|in place of|rather than|in lieu of)\s[^,;.?!]*$", re.IGNORECASE)


# "how much flax do i use", "which sugar can i take": the question word has its noun with it.
_WH_NOUN = re.compile(
    r"(?:^|[,.!?:;(]\s*|\b(?:and|but|so|or)\s)(?:(?:how (?:much|many)|what|which)"
    r"(?:\s(?!(?:you|i|we|they|he|she|it|is|are|was|do|does|did|to|use|used|can|so|and|or|but)\b)[\w'-]+){1,7}"
    r"|how (?:long|far|soon|thick|thin|big|hot|sticky|wet|full|deep)(?:\s[\w'-]+){0,2})$",
    re.IGNORECASE,
)
# "will maple syrup do the same job": the verb that a word before the subject asks for.
_MODAL = re.compile(r"\b(?:can|could|should|would|will|may|does|did)(?:\s[\w'-]+){1,3}$", re.IGNORECASE)
_BARE_VERB = re.compile(r"(?:do|have)\s+(?!i\b|you\b|we\b|they\b|any)", re.IGNORECASE)
_SUBJECT_BEFORE = re.compile(r"\b(?:i|you|u|he|she|we|they|it|this|that|who|there|mine|these|those)$", re.IGNORECASE)
# "can I" holds whatever verb follows: "can I can this".
_BEGUN = re.compile(r"\b(?:can|could|should|would|may|do|does|did)\s+(?:i|you|u|we|they|one)$", re.IGNORECASE)
_ITS_VERB = re.compile(
    r"(?:have|has|do|does|did|is|are|was|were|am|don't|doesn't|didn't|isn't|aren't)\b", re.IGNORECASE
)


def pieces_of(text: str) -> list[tuple[int, int]]:
    """Start and end of each sentence or clause of a cleaned text, in order, without the spaces between.

    >>> text = "Loved it, came out fluffy!Can I freeze it and does it work with oat flour"
    >>> [text[start:end] for start, end in pieces_of(text)]
    ['Loved it, came out fluffy!', 'Can I freeze it', 'does it work with oat flour']
    """
    found: list[tuple[int, int]] = []
    for start, end in _sentences(text):
        found += _clauses(text, start, end)
    return _joined(text, found)


def _sentences(text: str) -> list[tuple[int, int]]:
    cuts = sorted({(m.start(), m.end()) for pattern in (_END, _GLUED) for m in pattern.finditer(text)})
    spans, start = [], 0
    for cut, resume in cuts:
        if cut >= start:
            spans.append((start, cut))
            start = resume
    return [*spans, (start, len(text))]


def _clauses(text: str, start: int, end: int) -> list[tuple[int, int]]:
    """Cut a sentence where a question begins in its middle."""
    spans, at = [], start
    for m in _OPENING.finditer(text, start, end):
        before = text[at : m.start()]
        if (
            len(before.split()) < _FEWEST_WORDS
            or _FRONTED.search(before)
            or _goes_on(before[-_SEEN:], m.group(), text[m.end() :][:12])
        ):
            continue
        spans.append((at, m.start()))
        at = m.end()
    return [*spans, (at, end)]


def _goes_on(before: str, between: str, after: str) -> bool:
    """Whether what looks like the beginning of a question only goes on with the clause: "what can i", "she have"."""
    if "," in between:
        return False
    if _HOLDS.search(before):
        return True
    if between.strip():
        return False
    if _WH_NOUN.search(before) or (_MODAL.search(before) and _BARE_VERB.match(after)):
        return True
    return bool(_BEGUN.search(before) or (_SUBJECT_BEFORE.search(before) and _ITS_VERB.match(after)))


def _joined(text: str, spans: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Drop empty spans, trim spaces, and join crumbs such as "P.S." or a lone emoji to a neighbour."""
    found: list[tuple[int, int]] = []
    for start, end in spans:
        inside = text[start:end]
        start, end = end - len(inside.lstrip()), end - (len(inside) - len(inside.rstrip()))  # noqa: PLW2901
        if start >= end:
            continue
        if found and not any(c.isalnum() for c in text[start:end]):
            found[-1] = (found[-1][0], end)
        else:
            found.append((start, end))
    return found
