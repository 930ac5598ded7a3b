"""Why something cost more than planned: its price, or how much of it was taken.

price variance = actual quantity × (actual price − standard price); quantity variance = standard price × (actual −
standard quantity). Both together are actual cost − standard cost; above 0 is unfavourable (OpenStax, Principles of
Accounting 2: Managerial Accounting, 8.2).
"""

import polars as pl


def price_variance(actual_cost: pl.Expr, actual_at_standard: pl.Expr) -> pl.Expr:
    """Actual quantity at actual prices less the same quantity at standard prices."""
    return actual_cost - actual_at_standard


def quantity_variance(actual_at_standard: pl.Expr, standard_cost: pl.Expr) -> pl.Expr:
    """Actual quantity at standard prices less standard quantity at standard prices."""
    return actual_at_standard - standard_cost
