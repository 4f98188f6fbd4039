"""Questions about this very item: is it still safe; and about keeping food in a way that nobody has validated."""

from __future__ import annotations

import re

from qa.knowledge.limits.words import in_full, plain
from qa.text.phrases import phrases

_PLACES = """out | overnight | all night | (over)?night | (in|on|at|under|by|inside) ..
    (car|boot|trunk|bag|basket|van|truck|porch|garage|patio|sun|heat|window|windowsill|radiator|stove|hob|counter|worktop|bench|table|side|shed|loft|attic|desk|lunchbox|suitcase)
    | the
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
        morning|dinner|tea|noon|(sat|sun|mon|tues|wednes|thurs|fri)day|christmas|easter|spring|summer|autumn|winter|january|february|march|april|june|july|august|september|october|november|december|easter|(19|20)\\d\\d)
        | (\\d+|a few|couple of|couple|several|two|three|four|five|six|seven|eight|nine|ten|twelve|many)
        ?(hours?|hrs?|h|days?|weeks?|wks?|months?|mths?|years?|yrs?) ..
        (out|old|past|over|after|unrefrigerated|at room|on the|in (the|a) (car|sun|garage|heat|bag)) |
        (for|after|been|about|like|now) (\\d+|a few|several|two|three|four|five|six|seven|eight|nine|ten|twelve)
        ?(hours?|hrs?|h|days?|weeks?|wks?|months?) | (\\d+|two|three|four|five|six|seven|eight|nine|ten|twelve)[
        -](days?|weeks?|months?|years?|yrs?)[ -]old | from (19|20)\\d\\d | from last
        (week*|month|year|summer|christmas|easter|winter|autumn) | (forgot|forgotten|didn't|never|failed) ..
        (refrigerat*|chill*|fridge|put (it|them) away) | buffet | display | locker | got (wet|damp|soaked) |
        flooded | hot car | warm car | (a|one) (week|month|year|fortnight)[ -]old | warm kitchen | without ice |
        no ice | (loft|attic|back of .. (cupboard|freezer|fridge|pantry))""",
    """expir* | out of date | past .. (date|best|use|sell|prime) | best[ -]?before | use[ -]by | sell[ -]by | bbe?
        (date|was|is) | dated | no date | went out .. (date|in|last) | (date|dates) (has|have|was|is|were) ..
        (gone|passed|past|over)""",
    """mou?ld* | fung* | fuzz* | furry | hairy |
        (blue|green|black|white|pink|pinkish|orange|red|grey|gray|yellow|fluffy|dark|brown)
        (spots?|bits?|dots?|patch(es)?|specks?|streaks?|freckles|stuff|growths?|fluff|tinge|slime|film|fur|rings?|threads|hue|cast|mark*)
        | slim(e|y) | spores? | (green|brown|grey|gray|pink|redd|yellow|blu|whit)ish | orange
        (on|in|bits?|top|layer|liquid) | something growing | pink streak* |
        (turned|gone|went|going|goes|looks?|is|are|was) .. (pink|pinkish|orange) | streaks""",
    """smells? | smelt | smelly | smelling | stinks? | stinky | whiff* | pong* | niff* | odou?r |
        (gone|went|goes|going|turned|turning|bit|wee bit|little|slightly|tastes?|tasted|looks?|seems?)
        (off|bad|rancid|sour|funny|manky|ropey|ropy|iffy|dodgy|weird|soft and|bitter) | rancid | sour | curdled
        in .. (carton|bottle|fridge|jug) | lumpy | borderline | on the turn | dubious | questionable |
        suspicious | suspect | past its best | sprouting | sprouted | (tastes?|smells?|tasted|smelt) .. like
        (paint|soap|metal|cardboard|fish|petrol|plastic|chemicals?|nail|crayon*|putty|feet|cheese|vomit|wee|ammonia)
        | off taste | spoil* | soured""",
    """bugs? | weevils? | beetles? | moths? | larva* | maggots? | webs? | webbing | insects? | ants | mites | mouse
        | mice | droppings | crawl* | wriggl* | hatch* | critters? | cocoons? | fly | flies""",
    """(chicken|pork|meat|turkey|sausage*|mince|beef|bacon|fish|filling) .. (pink|raw|bloody|cold in) |
        (inside|middle|centre|center) (was|is|were|still) .. (cold|raw|runny|pink|wet|doughy|gooey|tepid) |
        undercooked | underbaked | underdone | not ?(quite|fully)? (cooked|done|baked) | half[ -](baked|cooked)
        | raw (in the )?(middle|inside|centre|center|bit*) | (ate|eaten|licked|tasted|had|swallowed) ..
        (raw|dough|batter|uncooked|yolk*) | (tepid|lukewarm|cold|cool) (in the
        |inside)?(middle|inside|centre|center)? | (only|just) .. \\d{2,3} ?(c|f|degrees)? | \\d{2,3}
        ?(c|f|degrees) only | (gooey|runny|wobbly|doughy|pink|raw|wet|liquid) .. (middle|inside|centre|center) |
        (only|just) (got|reached|hit|made it) .. (to|\\d+) | not .. (arrived|reached) | (cooked|baked) .. to
        \\d+ | \\d+ (inside|in the middle|internal*)""",
    """thawed | defrosted | refroze* | refreez* | re-?froz* | (froze|frozen) again |
        (freezer|fridge|power|electric*|walk-?in|chiller|cooler) ..
        (died|broke|went|off|out|cut|failed|door|down|warm|open|outage) | power cut | blackout | black out |
        went soft then hard | fridge .. (\\d+ ?(c|degrees|f)|thermometer) | no power | outage | (lost|losing)
        power""",
    """dent(ed|s)? | domed | bloated | bulg* | swollen | fizz* | hiss* | popped | leak* | rust* | seal
        (broke|broken|failed|didn't) | unsealed | lid .. (up|down|loose|open|popp*|domed|off) | floated |
        floating | (they|it|eggs?|but they) (float|sink)s? | cracked eggs? | shell .. cracked | cracked
        (shell|in) | dirty""",
    """(broke|broken|chip*|crack*|shatter*) .. (glass|jar|bowl|dish|pyrex|ceramic|thermometer|mug|plate) |
        (glass|jar|bowl|dish|thermometer|plate) .. (broke|broken|chip*|crack*|shatter*) | glass in |
        (peel*|flak*|scratch*) .. (coating|pan|tin|nonstick|teflon|into) |
        (coating|pan|tin|nonstick|non-stick|teflon) .. (peel*|flak*|scratch*|com* off) | black bits come |
        (dropped|smashed) .. (plate|glass|bowl|jar|thermometer|mug|ornament|bulb) | shards? | splinters? |
        (teflon|metal|paint|rust*) (flakes?|bits?|shavings?) | flakes? .. in (the|my) (cake|batter|dough|mix) |
        sprayed | plastic .. melted | melted .. plastic | metal shavings? | dropped .. (in|into) |
        (sneez*|cough*|spat|spit|bled|dribbl*|drool*|drip*) .. (on|in|into|over) |
        (blood|plaster|band[ -]?aid) .. in""",
    """microwav* (the |my |some )?flour | heat[ -]treat* | licked the (bowl|spoon|beater) | fried with | re-?us* ..
        oil""",
)  # fmt: skip
# A verdict on it is asked for.
_USE_IT = phrases(
    """or (bin|sink|compost|bucket|pigs|chickens) | bake (on|with) | go ahead | carry on | proceed | drink it |
        discard | (spoon|skim|scoop|pick|peel|trim) (it|that|them) off | trust | risk it | chance it | would u |
        safe | unsafe | ok | okay | fine | eat | eaten | eating | edible | inedible | bin | toss | tossing |
        throw* | chuck | ditch | dump | trash | use | using | usable | useable | used | bake | keep
        (any|it|them|eating) | cut (it|that|them|round|around|off) | slice .. off | scrape | scoop | sick | ill
        | poison* | toxic | harm* | danger* | risk* | kill* | good (for|to|enough) | bad | still | feed | fit
        (to|tae|for) | start (again|over) | open it | sell | give | salvag* | sav(e|ed|able|eable) | sieve |
        sift | what (do|should|would) (i|you) do | what now | sort (it|that|them|this) | get rid | enough |
        alright | all ?right | serve | drink | anyway | asking | want (it|them) | worr(y|ied) | would you | yes
        or no | goner | done for | history | sniff | keep (using|baking) | landfill | past it | had it | dead |
        trust | fridge it | get away | finished | lost cause | ruined | gone off | is it off | take (it|them) to
        | kids | guests | save"""
)
# Questions about a dough that ferments, a pan that waits or a habit, in the same words.
_HABIT = phrases(
    """(how long|how many (hours|days|weeks|months)) (can|could|should|does|do|will|would|to|before|is|until) | how
        (do|can|to|should) ?(i|you|we)? ..
        (store|keep|freeze|thaw|refresh|wrap|soften|revive|stop|avoid|prevent|get|give|add|achieve|make|know) |
        (how|what) .. (stop|prevent|avoid) | (supposed|meant) .. to | should(n't)? (it|they|the|my|these|this)
        .. (smell|taste|look|be|float|fizz) | is (it|this|that) normal | normal\\? | is it ready | ready
        (to|yet)? | why (is|did|does|do|are|has|was|were|would) | what (causes|makes|made|caused) |
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
# How long, or whether, it may stand without cold; not what is brought to the warmth of the room to be used.
_STANDS_OUT = phrases(
    """(can|could|may|should|ok|okay|safe|fine|how long|how many hours|alright|leave|leaving|keep|keeping|store) ...
        (sit|stay|stand|stands|sits|left|leave|keep|kept|last|survive*|travel*|cool|be|out|hold) .. (out|outside|room
        temp*|counter|worktop|bench|table|unrefrigerated|without (ice|a fridge|refrigerat*|chilling|cooling)|out
        of the fridge|overnight on|in (the|a) (car|sun|garage|heat|lunchbox|bag)) | (travel*|sit|survive*|last*)
        .. (\\d+|two|three|four|five|six|several|few) (hours?|hrs?) .. (without|in|no|out)"""
)
_TO_USE = phrases("""(to|until|till|and|so it|to get) .. (soften*|soft|warm up|come to|reach|use|whip) | come to
    room temp* | room temp* .. (before|first|for creaming) | before (whip*|us*|mix*|beat*|bak*|cream*|add*) | be
    at room temp*""")
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
    """(be|been|getting|get) (canned|bottled|jarred) | sous[ -]?vide ..
        (jars?|cheesecakes?|custards?|garlic|curd) | (jars?|cheesecakes?|custards?|garlic|curd) .. sous[ -]?vide |
        (canned|can|canning|process*) .. (instant
        pot|multi-?cooker|pressure cooker|boiling (water )?bath|water bath|dishwasher) | processed in | lids? ..
        (suck|ping|pop|seal|down) | jar cakes? | (cakes?|breads?|loaves) in (a )?jars? | under .. oil | in ..
        sealed jars? .. (larder|pantry|cupboard|shelf)""",

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
        garlic (butter|paste|puree|honey) .. (room temp*|shelf|counter|store|keep*|cupboard|last*) |
        (store|keep) .. garlic (butter|paste|puree|honey) |
        (garlic|herb|rosemary|basil|chilli|chili|thyme|sage|ginger|truffle|tomato) (infused )?oil ..
        (keep*|last*|store*|shelf|safe|fridge|gift*|bottle*|long|cupboard) |
        (keep*|last*|store*|storing|bottle*|long|safe) ..
        (garlic|herb|rosemary|basil|chilli|chili|thyme|sage|ginger|infused|flavou?red) .. oil | oil ..
        (garlic|herbs?|rosemary) | infus* .. oil | oil .. infus* | flavou?red oils? |
        (peel|zest|lemon|citrus|vanilla|nuts?) .. in .. oil | garlic confit | confit garlic | put up in |
        vac(uum)?[ -]?(pack*|seal*|bag*) .. (shelf|months|last|keep|unrefrigerated|room
        temp*|cupboard|pantry|safe|long|cakes?|bread|brownies?|fresh) | low[ -]sugar (jam|jelly|marmalade) |
        (less|half|halve|reduce|cut|lower|without|no) .. sugar .. (jam|jelly|marmalade|preserve*) ..
        (keep|last|safe|shelf|cupboard|store) | (halve|reduce|cut|half|less|skip) .. sugar .. in ..
        (jam|jelly|marmalade) | jam .. (without|no|less|half .. ) sugar .. (keep|last|safe|shelf|cupboard) |
        (dry|dried|dehydrate*|drying) ..
        (beans?|pumpkin|puree|vegetables?|fruit|apples?|banana*|meat|jerky|herbs|tomato*|mushroom*|eggs?|slices)
        .. (shelf|pantry|cupboard|months|year|store|keep|last|jar|safe) | (without|no) (refrigerat*|a
        fridge|fridge|chilling) .. (months|weeks|keep|last|shelf) | (months|weeks) .. (unrefrigerated|without
        refrigeration|without a fridge) | botulism | clostridium | oxygen absorber* ..
        (cake|bread|brownie*|cookies)"""
)  # fmt: skip
# Things that must not come near food, and ways of working that hurt: whoever asks about them is told by a person.
_NEVER = phrases(
    """salmonella | listeria | e\\. ?coli | germs | bacteria | (kids?|children|let|toddler*) .. lick* | garden
        cent(re|er) | nursery (plants?|flowers?)""",
    """(essential|tea tree|aromatherapy|fragrance|massage|scented) .. oils? | essential .. oil | florists? |
        (foraged|wild|garden|hedgerow|picked) .. (flowers?|blossoms?|petals|berries|mushrooms?) | (lily of the
        valley|oleander|foxglove|daffodil*|hydrangea*|lilies|poppies|laburnum|ivy|yew|holly) | (bitter
        almonds?|apricot (kernels?|stones?)|cherry (pits?|stones?|kernels?)|peach (pits?|kernels?|stones?)|plum
        stones?|apple (seeds|pips)) | raw (elderberries|kidney beans?|beans|cassava|rhubarb lea*) | rhubarb
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
        toothpicks? .. left in | (raw|unpasteuri[sz]ed) milk""",
)
_RAW = phrases(
    """(heat[ -]?treat*|microwav*|toast*|roast*|bak(e|ing)|cook*) .. flour .. (safe|raw|edible|cookie
        dough|dough|kill*|bacteria|germs|salmonella|e\\.? ?coli|eat) | (edible|raw|safe) .. (cookie )?dough ..
        (flour|safe|normal|regular|plain) | heat[ -]?treat* .. flour | (kill*|salmonella|e ?coli) .. flour |
        flour .. (kill*|salmonella|e ?coli)"""
)


# Names that hold a word of spoiling.
_NAMED_SO = phrases(
    """(paper|silicone|muffin|cake|bundt|loaf|chocolate|jelly|ice|panettone|metal|candy|fondant|pudding|madeleine|tart|pie|bread|clay|cookie|flan|wooden|plastic)
        mou?lds? | mou?lds? (tins?|pans?) | (in|into|from|of|the|a|my) mou?lds?
        (for|to|with|before|after|and|when|size) | un-?mou?ld* | sour(ed)?
        (cream|milk|dough|cherr(y|ies)|cabbage|candy|mix|starter) | sweet and sour | sour ?dough | bug(s)? me |
        weeks? ago | years? ago | days? ago | (moth|fly)er | on the fly | butterfl(y|ies)"""
)
# What needs no word of judgement beside it, and what a dough is left for on purpose.
_GRIM = phrases(
    """(chicken|pork|turkey|sausage*|mince) .. (pink|raw|bloody) | refroze* | soft then hard again | weevils? |
        maggots? | larva* | crawling | shards? | (teflon|rust|metal|paint|coating) flakes? |  droppings |
        mou?ld(y|ed)? (on|in|over|around|growing) | fuzzy | (white|green|blue|grey) fuzz | smells? of ammonia |
        re-?us* .. (frying|fry) oil | lining of .. (old|pan|tin) | (looked|looks|turned|went|is|was)
        (greenish|pinkish|slimy|mouldy|moldy)"""
)
_OUTDATED = phrases(
    """(days?|weeks?|months?|years?) .. (past|over|after|beyond|out of) .. (date|best|use|sell|expir*) |
        (milk|cream|yogh?urt|eggs?|butter|cheese|ricotta|mascarpone|buttermilk|meat|chicken|custard|tofu) ..
        (expired|out of date|past .. date) | (day|days|week|weeks|month|months|year|years)[ -]old ..
        (cream|milk|cheese|custard|cheesecake|eggs?|chicken|tart|quiche|trifle|mousse|frosting|filling)"""
)
_ABANDONED = phrases("""(been|sat|sitting|standing|lying) .. (in|on|out) .. (since|all day|all night) | standing
    since | forgot to (refrigerate|chill|put) | (left|forgot|forgotten) .. (in|on|at) ..
    (car|boot|trunk|sun|bag|heat|counter|bench|side|worktop|oven|table) | (left|forgot|forgotten|sat|stood) ..
    (out (on|in|since|for|at|all)|overnight|all night)""")
_ON_PURPOSE = phrases(
    """(proof|prove|proofing|rise|rising|rose|ferment*|starter|soak*|chill*|rest|rested|poolish|levain|biga|marinat*|tea|fridge|soften*|butter)"""
)
# What is said to be left out of a recipe.
_OMITTED = phrases("(next time|swap*|substitut*|instead of|replace*|in place of|skip|omit|without)")
_TOXIC = phrases("""(is|are|how (much|many)|can|could|does|do) ...
    (poisonous|toxic|harmful|poison|deadly|carcinogenic)""")
_EATEN_RAW = phrases(
    """(raw|uncooked) .. (eggs?|yolks?|whites?|dough|batter|flour|milk) ..
        (safe|unsafe|ok|okay|fine|danger*|risk*|dodgy|alright|harm*) | (safe|unsafe|danger*|risk*|dodgy|harm*)
        .. (raw|uncooked) (eggs?|yolks?|whites?|dough|batter|flour|milk|cookie) |
        (mousse|tiramisu|mayo*|icing|royal icing|eggnog|meringue|ice cream) .. raw (eggs?|whites?|yolks?) ..
        (safe|ok|okay|fine|danger*) | lick .. raw | (safe|unsafe|dangerous|danger|risky|risk|harmful|harm) ..
        (eat*|consume|drink*|swallow*|tast*) | (eat*|consume|drink*|swallow*|tast*) ..
        (safe|unsafe|dangerous|risky|harmful)"""
)
# Left to rise longer than meant, with nothing said of spoiling.
_OVERPROVED = phrases(
    """(left|leave|forgot|let|letting) (it|them|the \\w+|my \\w+)? ?(to )?(proof|prove|rise|ferment|proofing|proving|
        rising) | over-?pro(of|v)*"""
)
_TURNED = phrases("mou?ld* | smell* | stink* | sour | pink | orange | slim* | days? | weeks? | overnight | all night")
_LONG_ENOUGH = phrases("enough | keep* | last* | how (long|many)")
_GRAVE = phrases(
    """safe | unsafe | eat | eaten | edible | bin | toss | throw* | chuck | still
        (ok|okay|good|fine|safe|usable|use) | sick | poison* | toxic | harm* | risk* | danger*"""
)


# How far from a question what happened may be told, in characters before and after.
_BEFORE, _AFTER = 320, 160
# A piece of fewer words is read with its whole sentence.
_SHORT = 6


_BARE = re.compile(
    r"""^\W*(?:so\s|still\s|is it\s|are
        they\s)*(?:good|ok(?:ay)?|safe|fine|alright|off|bad|edible|bin|toss|keep|use)\b(?:\sor\s\w+(?:\sit)?)?\W*$""",
    re.IGNORECASE,
)


def _around(sentence: str, comment: str) -> str:
    at = comment.find(sentence)
    return comment if at < 0 else comment[max(0, at - _BEFORE) : at + len(sentence) + _AFTER]


def _unproven(said: str, whole: str, told: str, *, judged: bool) -> bool:
    """Whether a way of keeping or eating is asked about that no authority calls safe."""
    if any(pattern.search(whole) for pattern in (_PRESERVING, _NEVER, _RAW)) or _EATEN_RAW.search(said):
        return True
    return (judged and bool(_NEVER.search(told))) or (
        (judged or bool(_LONG_ENOUGH.search(said))) and bool(_PRESERVING.search(told))
    )


def hazard_asked(sentence: str, comment: str) -> bool:
    """Whether a question asks if this very item may still be used, or about a practice that nobody has validated.

    >>> hazard_asked("still safe to bake?", "dough left on the counter since last night, still safe to bake?")
    True
    >>> hazard_asked("do I leave the butter out to soften?", "do I leave the butter out to soften?")
    False
    """
    said, told = plain(sentence), plain(_around(sentence, comment))
    whole = plain(in_full(sentence, comment, _SHORT))
    judged = bool(_USE_IT.search(said) or _BARE.search(said))
    if _unproven(said, whole, told, judged=judged):
        return True
    if _SHADE.search(told) and _HARM.search(said):
        return not (_REACTION.search(told) and not _SPOILT.search(told))
    if _TOXIC.search(said) or (_PERISHABLE.search(said) and _STANDS_OUT.search(said) and not _TO_USE.search(said)):
        return True
    if _HABIT.search(said) or (_OMITTED.search(said) and not _GRAVE.search(said)):
        return False
    if (
        _OUTDATED.search(whole)
        or _GRIM.search(_NAMED_SO.sub("", whole))
        or (_ABANDONED.search(whole) and not _ON_PURPOSE.search(whole))
    ):
        return True
    if _OVERPROVED.search(whole) and not (_GRAVE.search(said) or _TURNED.search(told) or _PERISHABLE.search(told)):
        return False
    return judged and bool(_STATE.search(_NAMED_SO.sub("", told)))
