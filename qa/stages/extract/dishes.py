"""Tell which dish an ask is about, and what went wrong with it, in a plain word each."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from qa.records import AskType
from qa.text.phrases import phrases

_DISHES = phrases(
    """bread | loaf | loaves | sandwich loaf | sourdough |
        focaccia | baguettes? | pandesal | ciabattas? | brioches? | challahs? | rolls |
        (swiss|jelly|cinnamon|dinner|bread|burger|cheese|crusty|soft|each|per) roll |
        buns? | bagels? | pretzels? | pizza | flatbreads? | naan | pitas? | tortillas? | cakes? | sponge | cupcakes? |
        cheesecake | muffins? | cookies? | biscuits? | scones? | brownies? | blondies? | pancakes? | waffles? |
        crepes? | pies? | puff pastry | short ?crust | (filo|phyllo) pastry | pastry cream | pastry |
        tarts? | galettes? | quiches? | strudels? | cobblers? | crumble topping |
        (apple|fruit|berry|rhubarb|peach|plum|cherry|pear|a|the|my|this|your)
        crumbles? | croissants? | choux |
        profiteroles? | [eé]clairs? | flapjacks? | tartlets? | turnovers? | sausage rolls? | cream puffs? | donuts? |
        doughnuts? | meringue* | pavlovas? | pavs? | macarons? | macaroons? | mousse | panna ?cotta | pudding |
        custard | curd | flans? | cr[eèé]me br[uû]l[eé]es? | cr[eèé]me caramels? | brigadeiros? | semifreddo |
        ice creams? | sorbets? | icing | buttercream | (marshmallow )?fondant | ganache |
        truffles? | caramels? | toffees? | marshmallows? | fudge | (peanut|a|the|my|this|your) brittle | honeycomb |
        lollipops? | gummies | turkish delight | lokum | nougat | jelly | jellies | jello | jam | gravy | soups? |
        crackers? | granola | bars? | shortbread | gingerbread | anzacs? | ginger ?(nuts?|snaps?) | fritters |
        dumplings | gnocchi | mochi | pasta"""
)
# Said of nearly any dish: they count where no dish is named beside them ("dough for pizza").
_PARTS = phrases("crust | frosting | glaze | sauce | batter | dough")
# What a failure is compared with is not what was made.
_LIKENESS = phrases(
    """(like|flat as|thin as|thick as|soft as|hard as|dense as) (a )?(pancakes?|soup|pudding|custard|caramel|toffee|
        gravy|batter|sponge|jelly|jello) | (is|was|are|became|becomes|still|to|into|just|all) (a )?soup | soup after |
        (out|more|exactly|just|was|were|is|are|it's) like (a|little|small|mini)? ?(cakes?|sponge cakes?|muffins?|
        bread|biscuits?|cookies) | (into|to) (a|one)? ?(single|big|giant|huge|massive) (pancake|cookie|cake|biscuit) |
        (into|to) a pancake"""
)
# An ingredient named after a dish is not that dish.
_INGREDIENTS = phrases(
    """icing sugar* | (graham|cream) crackers? | (cake|pastry) flour |
        (milk|yogh?urt|dahi|plain|sour|thick|fresh|home ?made|hung|normal|only|
        use|using|add|with|instead of|in place of|for|and|or) (and|or|some|plain|sour|thick|fresh)? ?curd"""
)
_ARTICLE = re.compile(r"^(?:a|the|my|this|your)\s")
# Conditions of answers name these as one.
_BISCUITS = ("anzac", "ginger nut", "gingernut", "ginger snap", "gingersnap")
_AS_ONE = {
    "loaves": "loaf",
    "flatbreads": "flatbread",
    "baguettes": "baguette",
    "pies": "pie",
    "tarts": "tart",
    "shortcrust": "pastry",
    "short crust": "pastry",
    "pandesal": "rolls",
    **{f"cr{e}me br{u}l{f}e{s}": "creme brulee" for e in "eèé" for u in "uû" for f in "eé" for s in ("", "s")},
    **{f"cr{e}me caramel{s}": "creme caramel" for e in "eèé" for s in ("", "s")},
    **{f"{one}{plural}": "biscuits" for one in _BISCUITS for plural in ("", "s")},
}
# Names that hold a word for a failure.
_NO_FAILURE = phrases(
    """(baking|pizza|oven|bread) stones? | heavy (whipping )?cream | sour (cream|milk|cherr*) | split peas |
        dry (yeast|milk|mustard|ingredients|mix|goods) | green (tea|apples?|beans?|food*) | flat (white|sheet|breads?) |
        thin crust | crack (the|an|my|your) eggs? | hard boil* | liquid (ingredients|smoke|sweetener|eggs?) |
        (crust|layers?|skin) separat* | crackers? | cracker dough | (no|without|any) (more )?lumps |
        went down (a (storm|treat|bomb)|(so |very |really )?well|great)"""
)
_SMOOTH = """(sauce|ganache|custard|curd|cream|creme|buttercream|frosting|batter|caramel|chocolate|mayo*|hollandaise|
    emulsion|mixture|mousse)"""
_SYMPTOMS: tuple[tuple[str, re.Pattern[str]], ...] = tuple(
    (name, phrases(written))
    for name, written in (
        ("purple", "purple | violet | lilac | mauve | lavender"),
        ("green", "green*"),
        ("grey", "gr[ea]y*"),
        ("too sweet", "(too|so|overly) sweet | sickly"),
        ("seized", "seiz*"),
        ("shrunk", "shrank | shrink* | shrunk*"),
        (
            "stuck",
            """stuck | won't (come|turn) out | won't release | stick* (to|in|on) .. (pan|tin|paper|parchment|bottom|
            sides|tray|sheet|mou?lds?|foil|bundt|liners?|cases|wrappers?|muffin)""",
        ),
        (
            "gummy",
            """gummy | gumm* | gooey | like gum | stodgy | claggy | putty | undercooked |
            (raw|wet) (inside|middle|centre|center|crumb) | (raw|wet) in the (middle|centre|center)""",
        ),
        ("sticky", "sticky | tacky | sticks | too wet"),
        (
            "flat",
            """flat | didn't rise | not rise* | no rise | didn't puff | won't rise | never rose |
            (like|as) (a )?pancake* | (no|won't|don't|not) .. dom(e|es|ing)""",
        ),
        ("sunk", "sunk | sank | collaps* | deflat* | fell | caved | sinks? | dipped | went down"),
        ("soggy", "soggy | weep* | wet (bottom|base|crust)"),
        ("domed", "dome* | doming | volcano* | hump*"),
        ("tunnels", "tunnel* | (big|large|huge|giant) (air )?(holes?|bubbles?) | air pockets?"),
        ("stale", "stal(e|es|ing)"),
        ("dense", "dense | heavy | brick* | hard | stone | tough | doorstop"),
        ("dry", "dry | crumbl* | fall* apart | fell apart"),
        ("curdled", f"curdl* | separat* | {_SMOOTH} ... (split*|broke*) | (split*|broke*) .. {_SMOOTH}"),
        ("cracked", "crack* | split*"),
        ("too thick", "(too|so|very) thick | thick as"),
        ("lumpy", "lump* | clump*"),
        (
            "runny",
            """runny | liquid | (didn't|doesn't|won't|never) set | not set* | thin | watery | won't thicken | soupy |
            soup after | (like|as|is|was|became|a|to|into) soup""",
        ),
        ("gritty", "gritty | grainy | sandy | crystals | crystal?lis*"),
        ("bitter", "bitter | soapy | metallic | chemical"),
        ("sour", "sour | vinegary | tangy"),
        ("spread", "spread*"),
        ("burnt", "burnt? | burned | too dark | black"),
        ("pale", "pale | not brown* | didn't brown | no brown*"),
        ("greasy", "greasy | oily"),
    )
)


def dish_of(sentence: str, text: str) -> str:
    """The dish an ask is about, in one plain word: from the asking, else from the comment; ''.

    >>> dish_of("can I freeze the dough for pizza?", ""), dish_of("why is my dough like soup?", "")
    ('pizza', 'dough')
    >>> dish_of("is icing sugar powdered sugar?", ""), dish_of("my lokum dissolved its icing sugar", "")
    ('', 'lokum')
    """
    told = (_INGREDIENTS.sub(" ", _LIKENESS.sub(" ", part)) for part in (sentence, text))
    found = next((found for part in told for dishes in (_DISHES, _PARTS) if (found := dishes.search(part))), None)
    dish = _ARTICLE.sub("", found.group().lower()) if found else ""
    return _AS_ONE.get(dish, dish)


def symptom_of(kind: AskType, text: str) -> str:
    """What went wrong, in a plain word or two, where something did.

    >>> symptom_of("went_wrong", "why did my sauce split?"), symptom_of("went_wrong", "my loaf split")
    ('curdled', 'cracked')
    """
    if kind not in {"went_wrong", "colour"}:
        return ""
    told = _NO_FAILURE.sub(" ", text)
    return next((name for name, pattern in _SYMPTOMS if pattern.search(told)), "")


def symptoms() -> tuple[str, ...]:
    """The plain words for what goes wrong.

    >>> "green" in symptoms()
    True
    """
    return tuple(name for name, _ in _SYMPTOMS)


def tells_of(symptom: str) -> Callable[[str], Iterator[int]]:
    """Where a text speaks of a symptom, by the start of each place; any other word as it is.

    >>> [*tells_of("green")("no green tea, but green crumb")], [*tells_of("khaki")("khaki at the rim")]
    ([18], [0])
    """
    pattern = dict(_SYMPTOMS).get(symptom) or phrases(" ".join(re.findall(r"[\w'-]+", symptom)))

    def found(text: str) -> Iterator[int]:
        blanked = _NO_FAILURE.sub(lambda name: "x" * len(name.group()), text)
        return (match.start() for match in pattern.finditer(blanked))

    return found
