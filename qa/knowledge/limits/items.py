"""Questions about this very item: is it still safe; and about keeping food in a way that nobody has validated."""

from __future__ import annotations

import re

from qa.knowledge.limits.words import plain
from qa.text.phrases import phrases

_PLACES = """out | overnight | all night | (over)?night | the
    (counter|worktop|bench|side|table|car|boot|trunk|sun|stove|hob|cooker|windowsill|porch|garage|dresser|desk|cab|cupboard|oven|
    tiffin|bag|lunchbox|heat|patio|van|truck|step|floor|bus) | (a|her|his|my|our) ..
    (car|van|bag|boot|truck|lunchbox|garage|suitcase) | counter | worktop | room temp* | unrefrigerated | warm |
    tiffin"""
# Something happened to it.
_STATE = phrases(
    f"""(left|forgot|forgotten) .. ({_PLACES}) | (leave|leaving|forget) .. (overnight|all
        night|counter|worktop|bench|side|car|windowsill|unrefrigerated) |
        (sat|sitting|sits|stood|stands|standing|been|was|were|kept|spent|rode|stayed|travelled|lay) ..
        ({_PLACES}) | (sat|been|kept|lived|stayed) .. (fridge|icebox|refrigerator|tin|box) ..
        (\\d+|two|three|four|five|six|seven|eight|nine|ten|twelve) (days|weeks|months) | (out|on the
        side|counter|worktop|bench) (all|over) ?night | all night | overnight | since
        (last|yesterday|lunch|breakfast|this
        morning|dinner|tea|noon|(sat|sun|mon|tues|wednes|thurs|fri)day|christmas|easter|(19|20)\\d\\d) | (\\d+|a
        few|couple of|couple|several|two|three|four|five|six|seven|eight|nine|ten|twelve|many)
        ?(hours?|hrs?|h|days?|weeks?|wks?|months?|mths?|years?|yrs?) ..
        (out|old|past|over|after|unrefrigerated|at room|on the|in (the|a) (car|sun|garage|heat|bag)) |
        (for|after|been|about|like|now) (\\d+|a few|several|two|three|four|five|six|seven|eight|nine|ten|twelve)
        ?(hours?|hrs?|h|days?|weeks?|wks?|months?) | (\\d+|two|three|four|five|six|seven|eight|nine|ten|twelve)[
        -](days?|weeks?|months?|years?|yrs?)[ -]old | from (19|20)\\d\\d | from last
        (week*|month|year|summer|christmas|easter|winter|autumn) | hot car | warm car""",
    """expir* | out of date | past .. (date|best|use|sell|prime) | best[ -]?before | use[ -]by | sell[ -]by | bbe?
        (date|was|is) | dated | no date | went out .. (date|in|last) | (date|dates) (has|have|was|is|were) ..
        (gone|passed|past|over)""",
    """mou?ld* | fung* | fuzz* | furry | hairy |
        (blue|green|black|white|pink|pinkish|orange|red|grey|gray|yellow|fluffy|dark|brown)
        (spots?|bits?|dots?|patch(es)?|specks?|streaks?|freckles|stuff|growths?|fluff|tinge|slime|film|fur|rings?|threads|hue|cast|mark*)
        | slim(e|y) | spores? | something growing | pink streak* |
        (turned|gone|went|going|goes|looks?|is|are|was) .. (pink|pinkish|orange) | streaks""",
    """smells? | smelt | smelly | smelling | stinks? | stinky | whiff* | pong* | niff* | odou?r |
        (gone|went|goes|going|turned|turning|bit|wee bit|little|slightly|tastes?|tasted|looks?|seems?)
        (off|bad|rancid|sour|funny|manky|ropey|ropy|iffy|dodgy|weird|soft and|bitter) | rancid | sour | off
        taste | spoil* | soured""",
    """bugs? | weevils? | beetles? | moths? | larva* | maggots? | webs? | webbing | insects? | ants | mites | mouse
        | mice | droppings | fly | flies""",
    """undercooked | underbaked | underdone | not ?(quite|fully)? (cooked|done|baked) | half[ -](baked|cooked) | raw
        (in the )?(middle|inside|centre|center|bit*) | (ate|eaten|licked|tasted|had|swallowed) ..
        (raw|dough|batter|uncooked|yolk*) | (gooey|runny|wobbly|doughy|pink|raw|wet|liquid) ..
        (middle|inside|centre|center) | (only|just) (got|reached|hit|made it) .. (to|\\d+) | not ..
        (arrived|reached) | (cooked|baked) .. to \\d+ | \\d+ (inside|in the middle|internal*)""",
    """thawed | defrosted | refroze* | refreez* | re-?froz* | (froze|frozen) again |
        (freezer|fridge|power|electric*|walk-?in|chiller|cooler) ..
        (died|broke|went|off|out|cut|failed|door|down|warm|open|outage) | power cut | no power | outage |
        (lost|losing) power""",
    """dent(ed|s)? | bulg* | swollen | fizz* | hiss* | popped | leak* | rust* | seal (broke|broken|failed|didn't) |
        unsealed | lid .. (up|down|loose|open|popp*|domed|off) | floated | floating | (they|it|eggs?|but they)
        (float|sink)s? | cracked eggs? | dirty""",
    """(broke|broken|chip*|crack*|shatter*) .. (glass|jar|bowl|dish|pyrex|ceramic|thermometer|mug|plate) |
        (glass|jar|bowl|dish|thermometer|plate) .. (broke|broken|chip*|crack*|shatter*) | glass in |
        (peel*|flak*|scratch*) .. (coating|pan|tin|nonstick|teflon|into) |
        (coating|pan|tin|nonstick|non-stick|teflon) .. (peel*|flak*|scratch*|com* off) | black bits come |
        sprayed | plastic .. melted | melted .. plastic | metal shavings? | dropped .. (in|into)""",
    """microwav* (the |my |some )?flour | heat[ -]treat* | licked the (bowl|spoon|beater) | fried with | re-?us* ..
        oil""",
)  # fmt: skip
# A verdict on it is asked for.
_USE_IT = phrases(
    """safe | unsafe | ok | okay | fine | eat | eaten | eating | edible | inedible | bin | toss | tossing | throw* |
        chuck | ditch | dump | trash | use | using | usable | useable | used | bake | keep (any|it|them|eating)
        | cut (it|that|them|round|around|off) | slice .. off | scrape | scoop | sick | ill | poison* | toxic |
        harm* | danger* | risk* | kill* | good (for|to|enough) | bad | still | feed | fit (to|tae|for) | start
        (again|over) | open it | sell | give | salvag* | sav(e|ed|able|eable) | sieve | sift | what
        (do|should|would) (i|you) do | what now | enough | alright | all ?right | serve | drink | anyway |
        asking | want (it|them) | worr(y|ied) | would you | yes or no | goner | past it | had it | dead | trust
        | fridge it | get away | finished | lost cause | ruined | gone off | is it off | take (it|them) to |
        kids | guests | save"""
)
# Questions about a dough that ferments, a pan that waits or a habit, in the same words.
_HABIT = phrases(
    """(how long|how many (hours|days|weeks|months)) (can|could|should|does|do|will|would|to|before|is|until) | how
        (do|can|to|should) (i|you|we) ..
        (store|keep|freeze|thaw|refresh|wrap|soften|revive|stop|avoid|prevent|get|make|know) | (how|what) ..
        (stop|prevent|avoid) | (supposed|meant|should(n't)?) .. (to )?(smell|taste|look|be|float|fizz) | is
        (it|this|that) normal | normal\\? | is it ready | ready (to|yet)? | why
        (is|did|does|do|are|has|was|were|would) | what (causes|makes|made|caused) |
        (do|should|must|can|could|may) (i|you|we) ..
        (let|leave|rest|proof|prove|cool|soak|chill|soften|ferment|rise|bake|thaw|defrost) ..
        (overnight|out|first|before|on the counter|at room) | need .. fridge | make .. (night|day) before | in
        the fridge .. overnight | overnight in the fridge"""
)
_PERISHABLE = phrases(
    """cream | custard* | cheesecake* | quiche* | meat | chicken | ham | bacon | sausage* | rice | milk | eggs? |
        pumpkin pies? | tiramisu | mousse | trifle | curd | mascarpone | cream[ -]cheese | fish | tuna | salmon
        | gravy | stock | stuffing | fillings?"""
)
_UNCHILLED = phrases(
    """overnight | all night | on the (counter|worktop|bench|side|table) | out of the fridge | unrefrigerated | room
        temp* | without (a fridge|refrigerat*|chilling) | in the (car|sun|garage) | left out | sit(ting)? out |
        stay out"""
)
# The grey-green of seeds, the purple of husk, the blue of garlic: colour reactions that every table of faults knows.
_REACTION = phrases(
    """(sunflower|seed butter|sunbutter|psyllium|husk|garlic|red cabbage|blueberr* |walnuts?|banana*|carrot*|baking
        soda|beet* |potato*|artichoke*|yolks?|purple yam|ube|butterfly pea) ...
        (green|purple|blue|lilac|mauve|violet|grey|gray|brown|black|pink*) |
        (green|purple|blue|lilac|mauve|violet|grey|gray) ... (sunflower|seed butter|psyllium|husk|garlic|red
        cabbage|blueberr* |walnuts?|carrot*)"""
)
_SPOILT = phrases(
    """mou?ld* | fuzz* | furry | fung* | slim(e|y) | smell* | stink* | spots? | dots? | streak* | freckles |
        patch(es)? | days? | weeks? | counter | overnight | left"""
)
_SHADE = phrases(
    """(green|greenish|purple|blue|bluish|pink|pinkish|grey|gray|black|orange|red|lilac|violet) | (colou?r|tint)
        (changed?|change)"""
)
_HARM = phrases(
    """poison* | toxic | harm* | danger* | safe | unsafe | sick | (ok|okay|fine|alright|good) to
        (eat|feed|serve|give|use) | edible | eat (it|them|this|these) | bad for"""
)

# Shelf keeping that only a tested process makes safe.
_PRESERVING = phrases(
    """canning | canned (at|it|them|my|this) | (home|safely|to|pressure|dry|oven|properly|water[ -]?bath|steam)[
        -]can | (can|could|should|may|do) (i|you|we|u|one) ?(safely|just|home|dry|pressure|water[
        -]?bath|oven|still)? (can|bottle|jar|preserve|pickle|confit|vacuum*|seal|process|water[ -]?bath) | how
        (do|can|should|would|to|does|long) (i|you|we|one|do i)? ?..
        (can|bottle|jar|preserve|pickle|confit|vacuum[ -]?(seal|pack)|process) ..
        (it|this|them|these|the|my|a|in|for|so|at|for
        the|chil*|pep*|peach*|butter|pumpkin|cake|bread|sauce|curd|fruit|jam|filling|garlic|herbs|vegetables|tomato*)
        | process .. in (the|a) jars? | keeps? .. (pantry|shelf|larder|cupboard) .. (year|months|winter) |
        (year|months|winter) .. (pantry|shelf|larder|cupboard) | (pantry|shelf|larder|cupboard) .. (for|all|a)
        .. (year|months|winter) | pressure[ -]?(cann*|cook .. jars?) | water[ -]?bath* ..
        (can|canned|canning|jars?|curd|butter|pumpkin|jam|sauce|jelly|pickle*|times?) |
        (curd|butter|pumpkin|jam|sauce|jelly|pickle*|jars?|tomato*|fruit|filling) .. water[ -]?bath* | shelf[
        -]?stable | shelf life .. (jars?|home ?made (jam|oil|sauce|syrup|curd|filling|chutney|pesto)) |
        (cakes?|bread|loaf|loaves|brownies?|muffins?|flour|butter|curd|nuts|filling|batter) .. in ..
        (mason|kilner|canning|preserving|sealed|pint|quart|jam)? ?jars? ..
        (keep|last|seal|months|gift|gifts|xmas|christmas|shelf|post|ship|mail|pantry|lids?|oven|how long|safe) |
        (seal*|steril* and seal) .. (jars?|lids?) | lids? (on )?(while )?hot | do they seal | jars? ..
        (seal|ping|pop) | inversion | upside[ -]down .. jars? | jars? .. upside[ -]down | bottling |
        (garlic|herbs?|herby|chill?i(es|s)?|chilli|rosemary|basil|thyme|lemon
        peel|tomato(es)?|mushrooms?|peppers?|vegetables?|truffle|onion|ginger|sage|pesto) .. (in|under) .. oil |
        (garlic|herb|rosemary|basil|chilli|chili|thyme|sage|ginger|truffle|tomato) (infused )?oil ..
        (keep*|last*|store*|shelf|safe|fridge|gift*|bottle*|long|cupboard) |
        (keep*|last*|store*|storing|bottle*|long|safe) ..
        (garlic|herb|rosemary|basil|chilli|chili|thyme|sage|ginger|infused|flavou?red) .. oil | oil ..
        (garlic|herbs?|rosemary) | infus* .. oil | oil .. infus* | flavou?red oils? | garlic confit | confit
        garlic | put up in | vac(uum)?[ -]?(pack*|seal*|bag*) .. (shelf|months|last|keep|unrefrigerated|room
        temp*|cupboard|pantry|safe|long|cakes?|bread|brownies?|fresh) | low[ -]sugar (jam|jelly|marmalade) |
        (less|half|halve|reduce|cut|lower|without|no) .. sugar .. (jam|jelly|marmalade|preserve*) ..
        (keep|last|safe|shelf|cupboard|store) | (halve|reduce|cut|half|less|skip) .. sugar .. in ..
        (jam|jelly|marmalade) | jam .. (without|no|less|half .. ) sugar .. (keep|last|safe|shelf|cupboard) |
        (dry|dried|dehydrate*|drying) .. (fruit|apples?|banana*|meat|jerky|herbs|tomato*|mushroom*|eggs?|slices)
        .. (shelf|pantry|cupboard|months|year|store|keep|last|jar|safe) | (without|no) (refrigerat*|a
        fridge|fridge|chilling) .. (months|weeks|keep|last|shelf) | (months|weeks) .. (unrefrigerated|without
        refrigeration|without a fridge) | botulism | clostridium | oxygen absorber* ..
        (cake|bread|brownie*|cookies)"""
)  # fmt: skip
# Things that must not come near food, and ways of working that hurt: whoever asks about them is told by a person.
_NEVER = phrases(
    """(essential|tea tree|aromatherapy|fragrance|massage|scented) .. oils? | essential .. oil | florists? |
        (foraged|wild|garden|hedgerow|picked) .. (flowers?|blossoms?|petals|berries|mushrooms?) | (lily of the
        valley|oleander|foxglove|daffodil*|hydrangea*|lilies|poppies|laburnum|ivy|yew|holly) .. | (bitter
        almonds?|apricot (kernels?|stones?)|cherry (pits?|stones?|kernels?)|peach (pits?|kernels?|stones?)|plum
        stones?|apple (seeds|pips)) .. | raw (elderberries|kidney beans?|beans|cassava|rhubarb lea*) | rhubarb
        leaves | unsoaked kidney | galvani[sz]ed | lead (glaze*|crystal|paint) | copper (bowl|pan|pot) ..
        (safe|green|acid|lemon|unlined) | unlined copper | self[ -]clean* .. (bird|parrot|budgie) |
        (pyrex|glass) .. (freezer|fridge|cold|frozen) .. (oven|hot|boiling|hob|broiler|grill) |
        (freezer|fridge|frozen|cold) .. (oven|hot) .. (pyrex|glass) | glass .. (on the|over)
        (hob|stove|flame|burner) | dry ice | liquid nitrogen | (drain|oven) cleaner | lye | caustic soda |
        sodium hydroxide | (grease|oil|fat|pan) fire | on fire | caught fire | flamm* | flamb* | vodka ..
        (flame|burner|hob) | borax | hydrogen peroxide | mineral oil .. (eat|cake|dough) | antifreeze |
        (methylated|rubbing|surgical) (spirits?|alcohol) | craft (glitter|paint) | (non[ -]?toxic|craft) ..
        (glitter|dust) | cannabis | weed butter | edibles | cannabutter | silica gel | (whole|ground|spoons? of)
        nutmeg .. (high|trip|too much|dangerous) | (bleach|disinfect*) .. (food|fruit|dough|pan|bowl) |
        toothpicks? .. left in | (raw|unpasteuri[sz]ed) milk"""
)
_RAW = phrases(
    """(heat[ -]?treat*|microwav*|toast*|roast*|bak(e|ing)|cook*) .. flour .. (safe|raw|edible|cookie
        dough|dough|kill*|bacteria|germs|salmonella|e\\.? ?coli|eat) | (edible|raw|safe) .. (cookie )?dough ..
        (flour|safe|normal|regular|plain) | heat[ -]?treat* .. flour | (kill*|salmonella|e ?coli) .. flour |
        flour .. (kill*|salmonella|e ?coli)"""
)


# Names that hold a word of spoiling.
_NAMED_SO = phrases(
    """sour(ed)? (cream|milk|dough|cherr(y|ies)|cabbage|candy|mix|starter) | sweet and sour | sour ?dough | bug(s)?
        me | weeks? ago | years? ago | days? ago | (moth|fly)er | on the fly | butterfl(y|ies)"""
)
# What is said to be left out of a recipe.
_OMITTED = phrases("(swap*|substitut*|instead of|replace*|in place of|skip|omit|without)")
_EATEN_RAW = phrases(
    """(safe|unsafe|dangerous|danger|risky|risk|harmful|harm) .. (eat*|consume|drink*|swallow*|tast*) |
        (eat*|consume|drink*|swallow*|tast*) .. (safe|unsafe|dangerous|risky|harmful)"""
)
_LONG_ENOUGH = phrases("enough | keep* | last* | how (long|many)")
_GRAVE = phrases(
    """safe | unsafe | eat | eaten | edible | bin | toss | throw* | chuck | still
        (ok|okay|good|fine|safe|usable|use) | sick | poison* | toxic | harm* | risk* | danger*"""
)


# How far from a question what happened may be told, in characters before and after.
_BEFORE, _AFTER = 320, 160


_BARE = re.compile(
    r"""^\W*(?:so\s|still\s|is it\s|are
        they\s)*(?:good|ok(?:ay)?|safe|fine|alright|off|bad|edible|bin|toss|keep|use)\b(?:\sor\s\w+(?:\sit)?)?\W*$""",
    re.IGNORECASE,
)
# A sentence of the comment, of which a question may be a piece.
_MARKS = re.compile(r"[.?!\n]")


def whole_sentence(piece: str, comment: str) -> str:
    """The sentence that a piece of a comment stands in, from one closing mark to the next.

    >>> whole_sentence("can this", "Lovely. So can I can this? Thanks")
    ' So can I can this'
    """
    at = comment.find(piece)
    if at < 0:
        return piece
    before = [found.end() for found in _MARKS.finditer(comment, 0, at)]
    after = _MARKS.search(comment, at + max(len(piece.rstrip(".?!\n")), 1))
    return comment[before[-1] if before else 0 : after.start() if after else len(comment)]


def _around(sentence: str, comment: str) -> str:
    at = comment.find(sentence)
    return comment if at < 0 else comment[max(0, at - _BEFORE) : at + len(sentence) + _AFTER]


def hazard_asked(sentence: str, comment: str) -> bool:
    """Whether a question asks if this very item may still be used, or about a practice that nobody has validated.

    >>> hazard_asked("still safe to bake?", "dough left on the counter since last night, still safe to bake?")
    True
    >>> hazard_asked("do I leave the butter out to soften?", "do I leave the butter out to soften?")
    False
    """
    said, told = plain(sentence), plain(_around(sentence, comment))
    whole = plain(whole_sentence(sentence, comment))
    judged = bool(_USE_IT.search(said) or _BARE.search(said))
    if any(pattern.search(whole) for pattern in (_PRESERVING, _NEVER, _RAW)) or _EATEN_RAW.search(said):
        return True
    if (judged and _NEVER.search(told)) or ((judged or _LONG_ENOUGH.search(said)) and _PRESERVING.search(told)):
        return True
    if _SHADE.search(told) and _HARM.search(said):
        return not (_REACTION.search(told) and not _SPOILT.search(told))
    if _HABIT.search(said):
        return bool(_PERISHABLE.search(said) and _UNCHILLED.search(said) and _HARM.search(said))
    if _OMITTED.search(said) and not _GRAVE.search(said):
        return False
    return judged and bool(_STATE.search(_NAMED_SO.sub("", told)))
