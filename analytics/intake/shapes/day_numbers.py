"""The number of the day in a column and the month in the sheet's name: together they are days."""

import re

import polars as pl

from analytics.intake.cells.days import MONTHS
from analytics.intake.meaning.words import TOTAL_WORDS
from analytics.intake.meaning.words.spelling import plain
from analytics.intake.shapes.heading import cell_names, heading_at

DAY = re.compile(r"0?[1-9]\.?|[12]\d\.?|3[01]\.?")
YEAR = re.compile(r"(?<!\d)(20\d\d)(?!\d)")
MONTH_NUMBER = re.compile(r"(?<!\d)(20\d\d)[-_. ](0[1-9]|1[0-2])(?!\d)")
DATE_LIKE = re.compile(r"\d{4}-\d\d-\d\d|\d{1,2}[./\-]\d{1,2}[./\-]\d{2,4}|\d{1,2}\.? \w+ \d{4}")
FEWEST = 3


def with_whole_days(name: str, records: pl.DataFrame) -> pl.DataFrame:
    """The records with days written in full where the sheet's name says the month and year, its first column of small
    numbers goes up from day to day, and no cell holds a date already."""
    month = month_named(name)
    at = heading_at(records)
    if month is None or at is None:
        return records
    below = records.slice(at + 1)
    head = below.head(50)
    if any(head[cell].str.contains(DATE_LIKE.pattern).any() for cell in cell_names(head)):
        return records
    for cell in cell_names(below):
        texts = [text.strip() for text in below[cell].to_list() if text and text.strip()]
        texts = [text for text in texts if text.lower().strip(" :") not in TOTAL_WORDS]
        if len(texts) >= FEWEST and all(map(DAY.fullmatch, texts)):
            numbers = [int(text.strip(".")) for text in texts]
            if numbers == sorted(numbers) and len(set(numbers)) > 1:
                number = pl.col(cell).str.strip_chars().str.strip_chars_end(".")
            is_day = number.str.contains(r"^[0-9]+$")
            whole = pl.when(is_day).then(pl.lit(month + "-") + number.str.zfill(2)).otherwise(pl.col(cell))
            return pl.concat([records.slice(at, 1), below.with_columns(whole.alias(cell))])
    return records


def month_named(name: str) -> str | None:
    """'Termine.xlsx#Mai 2026' -> '2026-05'; the year may stand in the file's name. None where either is lacking."""
    file, _, sheet = name.rpartition("#") if "#" in name else ("", "", name)
    if match := MONTH_NUMBER.search(sheet):
        return f"{match[1]}-{match[2]}"
    words = re.split(r"[\W\d_]+", plain(sheet))
    months = {MONTHS[word] for word in words if word in MONTHS and len(word) >= 3}
    years = set(YEAR.findall(sheet)) or set(YEAR.findall(file))
    if len(months) != 1 or len(years) != 1:
        return None
    return f"{years.pop()}-{int(months.pop()):02}"
