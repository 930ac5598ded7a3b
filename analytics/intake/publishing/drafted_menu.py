"""A menu drafted from the bookings where no export is one, and the minutes of one that has none.

Everything here is a proposal that stands until a menu says otherwise: names as they stand in the diary, the usual price
by date, a kind by the words of the name, and minutes by how long visits of that service alone took, or by how long it
was until the next client on that chair. USUAL is common practice, no source.
"""

import polars as pl

from analytics.definitions import findings
from analytics.definitions.columns import MONEY, PERCENT
from analytics.definitions.tables import TABLES
from analytics.intake.cells.kinds import kind_named
from analytics.intake.cells.typed import typed_schema
from analytics.intake.shapes.services_in_one_cell import SIGNS, fold
from analytics.settings import Settings

DRAFT = "(menu drafted from the bookings)"
USUAL = {
    "root_touch_up": 75.0,
    "full_colour": 100.0,
    "lightening": 120.0,
    "toner": 30.0,
    "cut": 45.0,
    "styling": 30.0,
    "treatment": 20.0,
    "other": 30.0,
}
DRAFTED = {
    "kind": "proposed by the words of its name",
    "price": "as mostly charged",
    "tax_rate": "the default rate of the settings",
    "hands_on_min": "as long as its visits took, else as long as that kind of work usually takes",
}
"""By column: how it is drafted, in words."""
FEWEST_VISITS = 3
LONGEST_MIN, STEP_MIN = 300.0, 5
MOST_NAMED = 40


def drafted_menu(bookings: list[pl.DataFrame], settings: Settings) -> pl.DataFrame:
    """typed_schema's rows of the services that these typed bookings name, by id or else by name, one for each price
    that held for a time."""
    lines = _lines(bookings)
    names = _names(lines)
    minutes = usual_minutes(lines)
    rows = []
    for key, name in names.items():
        kind = kind_named(name)
        for valid_from, price in _prices(lines.filter(pl.col("key") == key)):
            rows.append((key, name, kind, price, minutes.get(key, USUAL[kind]), valid_from))
    schema: dict[str, pl.DataType] = dict.fromkeys(("service_id", "service", "kind"), pl.String())
    schema |= {"price": MONEY}
    schema |= {"hands_on_min": pl.Float64(), "valid_from": pl.Date()}
    made = pl.DataFrame(rows, schema=schema, orient="row").with_row_index("row", offset=2)
    whole = typed_schema(TABLES["services"])
    rest = {name: pl.lit(None, kind) for name, kind in whole.items() if name not in made.columns}
    rest |= {"file": pl.lit(DRAFT), "processing_min": pl.lit(0.0), "site": pl.lit("")}
    rest |= {"tax_rate": pl.lit(settings.tax.default_rate).cast(PERCENT)}
    rest |= {name: pl.lit("") for name in ("corrects_file", "corrects_row")}
    return made.with_columns(**rest).cast(whole).select(list(whole))  # type: ignore[arg-type]


def said_of_draft(menu: pl.DataFrame) -> pl.DataFrame:
    """A hit with the services of a drafted menu."""
    services = menu.unique("service_id", keep="last", maintain_order=True)
    said = [
        f"{name} ({kind.replace('_', ' ')}, {price:.2f})"
        for name, kind, price in services.select("service", "kind", pl.col("price").fill_null(0)).iter_rows()
    ]
    more = f" and {len(said) - MOST_NAMED} more" if len(said) > MOST_NAMED else ""
    return findings.hits([("menu_drafted", "services", DRAFT, None, None, ", ".join(said[:MOST_NAMED]) + more, None)])


def with_usual_minutes(menu: list[pl.DataFrame], made_in: set[str], bookings: list[pl.DataFrame]) -> list[pl.DataFrame]:
    """Typed services; those of files without minutes have the usual ones."""
    if not made_in:
        return menu
    known = usual_minutes(_lines(bookings))

    def minutes(service_id: str, service: str, kind: str) -> float:
        usual = USUAL[kind or "other"]
        return float(known.get(service_id or "", known.get(fold(service or ""), usual)))

    def filled(frame: pl.DataFrame) -> pl.DataFrame:
        usual = [minutes(*row) for row in frame.select("service_id", "service", "kind").iter_rows()]
        return frame.with_columns(pl.Series("hands_on_min", usual, dtype=pl.Float64))

    return [filled(frame) if frame.height and frame["file"][0] in made_in else frame for frame in menu]


def _lines(bookings: list[pl.DataFrame]) -> pl.DataFrame:
    """Usable lines with `key`, what they call their service; `until`, when the chair's next visit that day begins."""
    columns = ("booking_id", "starts_at", "ends_at", "minutes", "service_id", "service", "price", "stylist", "chair")
    frames = [frame.filter(pl.col("fault").is_null()).select(columns) for frame in bookings]
    lines = pl.concat(frames) if frames else pl.DataFrame(schema=dict.fromkeys(columns, pl.String()))
    lines = lines.with_columns(
        label=pl.coalesce("service", "service_id"), key=pl.coalesce("service_id", _folded(pl.col("service"))),
        seat=pl.coalesce("chair", "stylist"), day=pl.col("starts_at").dt.date(),
    ).drop_nulls(["key", "starts_at"])  # fmt: skip
    visits = lines.unique(["day", "seat", "starts_at"]).sort("seat", "starts_at")
    after = visits.select("day", "seat", "starts_at", until=pl.col("starts_at").shift(-1).over("day", "seat"))
    return lines.join(after.drop_nulls("seat"), on=["day", "seat", "starts_at"], how="left")


def _folded(name: pl.Expr) -> pl.Expr:
    return name.str.replace_all(r"\s+", " ").str.strip_chars().str.to_lowercase()


def _names(lines: pl.DataFrame) -> dict[str, str]:
    """By key: the name as it is mostly written; cells that name several of the others are left out."""
    often = lines.group_by("key", "label").len().sort("len", "label", descending=[True, False])
    names = dict(often.unique("key", keep="first", maintain_order=True).select("key", "label").sort("key").iter_rows())
    return {key: name for key, name in names.items() if not _several(key, names)}


def _several(key: str, names: dict[str, str]) -> bool:
    parts = [part for part in SIGNS.split(key) if part]
    return len(parts) > 1 and all(part in names for part in parts)


def _prices(lines: pl.DataFrame) -> list[tuple[object, object]]:
    """The usual price from the first day on (None), and each other price that is a later month's usual one from the
    day on which it first stands in that month."""
    found: list[tuple[object, object]] = []
    priced = lines.filter(pl.col("price") > 0).with_columns(month=pl.col("day").dt.truncate("1mo")).sort("day")
    for (_, ), month in priced.group_by("month", maintain_order=True):  # fmt: skip
        counts = month["price"].value_counts().sort("count", "price", descending=True)
        price = counts["price"][0]
        if not found:
            found.append((None, price))
        elif price != found[-1][1]:
            found.append((month.filter(pl.col("price") == price)["day"].min(), price))
    return found or [(None, None)]


def usual_minutes(lines: pl.DataFrame) -> dict[str, float]:
    """By key: the median length of visits of that service alone, to five minutes; only of three visits and more."""
    alone = lines.filter(pl.len().over("booking_id") == 1)
    until = ((pl.col("until") - pl.col("starts_at")).dt.total_seconds() / 60).cast(pl.Float64)
    given = ((pl.col("ends_at") - pl.col("starts_at")).dt.total_seconds() / 60).cast(pl.Float64)
    lengths = alone.select("key", "label", length=pl.coalesce(given, "minutes", until))
    lengths = lengths.filter(pl.col("length").is_between(STEP_MIN, LONGEST_MIN))
    medians = lengths.group_by("key").agg(pl.col("length").median(), pl.len()).filter(pl.col("len") >= FEWEST_VISITS)
    by_label = lengths.group_by(key=_folded(pl.col("label"))).agg(pl.col("length").median(), pl.len())
    by_label = by_label.filter(pl.col("len") >= FEWEST_VISITS)
    both = pl.concat([by_label, medians])
    return {key: max(STEP_MIN, round(length / STEP_MIN) * STEP_MIN) for key, length, _ in both.iter_rows()}
