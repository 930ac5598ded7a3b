"""A small salon that files are dropped on."""

from pathlib import Path

import pytest
from salons import write_salon


@pytest.fixture
def salon(tmp_path: Path) -> Path:
    return write_salon(tmp_path / "salon")
