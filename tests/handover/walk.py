"""Walk ten totals of a quarter down to the rows of the exports, with nothing but a reader of workbooks and CSV files.

Run by hand where the demo salon was handed over: `python tests/handover/walk.py SALON 2026-Q3`. Nothing of the program
is used: totals are read from summary.xlsx, lines from lines.csv, and of every line the row of the export it names.
"""

import csv
import sys
from collections.abc import Callable
from decimal import Decimal
from functools import cache
from pathlib import Path

import openpyxl

Line = dict[str, str]
Row = dict[str, str]


def main() -> int:
    """Exit status 1 where a total is not the sum of its lines, or of the cells of its export rows."""
    salon, period = Path(sys.argv[1]), sys.argv[2]
    folder = salon / "handover" / period
    book = openpyxl.load_workbook(folder / "summary.xlsx", data_only=True)
    with (folder / "lines.csv").open(encoding="utf-8", newline="") as file:
        lines = list(csv.DictReader(file))
    wrong = 0
    for what, total, chosen, cells in walks(book):
        rows = [line for line in lines if chosen(line)]
        of_lines = sum((amount(line, cells[0]) for line in rows), Decimal(0))
        of_exports = sum((cells[1](exported(salon / "exports", line)) for line in rows), Decimal(0))
        agrees = total == of_lines == of_exports
        wrong += not agrees
        print(f"{what}: {total} there, {of_lines} in {len(rows)} lines, {of_exports} in their export rows"
              f"{'' if agrees else ': NOT THE SAME'}")  # fmt: skip
    return 1 if wrong else 0


Walk = tuple[str, Decimal, Callable[[Line], bool], tuple[str, Callable[[Row], Decimal]]]


def walks(book: openpyxl.Workbook) -> list[Walk]:
    """What it is called, the total in the workbook, which lines it is, their column and the same in an export row."""
    found: list[Walk] = []
    for rate in ("9", "21"):
        at_rate = cell(book, "Tax", {"Rate (%)": rate}, "With tax")
        found.append((f"Tax, gross at {rate} %", at_rate, of_rate(rate), ("gross_amount", charged)))
    for kind in ("cut", "lightening", "root touch-up"):
        total = cell(book, "Revenue", {"What": "services", "Kind": kind, "Rate (%)": "9"}, "With tax")
        found.append((f"Revenue, {kind}", total, of_kind(kind), ("gross_amount", charged)))
    total = cell(book, "Revenue", {"What": "retail"}, "With tax")
    found.append(
        (
            "Revenue, retail",
            total,
            lambda line: of_rate("21")(line) and line["supply"] == "retail",
            ("gross_amount", charged),
        )
    )
    for method in ("cash", "card"):
        total = cell(book, "Payments by method", {"Method": method}, "Amount")
        found.append((f"Payments, {method}", total, of_method(method), ("payment_amount", paid)))
    fees = cell(book, "Payments by method", {}, "Fees")
    found.append(
        ("Payment fees", fees, lambda line: line["item"] == "Fees", ("debit_amount", lambda row: number(row["fee"])))
    )
    bought = cell(book, "Purchases and stock", {}, "Purchases")
    found.append(("Product bought", bought, is_bought, ("debit_amount", cost)))
    return found


def of_rate(rate: str) -> Callable[[Line], bool]:
    return lambda line: line["gross_amount"] != "" and Decimal(line["tax_percentage"] or -1) == Decimal(rate)


def of_kind(kind: str) -> Callable[[Line], bool]:
    return lambda line: line["supply"] == "services" and line["kind"] == kind and of_rate("9")(line)


def of_method(method: str) -> Callable[[Line], bool]:
    return lambda line: line["payment_method"] == method


def is_bought(line: Line) -> bool:
    return line["item"] == "Product bought" and line["debit_amount"] != ""


def charged(row: Row) -> Decimal:
    """A line of the diary or of the till."""
    return number(row["price"]) * number(row.get("quantity") or "1") - number(row["discount"])


def paid(row: Row) -> Decimal:
    return number(row["amount"])


def cost(row: Row) -> Decimal:
    return (number(row["packs"]) * number(row["unit_cost"])).quantize(Decimal("0.01"))


def amount(line: Line, column: str) -> Decimal:
    return Decimal(line[column] or 0)


def number(cell: object) -> Decimal:
    return Decimal(str(cell or 0).replace(",", ".") or 0)


def cell(book: openpyxl.Workbook, title: str, wanted: dict[str, str], column: str) -> Decimal:
    """The sum of a column of a sheet over the rows that say so; all rows but the total where nothing is wanted."""
    page = book[title]
    head = next(row for row in page.iter_rows(min_row=1, max_row=8) if row[1].value and row[0].value)
    names = [str(name.value).split(" (EUR")[0] for name in head]
    total = Decimal(0)
    for row in page.iter_rows(min_row=head[0].row + 1):
        named = {name: str(one.value) for name, one in zip(names, row, strict=True)}
        if named[names[0]] != "Total" and all(named[name] == value for name, value in wanted.items()):
            total += Decimal(named[column])
    return total


@cache
def table(path: Path) -> list[list[str]]:
    """The rows of an export as a spreadsheet counts them, from 1."""
    if path.suffix == ".xlsx":
        page = openpyxl.load_workbook(path, data_only=True).worksheets[0]
        return [["" if one is None else str(one) for one in row] for row in page.iter_rows(values_only=True)]
    text = path.read_text(encoding="utf-8-sig")
    return list(csv.reader(text.splitlines(), delimiter=";" if text.split("\n")[0].count(";") else ","))


def exported(exports: Path, line: Line) -> Row:
    """The row of the export that the line names, by its headings."""
    rows = table(exports / line["file"])
    heading = next(row for row in rows if len([one for one in row if one]) > 3)
    return dict(zip(heading, rows[int(line["row"]) - 1], strict=False))


if __name__ == "__main__":
    sys.exit(main())
