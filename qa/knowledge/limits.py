"""What is left to others: questions of bodies, of law, of makers, and whether this very item is still safe.

A medical word is mostly the motive and not the question, so most rules need two things at once: a word of the matter
anywhere in the comment, and in the question itself a word that asks for a verdict and none that asks about the baking.
How the phrases are written: see `qa.text.phrases`.
"""

from __future__ import annotations

from qa.text.phrases import phrases

# Illness, medicine and those who treat it, allergy. In the background of an answered question they call for a caution.
_ILL = """diabet* | pre-?diabet* | type (2|two|1|one) | (has|got|have) sugar | sugar (patient|problem) | blood
    (sugar|pressure| thinners?|glucose) | insulin | glucose | cholesterol | triglyc* | pregnan* | breastfe* |
    nursing mother | expecting | kidneys? | dialysis | renal | cancer | chemo* | medication* | meds | medicines?
    | warfarin | metformin | statins? | antidepress* | antibiotic* | thyro* | levothyroxine | pills? | ibs |
    fodmap | gout | heart (attack|disease|failure|condition) | stents? | liver | crohn* | colitis | diverticul*
    | low (potassium|sodium|fodmap|fibre|fiber) | potassium | ketosis | bowel* | constipat* | diarrh* | reflux |
    gallbladder | gallstones? | surgery | bariatric | immun* | epilep* | transplant* | pancrea* | hypoglyc* |
    eczema | arthritis | dysphagia | (trouble|difficulty) swallowing | stroke | gastro | dietiti?an | dietician
    | nutritionist | cardiolog* | doctor* | gp | nurse | pharmacist | hospital | a1c | ulcer* | hernia | pco[sd]
    | anaemi* | anemi* | migraine* | co?eliacs? | allerg* | anaphyla* | epi-?pens? | intoleran* | patch test |
    throat | swells? | hives | rash | reacts? to | reaction (to|for) | had a reaction | itch* | cramps | in
    knots | (pressure|sugar) and (sugar|pressure) | cannot eat | can't eat | can't have much | nut-free | off
    dairy | off gluten | peanuts? stuff | blood test | leaflet | tablets? for | bolus* | went low | sehri |
    fasting"""
MEDICAL = phrases(_ILL)
_SMALL = phrases("""bab(y|ies) | infants? | newborns? | toddlers? | \\d+ ?-?(months?|mo)( old| olds|-old)? |
    grandbab* | weaning | blw""")
_PET = phrases("""dogs? | pup | pupp(y|ies) | cats? | kitten* | spaniel | labrador | terrier | parrot | horse | vet
    | hamster | rabbit""")
_ALLERGIC = phrases("""allerg* | anaphyla* | epi-?pens? | co?eliacs? | intoleran* | may contain | traces? | cross-?
    ?contaminat* | swells? | patch test | nut[ -](safe|free) | gluten[ -]free | dairy[ -]free | contains? |
    can't have (anything|any|it) | reacts? | soya in |
    (wheat|gluten|nuts?|peanuts?|sesame|milk|dairy|soy|soya|eggs?) in (it|this|that|them|these|there|the) | free
    (from|of)""")  # fmt: skip

# A verdict is asked for: on eating it, on a dose, on a risk.
_VERDICT = phrases(
    """safe | ok | okay | alright | all right | fine | good (for|or) | bad | suitable | permissible | off limits |
        off the table | avoid* | healthy | unhealthy | harm* | danger* | risk* | allowed | worry | worried |
        problem | (can|could|should|may|would|will|do|does)
        (i|he|she|they|we|you|my|our|the|kids|diabetics|people|someone|babies|dogs|it|this|that) ..
        (eat|have|had|take|drink|consume|swallow|give|feed|tolerate|handle|affect|interact|mess|act|raise|spike|push|hurt|help|count|set
        |trigger|thin|kick|cure|treat|lower|quit|bolus|serve|keep eating|dose) | too (much|close|many) | how
        (much|many|often) .. (a day|per day| day|week|safe|eat|take) | a day | per day | daily | every day |
        dose | what do i do | go to | call | count* | interact* | interfer* | spaced? | interval | apart | rule
        (it|that) out | true | wait | warn | daft | filter | symptoms | urgent care | see someone | scared |
        matter | enough for | poison* | toxic | something (he|she|they|i|we) can | have some | have (one|a bit|a
        slice|it) | anyone's been fine | count as | contain* | is (there|it) .. in | the runs | weight loss |
        lose weight | sneak | mean no"""
)
# The question is about the baking after all.
_BAKING = phrases(
    """holds? | hold together | rise* | rising | sets? (up|firm)? | bind* | whip* | brown* | spread* | crisp* |
        snap* | chew* | crumb | texture | gritty | grainy | cream (with|w|up) | slack | proof | prove | swap |
        substitut* | sub | replace | instead (of)? | in place of | how (many|much)
        (grams|eggs?|tbsp|tsp|cups?|more|water|less) | taste | flavou?r | sweet enough | melt | gel | thicken* |
        fall apart | bake (up|the same|longer) | come out | turn out | work (in|for|as|with|the) | does ..
        (do|work) | freeze | keep (for|fresh) | (cake|bread|loaf|cookies?|muffins?|dough|shortbread|batter) ..
        (be|still|come|turn|go|get|stay) | less gritty | for .. eggs"""
)
_EATS = phrases(
    """set .. off | (eat|have|take|drink|consume|give|feed|swallow*|chok*|licked|ate|a bite) | (safe|ok|okay|fine|all
        ?right|good|bad|danger*|suitable |healthy) for
        (him|her|them|me|us|my|a|the|someone|people|diabetics|kids) | blood sugar | sugar levels? | interact* |
        bolus | dose"""
)
# Asked of nobody in particular and a matter of health all the same.
_HEALTH_ALONE = phrases(
    """chok(e|ing) | (raise|spike|affect|lower|raises|spikes|affects|lowers) (my|the|your|his|her)?
        ?(blood|sugar|glucose|insulin| cholesterol) | (good|bad|healthy|unhealthy|safe) for (you|diabetics|your
        (heart|gut|liver|kidneys)|pregnan*|babies|infants|toddlers |dogs|cats|kids to eat) |
        (cause|causes|cure|cures) (cancer|diabetes|inflammation|gas|bloating) | laxative | the runs | side
        effects? | weight loss | lose weight | carcinogen* | (is|are) ..
        (healthy|unhealthy|healthier|inflammatory) | how (much|many) .. (a|per|every) day | (a|one|two)
        (spoon|tbsp|tablespoon|teaspoon)s? .. (a|per|every) day | kick me out of ketosis | stomach (hurts|ache)
        | clears the acid"""
)

# Something happened to this very item, or it is being kept in a way that nobody has validated.
_HAZARD = phrases(
    """left .. (out|overnight|counter|bench|car|sun|side|table) | forgot .. (out|car|counter|oven|fridge) |
        (sat|stood|stands?|been|kept|sitting| sits|rode) ..
        (out|on|in|side|car|counter|dresser|tiffin|since|hours|hrs|days|night|weeks) | on the
        (counter|side|dresser|bench) | mou?ld* | fung* | (gone|went|goes|going) (off|bad|pink|green|sour) |
        smells? | smelly | smelling | expired | past .. date | out of date | best before | use by | dated | no
        date | rancid | slimy | fuzz* | streaks? | freckles | green (dot|spots?|inside|bits) | pink
        (streak*|spots?|in) | pinkish | bugs | weevils? | larva* | power .. (off|out|cut) | thawed and | refroze
        | fridge (died|broke|went) | walk-?in | swollen | bulg* | popped | dented | glass broke | broken glass |
        glass in | sprayed | scratches | peeling | copper | a bit sour | undercooked | underbaked | raw (in the
        )?(middle|inside| centre|center) | raw eggs? | raw milk | (days?|weeks?|months?|years?) old | from
        (19|20)\\d\\d | since (saturday|sunday|monday|tuesday|wednesday| thursday|friday|yesterday|last) | lid
        (is )?(still )?down | fried with | hot car | warm car | all night | microwav* (the )?flour | heat[
        -]treat* | not .. (60|70|160) degrees | licked the bowl | raw dough"""
)
_PRESERVING = phrases(
    """canning | process .. in (the|a) jars? | keeps? .. (pantry|shelf) .. (year|months|winter) | (banana
        bread|cake|bread) in (the |a )?jars? | pressure cann* | water bath | shelf[ -]stable | can i can |
        (in|into) (a |the |sealed |mason |kilner |pint )*jars? | bottling | can (the|this|these|my)
        (cake|bread|muffins?|butter|curd|oil|filling|pesto|pumpkin) | garlic .. oil | oil .. garlic | infused
        oil | put up in"""
)
_USE_IT = phrases(
    """safe | unsafe | ok | okay | fine | eat | eaten | edible | bin | toss | throw | chuck | use | bake | keep any
        | cut (it|that|them|round|around|off) | sick | poison* | kill | good\\?* | bad | still | feed | fit
        (to|tae) | start (again|over) | scoop | open it | sell | give | salvage* | saved? | what do i do |
        enough | alright | all right | serve | drink | anyway | asking | want it"""
)
_LEGAL = phrases(
    """legal* | illegal | laws? | lawful* | statutes? | regulation* | liab* | licen[cs]e* | permit | cottage food |
        copyright | health (inspector|department) | food standards | trading standards | allowed to
        (sell|write|label|put|claim|call|say) | (sell|selling|sold|stall|market) ... (label*|card|allowed|call
        it|call them|gluten free|vegan|claim|licen[cs]e*|rules|need) | (label|claim|write|call it|call them) ...
        (sell*|market|stall|shop|law|legally|eu|customers?) | nutrition panel | allergen (card|label*|list) |
        fda | e number | inspector | sue | declare* | declared | approval | regulated | (need|get|have) ..
        permission | licensing | (list|write|put|say|print) .. (allergens?|every ingredient|label|the sign|the
        board|the card|package|packet) | proper label | (sick|ill|reaction) .. (bake sale|fete|stall|market) |
        (bake sale|fete|stall|market) .. (sick|ill|reaction|sue) | (call|write|sell) (it|them|these|my *) ..
        (free|keto|vegan|natural|organic|diabetic) | in the shops here"""
)
_MAKER = phrases(
    """(milled|made|packed|processed|manufactured|produced|bottled) .. (facility|factory|place|plant|line) | same
        (facility|factory|line|equipment) | factory wise | (is|are) .. certified | certified\\? | lab tested |
        batch number | accurate to | (does|do|is|are|has|have) (the|that|this|your) ..
        (brand|packet|sprinkles|spread|colorant|colouring|chips|jar) ..
        (contain*|have|nut|nuts|gluten|soya|dairy|free|change) | change suppliers | brand ..
        (contain*|have|made|free|nuts?|gluten) | that blue packet | recall(ed)? | (which|what) brand ..
        (plate|mixer|bowl|scale|oven|pan|tin|knife|is (it|that|this)) | tested for | (you used|you showed|in
        (your|the) video) .. (contain*|nuts?|gluten|soya|dairy|free) | (contain*|free from|soya in|nuts? in) ..
        (you used|you use)"""
)


# The question speaks of a person, or an animal, who would eat it.
_SOMEBODY = phrases("""he | she | him | her | they | them | me | i | kid | kids | child | children | anyone | people
    | ppl | coeliacs? | celiacs?""")


def health_asked(sentence: str, comment: str) -> bool:
    """Whether a question is about somebody's body: a medicine, an illness, a dose, an infant, a pet.

    >>> health_asked("is a spoon of flax a day ok?", "I take blood thinners, is a spoon of flax a day ok?")
    True
    >>> health_asked("does erythritol hold a meringue?", "for my diabetic dad, does erythritol hold a meringue?")
    False
    """
    if _HEALTH_ALONE.search(sentence):
        return True
    concerned = MEDICAL.search(comment) or _SMALL.search(comment) or _PET.search(comment)
    if not concerned or not (_VERDICT.search(sentence) or _SOMEBODY.search(sentence)):
        return False
    return not baking_asked(sentence)


def baking_asked(sentence: str) -> bool:
    """Whether a question is plainly about the baking, whatever illness stands beside it.

    >>> baking_asked("will the shortbread still snap with oil instead of butter")
    True
    """
    return bool(_BAKING.search(sentence)) and not (_EATS.search(sentence) or _HEALTH_ALONE.search(sentence))


def allergy_asked(sentence: str, comment: str) -> bool:
    """Whether a question asks if somebody with an allergy, or a celiac, may have something.

    >>> allergy_asked("is that ok for her", "my daughter has a peanut allergy, is that ok for her")
    True
    """
    return bool(_ALLERGIC.search(comment) and _VERDICT.search(sentence) and not _BAKING.search(sentence))


def hazard_asked(sentence: str, comment: str) -> bool:
    """Whether a question asks if this very item may still be used, or about preserving without a validated process.

    >>> hazard_asked("still safe to bake?", "dough left on the counter since last night, still safe to bake?")
    True
    """
    return bool(_PRESERVING.search(sentence) or (_HAZARD.search(comment) and _USE_IT.search(sentence)))


def legal_asked(sentence: str) -> bool:
    """Whether a question is for the law or a label authority."""
    return bool(_LEGAL.search(sentence))


def maker_asked(sentence: str) -> bool:
    """Whether only the maker of a product can know."""
    return bool(_MAKER.search(sentence))
