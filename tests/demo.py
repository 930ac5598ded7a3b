"""The demo salon, loaded once for all tests and all processes that run them; each that asks gets a copy."""

import os
import shutil
from pathlib import Path

import pytest
from filelock import FileLock

from analytics.loading import load_salon

DEMO = Path(__file__).resolve().parents[1] / "demo_data"


def loaded_demo(temporary: pytest.TempPathFactory) -> Path:
    """A folder with the demo's settings, exports and book."""
    own = temporary.getbasetemp()
    shared = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "loaded_demo"
    with FileLock(f"{shared}.lock"):
        if not (shared / "salon.duckdb").exists():
            shutil.copytree(DEMO / "exports", shared / "exports", dirs_exist_ok=True)
            shutil.copy(DEMO / "salon.toml", shared)
            load_salon(shared)
    return Path(shutil.copytree(shared, temporary.mktemp("demo") / "salon"))
