"""A small salon with a book."""

from pathlib import Path

import pytest
from salons import load_unchecked, write_salon


@pytest.fixture
def salon(tmp_path: Path) -> Path:
    """A loaded salon with one visit."""
    folder = write_salon(tmp_path / "salon")
    load_unchecked(folder)
    return folder
