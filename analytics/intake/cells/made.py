"""What an export does not have and what is there can make: a visit's number, its state, codes and kinds of a menu.

All of it is said once per file and marked, so that figures can tell what rests on it.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import polars as pl

from analytics.definitions.columns import MADE_OF, Table
from analytics.definitions.tables import TABLES
from analytics.intake.cells.casts import folded_word, known_words
from analytics.intake.cells.dialect import folded_name
from analytics.intake.cells.kinds import kind_named, proposed_kind
from analytics.settings import Settings

VISIT = ("day", "start_time", "end_time", "starts_at", "ends_at", "client_id", "client", "stylist", "chair", "status")
FEWEST_BLANKS = 2
ONCE = 0.3  # share of rows without a day where days are written once
KIND = next(column for column in TABLES["services"].columns if column.name == "kind")


@dataclass(frozen=True)
class Made:
    """A column that a file does not have and how it was made, in words."""

    column: str
    how: str


def filled_down(texts: pl.DataFrame) -> tuple[pl.DataFrame, int]:
    """Rows of a diary that hold a service and a price but neither day nor client, as a visit is written once with
    blanks below, take what the visit says from the row above; and how many there are.

    Only where all blanks leave the same cells empty, so that a single forgotten day stays a fault of its row.
    """
    if "booking_id" in texts.columns:
        return texts, 0
    there = [name for name in VISIT if name in texts.columns]
    who = [name for name in ("client_id", "client") if name in there]
    when = [name for name in ("starts_at", "day") if name in there]
    what = [name for name in ("service", "service_id", "price") if name in texts.columns]
    if not who or not when or not what:
        return texts, 0
    blank = pl.all_horizontal(_empty(name) for name in [*who, *when]) & ~pl.any_horizontal(
        _empty(name) for name in what
    )
    rows = texts.select(blank.alias("blank"))["blank"]
    if rows.sum() < FEWEST_BLANKS or rows[0]:
        return texts, 0
    always = [name for name in there if texts.filter(rows).select(_empty(name).all()).item()]
    down = [
        pl.when(rows)
        .then(pl.when(~rows).then(pl.col(name)).otherwise(None).forward_fill())
        .otherwise(pl.col(name))
        .alias(name)
        for name in always
    ]
    return texts.with_columns(down), int(rows.sum())


def days_filled_down(texts: pl.DataFrame) -> tuple[pl.DataFrame, int]:
    """Rows of a diary without a day take it from the row above where days are written once, in the first of their rows;
    and how many there are. Only where three in ten rows have none, so that a single forgotten day stays a fault."""
    what = [name for name in ("client_id", "client", "service", "service_id", "price") if name in texts.columns]
    if not {"day", "start_time"} <= set(texts.columns) or not what or texts.is_empty():
        return texts, 0
    blank = texts.select((_empty("day") & ~_empty("start_time") & ~pl.any_horizontal(map(_empty, what))).alias("blank"))
    rows = blank["blank"]
    if rows.sum() < max(FEWEST_BLANKS, ONCE * texts.height) or rows[0]:
        return texts, 0
    day = pl.col("day").replace("", None).forward_fill()
    return texts.with_columns(pl.when(rows).then(day).otherwise("day").alias("day")), int(rows.sum())


def _empty(name: str) -> pl.Expr:
    return pl.col(name).str.strip_chars() == ""


def out_of_cents(read: pl.DataFrame, columns: tuple[str, ...]) -> pl.DataFrame:
    """Amounts that stand in cents (plain numbers by now) as whole amounts; a text that is no number stays as it is."""
    for name in columns:
        number = pl.col(name).str.extract(r"^(-?\d+(?:\.\d+)?)$", 1).cast(pl.Decimal(18, 4), strict=False) / 100
        whole = number.cast(pl.Decimal(18, 4)).cast(pl.String)
        read = read.with_columns(pl.coalesce(whole, pl.col(name)).alias(name))
    return read


def of_places(table: Table, places: Mapping[str, int]) -> list[Made]:
    """What is made of other columns of a diary whatever stands in them."""
    if table.name != "bookings":
        return []
    made = []
    if "client_id" not in places and "client" in places:
        made.append(Made("client_id", "one of each name, but for case and accents"))
    if "chair" not in places:
        made.append(Made("chair", "the stylist's own" if "stylist" in places else "one for all"))
    return made


def with_made(read: pl.DataFrame, table: Table, settings: Settings) -> tuple[pl.DataFrame, list[Made]]:
    """The rows (in the contract's form) with every column that can be made of their own cells."""
    made: list[Made] = []
    for maker in MAKERS.get(table.name, ()):
        read, found = maker(read, settings)
        made += [found] if found else []
    return read, made


def _visit(read: pl.DataFrame, _: Settings) -> tuple[pl.DataFrame, Made | None]:
    if "booking_id" in read.columns:
        return read, None
    parts = [pl.col("starts_at").str.slice(0, 10), pl.col("client_id")]
    parts += [folded_name(pl.col("stylist"))] if "stylist" in read.columns else []
    visit = pl.when(pl.col("starts_at") != "").then(pl.concat_str(parts, separator=MADE_OF)).otherwise(pl.lit(""))
    names = "client, day and stylist" if len(parts) == 3 else "client and day"
    return read.with_columns(visit.alias("booking_id")), Made("booking_id", f"lines of one {names} are one visit")


def _status(read: pl.DataFrame, _: Settings) -> tuple[pl.DataFrame, Made | None]:
    if "status" in read.columns:
        return read, None
    how = "what lies before the day it is looked at happened, what lies ahead is booked"
    return read.with_columns(status=pl.lit("completed")), Made("status", how)


def _length(read: pl.DataFrame, _: Settings) -> tuple[pl.DataFrame, Made | None]:
    if {"ends_at", "minutes"} & set(read.columns):
        return read, None
    return read, Made("ends_at", "by the menu's minutes, else by when the next client comes, else by the usual length")


def _price(read: pl.DataFrame, _: Settings) -> tuple[pl.DataFrame, Made | None]:
    return read, None if "price" in read.columns else Made("price", "the menu's price of that day, without discounts")


def _service_id(read: pl.DataFrame, _: Settings) -> tuple[pl.DataFrame, Made | None]:
    if "service_id" in read.columns:
        named = pl.col("service_id") if "service" not in read.columns else pl.col("service")
        return read.with_columns(named.alias("service")), None
    return read.with_columns(service_id=folded_name(pl.col("service"))), Made("service_id", "its name")


def _kind(read: pl.DataFrame, settings: Settings) -> tuple[pl.DataFrame, Made | None]:
    """Proposed where the menu has none, and where its word for it is none we know: by that word, else by the name."""
    if "kind" not in read.columns:
        kinds = {name: kind_named(name) for name in read["service"].unique()}
        made = pl.col("service").replace_strict(kinds, return_dtype=pl.String)
        return read.with_columns(made.alias("kind")), Made("kind", "proposed by the words of its name")
    known = known_words(TABLES["services"], KIND, settings)
    pairs = read.select("kind", "service").unique(maintain_order=True).iter_rows()
    open_pairs = [(word, name) for word, name in pairs if word.strip() and folded_word(word) not in known]
    found = [(word, name, kind) for word, name in open_pairs if (kind := proposed_kind(word, name))]
    if not found:
        return read, None
    schema = {"kind": pl.String(), "service": pl.String(), "_kind": pl.String()}
    proposed = pl.DataFrame(found, schema=schema, orient="row")
    joined = read.join(proposed, on=["kind", "service"], how="left", maintain_order="left")
    said = ", ".join(
        f"{word!r} as {kind.replace('_', ' ')}" for word, kind in {word: kind for word, _, kind in found}.items()
    )
    return joined.with_columns(kind=pl.coalesce("_kind", "kind")).drop("_kind"), Made("kind", f"proposed for {said}")


def _rate(read: pl.DataFrame, settings: Settings) -> tuple[pl.DataFrame, Made | None]:
    if "tax_rate" in read.columns:
        return read, None
    rate = f"{settings.tax.default_rate:f}"
    return read.with_columns(tax_rate=pl.lit(rate)), Made("tax_rate", f"{rate} %, the default rate of the settings")


def _minutes(read: pl.DataFrame, _: Settings) -> tuple[pl.DataFrame, Made | None]:
    if "hands_on_min" in read.columns:
        return read, None
    how = "as long as its visits took, else as long as that kind of work usually takes"
    return read.with_columns(hands_on_min=pl.lit("0")), Made("hands_on_min", how)


def _product_id(read: pl.DataFrame, _: Settings) -> tuple[pl.DataFrame, Made | None]:
    if "product_id" in read.columns:
        return read, None
    return read.with_columns(product_id=folded_name(pl.col("product"))), Made("product_id", "its name")


MAKERS = {
    "bookings": (_visit, _status, _length, _price),
    "services": (_service_id, _kind, _rate, _minutes),
    "products": (_product_id,),
}
