"""Start the pages: python -m dashboard.start --salon DIR --today YYYY-MM-DD [--port N]."""

import argparse
import os
import sys
import webbrowser
from datetime import date
from html import escape
from pathlib import Path

from filelock import FileLock, Timeout

from analytics.periods import parse_day
from analytics.stops import WorkStopped
from dashboard.access.doors import Door
from dashboard.access.people import THE_OWNER
from dashboard.access.rooms import owner_link
from dashboard.access.tickets import ENTER, new_code
from dashboard.access.vault import private_folder, replace_private

HERE = Path(__file__).resolve().parent
APP = HERE / "app" / "main.py"
THIS_MACHINE = "127.0.0.1"
PORT = 8501
OPENS = "open the pages.html"
SIGNED_IN_S = 12 * 3600


def serve(salon: Path, today: date | None = None, port: int = PORT) -> None:
    """Run the pages in this process until they are stopped; without a day, they follow the calendar.

    Where they run already, a new link to them is shown instead.
    """
    from dashboard.access.server import listen
    from dashboard.access.server import serve as serve_pages

    folder, door = private_folder(salon), Door(THIS_MACHINE, port)
    running = FileLock(folder / f".running-{port}.lock", timeout=0, mode=0o600)
    try:
        running.acquire()
    except Timeout:
        print("The pages run already; this is a new link to them.", flush=True)
        _show_link(salon, door)
        return
    try:
        listening = {door: listen(door)}
        day = [] if today is None else ["--today", today.isoformat()]
        sys.argv = [str(APP), "--salon", str(salon), *day]
        if str(HERE.parent) not in sys.path:
            sys.path.insert(0, str(HERE.parent))
        serve_pages(
            APP, salon, listening, signed_in_s=SIGNED_IN_S, ready=lambda: _show_link(salon, door, starting=True)
        )
    finally:
        (folder / OPENS).unlink(missing_ok=True)
        running.release()


def _show_link(salon: Path, door: Door, starting: bool = False) -> None:
    """Print a link that opens the pages once, and open the browser with it where there is one to see."""
    link = owner_link(door, new_code(salon, ENTER, THE_OWNER.key))
    if starting:
        print(f"The pages are at {door.origin}, for this machine alone; stop them with Ctrl+C.")
    print(f"This link opens them, once: {link}", flush=True)
    if sys.stdout.isatty() and _has_screen():
        webbrowser.open(_file_that_goes_to(link, salon).as_uri())


def _has_screen() -> bool:
    shown = os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")
    return os.name == "nt" or sys.platform == "darwin" or bool(shown)


def _file_that_goes_to(link: str, salon: Path) -> Path:
    """A page for the owner alone that goes on to the link: others here can read what a browser is started with."""
    path = private_folder(salon) / OPENS
    going = f'<meta charset="utf-8"><meta http-equiv="refresh" content="0; url={escape(link)}">'
    replace_private(path, f'{going}<p><a href="{escape(link)}">Open the pages</a></p>'.encode())
    return path


def main() -> None:
    """Read the command line and serve."""
    parser = argparse.ArgumentParser(prog="python -m dashboard.start", description="Start the pages on this machine.")
    parser.add_argument("--salon", type=Path, default=Path(), help="the salon's folder (default: this one)")
    parser.add_argument("--today", help="the day the pages are worked out for, YYYY-MM-DD (default: today)")
    parser.add_argument("--port", type=int, default=PORT, help=f"the port on {THIS_MACHINE} (default: {PORT})")
    asked = parser.parse_args()
    try:
        today = parse_day(asked.today) if asked.today else None
        serve(asked.salon.resolve(), today, asked.port)
    except WorkStopped as stopped:
        sys.exit(str(stopped))


if __name__ == "__main__":
    main()
