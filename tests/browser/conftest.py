"""The invented salon, loaded once and served once for all the tests of the pages, and one browser for them."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from demo import loaded_demo
from playwright.sync_api import Browser
from streamlit.components.v2 import manifest_scanner

from tests.browser.chromium import browser
from tests.browser.serving import serving


@pytest.fixture(autouse=True)
def _no_components(monkeypatch: pytest.MonkeyPatch) -> None:
    """We use none of other packages; to look for them takes Streamlit a moment at each start of a page."""
    monkeypatch.setattr(manifest_scanner, "scan_component_manifests", list)


@pytest.fixture(scope="session")
def demo_salon(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The invented salon's folder with its book."""
    return loaded_demo(tmp_path_factory)


@pytest.fixture(scope="session")
def base(demo_salon: Path) -> Iterator[str]:
    """Where its pages are."""
    with serving(demo_salon) as address:
        yield address


@pytest.fixture(scope="session")
def running() -> Iterator[Browser]:
    """A browser."""
    with browser() as started:
        yield started
