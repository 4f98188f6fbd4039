"""The trade's own frames for asking, over a text in which every ingredient is written X and every amount N.

A frame votes for a type of ask; the learned model weighs the votes. Frames stand in the order in which they win where
nothing was learned. How the phrases are written: see `qa.text.phrases`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

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
    ("anyone tried", "tried", """(has|have|did|does|do|is|any) ?(anyone|anybody|any of you|someone|somebody|people)
        ..
        (tried|try|made|make|done|baked|bake|used|use|tested|managed|experimented|succe*|luck|put|kept|halved?|grind|run|
        replaced|gone|got|swapped|doubled)"""),
    ("anyone", "tried", """(anyone|anybody|who) (else|here|tried|made|ever|had|got|with|run|used) | any luck | any
        success | (as|has|have) any ?one | any (\\w+) (people|owners|bakers) | tried it with | tried this"""),
    ("how did it go", "tried", """how (did|does) (it|that|they|yours) (turn|come|go|work|taste|hold) | did
        (it|that|they) (work|turn|hold) | how'd it | what happened when"""),
    ("may I eat", "health", """(can|could|should|may|ok|okay|safe|fine|good|bad|suitable|alright) (for )?
        (i|he|she|they|my|diabetic*|people|someone|somebody|bab*|dogs?|cats?|anyone) ... (eat|have|consume|take|drink|
        diabet*|pregnan*|insulin|kidney*)"""),
    ("why", "went_wrong", """why | what caused | what makes | what made | how come | reason | what happened
        | what went wrong | what (did|am|have|do) i (do*|done|miss*) | where (did|am|do) i | what i did | any idea*
        | what's wrong | whats wrong | which .. is guilty | help | rescue | save it | fix"""),
    ("mine", "went_wrong", """(mine|my (\\w+)|the (\\w+)|they|it|first|second|batch) ..
        (was|were|is|are|came|turned|went|stayed| got|had|has|never|didn't|won't|keeps?|all)"""),
    ("bad state", "went_wrong", """flat | dense | gummy | gooey | dry | soggy | runny | raw | sank | sunk | collaps*
        | crumbl* | tough | hard | bitter | greasy | sticky | wet | crack* | spread | deflat* | curdl* | split |
        splitt* | grainy | fell | burnt? | rubbery | heavy | brick | flop* | putty | sloppy | gluey | stringy |
        blister* | hollow | soup | merged | ran together | too (brown|pale|dark|thick|thin|sweet|salty) | flopp*
        | weep* | fail*"""),
    ("did not rise", "went_wrong", """(didn't|did not|won't|wouldn't|doesn't|never|not|isn't|aren't|no)
        (rise|rising|rose| set|setting|thicken|brown*|hold|firm|whip|work|come together|turn
        out|cook|bake|get|enough)"""),
    ("suspects", "went_wrong", """(is it|was it|could it be|is that)
        (the|my|because|that|from|too|altitude|humidity|oven) | too much .. or | or (did|was|is) (i|it|the) | or
        not enough | my fault | because of"""),
    ("colour", "colour", """purple | violet | green* | gr[ea]y* | pink | blue* | bluish | yellow | orange | reddish
        | colou?r* | pale | dark | darker | darkened | brown | browner | black | discolou?r* | lilac"""),
    ("instead", "swap", """instead | in (place|lieu|stead) of | rather than | as a (substitute|replacement) |
        substitut* | alternative* | replacement* | stand in | equivalent | backup"""),
    ("swap word", "swap", "sub | subs | subbed | subbing | swap* | replac* | exchang* | switch* | substitue"),
    ("can I use", "swap", """(can|could|may|should|would|will|ok to|okay to|possible to|fine to) (i|you|we|u|one|it
        be|this be|be)? ?(use|used|make|made|do|done|add|go with|try|bake|put) .. X"""),
    ("would it work", "swap", """(would|will|does|do|could|can|might) .. X ..
        (work|works|do|ok|okay|fine|bind|hold|behave|give)"""),
    ("work with", "swap", "(work|works|made?|make|do|done|possible|ok|okay|bake|baked) .. (with|using|from) .. X"),
    ("out of", "swap", """(don't have|do not have|didn't have|no|out of|ran out of|can't find|can't get|can't
        have|can't eat|can't use|only have|only got|without|allergic to|i have) .. X"""),
    ("leave out", "swap", """(leave|leaving|left|skip*|omit*|cut) (out|X|the X) | (leave|leaving|left|take|cut) ..
        out | without X | without the X | do without | go without | necessary | optional | what if i don't |
        need the X"""),
    ("X for X", "swap", "X for (the|my|your)? ?X | X in X | X (ok|okay|any good|yea or nay) | for the X"),
    ("same", "same_thing", """same | difference* | different | differ | diff | vs | versus | equal to | another name
        | another word | also called | called | what is X | what's X | whats X | is X X | is X (a|just|the) .. X
        | interchangeable | is that like | is it like | like X | aka | is X what | means? X | mean by"""),
    ("which kind", "same_thing", """(which|what) (kind|type|sort|form|flour|X) | whole or | ground or | do you mean
        | you mean | is (that|this|it) X | is X from | made from | made of | X or X | X or the X | which one |
        exactly is"""),
    ("how many grams", "weight", """(how many|how much|what|what's) ..
        (grams?|gr?|ounces?|oz|kilos?|weigh*|lbs?|pounds?) | weigh* how much | how heavy"""),
    ("weigh", "weight", """weigh | weighs | weights? | in grams? | grams? of | by weight | gram (measure*|amount*) |
        grams please"""),
    ("N in grams", "weight", "N .. (is|in|to|into|equals?) .. (grams?|g|oz|ounces|ml)"),
    ("how much X", "weight", "how (much|many) .. X | N X | N of X"),
    ("how many spoons", "convert", """(how many|how much|what) ..
        (tbsp|tsp|cups?|tablespoons?|teaspoons?|ml|spoons?|scoops?) | (in|to|into)
        (cups?|tablespoons?|tbsp|tsp|spoons?|ml|celsius|fahrenheit|c|f)"""),
    ("convert", "convert", """convert* | conversion* | metric | celsius | centigrade | fahrenheit | imperial
        | us cups? | your cups? | tablespoons? or | gas mark | degrees? [cf] | [cf] or [cf] | slow oven | moderate
        | N (in|to|is|means?|equals?) N | knob | stick | go of"""),
    ("hope", "check", """right | correct | true | agree | math* | calculat* | sanity check | verify* | confirm |
        check me | sound right | isn't it | shouldn't it | am i right | so if | so that's | ratio | percent* |
        making sure"""),
    ("numbers", "check", "# .. # .. # | N .. N .. N | # .. N .. (is|so|then) | = | (plus|times|divided) "),
    ("carbs", "carbs", """net | carbs? | carbohydrate* | digestible | sugar alcohols? | polyols | (fib(er|re)) ..
        (carb*|label|off| subtract*) | label .. (fib(er|re)|carb*)"""),
    ("nutrition", "nutrition", """calories? | kcal | protein | nutrition* | macros | fat content | sodium | energy |
        iron | vitamins? | glycemic | points | nutrients? | healthier | fib(er|re) | sugar per | per
        (slice|piece|serving|muffin)"""),
    ("store", "storage", """freez* | frozen | fridge | refrigerat* | stored? | storing | storage | keeps? | kept |
        lasts? | shelf | ahead | advance | overnight | room temp* | counter | days? | weeks? | months? | expire*
        | go bad | go off | stale | thaw* | defrost* | airtight | wrap | cupboard | how long ..
        (keep|last|good|fridge|freezer)"""),
    ("safe", "safety", """safe | safely | unsafe | danger* | dodgy | risky | risk | poison* | toxic | harmful |
        botulism | salmonella | sick | mou?ld* | fuzz* | raw (eggs?|dough|flour|batter|X) | still
        (good|ok|okay|edible|eat) | edible | okay? to eat | spoil* | gone (bad|off) | rancid | smells? | canning
        | left (out|on) | bin | throw | past .. date | power .. (off|out) | eat (it|them|these|the raw) | jars?
        | out all night"""),
    ("allergy", "allergy", """allerg* | anaphyla* | epi-?pens? | co?eliacs? | intoleran* | may contain | contains? |
        coeliac | contaminat* | traces? | nut-?free | gluten | dairy-?free | lactose | reacts? | free (from|of)
        | factory | throat | wheat in | (nuts?|peanut|sesame|milk|egg) in (it|this|that|them|there) | school"""),
    ("body", "health", """diabet* | prediabet* | blood | insulin | glucose | cholesterol | pregnan* | breastfe* |
        medicin* | medications? | meds | warfarin | metformin | thinners? | doctor | dietitian | nurse |
        kidneys? | thyro* | liver | levothyroxine | ibs | fodmap | baby | infant | toddler | months? old | chok*
        | healthy | unhealthy | constipat* | laxative | bloat* | digest* | gut | ketosis | heart | gout | tablet
        | pills? | antidepress* | pco[sd] | weight loss | lose weight | the runs | stomach | a day | every day |
        daily | sugar levels | spike | my a1c | dogs? | cats?"""),
    ("buy", "where_to_buy", """where (can|do|did|to|could|would|is|are|was) (i|you|we|one|the|that|those|this)?
        ?(buy|get|find|got |purchase|source|from)? | buy | available | aisle | sells? | selling | sold | stock*
        | shops? | supermarket | order | find (X|this|it|that) | in (town|the city|canada|uk|australia|india) |
        online | get hold of"""),
    ("brand", "where_to_buy", "(what|which) brands? | brand of X | brand do you"),
    ("gear brand", "other", """(brand|make|model) .. (mixer|scale|oven|knife|plate|bowl|machine|pan) | what
        (knife|mixer|plate|bowl| song|music|game|font|camera|dress|app|star tip) | name of the
        (song|cat|dog|kitten|music)"""),
    ("the channel", "other", """subtitles? | song | music | camera | film | filming | channel | account | email |
        dress | shirt | apron | nails | lipstick | hair | cat | dog | kitten | meet ?up | book | cookbook |
        patreon | merch | class | course | collab | part two | where are you from | your
        (name|accent|kitchen|house|age) | bake along | background"""),
    ("law and label", "other", """sell | selling | legal* | laws? | licen[cs]e | permit | label ..
        (eu|write|say|must|claim) | write on | market | stall | regulation* | certif* | business | panel |
        allowed to"""),
    ("tools", "equipment", """pans? | tins? | tray | mou?lds? | glass | metal | silicone | dish | mixer |
        blender | processor | whisk | thermometer | scales? | machine | air ?fryer | oven | microwave | otg |
        skillet | cooker | dutch oven | parchment | grinder | beater | spatula | bundt | sheet | rack | paddle |
        hook | pressure cooker | foil | bread ?maker | grease | sifter | sieve | stone | cast iron | pullman | tube
        | muffin (tin|cups) | mill"""),
    ("need a tool", "equipment", """(need|have|use|without|instead of|got) (a|an|the|my|any|no)? ?(\\w+)?
        ?(pan|tin|mixer|blender|machine|
        thermometer|scale|oven|sieve|sifter|beater|whisk|processor|grinder|stone|rack|foil|paper|parchment|mould|mold|dish)"""),
    ("scale", "scaling", """doubl* | tripl* | halv* | half (the|this|a)? ?(recipe|batch) | scal(e|ing)
        (up|down|this|the|it) | (smaller|bigger|larger|different|another) (pan|tin|batch|loaf|size|one) | how
        (many|big) .. (makes?|yield|serve|get|feed) | servings? | (pan|tin) size | inch | serves | times
        (five|two|three|#) | for # (people|persons|guests) | half batch | makes # | how many
        (muffins|cookies|loaves|does) | times # | #x | quantity for | big batch | crowd"""),
    ("what for", "purpose", """what (does|do|is|are|'s|will) (the )?(X|it|that|this)
        (do|for|there|doing|here|contribut*|add|to the) | purpose | point of | why
        (do|does|is|are|add|use|the|put|not|would|did you|you|X|we) | what for | job of | role | reason
        (for|to|you) | for what | needed for | what is the .. for | actually do | do anything | what browns |
        explain"""),
    ("how to", "method", """how long | (what|which) temp* | how do (you|i|we) | how to | how did you | (do|would)
        (i|we|you) (need|have) to | should (i|we|it|the) | when (do|should|can) | can i
        (let|leave|mix|knead|proof|prove|grind) | what (speed|setting|consistency|rack|shelf) | how
        (hot|thick|thin|fine|warm|much longer) | is it (normal|supposed) | before or after | do you
        (chill|let|rest|cover|sift|melt|wrap|mix) | (knead|proof|prove|rest|chill|soak|mix|bake) ..
        (how|long|first|before)"""),
    ("the video", "episode", """recipe | video | vid | written | description | pdf | printed | text | timestamp |
        minute | card | (you|she|he)
        (said|say|says|used|added|did|put|forgot|never|mention*|list*|show*|call*|wrote|go|set) | says |
        ingredient list | instructions? | part (two|2) | next (video|episode) | link | print | post | posted |
        title"""),
    ("time code", "episode", "\\d?\\d:\\d\\d | (at|minute|around) # "),
    ("two sources", "episode", """(video|film|camera|say|said|screen) ..
        (recipe|written|text|card|description|paper|pdf|list*) |
        (recipe|written|text|card|description|paper|pdf|list*) .. (video|film|camera|say|said|screen) | which is
        (right|true| correct) | which of you | which one is"""),
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


@lru_cache(maxsize=10_000)
def votes(sentence: str) -> tuple[Frame, ...]:
    """The frames that a marked sentence fills, in the order of FRAMES."""
    return tuple(frame for frame in FRAMES if frame.pattern.search(sentence))
