"""The trade's own frames for asking, over a text in which every ingredient is written X and every amount N.

A frame votes for a type of ask; the learned model weighs the votes. Frames stand in the order in which they win where
nothing was learned. How the phrases are written: see `qa.text.phrases`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from qa.measures.parse import Amount
from qa.records import AskType, Mention
from qa.text.phrases import phrases


@dataclass(frozen=True, slots=True)
class Frame:
    """A way of asking: its name, the ask it speaks for, and its pattern."""

    name: str
    type: AskType
    pattern: re.Pattern[str]


_TABLE: tuple[tuple[str, AskType, str], ...] = (
    ("anyone tried", "tried", """(has|have|did|anyone|anybody|any of you|someone|somebody|who) ..
        (tried|try|made|done|baked|used|tested|managed|experimented|had success|had luck)"""),
    ("how did it go", "tried", """how did (it|that|they|yours) (turn|come|go|work|taste) | did (it|that|they)
        (work|turn) | any luck with | any success with"""),
    ("may I eat", "health", """(can|could|should|may|ok|okay|safe|fine|good|bad|suitable|alright) (for )?
        (i|he|she|they|my|diabetic*|people|someone|somebody|bab*|dogs?|cats?|anyone) ... (eat|have|consume|take|drink|
        diabet*|pregnan*|insulin|kidney*)"""),
    ("why", "went_wrong", """why | what caused | what makes | what made | how come | reason | what happened
        | what went wrong | what (did|am|have|do) i (do*|done) | where (did|am|do) i | what i did | any idea*"""),
    ("bad state", "went_wrong", """(mine|my|they|it|came out|turned out|were|was|is|are|so|too|very) .. (flat|dense|
        gummy|gooey|dry|soggy|runny|raw|sank|sunk|collaps*|crumbl*|tough|hard|bitter|greasy|sticky|wet|crack*|spread|
        deflat*|curdl*|split|grainy|fell|burnt?|rubbery|heavy|brick|flop*|gum|putty|stone)"""),
    ("did not rise", "went_wrong", """(didn't|did not|won't|wouldn't|doesn't|never|not|isn't|aren't)
        (rise|rising|rose| set|setting|thicken|brown|hold|firm|whip|work|come together|turn out|cook|bake|get)"""),
    ("colour", "colour", """purple | violet | green* | gr[ea]y* | pink | blue* | bluish | yellow | orange | reddish
        | colou?r* | pale | dark | darker | darkened | brown* | black | discolou?r*"""),
    ("instead", "swap", """instead | in (place|lieu|stead) of | rather than | as a (substitute|replacement) |
        substitut* | alternative* | replacement* | stand in | equivalent"""),
    ("swap word", "swap", "sub | subs | subbed | subbing | swap* | replac* | exchang* | switch*"),
    ("can I use", "swap", """(can|could|may|should|would|will|ok to|okay to|possible to|fine to) (i|you|we|u|one|it
        be|this be|be)? ?(use|used|make|made|do|done|add|go with|try|bake) .. X"""),
    ("would it work", "swap", """(would|will|does|do|could|can|might) .. X ..
        (work|works|do|ok|okay|fine|bind|hold|behave)"""),
    ("work with", "swap", "(work|works|made?|make|do|done|possible|ok|okay|bake|baked) .. (with|using|from) .. X"),
    ("out of", "swap", """(don't have|do not have|didn't have|no|out of|ran out of|can't find|can't get|can't
        have|can't eat|can't use|only have|only got|without|allergic to) .. X"""),
    ("leave out", "swap", """(leave|leaving|left|skip*|omit*|cut|take) (out|X) | (leave|leaving|left|take|cut) .. out
        | without X | without the X | do without | go without | necessary | optional | what if i don't"""),
    ("same", "same_thing", """same | difference* | different | differ | diff | vs | versus | equal to | another name
        | another word | also called | called | what is X | what's X | whats X | is X X | is X (a|just|the) .. X
        | interchangeable | is that like | is it like | like X | aka"""),
    ("which kind", "same_thing", """(which|what) (kind|type|sort|form|flour|X) | whole or | ground or | do you mean
        | you mean | is (that|this|it) X | is X from | made from | X or X"""),
    ("how many grams", "weight", """(how many|how much|what|what's) ..
        (grams?|gr?|ounces?|oz|kilos?|weigh*|ml|lbs?|pounds?)"""),
    ("weigh", "weight", "weigh | weighs | weights? | in grams? | grams? of | by weight | gram (measure*|amount*)"),
    ("N in grams", "weight", "N .. (is|in|to|into|equals?) .. (grams?|g|oz|ounces|ml)"),
    ("how much X", "weight", "how (much|many) .. X | N X | N of X"),
    ("convert", "convert", """convert* | conversion* | metric | celsius | centigrade | fahrenheit | imperial | cups?
        (to|in|into) | (to|in) (cups?|tablespoons?|tbsp|ml|ounces|oz) | us cups? | your cups? | tablespoons? or
        | gas mark | degrees? [cf] | [cf] or [cf] | N (in|to|is|means?|equals?) N | how many ml"""),
    ("hope", "check", """right | correct | true | agree | math* | calculat* | sanity check | verify* | confirm
        | sound right | isn't it | shouldn't it | am i right | so if | so that's | ratio | percent*"""),
    ("carbs", "carbs", """net | carbs? | carbohydrate* | digestible | fib(er|re)s? | sugar alcohols? | polyols |
        label"""),
    ("nutrition", "nutrition", """calories? | kcal | protein | nutrition* | macros | fat content | sodium | energy
        | vitamins? | glycemic | points | nutrients? | healthier"""),
    ("store", "storage", """freez* | frozen | fridge | refrigerat* | stored? | storing | storage | keeps? | kept |
        lasts? | shelf | ahead | advance | overnight | room temp* | counter | days? | weeks? | months? | expire*
        | go bad | go off | stale | thaw* | defrost* | airtight"""),
    ("safe", "safety", """safe | safely | unsafe | danger* | dodgy | risky | poison* | toxic | harmful | botulism
        | salmonella | sick | mou?ld* | raw (eggs?|dough|flour|batter|X) | still (good|ok|okay|edible|eat) | edible
        | okay? to eat | spoil* | gone (bad|off) | rancid | smells? | canning | left (out|on)"""),
    ("allergy", "allergy", """allerg* | anaphyla* | epi-?pens? | co?eliacs? | intoleran* | may contain | contains?
        | contaminat* | traces? | nut-?free | gluten | dairy-?free | lactose | reacts? to"""),
    ("body", "health", """diabet* | blood | insulin | glucose | cholesterol | pregnan* | breastfe* | medicin* |
        medications? | warfarin | metformin | thinners? | doctor | kidneys? | thyroxine | levothyroxine | ibs |
        fodmap | baby | infant | months? old | chok* | healthy | unhealthy | constipat* | laxative | bloat* |
        digest* | gut | ketosis | heart | liver | gout | tablet | pills?"""),
    ("buy", "where_to_buy", """where (can|do|did|to|could|would) (i|you|we|one)? ?(buy|get|find|got|purchase|source)
        | buy | available | aisle | sells? | sold | stockist* | shops? | supermarket | order | find
        (X|this|it|that)"""),
    ("brand", "where_to_buy", "(what|which) brands?"),
    ("tools", "equipment", """pans? | tins? | tray | mou?lds? | pyrex | glass | metal | silicone | dish | mixer |
        blender | processor | whisk | thermometer | scales? | machine | air ?fryer | oven | microwave | otg |
        skillet | dutch oven | parchment | grinder | beater | spatula | bundt | sheet | rack | paddle | hook |
        instant pot | bread ?maker | grease"""),
    ("scale", "scaling", """doubl* | tripl* | halv* | half (the|this|a)? ?(recipe|batch) | scal(e|ing)
        (up|down|this|the|it) | (smaller|bigger|larger|different|another) (pan|tin|batch|loaf|size) | how
        (many|big) .. (makes?|yield|serve|get) | servings? | (pan|tin) size | inch | serves"""),
    ("what for", "purpose", """what (does|do|is|are|'s) (the )?X (do|for|there|doing|here|contribut*|add) | purpose
        | point of | why (do|does|is|are|add|use|the|put|not|would|did you|you|X) | what for | job of | role
        | reason (for|to|you) | for what | needed for | what is the .. for"""),
    ("how to", "method", """how long | (what|which) temp* | how do (you|i|we) | how to | how did you | (do|would)
        (i|we|you) (need|have) to | should (i|we|it|the) | when (do|should|can) | can i
        (let|leave|mix|knead|proof|prove|grind) | what (speed|setting|consistency|rack|shelf) | how
        (hot|thick|thin|fine) | is it (normal|supposed)"""),
    ("the video", "episode", """recipe | video | written | description | pdf | printed | text | timestamp | minute |
        you (said|say|used|added|did|put|forgot|never|mention*|list*|show*|call) | says | ingredient list |
        instructions? | part (two|2) | next (video|episode) | link | print | post | posted"""),
)  # fmt: skip
FRAMES = tuple(Frame(name, kind, phrases(written)) for name, kind, written in _TABLE)


def marked(text: str, start: int, end: int, mentions: Iterable[Mention], amounts: Iterable[Amount]) -> str:
    """A stretch of a text with each ingredient as X and each amount as N (# where it has no unit).

    >>> from qa.records import Mention
    >>> marked("can I use chia instead?", 0, 23, [Mention(10, 14, "chia", "chia")], [])
    'can I use X instead?'
    """
    spots = [(m.start, m.end, "X") for m in mentions if start <= m.start and m.end <= end]
    spots += [(a.start, a.end, "N" if a.unit else "#") for a in amounts if start <= a.start and a.end <= end]
    parts, at = [], start
    for first, last, sign in sorted(spots):
        if first >= at:
            parts += [text[at:first], sign]
            at = last
    return "".join([*parts, text[at:end]])


def votes(sentence: str) -> list[Frame]:
    """The frames that a marked sentence fills, in the order of FRAMES."""
    return [frame for frame in FRAMES if frame.pattern.search(sentence)]
