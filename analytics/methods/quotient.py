"""One number per another, where there is something to divide by."""

import polars as pl


def per(above: str | pl.Expr, below: str | pl.Expr) -> pl.Expr:
    """above ÷ below as a float, columns or expressions of any number; null where below is null, nothing or less."""
    top, bottom = (pl.col(one) if isinstance(one, str) else one for one in (above, below))
    return pl.when(bottom > 0).then(top.cast(pl.Float64) / bottom.cast(pl.Float64))
