"""The typed rows of one table told apart: which are used, which repeat others, which are older states, which are set
aside.

What a table needs of its own, and which of several rows counts, is in sql/. DuckDB reads the rows where they lie in
memory and answers only what it found out about them.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.resources import files as package_files
from itertools import accumulate, chain, groupby

import duckdb
import polars as pl
import pyarrow as pa

from analytics.definitions import findings
from analytics.definitions.columns import LINEAGE, Table
from analytics.definitions.tables import TABLES
from analytics.intake.publishing.made_ends import with_ends, with_prices
from analytics.intake.shapes.services_in_one_cell import in_lines, service_names, several_services
from analytics.money import digits_of
from analytics.settings import Settings

PARTICULAR = {
    "services": "services",
    "bookings": "bookings",
    "product_log": "product_by_name",
    "sales": "product_by_name",
    "stock_moves": "product_by_name",
}

NOTED: dict[str, tuple[str, ...]] = defaultdict(
    tuple, bookings=("note_same_line_twice", "note_price_shared"), clients=("note_same_name",)
)

STATED = """SELECT ready.*, coalesce(states.state, 'used') AS state FROM ready LEFT JOIN states USING (rid)
    WHERE fault IS NULL"""

ROWS_AT_ONCE = 250_000
HAPPENS = ("starts_at", "logged_at", "paid_at", "sold_at", "moved_at")  # the times of tables of what happens on a day
AMOUNTS = {
    "bookings": "CASE WHEN coalesce(status, 'completed') = 'completed' THEN price - coalesce(discount, 0) END",
    "sales": "price * quantity - coalesce(discount, 0)",
    "payments": "amount",
}
ACCOUNTS = {"file": pl.String(), "state": pl.String(), "rows": pl.Int64()}
CORRECTED = {"file": pl.String(), "row": pl.Int64()}
WORTH = {"file": pl.String(), "row": pl.Int64(), "day": pl.Date(), "amount": pl.Decimal(18, 4)}
"""Of rows set aside: their day and what they would add to the sums of it, as far as they say so."""


@dataclass(frozen=True)
class Loaded:
    """frame: the rows used. rejected, noted: hits of rows set aside, of odd rows. accounts: rows per file and state.

    corrected: file and row of rows that were set aside and that usable rows of other files stand for. worth: WORTH.
    """

    frame: pl.DataFrame
    rejected: pl.DataFrame
    noted: pl.DataFrame
    accounts: pl.DataFrame
    corrected: pl.DataFrame
    worth: pl.DataFrame


def tell_apart(con: duckdb.DuckDBPyConnection, table: Table, rows: list[pl.DataFrame], settings: Settings) -> Loaded:
    """rows: typed_schema's with their number `rid`, one frame per sheet; they stay apart, since to put them together
    is to copy them. con: knows `services` and `products`, if these came before, and the table's own rows afterwards.

    ready: rows with what is particular to the table and the rank of their file. states: of rows that others compete
    with, whether they are used. stated: the usable rows with their state.
    """
    if not any(frame.height for frame in rows):
        _know(con, table.name, table.empty())
        return _nothing(table)
    if table.name == "bookings":
        _find_several(con, rows)
    rows = [frame for some in _some_at_a_time(rows) for frame in _with_particular(con, table, some)]
    _know(con, "particular", *rows)
    _know(con, "ranked", frame_of(con, _ranked_query(table)))
    con.execute(f"CREATE OR REPLACE TEMP VIEW ready AS {_ready_query(table)}")
    states = frame_of(con, _state_query(table))
    _know(con, "states", states)
    con.execute("CREATE OR REPLACE TEMP VIEW stated AS " + STATED)
    used = _used(pl.concat(rows, rechunk=False), states, table)
    if table.name == "bookings":
        services = frame_of(con, "SELECT * FROM services")
        used = with_ends(with_prices(_one_row_per_line(con, used, settings), services), services)
    _know(con, table.name, used)
    accounts = frame_of(con, 'SELECT file, state, count(*) AS "rows" FROM stated GROUP BY ALL')
    faults = _any_fault(rows)
    rejected = _rejected(con, table) if faults else findings.hits([])
    worth = _worth(con, table) if faults else pl.DataFrame(schema=WORTH)
    corrected = _corrected(con) if _any_correction(rows) else pl.DataFrame(schema=CORRECTED)
    loaded = Loaded(used, rejected, _notes(con, table), accounts, corrected, worth)
    for name in ("states", "ranked", "particular"):
        con.unregister(name)
    return loaded


def _any_fault(rows: list[pl.DataFrame]) -> bool:
    return any(frame["fault"].null_count() < frame.height for frame in rows)


def _any_correction(rows: list[pl.DataFrame]) -> bool:
    return any((frame["corrects_file"] != "").any() for frame in rows)


def _nothing(table: Table) -> Loaded:
    """What is found out of a table without rows."""
    accounts, corrected, worth = (pl.DataFrame(schema=schema) for schema in (ACCOUNTS, CORRECTED, WORTH))
    return Loaded(table.empty(), findings.hits([]), findings.hits([]), accounts, corrected, worth)


def frame_of(con: duckdb.DuckDBPyConnection, query: str) -> pl.DataFrame:
    rows: pl.DataFrame = con.sql(query).pl()
    return rows


def _know(con: duckdb.DuckDBPyConnection, name: str, *frames: pl.DataFrame) -> None:
    """Let SQL read the frames, one below the other, under this name; one by one they need not be copied."""
    arrows = [frame.to_arrow(compat_level=pl.CompatLevel.newest()) for frame in frames]
    batches = chain.from_iterable(arrow.to_batches() for arrow in arrows)
    con.register(name, pa.Table.from_batches(batches, schema=arrows[0].schema))


def _find_several(con: duckdb.DuckDBPyConnection, rows: list[pl.DataFrame]) -> None:
    """Cells that name several services, as `several`."""
    cells = pl.concat(frame["service"].unique() for frame in rows)
    found = several_services(cells, service_names(frame_of(con, "SELECT * FROM services")))
    schema = {"cell": pl.String(), "services": pl.String()}
    _know(con, "several", pl.DataFrame([*found.items()], schema=schema, orient="row"))


def _some_at_a_time(rows: list[pl.DataFrame]) -> Iterator[list[pl.DataFrame]]:
    """The frames in turn, some together where they are small, so that what is found out for them fits in memory."""
    begins = accumulate((frame.height for frame in rows), initial=0)
    for _, some in groupby(zip(begins, rows, strict=False), lambda begun: begun[0] // ROWS_AT_ONCE):
        yield [frame for _, frame in some]


def _with_particular(con: duckdb.DuckDBPyConnection, table: Table, rows: list[pl.DataFrame]) -> list[pl.DataFrame]:
    """The rows with the columns that the table's own SQL works out for each."""
    if table.name not in PARTICULAR:
        return rows
    _know(con, "typed", *rows)
    found = frame_of(con, _sql(PARTICULAR[table.name])).sort("rid").drop("rid")
    con.unregister("typed")
    begins = accumulate((frame.height for frame in rows), initial=0)
    return [
        frame.with_columns(found.slice(begin, frame.height).rechunk().get_columns())
        for frame, begin in zip(rows, begins, strict=False)
    ]


def _used(rows: pl.DataFrame, states: pl.DataFrame, table: Table) -> pl.DataFrame:
    """The rows used, in the table's columns and the order of its time; of bookings also the services a row names."""
    columns = [*table.names, *(["services"] if table.name == "bookings" else []), *LINEAGE]
    others = states.filter(pl.col("state") != "used")
    keys = rows.select("rid", "fault", table.time, *LINEAGE).with_row_index("at")
    usable = keys.filter(pl.col("fault").is_null()).join(others, on="rid", how="anti")
    in_order = usable.sort(table.time, *LINEAGE, nulls_last=True)["at"]
    return pl.DataFrame([rows[name].gather(in_order) for name in columns])  # one by one, which needs less memory


def _one_row_per_line(con: duckdb.DuckDBPyConnection, used: pl.DataFrame, settings: Settings) -> pl.DataFrame:
    """Rows that name several services become a line for each; lines without numbers are numbered in file order."""
    if used["line"].null_count() == 0 and (used["services"] == "").all():
        return used.drop("services")
    lines = in_lines(used, frame_of(con, "SELECT * FROM services"), digits_of(settings.salon.currency))
    visit = ["site", "booking_id"]
    in_order = lines.with_row_index("place").sort("row", "place")
    number = pl.when(pl.col("line").is_null().any().over(visit)).then(pl.int_range(1, pl.len() + 1).over(visit))
    numbered = in_order.with_columns(line=number.otherwise("line").cast(pl.Int64))
    return numbered.sort(TABLES["bookings"].time, *LINEAGE, "line", nulls_last=True).drop("place")


def _sql(name: str) -> str:
    return package_files("analytics.intake.publishing").joinpath("sql", f"{name}.sql").read_text(encoding="utf-8")


def _ranked_query(table: Table) -> str:
    """The rank of each file among the table's files: the one that reaches further in time is the newer."""
    return f"""
        WITH reach AS (
            SELECT file, max({table.time}) FILTER (WHERE fault IS NULL) AS reach FROM particular GROUP BY file
        )
        SELECT file, row_number() OVER (ORDER BY reach NULLS FIRST, parse_filename(file), file) AS file_rank
        FROM reach"""


def _ready_query(table: Table) -> str:
    """Rows with the rank of their file, or of the file they correct, and their content as one number."""
    content = ", ".join(f'coalesce("{name}"::VARCHAR, chr(30))' for name in table.names)
    columns = ", ".join(f'"{name}"' for name in table.names)
    return f"""
        SELECT particular.*,
            coalesce(corrected.file_rank, own.file_rank) AS file_rank,
            hash({columns}) AS likeness,
            md5_number(concat_ws(chr(31), {content})) AS content
        FROM particular
        JOIN ranked AS own ON own.file = particular.file
        LEFT JOIN ranked AS corrected ON corrected.file = corrects_file"""


def _rejected(con: duckdb.DuckDBPyConnection, table: Table) -> pl.DataFrame:
    query = f"""SELECT fault.code AS code, '{table.name}' AS "table", file, "row", fault."column" AS "column",
        fault.value AS value, fault.expected AS expected FROM particular WHERE fault IS NOT NULL
        ORDER BY file, "row" """
    return frame_of(con, query).cast(findings.HITS)  # type: ignore[arg-type]


def _worth(con: duckdb.DuckDBPyConnection, table: Table) -> pl.DataFrame:
    amount = AMOUNTS.get(table.name, "NULL")
    day = f"CAST({table.time} AS DATE)" if table.time in HAPPENS else "CAST(NULL AS DATE)"
    query = f"""SELECT file, "row", {day} AS day, ({amount})::DECIMAL(18, 4) AS amount
        FROM particular WHERE fault IS NOT NULL ORDER BY file, "row" """
    return frame_of(con, query).cast(WORTH)  # type: ignore[arg-type]


def _notes(con: duckdb.DuckDBPyConnection, table: Table) -> pl.DataFrame:
    """Hits of rows that were used but want a look."""
    found = (frame_of(con, _sql(name)).cast(findings.HITS) for name in NOTED[table.name])  # type: ignore[arg-type]
    return pl.concat([findings.hits([]), *found])


def _corrected(con: duckdb.DuckDBPyConnection) -> pl.DataFrame:
    corrects = "SELECT corrects_file AS file, try_cast(corrects_row AS BIGINT) AS row FROM stated"
    return frame_of(con, f"{corrects} WHERE corrects_file <> ''").drop_nulls()


def _state_query(table: Table) -> str:
    if table.name == "bookings":
        return _sql("state_of_visits")
    if table.key:
        key = ", ".join(f'"{name}"' for name in table.key)
        return _sql("state_by_key").replace("{key}", key)
    return _sql("state_by_count")
