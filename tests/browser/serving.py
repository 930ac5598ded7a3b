"""A salon in a folder of its own, loaded by the command line and served on a free port."""

import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from http.cookies import SimpleCookie
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import urlopen

from dashboard.access.people import THE_OWNER
from dashboard.access.tickets import ENTER, new_code
from tests.salons import load_unchecked

PROJECT = Path(__file__).resolve().parents[2]
DEMO = PROJECT / "demo_data"
TODAY = date(2026, 11, 1)  # the day after the invented salon's last, so that October is over
PATIENCE_S = 30
SIGNED_IN: dict[str, tuple[str, str]] = {}  # address -> the owner's cookie there, while it is served


def run(*arguments: str) -> "subprocess.Popen[str]":
    """python -m … with the project on the path."""
    paths = os.pathsep.join(filter(None, [str(PROJECT), os.environ.get("PYTHONPATH")]))
    return subprocess.Popen(
        [sys.executable, "-m", *arguments],
        env=os.environ | {"PYTHONPATH": paths},
        text=True,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
    )


def page_file(name: str) -> str:
    """Where a page's file lies, as seen from the app's script."""
    return f"../pages/{name}.py"


def copy_demo(folder: Path) -> Path:
    """The invented salon, not loaded yet."""
    shutil.copytree(DEMO / "exports", folder / "exports")
    shutil.copy(DEMO / "salon.toml", folder)
    return folder


def load_here(folder: Path) -> None:
    """Build the book within this process and without Great Expectations, where what it finds is not asked for."""
    load_unchecked(folder)


def free_port() -> int:
    """A port nobody listens on."""
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return int(asked.getsockname()[1])


@contextmanager
def serving(folder: Path, today: date = TODAY, on_network: str = "") -> Iterator[str]:
    """The address of the salon's pages, while they run. on_network: an address of this machine to open them at too."""
    port = free_port()
    base, more = f"http://127.0.0.1:{port}", ("--on-network", on_network) if on_network else ()
    server = run("dashboard.start", "--salon", str(folder), "--today", today.isoformat(), "--port", str(port), *more)
    try:
        _wait(base, server)
        sign_in(f"{base}/enter?code={new_code(folder, ENTER, THE_OWNER.key)}")
        yield base
    finally:
        SIGNED_IN.pop(base, None)
        server.terminate()
        server.communicate(timeout=10)


def sign_in(link: str) -> str:
    """Use the link of this machine up, for every window that is opened from now on; the address of the pages."""
    base = link.partition("/enter?")[0]
    with urlopen(link, timeout=PATIENCE_S) as answer:
        (cookie,) = SimpleCookie(answer.headers["set-cookie"]).values()
    SIGNED_IN[base] = cookie.key, cookie.value
    return base


def _wait(base: str, server: "subprocess.Popen[str]") -> None:
    end = time.monotonic() + PATIENCE_S
    while time.monotonic() < end:
        assert server.poll() is None, f"The pages did not start: {server.stdout.read() if server.stdout else ''}"
        try:
            urlopen(f"{base}/_stcore/health", timeout=2)
        except HTTPError as refused:
            assert refused.code == 401
            return
        except OSError:
            time.sleep(0.1)
    raise AssertionError(f"The pages did not answer within {PATIENCE_S} s.")
