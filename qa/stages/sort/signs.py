"""What a sentence shows of its speech act by grammar and form, whatever it is about.

Each word becomes a sign: a function word stays itself, a word of a small class becomes the class, any other word only
keeps its ending. What is learned on signs carries over to other voices and ingredients; vocabulary does not.
"""

from __future__ import annotations

import re

from qa.text import word_set

# Words that carry grammar and therefore stay themselves.
_GRAMMAR = word_set(
    """a an the this that these those it its it's there here and or but so because if unless when while after
    before until as than then also too just only even still again yet already instead of for to from in on at by
    with without about into out up over per is are was were be been being am isn't aren't wasn't do does did don't
    doesn't didn't have has had haven't hasn't can could can't couldn't should shouldn't would wouldn't will won't
    may might must gonna going let's what which who why where how whether any anyone anybody else all some every no
    not never none nothing more less most much many few little very really way like same another other both either i
    i'm i've i'd i'll im ive my me mine we we've our us you you're u ur your yours he she his her they them their
    maybe perhaps though although however okay yes oh hi hey hello right correct true"""
)
_CLASSES: dict[str, str] = {
    "THANKS": """thanks thank thx ty tysm tq thankyou thnx thnks appreciate appreciated appreciation grateful gratitude
        bless blessings cheers gracias merci danke obrigado obrigada grazie salamat kudos props bravo congrats""",
    "PRAISE": """amazing love loved loves loving loveee great perfect perfectly best fantastic awesome wonderful
        excellent incredible beautiful beautifully gorgeous fabulous brilliant superb outstanding heavenly divine
        lovely favorite favourite winner hit phenomenal genius stunning impressed impressive obsessed addictive heaven
        perfection legend goat goated magic magical talented talent underrated inspiring inspiration adorable neat
        satisfying splendid marvelous marvellous wow fab ace keeper gem treasure masterpiece art""",
    "YUM": """delicious yum yummy yummo tasty scrumptious delish mouthwatering drooling droolworthy flavorful
        flavourful decadent tasted mmm mmmm nom""",
    "FINE": "good nice nicely fine ok decent pretty solid alright acceptable well",
    "SOFT": """fluffy moist tender soft crisp crispy chewy light airy golden flaky gooey fudgy crunchy smooth creamy
        springy crumbly cakey rich sweet fresh""",
    "BAD": """flat dense gummy dry bland soggy burnt burned raw runny sunk sank collapse collapsed collapsing hard
        bitter salty greasy oily tough sticky mushy rubbery undercooked underbaked overcooked overbaked gritty soapy
        heavy brick stuck wet watery doughy sour cracked deflated weeping split curdled grainy separated purple green
        gray grey tasteless flavorless flavourless mush mess soup stale liquid lumpy tore tears""",
    "AWFUL": """disappointed disappointing disappointment fail failed fails failure awful terrible horrible disaster
        waste wasted wasting ruined gross nasty inedible worst sad horrid terribly yuck yucky eww ew flop flopped
        unfortunately sadly bad worse weird off yikes meh mediocre overrated trash garbage rubbish shame unimpressed
        pathetic awfully hated hate disgusting mid dud""",
    "COMPLAIN": """annoying annoyed useless ridiculous stupid misleading clickbait unsubscribed unsubscribing
        unsubscribe unfollowed boring slow nonsense lazy impossible irritating frustrating frustrated frustratingly
        unclear confusing vague missing fake overcomplicated complicated pointless ads ad advert adverts popups
        popup sponsor sponsors filler audio loud expensive overpriced pricey insane absurd joke wrong wordy
        clutter scroll scrolling authentic unhealthy gripe complaint skipped skips""",
    "SHOWN": """recipe recipes video videos vid clip page site website blog link links channel instructions instruction
        directions direction steps step description ingredients measurements measurement quantities list text article
        subtitles captions music thumbnail title picture photo episode post comments comment print content""",
    "DID": """made used tried baked added substituted subbed swapped replaced doubled halved cut left put cooked
        followed mixed turned came got took ended went let gave threw skipped omitted reduced increased folded
        whisked kneaded poured chilled froze refrigerated served brought ate forgot noticed found tripled
        decided changed bought measured weighed sifted toasted soaked ground grinded rose thawed stored kept
        finished topped enjoyed devoured gobbled raved needed worked stayed looked ran only had""",
    "DO": """make use try bake add substitute sub swap replace double halve cook follow mix turn take leave skip
        omit reduce increase fold whisk knead pour chill freeze refrigerate serve put store keep thaw heat melt
        cover line grease sift weigh measure soak grind toast beat stir blend let cut cool wait rest roll check
        remember brush sprinkle preheat tap spray throw buy start open set bring dust flour""",
    "ADVISE": """tip tips hint advice recommend recommended suggest suggestion suggestions should trick secret
        hack psa fyi sure always never next better warning careful ensure avoid protip lifehack btw technically
        actually note nope""",
    "WONDER": """wonder wondering question questions curious possible anyone's help idea ideas thoughts advise
        clarify explain tell know confused unsure guess think verify verifying confirm pls plz please""",
    "FUTURE": "will going gonna tomorrow tonight soon weekend excited plan planning hoping hope definitely saving",
    "PAST": "yesterday last ago today just already previously earlier night morning twice once times second third",
    "SPAM": """subscribe giveaway crypto bitcoin invest investing investment trader trading
        promo discount coupon dm inbox earn income loan profit forex click followers hacker spell
        betting casino hiring dating collab shop store prize congratulations manager bankrupt debts""",
    "LAUGH": "lol haha hahaha lmao lmfao rofl hehe ha hah jk joking funny xd",
    "FIRST": "first early notification notif",
    "UNIT": """cup cups c tbsp tbs tablespoon tablespoons tsp teaspoon teaspoons g gr gram grams kg kilo ml mls
        litre liter litres liters oz ounce ounces lb lbs pound pounds stick sticks pint quart gallon spoon spoons
        spoonful inch inches cm minutes minute min mins hour hours hr hrs degrees degree f celsius fahrenheit
        percent dozen packet packets package tin""",
    "FOOD": """flour flours sugar butter egg eggs milk cream yeast salt oil vanilla cocoa chocolate starch
        cornstarch oats oat almond coconut flax flaxseed chia psyllium husk tapioca potato rice wheat gluten honey
        syrup cheese yogurt powder soda water lemon vinegar banana applesauce margarine nuts xanthan gum gelatin
        agar sweetener stevia erythritol cinnamon cornmeal cornflour buttermilk batter dough""",
    "DISH": """bread loaf cake cakes cookie cookies muffin muffins brownie brownies pancake pancakes waffles pie
        crust pizza biscuit biscuits scone scones cupcakes cheesecake frosting icing roll rolls bun buns bagel
        bagels focaccia sourdough batch tart meringue macarons crumb glaze filling""",
    "KIN": """husband wife son daughter kids kid family mom mum dad mother father grandma granddaughter hubby
        boyfriend girlfriend friends sister brother coworkers guests grandkids nephew niece roommate roommates nan
        gran grandmother grandfather grandpa aunt uncle neighbor neighbour neighbors office potluck everyone""",
    "SHOW": "look looks looking sound sounds smell smells watching watched seeing watch",
    "STARS": "star stars rating review reviews",
    "NUMBER": "one two three four five six seven eight nine ten half quarter couple dozen third",
    "TRY": "anybody someone somebody folks guys people",
}
_CLASS_OF = {word: name for name, words in _CLASSES.items() for word in words.split()}

_TOKEN = re.compile(
    r"(?:https?://|www\.)\S{1,500}|[@#]\w{1,60}|[$£€]\s?\d|\d+(?:[./,]\d+)*\s?%?|[½¼¾⅓⅔⅛]|[^\W\d_]+(?:'[^\W\d_]+)?"
    r"|[?]+|!+|\.{2,}|…|[:;][-']?[()DPp]|[\U0001f300-\U0001faff\u2600-\u27bf❤]+|,"
)
_EMOJI_LAUGH, _EMOJI_SAD = frozenset("😂🤣😅😆"), frozenset("😢😭😞😔😡🤢🤮😩👎")
_EMOJI_LOVE = frozenset("😍❤🥰😋🤤👏🙌🔥💕🙏👍💖")


def signs_of(text: str) -> list[str]:
    """The signs of a sentence in order, with a few at the front about the whole of it.

    >>> signs_of("Can I use oat flour?")
    ['<2', 'can', 'i', 'DO', 'FOOD', 'FOOD', '?']
    """
    tokens = _TOKEN.findall(text)
    found = [_sign(token) for token in tokens]
    return [f"<{min(len(tokens) // 3, 6)}", *(["SHOUT"] if len(text) > 8 and text.isupper() else []), *found]


_seen: dict[str, str] = {}


def _sign(token: str) -> str:
    sign = _seen.get(token)
    if sign is None:
        sign = _worked_out(token)
        if len(_seen) < 200_000:
            _seen[token] = sign
    return sign


def _worked_out(token: str) -> str:
    word = token.lower()
    if word in _GRAMMAR:
        return word
    if word in _CLASS_OF:
        return _CLASS_OF[word]
    first = word[0]
    if first.isdigit() or first in "½¼¾⅓⅔⅛":
        return "PERCENT" if word.endswith("%") else "NUMBER"
    if first.isalpha():
        return "LINK" if word.startswith(("http", "www")) else _ending(word, shouted=token.isupper() and len(token) > 3)
    return _mark(word, first)


def _ending(word: str, *, shouted: bool) -> str:
    if shouted:
        return "LOUD"
    for ending in ("ing", "ed", "ly", "n't", "est", "er", "s", "y"):
        if len(word) > len(ending) + 2 and word.endswith(ending):
            return "x" + ending
    return "x"


def _mark(word: str, first: str) -> str:
    if first in "?!.…,":
        return {"…": ".."}.get(first, first if len(word) == 1 else first * 2)
    if first in "$£€":
        return "MONEY"
    if first in "@#":
        return "TAG"
    if first in ":;":
        return "SAD" if word[-1] == "(" else "SMILE"
    for name, emoji in (("LAUGH", _EMOJI_LAUGH), ("SAD", _EMOJI_SAD), ("LOVE", _EMOJI_LOVE)):
        if emoji & set(word):
            return name
    return "EMOJI"
