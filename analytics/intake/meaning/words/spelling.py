"""The ways in which one heading is spelt, brought together."""

import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache

from analytics.intake.meaning.words.units import CLOCK_WORDS, FILLERS, NUMBER_WORDS, UNITS
from analytics.money import is_currency

LETTERS = str.maketrans({"œ": "oe", "æ": "ae", "ø": "o", "ł": "l", "đ": "d"})
SYMBOLS = {"%": "percent", "‰": "promille", "€": "eur", "£": "gbp", "$": "usd"}
NUMBER_SIGN = re.compile(r"\bn\s*\.?\s*[º°]|№|#", re.IGNORECASE)
BRACKET = re.compile(r"\s*[(\[]([^()\[\]]*)[)\]]\s*$")
UNIT_SIGN = re.compile(r"(?:[\s_-]+(?:in|en))?[\s_-]*[%‰€£$]\s*$|[\s_-]+(?:in|en)[\s_-]+(?:eur|euro|g|gr|gram|min)\s*$")
RUN = re.compile(r"([\s_-])\1+")
BETWEEN = re.compile(r"[\W_]+")
DATE_FORMAT = re.compile(r"(?=.*m)(?=.*[djgta])[djgtmya]{6,8}")
ENDING = re.compile(r"(nummer|number|numero)$")


@dataclass(frozen=True)
class Spelling:
    """key: the words alone, run together. units: what stands behind them. clear: whether all in brackets is known."""

    key: str
    units: frozenset[str]
    clear: bool


def plain(text: str) -> str:
    """Lower case without accents; runs of one blank or dash as one."""
    text = RUN.sub(r"\1", text)
    if text.isascii():
        return text.casefold()
    apart = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", text).casefold())
    return "".join(sign for sign in apart if not unicodedata.combining(sign)).translate(LETTERS)


@lru_cache(maxsize=8192)
def folded(heading: str) -> str:
    """A heading without case, accents and units at its end; blanks, hyphens and other signs as single underscores."""
    text, shorter = heading, _folded_once(heading)
    while shorter != text:
        text, shorter = shorter, _folded_once(shorter)
    return text


def _folded_once(text: str) -> str:
    text = NUMBER_SIGN.sub("no ", text)
    return BETWEEN.sub("_", UNIT_SIGN.sub("", BRACKET.sub("", plain(text)))).strip("_")


@lru_cache(maxsize=8192)
def spelling(heading: str) -> Spelling:
    """The heading's words apart from its units, so that different spellings of one heading are equal."""
    text = plain(NUMBER_SIGN.sub(" no ", heading)).strip()
    units: set[str] = set()
    clear = True
    while found := BRACKET.search(text):
        text, inner = text[: found.start()], found[1]
        known = _units(inner)
        if known is None and found.start() and not found[0][0].isspace() and len(inner) <= 3:
            text += inner  # the ending of a word, as in Client(e)
        else:
            units |= known or set()
            clear = clear and known is not None
    tokens, behind = _without_units(_tokens(text))
    return Spelling(_key(tokens), frozenset(units | behind), clear)


def _key(tokens: list[str]) -> str:
    """The tokens run together without the words that mean nothing by themselves."""
    telling = [token for token in tokens[:-1] if token not in FILLERS] + tokens[-1:]
    numbered = ["nr" if token in NUMBER_WORDS else token for token in telling]
    return ENDING.sub("nr", "".join(numbered))


def _tokens(text: str) -> list[str]:
    for sign, word in SYMBOLS.items():
        text = text.replace(sign, f" {word} ")
    return [token for token in BETWEEN.split(text) if token]


def _units(inner: str) -> set[str] | None:
    """The units in a pair of brackets; None where anything else stands there too."""
    tokens = _tokens(inner)
    if DATE_FORMAT.fullmatch("".join(tokens)):
        return {"date_format"}
    if tokens and CLOCK_WORDS.issuperset(tokens):
        return {"clock"}
    rest, units = _without_units(tokens, keep=0)
    if len(rest) == 1 and is_currency(rest[0].upper()):
        return units | {rest[0].upper()}
    return units if not rest or rest in (["in"], ["en"]) else None


def _without_units(tokens: list[str], keep: int = 1) -> tuple[list[str], set[str]]:
    """The tokens without units behind them or a sign before them, and those units; at least `keep` tokens stay."""
    units: set[str] = set()
    if len(tokens) > keep and tokens[0] in SYMBOLS.values():
        units.add(_unit_words()[(tokens[0],)])
        tokens = tokens[1:]
    while (length := _unit_length(tokens, keep)) > 0:
        units.add(_unit_words()[tuple(tokens[-length:])])
        tokens = tokens[:-length]
        if len(tokens) > 1 and tokens[-1] in ("in", "en"):
            tokens = tokens[:-1]
    return tokens, units


def _unit_length(tokens: list[str], keep: int) -> int:
    """How many of the last tokens name a unit, the longest first; 0 where none do."""
    longest = min(3, len(tokens) - keep)
    return next((n for n in range(longest, 0, -1) if tuple(tokens[-n:]) in _unit_words()), 0)


@cache
def _unit_words() -> dict[tuple[str, ...], str]:
    """By its tokens: the unit each word stands for."""
    return {tuple(_tokens(plain(word))): unit for unit, listed in UNITS.items() for word in listed.split("|")}
