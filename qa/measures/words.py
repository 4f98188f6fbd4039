"""The words and signs people use for numbers, units, regions and manners of filling; common practice, no source.

Pieces are written as regular expressions without capturing groups. Letters are matched in either case, but for the
short forms in which case carries meaning (T is a tablespoon, t a teaspoon).
"""

from __future__ import annotations

# What people write, by the unit it means. Bare measures ('tbsp', 'cup') still need a region; household ones ('stick',
# 'pinch') need a rule or a question. Longer spellings come first where one begins another.
SPELLINGS: dict[str, str] = {
    "fl_oz": r"fl(?:uid|\.)?[ -]?(?:ounces?|oz)\.?",
    "tbsp": r"(?:table|tabel|tabl)[ -]?spoons?(?:ful+s?)?|tablespoonsful+|tbsp(?:n?s?|ful)\.?"
    r"|tblsp?n?s?\.?|tbl[es]?\.?|tbs?\.?",
    "tsp": r"tea[ -]?spoons?(?:ful+s?)?|teaspoonsful+|tspn?s?\.?|teasp\.?",
    "dessertspoon": r"dessert[ -]?spoons?(?:ful+s?)?|dsp\.?|dstspn?s?\.?",
    "cup": r"cups?(?:ful+s?)?|cupsful+",
    "pint": r"pints?|pts?\.?",
    "quart": r"quarts?|qts?\.?",
    "gallon": r"gallons?|gal\.?",
    "gill": r"gills?",
    "kg": r"kilo(?:gram(?:me)?)?s?|kgs?",
    "mg": r"milligram(?:me)?s?|mgs?",
    "g": r"gram(?:me)?s?|gra?ms|gms?|grs?|g",
    "oz": r"ounces?|ozs?\.?",
    "lb": r"pounds?|lbs?\.?",
    "mL": r"milli-?lit(?:er|re)s?|mls?",
    "dL": r"deci-?lit(?:er|re)s?|dls?",
    "cL": r"centi-?lit(?:er|re)s?|cls?",
    "L": r"lit(?:er|re)s?|ltrs?|l",
    "min": r"minutes?|mins?\.?",
    "h": r"hours?|hrs?\.?|h",
    "s": r"seconds?|secs?\.?",
    "day": r"days?",
    "week": r"weeks?|wks?",
    "month": r"months?",
    "year": r"years?|yrs?",
    "percent": r"%|per ?cent(?:age)?|pct\.?",
    "kcal": r"kcals?|calories?|cals?",
    "kJ": r"kilojoules?|kjs?",
    "degC": r"celsius|centigrade|degc|℃",
    "degF": r"fahrenheit|degf|℉",
    "cm": r"centi-?met(?:er|re)s?|cms?",
    "mm": r"milli-?met(?:er|re)s?|mms?",
    "inch": r"inch(?:es)?|ins|[\"”″]",
    "each": r"each|pieces?|pcs?\.?",
    "stick": r"sticks?",
    "pinch": r"pinch(?:es)?",
    "dash": r"dash(?:es)?",
    "smidgen": r"smidgens?|smidges?",
    "drop": r"drops?",
    "splash": r"splash(?:es)?",
    "handful": r"hand-?ful+s?",
    "knob": r"knobs?",
    "dollop": r"dollops?",
    "scoop": r"scoops?",
    "packet": r"packets?|packages?|packs?|pkts?\.?|pkgs?\.?|sachets?|envelopes?",
    "tin": r"tins?|cans?",
    "jar": r"jars?",
    "tub": r"tubs?",
    "clove": r"cloves?",
    "slice": r"slices?",
    "spoon": r"spoons?(?:ful+s?)?|spoonsful+",
}  # fmt: skip
# Single letters, only after a figure; which is meant depends on case and size (see parse.py).
LETTERS = "TtCcFf"
# Names of the registry that people of the trade type as they stand, e.g. in knowledge ("1 us_tbsp").
REGISTRY_NAMES = r"(?:us|us_label|metric|au|imperial|jp)_(?:tbsp|tsp|cup|fl_oz|oz|pint|quart|gallon|gill|go)"

# Words before a measure that name whose measure it is, by the prefix of the registry.
REGIONS: dict[str, str] = {
    "us_label": r"us label|label",
    "us": r"u\.?s\.?a?\.?|american",
    "au": r"au|aus|aussie|australian",
    "jp": r"jp|japan(?:ese)?",
    "imperial": r"imperial|imp\.?",
    "metric": r"metric|nz|new zealand|canadian|ca|european|eu",
    "uk": r"u\.?k\.?|british|english|irish",
}  # fmt: skip

MANNERS: dict[str, str] = {
    "heaped": r"heap(?:ed|ing)|round(?:ed|ing)|generous|big|overflowing|piled(?: up)?|good",
    "scant": r"scant|scanty|shy|skimpy",
    "level": r"level(?:l?ed)?(?: off)?|flat",
    "packed": r"(?:(?:firmly|tightly|well|loosely|lightly)[ -])?packed",
    "sifted": r"sifted|sieved",
    "spooned": r"spooned(?:(?:,| and| &|,? then) level+ed)?",
    "dipped": r"dipped|scooped",
}  # fmt: skip

VULGAR: dict[str, float] = {
    "½": 1 / 2, "⅓": 1 / 3, "⅔": 2 / 3, "¼": 1 / 4, "¾": 3 / 4, "⅕": 1 / 5, "⅖": 2 / 5, "⅗": 3 / 5, "⅘": 4 / 5,
    "⅙": 1 / 6, "⅚": 5 / 6, "⅐": 1 / 7, "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8, "⅑": 1 / 9, "⅒": 1 / 10,
}  # fmt: skip
NUMBER_WORDS: dict[str, float] = {
    "a": 1.0, "an": 1.0, "one": 1.0, "two": 2.0, "three": 3.0, "four": 4.0, "five": 5.0, "six": 6.0, "seven": 7.0,
    "eight": 8.0, "nine": 9.0, "ten": 10.0, "eleven": 11.0, "twelve": 12.0, "fifteen": 15.0, "twenty": 20.0,
    "thirty": 30.0, "forty": 40.0, "fifty": 50.0, "sixty": 60.0, "ninety": 90.0, "hundred": 100.0,
    "a hundred": 100.0, "a dozen": 12.0, "half a dozen": 6.0,
}  # fmt: skip
# Ranges that a vague word stands for: value, low, high.
VAGUE: dict[str, tuple[float, float, float]] = {"couple": (2.0, 2.0, 3.0), "few": (3.0, 2.0, 5.0)}
PARTS: dict[str, float] = {"half": 1 / 2, "third": 1 / 3, "quarter": 1 / 4, "fourth": 1 / 4, "eighth": 1 / 8}
