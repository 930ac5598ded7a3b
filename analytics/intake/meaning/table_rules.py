"""Which table salon.toml says a file or sheet is: the rules under [tables].

A rule is a name as findings print it ("till.csv", "week 21.zip/till.csv", "till.xlsx#Tips") and the table to read it
as, "" to leave it out. `*` stands for any signs, case does not count, and a rule holds for a file in whatever folder or
archive it lies, and for all sheets of a workbook. Where several hold, one that names the sheet decides before one that
names the file, then the longest, so that a whole name goes before one with `*`.
"""

import re
import unicodedata
from collections.abc import Iterable
from functools import cache
from pathlib import PurePosixPath

from analytics.intake.reading.find import WORKBOOKS
from analytics.settings import Settings

ANY = "*"
LEFT_OUT = ""
SHEET_OF = re.compile(rf"(.*?(?:{'|'.join(map(re.escape, WORKBOOKS))}))#(.*)", re.IGNORECASE | re.DOTALL)
NUMBER = re.compile(r"[-_. (]*\d+[-_. )]*")  # the part of a name that changes from month to month
FEWEST_LETTERS = 2  # that must be left of a name for it to be like another

Names = tuple[frozenset[str], frozenset[str]]
"""What a file is called, with and without its folder; and the same with the sheet behind it, where it is one."""


def told_table(name: str, settings: Settings) -> str | None:
    """The table the file or sheet is said to be, LEFT_OUT where it shall not be read, None where nothing is said."""
    rule = rule_for(name, settings)
    return None if rule is None else settings.tables[rule]


def constants_for(name: str, settings: Settings) -> dict[str, str]:
    """What [constants.<file>] says of every row of the file or sheet; rules are names as under [tables]."""
    names = _names(name)
    holding = sorted((rule for rule in settings.constants if _holds(rule, names)), key=lambda rule: _says(rule, names))
    return {column: value for rule in holding for column, value in settings.constants[rule].items()}


def rule_for(name: str, settings: Settings) -> str | None:
    """The rule that decides for the file or sheet; None where none holds for it."""
    if not settings.tables:
        return None
    names = _names(name)
    holding = [rule for rule in settings.tables if _holds(rule, names)]
    return max(holding, key=lambda rule: _says(rule, names), default=None)


def leaves_out_file(name: str, settings: Settings) -> bool:
    """Whether nothing of the file shall be read, so that it need not even be opened."""
    of_sheets = [rule.partition("#")[0] for rule, table in settings.tables.items() if "#" in rule and table]
    return told_table(name, settings) == LEFT_OUT and not any(_holds(file, _names(name)) for file in of_sheets)


def idle_rules(names: Iterable[str], settings: Settings) -> list[str]:
    """The rules that hold for none of these files and sheets."""
    called = [_names(name) for name in names] if settings.tables else []
    return [rule for rule in settings.tables if not any(_holds(rule, each) for each in called)]


def named_like(name: str) -> str:
    """A rule for every file or sheet named like this one but for the numbers in it; the name itself where too little
    is left. A name without numbers stands for those that go on after it, as a second file of one name does."""
    file, sheet = _apart(name)
    path = PurePosixPath(PurePosixPath(file).name)
    stem = NUMBER.sub(ANY, path.stem)
    stem = re.sub(r"\*+", ANY, stem if ANY in stem else stem + ANY)
    if sum(map(str.isalpha, stem)) < FEWEST_LETTERS:
        return name
    return stem + path.suffix + ("" if sheet is None else f"#{sheet}")


def _apart(name: str) -> tuple[str, str | None]:
    """The file, and the sheet of it where the name says one."""
    found = SHEET_OF.fullmatch(name)
    return (found[1], found[2]) if found else (name, None)


def _names(name: str) -> Names:
    file, sheet = _apart(name)
    files = frozenset((file, PurePosixPath(file).name))
    return files, frozenset() if sheet is None else frozenset(f"{one}#{sheet}" for one in files)


def _holds(rule: str, names: Names) -> bool:
    return any(_pattern(rule).fullmatch(_spelt(name)) for group in names for name in group)


def _says(rule: str, names: Names) -> tuple[bool, int, int]:
    """How much the rule says: the sheet, then letters, then as few `*` as can be."""
    of_file = any(_pattern(rule).fullmatch(_spelt(name)) for name in names[0])
    return not of_file, len(rule.replace(ANY, "")), -rule.count(ANY)


@cache
def _pattern(rule: str) -> re.Pattern[str]:
    return re.compile(".*".join(map(re.escape, _spelt(rule).split(ANY))), re.DOTALL)


def _spelt(name: str) -> str:
    """A name as two spellings of it are compared: letters with accents may be written in two ways."""
    return unicodedata.normalize("NFC", name).casefold()
