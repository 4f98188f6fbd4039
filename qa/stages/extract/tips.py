"""Tips that must not be repeated, as a table of how people word them.

The hazards are the usual warnings of food authorities, given in the cautions themselves; here only the wording stands.
How the phrases are written: see `qa.text.phrases`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from qa.text.phrases import phrases


@dataclass(frozen=True, slots=True)
class Rule:
    """A tip not to repeat: every pattern must be found; `filed` is the word its caution goes by."""

    name: str
    filed: str
    patterns: tuple[re.Pattern[str], ...]


def _rule(name: str, filed: str, *written: str) -> Rule:
    return Rule(name, filed, tuple(map(phrases, written)))


# What a tip says in its own praise.
_PRAISED = """fine | safe | ok | okay | never | always | nobody | no (problem*|need|harm|issue*|worries|trouble) |
    nothing happened | harmless | good | all ?right | works? | keeps? | lasts? | exaggerat* | nonsense | myth |
    scam | rubbish | in their heads? | don't (pay|worry|need|tell|bother|listen) | won't (hurt|kill) | years? |
    long | free | great | perfect* | lovely | delicious | love* | every (time|day|week) | still here | not dead
    | natural* | trick | hack | tip | just | simply | all the time | grew up | grandm* | nan | gran | mum |
    mother | alive | stomachs? of | hardy | tough | no one will know | who cares | good for you"""
_BABIES = r"""bab(y|ies) | infants? | newborns? | (month|months|mth|mo)[ -]olds? | \d+ ?(months?|mo|mths?) | under
    (one|1) | teeth* | dumm(y|ies) | pacifier | little ones? | grandbab* | toddlers? | weaning | blw | bottle of
    milk | spits up"""
_ANIMALS = """dogs? | pup* | pets? | cats? | kitt* | spaniel | terrier | labrador | dachshund | pug | poodle |
    beagle | boxer | bulldog | budgies | hamster | rabbit | guinea pig | lab | retriever | hounds? | parrot |
    budgie | hens | horse | rabbit | poodle | collie"""
_SHUNS_GLUTEN = (
    "co?eliacs? | gluten[ -]free | gf | no gluten | gluten intoleran* | wheat allerg* | can't have (wheat|gluten)"
)
# What the food authorities keep cold.
_CHILLED = """cream | custards? | eggs? | meat | rice | milk | cheesecakes? | quiches? | chicken | pumpkin | pies? |
    tiramisu | mousse | trifle | curd | mayo* | ham | fish | cream[ -]cheese | frosting | pastas? | gravy |
    stock | filling | eclairs? | buttercream | batter"""
RULES = (
    _rule(
        "garlic in oil",
        "garlic",
        """(garlic|herbs?|chill?i*|rosemary|basil|thyme|peppers?|mushrooms?) .. oil | oil ..
            (garlic|herbs?|chill?i*|rosemary|basil|thyme) | confit garlic | garlic confit""",
        """room temp* | cupboard | counter | shelf | pantry | larder | all year | months? | weeks? | keeps? | lasts?
            | windowsill | in the jar | on the side | since | ages | forever | for ever""",
    ),
    _rule(
        "dry canning",
        "canning",
        "jars? | canning | canned | lids? | can (my|the|our|all) | bottle (it|my|the)",
        """cakes? | bread | loaf | muffins? | batter | flour | butter | curd | oven | pumpkin | filling | pour* ..
            hot | upside | soup | beans | meat | milk | vegetables? | sauce | brownies? | nuts | pesto | invert* |
            flip*""",
        """keeps? | months? | winter | pantry | shelf | seal* | ping* | years? | pop* | no need | forever | for ever
            | cupboard""",
    ),
    _rule(
        "keeping without air",
        "vacuum",
        "vacuum | vac[ -]?pack* | oxygen absorber* | vac[ -]?seal*",
        "cakes? | bread | brownies? | muffins? | cookies | loaf | garlic | dough | pasta | meat | cheesecake",
        """months? | shelf | cupboard | pantry | years? | unrefrigerated | room temp* | without .. fridge | weeks |
            keeps?""",
    ),
    _rule(
        "thin jam",
        "jam",
        "jams? | jelly | marmalade | preserves?",
        """(half|less|no|without|skip|cut|halve|quarter|reduce) .. sugar | sugar[ -]free | wax | paraffin | without
            (boiling|processing|steriliz*|sterilis*)""",
        "shelf | cupboard | pantry | years? | months? | keeps? | larder | lasts?",
    ),
    _rule(
        "honey for an infant",
        "infant",
        "honey",
        _BABIES,
    ),
    _rule(
        "for infants",
        "infant",
        _BABIES,
        """whisky | whiskey | brandy | rum | vodka | alcohol | whole nuts | popcorn | (salt|sugar) water |
        rice milk | xanthan |
            thicken* | goat milk | raw milk | sips? of | psyllium | husks? | bran""",
        _PRAISED + " | give | gave | sleep* | rub | had | add | put",
    ),
    _rule(
        "heating flour",
        "heat treat",
        """(heat[ -]treat*|microwav*|toast*|bak(e|ed|ing)|roast*|oven) .. flour | flour .. (microwave|oven|heat[
            -]treat*|toast*)""",
        """safe | sterile* | raw dough | edible | eat | kills? | germs? | bacteria | raw cookie | cookie dough |
            salmonella | coli | no risk""",
    ),
    _rule(
        "raw flour or egg",
        "raw",
        """raw | batter | (cookie|cake|brownie|bread|biscuit) dough | uncooked | cracked eggs? | dirty eggs? | lick*
            .. (bowl|spoon|beater*)""",
        """eat* | lick* | tast(e|es|ed|ing) | drink* | swig* | swallow* | spoon* .. mouth | cracked | dirty | edible
            | nibbl* | snack* | sneak* | half the dough | from the bowl""",
        _PRAISED + " | kills? | invented | cooked anyway",
    ),
    _rule(
        "xylitol and pets",
        "xylitol",
        "xylitol | birch sugar | birch sweetener",
        _ANIMALS,
    ),
    _rule(
        "pets",
        "dog",
        """chocolate | raisins? | sultanas? | grapes? | currants | macadamia* | onions? | raw dough | yeast dough |
            bread dough | nutmeg | cocoa | salt dough | avocado""",
        _ANIMALS,
        """gets? | has | have | had | give* | gave | feed* | share* | sharing | love* | fine | treats? | leftovers |
            eats? | licks? | scraps | crusts?""",
    ),
    _rule(
        "another allergen",
        "allerg",
        "allerg* | anaphyla* | epi-?pens? | intoleran*",
        """just use | use .. (butter|flour|milk|nuts?) | (tiny|little|wee|small) (bit|amount|crumb|taste|pinch) | a
            (bit|crumb|taste|lick|trace) .. (won't|never|doesn't|can't|isn't) | grow* out | only peanut | in the
            mind | give (him|her|them) a (crumb|bit|taste|lick|little) | tolerance | made up | cashew | almond |
            nonsense | (be|is|are|was) fine | exaggerat* | get used | fad | attention | every (day|week) |
            build* .. up | pick (it|them|the) .. off | (cooks?|bakes?|baked|cooked) (out|off|away) | toughen* |
            in (their|her|his|the) heads? | don't tell | without telling | wip(e|ed) | can (still )?(eat|have) |
            cured""",
    ),
    _rule(
        "gluten for a celiac",
        "gluten",
        _SHUNS_GLUTEN,
        """oats? | spelt | kamut | einkorn | barley | rye | wheat | sourdough | durum | semolina | couscous | emmer |
            malt | seitan | (normal|plain|regular|ordinary) flour | a (little|bit|crumb|dusting|pinch) |
            (tiny|little|wee) (bit|amount|crumb) | crumbs? | same (toaster|board|tin|sieve)""",
        """((is|are|be|it's|its|'s|do|does|was) .. fine) | safe | ok for | okay for | no gluten | (can|could)
            (all|still|easily|totally)? ?(eat|have) | don't (pay|need to|tell) | any oats | handle | in
            (their|her|his|the) heads? | (won't|never|doesn't|didn't|can't) (hurt|kill|harm|notice*|matter) | never
            been ill | doesn't count | without telling | exaggerat* | eats it | naturally | perfect for | works for |
            suitable | breaks? down .. gluten | gets? rid | fermented""",
    ),
    _rule(
        "mould",
        "mould",
        "mou?ld* | fuzz* | furry (bit|patch|spot|part)* | (green|blue|white) (bit|bits|spot|spots|stuff|fluff)",
        """cut | scrap(e|ed|ing) | scoop* | eat* | toast* | harmless | corner | feed | around | slice* | trim* |
            pick* | penicillin | stir* | skim* | peel* | wipe* | boil* | reus*""",
        _PRAISED + " | rest | underneath | eat | use | kills | penicillin | boil* | feed | good as new",
    ),
    _rule(
        "undercooked",
        "undercooked",
        """undercooked | underbaked | underdone | raw (middle|inside|meat) | runny (egg|middle|inside) | pink
            (chicken|inside|meat) | gooey (middle|inside) .. egg""",
        """(perfectly|totally|completely|always|is|are) (safe|fine|ok|okay) | safe to eat | fine to eat | never
            (hurt|harmed|killed|bothered) | never (got|been|had) (sick|ill|a problem) | won't (hurt|kill)""",
    ),
    _rule(
        "left out",
        "room temperature",
        """(left|leave|leaving|leaves|keep|keeps|kept|sits?|sat|sitting|stays?|stood|stand|stands|lives?|store|stored|
        storing)
            .. (out|counter|worktop|bench|side|porch|room temp*|overnight|all
            night|cupboard|pantry|table|unrefrigerated|on|windowsill|cool oven|garage|days) | (never|don't|no
            need to|needn't|doesn't need|not bother) .. (fridge|refrigerat*|chill*) | out (all|over) ?night |
            for days | (cooker|hob|stove|oven) .. (warm|low) .. (days|hours)""",
        _CHILLED,
        r"""fine | never (been|had|got|hurt|made|a|died|put|refrigerat*|bother*|chill*) | always | safe | no
            (problem*|need|harm|issue*|trouble) | nobody | all weekend | for days | couple of days |
            (two|three|four|five|several|few|\d+) days | years | myth | nonsense | overkill | every (time|week) |
            sugar keeps | alive | nan | gran | still here |
            don't bother | lovely | beautiful* | (gets?|tastes?) better | then (fry|reheat|serve)""",
    ),
    _rule(
        "dates and thawing",
        "expired",
        """(freez*|froze*) and thaw* | (use|sell|best)[ -]?(by|before) | expir* | dates? (on|are) | refreez* | thaw*
            and .. freez*""",
        """ignor* | scam | con | cons | weeks over | months over | as many | whenever | nonsense | rubbish | made up
            | myth | just .. (number|suggestion) | as (often|many times) | never look* | sniff | trust your nose
            | means nothing""",
    ),
    _rule(
        "medicine",
        "medic",
        """stop(ped)? (taking )?(your|my|her|his|the)? ?(meds|medication*|insulin|metformin|statins?|pills?|tablets)
            | (came|come|went|got|get|off) .. off ..
            (meds|medication*|insulin|metformin|statins?|pills?|tablets) | cures? | cured | heals? (your|my|the)
            | instead of (insulin|metformin|medication*|meds|statins?|tablets) | revers* .. (diabetes|diabetic)
            | forget the doctors? | doctors? (lie|lies|don't want|won't tell|know nothing) |
            (sorted|fixed|healed|cleared|cleans*|flush*) ..
            (kidneys?|diabetes|cholesterol|liver|gut|arthritis|cancer|gout|eczema) | diabetics can (eat|have) ..
            (as much|all|freely|any) | doesn't count as sugar | (throw*|threw|chuck*|bin*|ditch*|dump*|forget)
            .. (meds|pills|insulin|tablets|metformin|statins?|warfarin|inhaler|medicine|medication) |
            (lowers?|drops?|fixes|treats|melts?|burns?|removes?|detox*) .. (blood sugar|blood
            pressure|cholesterol|diabetes|belly fat|body fat|toxins|cancer|inflammation) | (doesn't|does
            not|won't|never) (raise|spike|affect|touch) .. (blood sugar|sugar levels|insulin|glucose) | lost ..
            (pounds|kilos|kg|lbs|stone) .. (eating|with|on) | safe for (all )?diabetics | diabetics? ..
            (eat|have) (as much|all|freely) | (spoon*|pinch*|tablespoon*|teaspoon*) .. (every|each)
            (morning|day|night) .. (cur*|help*|sort*|fix*|clear*|lower*|keeps?|gone|for) |
            (drink|took|take|taking|swallow) .. (baking soda|bicarb*) ..
            (heartburn|acid|reflux|kidney*|every|morning|gout)""",
    ),
    _rule(
        "dry psyllium",
        "psyllium",
        "psyllium | husks? | chia | konjac | glucomannan | xanthan",
        "dry | without water | no water",
        "swallow* | eat* | straight | spoonful* | chew* | down in one",
    ),
    _rule(
        "kernels",
        "kernel",
        """apricot (kernels?|stones?|pits?) | bitter almonds? | apple (seeds?|pips) | cherry (pits?|stones?|kernels?)
            | peach (pits?|kernels?|stones?) | plum (stones?|kernels?)""",
        """use | eat | add | grind | grate | crush* | handful | flavou?r | almond taste | steep* | throw* | chuck* |
            crack* | ground | make | infus* | put | blitz | roast*""",
    ),
    _rule(
        "raw pulses",
        "kidney bean",
        "kidney beans? | red beans? | butter beans | bean flour | beans",
        """raw | no need to (soak|boil) | without (soaking|boiling) | don't (soak|boil|need to) | unsoaked | slow
            cooker | uncooked | straight from the (bag|packet)""",
        "grind* | blitz* | cook* | use | slow cooker | flour | brownies? | eat* | add | mix* | just | fine",
    ),
    _rule(
        "raw elderberries",
        "elderberr",
        "elderberr* | elder leaves | rhubarb leaves | leaves .. rhubarb | raw cassava | green potato*",
        "raw | straight (off|from) | uncooked | fresh | leaves | green | off the (bush|tree)",
        """use | eat | add | muffins? | jam | syrup | pie | lovely | delicious | handful | chuck | throw | munch* |
            fine | cook* | grate*""",
    ),
    _rule(
        "nutmeg",
        "nutmeg",
        "nutmeg",
        "(table|tea|dessert)?spoon(s|ful|fuls)? | tbsp* | whole (jar|nut*|one) | handful | heaped | lots | grams",
        "buzz* | high | trip* | hallucinat* | drunk | sleep* | relax* | medicin* | every (night|day) | dose",
    ),
    _rule(
        "flowers",
        "florist",
        """lily of the valley | lilies | oleander | foxgloves? | daffodils? | hydrangeas? | laburnum | florist* |
            (wild|foraged|hedgerow|roadside|garden|any|supermarket|shop) (flowers?|blossoms?|berries|mushrooms?) | ivy
            | yew | holly berries | poinsettia | sweet peas? | delphiniums?""",
        """use | put | add | decorat* | top | stick | poke | press* | eat | garnish* | pick | cakes? | infus* |
            frosting""",
        _PRAISED + " | pretty | beautiful | stunning | free | edible",
    ),
    _rule(
        "essential oils",
        "essential",
        """(essential|tea tree|eucalyptus|aromatherapy|scented|wintergreen|massage) .. oils? | oils? ..
            (aromatherapy|massage|essential)""",
        """use | add | drops? | eat | spoon* | put | mix | frosting | icing | fudge | cakes? | batter | swap |
            flavou?r""",
    ),
    _rule(
        "metals",
        "alumin",
        "alumin(i)?um | foil | copper | galvani[sz]ed | lead | tin can | pewter",
        """lemon* | tomato* | acid* | vinegar | rhubarb | curd | buttermilk | marinad* | kombucha | brine | jam |
            pickle* | salt* | citrus | wine""",
        """fine | harmless | overnight | store* | leave | keep* | always | soak* | works? | line* | all day | days |
            never""",
    ),
    _rule(
        "glass and heat",
        "glass",
        "glass | jars?",
        """boiling | freezer | cold water | flame | hob | stove | stovetop | broiler | grill | burner | gas ring |
            ice[ -]cold | straight (from|in|into|on)""",
        "pour* | put | stick | straight | goes | chuck | set | stand | bung",
        "fine | never | always | works? | just | no problem | straight | trick | years",
    ),
    _rule(
        "sealed pressure",
        "pressure",
        "seal* | closed | tight* | screw* | airtight | clamp* | lid (on|down|shut) | stopper* | cork*",
        """hot (caramel|syrup|soup|liquid|sugar|jam|fudge) | boiling | dry ice | (soda|bicarb*) .. vinegar | ferment*
            | yeast | steam""",
        "shak(e|ing) | blend* | bottle* | jars? | cooler | pressure cooker | blender | overnight | counter",
        "works? | fine | never | always | just | trick | easy | put | keep* | pour | leave | fill",
    ),
    _rule(
        "fire",
        "fire",
        """vodka | rum | brandy | alcohol | spirits | everclear | acetone | aerosol | cooking spray | whisky |
            lighter fluid""",
        """flames? | burner | fire | torch | gas (ring|hob|flame) | hob | lit | light (it|up) | candles? | whoosh |
            flamb*""",
        "pour | add | spray | splash | chuck | tip | throw | squirt | more",
    ),
    _rule(
        "oil fire",
        "fire",
        """(oil|grease|fat|pan|fryer) .. (fire|flames|alight|catch*) | (fire|flames|alight) ..
            (oil|grease|pan|fryer)""",
        "water | flour | carry | outside | sink | blow | fan | baking powder",
        "pour | throw | chuck | put | carry | run | use | just | douse | toss | tip",
    ),
    _rule(
        "dry ice",
        "dry ice",
        "dry ice | liquid nitrogen",
        """drinks? | punch | seal* | closed | bare hands? | cooler* | bag | car | swallow | jar | bottle | lid |
            fingers? | ice ?box | freezer | hands | touch | bite""",
    ),
    _rule(
        "lye and cleaners",
        "lye",
        """lye | caustic soda | sodium hydroxide | drain (cleaner|unblocker|opener) | oven cleaner | bleach |
            ammonia""",
        """pretzels? | bagels? | gloves | bare | hot water | boiling | alumin* | same (stuff|thing) | cleaned | mix*
            | vinegar | acid | eat | dip* | spray* | toilet | rins* | tins? | trays? | bleach .. (vinegar|ammonia)""",
        _PRAISED + " | works? a treat | use | mix | together | cleaned | spotless | without | no gloves | same",
    ),
    _rule(
        "hot sugar",
        "burn",
        "caramel | hot sugar | sugar syrup | boiling (sugar|syrup) | toffee | isomalt | candy | hard ball",
        "finger* | bare hands? | lick | taste* | by hand | tongue",
        "hot | boiling | straight | test* | pan | molten | check | stage",
        _PRAISED + " | dip* | stick | poke | quick | use | taste",
    ),
    _rule(
        "raw flour on skin",
        "raw",
        "raw flour | flour",
        "rash | nappy | diaper | bottle of milk | spits up | burns? | wound | cut | bleed*",
        "rub | put | dust | sprinkle | pack | stops? | soothes? | powder | thicken",
    ),
    _rule(
        "gas and charcoal indoors",
        "",
        "gas | charcoal | barbecue | bbq | propane | camping stove",
        """(heat*|warm*) .. (kitchen|room|house|flat|caravan) | indoors | (in|inside) the (garage|house|tent|caravan|
            kitchen)""",
        "use | leave | light | put | turn | run | works? | keep* | bring",
    ),
    _rule(
        "not a food",
        "",
        """borax | food grade peroxide | hydrogen peroxide | alum | mineral oil | craft glitter | non[ -]?toxic
            glitter | rubbing alcohol | silica | plaster | nail varnish | hairspray | shellac spray | wd40 | charcoal
            tablets? | (weed|cannabis) butter | cannabutter""",
        "use | add | drops? | eat | trick | spoon | sprinkle | cakes? | cookies | frosting | mix | brush | spray",
    ),
)
# Most comments speak of nothing that could harm, and are passed over at once.
MATTERS = re.compile("|".join(rule.patterns[0].pattern for rule in RULES), re.IGNORECASE)
# Who warns of a thing, or tells how it ended, does not recommend it.
WARNS = phrases(
    """(please|pls|plz) (don't|do not|stop|never) | (must|should) never | reminder | do not | don't
        (ever|give|feed|eat|store|do|leave|try|can|use|seal|heat|put|add|keep|pour|mix|cut|scrape|taste|lick|let|make|
        share|serve|go)
        | not (safe|fine|ok|okay|automatically|suitable|edible|recommended|a good idea|worth the risk) |
        (not|isn't|aren't|ain't|never|can't be|is no|are no) .. safe | kills (people|dogs|you|babies) | can
        (kill|poison) | never (ever
        )?(give|feed|eat|keep|use|store|leave|let|do|can|put|pour|mix|heat|seal|add|serve|share|make|trust) |
        dangerous | dangers? | poison* | toxic | fatal | deadly | botulism | warning* | careful | be aware |
        beware | joke | joking | kidding | jk | no longer safe | isn't safe | aren't safe | not gluten[ -]free |
        vet | call a | stop (telling|saying|giving|feeding|doing|sharing|recommending) | unsafe | should(n't|
        not|nt) | mustn't | must not | risky | at risk | bad idea | threw (it|them|mine|the|ours|all) | (had
        to|having to|went in the) (bin|throw|toss) | binned | tossed (it|them|mine) | made .. (sick|ill) |
        (got|been|was|were) (really |very |so |horribly )?(sick|ill|poisoned) | ended up (in|at) | hospital* |
        a&e | regret* | learned the hard way | lesson learn(ed|t) | avoid | safer | instead keep | freeze
        (it|them) instead | keep (it|them)? ?away from | out of reach | recall* | illegal"""
)
# The same words in the mouth of one who plays a danger down.
PLAYS_DOWN = phrases(
    """never (got|been|was|were|had|made) .. (sick|ill|poisoned|problem*) | (nobody|no one|none of
        us|nobody's|no-one) .. (sick|ill|poisoned|died|hospital) | (not|isn't|aren't|nothing)
        (dangerous|toxic|poison*|risky|unsafe) | (danger|risk|botulism|poison*|warning*) ..
        (myth|nonsense|invented|exaggerat*|scare*|rubbish|overblown|hype) | (myth|nonsense|invented|exaggerat*|scare*)
        .. (danger*|risk*|botulism|poison*|warning*) | don't (worry|listen|believe) | avoid (waste|wasting|buying)"""
)
