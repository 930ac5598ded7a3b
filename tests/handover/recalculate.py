"""Let LibreOffice work the workbook's formulas out again, and hold each against our number.

Run by hand where soffice is installed: `python tests/handover/recalculate.py summary.xlsx`. The numbers that stand in
the workbook are taken out first, so that nothing but LibreOffice can have worked them out.
"""

import re
import subprocess
import sys
import tempfile
import zipfile
from pathlib import Path

import openpyxl

CACHED = re.compile(rb"(</f>)<v>[^<]*</v>")


def without_results(source: Path, target: Path) -> int:
    """The workbook without the results that stand beside its formulas; how many there were."""
    taken = 0
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content, count = CACHED.subn(rb"\1", old.read(name))
            taken += count
            new.writestr(name, content)
    return taken


def recalculated(source: Path, folder: Path) -> Path:
    """The workbook as LibreOffice saves it after working it out."""
    out = folder / "out"
    command = [
        "soffice",
        "--headless",
        "--convert-to",
        "xlsx:Calc MS Excel 2007 XML",
        "--outdir",
        str(out),
        str(source),
    ]
    subprocess.run(command, check=True, capture_output=True, timeout=180)
    return out / source.name


def main() -> int:
    """Exit status 1 where a formula comes to something else."""
    path = Path(sys.argv[1])
    with tempfile.TemporaryDirectory() as name:
        bare = Path(name) / "bare.xlsx"
        taken = without_results(path, bare)
        theirs = openpyxl.load_workbook(recalculated(bare, Path(name)), data_only=True)
    formulas, ours = openpyxl.load_workbook(path), openpyxl.load_workbook(path, data_only=True)
    checked, wrong = 0, 0
    for page in formulas:
        for cell in (cell for row in page.iter_rows() for cell in row if cell.data_type == "f"):
            got, expected = (book[page.title][cell.coordinate].value for book in (theirs, ours))
            checked += 1
            if got is None or abs(got - expected) > 1e-9 * max(1.0, abs(expected)):
                wrong += 1
                print(f"{page.title}!{cell.coordinate} {cell.value}: {got} where {expected} stands")
    print(f"{checked} formulas ({taken} results taken out), {wrong} of them come to something else.")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
