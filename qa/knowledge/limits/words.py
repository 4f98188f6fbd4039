"""Words of illness and medicine, of who eats, and of verdicts: shared by the questions that are left to others.

How the phrases are written: see `qa.text.phrases`.
"""

from __future__ import annotations

import re
from functools import lru_cache

from qa.text.phrases import phrases

# Illnesses and states of the body. Endings stand for families of names: -itis, -aemia, -emia.
ILL = """diabet* | pre-?diabet* | type (2|two|1|one|ii) | t[12]d | (has|got|have|having) (sugar|pressure) | pressure
    and sugar | sugar and pressure | sugar (patient|problem|disease) | blood
    (sugar|pressure|glucose|clots?|test*) | high (bp|pressure) | hypertens* | insulin* | cholesterol | triglyc*
    | pregnan* | preggo | preggers | with child | (baby|my|her) bump | breast-?fe* | nursing (mother|mum|mom) |
    (she's|i'm|im|am|while|still|when|is) nursing | lactat* | trimester | (weeks|months|mths) (gone|along) |
    (i'm|im|she's|we're) .. (weeks|months|mths) in |
    (i'm|i am|im|she's|she is) \\d+ (weeks|wks) |
    (heart|triple|quadruple|gastric|his|her|my|a) bypass | (since|after|had) (my|his|her|an) (op|operation) |
    (told|advised|ordered) (me|him|her|us|them) .. (no|off|avoid|lay off|cut|cut out) (salt|sugar|wheat|dairy|fat|
    eggs?|gluten|nuts?) | (thickened|pureed) (fluids|drinks|liquids|food) | (nursing|care) home | h(a)?emorrhoids? |
    (my|his|her|with) piles |
    expecting (a|our|my|twins)? ?(baby)? | kidneys? | dialysis | renal | cancer | chemo* | tumou?rs? | ibs | ibd
    | fodmap | gout | (heart|kidney|liver|thyroid|bowel|crohn's|gut) (attack|disease|failure|
    condition|problems?|trouble) | stents? | pacemaker | angina | stroke | strokes | crohn* | \\w{3,}itis |
    \\w{3,}a?emia | \\w{4,}ectomy | diverticul* | low
    (potassium|sodium|fodmap|fibre|fiber|residue|oxalate|phosphorus|protein diet) | renal diet | potassium
    (restriction|limit) | stage [1-5] | vitamin k | brain fog | (food|narrow|wind) ?pipe | o?esophag* |
    fibroids? | cysts? | polyps? | stomach bug | food poisoning | sugar is \\d+ | salt[ -]free diet |
    (low|no|less|restricted|reduced)[ -](salt|sodium|sugar|fat|carb|purine|iodine) (diet|eating) | eliminat*
    (salt|sugar|dairy|gluten|eggs?) | put (me|him|her) on (a|an) | sensitivit(y|ies) | special diet |
    (puree|pureed|soft|soft[ -]food|liquid|bland|renal|cardiac|heart|elimination|exclusion|low[
    -]fodmap|cardiologist) (food )?(diet|only) | conceiv* | \\w+
    (syndrome|disease|disorder|deficiency|condition|intolerance) | nightshades? | selenium | iodine |
    (vitamin|iron|b12) (deficien*|levels?) | appetite | numb | fertility | ivf | ttc | postpartum | urine | drug
    (screen|test) | breathalyser | gestational | ckd | (when|while|i'm|im|she's) expecting | radiotherapy |
        (stomach|hip|heart|knee|bowel|bariatric) op | rehab | adhd |
        autis* | hyperactiv* | gd | malabsor* | candida | stoma | dentures? | bp | sober | in recovery |
        (is|was|an) alcoholic |
    (wisdom )?(teeth|tooth) (are|come|coming)? ?(out|removed|pulled|extract*) | heart tablets | keto(acidosis|sis) |
        constipat* | diarrh* | reflux | gerd |
    gallbladder | gall bladder | gallstones? | bariatric | gastric (sleeve|bypass|band) | immun* | epilep* |
    seizures? | transplant* | pancrea* | eczema | psoriasis | asthma* | dysphagia |
    (trouble|difficulty|problems?) swallowing | gastro(enter*|paresis) | (my|his|her|the) gastro | ulcer* |
    hernia | pco[sd] | migraine* | co?eliacs? | allerg* | anaphyla* | epi-?pens? | intoleran* | sensitiv* to |
    pku | phenylketon* | g6pd | favism | lupus | hashimoto* | thyro* | hypothyro* | menopaus* | osteopor* |
    arthr* | fibromyalgia | (fatty|my|his|her|enlarged) liver | parkinson* | alzheimer* | dementia | autoimmun*
    | histamine | mcas | oxalate* | kidney stones? | a1c | hba1c | recovering (alcoholic|addict) |
    (intermittent|am|i'm|im|while|are|been) fasting | fasting (for|before|blood|glucose) |
    (eating|clotting|bleeding|metabolic|genetic) disorder | anorex* | bulimi* | cannot eat | can't
    (eat|have|do|tolerate|digest|touch|stomach) ..
    (gluten|dairy|eggs?|nuts?|wheat|milk|sugar|yeast|soya?|sesame|salt|fibre|fiber|fat|foods?) | reacts? (badly
    )?to | reaction (to|for) | had a reaction"""
# Medicines, and who treats. Endings of generic names by the stems of the World Health Organization's list.
TREATED = """medications? | meds | medicines? | medicated | tablets? (for|of) |
    (thyroid|heart|sugar|pressure|bp|blood pressure| water|diabetes) (pills?|tablets?|meds) |
    (the|my|her|his|take|taking|on) (pill|pills|tablets) | blood thinn* | warfarin | metformin | aspirin |
    ibuprofen | paracetamol | lithium | digoxin | steroids? | antidepress* | antibiotic* | antacids? |
    supplements? | (my|his|her|taking|take) vitamins | probiotics? | antihistamin* | diuretics? | statins? |
    beta[ -]?blockers? | maois? | ssris? | contracepti* | birth control | insulin pen | hrt | bolus* |
    \\w{4,}(pril|sartan|olol|statin|formin|gliptin|gliflozin|glutide|prazole|cillin|cycline|mycin|oxetine|zepam|zolam|
        parin|
    xaban|dipine|thyroxine|dronate) | doctor* | gp | dietiti?ans? | dieticians? | nutritionists? | cardiolog* |
    endocrin* | \\w{4,}ologists? | specialist | clinic | nephrolog* | consultant | pharmacist | midwife | health
    visitor | hospital | a&e | er doctor | surgery | patch test"""
MEDICAL = phrases(ILL, TREATED)

# What a body does after eating.
SYMPTOMS = phrases(
    """(passed|passing|blacked) out | (chest|throat) .. tight |
        (not|haven't|hasn't) .. been .. (loo|toilet|bathroom) |
        (teeth|tooth|jaw|gums?|chest|joints?) .. (hurt*|ach*|sore) | hives | rash | tingl* | bumps | blotch* |
        faint* | shaky | (burnt|burned|scald*|cut) ..
        (arm|hand|finger*|face|tongue|mouth|foot|leg|wrist|thumb|palm|self|myself) | blister* | bleeding | bad
        guts | comes? (up|out) in | break* out in | flare* | throat | swell* | swollen (lip*|face|tongue|eye*) |
        itch* | cramps? | vomit* | threw up | throwing up | puk* | fever | dizz* | headaches? | nause* | queasy
        | bloat* | gassy | (terrible|awful|bad|shocking) wind | the (runs|trots) | diarrh* | in (knots|bits) |
        (stomach|tummy|belly|gut|guts) | swallow* ... stuck | stuck .. (throat|gullet|pipe|chest) | lodged |
        sick as | feel (sick|ill|off|funny|rough) | felt (sick|ill|off|rough) | wheez* | can't
        breathe | palpitation* | chok(ed|ing|es) | heartburn | went (low|high|up to)"""
)
SMALL = phrases(
    """bab(y|ies) | (is|son|daughter|at|only|just|nearly|almost|she's|he's|turns) ..
        (\\d+|six|seven|eight|nine|ten|eleven) ?(mo|months?|mths?) | infants? | newborns? | toddlers? | \\d+
        ?-?(m|mo|mos|months?|mths?)([ -]old| olds| baby) | \\w+[ -]months?[ -](old|baby) | (under|below)
        (one|1|two|2|three|3)( year*|s)? | grandbab* | weaning | weaned | blw | baby[ -]led | (1|one|2|two)
        (yr|year|yo)s?[ -](olds?|y)? | little (ones?|un|uns) | (turns?|turning) (one|1) | (first|1st) birthday |
        (he's|she's) (only|just|nearly)? ?(two|three|2|3) |
        (girl|boy|lad|lass|son|daughter) .. (turns?|is|just) .. (one|1|months?) | bairns? | formula
        (milk|bottle) | teeth(ing|er)"""
)
PETS = phrases(
    """(my|our|the|a|her|his|their|for|to|with|two|old|sister's|feed|give)
        (dogs?|doggos?|pups?|pupp(y|ies)|cats?|kitt(y|en|ens)) | dogs | puppies | kittens |
        (dog|cat|pup|doggo|kitty) (got|ate|eats?|had|licked|nicked|has|is) | spaniel | labrador | lab | retriever |
        collie | poodle |
        dachshund | beagle | terrier | pugs? | husky | corgi | staff(ie|y) | yorkie | westie | frenchie | shih tzu |
        schnauzer | dalmatian | mastiff |
        (labra|golden)doodle | (cava|malti|labra)poo | (my|our|the) bird | whippet | greyhound | chihuahua | bulldog |
        rottweiler | cockapoo | pony | donkey | goats? (got|ate|eat) | gerbil | rats (eat|ate) | shepherd |
        parrots? | budgies? | cockatiel | horses? | pony | vet | vets | hamsters? | rabbits? | bunny | guinea
        pigs? | kitten | puppy | pooch | moggy | mutt | (my|the|our|to) .. (hens|chickens|ducks|birds) | pets? |
        parakeet | ferrets? |
        (chickens|hens|ducks|birds|horses|squirrels|foxes|hedgehogs) (love|loves|like|eat|ate|had|get|got|enjoy*)"""
)
# Which foods a person with an allergy must look out for besides the one that is named.
_KIN = tuple(
    (phrases(who), phrases(what))
    for who, what in (
        (
            """(nuts?|almonds?|cashews?|hazelnuts?|walnuts?|pistachios?|pecans?|peanuts?) .. (allerg*|safe|react*) |
                (allerg*|react*|anaphyla*|epi-?pen) ..
                (nuts?|almonds?|cashews?|hazelnuts?|walnuts?|pistachios?|pecans? |peanuts?) | nut[ -]free |
                (throat|mouth|lips) .. (itch*|swell*) .. (nuts?|almonds?|cashews?|badam)""",
            """almonds? | cashews? | hazelnuts? | walnuts? | pistachios? | pecans? | macadamia* | brazil* | peanuts? |
                lupin* | coconut | nutmeg | pine ?nuts? | tahini | sesame | chestnuts? | marzipan | badam | kaju |
                tree nuts?""",
        ),
        (
            """(milk|dairy|lactose|casein|cow's milk) .. (allerg*|anaphyla*|react*) |
                (allerg*|anaphyla*|react*) .. (milk|dairy|casein)""",
            """ghee | goat* | sheep* | butter | buttermilk | whey | lactose[ -]free | a2 | kefir | yogh?urt | cream |
                baked milk""",
        ),
        (
            "eggs? .. (allerg*|anaphyla*|react*) | (allerg*|anaphyla*|react*|epi-?pen) .. eggs?",
            """duck | quail | goose | baked( in)? | cooked( in)? | yolks? | whites? only | pasteuri* | meringue |
                mayo*""",
        ),
        (
            "co?eliacs? | wheat allerg* | allergic to (wheat|gluten) | gluten (allerg*|intoleran*)",
            """spelt | einkorn | kamut | khorasan | emmer | farro | freekeh | durum | semolina | rye | barley |
                bulgur | seitan | couscous | sourdough | malt | wheat starch | oats? | oat flour | porridge |
                triticale | codex""",
        ),
        ("soya? .. allerg* | allerg* .. soya?", "lecithin | lupin* | soybean oil | tofu | miso"),
        ("sesame .. allerg* | allerg* .. sesame", "tahini | halva | hummus | poppy"),
    )
)
# Words of bodies and beasts that are none here.
_FIGURES = phrases(
    """(sick|tired) (and tired )?of | hospital (raffle|shift|bed|staff|worker|canteen|fete) |
        (doctor|dentist)'s surgery (bake sale|raffle|fete) | killing me | poison(ous)? green | (flour|bread) bins? |
        baby (shower|spinach|carrots?|corn|potato*|pink|blue|leaves|bella) | hot[ -]dogs? | corn dogs? |
        (dog|cat|bunny|rabbit|horse| duck|chicken|hen|bone|heart|baby|lung|brain)[ -]shaped? ..
        (cutter|tin|mould|mold|pan|cookie*|biscuit*|cake)? | (dog|cat|bunny|rabbit|bone| heart) (cookie
        )?(cutter|tin|pan) | cat's out | cat's tongues? | puppy chow | sugar rush | nothing to do with ..
        (health|diet) | cake doctor | sell a kidney | kidney beans? | kidney[
        -]shaped | lab (grade|coat) | (hurt|broke|sprained|injured) (my|his|her|the) ..
        (wrist|hand|arm|shoulder|thumb|back|finger) | chicken (pie*|pot|stock|broth|breast*| thigh*|wing*|soup)
        | duck (egg*|fat) | quail eggs? | hens? eggs? | fried chicken | monkey bread | bear claws? | piggy |
        clot(ted)? cream | (throat|heart) of the (oven|loaf) | in the (car|boot) rash | addicted | allergic to
        (washing|work|waiting|mornings?|effort|reading|maths?|cleaning|dishes|recipes|fuss|faff*|sifting|kneading|
        patience|exercise) | type (1|one|2|two|ii) flours? | cream of tartar | like the same (tin|spoon|knife|board)
        | blood pressure (goes|went|rose|is|shoots) .. (when|at|over|watching|seeing|every) | diabetes (in|on)
        (a|the) | (give|gave) me diabetes"""
)


@lru_cache(maxsize=4096)
def plain(text: str) -> str:
    """A text without the figures of speech and dishes that only sound of bodies and beasts.

    >>> plain("a baby shower cake, what size of tin?")
    'a  cake, what size of tin?'
    """
    return _FIGURES.sub("", text.replace("’", "'"))


# A sentence of the comment, of which a question may be a piece.
_MARKS = re.compile(r"[.?!\n]")


def in_full(piece: str, comment: str, fewest: int) -> str:
    """A piece of a comment; with fewer words than that, the sentence it stands in, from one closing mark to the next.

    >>> in_full("can this", "Lovely. So can I can this? Thanks", 3)
    ' So can I can this'
    """
    at = comment.find(piece)
    if at < 0 or len(piece.split()) >= fewest:
        return piece
    before = [found.end() for found in _MARKS.finditer(comment, 0, at)]
    after = _MARKS.search(comment, at + max(len(piece.rstrip(".?!\n")), 1))
    return comment[before[-1] if before else 0 : after.start() if after else len(comment)]


def kin_named(sentence: str, comment: str) -> bool:
    """Whether a question names a food that goes with the allergy spoken of, other than as the one to be replaced.

    >>> kin_named("are pistachios fine?", "she is allergic to cashews, are pistachios fine?")
    True
    """
    for who, what in _KIN:
        if who.search(comment):
            rest = _SHUNNED.sub("", who.sub("", sentence))
            if what.search(rest):
                return True
    return False


# What is said to be taken out or replaced is not what is to be eaten.
_SHUNNED = re.compile(
    r"\b(?:instead of|in place of|replac\w+|swap\w*(?: out)?|substitut\w+(?: for)?|sub(?: for)?|without|no|"
    r"leav(?:e|ing) out|"
    r"omit\w*|skip\w*|rid of|avoid\w*|cut(?:ting)? out|alternatives? (?:to|for)|-free|free of)\s"
    r"(?:(?!with\b|for\b|by\b|and\b|to\b)\w+\s?){1,3}",
    re.IGNORECASE,
)
