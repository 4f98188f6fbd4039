"""Words that look like ingredient names and are none."""

from __future__ import annotations

from qa.text import word_set
from qa.text.phrases import phrases

# Names that mean something else far more often ("plain", "oil" of the engine stay; "pan" is bread in Spanish).
NEVER_A_NAME = word_set(
    "a i pan die mel lin la no on in to me plain whole powder liquid block starch meal flakes raw fresh other"
)

# Ordinary English words within a letter or two of a name's word; they are never repaired into it.
ORDINARY = word_set(
    """about above actual after again almost alone along already always amount another anyone around baked baker
    batch batter beater beaten because before being better between bottle bottom bought bowl bread break bring brown
    burned burnt cakes called candy careful center centre change cheese chance cheap check child choice clean clear
    close cloud color colour cooks cookie cooked cooker could count country course cover cracked crack crazy crisp
    crumb crumbs crust daily dinner doing double dough dried drink during early easily eating eight eleven enough
    every exact excellent family favor favour fewer fiber field final finer first flake flame flash flat flavor
    flavour flight float floor floors flower flowers floured fluffy fluid follow found freeze freezer fresh friend
    front frost frozen fruit further funny garden gather giant given glass going grain grams grand grate great green
    grind grinder ground guess gummy hands happen happy hardly heaping heart heavy helped honest hours house human
    ideal inches inside instant issue juicy kitchen knead known large later learn least leave level light liked
    likely limit little lived local longer looks loved lower lucky lunch makes maker making maybe meant measure
    metal method middle might minute mixed mixer mixing moist month morning mother mouth moved muffin never night
    noted nothing number often older online other ounce outer ovens paper party paste pastry peace people perfect
    piece place plant plate please plenty point portion pound pour power powered pretty price print problem proof
    proper pulse quality quart quick quite rather reach ready really recipe regular result right risen rises risk
    roast roasted rolled rolls round rubber safely sauce scale science scoop search season second seems serve
    setting seven shape share sharp sheet shell shelf shift short should showed shower sides sight simple since
    sixth size skill slice slight slow small smart smell smooth soaked solid solved sorry sound sour space speed
    spend split spoon spread spring square stand start state steam step stick still stone store story strain strange
    street stretch strip strong stuff style sugary suite super sweet sweeter table taken taste tasted tasty teach
    thank their there these thick thing think third those three throw tight times today toast together tough touch
    towel treat trick tried truly trust twice under until upper using usual value video visit voice waffle waste
    watch water weigh weight where which white whole wider winter woman women words world worse worst worth would
    write wrong years yellow young yours chair china choir salty salted salts mild silk bake beans bean wheel sheets
    meals mean means meat neat heat seat cocoon almonds cream creamy creams creamed ream butterfly buttery battery
    bitter better letter latter matter gutter butler sunny savor savory vanish varied oatmeal coast rinse price rise
    ride nice dice spice honestly honor money hone margin maple apples ample simple sample staple table cable couple
    lemonade demon melon summer yeasty beast feast least toasty leaven eleven seven heaven oven over lover mover
    proven wheaten wheats meaty sheer cheers chess chased potion motion lotion potted potluck portable notable soda
    sofa coda dusk tusk musk desk task ask mask hulk hunk flax fax flaw flask flask relax chin chip chips chap chat
    char tapas tapping topic topical typical tropical"""
)

# Turns of speech in which an ingredient's name is something else.
IDIOMS = phrases(
    """(pinch|grain) of salt (with|lol) | take .. pinch of salt | worth (his|her|its|their|your) salt | salt of the
        earth | piece of cake | bread and butter (of|job) | cream of the crop | couch potato | hot potato |
        egg(ed|ing) on | butter(ed|ing)? (me|him|her|them) up | butter(ed|ing)? up | (good|bad) egg | egg on
        (my|his|her|your) face | walk(ing)? on egg ?shells | honey ?moon* | (dear|oh|hi|hello|hey|thanks|thank
        you|bye|love you|yes|no),? (honey|sugar) | (rice|egg|bread|yogh?urt)
        (cooker|timer|beater|maker|machine|slicer|boiler) | butter (knife|dish|fingers) | salt lake | ginger
        (cat|hair|tom) | (my|the|our) (cat|dog|horse) (honey|pepper|ginger|cocoa|mocha|butter|sugar|pumpkin) |
        sugar ?(daddy|rush|coat*) | cup of (tea|coffee) | spill* the (tea|beans) | smooth as butter | milk it |
        crying over spil* milk | pie in the sky | apple of (my|his|her) eye | go bananas | full of beans | bean
        counter"""
)
