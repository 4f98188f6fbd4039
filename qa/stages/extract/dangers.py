"""Tips that must not be repeated, and complaints that video and written recipe disagree.

How the phrases are written: see `qa.text.phrases`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from qa.knowledge.facts import Caution
from qa.records import Piece
from qa.text.phrases import phrases


@dataclass(frozen=True, slots=True)
class _Rule:
    """A tip not to repeat: every pattern must be found; `filed` is the word its caution goes by."""

    name: str
    filed: str
    patterns: tuple[re.Pattern[str], ...]


# Usual warnings of food authorities, given in the cautions themselves; here only how the tips are worded.
_FINE = """fine | safe | ok | okay | never | always | nobody | no problem | nothing happened | harmless | good | all
    right | alright | works? | keeps? | exaggerate | nonsense | myth | in their heads? | don't
    (pay|worry|need|tell) | won't (hurt|kill) | be fine | years | long | free | great"""
_RULES = tuple(
    _Rule(name, filed, tuple(map(phrases, written)))
    for name, filed, written in (
        ("garlic in oil", "garlic", (
            "garlic .. oil | oil .. garlic",
            """room temp* | cupboard | counter | shelf | pantry | all year | months? | weeks? | keeps? | windowsill
                | in the jar | on the side | since""",
        )),
        ("dry canning", "canning", (
            "jars? | canning | canned | lids?",
            """cakes? | bread | loaf | muffins? | batter | flour | butter | curd | oven | pumpkin | filling | pour*
                .. hot | upside""",
            "keeps? | months? | winter | pantry | shelf | seal* | ping | years?",
        )),
        ("honey for an infant", "infant", (
            "honey",
            """bab(y|ies) | infants? | newborns? | months? old | under (one|1) | teeth* | dummy | pacifier | little
                one | grandbab*""",
        )),
        ("raw flour or egg", "raw", (
            """raw (flour|dough|batter|cookie dough|eggs?|milk) | (eat*|lick*|taste*|drink*) .. (raw|dough|batter)
            | (heat[ -]treat*|microwav*|toast*|bake) .. flour | cracked eggs""",
            _FINE + " | kills? | edible | eat | drink | invented | thicken*",
        )),
        ("xylitol and pets", "xylitol", ("""xylitol | birch sugar""", """dogs? | pup* | pets? | cats? | spaniel |
            terrier""")),
        ("another allergen", "allerg", (
            "allerg* | anaphyla* | epi-?pens?",
            """just use | use .. (butter|flour|milk|nuts?) | tiny bit | little bit | grow out | only peanut |
                tolerance | made up | cashew | almond | nonsense | be fine | is fine | are fine | exaggerat* |
                get used""",
        )),
        ("gluten for a celiac", "gluten", (
            "co?eliacs? | gluten[ -]free | gf | no gluten | gluten intoleran*",
            """oats? | spelt | kamut | einkorn | barley | rye | wheat | sourdough | durum | semolina | couscous |
                normal flour | a little | crumbs?""",
            """(is|are|be|it's|its|'s) fine | safe | ok for | okay for | no gluten | have no gluten | can (eat|have)
                | don't (pay|worry|need) | any oats | handle | in their heads? | never hurt* | never been ill |
                doesn't count | without telling""",
        )),
        ("mould", "mould", (
            "mou?ld* | fuzz*",
            "cut | scrape | scoop | fine | eat | toast | harmless | corner | feed | around",
        )),
        ("undercooked", "undercooked", (
            "undercooked | underbaked | raw (middle|inside|meat) | runny (egg|middle)",
            """perfectly safe | totally safe | safe to eat | completely safe | fine to eat | never (got|been) sick
            | won't (hurt|kill)""",
        )),
        ("left out", "room temperature", (
            """left (it|them|mine)? ?out | leave (it|them|mine)? ?out | sits? out | sat out | sit on | keeps?
                (it|them|mine)? ?(on|out)""",
            "cream | custard | eggs? | meat | rice | milk | cheesecake | quiche | chicken | pumpkin | pies?",
            "fine | never | always | safe | no problem | nobody | all weekend | for days",
        )),
        ("medicine", "medic", (
            """stop(ped)? (taking )?(your|my|her|his)? ?(meds|medication|insulin|metformin|statins?|pills?) | cures?
                | cured | instead of (insulin|metformin|medication|meds) | revers* .. diabetes | forget the
                doctor | sorted my (kidneys| diabetes|cholesterol|liver) | diabetics can eat (as much|all|this
                freely) | doesn't count as sugar | throw (away|out) your (meds|pills|insulin)""",
        )),
        ("dry psyllium", "psyllium", (
            "psyllium | husks?",
            "dry | without water | no water",
            "swallow | eat | straight | spoonful",
        )),
        ("kernels", "kernel", (
            """apricot kernels? | bitter almonds? | apple seeds? | cherry (pits?|stones?) | peach
                (pits?|kernels?|stones?)""",
            "use | eat | add | grind | grate | crush* | handful | flavou?r | almond taste",
        )),
        ("raw flour on skin", "raw", ("raw flour | flour", "rash | nappy | diaper | bottle of milk | spits up")),
        ("not a food", "", (
            "borax | food grade peroxide | alum | mineral oil | essential oils?",
            "use | add | drops? | eat | trick | spoon",
        )),
    )
)  # fmt: skip
_WARNS = phrases(
    """please don't | do not | don't (ever|give|feed|eat|store|do|leave|try) | not (safe|fine|ok|okay|automatically)
        | kills | never (give|feed|eat|keep|use|store|leave|let|do) | dangerous | danger | poison* | toxic | fatal |
        botulism | warning | careful | be aware | joke | joking | kidding | no longer safe | isn't safe | aren't
        safe | not gluten free | vet | call a | stop telling | stop saying | unsafe"""
)
# A tip is short; a long story holds all words by chance.
_LONGEST_TIP = 320


def unsafe_tips(text: str, pieces: Sequence[Piece], cautions: Sequence[Caution]) -> tuple[str, ...]:
    """Ids of the cautions that a recommendation goes against; the rule's own name where no caution is filed for it.

    What is only asked recommends nothing, and who warns of it must not be taken for one who recommends it.

    >>> unsafe_tips("garlic in olive oil keeps all year in the cupboard", (), ())
    ('garlic in oil',)
    >>> unsafe_tips("never keep garlic in oil in the cupboard", (), ())
    ()
    """
    said = " ".join(piece.text for piece in pieces if not piece.text.rstrip().endswith("?")) if pieces else text
    if not said or len(text) > _LONGEST_TIP or _WARNS.search(text):
        return ()
    found: list[str] = []
    for rule in _RULES:
        if (
            rule.patterns[0].search(text)
            and all(pattern.search(text) for pattern in rule.patterns[1:-1])
            and rule.patterns[-1].search(said)
        ):
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
