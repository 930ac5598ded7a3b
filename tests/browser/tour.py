"""Write the pictures of the README from the demo salon: python -m tests.browser.tour."""

import tempfile
from pathlib import Path

from playwright.sync_api import Browser

from analytics.loading import load_salon
from dashboard.page import pages
from tests.browser.chromium import address, browser, settle
from tests.browser.serving import copy_demo, serving

PICTURES = Path(__file__).parents[2] / "dashboard" / "pictures"


def main() -> None:
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as name:
        folder = copy_demo(Path(name))
        load_salon(folder)
        with serving(folder) as base, browser() as running:
            _shoot(running, base)


def _shoot(running: Browser, base: str) -> None:
    pictures = {name: page.picture for name, page in pages().items() if page.picture}
    for name, (width, height) in pictures.items():
        page = running.new_page(viewport={"width": width, "height": height}, color_scheme="light")
        page.goto(address(base, name))
        settle(page)
        page.wait_for_timeout(1500)
        page.screenshot(path=PICTURES / f"{name}.png")
        page.close()


if __name__ == "__main__":
    main()
