"""What the values of one column are: moments, days, clock times, amounts, words, names, numbers that count up."""

import re
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

import numpy as np

from analytics.intake.cells.casts import folded_word
from analytics.intake.cells.values import (
    Dialect,
    canonical_minutes,
    canonical_moment,
    canonical_number,
    date_order,
    decimal_sign,
)
from analytics.intake.meaning.words import VALUES

MAIL = re.compile(r"[^@\s]+@[^@\s]+\.[^@\s]+")
PHONE = re.compile(r"[+(]?\d[\d\s()/.\-]{6,}")
LETTERS = re.compile(r"[^\W\d_]")
PLAIN = re.compile(r"[€$£]?\s*-?\d+[.,]\d{1,2}\s*[€$£]?")
DIGIT = re.compile(r"\d")
ISO_MOMENT = re.compile(r"(?:19|2[01])\d\d-\d\d-\d\d(?:[ T]\d\d:\d\d(?::\d\d)?)?", re.ASCII)
CODE_OR_WORD = re.compile(r"[A-Za-z](?=[\d\W_])|\D*(?:\d\D*){0,2}$")
"""How no day begins, a letter alone, and fewer digits than a day has."""
CLOCK = re.compile(
    r"(?:[01]?\d|2[0-3])[:.h][0-5]\d(?::[0-5]\d)?(?: ?[ap]\.? ?m\.?)?|\d{1,2} ?[ap]\.? ?m\.?", re.IGNORECASE
)
BARE_DAY = re.compile(r"1899-12-3[01][ T](\d\d:\d\d)(:\d\d)?")
ANY_DAY = "2000-01-01"
DOT = Dialect(None, ".", "UTC")
NEARLY_ALL = 0.95


@dataclass(frozen=True)
class Profile:
    """The cells of one column, row by row, as text without blanks around them ("" where there is nothing)."""

    cells: tuple[str, ...]

    @cached_property
    def counts(self) -> Counter[str]:
        counts = Counter(self.cells)
        del counts[""]
        return counts

    @property
    def filled(self) -> int:
        return self.counts.total()

    @property
    def different(self) -> int:
        return len(self.counts)

    @property
    def fill(self) -> float:
        return self.filled / max(len(self.cells), 1)

    @property
    def unique(self) -> bool:
        """Whether no value stands twice, of two values and more."""
        return self.different >= 2 and self.different >= self.filled * NEARLY_ALL

    def share(self, test: Callable[[str], object]) -> float:
        """The share of filled cells that pass; each different text is looked at once."""
        return sum(count for text, count in self.counts.items() if test(text)) / max(self.filled, 1)

    def reaches(self, least: float, test: Callable[[str], object]) -> bool:
        """Whether share(test) is at least this much, without a look at more texts than that takes."""
        failing, most = 0, (1 - least) * self.filled + 0.5
        for text, count in self.counts.items():
            if not test(text):
                failing += count
                if failing > most:
                    return False
        return (self.filled - failing) / max(self.filled, 1) >= least

    @cached_property
    def codes_of_cells(self) -> "np.ndarray":
        """Of each row a number that stands for its text, 0 where there is nothing."""
        known = {text: number for number, text in enumerate(self.counts, start=1)} | {"": 0}
        return np.fromiter((known[cell] for cell in self.cells), dtype=np.int64, count=len(self.cells))

    @cached_property
    def moments(self) -> dict[str, datetime]:
        """By text: the moment or day it says, read in the order that most of the column fits."""
        iso = {text: found for text in self.counts if (found := _iso(text))}
        texts = [text for text in self.counts if text not in iso and _may_be_moment(text)]
        return iso | _moments_in_words(texts)

    @cached_property
    def numbers(self) -> dict[str, float]:
        """By text: the number it says."""
        texts = list(filter(DIGIT.search, self.counts))
        dialect = Dialect(None, decimal_sign(texts).decided or ".", "UTC")
        read = {text: canonical_number(text, dialect) for text in texts}
        return {text: float(found) for text, found in read.items() if found}

    @cached_property
    def durations(self) -> dict[str, float]:
        read = {text: canonical_minutes(text, DOT) for text in filter(DIGIT.search, self.counts)}
        return {text: float(found) for text, found in read.items() if found}

    @cached_property
    def clocks(self) -> dict[str, str]:
        """By text: the time of day it says, as HH:MM."""
        bare = {text: match[1] for text in self.counts if (match := BARE_DAY.fullmatch(text))}
        timed = {text: f"{ANY_DAY} {text}" for text in self.counts if CLOCK.fullmatch(text)}
        read = {text: canonical_moment(joined, Dialect("dmy", ".", "UTC")) for text, joined in timed.items()}
        return bare | {text: found[11:16] for text, found in read.items() if found}

    @cached_property
    def kind(self) -> str:
        """moment, day, clock, number, mail, phone, text or nothing."""
        if not self.filled:
            return "nothing"
        if self.reaches(NEARLY_ALL, _may_be_clock) and self.reaches(NEARLY_ALL, self.clocks.__contains__):
            return "clock"
        if self.reaches(NEARLY_ALL, _may_be_moment) and self.reaches(NEARLY_ALL, self.moments.__contains__):
            timed = self.share(lambda text: text in self.moments and _timed(self.moments[text]))
            return "moment" if timed > 0.5 else "day"
        if self.reaches(NEARLY_ALL, MAIL.fullmatch):
            return "mail"
        if self.reaches(NEARLY_ALL, lambda text: PHONE.fullmatch(text) and sum(map(str.isdigit, text)) >= 8):
            return "phone"
        return "number" if self.reaches(NEARLY_ALL, _is_number) else "text"

    @cached_property
    def whole(self) -> bool:
        return self.kind == "number" and all(number == int(number) for number in self.numbers.values())

    @cached_property
    def values(self) -> list[float]:
        """The numbers of all filled cells, in order of size."""
        return sorted(value for text, value in self.numbers.items() for _ in range(self.counts[text]))

    @property
    def median(self) -> float:
        return self.values[len(self.values) // 2] if self.values else 0.0

    @property
    def nought(self) -> float:
        """The share of all cells that are empty or 0."""
        zero = sum(count for text, count in self.counts.items() if self.numbers.get(text) == 0)
        return (zero + len(self.cells) - self.filled) / max(len(self.cells), 1)

    @cached_property
    def names(self) -> bool:
        """Whether it holds words without digits, as names are."""
        return (
            self.kind == "text" and self.share(lambda text: not re.search(r"\d", text) and LETTERS.search(text)) > 0.9
        )

    @cached_property
    def codes(self) -> bool:
        """Whether it holds numbers or short signs without blanks, as codes are."""
        short = self.share(lambda text: len(text) <= 20 and not re.search(r"\s", text) and re.search(r"\d", text))
        return self.kind in ("number", "text", "phone") and short >= NEARLY_ALL and not self._decimals

    @cached_property
    def _decimals(self) -> bool:
        return self.share(lambda text: re.search(r"\d[.,]\d\d?$|[€$£%]", text)) > 0.1

    @cached_property
    def money(self) -> bool:
        return self.kind == "number" and (self._decimals or self.median >= 1)

    def speaks(self, column: str) -> float:
        """The share of cells that are words for values of the column (a key of words.VALUES)."""
        known = _known(column)
        return self.share(lambda text: folded_word(text) in known)


def _plain(text: str) -> bool:
    """An amount or a short number, which is no day however it is read."""
    return len(text) < 6 or PLAIN.fullmatch(text) is not None


def _iso(text: str) -> datetime | None:
    """What is written as the contract writes it."""
    if not ISO_MOMENT.fullmatch(text):
        return None
    try:
        return datetime.fromisoformat(text)
    except ValueError:
        return None


def _moments_in_words(texts: list[str]) -> dict[str, datetime]:
    order = date_order(texts)
    dialect = Dialect(order.decided or next(iter(order.possible), "dmy"), ".", "UTC")
    read = {text: canonical_moment(text, dialect) for text in texts}
    return {text: datetime.fromisoformat(found) for text, found in read.items() if found}


def _may_be_moment(text: str) -> bool:
    """False only where no order of days reads it as one."""
    return ISO_MOMENT.fullmatch(text) is not None or not (_plain(text) or CODE_OR_WORD.match(text))


def _may_be_clock(text: str) -> bool:
    return bool(CLOCK.fullmatch(text) or BARE_DAY.fullmatch(text))


def _is_number(text: str) -> bool:
    """By either decimal sign: which one it is changes what a text says, never whether it is a number."""
    return bool(DIGIT.search(text)) and canonical_number(text, DOT) is not None


def _timed(moment: datetime) -> bool:
    return bool(moment.hour or moment.minute)


_words: dict[str, frozenset[str]] = {}


def _known(column: str) -> frozenset[str]:
    if column not in _words:
        contract = VALUES[column]
        said = {folded_word(word) for words in contract.values() for word in words}
        _words[column] = frozenset(said | {folded_word(value) for value in contract})
    return _words[column]


def determines(given: Profile, told: Profile) -> float:
    """How far one column tells another: the share of rows, of values that stand twice and more, that hold the value
    most often told with theirs (a functional dependency where it is 1); 0 where no value stands twice."""
    filled = given.codes_of_cells > 0
    keys, values = given.codes_of_cells[filled], told.codes_of_cells[filled]
    if not keys.size:
        return 0.0
    pairs, together = np.unique(keys * (told.different + 1) + values, return_counts=True)
    rows, most = np.bincount(keys), np.zeros(given.different + 1, dtype=np.int64)
    np.maximum.at(most, pairs // (told.different + 1), together)
    often = rows > 1
    return float(most[often].sum() / rows[often].sum()) if often.any() else 0.0


def included(part: Profile, whole: Profile) -> float:
    """The share of cells whose text stands in the other column (an inclusion dependency where it is 1)."""
    there = {fold(text) for text in whole.counts}
    return part.share(lambda text: fold(text) in there)


def fold(text: str) -> str:
    return " ".join(text.casefold().split())
