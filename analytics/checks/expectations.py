"""The loaded tables against their definitions and against each other, by Great Expectations.

What breaks a rule is a finding. Great Expectations is imported here only, and only when a load runs: it takes seconds.
It works on pandas frames in memory with an ephemeral context; it writes no pages and sends nothing.

It is handed the different values of what a rule is about, not the rows: a range or a set of words needs no more. The
values it did not expect are looked up again in the table, so that every row is found and counted.
"""

import logging
import os
import warnings
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import chain, groupby
from threading import Thread
from typing import Any

import polars as pl

from analytics.checks.cross_checks import CROSS_CHECKS
from analytics.checks.cross_checks.cross_check import CrossCheck, Rows
from analytics.definitions import findings
from analytics.definitions.columns import LINEAGE, Column, Table
from analytics.definitions.tables import TABLES
from analytics.settings import Settings

KEY_REPEATED = "key that stands more than once"


@dataclass(frozen=True)
class Judged:
    """What a rule is about: an expression over the table, the column a finding names, and its range in words."""

    made: pl.Expr
    column: str
    range: str


@dataclass(frozen=True)
class Made:
    """A check with its rows and the different values that are judged."""

    check: CrossCheck
    rows: pl.DataFrame
    values: pl.Series


def check_tables(frames: dict[str, pl.DataFrame]) -> pl.DataFrame:
    """Hits (findings.HITS) of every cell that breaks the rule of its column, and of checks that could not be run."""
    expect = Expectations()
    parts = [_check_table(expect, table, frames[name]) for name, table in TABLES.items()]
    return pl.concat([findings.hits([]), *parts])


def check_crossings(frames: dict[str, pl.DataFrame], settings: Settings) -> pl.DataFrame:
    """Hits of what does not fit across rows and tables, and of cross_checks that could not be worked out."""
    made: list[Made] = []
    failed: list[pl.DataFrame] = []
    for rows, same in groupby(CROSS_CHECKS, _rows):
        cross_checks = list(same)
        try:
            made += _make(rows(frames, settings), cross_checks)
        except (Exception, pl.exceptions.PanicException) as error:
            failed += [_crashed(check, error) for check in cross_checks]
    return pl.concat([findings.hits([]), *failed, *_judge_all(made, settings)])


def import_ahead() -> None:
    """Begin to import what the checks need, in a thread of its own, while other work is done."""
    Thread(target=_import).start()


def _import() -> Any:
    os.environ.setdefault("GX_ANALYTICS_ENABLED", "false")
    import great_expectations

    return great_expectations


class Expectations:
    """Great Expectations, imported and set up to say and send nothing."""

    def __init__(self) -> None:
        self._gx: Any = _import()
        logging.getLogger("great_expectations").setLevel(logging.ERROR)
        self.known: Any = self._gx.expectations
        self._context: Any = self._gx.get_context(mode="ephemeral")
        self._context.variables.progress_bars = {"globally": False}
        asset = self._context.data_sources.add_pandas("loaded").add_dataframe_asset("values")
        self._whole: Any = asset.add_batch_definition_whole_dataframe("whole")

    def results(self, name: str, values: pl.DataFrame, rules: list[Any]) -> list[Any]:
        """What became of each rule on these values; unexpected ones are told by their place."""
        batch = self._whole.get_batch({"dataframe": _as_pandas(values)})
        suite = self._gx.ExpectationSuite(name=name, expectations=rules)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            results: list[Any] = batch.validate(suite, result_format={"result_format": "COMPLETE"}).results
        return results


def _as_pandas(frame: pl.DataFrame) -> Any:
    """Decimals as floats, since only their range is looked at; whole numbers stay whole beside empty cells."""
    decimals = [name for name, kind in frame.schema.items() if kind.is_decimal()]
    return frame.with_columns(pl.col(decimals).cast(pl.Float64)).to_pandas(use_pyarrow_extension_array=True)


def _unexpected(result: Any) -> list[int] | None:
    """The places of unexpected values; None where the rule itself could not be judged."""
    if result.success:
        return []
    return result.result.get("unexpected_index_list") or None


def _failed(table: str, column: str | None, check: str) -> pl.DataFrame:
    return findings.hits([("check_failed", table, "", None, column, check, None)])


def _check_table(expect: Expectations, table: Table, frame: pl.DataFrame) -> pl.DataFrame:
    if frame.is_empty():
        return findings.hits([])
    try:
        values = _values(table, frame)
        results = expect.results(table.name, values, _expectations(expect.known, table, values.height))
        return pl.concat([findings.hits([]), *(_broken(table, frame, values, result) for result in results)])
    except MemoryError:
        raise
    except (Exception, pl.exceptions.PanicException) as error:
        return _failed(table.name, None, f"of every column ({type(error).__name__})")


def _judged(table: Table) -> dict[str, Judged]:
    """What stands in a range in this table: columns, and how much one column is more than another."""
    ranged = [column for column in table.columns if _has_range(column)]
    alone = {column.name: Judged(pl.col(column.name), column.name, _range(column)) for column in ranged}
    return alone | {_more(*pair): _judged_pair(*pair) for pair in table.at_least}


def _has_range(column: Column) -> bool:
    return column.low is not None or column.high is not None


def _range(rule: Column) -> str:
    if rule.high is None:
        return f"{rule.low:g} and more"
    return f"{rule.low:g} to {rule.high:g}" if rule.low is not None else f"up to {rule.high:g}"


def _more(larger: str, smaller: str) -> str:
    return f"{larger} less {smaller}"


def _judged_pair(larger: str, smaller: str) -> Judged:
    allows = f"what {larger} allows" if smaller == "left_g" else f"the days after {smaller}"
    return Judged((pl.col(larger) - pl.col(smaller)).to_physical().cast(pl.Float64), smaller, allows)


def _values(table: Table, frame: pl.DataFrame) -> pl.DataFrame:
    """The different values of whatever the table's rules are about, side by side.

    Of a column that only must be filled one value is enough, and an empty one if it has any. Shorter columns are filled
    up with their first value, which says nothing new.
    """
    columns = {name: frame.select(judged.made.alias(name))[name].unique() for name, judged in _judged(table).items()}
    for column in table.columns:
        if column.words:
            columns[column.name] = frame[column.name].unique()
        elif column.required and column.name not in columns:
            columns[column.name] = _filled_or_not(frame[column.name])
    if table.key:
        columns[KEY_REPEATED] = _repeated(frame.select(_whole_key(table)))
    most = max(map(len, columns.values()))
    return pl.DataFrame({name: _filled_up(values, most) for name, values in columns.items()})


def _filled_or_not(values: pl.Series) -> pl.Series:
    return pl.concat([values.drop_nulls().head(1), values.filter(values.is_null()).head(1)])


def _filled_up(values: pl.Series, height: int) -> pl.Series:
    return values.extend_constant(values[0], height - len(values)) if len(values) < height else values


def _repeated(keys: pl.DataFrame) -> pl.Series:
    """Whether a key stands more than once; of a million long keys only those of one hash are compared as they are."""
    suspects = keys.filter(keys.hash_rows().is_duplicated())
    return pl.Series([suspects.is_duplicated().any()] if keys.height else [], dtype=pl.Boolean)


def _whole_key(table: Table) -> list[str]:
    return [*table.key, *(["line"] if "line" in table.names else [])]


def _expectations(known: Any, table: Table, rows: int) -> list[Any]:
    """The table's rules as expectations; the row count too, because an empty frame passes every other."""
    rules = [known.ExpectTableRowCountToEqual(value=rows)]
    rules += chain.from_iterable(_of_column(known, column) for column in table.columns)
    rules += [known.ExpectColumnValuesToBeBetween(column=_more(*pair), min_value=0) for pair in table.at_least]
    if table.key:
        rules.append(known.ExpectColumnValuesToBeInSet(column=KEY_REPEATED, value_set=[False]))
    return rules


def _of_column(known: Any, column: Column) -> Iterator[Any]:
    if column.required:
        yield known.ExpectColumnValuesToNotBeNull(column=column.name)
    if column.words:
        yield known.ExpectColumnValuesToBeInSet(column=column.name, value_set=list(column.words))
    if _has_range(column):
        yield known.ExpectColumnValuesToBeBetween(column=column.name, min_value=column.low, max_value=column.high)


def _broken(table: Table, frame: pl.DataFrame, values: pl.DataFrame, result: Any) -> pl.DataFrame:
    """One hit per cell out of range; anything else that fails is a fault of loading itself and is said as such."""
    places, rule = _unexpected(result), result.expectation_config
    name = rule.kwargs.get("column")
    if places == []:
        return findings.hits([])
    if places is None or rule.type != "expect_column_values_to_be_between":
        return _failed(table.name, name, rule.type)
    judged = _judged(table)[name]
    rows = frame.filter(judged.made.is_in(values[name][places].unique().implode()))
    value = _text(rows[judged.column])
    return findings.hits_in(rows, "out_of_range", table.name, judged.column, value=value, expected=judged.range)


def _text(cells: pl.Series) -> pl.Series:
    """The cells as text: decimals without the zeros of their scale, moments to the second."""
    if isinstance(cells.dtype, pl.Datetime):
        return cells.dt.strftime("%Y-%m-%d %H:%M:%S")
    return (cells.cast(pl.Float64) if cells.dtype.is_decimal() else cells).cast(pl.String)


def _rows(check: CrossCheck) -> Rows:
    return check.rows


def _crashed(check: CrossCheck, error: BaseException) -> pl.DataFrame:
    """That the check failed and with what kind of error; its text may quote cells. A full memory stops the load."""
    if isinstance(error, MemoryError):
        raise error
    return _failed(check.table, check.column, f"{check.code} ({type(error).__name__})")


def _make(rows: pl.DataFrame, cross_checks: list[CrossCheck]) -> list[Made]:
    """Of no rows nothing is asked: every rule takes its time."""
    return [] if rows.is_empty() else [Made(check, rows, rows[check.judged.name].unique()) for check in cross_checks]


def _judge_all(made: list[Made], settings: Settings) -> list[pl.DataFrame]:
    """The hits of each cross-check; their values stand side by side in one frame, since every frame takes its time."""
    try:
        results = _results_of(made) if made else []
    except (Exception, pl.exceptions.PanicException) as error:
        return [_crashed(each.check, error) for each in made]
    return [_judge(each, result, settings) for each, result in zip(made, results, strict=True)]


def _results_of(made: list[Made]) -> list[Any]:
    """What became of each check's rule; of the row count where that is wrong, since then nothing was judged."""
    expect, most = Expectations(), max(len(each.values) for each in made)
    values = {str(place): each.values.extend_constant(None, most - len(each.values)) for place, each in enumerate(made)}
    named = [replace(each.check.judged, name=str(place)) for place, each in enumerate(made)]
    rules = chain.from_iterable(_of_column(expect.known, column) for column in named)
    rows = expect.known.ExpectTableRowCountToEqual(value=most)
    results = expect.results("cross_checks", pl.DataFrame(values), [rows, *rules])
    by_column = {result.expectation_config.kwargs.get("column"): result for result in results}
    counted = by_column[None]
    return [by_column[column.name] if counted.success else counted for column in named]


def _judge(made: Made, result: Any, settings: Settings) -> pl.DataFrame:
    try:
        return _outside(made, result, settings)
    except (Exception, pl.exceptions.PanicException) as error:
        return _crashed(made.check, error)


def _outside(made: Made, result: Any, settings: Settings) -> pl.DataFrame:
    check, places = made.check, _unexpected(result)
    if places is None:
        return _failed(check.table, check.column, f"{check.code} ({result.expectation_config.type})")
    odd = made.rows.filter(pl.col(check.judged.name).is_in(made.values[places].implode())).sort(*LINEAGE)
    return findings.hits_in(odd, check.code, check.table, check.column, **check.texts(settings))
