"""Write the pictures of the README from the demo salon: python -m tests.browser.tour."""

import tempfile
from pathlib import Path

from playwright.sync_api import Browser

from tests.browser.chromium import address, browser, settle
from tests.browser.serving import copy_demo, load_here, serving

PICTURES = Path(__file__).parents[2] / "dashboard" / "pictures"
SHOTS = {
    "month": ("month", 1280, 860),
    "chairs": ("chairs", 1280, 740),
    "prices": ("prices", 1280, 860),
    "roots": ("roots", 390, 844),
    "ahead": ("ahead", 1280, 740),
    "bowls": ("bowls", 1280, 740),
    "stock": ("stock", 1280, 740),
    "accountant": ("accountant", 1280, 860),
    "exports": ("exports", 1280, 740),
}


def main() -> None:
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as name:
        folder = copy_demo(Path(name))
        load_here(folder)
        with serving(folder) as base, browser() as running:
            _shoot(running, base)


def _shoot(running: Browser, base: str) -> None:
    for title, (view, width, height) in SHOTS.items():
        page = running.new_page(viewport={"width": width, "height": height}, color_scheme="light")
        page.goto(address(base, view))
        settle(page)
        page.wait_for_timeout(1500)
        page.screenshot(path=PICTURES / f"{title}.png")
        page.close()


if __name__ == "__main__":
    main()
