"""Papers: text stays text, the same data gives the same bytes, fonts are our own."""

import stat
from datetime import date
from pathlib import Path

import pymupdf
import pytest

from analytics.handover import paper as module
from analytics.handover.paper import paper
from analytics.settings import parse_settings
from analytics.stops import WorkStopped
from analytics.storage.private_files import write_private

SALON = parse_settings('[salon]\nname = "Test *bold* #panic()"')
TEMPLATE = (
    '#import "paper.typ": *\n#show: paper\n#listing(("What", "g"), data.rows, right: (1,))\n#caution("Careful.")\n'
)


@pytest.fixture
def template(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """A folder with the shared parts and one template of this test."""
    (tmp_path / "paper.typ").write_bytes((module.HERE / "paper.typ").read_bytes())
    (tmp_path / "fonts").symlink_to(module.HERE / "fonts")
    (tmp_path / "one.typ").write_text(TEMPLATE, encoding="utf-8")
    monkeypatch.setattr(module, "HERE", tmp_path)
    return "one"


def made(template: str, cell: str, made_on: date | None = date(2026, 11, 1)) -> bytes:
    return paper(template, {"rows": [[cell, "1,234"]]}, SALON, title="A list", period="October 2026", made_on=made_on)


def words(pdf: bytes) -> str:
    return " ".join(page.get_text() for page in pymupdf.open(stream=pdf))


@pytest.mark.parametrize("cell", ['=HYPERLINK("x")', "*bold* _x_ $y$", "#panic()", "// gone", "Grüße"])
def test_text_from_an_export_is_shown_as_it_is(template: str, cell: str) -> None:
    shown = words(made(template, cell))
    assert cell in shown and "Test *bold* #panic()" in shown and "Made on 1 November 2026" in shown


def test_line_breaks_and_turning_signs_do_not_leave_their_cell(template: str) -> None:
    assert "a b c" in words(made(template, "a\nb\u202e c"))


def test_signs_that_no_font_has_are_said_to_be_missing(template: str) -> None:
    shown = words(made(template, "＝1 染 🎨 ok"))
    assert "=1 □ □ ok" in shown


def test_same_data_same_bytes_and_no_day_where_none_is_given(template: str) -> None:
    assert made(template, "x") == made(template, "x")
    assert "Made on" not in words(made(template, "x", None))


def test_fonts_are_those_that_are_shipped(template: str) -> None:
    fonts = {font[3].split("+")[-1] for page in pymupdf.open(stream=made(template, "x א")) for font in page.get_fonts()}
    assert fonts <= {"NotoSans-Regular", "NotoSans-Bold", "DejaVuSans"}


def test_a_private_file_is_its_owners_alone(tmp_path: Path) -> None:
    path = write_private(b"x", tmp_path / "new" / "list.pdf")
    assert stat.S_IMODE(path.stat().st_mode) == 0o600 and stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    with pytest.raises(WorkStopped, match="cannot be written"):
        write_private(b"x", path / "below a file")
