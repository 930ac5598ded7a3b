"""One small salon, loaded once and served once for all tests of who may see what, at two addresses of this machine."""

from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from tests.access.asking import write_salon
from tests.browser.serving import load_here, serving

ELSEWHERE = "127.0.0.2"


@pytest.fixture(scope="session")
def salon(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = write_salon(tmp_path_factory.mktemp("salon") / "kwartels")
    load_here(folder)
    return folder


@pytest.fixture(scope="session")
def base(salon: Path) -> Iterator[str]:
    """The address on this machine."""
    with serving(salon, on_network=ELSEWHERE) as here:
        yield here


@pytest.fixture(scope="session")
def bases(base: str) -> tuple[str, str]:
    """The address on this machine, and the one that stands for the salon's network."""
    return base, f"https://{ELSEWHERE}:{urlsplit(base).port}"
