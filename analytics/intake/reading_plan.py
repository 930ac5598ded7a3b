"""The exports looked at together before they are loaded: the first rows of each, and the plan that is made of them."""

from collections.abc import Iterable
from dataclasses import replace

from analytics.intake.evidence.plan import Plan, make_plan
from analytics.intake.meaning.sheets import Sheet, first_records, read_sheets
from analytics.intake.meaning.table_rules import leaves_out_file
from analytics.intake.reading.find import TEXTS, Export
from analytics.intake.shapes.laid_out import laid_out
from analytics.settings import Settings

WHOLE_BYTES = 512 * 1024  # a text file up to this size is read once, of a larger one the beginning first
BEGINNING_BYTES = 128 * 1024  # a thousand rows or more
KEPT_BYTES = 16 * 1024**2  # of exports whose sheets are kept until they are loaded


class Sheets:
    """The sheets of exports, laid out; what was read to make the plan is not read again."""

    def __init__(self, settings: Settings) -> None:
        self.settings = settings
        self._kept: dict[str, list[Sheet]] = {}
        self._bytes = 0

    def of(self, export: Export) -> list[Sheet]:
        """All its rows; what was kept is given away once."""
        kept = self._kept.pop(export.name, None)
        sheets = self._read(export) if kept is None else kept
        return [replace(sheet, export=export) for sheet in sheets]

    def beginning_of(self, export: Export) -> list[Sheet]:
        """At least its first rows."""
        size = export.size_bytes
        if export.suffix in TEXTS and size > WHOLE_BYTES:
            return [laid for sheet in first_records(export, BEGINNING_BYTES, self.settings) for laid in laid_out(sheet)]
        sheets = self._read(export)
        if self._bytes + size <= KEPT_BYTES:
            self._bytes += size
            self._kept[export.name] = sheets
        return sheets

    def _read(self, export: Export) -> list[Sheet]:
        return [laid for sheet in read_sheets(export, self.settings) for laid in laid_out(sheet)]


def planned(exports: Iterable[Export], sheets: Sheets) -> Plan:
    """Raises WorkStopped where an export cannot be read, Asked where something has to be said."""
    wanted = [export for export in exports if not leaves_out_file(export.name, sheets.settings)]
    return make_plan([sheet for export in wanted for sheet in sheets.beginning_of(export)], sheets.settings)
