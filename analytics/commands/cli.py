"""The commands: `salon-figures COMMAND --salon DIR`, their words and options; what they do is in running.py."""

import argparse
import errno
import io
import os
import sys
from datetime import date
from importlib.metadata import version
from pathlib import Path

from analytics.catalogue import figure, figure_names, summary
from analytics.commands import running
from analytics.plain_text import visible
from analytics.stops import WorkStopped

EPILOG = (
    "A salon is a folder with salon.toml and exports/. Figures answer for the months the book covers; --month, or "
    "--from and --to (the day after the last), narrows them. The book is made by load, from the exports alone."
)


def main(arguments: list[str] | None = None) -> int:
    """Run one command; exit status 0 done, 1 the input or settings stop the work, 2 wrong usage."""
    _write_utf8()
    os.umask(0o077)  # what is written names clients: its owner alone reads it
    words = sys.argv[1:] if arguments is None else arguments
    parser = _parser(words)
    asked = parser.parse_args(words)
    if asked.command is None:
        parser.print_help()
        return 0
    try:
        status = int(asked.run(asked) or 0)
        sys.stdout.flush()
        return status
    except WorkStopped as stop:
        print(f"salon-figures: {visible(str(stop))}", file=sys.stderr)
        return 1
    except BrokenPipeError:
        sys.stderr.close()
        return 0
    except OSError as error:
        if error.errno not in (errno.ENOSPC, errno.EDQUOT, errno.EFBIG):
            raise
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # what is left is not tried again at the end
        says = f"the answer cannot be written ({error.strerror}); make room, or name another place."
        print(f"salon-figures: {says}", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("salon-figures: stopped; the book is as it was.", file=sys.stderr)
        return 1


def _write_utf8() -> None:
    """UTF-8 and untouched line ends whatever the terminal is set to: CSV has its own line ends."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(encoding="utf-8", newline="")


def _parser(words: list[str]) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="salon-figures",
        description="What a colour salon's exported records mean: chair hours, roots due, bowls, and sums that add up.",
        epilog=EPILOG,
    )
    parser.add_argument("--version", action=_Versions, nargs=0, help="show the versions of the parts and stop")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", title="commands")
    says = "Copy the demo salon, load it and show what comes out."
    demo = _command(commands, "demo", says, running.run_demo, salon=False)
    demo.add_argument("folder", nargs="?", type=Path, default=Path("demo-salon"), help="where to (default: demo-salon)")
    load = _command(commands, "load", "Read exports/ into the book, every row accounted for.", running.run_load)
    load.add_argument("--strict", action="store_true", help="end with exit status 1 where rows were set aside")
    check = _command(commands, "check", "What was wrong with the exports, and what to do.", running.run_check)
    for command in (load, check):
        _add_format(command)
    says = "write the rows set aside into this folder as CSV, to correct and drop back into exports/"
    check.add_argument("--write", type=Path, metavar="FOLDER", help=says)
    trial = _command(commands, "try", "How a file would be read, without keeping anything.", running.run_try)
    trial.add_argument("file", type=Path, help="the export to look at")
    _add_format(trial)
    for name in figure_names():
        command = _command(commands, name, summary(name), running.run_figure)
        if name in words:  # a figure is imported where it is asked for, and only there
            _add_options(command, name)
    _add_handover(commands)
    _add_erase(commands)
    says = "Write a workbook of forms for what no export holds: bowls, counted stock, deliveries, products, services."
    to = ("--to", "where to (default: forms.xlsx in the salon's folder)")
    _command(commands, "forms", says, running.run_forms).add_argument(to[0], type=Path, metavar="FILE", help=to[1])
    says = "Print every setting, table, figure and finding, as Markdown."
    commands.add_parser("reference", help=says, description=says).set_defaults(run=running.run_reference)
    dashboard = _command(commands, "dashboard", "Open the pages in a browser on this machine.", running.run_dashboard)
    dashboard.add_argument("--port", type=_port, default=8501, help="port on 127.0.0.1 (default: 8501)")
    says = "open them on the salon's own network too, to paired phones; ADDRESS: this machine's, where it has several"
    dashboard.add_argument("--on-network", nargs="?", const="", metavar="ADDRESS", help=says)
    return parser


class _Versions(argparse.Action):
    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        parts = ("salon-figures", "polars", "duckdb", "great-expectations", "streamlit", "plotly")
        print("\n".join(f"{part} {version(part)}" for part in parts))
        parser.exit()


def _day(text: str) -> date:
    from analytics.periods import parse_day

    try:
        return parse_day(text)
    except WorkStopped as stop:
        raise argparse.ArgumentTypeError(str(stop)) from None


def _port(text: str) -> int:
    if text.isdecimal() and 0 < int(text) < 2**16:
        return int(text)
    raise argparse.ArgumentTypeError(f"{text} is not a port; name a number from 1 to 65535")


def _command(  # type: ignore[no-untyped-def]
    commands, name: str, says: str, run, *, salon: bool = True
) -> argparse.ArgumentParser:
    command: argparse.ArgumentParser = commands.add_parser(name, help=says, description=says)
    command.set_defaults(run=run)
    if salon:
        command.add_argument(
            "--salon", type=Path, default=Path(), metavar="DIR", help="the salon's folder (default: .)"
        )
    command.add_argument("--today", type=_day, metavar="DAY", help="the day it is worked out for (default: today)")
    return command


def _add_format(command: argparse.ArgumentParser) -> None:
    command.add_argument("--format", choices=("table", "csv", "json"), default="table", help="default: table")


def _add_options(command: argparse.ArgumentParser, name: str) -> None:
    """The options of a figure's command."""
    _add_format(command)
    if figure(name).takes("period"):
        command.add_argument("--month", metavar="YYYY-MM", help="one month")
        command.add_argument("--from", dest="start", type=_day, metavar="DAY", help="first day")
        command.add_argument("--to", dest="end", type=_day, metavar="DAY", help="the day after the last")
    group = command.add_mutually_exclusive_group()
    group.add_argument("--site", metavar="NAME", help="one salon of a group")
    group.add_argument("--by", choices=("site",), help="the figure of each salon of a group, one after the other")
    for option, says in running.EXTRAS.get(name, ()):
        if option in running.SWITCHES:
            command.add_argument(f"--{option}", action="store_true", help=says)
        else:
            command.add_argument(f"--{option}", type=Path, metavar="FILE", help=says)


def _add_handover(commands) -> None:  # type: ignore[no-untyped-def]
    says = "Write the accountant's folder of a period: tables, journal, statement, manifest."
    command = _command(commands, "handover", says, running.run_handover)
    command.add_argument("period", nargs="?", help="a quarter, month or year: 2026-Q3, 2026-09, 2026")
    command.add_argument("--from", dest="start", type=_day, metavar="DAY", help="first day, in place of a period")
    command.add_argument("--to", dest="end", type=_day, metavar="DAY", help="the day after the last")
    command.add_argument("--close", action="store_true", help="mark the period as handed over for good")
    command.add_argument("--clients", action="store_true", help="add clients under pseudonyms")
    says = "where the key of the pseudonyms lies, or is made (default: your own settings folder)"
    command.add_argument("--key", type=Path, metavar="FILE", help=says)
    says = "check that the files of a folder are those that were handed over, and stop"
    command.add_argument("--verify", type=Path, metavar="FOLDER", help=says)


def _add_erase(commands) -> None:  # type: ignore[no-untyped-def]
    says = "Take a client out of everything in the salon's folder; sums stay, under no name."
    command = _command(commands, "erase", says, running.run_erase)
    command.add_argument("client", nargs="?", help="her number or name as exports write it (asked for, if left out)")
    command.add_argument(
        "--site", default="", metavar="NAME", help="whose client, where salons of a group share numbers"
    )
    command.add_argument("--again", action="store_true", help="those who were erased and came back with an old export")
    says = "everybody without a visit for as long as salon.toml keeps records ([keeping] months_without_visit)"
    command.add_argument("--overdue", action="store_true", help=says)
    command.add_argument("--dry-run", action="store_true", help="show where the client stands, and stop")
    command.add_argument("--yes", action="store_true", help="do not ask")


if __name__ == "__main__":
    sys.exit(main())
