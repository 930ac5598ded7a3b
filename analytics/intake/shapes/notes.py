"""Bowls as notes ("40 g 6.0 + 60 g developer 6 %, left 12"): each product of a note becomes a row of the log."""

import re

import polars as pl

from analytics.intake.reading.split import LEADING
from analytics.intake.shapes.heading import cell_names, heading_at

PART = re.compile(
    r"^\s*(?P<g>\d+(?:[.,]\d+)?)\s*(?:g|gr|gram|grams|gramm|grammes?|grammi|gramos)\.?\s+(?P<product>\S.*?)\s*$", re.I
)
LEFT = re.compile(
    r"[,;.(]?\s*(?:left(?: over)?|over|rest|reste|resto|avanzo|sobra|sobrante|übrig|restant)\s*:?\s*"
    r"(?P<g>\d+(?:[.,]\d+)?)\s*(?:g|gr|gram|gramm)?\.?\)?\s*$",
    re.I,
)
PLUS = re.compile(r"\s+\+\s+|\s*;\s*|\n")
NEARLY_ALL = 0.9
MOST_CHARACTERS = 300
TITLES = ("product", "mixed_g", "left_g")

Bowl = list[tuple[str, str, str]]
"""Product, grams mixed and grams left of each product of a note."""


def notes_into_rows(records: pl.DataFrame) -> pl.DataFrame:
    """As it is where no column holds such notes in nine rows of ten."""
    at = heading_at(records)
    if at is None:
        return records
    below = records.slice(at + 1)
    cell = next((name for name in cell_names(below) if _notes(below[name].head(100))), None)
    if cell is None:
        return records
    others = [name for name in cell_names(below) if name != cell]
    rows = [
        (*leading, *(kept for kept in cells), *part)
        for *leading, note, cells in (
            (
                row[0],
                row[2],
                row[3 + cell_names(below).index(cell)],
                [row[3 + cell_names(below).index(o)] for o in others],
            )
            for row in below.iter_rows()
        )
        for part in (read_note(note) or [(note, "", "")])
    ]
    width = len(others) + len(TITLES)
    names = [f"c{place}" for place in range(width)]
    schema = {"row": pl.Int64(), "spoilt": pl.Boolean()} | dict.fromkeys(names, pl.String())
    made = pl.DataFrame(rows, schema=schema, orient="row").with_columns(pl.lit(width, pl.Int64).alias("count"))
    titles = [*(str(records[name][at]) for name in others), *TITLES]
    head = records.slice(at, 1).select(
        "row",
        "spoilt",
        pl.lit(width, pl.Int64).alias("count"),
        *(pl.lit(t).alias(n) for n, t in zip(names, titles, strict=True)),
    )
    order = [*LEADING, *names]
    return pl.concat([head.select(order), made.select(order)])


def _notes(cells: pl.Series) -> bool:
    filled = [cell for cell in cells.to_list() if cell and cell.strip()]
    if len(filled) < 2 or not any(map(read_note, filled[: round((1 - NEARLY_ALL) * len(filled)) + 1])):
        return False  # more than one in ten is none
    return sum(read_note(cell) is not None for cell in filled) >= NEARLY_ALL * len(filled)


def read_note(note: str) -> Bowl | None:
    """Its products with their grams; None where a part of it is anything else. What is left is shared by the grams
    mixed, the rest of the division going to the last."""
    if len(note) > MOST_CHARACTERS:
        return None
    left = LEFT.search(note)
    parts = [PART.match(part) for part in PLUS.split(note[: left.start()] if left else note) if part.strip()]
    if not parts or not all(parts):
        return None
    found = [(part["product"], part["g"].replace(",", ".")) for part in parts if part]
    if left is None:
        return [(product, grams, "") for product, grams in found]
    total, over = sum(float(grams) for _, grams in found), float(left["g"].replace(",", "."))
    if total <= 0 or over > total:
        return None
    shares = [round(over * float(grams) / total, 3) for _, grams in found]
    shares[-1] = round(over - sum(shares[:-1]), 3)
    return [(product, grams, f"{share:g}") for (product, grams), share in zip(found, shares, strict=True)]
