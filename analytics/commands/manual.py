"""The reference part of the README, made from the definitions: `python -m analytics.commands.manual` prints it.

`python -m analytics.commands.manual README.md` writes it between the two marks in that file.
"""

import sys
from pathlib import Path

from analytics.catalogue import figure_names, summary
from analytics.definitions.findings import CATALOGUE, in_general
from analytics.definitions.results import RESULTS
from analytics.definitions.tables import TABLES, Column, Table

BEGIN, END = "<!-- reference: made by python -m analytics.commands.manual README.md -->", "<!-- end of reference -->"


def manual() -> str:
    """Tables in, figures out and the catalogue of findings, as Markdown."""
    parts = ["## The tables exports are read into", *map(_table, TABLES.values())]
    parts += ["## The figures", *map(_figure, figure_names()), "## What can be wrong with exports", _catalogue()]
    return "\n\n".join(parts)


def _table(table: Table) -> str:
    needed = " (needed)" if table.required else ""
    rows = [f"| {column.name}{_star(table, column)} | {_meaning(column)} |" for column in table.columns]
    return "\n".join([f"**{table.name}**{needed}: {table.grain}", "", "| column | meaning |", "| --- | --- |", *rows])


def _star(table: Table, column: Column) -> str:
    return "*" if column.required or any(column.name in group for group in table.either) else ""


def _meaning(column: Column) -> str:
    words = f": {', '.join(column.words)}" if column.words else ""
    default = f" (empty: {column.default})" if column.default else ""
    return column.meaning + words + default


def _figure(name: str) -> str:
    columns = RESULTS[name].columns.items()
    rows = [f"| {column} | {meaning}{f', {unit}' if unit else ''} |" for column, (_, unit, meaning) in columns]
    says = f"**{name}**: {RESULTS[name].grain}. {summary(name)}"
    return "\n".join([says, "", "| column | meaning |", "| --- | --- |", *rows])


def _catalogue() -> str:
    rows = [
        f"| {fault.code} | {in_general(fault.says)} | {in_general(fault.what_to_do)} | {_yes_no(fault.sets_aside)} |"
        for fault in CATALOGUE.values()
    ]
    return "\n".join(["| code | what it says | what to do | row set aside |", "| --- | --- | --- | --- |", *rows])


def _yes_no(true: bool) -> str:
    return "yes" if true else "no"


def main() -> None:
    if len(sys.argv) < 2:
        print(manual())
        return
    path = Path(sys.argv[1])
    before, _, rest = path.read_text(encoding="utf-8").partition(BEGIN)
    after = rest.partition(END)[2]
    path.write_text(f"{before}{BEGIN}\n\n{manual()}\n\n{END}{after}", encoding="utf-8")


if __name__ == "__main__":
    main()
