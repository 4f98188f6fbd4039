"""Questions of somebody's body: an illness, a medicine, a dose, an allergy, an infant, an animal.

A medical word is mostly the motive and not the question. Two grammars tell them apart. Some questions say outright who
is to eat, or what it does to a body; they go to a person whatever else they hold. Others only ask for a verdict, while
the rest of the comment speaks of an illness; they go to a person unless they plainly ask about the baking.
"""

from __future__ import annotations

import re

from qa.knowledge.limits.words import ILL, MEDICAL, PETS, SMALL, SYMPTOMS, TREATED, in_full, kin_named, plain
from qa.text.phrases import phrases

# Who eats, named by what ails them, by age or by kind.
_WHO = f"""diabetics? | (a )?type (1|2|one|two)s? | co?eliacs? |
    (someone|somebody|anyone|anybody|people|persons?|folks?|ppl|those|child|kid|friend|guest|man|woman|girl|boy|customer|colleague|
    neighbou?r|patients?|guests?|kids|children|relatives?|mum|mom|dad|gran|nan|grandad|grandpa|grandma|wife|husband|hubby|son|daughter|sister|brother|nephew|niece)
    (with|on|allergic|recovering|taking|having|who|that|who's|whose) .. ({ILL} | {TREATED} | allergic |
    co?eliac) | (pregnant|nursing|breastfeeding|expectant) (women|ladies|mums?|moms?|mothers?|people|woman|lady)
    | patients? | (the )?(elderly|very young|immunocompromised|teenagers?|teens|seniors|old people|adults) |
    \\w+ sufferers? | (nut|egg|dairy|wheat|soy|gluten|sesame|milk)[ -](allergic|intolerant) ..
    (people|kid|kids|child|guest*|person|friend*)"""
_EATS = """eat | eats | eating | eaten | ate | have | has | having | had | take | takes | taking | drink* | consume
    | swallow* | digest | tolerate | handle | manage | ingest | nibble* | enjoy | be given | get away with |
    serve | serving | feed* | give | giving | offer* | introduce | share | try"""
_GOOD = """safe | unsafe | ok | okay | alright | all ?right | fine | good | bad | suitable | dangerous | danger |
    harmful | healthy | unhealthy | wise | advisable | advised | recommended | permissible | permitted | allowed
    | a no[ -]no | no[ -]no | problem* | risky | risk | risks | sensible | appropriate | friendly | harm | best
    | better | worse | enough | ok+ | off limits | contraindicated | reason* not"""
_BODY = """the (runs|trots) | blood* | (my|his|her|your|their) sugars? | sugar levels? | glucose | insulin |
    cholesterol | blood pressure | gut | guts | gut health | stomach* | tummy | liver | kidneys? | my heart |
    your heart | heart (health|rate) | thyroid | bunged up | backed up | block* (you|me|him|her|us) up | regular
    | hormones? | colon | bowels? | immun* | cancer | strokes? | constipat* | gas | wind | numbers | levels |
    alzheimer* | dementia | tumou?rs? | fibroids? | bloat* | diarrh* | reflux | heartburn | acid reflux |
    inflammation | weight | migraines? | headaches? | acne | ketosis | (a|my|the|your) fast | milk supply | iron
    levels? | bones | (my|your|his|her|their|the kids')
    (skin|teeth|brain|sleep|weight|health|digestion|eczema|asthma|ibs|gout|levels|numbers|macros)"""
_OUTRIGHT = phrases(
    f"({ILL} | {TREATED}) .. (safe|unsafe|dangerous|danger|risky|risk|harmful|allowed|permitted|advisable|forbidden)",
    """(how old|what age|which age|old enough|at what age|from when) ..
        (child|kid|kids|children|baby|babies|toddler|infant|son|daughter|he|she|they|to eat|to have|be)""",
    # may such a person eat it; is it good for them
    f"""(can|could|may|should|shall|would|will|do|does|might|are|is|must|how (much|many|often)|when|if|let) ..
        ({_WHO}) .. ({_EATS} |use|be|get)""",
    f"""({_GOOD}|tolerated|work*|do|does|serve|made) .. (for|to|by|during|while|with|on|in|when|if ..
        (with|on|have|has|is|are)) .. ({_WHO} | {ILL} | {TREATED})""",
    f"""(can|could|may|should|would|is|are) (you|one|i|he|she|they|we) .. ({_EATS}) ..
        (if|when|while|with|on|during|after) .. ({ILL} | {TREATED})""",
    f"({_EATS}) .. (during|while|when|after|before|alongside|with|on) .. ({ILL} | {TREATED})",
    f"({_WHO}) .. (can|could|may|should|might) (just|still|safely|even|also|ever)? ?({_EATS})",
    # what it does to a body
    f"""(raise*|raising|spik*|lower*|affect*|mess* with|mess up|interfer*
        with|interact*|upset*|trigger*|cause*|causing|cure*|help*|hurt*|thin*|clean*|cleanse*|
        detox*|damag*|push*|kick*|flare*|irritat*|worsen*|reduc*|bring* down|bad for|good for|linked
        to|treat*|prevent*|reliev*|eas*|settle*|break*|boost*| send*|put*|go* with|mix* with|clash*
        with|ruin*|sooth*|wreck*|impact*|effects? on|give* (me|you|us|people|him|her)|make* .. (up|down|worse))
        .. ({_BODY} | {ILL} | {TREATED})""",
    f"({_BODY}) .. (spike|rise|up|shoot up|go up|climb)",
    f"({ILL} | {TREATED}) .. (worse|better|flare*|act up|play up|kick off)",
    """(bring*|get|gets|keep*|make*|hold*) .. (sugars?|pressure|cholesterol|sugar levels) ..
        (down|up|low|lower|stable|steady)""",
    """(kids?|children|child|toddlers?|little ones|school|nursery) ...
        (kirsch|rum|brandy|whisk(e)?y|alcohol|wine|sherry|liqueur|coffee|matcha|
        espresso|caffeine|sweeteners?|xylitol|erythritol|aspartame) |
        (kirsch|rum|brandy|whisk(e)?y|alcohol|wine|sherry|liqueur|coffee|matcha|espresso|
        caffeine|xylitol|erythritol|aspartame) ... (for|to|with|by) .. (kids?|children|child|toddlers?|little
        ones|school|nursery)""",
    f"(bother|upset|hurt|harm|affect|trouble|suit|trigger) .. ({_WHO})",
    """(is|are|isn't|aren't|be|any|more|less|it's|its) ..
        (healthy|unhealthy|healthier|nutritious|carcinogen*|inflammatory|fattening|addictive) |
        (good|bad|better|worse|healthy) for (you|your (heart|gut|health|body)|us|my
        (health|gut|heart)|people|kids to eat) | (lose|losing|gain|drop|shift|put on) .. weight | weight[ -]loss
        | slimming | laxative* | side[ -]effects? | drug test | make* (me|you|us|him|her|them|people|kids)
        (sick|ill|unwell|poorly|high|fail) | get* (me|us|you)? ?(sick|ill|drunk|high|food poisoning) |
        chok(e|ing) | electrolytes? | glyc(a?emic|emic) (index|load|impact|response) for (me|him|her) |
        (cause|causes) .. (cancer|autism|adhd) | clears? the acid""",
    # one portion, as a concession
    """(would|will|could|can|does|is) (just )?(one|a|half a|a couple of|two) (tiny|small|little|wee)?
        ?(slices?|bites?|pieces?|spoons?|spoonfuls?|crumbs?|tastes?|muffins?|cookies?|biscuits?|scones?) ..
        (hurt|harm|kill|matter for|do any harm|set .. off)""",
    # medicine baked in
    """(crush*|hid(e|ing)|mix*|put|sneak*|add*|bak(e|ing)) (my|his|her|their|our|mum's|dad's|iron|calcium|zinc) ..
        (tablets?|pills?|capsules?|medicines?|meds|medication)""",
    # how much of it
    """how (much|many|often) ... (a|per|each|every|in a|in one|one) (day|week|morning|night|sitting) |
        (safe|daily|recommended|maximum|max) (dose|intake|amount|limit)s? | (too (much|many)|enough|limit) ..
        for (a|one|any) (person|adult|child|human) | (too (much|many)|enough|limit) .. (a|per|each|every|in a|in
        one) (day|week|sitting) | (spoon*|tbsp|tablespoon*|tsp|teaspoon*|scoop*|slices?|grams|g) ..
        (a|per|each|every) (day|morning|night) | (every|each) (day|morning|night|single day) ..
        (safe|ok|okay|bad|good|fine|harm*) | (eat*|have|take*|taking) .. (every|each) (day|morning|night) |
        (eat*|drink*|take*|taking) .. daily | (one|two|three|half|slices?|pieces?|muffins?|cookies?|biscuits?|couple)
        (a|per|each|every) day | (live|living|survive) (off|on) (it|this|these|them|nothing) | dosage |
        (what|which|right|safe|correct) dose for | dose ..
        (for|of) .. (heartburn|constipat*|reflux|kidneys?|dog|child|kid|adult|me|him|her)"""
)  # fmt: skip
# It went into a mouth already.
_SWALLOWED = phrases(
    """ate | found | helped (him|her|it)self | demolished | devoured | polished off | inhaled | eaten | eat | had |
        have had | swallowed | licked | nicked | stole | pinched | got (into|hold|at) | snaffled | scoffed |
        wolfed | chewed | tasted | nibbled | since (i|she|he|we) | after
        (eating|two|one|three|a|the|having|i|she|he) | reacted | gave | fed | given | put .. mouth | drank |
        gobbled | has been at"""
)
_HAS_EATEN = re.compile(
    rf"""(?:{SMALL.pattern}|{PETS.pattern})(?:\W+\w+){{0,3}}?\W+{_SWALLOWED.pattern}""", re.IGNORECASE
)
_PERSON = phrases("i | me | my | he | she | him | her | his | they | we | you | us")
_MINE = phrases(
    """(i|me|my|he|she|his|her|him|we|our|they|kiddo|kid|child|son|daughter|gives?|gave|make|makes) ..
        (hives|rash|throat|lips?|tongue|mouth|face|chok*|stomach|tummy|belly|guts?|arm|hand|finger*|head|fever|bumps|cramps?|bloat*|runs|itch*)"""
)
_FEEDS = phrases(
    """feed* | give | gives | giving | gave | share | sharing | treats? | eat* | have | has | had | nibble* | lick*
        | toxic | poison* | safe | ok | okay | fine | bad | harm* | kill* | danger* | allowed | let | serve |
        taste | bit of | suitable | manage | introduce | offer* | start* | age | old enough | when | any | snack
        | good | alright | thicken* | call | vet | doctor | hospital | symptoms | count | eating | raw | what
        (do|should) i do | what now | problem | worry | worried"""
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
    r"""(?:^|[,;:.!?(…-]\s*|\b(?:so|and|but|or|please|pls|then|well|now|also|that)\s)(?:is|are|isn't|aren't|was|can|could|may|might|should|shall|would|will|"""
    r"do|does|don't|doesn't|has|have|any|am|must|dare)\s(?:it|this|that|these|those|they|he|she|i|we|you|u|him|her|my|our|the|a|an|one|any|someone|there)\b",
    re.IGNORECASE,
)
# The question is about the baking after all.
_BAKING = phrases(
    """where (can|do|to|did|could|would) | (do|does|doing|done|change*|mean*|make) .. (to|in|for) the
        (bread|dough|cake|loaf|crumb|texture|taste|sponge|batter) | what (is|are|does|do|will|would) ...
        (do|doing) (in|to|for) | (just|the same as|same thing as|another name|difference between) | subtract |
        net carbs | (packet|label|bag) .. says | alternatives? | looking for | options? | buy | buying | recipe
        | link | change* the | how (low|high) | (fluid )?ounces? | cups? | grams | how
        (thick|thin|full|far|soon|early) | one bowl | easiest | easy recipe | vegan butter | flaky | slices?
        well | that slices |holds? | hold (together|up|its) | rise* | rising | rose | sets? (up|firm)? | setting
        | bind* | whip* | brown* | spread* | crisp* | snap* | chew* | crumb* | crust* | crackl* | texture |
        gritty | grainy | curdl* | split* | cream (with|w|up) | slack | proof* | prove | proving | swap* |
        substitut* | sub | subs | replac* | instead | in place of | how (many|much) ..
        (grams?|g|eggs?|tbsp|tsp|cups?|spoons?|more|less|water|for|to use|of|do i (use|need|add)|should i
        (use|add)|would i (use|need)|stevia|sugar|flour|powder) | taste* | flavou?r* | sweet enough | melt* |
        gel | gels | thicken* | fall apart | bake (up|the same|longer|it|them|at|in) | come out | turn out |
        work (in|for|as|with|the|well|instead|here|too) | does .. (do|work) | freeze* | frozen | keep
        (for|fresh|soft|crisp|moist) | stay (crisp|soft|fresh|moist) | store |
        (cake|bread|loaf|cookies?|muffins?|dough|shortbread|batter|sponge|rolls) ..
        (still|come|turn|go|get|stay|work|bake) | less gritty | for .. eggs | softest | softer | fluff* | moist*
        | dry | dense | gummy | sticky | stick | what (else|flour|size|temp*|tin|can i
        (use|put|add|swap|bake|make)|could i (use|swap|make)|do (i|you) (use|sub)|would (you|i) (use|sub)|about)
        | which (flour|starch|one|binder|gum|sugar|milk|butter|recipe) ..
        (give*|make*|work*|hold*|rise*|bake*|use|is|would|bring*|stop*|keep*) | (can|could|should|may|do)
        (i|you|we) .. (use|make|bake|sub|swap|replace|leave out|skip|omit|halve|double|add) | how
        (do|can|could|would|should|to|long|hot|big) | same (amount|recipe|texture) | ratio | scale | double |
        halve | convert | grind | sieve | knead* | folds? | folding | mixer | processor | machine | by hand |
        why | is there (a|an|any) .. (way|version|recipe|method) | bakes? (off|out) |
        collaps* | sink* | sank | sunk | stabilis* | stabiliz* | gloss* | shine | ganache (set|hold)"""
)
_EATEN = phrases(
    """set .. off | (safe|ok|okay|fine|all ?right|good|bad|danger*|suitable|healthy|safer|safest|kinder) (enough
        )?for .. (him|her|them|me|us|my|someone|people|kids|guests?) | blood sugar | sugar levels? | interact* |
        bolus | (him|her|he|she|they|them|kids|i|people) .. (eat*|swallow*|tolerate|digest|react*)"""
)


def health_asked(sentence: str, comment: str) -> bool:
    """Whether a question is about somebody's body: a medicine, an illness, a dose, an infant, a pet.

    >>> health_asked("is a spoon of flax a day ok?", "I take blood thinners, is a spoon of flax a day ok?")
    True
    >>> health_asked("does erythritol hold a meringue?", "for my diabetic dad, does erythritol hold a meringue?")
    False
    """
    sentence, comment = plain(in_full(sentence, comment, 3)), plain(comment)
    if alarming(sentence) or (_OUTRIGHT.search(sentence) and not _only_baking(sentence)):
        return True
    if (
        SYMPTOMS.search(comment)
        and (_PERSON.search(sentence) or _SWALLOWED.search(comment) or _MINE.search(comment))
        and not baking_asked(sentence)
    ):
        return True
    if PETS.search(comment) and _FEEDS.search(sentence) and not _WHY.search(sentence):
        return True
    if baking_asked(sentence) or cause_asked(sentence, comment):
        return False
    if _HAS_EATEN.search(comment):
        return True
    if SMALL.search(comment):
        return True
    if PETS.search(comment):
        return bool(_FEEDS.search(sentence) or _SWALLOWED.search(sentence))
    return bool(MEDICAL.search(comment))


def alarming(sentence: str) -> bool:
    """Whether a sentence tells of an animal or a small child that just ate what harms it, asked or not.

    >>> alarming("our pug wolfed down half the raisin loaf!!"), alarming("the dog ate my recipe card")
    (True, False)
    """
    said = plain(sentence)
    return bool(_POISON.search(said) and _HAS_EATEN.search(said))


_POISON = phrases(
    """chocolate | cocoa | raisins? | sultanas? | grapes? | currants? | macadamia* | xylitol | birch sugar | onions?
        | garlic | (raw|yeast|bread|pizza|some) dough | nutmeg | alcohol | rum | salt dough | coffee | mince
        pies? | christmas cake | fruit ?cake | honey | (silver|metal|plastic) .. (ball|bead|decoration) | bead |
        sachet | packet | sprinkles? | whole nuts? | peanuts? | cashews?"""
)


def _only_baking(sentence: str) -> bool:
    """Whether a seeming verdict is about how something bakes, as in "will it rise for my diabetic dad"."""
    return bool(_MOTIVE.search(sentence)) and baking_asked(_MOTIVE.sub("", sentence))


# Whom it is for, said in passing: "for my diabetic dad,".
_MOTIVE = re.compile(
    r"""(?:^|[,(;:-]\s*|\s)(?:(?:baking|cooking|making|asking|bake|cook|make|making this|making it|need
        it|it's|its)\s)?(?:for|as|since|because|with)\s"""
    r"(?:(?:my|our|a|an|the|his|her|i|i'm|im|am|we|we're|he's|she's|someone|somebody|is|are|has|have|with|who|type|on|and|\w+'s)\s){0,5}(?:\w+\s){0,2}"
    r"(?:diab\w+|co?eliac\w*|allerg\w+|pregnan\w+|intoleran\w+|kidney\w*|gout|ibs|keto)(?:\s(?!can\b|could\b|may\b|should\b|eat\b|have\b)\w+)?",
    re.IGNORECASE,
)


def _asks_verdict(sentence: str) -> bool:
    return bool(_VERDICT.search(sentence) or _POLAR.search(sentence))


def baking_asked(sentence: str) -> bool:
    """Whether a question is plainly about the baking, whatever illness stands beside it.

    >>> baking_asked("will the shortbread still snap with oil instead of butter")
    True
    """
    return bool(_BAKING.search(sentence)) and not _EATEN.search(sentence)


# Asked for the cause of what a bake did, which the comment tells.
_CAUSE = phrases(
    """what (did|have|am|was) i (do|done|doing) .. wrong | any (ideas?|thoughts|clue|tips|advice) | is it (the|my) |
        was it (the|my) | could it be (the|my) | what (happened|went wrong|is going on|gives|am i missing) | where did
        i go wrong | (pls|please|plz)? ?help"""
)
_FAULT = phrases(
    """(bread|loaf|loaves|cake|dough|crumb|muffins?|cookies?|biscuits?|scones?|sponge|batter|middle|mine|it|they|
        custard|crust|rolls?|buns?|brownies?|pie|tart) ..
        (gummy|gumm*|wet|collaps*|sinks?|sank|sunk|dense|flat|dry|crumbl*|spread*|crack*|burn*|split*|curdl*|stick*|
        stuck|tough|rubber*|soggy|heavy|claggy|too (soft|hard|pale|dark|thin|thick)) | (didn't|doesn't|won't|never)
        (rise|set|thicken|brown|foam|hold)"""
)


def cause_asked(sentence: str, comment: str) -> bool:
    """Whether a question asks why a bake went wrong, where no body felt anything.

    >>> cause_asked("Any idea?", "Doctor told me off wheat, my loaf is wet every time. Any idea?")
    True
    >>> cause_asked("Any idea?", "The loaf is dry and I came out in hives. Any idea?")
    False
    """
    if SYMPTOMS.search(comment) or _OUTRIGHT.search(sentence):
        return False
    return bool(_CAUSE.search(sentence) and _FAULT.search(comment))


# Whether a food holds what the label laws name.
_NAMED = """gluten|wheat|dairy|lactose|milk|eggs?|nuts?|peanuts?|almonds?|"
    "soya?|sesame|allergens?|casein|sul(?:ph|f)ites|lupin"""
_FEW = r"(?:\W+[\w'%-]+){0,6}?\W+"
_HOLDS_ALLERGEN = re.compile(
    rf"\b(?:is|are|does|do|was|isn't|aren't)\b{_FEW}(?:{_NAMED})[ -]free(?:\W*$|\W+(?:or|naturally|by)\b)"
    rf"|\b(?:does|do|will|would|doesn't)\b{_FEW}(?:contain|have|has)\W+"
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
    """(wash*|wip(e|ed|ing)|clean*|rins*|share*|same|separate|use|scrub*|dust*) ..
        (sieve|toaster|fryer|oil|board|kitchen|mixer|oven|tin|tins|pan|spoon|bowl|counter|worktop|bench|whisk|rolling
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
    if _HOLDS_ALLERGEN.search(sentence) and not (_WHY.search(sentence) or _IN_GENERAL.search(sentence)):
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
