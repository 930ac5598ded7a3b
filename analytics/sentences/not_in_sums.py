"""What keeps rows of a period out of the sums that follow, the cause before what it does."""

from decimal import Decimal

import polars as pl

from analytics import wording
from analytics.plain_text import visible
from analytics.settings import Settings


def not_in_sums_sentence(causes: pl.DataFrame, received: Decimal, settings: Settings) -> str:
    """Empty where nothing is kept out. causes: those of the period, most money first; received: money of the period."""
    if causes.is_empty():
        return ""
    first = causes.row(0, named=True)
    amount = first["amount"]
    of_all = f" of the {wording.money(received, settings)} received" if received else ""
    worth = f": {wording.money(amount, settings)}{of_all}" if amount else ""
    rows = wording.counted(first["rows"], "row of this period is", "rows of this period are", settings)
    says = [visible(first["message"]), f"So {rows} in none of these sums{worth}."]
    if first["other_rows"]:
        more = wording.counted(first["other_rows"], "more row is", "more rows are", settings)
        left = first["other_amount"]
        says.append(
            f"{more} in none either, for other reasons" + (f": {wording.money(left, settings)}." if left else ".")
        )
    return " ".join([*says, f"What to do: {visible(first['what_to_do'])}"])
