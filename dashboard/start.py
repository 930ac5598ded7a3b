"""Start the pages on this machine alone: python -m dashboard.start --salon DIR --today YYYY-MM-DD [--port N]."""

import argparse
import sys
from datetime import date
from pathlib import Path

from analytics.periods import parse_day
from analytics.stops import WorkStopped
from dashboard.parts.palette import theme_flags

HERE = Path(__file__).resolve().parent
PORT = 8501
# Flags beat environment and files, so nothing left over on the machine opens the pages to others.
FLAGS = [
    "--server.address=127.0.0.1",
    "--server.headless=true",
    "--server.showEmailPrompt=false",
    "--server.fileWatcherType=none",
    "--server.runOnSave=false",
    "--server.maxUploadSize=25",
    "--server.enableStaticServing=false",
    "--server.enableAgentApi=false",
    "--server.enableCORS=true",
    "--server.enableXsrfProtection=true",
    "--server.xsrfCookieSameSite=strict",
    "--server.allowedHosts=127.0.0.1",
    "--server.allowedHosts=localhost",
    "--browser.gatherUsageStats=false",
    "--browser.serverAddress=127.0.0.1",
    "--client.showErrorDetails=none",
    "--client.showErrorLinks=false",
    "--client.toolbarMode=minimal",
    "--global.developmentMode=false",
    "--logger.level=warning",
    "--logger.hideWelcomeMessage=true",
    "--logger.enableRich=false",
]


def command(salon: Path, today: date | None, port: int) -> list[str]:
    """The arguments of the server: its flags, then, after `--`, those of app.py."""
    day = [] if today is None else ["--today", today.isoformat()]
    flags = [*FLAGS, *theme_flags(), f"--server.port={port}", f"--browser.serverPort={port}"]
    return ["run", str(HERE / "app.py"), *flags, "--", "--salon", str(salon), *day]


def serve(salon: Path, today: date | None = None, port: int = PORT) -> None:
    """Run the server in this process until it is stopped; without a day, the pages follow the calendar."""
    from streamlit.web import cli

    # The server puts dashboard/ itself on the path, and the pages import the packages beside it.
    if str(HERE.parent) not in sys.path:
        sys.path.insert(0, str(HERE.parent))
    print(f"The pages are at http://127.0.0.1:{port} on this machine; stop them with Ctrl+C.", flush=True)
    cli.main(command(salon, today, port), prog_name="streamlit")


def main() -> None:
    """Read the command line and serve."""
    parser = argparse.ArgumentParser(prog="python -m dashboard.start", description="Start the pages on this machine.")
    parser.add_argument("--salon", type=Path, default=Path(), help="the salon's folder (default: this one)")
    parser.add_argument("--today", help="the day the pages are worked out for, YYYY-MM-DD (default: today)")
    parser.add_argument("--port", type=int, default=PORT, help=f"the port on 127.0.0.1 (default: {PORT})")
    asked = parser.parse_args()
    try:
        today = parse_day(asked.today) if asked.today else None
    except WorkStopped as stopped:
        sys.exit(str(stopped))
    serve(asked.salon.resolve(), today, asked.port)


if __name__ == "__main__":
    main()
