"""The stylist's list in a browser: a mark outlives a reload, and what is handed over is what the list says."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import icalendar
import pymupdf
import pytest
from playwright.sync_api import Browser, Page, expect

from analytics.due import due, to_call
from analytics.handover.roots import listed_of, root_calendar
from analytics.salon import open_salon
from analytics.storage.asked import NO_ANSWER, TAKEN_BACK, read_marks
from tests.browser.chromium import address, settle
from tests.browser.serving import TODAY, serving

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def salon(demo_salon: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the invented salon: marks are kept in its folder."""
    folder = tmp_path_factory.mktemp("list") / "salon"
    shutil.copytree(demo_salon, folder)
    return folder


@pytest.fixture(scope="module")
def page(salon: Path, running: Browser) -> Iterator[Page]:
    """A phone's window on the list."""
    with serving(salon) as base:
        opened = running.new_page(viewport={"width": 390, "height": 844})
        opened.goto(address(base, "roots"))
        settle(opened)
        yield opened
        opened.close()


def handed_over(page: Page, label: str) -> bytes:
    with page.expect_download() as waiting:
        page.get_by_role("button", name=label).click()
    return Path(waiting.value.path()).read_bytes()


def test_the_list_comes_first_and_can_be_hit_with_a_thumb(page: Page):
    first = page.locator("ul.clients li").first
    expect(first).to_be_visible()
    height = page.get_by_role("radio", name="no answer").first.bounding_box()
    assert height is not None and height["height"] >= 40
    assert page.evaluate("document.querySelector('.stMain').scrollWidth") <= 390


def test_what_is_handed_over_is_the_list(page: Page, salon: Path):
    opened = open_salon(salon, TODAY)
    listed = listed_of(opened)
    pdf = pymupdf.open(stream=handed_over(page, "List to print (PDF)"))
    words = " ".join(each.get_text() for each in pdf)
    names = due(listed)["client"].to_list()
    assert len(names) > 20 and all(name.split()[0] in words for name in names)
    calendar = handed_over(page, "Days as a calendar, no names")
    assert calendar == root_calendar(opened, names=False)
    assert icalendar.Calendar.from_ical(calendar).walk("VEVENT")
    sheet = handed_over(page, "Call sheet (CSV)").decode()
    assert len(sheet.splitlines()) == to_call(listed).height + 1


def test_a_mark_outlives_a_reload_and_can_be_taken_back(page: Page, salon: Path):
    client = due(listed_of(open_salon(salon, TODAY))).filter("may_contact").row(0, named=True)
    first = page.get_by_role("radio", name="no answer").first
    first.click()
    said = page.locator("ul.clients li").filter(has_text="Asked, no answer: 1 November")
    page.get_by_text("Show all").click()
    expect(said).to_have_count(1, timeout=20_000)
    expect(said).to_contain_text(client["client"])
    marks = read_marks(salon).marks
    assert [(mark.client_id, mark.answer, mark.day) for mark in marks] == [(client["client_id"], NO_ANSWER, TODAY)]
    page.reload()
    settle(page)
    page.get_by_text("Show all").click()
    expect(said).to_contain_text(client["client"], timeout=20_000)
    page.get_by_role("radio", name="no answer", checked=True).click()
    expect(said).to_have_count(0, timeout=20_000)
    assert [mark.answer for mark in read_marks(salon).marks] == [NO_ANSWER, TAKEN_BACK]
