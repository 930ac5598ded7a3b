"""Sentences and handovers choose rows and word them: a number that anybody reads is a column of a figure."""

import ast
from pathlib import Path

import pytest

import analytics.handover
import analytics.sentences

SENTENCES = Path(analytics.sentences.__path__[0])
HANDOVER = Path(analytics.handover.__path__[0])
MAY = {  # modules of the handover that work something out, and what
    "accountant/sheets/totals.py": "the sums of what stands in a sheet, nowhere else",
    "accountant/workbook.py": "which cell something stands in, and how wide and tall cells are",
    "calendar.py": "how many octets a line of the file has",
    "drawing.py": "where a number lies in a picture",
}
SIGNS = {ast.Div: "/", ast.FloorDiv: "//", ast.Mult: "*", ast.Pow: "**", ast.Mod: "%", ast.Sub: "-"}
METHODS = {
    *("sum", "mean", "median", "quantile", "std", "var", "product", "cum_sum", "diff", "shift", "rolling_mean"),
    *("group_by", "agg", "over", "rank", "clip"),
}
SHAPING = {"select", "with_columns"}  # a sentence needs neither; a sheet names and words its columns with them
FUNCTIONS = {"sum", "round", "divmod", "pow"}


def worked_out(source: str) -> set[str]:
    """The arithmetic in a module: signs between numbers, and what sums, averages or groups."""
    found = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.BinOp | ast.AugAssign):
            found.add(SIGNS.get(type(node.op), ""))
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            found |= {node.func.attr} & (METHODS | SHAPING)
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            found |= {node.func.id} & FUNCTIONS
    return found - {""}


def modules(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*.py"))


@pytest.mark.parametrize("module", modules(SENTENCES))
def test_a_sentence_works_nothing_out(module: str) -> None:
    assert worked_out((SENTENCES / module).read_text(encoding="utf-8")) == set()


@pytest.mark.parametrize("module", modules(HANDOVER))
def test_a_handover_works_nothing_out(module: str) -> None:
    found = worked_out((HANDOVER / module).read_text(encoding="utf-8")) - SHAPING
    assert bool(found) == (module in MAY), found


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
        ("taken = rows.group_by('day').agg(pl.col('amount').sum())", "group_by"),
        ("frame.with_columns(due=pl.col('received') - pl.col('difference'))", "-"),
    ],
)
def test_what_is_worked_out_is_found(line: str, sign: str) -> None:
    assert sign in worked_out(line)


def test_choosing_and_wording_is_not_arithmetic() -> None:
    said = "rows.filter(pl.col('packs') > 0).sort('item').head(3); 'a' + 'b'; -share; abs(gap); len(rows); day + week"
    assert worked_out(said) == set()
