"""What crosses rows and tables, as frames to judge: one row per thing, its file and row, and one number.

The number's range stands in `CROSSINGS` and becomes an expectation in checks.py; what lies outside it is a warning.
Nothing here decides or drops anything: rows are used as they stand.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from difflib import SequenceMatcher

import polars as pl

from analytics.money import digits_of, with_tax
from analytics.records.lines import on_the_menu
from analytics.records.retail import retail_rows
from analytics.records.stays import VISIT
from analytics.records.validity import valid_that_day
from analytics.settings import WEEKDAYS, Hours, Settings
from analytics.tables import COLOUR_KINDS, LINEAGE, Column

Tables = dict[str, pl.DataFrame]
Rows = Callable[[Tables, Settings], pl.DataFrame]

MOST_PAY = 0.5  # below this share of visits with a payment, payments are not held against visits
NEARLY_ALL_PAY = 0.9  # from this share on, a visit without a payment is odd
CASH_ROUNDING = 5  # smallest units of the currency that cash may be rounded by
FEW_PRICES = 20  # with fewer lines than this the list price, and not their median, is what is usual
WIDER, MOST_TIMES = 2, 5  # how far beyond its middle 98 % a price is still usual, and never more than times the median
EDGE_DAYS = 5  # so many days with visits at either end hold no gap: a slip in the year is not an end of the calendar
OPEN_DAYS = 7
TIMES_USUAL = 3
MANY_VISITS, SILENT_DAYS = 40, 42
MOST_SHARE = 6  # a telephone number or mail address of more clients than this is nobody's own
ALIKE = 90  # names as much the same as this, in percent, may be one client's
MIXED_KINDS = ("colour", "developer", "lightener")
HAPPENED = ("completed", "no_show")


@dataclass(frozen=True)
class Crossing:
    """rows: frame with file, row and the judged column; a value outside the column's range is a finding of `code`.

    Crossings of the same rows stand one after another, so that these are made once.

    value, expected: what the finding's sentence says of such a row; value only where it tells one cause from another.
    """

    code: str
    table: str
    column: str
    judged: Column
    rows: Rows
    value: pl.Expr | None = None
    expected: pl.Expr | None = None


def visits(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per visit: other_clients (1 where its lines name several), hours_apart (of its lines' starts), its first line."""
    bookings = tables["bookings"]
    starts, client = pl.col("starts_at"), pl.col("client_id")
    per_visit = (
        bookings.select(*VISIT, "client_id", "starts_at")
        .with_row_index("place")
        .group_by(VISIT)
        .agg(
            pl.col("place").min(),
            other_clients=(client.min() != client.max()).cast(pl.Int64),
            hours_apart=(starts.max() - starts.min()).dt.total_minutes() / 60,
        )
    )
    return _with_lineage(per_visit, bookings)


def _with_lineage(rows: pl.DataFrame, source: pl.DataFrame) -> pl.DataFrame:
    """The file and row of each row's `place` in the table it was made from."""
    return rows.hstack(source.select(*LINEAGE)[rows["place"]]).drop("place")


def visit_accounts(tables: Tables, settings: Settings) -> pl.DataFrame:
    """Per completed visit, from the first to the last day on which payments name visits: what was due and paid.

    units_off: paid less due, in the currency's smallest units, of a visit with a payment where most have one.
    units_unpaid: due of a visit without a payment where nearly all have one. Null where there is nothing to judge.
    """
    paid = tables["payments"].drop_nulls("booking_id")
    paid_at, day = pl.col("paid_at").dt.date(), pl.col("starts").dt.date()
    reach = paid.group_by("site").agg(_from=paid_at.min(), _until=paid_at.max())
    has_payment = pl.col("paid").is_not_null().filter(pl.col("due") > 0)
    accounts = (
        _due(tables, settings)
        .join(reach, on="site")
        .filter(day.is_between("_from", "_until"))
        .join(paid.group_by(VISIT).agg(paid=pl.col("amount").sum()), on=VISIT, how="left")
        .with_columns(off=pl.col("paid") - pl.col("due"), share=has_payment.mean().over("site"))
    )
    unpaid = pl.col("paid").is_null() & (pl.col("share") >= NEARLY_ALL_PAY)
    judged = accounts.with_columns(
        units_off=pl.when(pl.col("share") > MOST_PAY).then(_units("off", settings)),
        units_unpaid=pl.when(unpaid).then(_units("due", settings)),
    )
    return _with_lineage(judged, tables["bookings"])


def _due(tables: Tables, settings: Settings) -> pl.DataFrame:
    """Per completed visit: due (lines, tips and retail, with tax), its start and the place of its first line."""
    sold = retail_rows(tables["sales"].drop_nulls("booking_id"), tables["products"], settings)
    retail = sold.group_by(VISIT).agg(_retail=pl.col("gross").sum())
    charged = (pl.col("gross") + pl.col("tip")).sum()
    lines = _charges(tables, settings).group_by(VISIT)
    visited = lines.agg(pl.col("place").min(), starts=pl.col("starts_at").min(), due=charged)
    return visited.join(retail, on=VISIT, how="left").with_columns(due=pl.col("due") + pl.col("_retail").fill_null(0))


def _charges(tables: Tables, settings: Settings) -> pl.DataFrame:
    """Completed lines with gross; where tax is added to prices it has to be worked out as for the figures."""
    columns = [*VISIT, "line", "service_id", "service", "starts_at", "status", "tip"]
    charged = tables["bookings"].select(*columns, charged=pl.col("price") - pl.col("discount")).with_row_index("place")
    done = charged.filter(pl.col("status") == "completed")
    if settings.tax.prices == "included":
        return done.with_columns(gross="charged")
    rate = pl.col("tax_rate").fill_null(settings.tax.default_rate)
    lines = on_the_menu(done.sort(*VISIT, "line"), tables["services"]).with_columns(tax_rate=rate)
    group = VISIT if settings.tax.round_per == "booking" else [*VISIT, "line"]
    return with_tax(lines, prices="added", digits=digits_of(settings.salon.currency), group=group)


def _units(amount: str, settings: Settings) -> pl.Expr:
    """The amount in the currency's smallest units."""
    units: pl.Expr = pl.col(amount).cast(pl.Float64) * 10.0 ** digits_of(settings.salon.currency)
    return units.round(4)


def prices(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per completed line with a price and a list price: times_beyond, how many times it lies beyond the usual range.

    Up to 1 it lies within. Refunds and lines given away are left out.
    """
    sold = (pl.col("status") == "completed") & (pl.col("price") > 0)
    menu = tables["services"].select("site", "service_id", "valid_from", list_price="price")
    lines = tables["bookings"].select("site", "service_id", "starts_at", "price", "status", *LINEAGE).filter(sold)
    ratio = pl.col("price").cast(pl.Float64) / pl.col("list_price").cast(pl.Float64)
    rated = (
        valid_that_day(lines, menu, "service_id", pl.col("starts_at"))
        .filter(pl.col("list_price") > 0)
        .with_columns(ratio=ratio)
    )
    beyond = pl.max_horizontal(pl.col("ratio") / pl.col("high"), pl.col("low") / pl.col("ratio"))
    return rated.join(_usual(rated), on=["site", "service_id"]).select(
        *LINEAGE,
        "price",
        lowest=_listed("low"),
        highest=_listed("high"),
        times_beyond=beyond,
    )


def _usual(rated: pl.DataFrame) -> pl.DataFrame:
    """Per service the range of price ÷ list price that is usual: low, high.

    The middle 98 %, twice as wide and at least ±50 %, but within five times the median, so that a slip of ten times is
    found however often it was made, up to half of the lines.
    """
    ratio = pl.col("ratio")
    middle = pl.when(pl.len() >= FEW_PRICES).then(ratio.median()).otherwise(1.0)
    ranges = rated.group_by("site", "service_id").agg(
        middle=middle, below=ratio.quantile(0.01) / WIDER, above=ratio.quantile(0.99) * WIDER
    )
    middle = pl.col("middle")
    return ranges.select(
        "site",
        "service_id",
        low=pl.max_horizontal(pl.min_horizontal("below", middle * 0.5), middle / MOST_TIMES),
        high=pl.min_horizontal(pl.max_horizontal("above", middle * 1.5), middle * MOST_TIMES),
    )


def _listed(bound: str) -> pl.Expr:
    return pl.col(bound) * pl.col("list_price").cast(pl.Float64)


def bowls_of_visits(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per bowl of colour whose visit is in the bookings: colour_lines, the visit's lines of a colouring kind."""
    log = tables["product_log"].drop_nulls("booking_id").with_row_index("place")
    kinds = tables["products"].select("product_id", "kind").unique("product_id", keep="first")
    mixed = log.join(kinds, on="product_id", how="left").filter(pl.col("kind").is_in(MIXED_KINDS).fill_null(True))
    bowls = mixed.group_by(*VISIT, "service_id", "logged_at").agg(pl.col("place").min())
    bookings = tables["bookings"].select(*VISIT, "service_id", "service", "starts_at")
    lines = on_the_menu(bookings.join(bowls, on=VISIT, how="semi"), tables["services"])
    colour = lines.group_by(VISIT).agg(colour_lines=pl.col("kind").is_in(COLOUR_KINDS).sum().cast(pl.Int64))
    return _with_lineage(bowls.join(colour, on=VISIT), log).select(*LINEAGE, "colour_lines")


def named_visits(table: str) -> Rows:
    """Per row of the table that names a visit: visits, 1 where the bookings have it, else 0."""

    def rows(tables: Tables, _: Settings) -> pl.DataFrame:
        known = tables["bookings"].select(VISIT).unique().with_columns(visits=1)
        naming = tables[table].drop_nulls("booking_id").select(*VISIT, *LINEAGE)
        return naming.join(known, on=VISIT, how="left").select(*LINEAGE, pl.col("visits").fill_null(0))

    return rows


def named_services(table: str) -> Rows:
    """Per row of the table that names a service: menu_rows, 1 where the menu has it, else 0."""

    def rows(tables: Tables, _: Settings) -> pl.DataFrame:
        known = tables["services"].select("service_id").unique().with_columns(menu_rows=1)
        naming = tables[table].drop_nulls("service_id").select("service_id", *LINEAGE)
        return naming.join(known, on="service_id", how="left").with_columns(pl.col("menu_rows").fill_null(0))

    return rows


def likenesses(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per pair of clients with one telephone number or mail address: likeness of their names, 0–100.

    file and row are those of the later client. A number or address that many share is nobody's own, and left out.
    """
    clients = (
        tables["clients"].drop_nulls("client").select("site", "client", *LINEAGE, *_reached()).with_row_index("at")
    )
    pairs = pl.concat(_sharing(clients, by) for by in ("phone", "email")).unique(["at", "at_right"]).sort("at")
    likeness = [_likeness(*names) for names in pairs.select("client", "client_right").iter_rows()]
    return pairs.select(*LINEAGE, likeness=pl.Series(likeness, dtype=pl.Float64))


def _reached() -> tuple[pl.Expr, pl.Expr]:
    """The last nine digits of the telephone number, whatever its prefix; the mail address. Null where there is none."""
    digits = pl.col("phone").str.replace_all(r"\D", "").str.tail(9)
    email = pl.col("email").str.to_lowercase().str.strip_chars()
    return digits.replace("", None).alias("phone"), email.replace("", None).alias("email")


def _sharing(clients: pl.DataFrame, by: str) -> pl.DataFrame:
    own = clients.drop_nulls(by).filter(pl.len().over("site", by).is_between(2, MOST_SHARE))
    return own.join(own.select("site", by, "at", "client"), on=["site", by]).filter(pl.col("at") > pl.col("at_right"))


def _likeness(one: str, other: str) -> float:
    """How much of two names is the same, in percent, whatever their case and spaces."""
    first, second = (" ".join(name.casefold().split()) for name in (one, other))
    return 100.0 * float(SequenceMatcher(None, first, second).ratio())


def visited_days(bookings: pl.DataFrame) -> pl.DataFrame:
    """Per salon and day with a visit of any status, in order: whether one happened, and the day's last line."""
    days = (
        bookings.select("site", day=pl.col("starts_at").dt.date(), happened=pl.col("status").is_in(HAPPENED))
        .with_row_index("place")
        .group_by("site", "day")
        .agg(pl.col("happened").any(), pl.col("place").max())
    )
    return _with_lineage(days, bookings).sort("site", "day")


def _ends(days: pl.DataFrame) -> tuple[date, date] | None:
    """The days between which a salon's calendar can be judged, from its visited days; None where there are too few."""
    happened = days.filter("happened")["day"]
    return (happened[EDGE_DAYS - 1], happened[-EDGE_DAYS]) if len(happened) >= 2 * EDGE_DAYS else None


def calendar_runs(tables: Tables, settings: Settings) -> pl.DataFrame:
    """Per run of open days without any visit: first_day, last_day, empty_days, and days_beyond what is usual there.

    What is usual is three times the empty days before nine in ten visited days: a salon that works one day a week is
    no gap. file and row are those of the last visit before the run.
    """
    parts = visited_days(tables["bookings"]).partition_by("site")
    return pl.concat([_RUNS.clone(), *(_runs(days, settings.hours) for days in parts)])


_RUNS = pl.DataFrame(
    schema=LINEAGE
    | {"first_day": pl.Date(), "last_day": pl.Date(), "empty_days": pl.Int64(), "days_beyond": pl.Float64()}
)


def _runs(days: pl.DataFrame, hours: Hours) -> pl.DataFrame:
    """The runs of one salon."""
    ends = _ends(days)
    if ends is None:
        return _RUNS
    calendar = _open_or_visited(days, hours, *ends)
    runs = (
        calendar.with_columns(pl.col(*LINEAGE).forward_fill(), run=pl.col("visited").rle_id())
        .filter(~pl.col("visited"))
        .group_by("run", maintain_order=True)
        .agg(
            pl.col(*LINEAGE).first(),
            first_day=pl.col("day").first(),
            last_day=pl.col("day").last(),
            empty_days=pl.len().cast(pl.Int64),
        )
    )
    return runs.with_columns(days_beyond=pl.col("empty_days") - TIMES_USUAL * _usual_run(calendar)).select(
        _RUNS.columns
    )


def _open_or_visited(days: pl.DataFrame, hours: Hours, first: date, last: date) -> pl.DataFrame:
    """The days from first to last that are open by salon.toml or have a visit."""
    weekdays = [number for number, name in enumerate(WEEKDAYS, start=1) if getattr(hours, name)]
    calendar = pl.DataFrame({"day": pl.date_range(first, last, eager=True)})
    is_open = pl.col("day").dt.weekday().is_in(weekdays) & ~pl.col("day").is_in(
        pl.Series(hours.closed, dtype=pl.Date).implode()
    )
    return (
        calendar.join(days, on="day", how="left", maintain_order="left")
        .with_columns(visited=pl.col("happened").is_not_null())
        .filter(is_open | pl.col("visited"))
    )


def _usual_run(calendar: pl.DataFrame) -> float:
    """Empty days before a visited day: nine in ten have no more."""
    before = calendar["visited"].arg_true().cast(pl.Int64).diff().drop_nulls() - 1
    return float(before.quantile(0.9) or 0.0)


def stylists(tables: Tables, _: Settings) -> pl.DataFrame:
    """Per stylist with many visits who worked in most weeks: silent_days, from her last visit to the end of the book.

    Visits still ahead count as hers; cancelled ones do not.
    """
    columns = tables["bookings"].select("site", "booking_id", "stylist", "starts_at", "status")
    lines = columns.with_row_index("place").filter(pl.col("status") != "cancelled").drop_nulls("stylist")
    starts, day = pl.col("starts_at"), pl.col("starts_at").dt.date()
    each = lines.group_by("site", "stylist").agg(
        pl.col("place").get(starts.arg_max()),
        visits=pl.col("booking_id").n_unique(),
        weeks=day.dt.truncate("1w").n_unique(),
        first_day=day.min(),
        last_day=day.max(),
    )
    weeks_between = (pl.col("last_day") - pl.col("first_day")).dt.total_days() // 7 + 1
    steady = each.filter((pl.col("visits") >= MANY_VISITS) & (pl.col("weeks") * 2 >= weeks_between))
    silent = (pl.col("end") - pl.col("last_day")).dt.total_days()
    ended = steady.join(_end_of_book(tables["bookings"]), on="site").with_columns(silent_days=silent)
    return _with_lineage(ended, tables["bookings"])


def _end_of_book(bookings: pl.DataFrame) -> pl.DataFrame:
    """Per salon the last day by which visits happened, a slip in the year aside."""
    parts = visited_days(bookings).partition_by("site")
    ends = [(days["site"][0], ends[1]) for days in parts if (ends := _ends(days))]
    return pl.DataFrame(ends, schema={"site": pl.String(), "end": pl.Date()}, orient="row")


def _money(amount: pl.Expr) -> pl.Expr:
    return amount.round(2).cast(pl.Decimal(18, 2)).cast(pl.String)


def _off() -> pl.Expr:
    much = pl.when(pl.col("off") > 0).then(pl.lit("more")).otherwise(pl.lit("less"))
    return pl.format("{} {}", _money(pl.col("off").abs()), much)


def _price() -> pl.Expr:
    return pl.format(
        "{}, where {} to {} is usual", _money(pl.col("price")), _money(pl.col("lowest")), _money(pl.col("highest"))
    )


def _who() -> pl.Expr:
    site = pl.when(pl.col("site") == "").then(pl.lit("")).otherwise(pl.col("site") + ": ")
    return site + pl.col("stylist")


def _number(name: str, meaning: str, low: float | None = None, high: float | None = None) -> Column:
    return Column(name, "number", meaning, low=low, high=high)


KNOWN_VISIT = _number("visits", "visits of that name in the bookings", low=1)
KNOWN_SERVICE = _number("menu_rows", "lines of that name on the menu", low=1)

CROSSINGS = (
    Crossing(
        "lines_disagree",
        "bookings",
        "client_id",
        _number("other_clients", "clients beside the first that the visit's lines name", high=0),
        visits,
        expected=pl.lit("several clients"),
    ),
    Crossing(
        "lines_disagree",
        "bookings",
        "starts_at",
        _number("hours_apart", "hours between the visit's first and last start", low=0, high=24),
        visits,
        expected=pl.lit("times more than a day apart"),
    ),
    Crossing(
        "paid_differs",
        "bookings",
        "price",
        _number("units_off", "paid less due, in the currency's smallest units", low=-CASH_ROUNDING, high=CASH_ROUNDING),
        visit_accounts,
        expected=_off(),
    ),
    Crossing(
        "visit_unpaid",
        "bookings",
        "booking_id",
        _number("units_unpaid", "due of a visit without a payment, in smallest units", high=CASH_ROUNDING),
        visit_accounts,
        expected=_money(pl.col("due")),
    ),
    Crossing(
        "price_far_off",
        "bookings",
        "price",
        _number("times_beyond", "times the price lies beyond the usual range", high=1),
        prices,
        expected=_price(),
    ),
    Crossing(
        "bowl_without_colour",
        "product_log",
        "booking_id",
        _number("colour_lines", "lines of the visit that colour", low=1),
        bowls_of_visits,
    ),
    Crossing("unknown_visit", "payments", "booking_id", KNOWN_VISIT, named_visits("payments")),
    Crossing("unknown_visit", "product_log", "booking_id", KNOWN_VISIT, named_visits("product_log")),
    Crossing("unknown_visit", "sales", "booking_id", KNOWN_VISIT, named_visits("sales")),
    *(
        Crossing(
            "service_not_listed",
            table,
            "service_id",
            KNOWN_SERVICE,
            named_services(table),
            value=pl.col("service_id"),
        )
        for table in ("bookings", "product_log")
    ),
    Crossing(
        "client_twice",
        "clients",
        "client_id",
        _number("likeness", "how much two names are the same, percent", high=ALIKE),
        likenesses,
    ),
    Crossing(
        "calendar_gap",
        "bookings",
        "starts_at",
        _number("days_beyond", "open days without a visit, beyond what is usual", high=OPEN_DAYS - 1),
        calendar_runs,
        value=pl.format("{} to {}", "first_day", "last_day"),
        expected=pl.col("empty_days").cast(pl.String),
    ),
    Crossing(
        "stylist_stops",
        "bookings",
        "stylist",
        _number("silent_days", "days from the last visit to the end of the book", high=SILENT_DAYS - 1),
        stylists,
        value=_who(),
        expected=pl.col("last_day").cast(pl.String),
    ),
)
