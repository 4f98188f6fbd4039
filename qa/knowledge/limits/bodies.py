"""Questions of somebody's body: an illness, a medicine, a dose, an allergy, an infant, an animal.

A medical word is mostly the motive and not the question. Two grammars tell them apart. Some questions say outright who
is to eat, or what it does to a body; they go to a person whatever else they hold. Others only ask for a verdict, while
the rest of the comment speaks of an illness; they go to a person unless they plainly ask about the baking.
"""

from __future__ import annotations

import re

from qa.knowledge.limits.baking import CAUSE, FAULT, baking_asked
from qa.knowledge.limits.outright import OUTRIGHT
from qa.knowledge.limits.words import MEDICAL, PETS, SMALL, SYMPTOMS, in_full, kin_named, plain
from qa.text.phrases import phrases

# It went into a mouth already.
_SWALLOWED = phrases(
    """ate | grabbed | snatched |
        found | helped (him|her|it)self | demolished | devoured | polished off | inhaled | eaten | eat | had |
        have had | swallowed | licked | nicked | stole | pinched | got (into|hold|at|the) | snaffled | scoffed |
        wolfed | chewed | tasted | nibbled | since (i|she|he|we) |
        after (eating|two|one|three|a|the|your|these|this|that|having|i|she|he) | reacted | gave | fed | given |
        put .. mouth | drank |
        gobbled | has been at"""
)
_HAS_EATEN = re.compile(
    rf"""(?:{SMALL.pattern}|{PETS.pattern})(?:\W+\w+){{0,3}}?\W+{_SWALLOWED.pattern}""", re.IGNORECASE
)
# Whose eggs they are; nobody asks to feed those.
_LAID_BY = re.compile(
    r"\bfrom\s(?:my|our|her|his|their|the)\s(?:own\s|neighbou?r'?s?\s)?(?:hens|chickens|ducks)(?=\s*(?:[.,;:!?]|and\b|$))",
    re.IGNORECASE,
)
_PERSON = phrases("i | me | my | he | she | him | her | his | they | we | you | us")
_MINE = phrases(
    """(i|me|my|he|she|his|her|him|we|our|they|kiddo|kid|child|son|daughter|gives?|gave|make|makes) ..
        (hives|rash|throat|lips?|tongue|mouth|face|chok*|stomach|tummy|belly|guts?|arm|hand|finger*|head|fever|bumps|
        cramps?|bloat*|runs|itch*|wind|gas)"""
)
_FEEDS = phrases(
    """feed* | give | gives | giving | gave | share | sharing | treats? | eat* | have | has | had | nibble* | lick*
        | toxic | poison* | safe | ok | okay | fine | bad | harm* | kill* | danger* | allowed | let | serve |
        taste | bit of | suitable | manage | introduce | offer* | start* | age | old enough | when | any | snack
        | good | alright | thicken* | call | vet | doctor | hospital | symptoms | count | eating | raw | what
        (do|should) i do | what now | problem | worry | worried |
        panic* | ring"""
)
# A verdict on eating is asked for without saying for whom.
_VERDICT = phrases(
    """safe | unsafe | ok | okay | alright | all ?right | fine | good (for|or|idea) | bad | suitable | permissible |
        off limits | pass | off the (table|list|menu) | avoid* | healthy | harm* | danger* | risk* | allowed | worry |
        worried | problem | wise | sensible | no[ -]no | too (much|close|many) | a day | per day | daily | every
        day | (which|what|anything|something) .. (can|could|may|should) (he|she|they|i|we) .. (eat|have|take) |
        what (can|could|should) (he|she|they|i|we) (eat|have|take) | count (it|this|them|carbs|the) | counts? as
        | interact* | interfer* | space[ds]? | apart | rule (it|that) out | is (that|it|this) true | warn |
        react* | symptoms | urgent care | see (someone|a doctor) | call (the|a|my) | scared | matter | enough
        for | poison* | toxic | mean no | reason not | (can|could|may|should|to|let .. )
        (he|she|they|i|we|you|him|her|them|my \\w+|the \\w+) .. have | to have | (can|could|may|should) .. eat*
        | do (for|him|her|them) | touch | related | is it the | (the same|same) (for|as) (him|her|me|them) |
        count .. (as|bad)"""
)
_POLAR = re.compile(
    r"""(?:^|[,;:.!?(…-]\s*|\b(?:so|and|but|or|please|pls|then|well|now|also|that)\s)"""
    r"""(?:is|are|isn't|aren't|was|can|could|may|might|should|shall|would|will|"""
    r"do|does|don't|doesn't|has|have|any|am|must|dare)\s"
    r"(?:it|this|that|these|those|they|he|she|i|we|you|u|him|her|my|our|the|a|an|one|any|someone|there)\b",
    re.IGNORECASE,
)


def health_asked(sentence: str, comment: str) -> bool:
    """Whether a question is about somebody's body: a medicine, an illness, a dose, an infant, a pet.

    >>> health_asked("is a spoon of flax a day ok?", "I take blood thinners, is a spoon of flax a day ok?")
    True
    >>> health_asked("does erythritol hold a meringue?", "for my diabetic dad, does erythritol hold a meringue?")
    False
    """
    sentence, comment = plain(in_full(sentence, comment, 3)), _LAID_BY.sub("", plain(comment))
    if (
        alarming(sentence)
        or _drink_in_it(sentence, comment)
        or (OUTRIGHT.search(sentence) and not _only_baking(sentence))
    ):
        return True
    if (
        SYMPTOMS.search(comment)
        and (_PERSON.search(sentence) or _SWALLOWED.search(comment) or _MINE.search(comment))
        and not baking_asked(sentence)
    ):
        return True
    if PETS.search(comment) and _FEEDS.search(sentence) and not _WHY.search(sentence):
        return True
    if baking_asked(sentence) or cause_asked(sentence, comment) or FAULT.search(sentence):
        return False
    if _HAS_EATEN.search(comment):
        return True
    if SMALL.search(comment):
        return True
    if PETS.search(comment):
        return bool(_FEEDS.search(sentence) or _SWALLOWED.search(sentence))
    return bool(MEDICAL.search(comment))


# Who must not have drink, and what is asked when it is only to be replaced.
_SPIRITS = phrases("alcohol | rum | brandy | beer | wine | whisk(e)?y | sherry | liqueur | kirsch | vodka | bourbon")
_DRY = phrases(
    """kids? | child(ren)? | toddlers? | little ones | sober | recovery | recovering | alcoholic | rehab | pregnan* |
        breast-?fe* | school | nursery"""
)
_REPLACED = phrases(
    "instead | replac* | sub | substitut* | swap* | without | (leave|leaving) out | in place of | non[ -]?alcoholic"
)


def _drink_in_it(sentence: str, comment: str) -> bool:
    """Whether a question is about drink in a bake for those who must not have any."""
    return bool(_SPIRITS.search(sentence) and _DRY.search(comment) and not _REPLACED.search(sentence))


def alarming(sentence: str) -> bool:
    """Whether a sentence tells of an animal or a small child that just ate what harms it, asked or not.

    >>> alarming("our pug wolfed down half the raisin loaf!!"), alarming("the dog ate my recipe card")
    (True, False)
    """
    said = plain(sentence)
    return bool(_POISON.search(said) and _HAS_EATEN.search(said))


_POISON = phrases(
    """choc(olate)? | cocoa | avocado | raisins? | sultanas? | grapes? | currants? | macadamia* | xylitol |
        birch sugar | onions?
        | garlic | (raw|yeast|bread|pizza|some) dough | nutmeg | alcohol | rum | salt dough | coffee | mince
        pies? | christmas cake | fruit ?cake | honey | (silver|metal|plastic) .. (ball|bead|decoration) | bead |
        sachet | packet | sprinkles? | whole nuts? | peanuts? | cashews?"""
)


def _only_baking(sentence: str) -> bool:
    """Whether a seeming verdict is about how something bakes, as in "will it rise for my diabetic dad"."""
    return bool(_MOTIVE.search(sentence)) and baking_asked(_MOTIVE.sub("", sentence))


# Whom it is for, said in passing: "for my diabetic dad,".
_MOTIVE = re.compile(
    r"(?:^|[,(;:-]\s*|\s)"
    r"(?:(?:baking|cooking|making|asking|bake|cook|make|making this|making it|need it|it's|its)\s)?"
    r"(?:for|as|since|because|with)\s"
    r"(?:(?:my|our|a|an|the|his|her|i|i'm|im|am|we|we're|he's|she's|someone|somebody|is|are|has|have|with|who|type|"
    r"on|and|\w+'s)\s){0,5}(?:\w+\s){0,2}"
    r"(?:diab\w+|co?eliac\w*|allerg\w+|pregnan\w+|intoleran\w+|kidney\w*|gout|ibs|keto)(?:\s"
    r"(?!can\b|could\b|may\b|should\b|eat\b|have\b)\w+)?",
    re.IGNORECASE,
)


def _asks_verdict(sentence: str) -> bool:
    return bool(_VERDICT.search(sentence) or _POLAR.search(sentence))


def motive_only(piece: str) -> bool:
    """Whether a sentence only tells why the next is asked: it names an illness, and asks and tells of nothing more.

    >>> motive_only("IBS so no onion"), motive_only("she came out in hives"), motive_only("will it raise my sugar")
    (True, False, False)
    """
    said = plain(piece)
    return (
        bool(MEDICAL.search(said) or SMALL.search(said))
        and not (piece.rstrip().endswith("?") or SYMPTOMS.search(said) or _SWALLOWED.search(said))
        and not (OUTRIGHT.search(said) or _POLAR.search(said) or alarming(piece))
    )


def cause_asked(sentence: str, comment: str) -> bool:
    """Whether a question asks why a bake went wrong, where no body felt anything.

    >>> cause_asked("Any idea?", "Doctor told me off wheat, my loaf is wet every time. Any idea?")
    True
    >>> cause_asked("Any idea?", "The loaf is dry and I came out in hives. Any idea?")
    False
    """
    if SYMPTOMS.search(comment) or OUTRIGHT.search(sentence):
        return False
    return bool(CAUSE.search(sentence) and FAULT.search(comment))


# Whether a food holds what the label laws name.
_NAMED = (
    "gluten|wheat|dairy|lactose|milk|eggs?|nuts?|peanuts?|almonds?|soya?|sesame|allergens?|casein|sul(?:ph|f)ites|lupin"
)
_FEW = r"(?:\W+[\w'%-]+){0,6}?\W+"
_HOLDS_ALLERGEN = re.compile(
    rf"\b(?:is|are|does|do|was|isn't|aren't)\b{_FEW}(?:{_NAMED})[ -]free(?:\W*$|\W+(?:or|naturally|by)\b)"
    rf"|\b(?:does|do|will|would|doesn't)\b{_FEW}(?:contain|(?:have|has)(?!\W+to\b))\W+"
    rf"(?:\w+\W+){{0,3}}?(?:{_NAMED})\b(?!-)"
    r"(?:\W+(?:in|or)\W.{0,24})?\W*$"
    rf"|\bcontain\w*\W+(?:\w+\W+){{0,2}}?(?:{_NAMED})\b"
    rf"|\b(?:is|are) there\W+(?:(?:any|some|tree|cow's)\W+)?(?:{_NAMED})\W+in\b",
    re.IGNORECASE,
)
_IN_GENERAL = phrases("""same | difference | mean* | definition | versus | vs | version | swap | substitut* |
    alternative* | instead | replac*""")
# One tool or room for two kinds of baking.
_CONTACT = phrases(
    """(wash*|wip(e|ed|ing)|clean*|rins*|dishwasher|run|share*|same|separate|use|scrub*|dust*) ..
        (sieve|processor|blender|grinder|toaster|fryer|oil|board|kitchen|mixer|oven|tin|tins|pan|spoon|bowl|counter|
        worktop|bench|whisk|rolling
        pin|utensils?|equipment) | cross-? ?(contact|contaminat*) | crumbs? .. (in|on) ..
        (butter|toaster|board|jam)"""
)
_ALLERGIC = phrases("""(nuts?|nut) .. (ban|banned|strict|policy|rules?|allowed|free) | strict .. nuts? | no[ -]nuts?
    | allerg* | anaphyla* | epi-?pens? | co?eliacs? | intoleran* | may contain | traces? | cross-? ?contact |
    cross-? ?contaminat* | swells? | patch test | nut[ -](safe|free) | can't have (anything|any|it) | reacts? |
    reacted | shared? .. (toaster|fryer|oil|kitchen|line|tin|board|sieve) | same ..
    (toaster|fryer|oil|board|sieve|spoon|knife|tin) | gluten[ -]free
    (guest|friend|kid|child|person|school|table)""")
_IN_IT = phrases(
    """contains? | containing | (is|are) (there|it|they|these|those|this) .. (in|free) |
        (wheat|gluten|nuts?|peanuts?|sesame|milk|dairy|soy|soya|eggs?) in (it|this|that|them|these|there|the) |
        (nut|peanut|allergen|egg|dairy|sesame|soy|soya|milk|gluten|coeliac|celiac)[ -]?(safe|friendly) | free
        (from|of) | count* (as|it) | counted | may contain | traces? | still (has|have|contain) | wiped | wash*
        | clean* | shared? | same .. (toaster|fryer|oil|board|sieve|spoon|knife|tin) | cross-?
        ?(contact|contaminat*) | treat* .. (as|like) .. (nut|allergen)"""
)  # fmt: skip


def allergy_asked(sentence: str, comment: str) -> bool:
    """Whether a question asks if somebody with an allergy, or a celiac, may have something.

    >>> allergy_asked("is that ok for her", "my daughter has a peanut allergy, is that ok for her")
    True
    """
    sentence, comment = plain(sentence), plain(comment)
    if _HOLDS_ALLERGEN.search(sentence) and not (
        _WHY.search(sentence) or _IN_GENERAL.search(sentence) or "glutinous" in comment
    ):
        return True
    if not _ALLERGIC.search(comment):
        return False
    if _CONTACT.search(sentence) and not _WHY.search(sentence):
        return True
    if kin_named(sentence, comment) and _asks_verdict(sentence) and not _WHY.search(sentence):
        return True
    if cause_asked(sentence, comment):
        return False
    return bool((_IN_IT.search(sentence) or _asks_verdict(sentence)) and not baking_asked(sentence))


_WHY = phrases("(where|why|how (do|can|to|long|much|many)|what (else|instead|temp*|size)|which)")
