"""The confirmed menu as a workbook of the salon's own among its exports, to be opened and changed in a spreadsheet.

A workbook and no text file, so that a spreadsheet of any country reads its days and amounts as they are meant, and no
name of a service as a formula.
"""

from datetime import date, datetime
from decimal import Decimal
from io import BytesIO
from pathlib import Path

import polars as pl
import xlsxwriter

from analytics.intake.publishing.drafted_menu import DRAFT
from analytics.stops import WorkStopped
from analytics.storage.keeping import EXPORTS
from analytics.storage.private_files import replace_private
from analytics.storage.settings_file import write_settings

OWN_MENU = "confirmed menu.xlsx"
CREATED = datetime(2020, 1, 1)  # the same bytes each time
WIDTHS = {"service_id": 26, "service": 30, "kind": 16, "valid_from": 12}


def keep_menu(folder: Path, menu: pl.DataFrame, of_files: list[str]) -> None:
    """Write the menu among the exports, in place of the one that was confirmed before.

    of_files: the files that the menu was read from, which are left out from now on. Raises WorkStopped where the folder
    cannot be written to.
    """
    others = [name for name in of_files if name != DRAFT and name.partition("#")[0] != OWN_MENU]
    if others:
        write_settings(folder, {("tables",): dict.fromkeys(others, "")})
    try:
        replace_private(folder.joinpath(EXPORTS, OWN_MENU), as_workbook(menu))
    except OSError:
        raise WorkStopped(f"{folder} cannot be written to; check its rights and the free space.") from None


def as_workbook(menu: pl.DataFrame) -> bytes:
    """One sheet with the headings of the reference; days and numbers are days and numbers."""
    made = BytesIO()
    book = xlsxwriter.Workbook(made, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False})
    book.set_properties({"created": CREATED})
    sheet, bold, day = book.add_worksheet("Menu"), book.add_format({"bold": True}), book.add_format({"num_format": 14})
    sheet.freeze_panes(1, 0)
    for place, name in enumerate(menu.columns):
        sheet.set_column(place, place, WIDTHS.get(name, 14))
        sheet.write_string(0, place, name, bold)
        for row, value in enumerate(menu[name], start=1):
            _write(sheet, row, place, value, day)
    book.close()
    return made.getvalue()


def _write(sheet: xlsxwriter.worksheet.Worksheet, row: int, place: int, value: object, day: object) -> None:
    match value:
        case None:
            return
        case bool():
            sheet.write_string(row, place, "yes" if value else "no")
        case date():
            sheet.write_datetime(row, place, datetime(value.year, value.month, value.day), day)
        case int() | float() | Decimal():
            sheet.write_number(row, place, float(value))
        case _:
            sheet.write_string(row, place, str(value))
