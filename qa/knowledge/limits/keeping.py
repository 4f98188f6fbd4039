"""Ways of keeping, eating and working that no authority calls safe: tables of phrases.

How they are written: see `qa.text.phrases`.
"""

from __future__ import annotations

from qa.text.phrases import phrases

# Shelf keeping that only a tested process makes safe.
PRESERVING = phrases(
    """(be|been|getting|get) (canned|bottled|jarred) | sous[ -]?vide ..
        (jars?|cheesecakes?|custards?|garlic|curd) | (jars?|cheesecakes?|custards?|garlic|curd) .. sous[ -]?vide |
        (canned|can|canning|process*) ..
        (multi-?cooker|pressure cooker|boiling (water )?bath|water bath|dishwasher) | processed in | lids? ..
        (suck|ping|pop|seal|down) | jar cakes? | jars? of .. (cake|bread|loaf|pudding) |
        (cakes?|breads?|loaves) in (a )?jars? | under .. oil | in ..
        sealed jars? .. (larder|pantry|cupboard|shelf)""",

    """canning | canned (at|it|them|my|this) | (home|safely|to|pressure|dry|oven|properly|water[ -]?bath|steam)[
        -]can | (can|could|should|may|do) (i|you|we|u|one) ?(safely|just|home|dry|pressure|water[
        -]?bath|oven|still)? (can|bottle|jar|preserve|pickle|confit|vacuum*|seal|process|water[ -]?bath) | how
        (do|can|should|would|to|does|long) (i|you|we|one|do i)? ?..
        (can|bottle|jar|preserve|pickle|confit|vacuum[ -]?(seal|pack)|process) ..
        (it|this|them|these|the|my|a|in|for|so|at|for
        the|chil*|pep*|peach*|butter|pumpkin|cake|bread|sauce|curd|fruit|jam|filling|garlic|herbs|vegetables|tomato*)
        | process .. in (the|a) jars? | (boil*|steam*) (the|my|your)? ?jars? |
        keeps? .. (pantry|shelf|larder|cupboard) .. (year|months|winter) |
        (year|months|winter) .. (pantry|shelf|larder|cupboard) | (pantry|shelf|larder|cupboard) .. (for|all|a)
        .. (year|months|winter) | pressure[ -]?(cann*|cook .. jars?) | water[ -]?bath* ..
        (canned|canning|jars?|curd|butter|pumpkin|jam|sauce|jelly|pickle*|times?) |
        (curd|butter|pumpkin|jam|sauce|jelly|pickle*|jars?|tomato*|fruit|filling) .. water[ -]?bath* | shelf[
        -]?stable | shelf life .. (jars?|home ?made (jam|oil|sauce|syrup|curd|filling|chutney|pesto)) |
        (cakes?|bread|loaf|loaves|brownies?|muffins?|flour|butter|curd|nuts|filling|batter) .. in ..
        (mason|kilner|canning|preserving|sealed|pint|quart|jam)? ?jars? ..
        (keep|last|seal|months|gift|gifts|xmas|christmas|shelf|post|ship|mail|pantry|lids?|oven|how long|safe) |
        (seal*|steril* and seal) .. (jars?|lids?) | lids? (on )?(while )?hot | do they seal | jars? ..
        (seal|ping|pop) | inversion | upside[ -]down .. jars? | jars? .. upside[ -]down | bottling |
        (garlic|herbs?|herby|chill?i(es|s)?|chilli|rosemary|basil|thyme|oregano|dill|sage|tarragon|bay|lemon peel|
        tomato(es)?|mushrooms?|peppers?|vegetables?|truffle|onion|ginger|sage|pesto) .. (in|under) .. oil |
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
        (jam|jelly|marmalade) ..
        (half|less|no|without|reduced) .. sugar ... (keep|cupboard|shelf|pantry|last|store) |
        (less|half|halve|reduce|cut|lower|without|no) .. sugar .. (jam|jelly|marmalade|preserve*) ..
        (keep|last|safe|shelf|cupboard|store) | (halve|reduce|cut|half|less|skip) .. sugar .. in ..
        (jam|jelly|marmalade) | jam .. (without|no|less|half .. ) sugar .. (keep|last|safe|shelf|cupboard) |
        (dry|dried|dehydrate*|drying) ..
        (beans?|pumpkin|puree|vegetables?|fruit|apples?|banana*|meat|jerky|herbs|tomato*|mushroom*|eggs?|slices)
        .. (shelf|pantry|cupboard|months|year|store|keep|last|jars?|safe) | (without|no) (refrigerat*|a
        fridge|fridge|chilling) .. (months|weeks|keep|last|shelf) | (months|weeks) .. (unrefrigerated|without
        refrigeration|without a fridge) | botulism | clostridium | oxygen absorber* ..
        (cake|bread|brownie*|cookies)"""
)  # fmt: skip
# What is set gently in the oven in a water bath, and what tells that jars are meant all the same.
SET_IN_WATER = phrases(
    """cheesecakes? | custards? | flans? | pies? | br(u|û)l(e|é)e | pots? de cr(e|è)me | cr(e|è)me caramel | puddings? |
        ramekins? | terrines? | souffl(e|é)s? | springforms? | crust"""
)
JARRED = phrases("jar* | lids? | seal* | cann* | bottle* | process* | shelf | pantry | larder | cupboard | filling")
WATER_BATH = phrases("water[ -]?baths?")
# Things that must not come near food, and ways of working that hurt: whoever asks about them is told by a person.
NEVER = phrases(
    """salmonella | listeria | e\\. ?coli | germs | bacteria | (kids?|children|let|toddler*) .. lick* | garden
        cent(re|er) | nursery (plants?|flowers?) | carbon monoxide | gas leak | (smell*|whiff|stink*) (of|like)? ?gas |
        (barbecue|charcoal|camping stove|gas grill) .. (indoors|inside|in the (kitchen|house|garage))""",
    """(essential|tea tree|aromatherapy|fragrance|massage|scented) .. oils? | essential .. oil | florists? |
        (foraged|wild|garden|hedgerow|picked) .. (flowers?|blossoms?|petals|berries|mushrooms?) | (lily of the
        valley|oleander|foxglove|daffodil*|hydrangea*|lilies|poppies|laburnum|ivy|yew|holly) |
        (bitter almonds?|almonds? .. bitter|apricot (kernels?|stones?)|cherry (pits?|stones?|kernels?)|peach (pits?|
        kernels?|stones?)|plum
        stones?|apple (seeds|pips)) | raw (elderberries|kidney beans?|beans|cassava|rhubarb lea*) | rhubarb
        leaves | unsoaked kidney | galvani[sz]ed | lead (glaze*|crystal|paint) | copper (bowl|pan|pot) ..
        (safe|green|acid|lemon|unlined) | unlined copper | self[ -]clean* ... (bird|parrot|budgie|fumes) |
        sprayed (roses?|flowers?|petals) |
        glass .. (freezer|fridge|cold|frozen) .. (oven|hot|boiling|hob|broiler|grill) |
        (freezer|fridge|frozen|cold) .. (oven|hot) .. glass | glass .. (on the|over)
        (hob|stove|flame|burner) | dry ice | liquid nitrogen | (drain|oven) cleaner | lye | caustic soda |
        sodium hydroxide | (grease|oil|fat|pan) fire | on fire | caught fire | flamm* | flamb* | vodka ..
        (flame|burner|hob) | borax | hydrogen peroxide | mineral oil .. (eat|cake|dough) | antifreeze |
        (methylated|rubbing|surgical) (spirits?|alcohol) | craft (glitter|paint) | (non[ -]?toxic|craft) ..
        (glitter|dust) | cannabis | weed butter | edibles | cannabutter | silica gel | (whole|ground|spoons? of)
        nutmeg .. (high|trip|too much|dangerous) | (bleach|disinfect*) .. (food|fruit|dough|pan|bowl) |
        (soap|detergent|dishwasher (tablet|salt)|(washing|dish)[ -]?(up )?liquid|bleach|disinfect*|descaler|cleaner) ..
        (got|fell|spil*|splash*|dripp*|leak*|ran|dropp*|left|residue|mixed) .. (in|into|on|onto|over) |
        toothpicks? .. left in | (raw|unpasteuri[sz]ed) milk |
        pasteuri[sz](e|ing) .. (eggs?|yolks?|whites?|milk|cream) |
        (eggs?|yolks?|whites?|milk|cream) ... or (bin|toss|trash|throw|chuck|discard) (it|them|away|out)""",
)
RAW = phrases(
    """(heat[ -]?treat*|microwav*|toast*|roast*|bak(e|ing)|cook*) .. flour .. (safe|raw|edible|cookie
        dough|dough|kill*|bacteria|germs|salmonella|e\\.? ?coli|eat) | (edible|raw|safe) .. (cookie )?dough ..
        (flour|safe|normal|regular|plain) | heat[ -]?treat* .. flour | (kill*|salmonella|e ?coli) .. flour |
        cookie dough (ice cream|bites|truffles|balls) .. (flour|safe|ok|okay) |
        flour .. (kill*|salmonella|e ?coli)"""
)
