"""Write every page as PNG, wide and narrow, light and dark: python -m tests.browser.screenshots LINK FOLDER [PAGE …].

LINK: the link that salon-figures dashboard shows; it opens the pages once.
"""

import sys
from pathlib import Path

from playwright.sync_api import Browser, Page

from dashboard.page import pages
from tests.browser.chromium import address, browser, settle
from tests.browser.serving import sign_in

WIDTHS = {"wide": 1280, "narrow": 390}
SCHEMES = ("light", "dark")
MOST_PIXELS = 6000


def _whole(page: Page, width: int) -> None:
    """Make the window as tall as the page: it scrolls inside, so a tall window is the only way to see all of it.

    Pictures and tables take their height once they are drawn, so it is measured until it stays.
    """
    tallest = "Math.max(...[...document.querySelectorAll('.stMain, .stMainBlockContainer')].map(e => e.scrollHeight))"
    height = 0
    for _ in range(6):
        page.wait_for_timeout(600)
        now = min(int(page.evaluate(tallest)) + 40, MOST_PIXELS)
        if now <= height:
            break
        height = now
        page.set_viewport_size({"width": width, "height": height})


def shoot(running: Browser, base: str, name: str, folder: Path, *, look: str, scheme: str) -> Path:
    """One page, wide or narrow, light or dark, as a PNG file."""
    folder.mkdir(parents=True, exist_ok=True)
    page = running.new_page(
        viewport={"width": WIDTHS[look], "height": 844},
        color_scheme=scheme,  # type: ignore[arg-type]
    )
    page.goto(address(base, name))
    settle(page)
    _whole(page, WIDTHS[look])
    path = folder / f"{name}-{look}-{scheme}.png"
    page.screenshot(path=path)
    page.close()
    return path


def main() -> None:
    """Every page of a running salon, or those named."""
    base, folder, names = sign_in(sys.argv[1]), Path(sys.argv[2]), sys.argv[3:] or list(pages())
    with browser() as running:
        for name in names:
            for look in WIDTHS:
                for scheme in SCHEMES:
                    print(shoot(running, base, name, folder, look=look, scheme=scheme))


if __name__ == "__main__":
    main()
