"""The reference: every setting, table, figure and finding, made from the definitions.

`salon-figures reference` prints it; `python -m analytics.commands.reference` writes it to the page beside this file.
"""

from pathlib import Path

from pydantic.fields import FieldInfo

from analytics.catalogue import figure_names, result, summary
from analytics.definitions.columns import Column, Table
from analytics.definitions.findings import CATALOGUE, in_general
from analytics.definitions.tables import TABLES
from analytics.settings import WEEKDAYS, Section, Settings

PAGE = Path(__file__).with_name("reference.md")


def reference() -> str:
    """Settings, tables in, figures out and the catalogue of findings, as Markdown."""
    parts = [
        "# Reference",
        "Every setting, table, figure and finding, as `salon-figures reference` prints them.",
        "## The settings, salon.toml",
        "Every key but the name has a default; an unknown key, a wrong type or an impossible value stops the work.",
        _settings(),
        "## The tables exports are read into",
        *map(_table, TABLES.values()),
        "## The figures",
        *map(_figure, figure_names()),
        "## What can be wrong with exports",
        _catalogue(),
    ]
    return "\n\n".join(parts) + "\n"


def _settings() -> str:
    rows = []
    for section, field in Settings.model_fields.items():
        kind = field.annotation
        if isinstance(kind, type) and issubclass(kind, Section):
            rows += [
                _setting(_key(section, key), one) for key, one in kind.model_fields.items() if key not in WEEKDAYS[1:]
            ]
        else:
            rows.append(_setting(f"[{section}]", field))
    return "\n".join(["| key | default | meaning |", "| --- | --- | --- |", *rows])


def _key(section: str, key: str) -> str:
    named = {"by_kind": f"[{section}.&lt;kind&gt;]", "mon": f"[{section}] mon, tue, wed, thu, fri, sat, sun"}
    return named.get(key, f"[{section}] {key}")


def _setting(key: str, field: FieldInfo) -> str:
    meaning = (field.description or "").replace("<", "&lt;").replace(">", "&gt;")
    return f"| {key} | {_default(field)} | {meaning} |"


def _default(field: FieldInfo) -> str:
    default = field.get_default()
    if field.is_required() or default in ((), {}, None):
        return ""
    return f'"{default}"' if isinstance(default, str) else str(default)


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
    columns = result(name).columns.items()
    rows = [f"| {column} | {of.meaning}{f', {of.unit}' if of.unit else ''} |" for column, of in columns]
    says = f"**{name}**: {result(name).grain}. {summary(name)}"
    return "\n".join([says, "", "| column | meaning |", "| --- | --- |", *rows])


def _catalogue() -> str:
    rows = [
        f"| {fault.code} | {in_general(fault.says)} | {in_general(fault.what_to_do)} | {_yes_no(fault.sets_aside)} |"
        for fault in CATALOGUE.values()
    ]
    return "\n".join(["| code | what it says | what to do | row set aside |", "| --- | --- | --- | --- |", *rows])


def _yes_no(true: bool) -> str:
    return "yes" if true else "no"


if __name__ == "__main__":
    PAGE.write_text(reference(), encoding="utf-8")
