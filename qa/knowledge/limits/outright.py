"""Questions that say outright who is to eat, or what it does to a body: one table of phrases.

How they are written: see `qa.text.phrases`.
"""

from __future__ import annotations

from qa.knowledge.limits.words import ILL, TREATED
from qa.text.phrases import phrases

# Who eats, named by what ails them, by age or by kind.
_WHO = f"""diabetics? | (a )?type (1|2|one|two)s? | co?eliacs? |
    (someone|somebody|anyone|anybody|people|persons?|folks?|ppl|those|child|kid|friend|guest|man|woman|girl|boy|
        customer|colleague|
    neighbou?r|patients?|guests?|kids|children|relatives?|mum|mom|dad|gran|nan|grandad|grandpa|grandma|wife|husband|
        hubby|son|daughter|sister|brother|nephew|niece)
    (with|on|allergic|recovering|taking|having|who|that|who's|whose) .. ({ILL} | {TREATED} | allergic |
    co?eliac) | (pregnant|nursing|breastfeeding|expectant) (women|ladies|mums?|moms?|mothers?|people|woman|lady)
    | patients? | (a|my|our|the) (month|months|\\w+ months?|\\w+ (yr|year)s?)[ -]?olds? |
        (the )?(elderly|very young|immunocompromised|teenagers?|teens|seniors|old people|adults) |
    \\w+ sufferers? | (nut|egg|dairy|wheat|soy|gluten|sesame|milk)[ -](allergic|intolerant) ..
    (people|kid|kids|child|guest*|person|friend*)"""
_EATS = """eat | eats | eating | eaten | ate | have | has | having | had | take | takes | taking | drink* | consume
    | swallow* | digest | tolerate | handle | manage | ingest | nibble* | enjoy | be given | get away with |
    serve | serving | feed* | give | giving | offer* | introduce | share | try"""
_GOOD = """safe | unsafe | ok | okay | alright | all ?right | fine | good | bad | suitable | dangerous | danger |
    harmful | healthy | unhealthy | wise | advisable | advised | recommended | permissible | permitted | allowed
    | a no[ -]no | no[ -]no | no[ -]go | problem* | risky | risk | risks | sensible | appropriate | friendly |
        harm | best
    | better | worse | enough | ok+ | off limits | contraindicated | reason* not"""
_BODY = """the (runs|trots) | blood* | (my|his|her|your|their) sugars? | sugar levels? | glucose | insulin |
    cholesterol | blood pressure | gut | guts | gut health | stomach* | tummy | liver | kidneys? | joints? | knees |
        my heart |
    your heart | heart (health|rate) | thyroid | bunged up | backed up | block* (you|me|him|her|us) up | regular
    | hormones? | colon | bowels? | immun* | cancer | strokes? | constipat* | gas | wind | numbers | levels |
    alzheimer* | dementia | tumou?rs? | fibroids? | bloat* | diarrh* | reflux | heartburn | acid reflux |
    inflammation | weight | migraines? | headaches? | acne | ketosis | (a|my|the|your) fast | milk supply | iron
    levels? | bones | (my|your|his|her|their|the kids')
    (skin|teeth|brain|sleep|weight|health|digestion|eczema|asthma|ibs|gout|levels|numbers|macros)"""
OUTRIGHT = phrases(
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
    f"how (long|soon) after .. (op|operation|surgery|{ILL} | {TREATED})",
    """how many units (of insulin|for|per|to|do i|should) |
        units (for|per|a|to cover|should i) ..
        (slice|piece|cookie|biscuit|muffin|roll|bun|bread|cake|one|inject|take|bolus) |
        does .. bring (down)? ?(the|my|his|her|your)? ?(blood)? ?sugar |
        (ring|call|phone) (someone|somebody|a doctor|the doctor|the vet|a vet|poison control|an ambulance) |
        (insulin|carb|i:c) ratio | (inject|bolus) .. for (a|one|it|this|two)""",
    "(give|giving|feed|offer) .. (bab(y|ies)|infants?|toddlers?|months?[ -]olds?)",
    f"(space*|apart|hours? (before|after|between|from)) .. ({TREATED})",
    f"({_EATS}) .. (after|since) (your|the|my|her|his) (op|operation|surgery|treatment)",
    f"({_EATS}) .. (during|while|when|after|before|alongside|with|on) .. ({ILL} | {TREATED})",
    f"({_WHO}) .. (can|could|may|should|might) (just|still|safely|even|also|ever)? ?({_EATS})",
    # what it does to a body
    f"""(raise*|raising|spik*|lower*|affect*|mess* with|mess up|interfer*
        with|interact*|upset*|trigger*|cause*|causing|cure*|help*|hurt*|thin*|clean*|cleanse*|
        detox*|damag*|push*|kick*|flare*|irritat*|worsen*|reduc*|bring* down|bad for|good for|linked
        to|treat*|prevent*|reliev*|kill*|destroy*|rots?|eas*|settle*|break*|boost*| send*|put*|go* with|mix* with|clash*
        with|ruin*|sooth*|wreck*|impact*|effects? on|give* (me|you|us|people|him|her)|make* .. (up|down|worse))
        .. ({_BODY} | {ILL} | {TREATED})""",
    f"({_BODY}) .. (spike|rise|up|shoot up|go up|climb)",
    f"({ILL} | {TREATED}) .. (worse|better|flare*|act up|play up|kick off)",
    """(bring*|get|gets|keep*|make*|hold*) .. (sugars?|pressure|cholesterol|sugar levels) ..
        (down|up|low|lower|stable|steady)""",
    """(kids?|children|child|toddlers?|little ones|school|nursery|breastfeeding|pregnant|sober|recovery|recovering|
        alcoholic) ...
        (kirsch|beer|rum|brandy|whisk(e)?y|alcohol|wine|sherry|liqueur|coffee|matcha|
        espresso|caffeine|sweeteners?|xylitol|erythritol|aspartame) |
        (kirsch|rum|brandy|whisk(e)?y|alcohol|wine|sherry|liqueur|coffee|matcha|espresso|
        caffeine|xylitol|erythritol|aspartame) ... (for|to|with|by) .. (kids?|children|child|toddlers?|little
        ones|school|nursery)""",
    f"(bother|upset|hurt|harm|affect|trouble|suit|trigger) .. ({_WHO})",
    """(is|are|isn't|aren't|be|any|more|less|it's|its) ..
        (healthy|unhealthy|healthier|nutritious|carcinogen*|inflammatory|fattening|addictive) |
        (good|bad|better|worse|healthy) for (you|your (heart|gut|health|body)|us|my
        (health|gut|heart)|people|kids to eat) | (lose|losing|gain|drop|shift|put on) .. weight | weight[ -]loss
        | slimming | laxative* | side[ -]effects? | drug test | on the (loo|toilet) |
        (go|goes|going) down (easier|easy|better) | block* (you|me|him|her|us|them) up | upset* (you|me|him|her|us) |
        (kinder|gentler|easier|harsh|rough) on (my|his|her|the|your) |
        (get|gets|getting|go|goes|make .. ) hyper | (low|high)[ -]gi | (you|he|she|i) fast (and|but|while) |
        (sit|sits|agree|agrees) (ok|okay|well|easy|easier|badly) (with|on) (me|him|her|you|us|them|my|his|the stomach) |
        if (this|it|these|that) sits? (ok|okay|well|easy) |
        (why|making|makes|reason) .. (i'm|i am|me|he's|she's|him|her) ..
        (wheez*|sneez*|cough*|itch*|bloated|dizzy|sick|ill) | make* (me|you|us|him|her|them|people|kids)
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
    # bread in place of a medicine
    """(replac*|swap*|stop*|instead of|skip*) (taking )?(my|his|her|the|our)?
        (\\w+ )?(tablets?|pills?|supplements?|medicines?|meds|capsules?)""",
    # how much of it
    """how (much|many|often) ... (a|per|each|every|in a|in one|one) (day|week|morning|night|sitting) |
        (safe|daily|recommended|maximum|max) (dose|intake|amount|limit)s? | (too (much|many)|enough|limit) ..
        for (a|one|any) (person|adult|child|human) | (too (much|many)|enough|limit) .. (a|per|each|every|in a|in
        one) (day|week|sitting) | (spoon*|tbsp|tablespoon*|tsp|teaspoon*|scoop*|slices?|grams|g) ..
        (a|per|each|every) (day|morning|night) | (every|each) (day|morning|night|single day) ..
        (safe|ok|okay|bad|good|fine|harm*) | (eat*|have|take*|taking) .. (every|each) (day|morning|night) |
        (eat*|drink*|take*|taking) .. daily | (one|two|three|half|slices?|pieces?|muffins?|cookies?|biscuits?|couple)
        (a|per|each|every) day | (live|living|survive) (off|on) (it|this|these|them|nothing) |
        how (much|many) ... (dangerous|toxic|lethal|fatal|poisonous|harm*) | dosage |
        (what|which|right|safe|correct) dose for |
        dose .. (for|of) .. (acid|heartburn|constipat*|reflux|kidneys?|dog|child|kid|adult|me|him|her)"""
)  # fmt: skip
