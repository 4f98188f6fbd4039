"""What may have happened to a food, and how a verdict on it is asked for: tables of phrases.

How they are written: see `qa.text.phrases`.
"""

from __future__ import annotations

import re

from qa.text.phrases import phrases

_PLACES = """out | overnight | all night | (over)?night |
        (in|on|at|under|by|inside) ..
        (tea towel|cloche|foil|car|boot|trunk|bag|basket|van|truck|porch|garage|patio|sun|heat|window|windowsill|
        radiator|stove|hob|counter|worktop|bench|table|side|shed|loft|attic|desk|lunchbox|suitcase)
    | the
    (counter|worktop|bench|side|table|car|boot|trunk|sun|stove|hob|cooker|windowsill|porch|garage|dresser|desk|cab|
        cupboard|oven|
    tiffin|bag|lunchbox|heat|patio|van|truck|step|floor|bus) | (a|her|his|my|our) ..
    (car|van|bag|boot|truck|lunchbox|garage|suitcase) | counter | worktop | room temp* | unrefrigerated | warm |
    tiffin"""
# Something happened to it.
STATE = phrases(
    f"""(spots?|dots?|specks?|freckles|patch(es)?|bits) of (green|blue|black|grey|gray|fuzz) |
        (left|forgot|forgotten) .. ({_PLACES}) | (leave|leaving|forget) .. (overnight|all
        night|counter|worktop|bench|side|car|windowsill|unrefrigerated) |
        (sat|sitting|sits|stood|stands|standing|been|was|were|kept|spent|rode|stayed|travelled|lay) ..
        ({_PLACES}) | (sat|been|kept|lived|stayed) .. (fridge|icebox|refrigerator|tin|box) ..
        (\\d+|two|three|four|five|six|seven|eight|nine|ten|twelve) (days|weeks|months) | (out|on the
        side|counter|worktop|bench) (all|over) ?night | all night | overnight | since
        (last|yesterday|lunch|breakfast|this
        morning|dinner|tea|noon|(sat|sun|mon|tues|wednes|thurs|fri)day|christmas|easter|spring|summer|autumn|winter|
        january|february|march|april|june|july|august|september|october|november|december|easter|(19|20)\\d\\d)
        | (\\d+|a few|couple of|couple|several|two|three|four|five|six|seven|eight|nine|ten|twelve|many)
        ?(hours?|hrs?|h|days?|weeks?|wks?|months?|mths?|years?|yrs?) ..
        (out|old|past|over|after|unrefrigerated|at room|on the|in (the|a) (car|sun|garage|heat|bag)) |
        (for|after|been|about|like|now) (\\d+|a few|several|two|three|four|five|six|seven|eight|nine|ten|twelve)
        ?(hours?|hrs?|h|days?|weeks?|wks?|months?) | (\\d+|two|three|four|five|six|seven|eight|nine|ten|twelve)[
        -](days?|weeks?|months?|years?|yrs?)[ -]old | from (19|20)\\d\\d | from last
        (week*|month|year|summer|christmas|easter|winter|autumn) | (forgot|forgotten|didn't|never|failed) ..
        (refrigerat*|chill*|fridge|put (it|them) away) | buffet | display | locker | got (wet|damp|soaked) |
        flooded | hot car | days? in the (post|mail) |
        (eggs?|cream|tins?|cans?) .. (froze|frozen) .. (split|burst|garage|shed|porch) | (hair|fluff|fur) .. dropped |
        (trifle|cheesecake|tiramisu|custard|quiche|mousse) .. (mon|tues|wednes|thurs|fri|satur|sun)day |
        from (yesterday|last (night|week)|(mon|tues|wednes|thurs|fri|satur|sun)day) | warm car |
        (a|one) (week|month|year|fortnight)[ -]old | warm kitchen | without ice |
        no ice | (loft|attic|back of .. (cupboard|freezer|fridge|pantry)) |
        (days|weeks|months|years)[ -]old""",
    """expir* | out of date | past .. (date|best|use|sell|prime) | best[ -]?before | use[ -]by | sell[ -]by | bbe?
        (date|was|is) | dated | no date | went out .. (date|in|last) | (date|dates) (has|have|was|is|were) ..
        (gone|passed|past|over)""",
    """mou?ld* | fung* | fuzz* | furry | hairy |
        (blue|green|black|white|pink|pinkish|orange|red|grey|gray|yellow|fluffy|dark|brown)
        (spots?|bits?|dots?|patch(es)?|specks?|streaks?|freckles|stuff|growths?|fluff|tinge|slime|film|fur|rings?|
        threads|hue|cast|dusting|mark*)
        | slim(e|y) | spores? | (gone|went|turned|turning) (grey|gray|green|black|blue) |
        (gone|went|turned|turning) .. (salmon|peach|rosy) | (eggs?|shells?) .. (crack|cracks) |
        (green|brown|grey|gray|pink|redd|yellow|blu|whit)ish | orange
        (on|in|bits?|top|layer|liquid) | something growing | pink streak* |
        (turned|gone|went|going|goes|looks?|is|are|was) .. (pink|pinkish|orange) | streaks""",
    """smells? | smelt | smelly | smelling | stinks? | stinky | whiff* | pong* | niff* | odou?r |
        (gone|went|goes|going|turned|turning|bit|wee bit|little|slightly|tastes?|tasted|looks?|seems?)
        (off|bad|rancid|sour|funny|manky|ropey|ropy|iffy|dodgy|weird|soft and|bitter) | rancid | sour | curdled
        in .. (carton|bottle|fridge|jug) | (milk|cream) .. lumpy | lumpy (milk|cream) |
        (be|it's|is|gone|smells?|tastes?) off | (slight|bit of a|little) tang | tangy | borderline | on the turn |
        dubious | questionable |
        suspicious | suspect | past its best | sprouting | sprouted | (tastes?|smells?|smell|tasted|smelt) .. like
        (paint|soap|metal|cardboard|fish|petrol|plastic|chemicals?|nail|crayon*|putty|feet|cheese|vomit|wee|ammonia)
        | off taste | spoil* | soured""",
    """bugs? | weevils? | beetles? | moths? | larva* | maggots? | webs? | webbing | insects? | ants | mites | mouse
        | mice | droppings | crawl* | wriggl* | hatch* | critters? | cocoons? | fly | flies""",
    """(chicken|pork|meat|turkey|sausage*|mince|beef|bacon|fish|filling) .. (pink|raw|bloody|cold in) |
        (ate|eaten|licked|tasted|had|swallowed) ..
        (raw|dough|batter|uncooked|yolk*) | (only|just) .. [4-7]\\d ?(c|degrees) | [4-7]\\d ?(c|degrees) only |
        (didn't|never|wouldn't) .. (above|past|over|to) [4-7]\\d |
        (only|just) (got|reached|hit|made it) .. (to|\\d+) | not .. (arrived|reached) | (cooked|baked) .. to
        \\d+ | \\d+ (inside|in the middle|internal*)""",
    """thawed | defrosted | refroze* | refreez* | re-?froz* | (froze|frozen) again |
        (freezer|fridge|power|electric*|walk-?in|chiller|cooler) ..
        (died|broke|went|off|out|cut|failed|door|ajar|down|warm|open|outage) | power cut | blackout | black out |
        went soft then hard | fridge .. (\\d+ ?(c|degrees|f)|thermometer) | no power | outage | (lost|losing)
        power""",
    """dent(ed|s)? | domed | bloated | bulg* | swollen | fizz* | hiss* | popped | leaking | leaked | rust* | seal
        (broke|broken|failed|didn't) | unsealed | lid .. (loose|popp*|domed|was (up|open|off)) |
        (carton|packet|pouch|tub|lid) .. (puffed|blown|balloon*) |
        eggs? .. (float|floats|floated|floating) | (they|it|eggs?|but they) (float|sink)s? | cracked eggs? |
        shell .. cracked | cracked
        (shell|in) | dirty""",
    """(broke|broken|chip*|crack*|shatter*) .. (glass|jar|bowl|dish|ceramic|thermometer|mug|plate) |
        (glass|jar|bowl|dish|thermometer|plate) .. (broke|broken|chip*|crack*|shatter*) | glass in |
        (peel*|flak*|scratch*) .. (coating|pan|tin|nonstick|non-stick|into) |
        (coating|pan|tin|nonstick|non-stick) .. (bubbled|blister*|peel*|flak*|scratch*|com* off) |
        black bits come |
        (dropped|smashed) .. (plate|glass|bowl|jar|thermometer|mug|ornament|bulb) | shards? | splinters? |
        (nonstick|non-stick|metal|paint|rust*) (flakes?|bits?|shavings?) |
        flakes? .. in (the|my) (cake|batter|dough|mix) |
        sprayed | plastic .. melted | melted .. plastic | metal shavings? |
        (dropped|fell) .. (floor|ground|carpet|sink|batter|dough|mix) |
        (found|piece|bits?|chunk) .. (plastic|metal|wire|wood|glass) |
        (sneez*|cough*|spat|spit|bled|dribbl*|drool*|drip*) .. (on|in|into|over) |
        (blood|plaster|band[ -]?aid) .. in""",
    """microwav* (the |my |some )?flour | heat[ -]treat* | licked the (bowl|spoon|beater) | fried with | re-?us* ..
        oil""",
)  # fmt: skip
# It was not baked through, which a baker may ask about for the next time; to eat it is another matter.
UNDERDONE = phrases(
    """(inside|middle|centre|center) (was|is|were|still) .. (cold|raw|runny|pink|wet|doughy|gooey|tepid) | undercooked |
        underbaked | underdone | not ?(quite|fully)? (cooked|done|baked) | half[ -](baked|cooked) | raw (in the
        )?(middle|inside|centre|center|bit*) | (tepid|lukewarm|cold|cool) (in the )?(middle|inside|centre|center) |
        (gooey|runny|wobbly|doughy|pink|raw|wet|liquid) .. (middle|inside|centre|center)"""
)
TO_BE_EATEN = phrases(
    """safe | unsafe | ok | okay | fine | alright | eat | eaten | ate | edible | bin (it|them) | toss | chuck | sick |
        ill | poison* | harm* | risk* | danger* | worr* | serv* | enough | guests | kids | good to go"""
)
# Yeast and leavening lose their strength and hurt nobody; a starter that sleeps is none the worse.
STRENGTH = phrases(
    """(baking (powder|soda)|bicarb*|yeast|starter|levain) ..
        (expired|out of date|old|gone off|dead|alive|active|lively|past|lost|still (good|work*|active|alive)) |
        (expired|old|out of date|dead|past .. date) .. (baking (powder|soda)|bicarb*|yeast)"""
)
# What ferments smells of it.
FERMENTS = phrases(
    """(smell*|smelt|whiff*|taste*|stink*|reek*) ..
        (yeast*|beer*|booz*|alcohol*|vinegar*|acetone|nail (polish|varnish)*|wine|cider|acidic|sharp|tang*)"""
)
FERMENTED = phrases("doughs? | starter | sour ?dough | levain | bread | loaf | poolish | preferment | vinegar")
# Fat or sugar that comes to the face of chocolate.
BLOOM = phrases(
    """bloom* | chocolate .. (white|grey|gray|dust*|pale|streak*|spots|patches) |
        (white|grey|gray|dusty) ... chocolate"""
)
# A verdict on it is asked for.
USE_IT = phrases(
    """or (bin|sink|compost|bucket|pigs|chickens) | bake (on|with) | go ahead | carry on | proceed | drink it |
        discard | (spoon|skim|scoop|pick|peel|trim) (it|that|them) off | trust | risk it | chance it | would u |
        safe | unsafe | ok | okay | fine | eat | eaten | eating | edible | inedible | bin | toss | tossing |
        throw* | chuck | ditch | dump | trash | use | using | usable | useable | used | bake | keep
        (any|it|them|eating) | cut (it|that|them|round|around|off) | slice .. off | scrape | scoop | sick | ill
        | poison* | toxic | harm* | danger* | risk* | kill* | good (for|to|enough) | bad |
        still ..
        (ok|okay|good|fine|safe|raw|us*|edible|eat*|alright|grand|sound|bak*|serv*|go|do|worth|work*|feed|fly|pass) |
        (is|are) (it|they|this|these|that) still | still giftable | feed | fit (to|tae|for) | good to go |
        all good | revive (it|them) | trim | crack on | (pick|fish) (it|them|that) out | heat (it|them) .. up |
        reheat* | (just|one) (a )?bite | (yea|yes) or
        (nay|no) | (cakes?|baking|cooking) only | start (again|over) | open it | sell | give | salvag* |
        sav(e|ed|able|eable) | sieve |
        sift | what (do|should|would) (i|you) do | what now | sort (it|that|them|this) | get rid | enough |
        alright | all ?right | serve | drink | anyway | asking | want (it|them) | worr(y|ied) | would you | yes
        or no | goner | done for | history | sniff | keep (using|baking) | landfill | past it | had it | dead |
        trust | fridge it | get away | finished | lost cause | ruined | gone off | is it off | take (it|them) to
        | kids | guests | save"""
)
# Questions about a dough that ferments, a pan that waits or a habit, in the same words.
HABIT = phrases(
    """how (fast|soon|quickly) |
        (how long|how many (hours|days|weeks|months)) (can|could|should|does|do|will|would|to|before|is|until) | how
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
PERISHABLE = phrases(
    """cream | custard* | cheesecake* | quiche* | meat | chicken | ham | bacon | sausage* | rice | milk | eggs? |
        pumpkin pies? | tiramisu | mousse | trifle | curd | mascarpone | cream[ -]cheese | fish | tuna | salmon
        | gravy | stock | stuffing | fillings?"""
)
# How long, or whether, it may stand without cold; not what is brought to the warmth of the room to be used.
STANDS_OUT = phrases(
    """(can|could|may|should|ok|okay|safe|fine|how long|how many hours|alright|leave|leaving|keep|keeping|store) ...
        (sit|stay|stand|stands|sits|left|leave|keep|kept|last|survive*|travel*|cool|be|out|hold) .. (out|outside|room
        temp*|counter|worktop|bench|table|unrefrigerated|without (ice|a fridge|refrigerat*|chilling|cooling)|out
        of the fridge|overnight on|in (the|a) (car|sun|garage|heat|lunchbox|bag)) | (cool|rest|set) .. overnight |
        overnight .. (cool|set) .. (counter|worktop|side) |
        (be|will|hold|survive*|fine|ok|okay) .. (outdoors|outside|in the (sun|heat|garden|marquee)) |
        (no|without) (a )?(cool ?(bag|box)|esky|chiller|ice) |
        (travel*|sit|survive*|last*) .. (\\d+|two|three|four|five|six|several|few) (hours?|hrs?) ..
        (without|in|no|out)"""
)
TO_USE = phrases("""(to|until|till|and|so it|to get) .. (soften*|soft|warm up|come to|reach|use|whip) | come to
    room temp* | room temp* .. (before|first|for creaming) | before (whip*|us*|mix*|beat*|bak*|cream*|add*) | be
    at room temp*""")
# The grey-green of seeds, the purple of husk, the blue of garlic: colour reactions that every table of faults knows.
REACTION = phrases(
    """(sunflower|seed butter|sunbutter|psyllium|husk|garlic|red cabbage|blueberr* |walnuts?|banana*|carrot*|
        baking soda|beet* |artichoke*|yolks?|purple yam|ube|butterfly pea) ...
        (green|purple|blue|lilac|mauve|violet|grey|gray|brown|black|pink*) |
        (green|purple|blue|lilac|mauve|violet|grey|gray) ... (sunflower|seed butter|psyllium|husk|garlic|red
        cabbage|blueberr* |walnuts?|carrot*|yolks?)"""
)
SPOILT = phrases(
    """mou?ld* | fuzz* | furry | fung* | slim(e|y) | smell* | stink* | spots? | dots? | streak* | freckles |
        patch(es)? | days? | weeks? | counter | left"""
)
SHADE = phrases(
    """(green|greenish|purple|blue|bluish|pink|pinkish|grey|gray|black|orange|red|lilac|violet) | (colou?r|tint)
        (changed?|change)"""
)
HARM = phrases(
    """poison* | toxic | harm* | danger* | safe | unsafe | sick | (ok|okay|fine|alright|good) to
        (eat|feed|serve|give|use) | edible | eat (it|them|this|these) | bad for | worr(y|ied)"""
)

# Names that hold a word of spoiling.
NAMED_SO = phrases(
    """(paper|silicone|muffin|cake|bundt|loaf|chocolate|jelly|ice|panettone|metal|candy|fondant|pudding|madeleine|tart|
        pie|bread|clay|cookie|flan|wooden|plastic)
        mou?lds? | mou?lds? (tins?|pans?) | (in|into|from|of|the|a|my) mou?lds?
        (for|to|with|before|after|and|when|size) | un-?mou?ld* | sour(ed)?
        (cream|milk|dough|cherr(y|ies)|cabbage|candy|mix|starter) | sweet and sour | sour ?dough | bug(s)? me |
        weeks? ago | years? ago | days? ago | (moth|fly)er | on the fly | butterfl(y|ies)"""
)
# What needs no word of judgement beside it, and what a dough is left for on purpose.
GRIM = phrases(
    """(chicken|pork|turkey|sausage*|mince|filling) .. (pink|pinky|raw|bloody) | (freezer|fridge) ..
        (ajar|open|died|broke) .. (weekend|nights?|days?|hours?) | (tin|can|jar) .. (hissed|spat|fizzed) |
        refroze* | soft then hard again | weevils? |
        maggots? | larva* | crawling | shards? | (nonstick|rust|metal|paint|coating) flakes? |  droppings |
        (days|weeks) ... (blue|green|white|black|pink|orange|grey|gray) (spots?|patch(es)?|streaks?|dots?|bits?) |
        (carton|packet|pouch|tub|tin|can|lid) .. (puffed|blown|balloon*|bulg*|swollen|dom(ed|ing)) |
        sticky .. stringy | strings? .. smell* |
        (milk|buttermilk|cream|butter|yogh?urt|meat|cheese|eggs?) .. (be|gone|going|smells?|tastes?) off |
        (blue|green|white|black|pink|orange|grey|gray)
        (spots?|patch(es)?|streaks?|dots?) .. (on|in) .. (crust|bread|cake|dough|jam|cheese|starter) |
        mou?ld(y|ed)? (on|in|over|around|growing) | fuzzy | (white|green|blue|grey) fuzz | smells? of ammonia |
        re-?us* .. (frying|fry) oil | lining of .. (old|pan|tin) | (looked|looks|turned|went|is|was)
        (greenish|pinkish|slimy|mouldy|moldy)"""
)
OUTDATED = phrases(
    """(days?|weeks?|months?|years?) .. (past|over|after|beyond|out of) .. (date|best|use|sell|expir*) |
        (milk|cream|yogh?urt|eggs?|butter|cheese|ricotta|mascarpone|buttermilk|meat|chicken|custard|tofu) ..
        (expired|out of date|past .. date) | (day|days|week|weeks|month|months|year|years)[ -]old ..
        (cream|milk|cheese|custard|cheesecake|eggs?|chicken|tart|quiche|trifle|mousse|frosting|filling)"""
)
ABANDONED = phrases("""(been|sat|sitting|standing|lying) .. (in|on|out) .. (since|all day|all night) |
        standing since | (hot|warm) (car|boot|van|trunk) |
        (on the side|counter|worktop|bench|out) (for )?(\\d+|two|three|four|five|six|several) (days|hours) |
        forgot to (refrigerate|chill|put) | (left|forgot|forgotten) .. (in|on|at) ..
    (car|boot|trunk|sun|bag|heat|counter|bench|side|worktop|oven|table) | (left|forgot|forgotten|sat|stood) ..
    (out (on|in|since|for|at|all)|overnight|all night)""")
ON_PURPOSE = phrases(
    """(proof|prove|proofing|rise|rising|rose|ferment*|starter|soak*|chill*|rest|rested|poolish|levain|biga|marinat*|
        tea|fridge|soften*|butter)"""
)
# A taste of soap or metal comes from leavening and hurts nobody.
SOAPY = phrases("soap* | metallic")
LEAVENED = phrases("(baking|bread|bicarb*)? ?soda | bicarb* | baking powder")
# What is said to be left out of a recipe.
OMITTED = phrases("(next time|swap*|substitut*|instead of|replace*|in place of|skip|omit|without)")
TOXIC = phrases("""(is|are|how (much|many)|can|could|does|do) ...
    (poisonous|toxic|harmful|poison|deadly|carcinogenic) | slimy ... (thrown|binned|eaten)""")
EATEN_RAW = phrases(
    """(raw|uncooked) .. (eggs?|yolks?|whites?|dough|batter|flour|milk) ..
        (safe|unsafe|ok|okay|fine|danger*|risk*|dodgy|alright|harm*) | (safe|unsafe|danger*|risk*|dodgy|harm*)
        .. (raw|uncooked) (eggs?|yolks?|whites?|dough|batter|flour|milk|cookie) |
        raw (egg )?(whites?|yolks?|eggs?) (in|into|for) (a|the|my)? ?(mousse|tiramisu|ice cream) |
        (taste|tasting|eat|eating|lick|nibble|nibbling) .. (raw|batter|dough|cake mix) |
        (mousse|tiramisu|mayo*|icing|royal icing|eggnog|meringue|ice cream) .. raw (eggs?|whites?|yolks?) ..
        (safe|ok|okay|fine|danger*) | lick .. raw | (safe|unsafe|dangerous|danger|risky|risk|harmful|harm) ..
        (eat*|consume|drink*|swallow*|tast*) | (eat*|consume|drink*|swallow*|tast*) ..
        (safe|unsafe|dangerous|risky|harmful)"""
)
# Left to rise longer than meant, with nothing said of spoiling.
OVERPROVED = phrases(
    """(left|leave|forgot|let|letting) (it|them|the \\w+|my \\w+)? ?(to )?(proof|prove|rise|ferment|proofing|proving|
        rising) | over-?pro(of|v)*"""
)
TURNED = phrases("mou?ld* | smell* | stink* | sour | pink | orange | slim* | days? | weeks? | overnight | all night")
LONG_ENOUGH = phrases("enough | keep* | last* | how (long|many)")
GRAVE = phrases(
    """safe | unsafe | eat | eaten | edible | bin | toss | throw* | chuck | still
        (ok|okay|good|fine|safe|usable|use) | sick | poison* | toxic | harm* | risk* | danger*"""
)
SPOILT_AS_WELL = phrases(
    """mou?ld* | fuzz* | furry | pink* | orange | slim* | bugs? | weevils? | moths? | (left|forgot*|sat) ..
        (counter|out|side|bench|car) | rotten | vomit | rancid"""
)
IT = phrases("it | they | them | this | these")
# To leave a thing away, not to leave it standing.
LEFT_AWAY = re.compile(
    r"\bleav\w+ out (?:the |any |my |some )?\w+(?: (?!overnight\b|tonight\b|outside\b)\w+)?"
    r"(?: (?:in|from|of) (?:the |this |my |your )?(?:recipe|batter|mix|mixture|dough|cheesecake|cake|sponge|muffins"
    r"|brownies|frosting|icing|filling|topping|base|crust))?\W*$"
    r"|\bleav\w+(?: \w+){1,4} out of (?:the |my |this |your |a )?"
    r"(?!fridge|refrigerator|freezer|cold|cool|ice|the |my )\w",
    re.IGNORECASE,
)
# "can I leave the egg out" mostly means without it, unless a place, a time or the warmth of a room is spoken of, or
# what is left out is a dish that must be kept cold.
LEAVES_OUT = phrases("(leave|leaves|leaving|left) .. out")
STANDING = phrases(
    """overnight | night | days? | hours? | hrs? | minutes? | mins? | how long | counter | worktop | bench | table |
        side | kitchen | car | sun | heat | garage | room | warm* | cool* | soften* | cold | chill* | fridge |
        refrigerat* | unrefrigerated | outside | safe* | still | since | until | till | all day | morning |
        evening | \\d+"""
)
TO_KEEP_COLD = phrases(
    """cheesecakes? | custard* | quiche* | tiramisu | mousse | trifle | curd | pies? | tarts? | fillings? | gravy |
        stock | stuffing | cooked | leftovers? | sausage rolls? | (cream|custard) (cake|puffs?|buns?|horns?) |
        eclairs? | they | these | those | them"""
)
