"""Start the pages: python -m dashboard.start --salon DIR --today YYYY-MM-DD [--port N] [--on-network [ADDRESS]]."""

import argparse
import os
import sys
import webbrowser
from datetime import date
from html import escape
from pathlib import Path

from filelock import FileLock, Timeout

from analytics.periods import parse_day
from analytics.settings import Access, read_settings
from analytics.stops import WorkStopped
from analytics.storage.private_files import replace_private
from analytics.storage.together import ERASING, HANDING_OVER
from analytics.storage.working import working_privately
from dashboard.access import network
from dashboard.access.doors import Door
from dashboard.access.people import THE_OWNER
from dashboard.access.rooms import owner_link
from dashboard.access.tickets import ENTER, new_code
from dashboard.access.vault import access_folder

HERE = Path(__file__).resolve().parent
APP = HERE / "app" / "main.py"
THIS_MACHINE = "127.0.0.1"
PORT = 8501
OPENS = "open the pages.html"


def serve(salon: Path, today: date | None = None, port: int = PORT, on_network: str | None = None) -> None:
    """Run the pages in this process until they are stopped; without a day, they follow the calendar.

    on_network: this machine's address on the salon's network, to open them there as well; "" finds it, None does not.
    Where they run already, a new link to them is shown instead.
    """
    folder, door = access_folder(salon), Door(THIS_MACHINE, port)
    running = FileLock(folder / f".running-{port}.lock", timeout=0, mode=0o600)
    try:
        running.acquire()
    except Timeout:
        if on_network is not None:
            raise WorkStopped("The pages run already; stop them with Ctrl+C to open them on the network.") from None
        print("The pages run already; this is a new link to them.", flush=True)
        _show_link(salon, door)
        return
    try:
        _finish_stopped(salon)
        with working_privately(salon):
            _run(salon, today, door, on_network)
    finally:
        (folder / OPENS).unlink(missing_ok=True)
        running.release()


def _finish_stopped(salon: Path) -> None:
    """What was killed and began to count is finished first: an erased client stands on no page."""
    if any((salon / work).exists() for work in (ERASING, HANDING_OVER)):
        from analytics.commands.shared import finish_stopped

        finish_stopped(salon)


def _run(salon: Path, today: date | None, door: Door, on_network: str | None) -> None:
    from dashboard.access.server import listen
    from dashboard.access.server import serve as serve_pages

    certificate, hours, listening = None, Access().signed_in_hours, {door: listen(door)}
    if on_network is not None:
        from dashboard.access.certificate import certificate_for

        hours = read_settings(salon).access.signed_in_hours
        outer = Door(network.address(on_network), door.port, secure=True)
        listening[outer] = listen(outer)
        certificate = certificate_for(salon, outer.host)
        network.OPEN = network.Network(outer, certificate.fingerprint)
    sys.argv = [str(APP), "--salon", str(salon), *([] if today is None else ["--today", today.isoformat()])]
    if str(HERE.parent) not in sys.path:
        sys.path.insert(0, str(HERE.parent))
    serve_pages(
        APP,
        salon,
        listening,
        signed_in_s=hours * 3600,
        ready=lambda: _show_link(salon, door, starting=True),
        certificate=certificate,
    )


def _show_link(salon: Path, door: Door, starting: bool = False) -> None:
    """Print a link that opens the pages once, and open the browser with it where there is one to see."""
    link = owner_link(door, new_code(salon, ENTER, THE_OWNER.key))
    if starting:
        alone = "" if network.OPEN else ", for this machine alone"
        print(f"The pages are at {door.origin}{alone}; stop them with Ctrl+C.")
        print(network.said(network.OPEN) if network.OPEN else "", end="\n" if network.OPEN else "")
    print(f"This link opens them, once: {link}", flush=True)
    if sys.stdout.isatty() and _has_screen():
        webbrowser.open(_file_that_goes_to(link, salon).as_uri())


def _has_screen() -> bool:
    shown = os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")
    return os.name == "nt" or sys.platform == "darwin" or bool(shown)


def _file_that_goes_to(link: str, salon: Path) -> Path:
    """A page for the owner alone that goes on to the link: others here can read what a browser is started with."""
    path = access_folder(salon) / OPENS
    going = f'<meta charset="utf-8"><meta http-equiv="refresh" content="0; url={escape(link)}">'
    replace_private(path, f'{going}<p><a href="{escape(link)}">Open the pages</a></p>'.encode())
    return path


def main() -> None:
    """Read the command line and serve."""
    parser = argparse.ArgumentParser(prog="python -m dashboard.start", description="Start the pages on this machine.")
    parser.add_argument("--salon", type=Path, default=Path(), help="the salon's folder (default: this one)")
    parser.add_argument("--today", help="the day the pages are worked out for, YYYY-MM-DD (default: today)")
    parser.add_argument("--port", type=int, default=PORT, help=f"the port on {THIS_MACHINE} (default: {PORT})")
    parser.add_argument("--on-network", nargs="?", const="", metavar="ADDRESS", help="open them there too, to phones")
    asked = parser.parse_args()
    try:
        today = parse_day(asked.today) if asked.today else None
        serve(asked.salon.resolve(), today, asked.port, asked.on_network)
    except WorkStopped as stopped:
        sys.exit(str(stopped))


if __name__ == "__main__":
    main()
