"""Clients who stand twice: reached in the same way, and named nearly the same."""

from difflib import SequenceMatcher

import polars as pl

from analytics.checks.cross_checks.cross_check import CrossCheck, Tables, number
from analytics.definitions.columns import LINEAGE
from analytics.settings import Settings

MOST_SHARE = 6  # a telephone number or mail address of more clients than this is nobody's own
ALIKE = 90  # names as much the same as this, in percent, may be one client's


def likenesses(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per pair of clients with one telephone number or mail address: likeness of their names, 0–100.

    file and row are those of the later client. A number or address that many share is nobody's own, and left out.
    """
    clients = (
        tables["clients"].drop_nulls("client").select("site", "client", *LINEAGE, *_reached()).with_row_index("at")
    )
    pairs = pl.concat(_sharing(clients, by) for by in ("phone", "email")).unique(["at", "at_right"]).sort("at")
    likeness = [_likeness(*names) for names in pairs.select("client", "client_right").iter_rows()]
    return pairs.select(*LINEAGE, likeness=pl.Series(likeness, dtype=pl.Float64))


def _reached() -> tuple[pl.Expr, pl.Expr]:
    """The last nine digits of the telephone number, whatever its prefix; the mail address. Null where there is none."""
    digits = pl.col("phone").str.replace_all(r"\D", "").str.tail(9)
    email = pl.col("email").str.to_lowercase().str.strip_chars()
    return digits.replace("", None).alias("phone"), email.replace("", None).alias("email")


def _sharing(clients: pl.DataFrame, by: str) -> pl.DataFrame:
    own = clients.drop_nulls(by).filter(pl.len().over("site", by).is_between(2, MOST_SHARE))
    return own.join(own.select("site", by, "at", "client"), on=["site", by]).filter(pl.col("at") > pl.col("at_right"))


def _likeness(one: str, other: str) -> float:
    """How much of two names is the same, in percent, whatever their case and spaces."""
    first, second = (" ".join(name.casefold().split()) for name in (one, other))
    return 100.0 * float(SequenceMatcher(None, first, second).ratio())


CROSS_CHECKS = (
    CrossCheck(
        "client_twice",
        "clients",
        "client_id",
        number("likeness", "how much two names are the same, percent", high=ALIKE),
        likenesses,
    ),
)
