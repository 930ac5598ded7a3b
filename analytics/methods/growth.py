"""Growth of hair as a normal prior updated by measured lengths.

A rate r (mm a day) has the prior N(mean, sd²). A length measured d days after the roots were coloured is r·d plus a
normal error of ERROR_MM. The posterior of r is normal with
    precision = 1/sd² + Σ d²/ERROR_MM²,   mean = (mean/sd² + Σ d·length/ERROR_MM²) ÷ precision.
Published rates: Loussouarn 2001, Br J Dermatol 145:294–297; Loussouarn, El Rawadi, Genain 2005, Int J Dermatol 44
S1:6–9. The conjugate normal update is standard (for example Gelman et al., Bayesian Data Analysis, section 2.5; from
memory).
"""

import polars as pl

ERROR_MM = 1.5
MOST_MM_PER_DAY = 0.8  # above this no scalp hair grows; a measurement also has its own error
Z_80 = 1.2815515655446004  # 80 % of a normal lie within this many standard deviations


def is_possible(regrowth_mm: pl.Expr, days: pl.Expr) -> pl.Expr:
    """False below 0 and above what hair can grow in those days, three measurement errors allowed."""
    return (regrowth_mm >= 0) & (regrowth_mm <= days * MOST_MM_PER_DAY + 3 * ERROR_MM)


def shrinks(later_mm: pl.Expr, earlier_mm: pl.Expr) -> pl.Expr:
    """True where a length is less than one measured before it, three measurement errors allowed; hair doesn't."""
    return (later_mm < earlier_mm - 3 * ERROR_MM).fill_null(False)


def evidence(regrowth_mm: pl.Expr, days: pl.Expr) -> tuple[pl.Expr, pl.Expr]:
    """Sums over measurements: (Σ d²/error², Σ d·length/error²); 0 where there are none."""
    return (days**2).sum() / ERROR_MM**2, (days * regrowth_mm).sum() / ERROR_MM**2


def posterior(prior_mean: pl.Expr, prior_sd: pl.Expr, weight: pl.Expr, pull: pl.Expr) -> tuple[pl.Expr, pl.Expr]:
    """Mean and standard deviation of the rate (mm a day) after the evidence."""
    precision = prior_sd**-2 + weight
    return (prior_mean * prior_sd**-2 + pull) / precision, precision**-0.5


def days_to(length_mm: pl.Expr, rate: pl.Expr) -> pl.Expr:
    """The first whole day on which the expected regrowth reaches the length."""
    return (length_mm / rate - 1e-9).ceil().cast(pl.Int64)
