"""A file dropped on the exports page: shown as it would be read, matched by choice, kept, and in the book."""

import io
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from analytics.settings import read_settings
from analytics.storage.book import read_book
from tests.browser.chromium import address, settle
from tests.browser.serving import load_here, serving

pytestmark = pytest.mark.browser

MENU = "service_id,service,kind,price,tax_rate,hands_on_min\nS1,Cut,cut,40,9,30\n"
BOOKINGS = "booking_id,client_id,starts_at,ends_at,status,service_id,price\n"
ONE_CUT = "B1,C1,2026-10-06 10:00,2026-10-06 10:45,completed,S1,40\n"
TOML = '# Ours.\n[salon]\nname = "Small"  # and fine\n'
DROPPED = BOOKINGS.replace("price", "![kassa](http://elsewhere.example/x.png)") + ONE_CUT.replace("B1", "B2")
BAD_FILES = Path(__file__).resolve().parents[1] / "bad_files"
BROKEN = ".stException, [data-testid='stException'], [data-testid='stAlertContentError']"


@pytest.fixture(scope="module")
def salon(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("parent") / "salon"
    (folder / "exports").mkdir(parents=True)
    (folder / "salon.toml").write_text(TOML, "utf-8")
    (folder / "exports" / "menu.csv").write_text(MENU, "utf-8")
    (folder / "exports" / "bookings.csv").write_text(BOOKINGS + ONE_CUT, "utf-8")
    load_here(folder)
    return folder


@pytest.fixture(scope="module")
def base(salon: Path) -> Iterator[str]:
    with serving(salon) as where:
        yield where


@pytest.fixture
def page(base: str, running: Browser) -> Iterator[Page]:
    """The exports page on a phone; at its end nothing was asked of another machine."""
    opened = running.new_page(viewport={"width": 390, "height": 1600})
    asked: list[str] = []
    opened.on("request", lambda request: asked.append(request.url))
    opened.goto(address(base, "exports"))
    settle(opened)
    yield opened
    opened.close()
    assert asked and not [url for url in asked if "elsewhere" in url]


def exports(salon: Path) -> list[str]:
    return sorted(path.name for path in (salon / "exports").iterdir())


def drop(page: Page, name: str, content: bytes) -> None:
    page.locator("input[type=file]").set_input_files([{"name": name, "mimeType": "text/csv", "buffer": content}])


def bomb(first: bytes, line: bytes, megabytes: int) -> bytes:
    """So many megabytes of one line over and over in less than half a megabyte."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as into, into.open("bookings.csv", "w") as member:
        member.write(first)
        for _ in range(megabytes):
            member.write(line * (1024**2 // len(line)))
    return packed.getvalue()


def zipped(members: dict[str, bytes]) -> bytes:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as into:
        for name, content in members.items():
            into.writestr(name, content)
    return packed.getvalue()


def test_a_file_is_looked_at_matched_and_kept(page: Page, salon: Path):
    before = exports(salon)
    drop(page, "../../../new.csv", DROPPED.encode())
    shown = page.locator(".st-key-dropped")
    expect(shown).to_contain_text("It has no column price (charged before discount", timeout=20_000)
    expect(shown).to_contain_text("![kassa](http://elsewhere.example/x.png)")
    expect(page.get_by_role("button", name="Keep this file")).to_have_count(0)
    choice = page.get_by_role("combobox", name="Column of heading 1")
    choice.click()
    choice.fill("price")
    page.get_by_role("option", name="price: charged").click()
    expect(shown).to_contain_text("Its one row would be used", timeout=20_000)
    width = page.evaluate("document.querySelector('.stMain').scrollWidth")
    assert width <= 390
    assert exports(salon) == before

    page.get_by_role("button", name="Keep this file").click()
    expect(page.get_by_text("new.csv was kept in exports/")).to_be_visible(timeout=40_000)
    settle(page)
    expect(page.locator("h1.answer")).to_contain_text(f"{len(before) + 1} files")
    assert (salon / "exports" / "new.csv").read_text("utf-8") == DROPPED
    assert exports(salon) == sorted([*before, "new.csv"]) and not list(salon.parent.glob("new.csv"))
    assert read_settings(salon).columns == {"bookings": {"![kassa](http://elsewhere.example/x.png)": "price"}}
    assert (salon / "salon.toml").read_text("utf-8").startswith(TOML)
    assert "B2" in read_book(salon).tables["bookings"]["booking_id"]


def test_the_page_stays_alive(page: Page, salon: Path):
    """What cannot be read is refused in a sentence, and the next file is looked at as if nothing had been."""
    before = exports(salon)
    line = zipped({"bookings.csv": b"a" * 50 * 1024**2})
    for name, content, says in (
        ("../../x.csv", b"", "x.csv is empty"),
        ("far.xlsx", (BAD_FILES / "far_cell.xlsx").read_bytes(), "far.xlsx cannot be read as a workbook"),
        ("nothing.xlsx", zipped({}), "nothing.xlsx cannot be read as a workbook"),
        ("line.zip", line, "has an endless line"),
        ("binary.csv", bytes(range(256)) * 400, "binary.csv holds bytes that are no text"),
        ("bomb.zip", bomb(b"", b"a", 400), "unpacks to 400 MB"),
        ("rows.zip", bomb(BOOKINGS.encode(), b",,,,,,\n", 290), "unpacks to more than exports do"),
        ("<img src=x>.exe", b"MZ", "not a kind of file we read"),
        ("menu.csv", MENU.encode(), "Its one row would be used"),
    ):
        drop(page, name, content)
        expect(page.locator(".st-key-dropped")).to_contain_text(says, timeout=40_000)
        settle(page)
        assert page.locator(BROKEN).count() == 0
    assert exports(salon) == before


def test_exports_put_there_by_hand_are_loaded_again(page: Page, salon: Path):
    expect(page.get_by_role("button", name="Load the exports again")).to_have_count(0)
    (salon / "exports" / "more.csv").write_text(BOOKINGS + ONE_CUT.replace("B1", "B3"), "utf-8")
    page.reload()
    settle(page)
    page.get_by_role("button", name="Load the exports again").click()
    expect(page.get_by_text("The exports were loaded again.")).to_be_visible(timeout=40_000)
    settle(page)
    expect(page.locator("h1.answer")).to_contain_text(f"{len(exports(salon))} files")
    expect(page.get_by_role("button", name="Load the exports again")).to_have_count(0)
