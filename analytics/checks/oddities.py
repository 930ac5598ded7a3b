"""What is odd about loaded rows once tables are seen together; they are used, and said to be odd."""

from datetime import date, timedelta

import polars as pl

from analytics.checks.odd_mixes import odd_mixes
from analytics.definitions import findings
from analytics.definitions.columns import LINEAGE
from analytics.definitions.findings import hits_in
from analytics.methods.growth import is_possible, shrinks
from analytics.methods.intervals import hours, within
from analytics.money import digits_of
from analytics.periods import Period, opening_spans
from analytics.records.chairs.lines import on_the_menu
from analytics.records.chairs.stays import STAY, VISIT, chair_stays, stays_of
from analytics.records.clients.root_care import root_visit_lines, visit_minutes
from analytics.records.clients.root_visits import CLIENT, measured_regrowth, root_lines, root_visits
from analytics.records.money.settling import visit_days
from analytics.records.money.vouchers import voucher_moves
from analytics.records.product.retail import retail_rows
from analytics.records.product.stock_ledger import ledger
from analytics.records.product.stock_moves import SHELF, movements
from analytics.settings import Settings

MOST_HOURS_OUTSIDE = 1 / 120  # half a minute
SHORTEST_ROOT_VISIT_MIN = 60  # common practice, no source
FAR_AHEAD = date(9999, 12, 31)


def oddities(tables: dict[str, pl.DataFrame], settings: Settings) -> pl.DataFrame:
    """Hits (findings.HITS) over all tables."""
    timed = tables["bookings"].select(*STAY, "status", "starts_at", "ends_at", "minutes", *LINEAGE)
    parts = [
        _before_menu(tables["bookings"], tables["services"]),
        _unknown_products(tables),
        _stock_below_nothing(tables),
        _vouchers_beyond(tables, settings),
        _impossible_regrowth(tables["bookings"], tables["services"]),
        _short_root_visits(tables["bookings"], tables["services"], timed, settings),
        _outside_hours(timed, settings),
        _taken_twice(timed, settings),
        odd_mixes(tables),
    ]
    return pl.concat([findings.hits([]), *parts])


def _before_menu(bookings: pl.DataFrame, services: pl.DataFrame) -> pl.DataFrame:
    lines = bookings.select("site", "service_id", "service", "starts_at", *LINEAGE)
    early = on_the_menu(lines, services).filter("before_first")
    return hits_in(early, "before_menu", "bookings", "starts_at", value=pl.col("service_id"))


def _unknown_products(tables: dict[str, pl.DataFrame]) -> pl.DataFrame:
    """Products that the products export does not know, where there is one."""
    products = tables["products"]
    if products.is_empty():
        return findings.hits([])
    return pl.concat(
        hits_in(
            tables[name].select("product_id", *LINEAGE).join(products, on="product_id", how="anti"),
            "unknown_product",
            name,
            "product_id",
            value=pl.col("product_id"),
        )
        for name in ("product_log", "sales", "stock_moves")
    )


def _vouchers_beyond(tables: dict[str, pl.DataFrame], settings: Settings) -> pl.DataFrame:
    """Payments with vouchers of which no voucher known then was left; what a visit charged does not matter for it."""
    payments, vouchers = tables["payments"], tables["vouchers"]
    if payments.filter(pl.col("method") == "voucher").is_empty():
        return findings.hits([])
    retail = retail_rows(_over_the_counter(tables["sales"]), tables["products"], settings)
    payments = _about_vouchers(payments)
    nothing = tables["bookings"].clear().with_columns(gross=pl.lit(None, pl.Decimal(18, 4)))
    days = visit_days(nothing, retail, payments, vouchers)
    moves = voucher_moves(days, payments, vouchers, settings)
    beyond = moves.filter((pl.col("move") == "beyond") & (pl.col("face") > 0))
    expected = pl.col("face").cast(pl.Decimal(18, digits_of(settings.salon.currency))).cast(pl.String)
    return hits_in(beyond, "voucher_beyond", "payments", "amount", expected=expected)


def _over_the_counter(sales: pl.DataFrame) -> pl.DataFrame:
    return sales.filter(pl.col("booking_id").is_null())


def _about_vouchers(payments: pl.DataFrame) -> pl.DataFrame:
    """Payments without those of visits that neither sold nor used a voucher, but for the first of each site: it says
    that payments name visits there, and since when there are any."""
    of_visit = pl.col("booking_id").is_not_null()
    about = pl.any_horizontal(pl.col("method", "purpose") == "voucher").fill_null(False)
    first = payments.filter(of_visit & ~about).sort("paid_at").unique("site", keep="first", maintain_order=True)
    return pl.concat([payments.filter(~of_visit | about), first])


def _stock_below_nothing(tables: dict[str, pl.DataFrame]) -> pl.DataFrame:
    """The first row of each time a product that is delivered or counted is short.

    The tables are cloned so that the movements kept for them go with the clones. Only of such products are the
    movements made.
    """
    stock_moves, products = tables["stock_moves"], tables["products"].clone()
    followed = stock_moves.filter(pl.col("movement").is_in(["delivery", "count"]))["product_id"].unique().implode()
    log, sales = (tables[name].filter(pl.col("product_id").is_in(followed)) for name in ("product_log", "sales"))
    moves = movements(stock_moves.clone(), log, sales, products)
    kept = moves.filter(pl.col("movement").is_in(["delivery", "count"])).select(SHELF).unique()
    book = ledger(moves.join(kept, on=SHELF, how="semi", maintain_order="left"), "average")
    was_short = pl.col("short_g").shift(1, fill_value=0).over(SHELF) > 0
    first = book.filter((pl.col("short_g") > 0) & ~was_short)
    place = pl.col("movement").replace_strict({"mixed": "product_log", "sold": "sales"}, default="stock_moves")
    column = pl.col("movement").replace_strict({"mixed": "mixed_g", "sold": "quantity"}, default="movement")
    return hits_in(first, "stock_below_nothing", place, column, value=pl.col("product"), expected=_short())


def _short() -> pl.Expr:
    """How far below: pieces of retail of which a pack is known, grams of all else."""
    pieces = ((pl.col("kind") == "retail") & (pl.col("pack_g") > 0)).fill_null(False)
    short = pl.col("short_g").cast(pl.Float64)
    plain = pl.when(pieces).then(short / pl.col("pack_g").cast(pl.Float64)).otherwise(short).round(1)
    amount = plain.cast(pl.String).str.strip_suffix(".0")
    unit = pl.when(~pieces).then(pl.lit(" g")).when(amount == "1").then(pl.lit(" piece")).otherwise(pl.lit(" pieces"))
    return amount + unit


def _impossible_regrowth(bookings: pl.DataFrame, services: pl.DataFrame) -> pl.DataFrame:
    measured_clients = bookings.filter(pl.col("regrowth_mm").is_not_null())
    bookings = bookings.join(measured_clients, on=CLIENT, how="semi")
    visits = root_visits(root_lines(bookings, services), FAR_AHEAD)
    measured = measured_regrowth(bookings, visits, FAR_AHEAD)
    regrowth = pl.col("regrowth_mm")
    wrong = measured.filter((regrowth >= 0) & ~is_possible(regrowth, pl.col("days")))
    less = measured.filter(is_possible(regrowth, pl.col("days")) & shrinks(regrowth, pl.col("earlier_mm")))
    place, before = ("bookings", "regrowth_mm"), pl.col("earlier_mm")
    return pl.concat(
        [
            hits_in(wrong, "impossible_regrowth", *place, value=regrowth),
            hits_in(less, "shrinking_regrowth", *place, value=regrowth, expected=before),
        ]
    )


def _short_root_visits(
    bookings: pl.DataFrame, services: pl.DataFrame, timed: pl.DataFrame, settings: Settings
) -> pl.DataFrame:
    """Visits that coloured roots and had the chair for less than an hour, all their lines together."""
    minutes = visit_minutes(timed, settings.salon.timezone)
    short = minutes.filter(pl.col("chair_minutes") < SHORTEST_ROOT_VISIT_MIN)
    columns = [*VISIT, "line", "service_id", "service", "starts_at", "status", "price", *LINEAGE]
    lines = bookings.select(columns).join(short, on=VISIT, how="semi", maintain_order="left")
    coloured = root_visit_lines(lines, services, FAR_AHEAD).filter("resets_roots")
    first = coloured.sort("line").group_by(VISIT, maintain_order=True).agg(pl.col(LINEAGE).first())
    length = pl.col("chair_minutes").round(0).cast(pl.Int64)
    return hits_in(first.join(short, on=VISIT), "short_root_visit", "bookings", "ends_at", value=length)


def _outside_hours(timed: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """Stays of which some part lies outside opening hours, with how long."""
    zone = settings.salon.timezone
    stays = chair_stays(timed, zone)
    if stays.is_empty():
        return findings.hits([])
    first, last = stays.select(pl.col("starts").min().dt.date(), pl.col("ends").max().dt.date()).row(0)
    period = Period(first - timedelta(days=1), last + timedelta(days=2))
    spans = opening_spans(settings.hours, period, zone).drop("day")
    length = hours(pl.col("starts"), pl.col("ends"))
    inside = within(stays, spans).group_by("file", "row").agg(inside=length.sum())
    outside = (
        stays.join(inside, on=["file", "row"], how="left")
        .with_columns(outside=length - pl.col("inside").fill_null(0.0))
        .filter(pl.col("outside") > MOST_HOURS_OUTSIDE)
    )
    whole = pl.col("inside").is_null()
    local = pl.col("starts").dt.convert_time_zone(zone).dt.strftime("%Y-%m-%d %H:%M")
    partly = pl.when(whole).then(pl.lit("all of it")).otherwise(pl.lit("part of it"))
    value = pl.when(whole).then(local)
    return hits_in(outside, "outside_hours", "bookings", "starts_at", value=value, expected=partly)


def _taken_twice(timed: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """Stays, past or booked, that begin before the one that sat down earlier in that chair has ended, with when."""
    zone = settings.salon.timezone
    chair = ["site", "chair"]
    ahead = stays_of(timed.filter(pl.col("status") == "booked"), zone)
    both = pl.concat([chair_stays(timed, zone), ahead])  # a visit that is half done is in both
    late = (
        both.group_by(STAY)
        .agg(pl.col("starts").min(), pl.col("ends").max(), pl.col("file", "row").first())
        .filter(pl.col("ends") > pl.col("starts"))
        .sort(*chair, "starts", "booking_id")
        .with_columns(reach=pl.col("ends").cum_max().shift(1).over(chair))
        .filter(hours(pl.col("starts"), pl.col("reach")) > MOST_HOURS_OUTSIDE)
    )
    until = pl.col("reach").dt.convert_time_zone(zone).dt.strftime("taken until %Y-%m-%d %H:%M")
    return hits_in(late, "chair_taken_twice", "bookings", "starts_at", expected=until)
