"""How sure a share is: the score interval of a proportion (Wilson 1927, JASA 22:209–212)."""

from statistics import NormalDist

import polars as pl

Z_95 = NormalDist().inv_cdf(0.975)


def wilson(came: pl.Expr, of: pl.Expr, z: float = Z_95) -> tuple[pl.Expr, pl.Expr]:
    """Low and high end of the share came ÷ of, 95 % unless told otherwise; null where there is nothing to divide by."""
    number = pl.when(of > 0).then(of.cast(pl.Float64))
    share = came / number
    middle = share + z**2 / (2 * number)
    reach = z * (share * (1 - share) / number + z**2 / (4 * number**2)).sqrt()
    whole = 1 + z**2 / number
    return (middle - reach) / whole, (middle + reach) / whole
