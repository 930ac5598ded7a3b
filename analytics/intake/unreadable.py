"""Which of several dropped files cannot be read at all, each with its sentence, before any is kept."""

import shutil
import tempfile
from pathlib import Path

from analytics.definitions.findings import CATALOGUE
from analytics.intake.meaning.sheets import read_sheets
from analytics.intake.reading.find import FOLDER, find_exports
from analytics.settings import Settings
from analytics.stops import WorkStopped
from analytics.storage.keeping import safe_name


def unreadable(files: list[tuple[Path, str]], settings: Settings) -> dict[int, str]:
    """By place in the list: why this file, of these bytes and this name, cannot be kept; nothing of those that can."""
    found = {place: _why_not(path, safe_name(name), settings) for place, (path, name) in enumerate(files)}
    return {place: why for place, why in found.items() if why}


def _why_not(path: Path, name: str, settings: Settings) -> str:
    with tempfile.TemporaryDirectory(prefix="salon-figures-") as folder:
        exports = Path(folder) / FOLDER
        exports.mkdir()
        shutil.copyfile(path, exports / name)
        try:
            readable = [export for export in find_exports(Path(folder)) if export.readable]
            sheets = [sheet for export in readable for sheet in read_sheets(export, settings)]
        except WorkStopped as stop:
            return f"{name} holds no files; pack the exports into it again." if folder in str(stop) else str(stop)
        if not readable:
            fault = CATALOGUE["unknown_file"]
            return f"{fault.says.format(file=name)}; {fault.what_to_do}."
        return "" if any(not sheet.records.is_empty() for sheet in sheets) else f"{name} is empty; export it again."
