"""What expires before it is used, where the first to expire is used first."""

import polars as pl


def wasted(held: pl.Expr, usable: pl.Expr) -> pl.Expr:
    """Of each lot of one shelf, in order of expiry, what will be left when it expires.

    held: what there is of the lot. usable: what is used of all lots together until it expires, which never falls from
    lot to lot. Up to lot i the waste is the largest excess of what was held over what could be used up to any j ≤ i.
    """
    so_far = (held.cum_sum() - usable).clip(0).cum_max()
    return so_far - so_far.shift(1, fill_value=0)
