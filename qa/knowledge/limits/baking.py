"""What marks a question as one about the baking, and what goes wrong with a bake: tables of phrases.

How they are written: see `qa.text.phrases`.
"""

from __future__ import annotations

from qa.text.phrases import phrases

# The question is about the baking after all.
_BAKING = phrases(
    """did you (say|use|mean) | in (f|c|fahrenheit|celsius|centigrade) |
        (leave|leaving|left|skip*) .. out | what happens (if|when) i | do the same job |
        (another|other|different) (flour|starch|gum|sugar|oil|milk) |
        do in (shortbread|cakes?|bread|cookies|pastry|scones) |
        (dough|batter|butter) .. (warms?|cools?|melts?|softens?) |
        (they|it|these|those) the same | vs | versus |
        which (one|kind|type|sort) for (a|the|my) .. (loaf|bread|cake|cookies?|muffins?) | come out like |
        tunnels? | tough* |
        (yeast|starter|levain) .. (dead|alive|active|killed|bubbl*) | bloom* | no[ -]knead |
        (get|make|is|be) .. (lighter|softer|crisper|chewier|fluffier|thicker|darker|brighter|runny) | same weight |
        stay (in|on) the (tin|shelf|oven) | how come | where (can|do|to|did|could|would) |
        (do|does|doing|done|change*|mean*|make) .. (to|in|for) the
        (bread|dough|cake|loaf|crumb|texture|taste|sponge|batter) | what (is|are|does|do|will|would) ...
        (do|doing) (in|to|for) |
        (just (ordinary|plain|normal|regular|ground|another)|the same as|same thing as|another name|
        difference between) | subtract |
        net carbs | (packet|label|bag) .. says | alternatives? | looking for | options? | buy | buying | recipe
        | link | change* the | how (low|high) | (fluid )?ounces? | cups? | grams | how
        (thick|thin|full|far|soon|early) | one bowl | easiest | easy recipe | vegan butter | flaky | slices?
        well | that slices |holds? | hold (together|up|its) | rise* | rising | rose | sets? (up|firm)? | setting
        | bind* | whip* | brown(s|ed|ing)? | (will|would|do|does|did|didn't|not|won't|they|it|cookies|batter) spread* |
        spread* (out|less|flat|everywhere) | crisp* | snap* | chewy | crumbl(e|es|y|ed|ing) | crusty |
        (soft|crisp|good|chewy|thick|thin|golden|pale|hard|tough|tight|open|fine|softest)
        (crumb|crust) | (crumb|crust) .. (tight|soft*|hard|thick|pale|crisp*|tough|get|stay|so) | crackl* | texture |
        gritty | grainy | curdl* | split* | cream (with|w|up) | slack | proof* | prove | proving | swap* |
        substitut* | sub | subs | replac* | instead | in place of | how (many|much) ..
        (grams?|g|eggs?|tbsp|tsp|cups?|spoons?|more|less|water|for|to use|of|do i (use|need|add)|should i
        (use|add)|would i (use|need)|stevia|sugar|flour|powder) | taste* | flavou?r* | sweet enough | melt* |
        gel | gels | thicken* | fall apart | bake (up|the same|longer|at|in) | come out | turn out |
        work(ed)? (in|for|as|with|the|well|instead|here|too|just as|fine) | behave* |
        acts? (most|more|much)? ?(like|the same|as) | does .. (do|work) | freeze* | frozen | keep
        (for|fresh|soft|crisp|moist) | stay (crisp|soft|fresh|moist) | store |
        (cake|bread|loaf|cookies?|muffins?|dough|shortbread|batter|sponge|rolls) ..
        (still|come|turn|go|get|stay|work|bake|rest|wait|chill|sit|be (ok|okay|fine) with|be (frozen|left|proofed|
        proved|chilled|made)) | less gritty | for .. eggs | softest | softer | fluff* | moist*
        | dry | dense | gummy | sticky | stick | what (else|flour|size|temp*|tin|can i
        (use|put|add|swap|bake|make)|could i (use|swap|make)|do (i|you) (use|sub)|would (you|i) (use|sub)|about)
        | which (flour|starch|one|binder|gum|sugar|milk|butter|recipe) ..
        (give*|make*|work*|hold*|rise*|bake*|use|is|would|bring*|stop*|keep*) | (can|could|should|may|do)
        (i|you|we) ..
        (use|make|bake|sub|swap|replace|leave out|skip|omit|halve|double|add|mix|stir|whisk|melt|roll|line|reuse|
        rescue|fold|
        chill|leave it to|prep|grease|fill) | how
        (do|can|could|would|should|to|long|hot|big) | same (amount|recipe|texture) | ratio | scale | double |
        halve | convert | grind | sieve | knead* | folds? | folding | mixer | processor | machine | by hand |
        why | is there (a|an|any) .. (way|version|recipe|method) | bakes? (off|out) |
        collaps* | sink* | sank | sunk | stabilis* | stabiliz* | gloss* | shine | ganache (set|hold)"""
)
_EATEN = phrases(
    """set .. off |
        (safe|ok|okay|fine|all ?right|good|bad|danger*|suitable|healthy|safer|safest|kinder) (enough )?for ..
        (him|her|them|me|us|my|someone|people|kids|guests?|bab(y|ies)|toddlers?|infants?) | blood sugar |
        sugar levels? | interact* |
        bolus | no[ -]go | (yay|yea|yes) or (nay|no) | hurt (my|him|her|your)self | (can|could|to) chew |
        (him|her|he|she|they|them|kids|i|people) .. (eat*|swallow*|tolerate|digest|react*)"""
)
# Asked for the cause of what a bake did, which the comment tells.
CAUSE = phrases(
    """what (did|have|am|was) i (do|done|doing) .. wrong | any (ideas?|thoughts|clue|tips|advice) | is it (the|my) |
        was it (the|my) | could it be (the|my) | what (happened|went wrong|is going on|gives|am i missing) |
        how come | what (do|should|can|could) i (do|try) | (can|could|do) i
        (rescue|save|fix|salvage) | how (do|can|could) i (fix|stop|get rid|save|rescue) |
        is (this|that|it) (normal|usual|ok) |
        where did i go wrong | (pls|please|plz)? ?help"""
)
FAULT = phrases(
    """(bread|loaf|loaves|cake|dough|crumb|muffins?|cookies?|biscuits?|scones?|sponge|batter|middle|mine|it|they|
        custard|crust|rolls?|buns?|brownies?|pie|tart|butter ?cream|icing|frosting|ganache|meringues?|focaccia|
        pancakes?|pastry) ..
        (like a (brick|rock|stone)|runny|pale|bland|tunnels?|too (fast|quickly)|weep*|greasy|grainy|gritty|gummy|gumm*|
        wet|collaps*|sinks?|sank|sunk|dense|flat|dry|crumbl*|spread*|crack*|burn*|split*|curdl*|stick*|
        stuck|tough|rubber*|soggy|heavy|claggy|too (soft|hard|pale|dark|thin|thick)) | (didn't|doesn't|won't|never)
        (rise|set|thicken|brown|foam|hold|whip|cream|bind|melt|cook)"""
)


def baking_asked(sentence: str) -> bool:
    """Whether a question is plainly about the baking, whatever illness stands beside it.

    >>> baking_asked("will the shortbread still snap with oil instead of butter")
    True
    """
    return bool(_BAKING.search(sentence)) and not _EATEN.search(sentence)
