"""Visits that are said to be completed on a day that has not come: a slip in the date or the status.

Seen when the salon is opened, since loading knows no day. Where the status was made and not exported, what lies ahead
is booked already (see salon.with_made_status).
"""

from datetime import date

import polars as pl

from analytics.definitions.columns import LINEAGE
from analytics.definitions.findings import hits_in


def completed_ahead(bookings: pl.DataFrame, today: date) -> pl.DataFrame:
    """Hits (findings.HITS) of the lines of completed visits that begin after today."""
    ahead = bookings.filter((pl.col("status") == "completed") & (pl.col("starts_at").dt.date() > today))
    day = pl.col("starts_at").dt.strftime("%Y-%m-%d")
    return hits_in(ahead.select("starts_at", *LINEAGE), "completed_ahead", "bookings", "status", value=day)
