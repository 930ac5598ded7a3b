"""The loaded tables against their definitions in tables.py, by Great Expectations; what breaks a rule is a finding.

Great Expectations is imported here only, and only when a load runs: it takes seconds. It works on a pandas frame in
memory with an ephemeral context; it writes no pages and sends nothing.
"""

import logging
import os
import warnings
from typing import Any

import polars as pl

from analytics import findings
from analytics.tables import TABLES, Column, Table

Hit = tuple[str, str, str, int | None, str | None, str | None, str | None]
LINEAGE = ["file", "row"]


def check_tables(frames: dict[str, pl.DataFrame]) -> pl.DataFrame:
    """Hits (findings.HITS) of every cell that breaks the rule of its column, and of checks that could not be run."""
    os.environ.setdefault("GX_ANALYTICS_ENABLED", "false")
    import great_expectations as gx

    logging.getLogger("great_expectations").setLevel(logging.ERROR)
    hits: list[Hit] = []
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        context = gx.get_context(mode="ephemeral")
        context.variables.progress_bars = {"globally": False}  # type: ignore[assignment]
        source = context.data_sources.add_pandas("loaded")
        for name, table in TABLES.items():
            frame = frames[name]
            batch = source.add_dataframe_asset(name).add_batch_definition_whole_dataframe("all")
            suite = gx.ExpectationSuite(name=name, expectations=_expectations(gx.expectations, table, frame.height))
            outcome = batch.get_batch(batch_parameters={"dataframe": _as_pandas(frame)}).validate(
                suite,
                result_format={"result_format": "COMPLETE", "unexpected_index_column_names": LINEAGE},
            )
            for result in outcome.results:
                hits += _hits(table, result)
    return findings.hits(hits)


def _as_pandas(frame: pl.DataFrame) -> Any:
    """Decimals as floats, since only their range is looked at; whole numbers stay whole beside empty cells."""
    decimals = [name for name, kind in frame.schema.items() if kind.is_decimal()]
    return frame.with_columns(pl.col(decimals).cast(pl.Float64)).to_pandas(use_pyarrow_extension_array=True)


def _expectations(known: Any, table: Table, rows: int) -> list[Any]:
    """The table's rules as expectations; the row count too, because an empty frame passes every other."""
    rules = [known.ExpectTableRowCountToEqual(value=rows)]
    for column in table.columns:
        rules += _of_column(known, column)
    for larger, smaller in table.at_least:
        rules.append(
            known.ExpectColumnPairValuesAToBeGreaterThanB(
                column_A=larger, column_B=smaller, or_equal=True, ignore_row_if="either_value_is_missing"
            )
        )
    if table.key:
        key = [*table.key, *(["line"] if "line" in table.names else [])]
        rules.append(known.ExpectCompoundColumnsToBeUnique(column_list=key, ignore_row_if="never"))
    return rules


def _of_column(known: Any, column: Column) -> list[Any]:
    rules = []
    if column.required:
        rules.append(known.ExpectColumnValuesToNotBeNull(column=column.name))
    if column.words:
        rules.append(known.ExpectColumnValuesToBeInSet(column=column.name, value_set=list(column.words)))
    if column.low is not None or column.high is not None:
        rules.append(
            known.ExpectColumnValuesToBeBetween(column=column.name, min_value=column.low, max_value=column.high)
        )
    return rules


def _hits(table: Table, result: Any) -> list[Hit]:
    """One hit per cell out of range; anything else that fails is a fault of loading itself and is said as such."""
    if result.success:
        return []
    asked = result.expectation_config
    column = asked.kwargs.get("column") or asked.kwargs.get("column_B")
    cells = result.result.get("unexpected_index_list") or []
    ranged = asked.type in ("expect_column_values_to_be_between", "expect_column_pair_values_a_to_be_greater_than_b")
    if result.exception_info.get("raised_exception") or not ranged or not cells:
        return [("check_failed", table.name, "", None, column, asked.type, None)]
    return [
        ("out_of_range", table.name, cell["file"], int(cell["row"]), column, str(cell[column]), _range(asked.kwargs))
        for cell in cells
    ]


def _range(rule: dict[str, Any]) -> str:
    if "column_A" in rule:
        upper = rule["column_A"] if rule["column_B"] == "left_g" else None
        return f"what {upper} allows" if upper else f"the days after {rule['column_B']}"
    low, high = rule.get("min_value"), rule.get("max_value")
    if high is None:
        return f"{low:g} and more"
    return f"{low:g} to {high:g}" if low is not None else f"up to {high:g}"
