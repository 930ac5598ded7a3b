"""What is owed to clients, and to the state for it: vouchers not used yet, and deposits for visits to come."""

import polars as pl

from analytics.definitions.results import AMOUNT

VOUCHERS = ("vouchers_sold", "vouchers_used", "voucher_discounts", "vouchers_beyond", "vouchers_unused")
DEPOSITS = ("deposits_received", "deposits_returned", "deposits_used", "deposits_kept")
MOVED = (*VOUCHERS, *DEPOSITS)
OWED = ("vouchers_owed", "deposits_owed", "owed", "tax_in_owed", "vouchers_liability", "deposits_liability")


def owed_by_day(moves: pl.DataFrame, deposits: pl.DataFrame) -> pl.DataFrame:
    """One row per day and site on which any of MOVED moved: MOVED, and OWED, what is left by then.

    moves, deposits: voucher_moves and deposit_parts. vouchers_used: paid with vouchers, at face; of it
    voucher_discounts was never paid for the vouchers, and vouchers_beyond is more than was owed. vouchers_unused:
    earned of what is never used. tax_in_owed: accounted for when it came in. A liability is what is owed less that
    tax. What was owed before the records begin is in what is owed, and moved on the day before all others.
    """
    columns = [
        "day",
        "site",
        *MOVED,
        *(f"_{name}" for name in ("vouchers", "deposits", "vouchers_tax", "deposits_tax")),
    ]
    moved = pl.concat([_of_vouchers(moves), _of_deposits(deposits)], how="diagonal_relaxed")
    days = (
        moved.with_columns(pl.lit(None, AMOUNT).alias(name) for name in columns[2:] if name not in moved.columns)
        .group_by("day", "site")
        .agg(pl.col(columns[2:]).fill_null(0).sum().cast(AMOUNT))
        .sort("site", "day")
    )
    so_far = {name: pl.col(f"_{name}").cum_sum().over("site").cast(AMOUNT) for name in ("vouchers", "deposits")}
    taxes = {name: pl.col(f"_{name}_tax").cum_sum().over("site").cast(AMOUNT) for name in so_far}
    return days.select(
        *columns[: 2 + len(MOVED)],
        vouchers_owed=so_far["vouchers"],
        deposits_owed=so_far["deposits"],
        owed=so_far["vouchers"] + so_far["deposits"],
        tax_in_owed=taxes["vouchers"] + taxes["deposits"],
        vouchers_liability=so_far["vouchers"] - taxes["vouchers"],
        deposits_liability=so_far["deposits"] - taxes["deposits"],
    ).sort("day", "site")


def _of_vouchers(moves: pl.DataFrame) -> pl.DataFrame:
    face, amount, move = pl.col("face"), pl.col("amount"), pl.col("move")
    return moves.select(
        "day",
        "site",
        _vouchers="amount",
        _vouchers_tax="tax",
        vouchers_sold=pl.when(move == "sold").then(amount),
        vouchers_used=pl.when(move == "used").then(-face).when(move == "beyond").then(face),
        voucher_discounts="discount",
        vouchers_beyond=pl.when(move == "beyond").then(face),
        vouchers_unused=pl.when(move == "unused").then(-amount),
    )


def _of_deposits(parts: pl.DataFrame) -> pl.DataFrame:
    signs = {"received": 1, "returned": -1, "used": -1, "kept": -1}
    moves = {
        f"deposits_{name}": pl.when(pl.col("move") == name).then(pl.col("amount") * sign)
        for name, sign in signs.items()
    }
    return parts.select("day", "site", _deposits="amount", _deposits_tax="tax", **moves)
