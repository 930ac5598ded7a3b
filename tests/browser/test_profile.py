"""What a browser keeps of the pages once it is closed: nothing of a client."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext

from analytics.storage.book import read_book
from tests.browser.chromium import FLAGS, address, executable, settle
from tests.browser.serving import SIGNED_IN
from tests.browser.test_access import foreign_page

pytestmark = pytest.mark.browser

LOOKED_AT = ("roots", "client_data")


def look(context: BrowserContext, base: str) -> str:
    """Open pages that tell of clients; all that stood on them."""
    name, value = SIGNED_IN[base]
    context.add_cookies([{"name": name, "value": value, "url": base, "sameSite": "Strict"}])
    page, said = context.new_page(), ""
    for one in LOOKED_AT:
        page.goto(address(base, one))
        settle(page)
        said += page.content()
    page.reload()
    settle(page)
    return said


def bytes_of(folder: Path) -> bytes:
    return b"".join(path.read_bytes() for path in folder.rglob("*") if path.is_file())


def test_a_browser_that_was_closed_holds_no_client(running: Browser, base: str, demo_salon: Path, tmp_path: Path):
    clients = read_book(demo_salon).tables["clients"]
    told = [value for column in ("client", "phone", "email") for value in clients[column].drop_nulls()]
    with foreign_page(base) as there:
        context = running.browser_type.launch_persistent_context(
            tmp_path / "profile", executable_path=executable(), args=list(FLAGS)
        )
        said = look(context, base)
        context.new_page().goto(there)  # of somebody who does not say that nothing is to be kept
        context.close()
    assert sum(value in said for value in told) > 5  # else nothing was looked at
    kept = bytes_of(tmp_path / "profile")
    assert there.encode() in kept and b"window.shut" in kept  # else addresses and bodies that are kept were not found
    assert [value for value in told if any(value.encode(form) in kept for form in ("utf-8", "utf-16-le"))] == []
