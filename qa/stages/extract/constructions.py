"""Whole constructions of a question, one of which names it: how it begins and what stands in it.

Frames (see `qa.stages.extract.frames`) each vote; of the constructions only the first that fits is taken, so that
"how do I keep X fresh" is about keeping and no longer about how. Its name is one thing the types are learned from.
How the phrases are written: see `qa.text.phrases`.
"""

from __future__ import annotations

import re
from functools import lru_cache

from qa.text.phrases import as_pattern

# Words before a question that say nothing of it.
_LEAD = (
    r"^\W*(?:(?:and|so|but|also|or|ok|okay|hi|hello|hey|please|pls|question|quick|just|btw|well|then|now|if so|curious|"
    r"wondering|i was wondering|i wonder|tell me|do you know|does anyone know|anyone know|any idea)\W+){0,3}"
    r"(?:if\s|whether\s)?"
)
_TOOL = """pans? | tins? | trays? | mou?lds? | glass | metal | silicone | casserole | mixer | blender |
        processor | whisk | thermometers? | scales? | machine | air ?fryer | ovens? | microwave | skillet | cooker |
        dutch oven | parchment | paper | grinder | beaters? | spatula | bundt | sheets? | racks? | paddle | hooks? |
        foil | grease | sifter | sieve | stone | steel | cast iron | cup measures? | brush | bowls? | jars? |
        containers? | knife | knives | board | peel | press | cutters? | whippers? | gadgets? | tools? | equipment |
        gear | utensils? | plates? | pot | pots | stove | grill | bag | bags | banneton | cloth | mat | mats | tongs
        | torch | tandoor | basket | boxes | forms? | kettle | rolling pin"""
_BAD = """flat | dense | gummy | gooey | dry | soggy | runny | raw | sank | sunk | sinks? | collaps* | crumbl* |
        tough | hard | bitter | greasy | sticky | stick | sticks | sticking | wet | crack* | spread* | deflat* |
        curdl* | split* | grainy | gritty | fell | falls? apart | burnt? | burns? | rubbery | heavy | lump* | bubbl*
        | holes? | tunnels? | hollow | soup* | mess | brick | weep* | fail* | leak* | overflow* | separat* | seiz* |
        crystal* | shrink* | tear* | tore | break* | broke* | dip | dense | undercook* | underbak* | overcook* |
        overbak* | stale | weird | different | horrible | wrong | ruined | ice crystals | bland | tasteless |
        aftertaste | doughy | mushy | too (\\w+)"""
_FAILS = """won't | wouldn't | doesn't | don't | didn't | isn't | aren't | hasn't | haven't | never | not | no
        longer | keeps? | turn* out | turn* into | came out | come out | coming out | went | goes | got | gets |
        turned | ended up | problems? | trouble | issues? | difficulty | inconsistent"""
# Name, how the question begins (or '' for anyhow), and what stands in it (or '' for anything).
_TABLE: tuple[tuple[str, str, str], ...] = (
    ("how to tool", "how | what", f"(clean|season|sharpen|calibrate|choose|buy|care for) .. ({_TOOL})"),
    ("anyone tried", "", """(has|have|did|does|any) ?(anyone|anybody|somebody|someone|any of you) ...
        (tried|made|used|had|got|baked|done)"""),
    ("swap tool", "", f"""(substitut*|alternativ*|replac*|instead|without|in place of) .. ({_TOOL}) | ({_TOOL})
        (substitut*|alternativ*)"""),
    ("difference", "", """difference* (between|of|in) | differ | differs | same (as|thing) | the same | versus | vs
        | interchangeable | identical | compare* (to|with) | how is X different | different from | equal to |
        another name | english name"""),
    ("swap", "", """substitut* | substitue | replac* | instead | in place of | in lieu of | alternativ* | stand in
        | swap* | subbed | subbing | sub | equivalent (of|to|for) | rather than | anything like X | closest to X"""),
    ("left out", "", """(leave|leaving|left) .. out | omit* | skip* | (free|less) version | egg-?less | X-free | X
        free | (can|could|should|will|would) .. without .. X"""),
    ("grams", "", "(how (many|much)|what) .. (grams?|g|gr|ounces|oz|kilos?|weigh*|heavy) | weigh* of | how heavy"),
    ("convert", "", """convert* | conversion* | how many .. (tbsp|tsp|cups?|tablespoons?|teaspoons?|ml|spoons?) |
        fahrenheit | celsius | gas mark | metric"""),
    ("safe", "", """(is|are|would|will) .. (safe|dangerous|harmful|poisonous|toxic|edible) | safe to | still
        (good|ok|okay|safe|edible|eat) | gone (off|bad) | (left|sat|sit) out | mou?ld* | salmonella | botulism |
        bacteria | spoil* | rancid | food safety"""),
    ("keep", "", """how (long|should|do|can|to|best) ..
        (keep|store|stored|storing|last|preserve|freeze|frozen|refrigerate) | shelf[ -]life | ahead of time | in
        advance | make ahead | (can|could|should|may|does|do|will) ..
        (frozen|freeze|freezes?|refrigerat*|stored?|kept|keep|thawed) | (in|from) the (fridge|freezer|refrigerator)
        | freezer | overnight | the (day|night) before | next day | expire* | go (bad|off)"""),
    ("keeping", "storing | freezing | keeping | preserving | saving | thawing | defrosting | wrapping", ""),
    ("scale", "", """doubl* | tripl* | halv* | half (the|a|of the) (recipe|batch) | half batch | scal(e|ing) |
        (smaller|bigger|larger) (pan|tin|batch|loaf|size) | how many .. (make|serve|feed|yield|get) | servings? |
        batch(es)? of | # (people|guests)"""),
    ("origin", "", """who (invented|first|came) |
        (history|origin|origins|etymology|pronunciation|meaning|name|names) (of|for) | originat* | come from |
        invented | discovered | pronounce* | traditional* | books? | resources? | recipes? (for|that|with|using) |
        ideas? (for|to) | what to serve | goes? (well )?with | pairs? with | uses for | looking for | identify |
        called | what (is|are) (this|that|these|those)"""),
    ("why mine", "why | how come", f"""(my|mine|i|our|did|didn't|won't|doesn't|don't|isn't|aren't|{_FAILS}) |
        ({_BAD})"""),
    ("what causes", "", "what (went|causes|caused|is causing|am i doing|did i do|have i done|would cause)"),
    ("why so", "why", ""),
    ("effect", "", """purpose | point (of|in) | role | function | effects? (of|on) | affect* | impact* | influence
        | benefits? | advantages? | matter | matters | science | what (does|do|would) .. (do|add|contribute) | what
        happens | what makes | necessary | important | enhance* | toughen* | make (a|any) (difference|sense) |
        contribut* | (does|do) .. (need|require|change)"""),
    ("prevent", "", """(how|way|ways|trick|tricks|tips|best) ...
        (stop|avoid|prevent|fix|rescue|save|mask|reduce|not|less) | (fixing|rescuing|preventing|avoiding)"""),
    ("how", "how (do|can|could|should|would|to|did|does|are|is|might)", ""),
    ("way", "", """(best|good|right|easiest|correct|proper|better|quickest|fastest) ..
        (way|method|approach|technique|temperature|time) | (a|any|other) way | ways (of|to|for) | tips | techniques?
        | tricks? | steps | method | approach | advice | procedure | what (temp*|should i do|can i do|can be done|to
        do|adjustments|would you)"""),
    ("buy", "", "where .. (buy|get|find|source|purchase) | available | sold | sells? | brands? | in stores?"),
    ("what is", "what('s| is| are|s) (a|an|the)? ?(\\w+ ){0,3}(\\w+|X)\\W*$", ""),
    ("what means", "what", "mean | meant | qualifies | counts"),
    ("which", "which | what (kind|type|sort|X|flour|brand|cream|sugar)", ""),
    ("better", "", "X or X | better | best X"),
    ("tool", "", _TOOL),
    ("it fails", "", f"""({_FAILS}) ..
        (rise|rising|set|setting|thicken|brown|hold|firm|whip|work|expand|cook|bake|{_BAD}) | ({_BAD})"""),
    ("can I", "can | could | may | should | would | will | is it (ok|okay|possible|fine|alright) | do i | must", ""),
    ("is it", "is | are | was | do | does | has", ""),
    ("any", "any | anyone", ""),
    ("doing it", "(\\w+ing)", ""),
)  # fmt: skip
_PATTERNS = tuple(
    (
        name,
        re.compile(f"{_LEAD}(?:{as_pattern(begins)})(?!\\w)", re.IGNORECASE) if begins else None,
        re.compile(rf"\b(?:{as_pattern(holds)})(?!\w)", re.IGNORECASE) if holds else None,
    )
    for name, begins, holds in _TABLE
)


def _fits(sentence: str, begins: re.Pattern[str] | None, holds: re.Pattern[str] | None) -> bool:
    return (begins is None or bool(begins.search(sentence))) and (holds is None or bool(holds.search(sentence)))


@lru_cache(maxsize=10_000)
def construction(sentence: str) -> str:
    """The name of the construction of a marked question, or '' where none fits.

    >>> [construction(text) for text in ("how do I keep X fresh?", "why do we scald X", "X won't set")]
    ['keep', 'why so', 'it fails']
    """
    return next((name for name, *patterns in _PATTERNS if _fits(sentence, *patterns)), "")
