"""How regular the gaps between visits are: k of Wheat and Morrison.

M is a gap's share of two neighbouring gaps of one client; whatever her usual gap, M spreads less around one half the
more regular she is. For gaps that are sums of k exponential ones (Erlang-k) Var M = 1 ÷ (4 (2k + 1)), hence
k = (1 − 4 Var M) ÷ (8 Var M): 1 where there is no rhythm at all, more the more regular (Wheat and Morrison 1990,
Journal of Marketing Research 27:87–93; reference from memory).
"""

import polars as pl


def regularity(gap: pl.Expr, next_gap: pl.Expr) -> pl.Expr:
    """k over pairs of neighbouring gaps; null for fewer than two pairs and where all gaps are equal."""
    share = gap / (gap + next_gap)
    spread = ((share - 0.5) ** 2).mean()
    return pl.when((share.count() > 1) & (spread > 0)).then((1 - 4 * spread) / (8 * spread))
