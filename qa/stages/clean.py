"""Repair a comment's text: an ordered tuple of tiny named steps, each text in and text out, then name the language.

Most comments are plain text that needs none of it, so every step first looks whether there is anything to do.
"""

from __future__ import annotations

import html
import re
import unicodedata
from collections.abc import Callable, Sequence
from functools import cache
from typing import Any

from qa.records import Cleaned, Comment
from qa.text import word_set

# No comment that asks something is longer; the rest of a pasted book is not read. Characters.
LONGEST = 8_000
# The languages told apart; a longer list only finds rarer languages in short English texts.
LANGUAGES = (
    "ar", "bn", "cs", "da", "de", "el", "en", "es", "fa", "fi", "fr", "he", "hi", "hu", "id", "it", "ja", "ko", "nl",
    "no", "pl", "pt", "ro", "ru", "sv", "ta", "th", "tl", "tr", "uk", "ur", "vi", "zh",
)  # fmt: skip
# Words that almost only English has; a text with enough of them needs no further look.
_ENGLISH = word_set(
    """the and is are was were this that it its it's of with you your have has had can could would should will
    what how why when where which who i i'm i've my mine we they them not don't didn't can't does did do for from
    just so but if any anyone be been made make making like love loved thanks thank use used using instead than then
    there their too very really about out up get got one some these those please much many more think thought know
    wow yum yummy delicious great recipe looks look good amazing awesome flour sugar butter eggs egg bake baked
    baking bread cake cookies u ur lol omg yes no on at to in or an as by me he she his her all try tried grams cup
    cups hello hi fahrenheit celsius oven dough"""
)
# In a text of two languages: with one of these the English part asks.
_ASKS_IN_ENGLISH = word_set("can could what how why where when which who is are do does should would will has any")
# Words that give another language away in a text too short for the identifier.
_TELLTALE = {
    word: language
    for language, words in {
        "es": "gracias receta harina huevo huevos puedo hola cuánto cuanto azúcar hermoso delicioso rico rica qué",
        "pt": "obrigada obrigado farinha receita ovos açúcar posso muito bom você delícia amei",
        "fr": "merci bonjour farine oeuf oeufs œufs recette peut puis-je sucre combien délicieux je",
        "de": "danke mehl eier rezept kann ich zucker wieviel lecker hallo statt mit und geht",
        "it": "grazie farina uova ricetta posso zucchero buono ciao quanto",
        "nl": "bedankt meel eieren recept ik suiker hoeveel lekker dank",
        "hi": """kya hai hain nahi kaise kar sakte sakta bhai didi aap mein bahut accha maida ke ki ka bina ande dahi
        daal dal jagah chalega chalegi yaar mere paas doodh kitna kitni aur toh bana banane wala raha rahi garmi""",
        "tl": "salamat po pwede ba ano masarap sarap naman ang yung kasi nyan niyan sana ako bigay",
        "id": "terima kasih resepnya bisa tepung enak gula apa saya buat",
        "sw": "asante sana kwa tamu",
        "pl": "dziękuję mąki mąka przepis jajka cukier czy mogę",
        "tr": "teşekkürler un şeker yumurta çok güzel mı tarif",
    }.items()
    for word in words.split()
}
# Whether a text of few letters is English is decided on its words alone; the identifier needs about this many letters.
_LETTERS_NEEDED = 12
_SURE_OF_LANGUAGE = 0.75
# So many telling words of another language make a text of it, even if half of it is English.
_MIXED = 3

_MOJIBAKE = re.compile(r"[ÂÃÅâåæðïÐÑ‚€™�][^\x00-\x7f]")
_ENTITY = re.compile(r"&(?:#\d{1,7}|#[xX][0-9a-fA-F]{1,6}|[A-Za-z][A-Za-z0-9]{1,30});?")
_BREAK = re.compile(r"<(?:br|/?p|/?div|/?li)\s{0,5}/?>", re.IGNORECASE)
_TAG = re.compile(r"</?[A-Za-z][^<>\n]{0,300}>")
_CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufff9-\ufffb]")
_ZERO_WIDTH = re.compile("[\u00ad\u200b\u2060\ufeff]|(?<=[0-9A-Za-z])[\u200c\u200d](?=[0-9A-Za-z])")
_LOOKALIKE = re.compile("[\U0001d400-\U0001d7ff\uff01-\uff5e\ufb00-\ufb06]")
_QUOTES = str.maketrans(
    {"‘": "'", "’": "'", "ʼ": "'", "´": "'", "`": "'", "“": '"', "”": '"', "„": '"', "«": '"', "»": '"'}
)
_QUOTE = re.compile("[‘’ʼ´`“”„«»]")
_SPACES = re.compile(r"[^\S\n]{2,}|[^\S\n ]|[^\S\n]\n|\n[^\S\n]|\n{3,}")
_WORD = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)?")
_LINK_OR_NAME = re.compile(r"(?:https?://|www\.)\S{1,2000}|[@#]\w{1,60}", re.IGNORECASE)


def _shortened(text: str) -> str:
    return text if len(text) <= LONGEST else text[:LONGEST].rpartition(" ")[0] or text[:LONGEST]


def _without_mojibake(text: str) -> str:
    if not _MOJIBAKE.search(text):
        return text
    from ftfy import fix_encoding  # takes long to import and few texts need it

    return str(fix_encoding(text))


def _without_entities(text: str) -> str:
    for _ in range(2):  # some exports escape twice
        if not _ENTITY.search(text):
            break
        text = html.unescape(text)
    return text


def _without_tags(text: str) -> str:
    return _TAG.sub(" ", _BREAK.sub("\n", text)) if "<" in text else text


def _without_controls(text: str) -> str:
    return _CONTROL.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))


def _without_zero_width(text: str) -> str:
    return text if text.isascii() else _ZERO_WIDTH.sub("", text)


def _plain_letters(text: str) -> str:
    if text.isascii():
        return text
    return unicodedata.normalize("NFC", _LOOKALIKE.sub(lambda m: unicodedata.normalize("NFKC", m.group()), text))


def _plain_quotes(text: str) -> str:
    return text.translate(_QUOTES) if not text.isascii() or "`" in text else text


def _single_spaces(text: str) -> str:
    text = text.strip()
    if not _SPACES.search(text):
        return text
    lines = (" ".join(line.split()) for line in text.split("\n"))
    return re.sub(r"\n{3,}", "\n\n", "\n".join(lines))


STEPS: tuple[tuple[str, Callable[[str], str]], ...] = (  # the order matters: entities before the tags they may hide
    ("shortened", _shortened),
    ("mojibake", _without_mojibake),
    ("entities", _without_entities),
    ("tags", _without_tags),
    ("controls", _without_controls),
    ("zero width", _without_zero_width),
    ("letters", _plain_letters),
    ("quotes", _plain_quotes),
    ("spaces", _single_spaces),
)


def clean(comments: Sequence[Comment]) -> list[Cleaned]:
    """Repaired text and language of each comment, with the names of the steps that changed something.

    Shouting is kept, since it says something, and noted among the steps.

    >>> clean([Comment("1", "I&#39;m   out of <b>FLAX</b>â€¦")])[0].text
    "I'm out of FLAX …"
    >>> clean([Comment("2", "MY LOAF IS GREY, HELP")])[0].steps
    ('shouting',)
    """
    return [_cleaned(comment) for comment in comments]


def _cleaned(comment: Comment) -> Cleaned:
    text, changed = comment.text, []
    for name, step in STEPS:
        repaired = step(text)
        if repaired != text:
            changed.append(name)
            text = repaired
    if _shouts(text):
        changed.append("shouting")
    return Cleaned(comment.id, text, language_of(text), tuple(changed))


def _shouts(text: str) -> bool:
    """Whether most of a text of some length is in capitals."""
    if text.islower() or len(text) < 8:
        return False
    capitals = sum(c.isupper() for c in text)
    return capitals > 7 and capitals > 0.7 * sum(c.isalpha() for c in text)


def language_of(text: str) -> str:
    """ISO 639-1 code of a text's language; 'und' without words or where a short text could be of several.

    >>> texts = ("what can i use instead of eggs", "¿Puedo usar harina de avena en vez de trigo?", "😍😍 10/10")
    >>> [language_of(text) for text in texts]
    ['en', 'es', 'und']
    """
    plain = _LINK_OR_NAME.sub(" ", text[:2_000]).lower()
    words = _WORD.findall(plain)
    if not words:
        return "und"
    english = sum(word in _ENGLISH for word in words)
    told = [_TELLTALE[word] for word in words if word in _TELLTALE]
    if len(told) >= _MIXED and _ASKS_IN_ENGLISH.isdisjoint(words):
        return max(sorted(set(told)), key=told.count)
    if english >= 2 and english >= 0.3 * len(words):
        return "en"
    if len(told) > english and len(words) < 8:
        return max(sorted(set(told)), key=told.count)
    if plain.isascii() and sum(map(len, words)) < _LETTERS_NEEDED:
        return "en"
    return _identified(plain)


def _identified(text: str) -> str:
    first = next(filter(str.isalpha, text), "")
    if not first:
        return "und"
    language, sureness = _identifier().classify(text)
    latin = unicodedata.name(first, "").startswith("LATIN")
    if language == "en" or sureness >= _SURE_OF_LANGUAGE or not latin:
        return str(language)
    return "en" if text.isascii() or any(word in _ENGLISH for word in _WORD.findall(text)) else "und"


@cache
def _identifier() -> Any:
    """Load the language identifier with the model it ships; on first use because that takes about half a second."""
    from py3langid.langid import MODEL_FILE, LanguageIdentifier

    identifier = LanguageIdentifier.from_model_file(MODEL_FILE, norm_probs=True)
    identifier.set_languages(LANGUAGES)
    return identifier
