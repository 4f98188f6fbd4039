"""Questions that only the law, a label authority or the maker of a product can answer."""

from __future__ import annotations

from qa.text.phrases import phrases

_SELL = """sell | selling | sold | market | stall | bake sale | fete | fair | shop | cafe | customers? | from home |
    from my (kitchen|house|home) | home bak* | online | farmers | wholesale | business"""
_LEGAL = phrases(
    """legal(ly|ity)? | illegal* | laws? (on|about|for|say|says|require*|in|here|against|allow*|regarding) |
        (the|a|food|by|against the|under|which|any|what|eu|uk|us|state|labelling|labeling|cottage) (food
        )?(law|laws|code) | lawful* | statut* | regulat(ion|ions|ed|ory|or) | liab(le|ility) |
        licen[cs](e|es|ed|ing) | permits? | cottage food | copyright* | trademark* | health
        (inspector|department|inspection) | food (standards|safety rules|hygiene certificate|handlers?) |
        hygiene certificate | fssai |
        (council|inspector) .. (want*|ask*|demand*|require*) |
        trading standards | environmental health | nutrition (panel|label*|facts) | (allergen|ingredient*)
        (card|label*|list|statement|sheet|info*|declaration) | natasha's | fda | usda (approv*|rule*) | e[
        -]number | inspect(or|ion) | declar(e|ed|ation) | (food|fda|efsa) approval | approved (in|for|by|as) |
        banned (in|by) | (insurance|insured) | sued? | suing | proper label | protected (term|name|word*) |
        in trouble (for|with|if|calling|selling) | if i (sell|charge|take money) |
        (cakes?|jam|bread|chutney|buns|cookies) (i|we) sell | fined | registered with |
        (council|inspector*|authorit(y|ies)) | what wording |
        wording .. (box*|label*|packag*|bag*|jar*) | label .. say | interstate | across state lines |
        rules? (on|for|about|is) .. (call*|label*|sell*|name) |
        what's the rule | bak(e|ing) .. to sell |
        (have|has|need|must|required) (to )?(show|display|list|declare|print) ..
        (calories|allergens|ingredients|nutrition) | zoning | tax | vat""",
    f"""(allowed|permitted|able|need|needs|have|has|required|must|can|could|may|ok|okay|legit) .. (to
        )?(sell|selling) ..
        (cakes?|bread|cookies?|loaf|loaves|these|this|it|them|cheesecake*|macarons?|from|at|in|online|without|jam|
        baked|goods|pies|brownies?|buns|muffins?)
        | (allowed|permitted|need|needs|have|must|can|could|may|should|when|before|do|does|how|what|which) ...
        (label*|sticker*|packag*|packet|bag|sign|card|board|website|menu|box|write|print|claim|call
        (it|them|these|this)|say|advertis*|list) ...
        (gluten|vegan|keto|organic|natural|sugar|diabetic|nut|dairy|allergen*|egg|low[
        -]carb|healthy|fat|artisan|sourdough|{_SELL}) | (call|advertise|market|describe|pass) ..
        (it|them|these|this|my *|as|off) .. (gluten[ -]free|vegan|keto|organic|natural|diabetic|nut[
        -]free|sugar[ -]free|dairy[ -]free|egg[ -]free|artisan) | (write|put|print|say|claim|label*) .. (gluten[
        -]free|vegan|keto|organic|natural|diabetic|nut[ -]free|sugar[ -]free|dairy[ -]free|egg[ -]free|free
        from) .. (on|if|when|at|card|label*|bag|box|sign|packet|menu) | (write|put|print|list|declare) ..
        (allergens?|every ingredient|ingredients?) .. (on|card|label*|bag|box|sign|sell*|packet|menu) | what ..
        (has|have|needs|must|should|do i|to) .. (on|say) .. (label*|sticker*|packet|card|sign) | ({_SELL}) ..
        (need|needs|rules?|allowed|permission|certificate|require*|register*|label*|illegal) |
        (need|needs|rules?|permission|certificate|require*|register*) .. ({_SELL}) |
        (customer|guest|someone|buyer) .. (ill|sick|reaction|allergic) .. (liab*|sue|fault|my|responsib*) |
        (need|get|have|ask) .. permission | (use|publish|post|share|sell|print|copy) .. your .. recipe ..
        (cafe|book|blog|shop|menu|channel|restaurant|bakery|commercial*|class) | in the shops here | responsible
        if | how (low|much|many ppm) .. (print|claim|label|call|sold as|say)""",
)  # fmt: skip
# The words in talk that has nothing to do with the law.
_IN_JEST = phrases(
    """(legal|lawful) question | legal tender | illegal to (skip|use|swap|eat|leave|not|enjoy|love) | should be
        (illegal|against the law) | law of (thumb|averages|nature|physics) | mother[ -]in[ -]law* |
        (father|sister|brother|daughter|son)s?[ -]in[ -]law* | in-?laws? | sue me (if not|lol|haha|jk|now) |
        sell (me|my family|my husband|it to|you|him|her) .. on | sell (me|him|her|them) | murphy's law | baking
        law | law unto | arrest me | crime | police | allowed to (use|eat|skip|swap|mix|laugh|do this) | am i
        allowed .. (use|skip|swap|bread|butter) | illegal .. (or what|to taste|levels?|delicious|good) | taxing
        | sold out | sold on | sold (in|at|by|as|under) .. (supermarket*|stores?|shops?|packets?|bags?)"""
)
_MAKER = phrases(
    """ask the (company|maker|brand|manufacturer) | (processed|made|packed|milled) (somewhere|anywhere|where) |
        (milled|made|packed|packs?|packaged|processed|manufactured|produced|bottled) ..
        (facility|facilities|factory|place|plant|line|lines|site|mill) | same
        (facility|factory|line|equipment|mill) | (packing|production|bottling) line | share* ..
        (line|lines|facility|factory|equipment|mill) | factory | (is|are|it|they) .. certified | certified
        (gluten|nut|vegan|kosher|halal|organic|free)? .. \\? | certified\\? | (gluten[ -]free|nut[
        -]free|vegan|kosher|halal|organic) certified | lab[ -]?tested | batch (number|code) |
        (get|gets|been|is|are) tested | (pork|beef|halal|kosher) .. (gelatin*|gelatine)? ?(in|based) |
        (gelatine?|rennet|marshmallows?) .. (pork|beef|halal|kosher|vegetarian) | lot number | accurate to |
        tested for | recall(ed|s)? | change* (suppliers?|the recipe|formula*|ingredients) ..
        (brand|they|company) | (does|do|is|are|has|have) (the|that|this|your|those|these) ..
        (brand|packet|sprinkles?|spread|colou?rants?|colou?rings?|chips|jar|tub|bottle|powder (you|u)|mix|one
        you|ones you|vanilla (you|in)) ..
        (contain*|have|has|nuts?|gluten|soya?|dairy|free|change*|made|safe|vegan|kosher|halal|certified) | brand
        .. (contain*|have|has|made|free|nuts?|gluten|safe|certified|share*) | that blue packet | (what|which)
        (brand|make|model|company) | (you used|you use|u used|you showed|in (your|the|this) (video|vid|clip)) ..
        (contain*|nuts?|gluten|soya?|dairy|free|certified|vegan|halal|kosher) | (contain*|free from|soya?
        in|nuts? in|gluten in|dairy in) .. (you used|you use|u used|your brand) | (does|is|are) .. (you|u)
        (use|used|using|melt|bake with|show) .. (have|has|contain*|gluten|nuts?|soya?|dairy|certified|halal|kosher|
        vegan|free) |
        where .. (brand|company|they) .. (source*|get|grow*|make*)"""
)


_REPLACED = phrases("replac* | substitut* | instead | swap* | one (to|for) one | alternatives? | sub")


def legal_asked(sentence: str) -> bool:
    """Whether a question is for the law or a label authority.

    >>> legal_asked("do I need to list allergens if I sell these"), legal_asked("Legal question: is it a scone?")
    (True, False)
    """
    return bool(_LEGAL.search(_IN_JEST.sub("", sentence)))


def maker_asked(sentence: str) -> bool:
    """Whether only the maker of a product can know.

    >>> maker_asked("is that oat flour milled on the same line as wheat?")
    True
    """
    return bool(_MAKER.search(sentence)) and not _REPLACED.search(sentence)
