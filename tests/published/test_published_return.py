"""Waiting with people still out, and customers who stop, against published numbers."""

from collections.abc import Callable
from importlib.metadata import files
from math import exp, factorial, log

import numpy as np
import polars as pl
import pytest
from lifelines.datasets import load_leukemia
from numpy.typing import NDArray
from scipy import optimize, stats
from scipy.special import gammaln, hyp2f1

from analytics.methods import dropping_out, scores
from analytics.methods.regularity import regularity
from analytics.methods.survival import kaplan_meier

Array = NDArray[np.float64]

# Freireich et al. 1963, Blood 21:699–716: 42 patients, weeks of remission, as in lifelines.datasets.load_leukemia.
PATIENTS = load_leukemia()
# NIST/SEMATECH e-Handbook of Statistical Methods 8.4.1.3: hours to failure of 10 units, 10 more out at 500.
FAILURES = [54.0, 187, 216, 240, 244, 335, 361, 373, 375, 386]
# Fader, Hardie, Lee 2005, Marketing Science 24:275–284: 2,357 customers of CDNOW, a file of lifetimes, whose module of
# data sets asks for more than there is to read it.
SUMMARY = next(file for file in files("lifetimes") or [] if file.name == "cdnow_customers_summary.csv")
CDNOW = pl.read_csv(str(SUMMARY.locate()))
X, T_X, T = (CDNOW[name].cast(pl.Float64).to_numpy() for name in ("frequency", "recency", "T"))
TIMES = X.astype(np.int64)


def remission(group: int) -> stats.CensoredData:
    rows = PATIENTS[PATIENTS["Rx"] == group]
    return stats.CensoredData.right_censored(rows["t"].to_numpy(float), rows["status"].to_numpy() == 0)


@pytest.mark.parametrize("group", [0, 1])
def test_kaplan_meier_of_the_42_patients_equals_scipy(group: int) -> None:
    rows = PATIENTS[PATIENTS["Rx"] == group]
    ours = kaplan_meier(pl.Series(rows["t"].to_numpy(float)), pl.Series(rows["status"].to_numpy() == 1))
    theirs = stats.ecdf(remission(group)).sf
    assert [ours.at(week) for week in range(36)] == pytest.approx(theirs.evaluate(np.arange(36.0)))


def test_log_rank_of_the_42_patients() -> None:
    """Freireich: chi squared 16.793."""
    assert stats.logrank(remission(0), remission(1)).statistic ** 2 == pytest.approx(16.793, abs=5e-4)


def test_weibull_with_half_of_the_units_still_out() -> None:
    """NIST 8.4.1.3: characteristic life 606.5280, shape 1.7208, log-likelihood −75.135."""
    data = stats.CensoredData(uncensored=FAILURES, right=[500.0] * 10)
    shape, _, scale = stats.weibull_min.fit(data, floc=0)
    assert (scale, shape) == pytest.approx((606.5280, 1.7208), rel=5e-4)
    fitted = stats.weibull_min(shape, scale=scale)
    likelihood = fitted.logpdf(FAILURES).sum() + 10 * fitted.logsf(500)
    assert likelihood == pytest.approx(-75.135, abs=1e-3)


def test_log_normal_with_many_still_out() -> None:
    """μ 5.1169, σ 0.7055 in scipy's tests of censored fits: locomotive controls, 37 failed, 59 ran 135,000 miles."""
    failed = [22.5, 37.5, 46, 48.5, 51.5, 53, 54.5, 57.5, 66.5, 68, 69.5, 76.5, 77, 78.5, 80, 81.5, 82, 83, 84, 91.5]
    failed += [93.5, 102.5, 107, 108.5, 112.5, 113.5, 116, 117, 118.5, 119, 120, 122.5, 123, 127.5, 131, 132.5, 134]
    sigma, _, scale = stats.lognorm.fit(stats.CensoredData(uncensored=failed, right=[135.0] * 59), floc=0)
    assert log(scale) == pytest.approx(5.1169, rel=5e-4)
    assert sigma == pytest.approx(0.7055, rel=5e-3)


def poisson_gaps(r: float, alpha: float) -> tuple[Array, Array]:
    """Log-likelihood of purchases at exponential gaps with Gamma(r, alpha) rates, and that a gap outlasts T − t_x."""
    gaps = gammaln(r + X) - gammaln(r) + r * log(alpha) - (r + X) * np.log(alpha + T_X)
    return gaps, ((alpha + T_X) / (alpha + T)) ** (r + X)


def mbg(logs: Array) -> float:
    r, alpha, a, b = np.exp(logs)
    gaps, outlasts = poisson_gaps(r, alpha)
    return float(-(gaps + dropping_out.log_likelihood(TIMES, outlasts, a, b)).sum())


def bg(logs: Array) -> float:
    """Nobody stops before a second purchase: one moment fewer, none for those who never came again."""
    r, alpha, a, b = np.exp(logs)
    gaps, outlasts = poisson_gaps(r, alpha)
    stopping = dropping_out.log_likelihood(np.maximum(TIMES - 1, 0), outlasts, a, b)
    return float(-(gaps + np.where(X > 0, stopping, np.log(outlasts))).sum())


@pytest.mark.parametrize(
    ("model", "published"),
    [
        (bg, (0.243, 4.414, 0.793, 2.426)),  # Fader, Hardie, Lee 2005
        (mbg, (0.525, 6.183, 0.891, 1.614)),  # Batislam, Denizel, Filiztekin 2007, on the same customers
    ],
)
def test_customers_of_cdnow(model: Callable[[Array], float], published: tuple[float, ...]) -> None:
    fitted = optimize.minimize(model, np.zeros(4), method="L-BFGS-B")
    assert np.exp(fitted.x) == pytest.approx(published, rel=5e-3)


def test_log_likelihood_of_cdnow() -> None:
    """Fader, Hardie, Lee 2005: −9582.4."""
    assert -bg(np.log([0.243, 4.414, 0.793, 2.426])) == pytest.approx(-9582.4, abs=0.1)


def test_purchases_to_come_of_one_customer() -> None:
    """Fader, Hardie, Lee 2005: 1.226 in 39 weeks for x = 2, t_x = 30.43, T = 38.86, by the chance that she is one."""
    r, alpha, a, b, x, t_x, until, weeks = 0.243, 4.414, 0.793, 2.426, 2, 30.43, 38.86, 39.0
    outlasts = ((alpha + t_x) / (alpha + until)) ** (r + x)
    alive = dropping_out.still_client(np.array([x - 1]), np.array([outlasts]), a, b)[0]
    ratio = ((alpha + until) / (alpha + until + weeks)) ** (r + x)
    series = hyp2f1(r + x, b + x, a + b + x - 1, weeks / (alpha + until + weeks))
    assert alive * (a + b + x - 1) / (a - 1) * (1 - ratio * series) == pytest.approx(1.226, abs=5e-4)


K, R, ALPHA, A, B = 3, 0.5, 2.0, 0.3, 0.6


def erlang(x: int, t_x: float, until: float, logs_of_gaps: float) -> tuple[float, float]:
    """Log-likelihood of gaps that are Erlang-K with Gamma(R, ALPHA) rates, and that the next outlasts until − t_x."""
    gaps = (K - 1) * logs_of_gaps - x * gammaln(K) + gammaln(R + K * x) - gammaln(R)
    gaps += R * log(ALPHA) - (R + K * x) * log(ALPHA + t_x)
    shape, past, now = R + K * x, ALPHA + t_x, ALPHA + until
    terms = [
        exp(gammaln(shape + j) - gammaln(shape)) / factorial(j) * (past / now) ** shape * ((until - t_x) / now) ** j
        for j in range(K)
    ]
    return float(gaps), float(sum(terms))


@pytest.mark.parametrize(("x", "moments", "published"), [(3, 2, -10.42500), (4, 3, -12.22396)])
def test_regular_customers_who_stop(x: int, moments: int, published: float) -> None:
    """Reutterer, Platzer, Schröder 2021, IJRM 38:194–215: log-likelihood of t_x 12, T 14, Σ ln gaps 3, BG form."""
    gaps, outlasts = erlang(x, 12.0, 14.0, 3.0)
    stopping = dropping_out.log_likelihood(np.array([moments]), np.array([outlasts]), A, B)[0]
    assert gaps + stopping == pytest.approx(published, abs=5e-6)


@pytest.mark.parametrize(("moments", "published"), [(1, 0.05669), (2, 0.04548)])
def test_two_visits_in_ten_days_of_a_regular_customer(moments: int, published: float) -> None:
    """The same source: P(X(10) = 2), first where nobody stops after the first visit, then where she may."""

    def reached(visits: int) -> float:
        """So many gaps end within 10 days: a negative binomial tail."""
        return float(stats.nbinom.sf(K * visits - 1, R, ALPHA / (ALPHA + 10)))

    stays = dropping_out.stays(np.array([moments, moments + 1]), A, B)
    assert stays[0] * reached(2) - stays[1] * reached(3) == pytest.approx(published, abs=5e-6)


@pytest.mark.parametrize(("at", "published"), [(-3.0, 2.43657473), (0.0, 0.2336949772)])
def test_crps_of_a_normal_forecast(at: float, published: float) -> None:
    """Gneiting and Raftery 2007, JASA 102:359–378: of N(0, 1), here in steps of a thousandth."""
    edges = np.linspace(-10, 10, 20_001)
    chances = np.diff(stats.norm.cdf(edges))[None, :]
    came = np.array([round((at + 10) * 1000)])
    assert scores.crps(chances, came)[0] / 1000 == pytest.approx(published, abs=1e-3)


@pytest.mark.parametrize(("variance", "k"), [(1 / 12, 1.0), (1 / 20, 2.0)])
def test_regularity_of_gaps(variance: float, k: float) -> None:
    """Wheat and Morrison 1990: the variance of a gap's share of two is 1/12 without rhythm, 1/20 at k = 2."""
    shares = pl.DataFrame({"m": [0.5 - variance**0.5, 0.5 + variance**0.5]})
    assert shares.select(regularity(pl.col("m"), 1 - pl.col("m"))).item() == pytest.approx(k)


@pytest.mark.parametrize("k", [1, 2, 5])
def test_regularity_of_erlang_gaps(k: int) -> None:
    gaps = pl.DataFrame(np.random.default_rng(1).gamma(k, size=(40_000, 2)), schema=["first", "second"])
    assert gaps.select(regularity(pl.col("first"), pl.col("second"))).item() == pytest.approx(k, rel=0.03)


def test_customers_of_cdnow_have_no_rhythm() -> None:
    """k about 1 (Wheat and Morrison's estimate; published for CDNOW, here on the sample that lifetimes carries)."""
    sample = next(file for file in files("lifetimes") or [] if file.name == "CDNOW_sample.txt")
    words = [line.split() for line in sample.read_text(encoding="utf-8").splitlines()]
    days = pl.DataFrame({"who": [word[1] for word in words], "day": [word[2] for word in words]}).unique()
    gap = pl.col("gap")
    gaps = (
        days.with_columns(pl.col("day").str.to_date("%Y%m%d"))
        .sort("who", "day")
        .with_columns(gap=pl.col("day").diff().dt.total_days().over("who"))
        .drop_nulls("gap")
    )
    pairs = gaps.with_columns(later=gap.shift(-1).over("who")).drop_nulls("later")
    assert pairs.select(regularity(gap, pl.col("later"))).item() == pytest.approx(1, abs=0.1)
