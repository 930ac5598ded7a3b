"""A browser of the machine, and how to tell that a page has finished drawing."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from playwright.sync_api import Browser, Page, sync_playwright

from dashboard.page import pages
from tests.browser.serving import SIGNED_IN

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def executable() -> str:
    """The browser on the path. Raises with the way out where there is none."""
    found = next(filter(None, map(shutil.which, NAMES)), None)
    if found is None:
        raise RuntimeError("No chromium is on the PATH; run tests/browser/install_chromium.sh and try again.")
    return found


class OwnersBrowser:
    """A browser whose every window is signed in, as the owner, to the salons that are being served."""

    def __init__(self, running: Browser) -> None:
        self.running = running

    def new_page(self, **options: Any) -> Page:
        page = self.running.new_page(**options)
        for base, (name, value) in SIGNED_IN.items():
            page.context.add_cookies([{"name": name, "value": value, "url": base, "sameSite": "Strict"}])
        return page

    def __getattr__(self, name: str) -> Any:
        return getattr(self.running, name)


@contextmanager
def browser() -> Iterator[Browser]:
    """A headless browser of the owner's, closed at the end."""
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=executable(), args=list(FLAGS))
        try:
            yield OwnersBrowser(running)  # type: ignore[misc]
        finally:
            running.close()


def settle(page: Page) -> None:
    """Wait until the page has run and stands still."""
    page.wait_for_selector(".stApp[data-test-script-state='notRunning'] h1.answer", timeout=20_000)
    page.wait_for_function("() => !document.querySelector('[data-stale=\"true\"]')", timeout=20_000)


def address(base: str, name: str) -> str:
    """Where a page is; the first one has no name of its own."""
    return base if name == next(iter(pages())) else f"{base}/{name}"
