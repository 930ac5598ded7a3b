"""Sentences choose rows and word them: a number that anybody reads is a column of a figure, with its formula."""

import ast
from pathlib import Path

import pytest

import analytics.sentences

FOLDER = Path(analytics.sentences.__path__[0])
MODULES = sorted(path.name for path in FOLDER.glob("*.py"))
SIGNS = {ast.Div: "/", ast.FloorDiv: "//", ast.Mult: "*", ast.Pow: "**", ast.Mod: "%", ast.Sub: "-"}
METHODS = {
    *("sum", "mean", "median", "quantile", "std", "var", "product", "cum_sum", "diff", "shift", "rolling_mean"),
    *("group_by", "agg", "over", "rank", "clip", "select", "with_columns"),
}
FUNCTIONS = {"sum", "round", "divmod", "pow"}


def worked_out(source: str) -> set[str]:
    """The arithmetic in a module: signs between numbers, and what sums, averages or groups."""
    found = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.BinOp | ast.AugAssign):
            found.add(SIGNS.get(type(node.op), ""))
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            found |= {node.func.attr} & METHODS
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            found |= {node.func.id} & FUNCTIONS
    return found - {""}


@pytest.mark.parametrize("module", MODULES)
def test_a_sentence_works_nothing_out(module: str) -> None:
    found = worked_out((FOLDER / module).read_text(encoding="utf-8"))
    assert found == set()


@pytest.mark.parametrize(
    ("line", "sign"),
    [
        ("share = row['left_g'] / row['mixed_g']", "/"),
        ("gap = row['value'] - row['previous']", "-"),
        ("percent = 100 * share", "*"),
        ("left -= used", "-"),
        ("net = sold['net'].sum()", "sum"),
        ("usual = rows.select(pl.col('net').mean())", "mean"),
        ("high = rows['net'].quantile(0.9)", "quantile"),
        ("visits = sum(row['visits'] for row in rows)", "sum"),
        ("days = round(gap)", "round"),
    ],
)
def test_what_is_worked_out_is_found(line: str, sign: str) -> None:
    assert sign in worked_out(line)


def test_choosing_and_wording_is_not_arithmetic() -> None:
    said = "rows.filter(pl.col('packs') > 0).sort('item').head(3); 'a' + 'b'; -share; abs(gap); len(rows); day + week"
    assert worked_out(said) == set()
