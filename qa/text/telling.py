"""How many words of a text tell what it is about: "what did I do wrong?" has none."""

from __future__ import annotations

import re

# Words that say nothing of a subject.
_EMPTY = frozenset(
    """the and but for not any are can could did does doing done don't get got had has have having her him his how i'm
    is isn't it's its just make made many may mine more much must mean need normal okay one our please really right
    same say should so some still such than thanks that that's the their them then there these they this those too use
    used using very want was wasn't way well were what what's whats when where which who why will with won't would
    wouldn't wrong you your advice anyone been being bad before cause caused causes change differently do fix going
    happen happened happening happens help idea ideas issue keep keeps know maybe missing mistake point problem reason
    result save saved secret solution something suggest suggestion suggestions thing think tip tips trick try work
    because also again always every time next first after better best good now like often ever never sure matter
    matters due fault guess could've should've lol haha pls plz tell hello dear anybody everyone else instead start
    starting maybe perhaps possible possibly okay fine""".split()
)
_WORD = re.compile(r"[^\W\d_][\w']+")


def telling(text: str) -> int:
    """How many words of a text are neither short nor empty.

    >>> telling("What did I do wrong?"), telling("Does the syrup need boiling?")
    (0, 2)
    """
    return sum(len(word) > 2 and word.lower() not in _EMPTY for word in _WORD.findall(text))
