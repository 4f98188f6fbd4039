"""The asker's region of measure and label, from what they say and how they say it."""

from __future__ import annotations

import re

from qa.text.phrases import as_pattern

# Said outright.
_SAID = {
    "AU": """australia* | aussie* | down under | melbourne | sydney | brisbane | perth | adelaide | tasmania |
        queensland | g'day | in oz | yank (tablespoons?|cups?) or ours""",
    "US": """americans? here | american (label|cups? here|bag|brand|store) | in america | in the states | yankee |
        texas | california | ohio | florida | minnesota | dayton | amarillo | new york | chicago | oregon |
        colorado | michigan | denver | tennessee | alabama | kentucky | arizona | seattle | boston | wisconsin |
        missouri | iowa | utah""",
    "CA": """canada | canadian | ontario | toronto | alberta | quebec | saskatchewan | vancouver | nova scotia |
        manitoba""",
    "NZ": "new zealand | aotearoa | kiwi here | auckland | christchurch",
    "IE": "ireland | irish here | dublin | galway",
    "UK": """england | scotland | scottish | wales | welsh | britain | british | brits? | london | yorkshire | kent
        | devon | cornwall | manchester | glasgow | edinburgh | liverpool | across the pond""",
    "JP": "japan | japanese | tokyo | osaka | kyoto",
    "EU": """germany | german here | france | italy | spain | netherlands | dutch here | austria | vienna | sweden |
        norway | denmark | finland | poland | portugal | belgium | switzerland | europe | european | berlin |
        paris | madrid""",
    "IN": "india | indian here | mumbai | delhi | bangalore | chennai | kolkata",
    "ZA": "south africa* | johannesburg | cape town | durban",
}
# Abbreviations count in capitals only, and "US" only beside a word that shows it is no shouted pronoun.
_SHORT = (
    r"""(?P<US_>U\.S\.|\bUSA\b|(?<=\bthe )US\b|\bUS\b(?=
        (?:label|cup|table|tbsp|tea|bag|store|recipe|measure|market|customary)))"""
    r"|(?P<UK_>\bU\.?K\b|\bGB\b|[( ]uk[) ,.])|(?P<AU_>\bin AU\b|\bAUS\b)|(?P<NZ_>\bNZ\b)|(?P<EU_>\bEU\b)"
)
# Only hinted at by measures and words that one side of the ocean uses (common practice, no source).
_HINTED = {
    "AU": "woolies | twenty mil",
    "UK": """gas mark | caster sugar | self-?raising | self raising | bicarb | icing sugar | greaseproof | double
        cream | wholemeal | plain flour | strong (white|bread) flour | cling ?film | treacle | telly""",
    "US": """\\d+ ?°? ?f | degrees f | fahrenheit | sticks? of butter | confectioners'? | all-?purpose | half and half
        | heavy cream | self rising | kosher salt | ap flour | plastic wrap | drug ?store""",
}


def _either(table: dict[str, str]) -> re.Pattern[str]:
    groups = (rf"(?P<{region}>\b(?:{as_pattern(written)})\b)" for region, written in table.items())
    return re.compile("|".join(groups), re.IGNORECASE)


_LOOKS = (_either(_SAID), re.compile(_SHORT), _either(_HINTED))


def region_of(text: str) -> str:
    """The region a text names or hints at, or ''.

    >>> [region_of(t) for t in ("here in Oz", "my packet (uk) says 14 g", "2 sticks of butter?", "tell us")]
    ['AU', 'UK', 'US', '']
    """
    found = next((m for look in _LOOKS if (m := look.search(text))), None)
    return (found.lastgroup or "").rstrip("_") if found else ""
