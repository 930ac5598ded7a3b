"""Text from data that must not act: not in a terminal, not in a spreadsheet."""

import re

AMOUNT = re.compile(r"\s*[-+]?[0-9]+([.,][0-9]+)*\s*")  # a number written as text starts no formula
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "\0", "＝", "＋", "－", "＠")
UNSEEN = re.compile(r"^[\s\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]+")  # blanks and signs that nobody sees
UNSAFE = re.compile(r"[\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")
QUOTE, SPLITS = '"', re.compile(r'[",;\t|\r\n]')


def visible(text: str) -> str:
    """The text with signs that a terminal would act on written out: no export moves the cursor or the clipboard."""
    return UNSAFE.sub(lambda sign: f"\\x{ord(sign[0]):02x}", text)


def guarded(text: str) -> str:
    """The text as a cell that begins no formula: an apostrophe before what would (OWASP, CSV injection)."""
    starts = text.lstrip(" \u00a0").startswith(FORMULA_STARTS) or UNSEEN.sub("", text).startswith(FORMULA_STARTS)
    return f"'{text}" if starts and not AMOUNT.fullmatch(text) else text


def csv_line(cells: list[str]) -> str:
    """A line of RFC 4180 with CR LF; a cell is quoted where a separator of any spreadsheet's default could split it."""
    if cells == [""]:
        return '""\r\n'  # an empty line would be no row
    return ",".join(_quoted(cell) for cell in cells) + "\r\n"


def _quoted(cell: str) -> str:
    return f'"{cell.replace(QUOTE, QUOTE * 2)}"' if SPLITS.search(cell) else cell
