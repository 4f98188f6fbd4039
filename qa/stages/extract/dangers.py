"""What must not be answered, must carry a caution, or must not be repeated; and where video and recipe disagree.

A medical word is mostly the motive and not the question, so most rules need two things at once: a word of the matter
and a word that asks it of a person, an item or a law. How the phrases are written: see `qa.text.phrases`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from qa.knowledge.facts import Caution
from qa.text.phrases import phrases

_BODY = """diabet* | prediabet* | blood | insulin | glucose | cholesterol | pregnan* | breastfe* | nursing |
    kidneys? | dialysis | cancer | chemo* | medication* | meds | medicines? | warfarin | metformin | statins? |
    thyro* | levothyroxine | pills? | tablets? | ibs | fodmap | gout | heart | liver | crohn* | colitis |
    diverticul* | potassium | sodium | ketosis | stomach | gut | bowel* | constipat* | diarrh* | reflux |
    thinners? | pressure | gallbladder | surgery | immun* | epilep* | transplant* | pancrea* | hypoglyc* |
    eczema | arthritis | dysphagia | a1c | ulcer* | hernia"""
_SMALL = "bab(y|ies) | infants? | newborns? | toddlers? | \\d+ ?-?(months?|mo)(s|[ -]olds?)? | one year old | weaning"
_PET = "dogs? | cats? | pupp(y|ies) | pup | kitten | pets? | parrot | horse"
_EAT = """eat* | have | has | having | take* | taking | drink* | consum* | give | giving | feed* | ate | tolerate |
        swallow*"""
_MAY = """safe | ok | okay | fine | good | bad | suitable | alright | all right | healthy | harm* | danger* | risk*
    | allowed | work"""

# A medical word in the background: the reply then carries the caution, whatever is asked.
MEDICAL = phrases(
    """diabet* | prediabet* | blood (sugar|pressure|thinners?|glucose) | insulin | glucose | cholesterol | pregnan*
    | breastfe* | kidneys? | dialysis | cancer | chemo* | medication* | meds | medicines? | warfarin | metformin
    | statins? | thyro* | levothyroxine | pills? | ibs | fodmap | gout | heart (attack|disease) | liver | crohn*
    | colitis | diverticul* | potassium | low sodium | ketosis | bowel* | constipat* | diarrh* | reflux |
    gallbladder | surgery | immun* | epilep* | transplant* | pancrea* | hypoglyc* | eczema | arthritis |
    dysphagia | co?eliacs? | allerg* | anaphyla* | epi-?pens? | intoleran* | doctor | dieti[tc]ian |
    nutritionist"""
)
_HEALTH = (
    phrases(f"""({_MAY}) ... (for|with|on|to|by|of) (my|a|an|the|his|her|somebody|someone|people|those)?
        ?(with|on|who)? .. ({_BODY})"""),
    phrases(f"({_MAY}|{_EAT}) (for|with|on|if) ... ({_BODY}) | (for|if) (diabetics?|i'm|im) ({_BODY}|.. diabetic)"),
    phrases(f"""(i|he|she|they|who|mom|mum|dad|father|mother|husband|wife|regulars?) ..
        (on|take|takes|taking|have|has|got) .. ({_BODY})"""),
    phrases(f"""(can|could|should|may) (diabetics?|co?eliacs?|people with|someone with|i|he|she|my) ... ({_EAT}) ...
        ({_BODY})"""),
    phrases(f"(can|could|should|may) (diabetics?|people with .. ({_BODY})|pregnant .. ) .. ({_EAT})"),
    phrases(f"""(raises?|spikes?|affects?|lowers?|helps?|cures?|treats?|reduces?|interacts?|interferes?|hurts?|bothers?|acts?
        |impacts?|push|kick|upset|triggers?|flare|causes?|prevents?|thins?|spaced|clash*) ... ({_BODY}|sugar
        levels?)"""),
    phrases("""(how (much|many|often)|spoons?|tablespoons?|tbsp|safe|ok|okay|good|bad) ... (a|per|every|each) day |
        daily (dose|limit)"""),
    phrases("""healthy | unhealthy | weight loss | lose weight | laxative | constipat* | bloat* | fattening | side
        effects? | carcinogen* | inflammat* | detox* | (good|bad) for (you|me|us|your)"""),
    phrases(f"({_SMALL}) ... ({_EAT}|{_MAY}|honey) | ({_EAT}|{_MAY}|for) ... ({_SMALL})"),
    phrases(f"({_PET}) ... ({_EAT}|{_MAY}|toxic) | ({_EAT}|safe|ok|okay|toxic|harm*) ... ({_PET})"),
    phrases("chok(e|ing) | swallow*"),
)  # fmt: skip
_MAY_HAVE = phrases(
    f"""(is|are|would|will) (it|this|that|these|they|the .. |all this|two|one) .. ({_MAY}) (for|with|to)
        (him|her|them|me|us|eat) |(can|could|should|may) (he|she|they|i|we|my .. ) (still)? ?({_EAT}) |
        (ok|okay|safe|fine|good|bad) for (him|her|them|me|us) | something (he|she|i) can | push (him|her|me) up"""
)
_ALLERGIC = phrases("""allerg* | anaphyla* | epi-?pens? | co?eliacs? | reacts? to | intoleran* | may contain |
    traces? of | contaminat*""")  # fmt: skip
_ALLERGY_ASKED = phrases(
    f"{_MAY} | can | could | may | treat | serve | give | true | reacts? | tolerate | avoid | worry | eat"
)
_ITEM = phrases(
    """still (safe|ok|okay|good|fine|edible|eat|use|bake|usable) | left .. (out|overnight|counter|bench|car|sun) |
        forgot .. (out|car|counter|oven overnight) | mou?ld* | (gone|went|go) (off|bad) | smell* | expired |
        past (its|the|their) (date|best|use) | best before | use by | rancid | slimy | fuzzy | spots? on |
        freckles | sat .. (out|in|on) | weevils? | bugs? in"""
)
_ITEM_ASKED = phrases(
    "safe | ok | okay | fine | eat | edible | bin | toss | throw | use | bake | sick | poison* | kill | good"
)
_PRESERVING = phrases(
    """canning | water bath | pressure cann* | shelf[ -]stable | (in|into) (a|the)? ?(mason|kilner|pint|sealed)?
        ?jars? | can (the|this|these|my) (cake|bread|muffins?|butter|curd|oil|filling|pesto|pumpkin) | garlic ..
        oil .. (keep*|store*|last) | oil .. (room temp*|cupboard|pantry)"""
)
_LEGAL = phrases(
    """legal* | illegal | laws? | lawful* | statutes? | regulation* | liab* | licen[cs]e* | permit | cottage food |
        copyright | health inspector | food standards | allowed to (sell|write|label|put|claim|call) |
        (sell|selling|sold) ... (label*|card |allowed|call it|gluten free|claim) | (label|claim|write) ...
        (sell*|market|stall|shop|law|legally)"""
)
_MAKER = phrases(
    """(which|what) brand | brand is (it|that|this|the) | brand of |
        (milled|made|packed|processed|manufactured|produced) .. (facility|factory|place|line) | same
        (facility|factory|line|equipment) | certified | lab tested | batch number | accurate to"""
)
_RAW = phrases("raw (dough|batter|flour|eggs?|cookie dough) | (eat*|lick*|taste) .. (dough|batter)")
_RAW_ASKED = phrases("safe | ok | okay | fine | dodgy | risk* | danger* | sick | salmonella | bad")


def health_asked(text: str) -> bool:
    """Whether a question is about somebody's body: a medicine, an illness, a dose, an infant, a pet.

    >>> asked = ("I take blood thinners, is a spoon of flax a day ok?", "for my diabetic dad, does it hold a meringue?")
    >>> [health_asked(text) for text in asked]
    [True, False]
    """
    return any(pattern.search(text) for pattern in _HEALTH)


def asked_of_a_patient(text: str, sentence: str) -> bool:
    """Whether one sentence names an illness or a medicine and another asks whether that person may have something."""
    return bool(MEDICAL.search(text) and _MAY_HAVE.search(sentence))


def allergy_asked(text: str) -> bool:
    """Whether a question asks if somebody with an allergy, or a celiac, may have something."""
    return bool(_ALLERGIC.search(text) and _ALLERGY_ASKED.search(text))


def safety_asked(text: str) -> bool:
    """Whether a question asks if this very item may still be eaten, or about preserving it."""
    return bool((_ITEM.search(text) and _ITEM_ASKED.search(text)) or _PRESERVING.search(text))


def raw_asked(text: str) -> bool:
    """Whether a question asks about eating raw dough, flour or egg."""
    return bool(_RAW.search(text) and _RAW_ASKED.search(text))


def legal_asked(text: str) -> bool:
    """Whether a question is for the law or a label authority."""
    return bool(_LEGAL.search(text))


def maker_asked(text: str) -> bool:
    """Whether only the maker of a product can know."""
    return bool(_MAKER.search(text))


@dataclass(frozen=True, slots=True)
class _Rule:
    """A tip not to repeat: every pattern must be found; `filed` is the word its caution goes by."""

    name: str
    filed: str
    patterns: tuple[re.Pattern[str], ...]


# Usual warnings of food authorities, given in the cautions themselves; here only how the tips are worded.
_RULES = tuple(
    _Rule(name, filed, tuple(map(phrases, written)))
    for name, filed, written in (
        ("garlic in oil", "garlic", (
            "garlic",
            "oil",
            "room temp* | cupboard | counter | shelf | pantry | all year | months? | weeks? | keeps? | windowsill",
        )),
        ("dry canning", "canning", (
            "jars? | canning | canned | lids?",
            "cakes? | bread | loaf | muffins? | batter | flour | butter | curd | oven",
            "keeps? | months? | winter | pantry | shelf | seal* | ping",
        )),
        ("honey for an infant", "infant", (
            "honey",
            "bab(y|ies) | infants? | newborns? | months? old | under (one|1) | teeth*",
        )),
        ("raw flour or egg", "raw", (
            """raw (flour|dough|batter|cookie dough|eggs?) | (eat*|lick*|taste*) .. (raw|dough|batter)
            | (heat[ -]treat*|microwav*|toast*|bake) .. flour""",
            """safe | fine | always | kills? | nobody | never | ok | okay | edible | eat | harmless | whole life
            | for years""",
        )),
        ("xylitol and pets", "xylitol", ("xylitol | birch sugar", "dogs? | pupp* | pets? | cats?")),
        ("another allergen", "allerg", (
            "allerg* | anaphyla* | epi-?pens?",
            """just use | use .. (butter|flour|milk|nuts?) | fine | okay? | myth | made up | nonsense | little bit
            | tolerance | safe | only peanut""",
        )),
        ("gluten for a celiac", "gluten", (
            "co?eliacs? | gluten[ -]free | gf | no gluten",
            "oats? | spelt | kamut | einkorn | barley | rye | wheat | sourdough | durum | semolina | couscous",
            """fine | safe | ok | okay | no gluten | gluten[ -]free | can (eat|have) | don't (pay|worry|need)
            | any oats | handle""",
        )),
        ("mould", "mould", (
            "mou?ld*",
            "cut | scrape | scoop | fine | eat | toast | harmless | corner | sick | off | around",
        )),
        ("undercooked", "undercooked", (
            "undercooked | underbaked | raw (middle|inside|meat) | runny (egg|middle)",
            """perfectly safe | totally safe | safe to eat | completely safe | fine to eat | never (got|been) sick
            | won't (hurt|kill)""",
        )),
        ("left out", "room temperature", (
            "left | leave | sits? | sat | store | keeps?",
            "cream | custard | eggs? | meat | rice | milk | cheesecake | dairy | quiche | chicken | pumpkin",
            "counter | room temp* | overnight | cupboard",
            "fine | never | always | safe | days? | weeks? | no problem | nobody",
        )),
        ("medicine", "medic", (
            """stop(ped)? (taking )?(your|my|her|his)? ?(meds|medication|insulin|metformin|statins?|pills?) | cures?
            | cured | instead of (insulin|metformin|medication|meds) | revers* .. diabetes""",
        )),
        ("dry psyllium", "psyllium", (
            "psyllium | husks?",
            "dry | without water | no water",
            "swallow | eat | straight | spoonful",
        )),
        ("kernels", "kernel", (
            "apricot kernels? | bitter almonds? | apple seeds? | cherry pits?",
            "use | eat | add | grind",
        )),
        ("not a food", "", (
            "borax | lye | peroxide | alum | mineral oil | essential oils?",
            "use | add | drops? | eat | trick",
        )),
    )
)  # fmt: skip


def unsafe_tips(text: str, cautions: Sequence[Caution]) -> tuple[str, ...]:
    """Ids of the cautions that a recommendation goes against; the rule's own name where no caution is filed for it.

    >>> unsafe_tips("garlic in olive oil keeps all year in the cupboard", [])
    ('garlic in oil',)
    """
    found: list[str] = []
    for rule in _RULES:
        if all(pattern.search(text) for pattern in rule.patterns):
            filed = [
                c.id for c in cautions if rule.filed and any(rule.filed in w.lower() for w in (c.topic, *c.triggers))
            ]
            found += filed[:1] or [rule.name]
    return tuple(dict.fromkeys(found))


_SHOWN = phrases(
    """videos? | film | clip | on camera | on-?screen | screen | you (say|said|add|set|put|use) | spoken | says? |
        shown?"""
)
_WRITTEN = phrases("""written | recipe | description | pdf | text | printed? | paper | ingredients? | list(ed|s)? |
    blog | website | instructions? | card | below | notes? | book | caption""")  # fmt: skip
_DISAGREE = phrases(
    """but | yet | while | whereas | vs | versus | or | inconsisten* | disagree* | conflict* | contradict* | differ*
        | mistake | typo | error | correct* | which (one|is|did|do) | doesn't match | not the same | never
        (list|mention|use|add)* | missing | forgot | left out | isn't listed | not listed | three | two"""
)
_HOW_MUCH = phrases("\\d+* | one | two | three | four | five | six | half | list* | mention*")


def recipe_conflict(text: str) -> str:
    """What a viewer says disagrees between video and written recipe, in their words, or ''.

    >>> recipe_conflict("your video says 2 eggs, but the pdf says 3")
    'your video says 2 eggs, but the pdf says 3'
    >>> recipe_conflict("the recipe in the video is great")
    ''
    """
    said = all(pattern.search(text) for pattern in (_SHOWN, _WRITTEN, _DISAGREE, _HOW_MUCH))
    return text if said else ""
