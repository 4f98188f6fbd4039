"""Words that look like ingredient names and are none, short names, and foods that no library may know yet."""

from __future__ import annotations

import re

from qa.text import word_set
from qa.text.phrases import phrases

# Names that mean something else far more often: the dish, what is poured in without a thought, a colour, a meeting.
NEVER_A_NAME = word_set(
    """a i pan die mel lin la no on in to me plain whole powder liquid block starch meal flakes raw fresh other bread
    crumb breadcrumb water coffee tea caramel nut sourdough white brown date til bran the te mais pain brot pao icecream
    gelato"""
) | {
    "warm water", "cold water", "hot water", "tap water", "boiling water", "white bread", "white loaf",
    "loaf of bread", "sandwich bread", "egg substitute", "nut flour",
}  # fmt: skip
# These count in the plural only: "whites" are of eggs, "white" is a colour.
IN_THE_PLURAL = {"whites": "egg.white", "dates": "date", "nuts": "nuts"}

# How cooks shorten a name. Each counts only where the library has the item.
SHORT = {
    "soda": "baking-soda.powder",
    "bicarb": "baking-soda.powder",
    "powder": "baking-powder.powder",
    "bicarbonate": "baking-soda.powder",
    "baking soder": "baking-soda.powder",
    "baking power": "baking-powder.powder",
    "baking pwdr": "baking-powder.powder",
    "bp": "baking-powder.powder",
    "husk": "psyllium.husk",
    "whole husk": "psyllium.husk",
    "husk powder": "psyllium.powder",
    "all purpose": "wheat.all-purpose-flour",
    "ap": "wheat.all-purpose-flour",
    "ap flour": "wheat.all-purpose-flour",
    "plain": "wheat.all-purpose-flour",
    "self rising": "wheat.self-raising-flour",
    "self risin": "wheat.self-raising-flour",
    "self raising": "wheat.self-raising-flour",
    "sr flour": "wheat.self-raising-flour",
    "type 00": "wheat.type-00-flour",
    "caster": "sugar.caster",
    "superfine": "sugar.caster",
    "granulated": "sugar.granulated",
    "active dry": "yeast.active-dry",
    "kosher": "salt.kosher",
    "evaporated": "milk.evaporated",
    "condensed": "milk.condensed",
    "cream of tarter": "cream-of-tartar.powder",
    "chickpea water": "aquafaba.liquid",
    "sunbutter": "sunflower.butter",
    "sun butter": "sunflower.butter",
    "pb": "peanut.butter",
    "marg": "margarine",
    "evoo": "oil.olive",
    "massa harina": "maize.masa",
    "citric": "citric-acid.crystal",
    "self raising flour": "wheat.self-raising-flour",
}
# Some of them are everyday words and count only beside a word of the trade.
ONLY_BESIDE = {
    "powder": phrases("soda | bicarb* | self[ -]?(raising|rising) | leaven*"),
    "half and half": phrases("cups? | cream | milk | coffee | carton | tbsp | creamer | dairy | instead | sub*"),
    "half half": phrases("cup | cream | milk | coffee | carton"),
    "port": phrases("wine | glass | splash | ruby | tawny | sherry"),
    "plain": phrases("flour | self | strong | bread flour"),
    "kosher": phrases("salt | table | tsp | teaspoons? | pinch"),
    "ap": phrases("flour | bread | cup | cups | grams? | sub*"),
    "bp": phrases("soda | tsp | bs | baking"),
    "condensed": phrases("milk | evaporated | sweetened"),
    "evaporated": phrases("milk | condensed | cream"),
    "granulated": phrases("sugar | caster | sweetener"),
    "superfine": phrases("sugar | caster | granulated"),
    "citric": phrases("acid | lemon | vinegar | tsp"),
}
# And not beside these, where they are something else.
NEVER_BESIDE = {
    "powder": phrases(
        "psyllium | husks? | isabgol | cocoa | milk | custard | protein | curry | chili | garlic | onion"
    ),
    "curd": phrases("lemons? | limes? | oranges? | passion ?fruit | tart | jars?"),
    "jelly": phrases("gelatin* | agar* | bloom* | moulds? | pineapple | kiwi | papaya | trifle | panna cotta | wobbl*"),
    "soda": phrases("a soda | (can|cans|bottle|glass|drink*) .. soda | diet soda | soda pop"),
}

# Foods asked about that a starter library need not know; they are named so that the answer can be "not known yet".
UNUSUAL = word_set(
    """tigernut mesquite baobab breadfruit acorn cricket moringa lucuma wattleseed teff sorghum fonio millet
        amaranth quinoa lupin hemp chestnut plantain carob maca spirulina einkorn kamut emmer barley rye pea
        lentil urad besan mung banana apple grape pumpkin sweet sago konjac glucomannan okara buckwheat kasha
        water camel goat sheep emu quail duck turkey ostrich beestings colostrum ube taro yam cactus nopal aloe
        acai noni kelp dulse insect mealworm tremella basil sabja cushuro kinako soy walnut pecan hazelnut
        pistachio macadamia brazil cashew peanut sesame poppy"""
)
# Foods that a baking library need not know either, by the names they go by; asked about, they are named.
FOODS = {
    name.replace("_", " "): name.replace("_", "-")
    for name in word_set(
        """tigernut tiger_nut tomato pork beef bacon ham chicken mushroom eggplant jalapeno tomatillo shrimp salmon tuna
        spinach kale celery cabbage cucumber broccoli cauliflower asparagus artichoke sausage chorizo pepperoni
        leek shallot onion chive parsley cilantro oregano tarragon dill paprika soy_sauce fish_sauce oyster_sauce
        worcestershire tabasco ketchup wasabi horseradish miso kimchi tamarind okra radish turnip parsnip lettuce
        grapefruit passion_fruit papaya pomegranate persimmon quince jackfruit plantain lychee guava watermelon
        grape minced_meat meat seaweed bean_paste lucuma wattleseed breadfruit baobab moringa mesquite"""
    )
} | {
    "tiger nut": "tigernut",
    "chufa": "tigernut",
    "aubergine": "eggplant",
    "minced meat": "meat",
    "shellfish": "shellfish",
}
# Words before "flour" and the like that say which, or do something with it, and are no food.
_NO_FOOD = word_set(
    """the a an of my your our his her their its this that these those more less extra enough any some no not all
        every each other another different same which what whose and or but with without for in into on to from
        by as than then use uses used using add adds added adding put sift sifted measure measured weigh weighed
        mix mixed need needs needed buy bought get got have has had make made sub subbed swap swapped replace
        replaced substitute try tried bake baked cup cups tbsp tsp tablespoon tablespoons teaspoon teaspoons
        gram grams g kg oz ml lb pound spoon spoonful bag packet box jar brand brands store shop local cheap
        good best better great bad right wrong normal regular ordinary usual common standard simple real pure
        fine coarse light heavy dark thick thin warm cold hot room dry wet fresh old new soft hard strong weak
        organic free gf gluten dairy vegan keto low high carb fat protein homemade own half quarter third double
        whole ground raw toasted roasted cooked instant quick plain white brown black red green yellow purple
        wheat bread cake pastry self rising raising purpose type baking baker all nut nuts grain grains seed
        root bean type is are was were be been do does did can could will would should if so just only even
        still also too very really about like one two three four five six much many lot bit little few most
        alternative gluten-free between when where while machine excess burnt correct bench pasteurize keep"""
)
HEADS = tuple("flour starch powder butter milk syrup meal".split())


def unknown_food(before: str, head: str) -> str:
    """The food in front of "flour" and the like that no library knows, or '' if it is none.

    >>> unknown_food("tigernut", "flour"), unknown_food("more", "flour"), unknown_food("zanzu", "flour")
    ('tigernut', '', 'zanzu')
    """
    if head not in HEADS or before in _NO_FOOD or len(before) < 3:
        return ""
    if before in UNUSUAL:
        return before
    return before if head in {"flour", "starch"} and not before.endswith(("ed", "ing", "ly", "er", "est")) else ""


# Ordinary English words within a letter or two of a name; they are never repaired into it.
ORDINARY = word_set(
    """improve improves yeasty mille floury alcoholic banane ober bandana bandy barkley barnsley bartley bennet
        bennie berber blackbeard brady brand brands breakwater buttered buttery carmelo chased chiseled
        cinder clover coldwater collage cornea corneal creamy curran current darker digestible finest freshest
        gingerly grainger guaranty guardian insulin jagger kumar langer larger lemony levin liquidate maidan
        malawi manic marian marshal masala match matchday panel pepperoni pigment powder preserved pruned
        pumping pyramidal quickest raising scream selectable shelter shorting skelter smarter smelter
        softening spirited sprinkled sprinkler squashed started startle stoney sugary sultan sultanate
        vitamin waiter walter watery whisk whisked whisker whitbread whitehead whiten whiter whitey
        wholesale brian bread cured salty battery bitter better batter butler flavor flower flowers floor
        floured coast coaster toast roast honestly honor money maple apples simple sample lover clever crumb crumbs
        starting starts creamed pesach"""
)

# Turns of speech in which an ingredient's name is something else.
IDIOMS = phrases(
    """(pinch|grain) of salt (with|lol) | take .. pinch of salt | worth (his|her|its|their|your) salt | salt of the
        earth | piece of cake | bread and butter (of|job) | cream of the crop | couch potato | hot potato |
        egg(ed|ing) on | butter(ed|ing)? (me|him|her|them) up | butter(ed|ing)? up | (good|bad) egg | egg on
        (my|his|her|your) face | walk(ing)? on egg ?shells | honey ?moon* | (dear|oh|hi|hello|hey|thanks|thank
        you|bye|love you),? (honey|sugar) | (yes|no), (honey|sugar) | (rice|egg|bread|yogh?urt)
        (cooker|timer|beater|maker|machine|slicer|boiler) | butter (knife|dish|fingers) | salt lake | ginger
        ?(cat|hair|tom|nuts?|snaps?) | (look*|still|went|turned|gone|all|just) like (cottage cheese|yogh?urt) |
        (giant|like a|like) mushrooms? | (tiny|little|small) curds? |
        (my|the|our) (cat|dog|horse) (honey|pepper|ginger|cocoa|mocha|butter|sugar|pumpkin) |
        sugar ?(daddy|rush|coat*) | cup of (tea|coffee) | spill* the (tea|beans) | smooth as butter | milk it
        | crying over spil* milk | sugar (patients?|disease|levels?|alcohols?) | blood sugar | cured?
        (his|her|my|their) sugar | (granny|mother|father|mum|mom|dad|nan|gran|uncle|aunty|auntie) has (got
        )?sugar | wine bottle | bottle of wine | (smell*|taste*) (like|of) (beer|alcohol|wine|yogh?urt|cheese)
        | fruit salt | non-?alcoholic | (banana|soda|garlic|corn) ?bread | cinnamon (rolls?|buns?) | lemon
        (drizzle|tart|loaf|bars?) | sausage rolls? | squash (it|them|together|down|flat|the (scraps|dough|pastry)) |
        plum cake | apple (pie|crumble) | (meat|pork|pumpkin|pecan) pies? | cream (puffs?|buns?) | ice[ -]?cream |
        lactose intoleran* | butter[ -]?cream | oat (bars?|slices?) | fondant icing | pie in the sky |
        apple of (my|his|her) eye | go bananas | (banana|lime|lemon|fig|orange|grape|coconut) lea(f|ves) |
        full of beans | bean counter | pastry cream | (meat|sugar) (one|thermometers?|probe)"""
)

_PET = r"(?:cats?|dogs?|horses?|hamsters?|kids|daughters?|sisters?|sons?|neighbou?rs?|friends?|name|names|best name)"
# Words that are what somebody does with the ingredient, or what somebody is called; the name stands in group 1 or 2.
USED_OTHERWISE = re.compile(
    r"(?:^|[.!?,;:]\s*|\n|\b(?:to|and|then|you|we|i|will|should|must|first|don't|never|always|just|can|not|does)\s+)"
    r"((?i:cream(?=\s(?:the|together|butter|sugar|it|them|your|until)\b)"
    r"|sprinkle(?=\s(?:it|them|some|over|on|onto|in|with|the|a)\b)"
    r"|(?:butter|oil|flour|salt)(?=\s(?:and\sflour\s)?(?:(?:the|your|my)\s(?!same\b|best\b|right\b)|(?:yours|mine)\b))))"
    r"|\b(?:(?i:mr|mrs|ms|miss|sister|aunt|auntie|uncle|called|named|name's|names?\s(?:is|are|was))\s+"
    r"|(?:will|does|to|would|can)\s+(?=cream\sw))([A-Z]\w+|cream)"
    rf"|\b((?:[A-Z]\w+(?:,\s|\sand\s|\s)){{1,4}})"
    rf"(?=(?:is|are|was|were)\s(?:my|our|his|her|the)\s(?:\w+\s){{0,2}}{_PET}\b"
    r"|next\sdoor|the\s(?:cat|dog|horse))"
)
