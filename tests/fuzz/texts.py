"""Texts spoilt at random, cell by cell, line by line and letter by letter."""

import random
from collections.abc import Callable

from dialects.writer import Dialect

NASTY = (
    "", " ", '"', '""', "'", "\\", "\n", "\r", "\x00", "\ufeff", "\u2028", "\u202e", "\x1f", "\x1a", "\x85", "=1+1",
    "-", "NaN", "inf", "1e999", "-1", "0", "99999999999999999999999999", "1.234", "1,234", "0.00005", "½", "²", "٣",
    "％", "31/02/2026", "0000-00-00", "9999-12-31 23:59", "2026-03-29 02:30", "12/13/14", "45730.5", "24:00", "PT1H",
    "1899-12-30", "NULL", "n/a", "#DIV/0!", "#REF!", "Total", "sep=;", "L1", "L1 + L5", "L1/L5", "a" * 300, "€",
    "ß" * 90, "x" * 70_000, "{0}", "%s", "{file}", "Robert'); DROP TABLE bookings;--", "../../x.csv", "\ud7ff", "👩‍🦰",
)  # fmt: skip


def texts_of(drawn: random.Random, content: bytes, dialect: Dialect) -> bytes:
    """The file with its text spoilt in one of many ways."""
    text = content.decode(dialect.encoding, "replace")
    spoilt = drawn.choice(SPOIL)(drawn, text, dialect.delimiter)
    return spoilt.encode(dialect.encoding, "replace")


def a_place(drawn: random.Random, length: int) -> int:
    return drawn.randrange(length) if length else 0


def insert_nasty(drawn: random.Random, text: str, _: str) -> str:
    at = a_place(drawn, len(text))
    return text[:at] + drawn.choice(NASTY) + text[at:]


def replace_cell(drawn: random.Random, text: str, delimiter: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    cells = lines[at].split(delimiter)
    cells[a_place(drawn, len(cells))] = drawn.choice(NASTY)
    lines[at] = delimiter.join(cells)
    return "\n".join(lines)


def empty_column(drawn: random.Random, text: str, delimiter: str) -> str:
    lines = [line.split(delimiter) for line in text.split("\n")]
    column = a_place(drawn, max(map(len, lines)))
    keep_heading = drawn.random() < 0.7
    for cells in lines[1 if keep_heading else 0 :]:
        if column < len(cells):
            cells[column] = drawn.choice(NASTY) if drawn.random() < 0.2 else ""
    return "\n".join(delimiter.join(cells) for cells in lines)


def swap_columns(drawn: random.Random, text: str, delimiter: str) -> str:
    lines = [line.split(delimiter) for line in text.split("\n")]
    widest = max(map(len, lines))
    one, other = a_place(drawn, widest), a_place(drawn, widest)
    below = 1 if drawn.random() < 0.5 else 0
    for cells in lines[below:]:
        if max(one, other) < len(cells):
            cells[one], cells[other] = cells[other], cells[one]
    return "\n".join(delimiter.join(cells) for cells in lines)


def double_column(drawn: random.Random, text: str, delimiter: str) -> str:
    lines = [line.split(delimiter) for line in text.split("\n")]
    column = a_place(drawn, len(lines[0]))
    return "\n".join(delimiter.join([*cells, *cells[column : column + 1]]) for cells in lines)


def drop_column(drawn: random.Random, text: str, delimiter: str) -> str:
    lines = [line.split(delimiter) for line in text.split("\n")]
    column = a_place(drawn, len(lines[0]))
    return "\n".join(delimiter.join(cells[:column] + cells[column + 1 :]) for cells in lines)


def cut_lines(drawn: random.Random, text: str, _: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    return "\n".join(lines[:at] + lines[at + drawn.randint(1, 6) :])


def double_lines(drawn: random.Random, text: str, _: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    return "\n".join(lines[: at + drawn.randint(1, 6)] + lines[at:])


def shuffle_lines(drawn: random.Random, text: str, _: str) -> str:
    lines = text.split("\n")
    drawn.shuffle(lines)
    return "\n".join(lines)


def cut_line_short(drawn: random.Random, text: str, _: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    lines[at] = lines[at][: a_place(drawn, len(lines[at]))]
    return "\n".join(lines)


def join_lines(drawn: random.Random, text: str, _: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    return "\n".join([*lines[:at], "".join(lines[at : at + 2]), *lines[at + 2 :]])


def add_quotes(drawn: random.Random, text: str, _: str) -> str:
    for _number in range(drawn.randint(1, 5)):
        at = a_place(drawn, len(text))
        text = text[:at] + '"' + text[at:]
    return text


def quote_a_line(drawn: random.Random, text: str, _: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    lines[at] = f'"{lines[at]}"'
    return "\n".join(lines)


def change_delimiter(drawn: random.Random, text: str, delimiter: str) -> str:
    other = drawn.choice(",;\t|:^~ ")
    if drawn.random() < 0.5:
        return text.replace(delimiter, other)
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    lines[at] = lines[at].replace(delimiter, other)
    return "\n".join(lines)


def change_line_ends(drawn: random.Random, text: str, _: str) -> str:
    return text.replace("\n", drawn.choice(["\r", "\r\n", "\n\n", "\r\r\n", "\x0b", "\x85", "\u2028", ""]))


def widen(drawn: random.Random, text: str, delimiter: str) -> str:
    lines = text.split("\n")
    at = a_place(drawn, len(lines))
    lines[at] += delimiter * drawn.choice([1, 2, 300, 20_000])
    return "\n".join(lines)


def put_above(drawn: random.Random, text: str, delimiter: str) -> str:
    above = ["sep=;", "sep=", 'sep="', "Title", delimiter * 5, '"', "Total", text.partition("\n")[0], "1;2;3", "\ufeff"]
    return "\n".join([*drawn.choices(above, k=drawn.randint(1, 40)), text])


def cut_off(drawn: random.Random, text: str, _: str) -> str:
    return text[: a_place(drawn, len(text))]


def many_times(drawn: random.Random, text: str, _: str) -> str:
    return text * drawn.choice([2, 3, 30])


def huge_cell(drawn: random.Random, text: str, _: str) -> str:
    at = a_place(drawn, len(text))
    return text[:at] + drawn.choice(['"', "", "9", "'"]) + drawn.choice("x9 ,\n") * 300_000 + text[at:]


def change_digits(drawn: random.Random, text: str, _: str) -> str:
    return "".join(drawn.choice("0123456789") if one.isdigit() and drawn.random() < 0.1 else one for one in text)


def change_letters(drawn: random.Random, text: str, _: str) -> str:
    share = drawn.choice([0.002, 0.02, 0.2])
    return "".join(
        chr(drawn.choice([34, 44, 59, 10, 0, 233, 9, 0x20AC])) if drawn.random() < share else one for one in text
    )


Spoil = Callable[[random.Random, str, str], str]
SPOIL: tuple[Spoil, ...] = (
    insert_nasty, replace_cell, replace_cell, replace_cell, empty_column, swap_columns, double_column, drop_column,
    cut_lines, double_lines, shuffle_lines, cut_line_short, join_lines, add_quotes, add_quotes, quote_a_line,
    change_delimiter, change_line_ends, widen, put_above, cut_off, many_times, huge_cell, change_digits, change_letters,
)  # fmt: skip
