"""The commands: `salon-figures COMMAND --salon DIR`. What a command does not need is not imported."""

import argparse
import errno
import importlib
import io
import os
import sys
from datetime import date
from importlib.metadata import version
from pathlib import Path

from analytics.catalogue import figure, figure_names, result, summary
from analytics.plain_text import visible
from analytics.stops import WorkStopped

EPILOG = (
    "A salon is a folder with salon.toml and exports/. Figures answer for the months the book covers; --month, or "
    "--from and --to (the day after the last), narrows them. The book is made by load, from the exports alone."
)

EXTRAS: dict[str, tuple[tuple[str, str], ...]] = {
    # figure -> its further options, each with what it says: a file to write, or a switch. The work is done by
    # write(salon, period, asked) in analytics/handover/<figure>.py, which answers the files it wrote.
    "mixing": (("pdf", "write the mixing card: one page in large type for the wall"),),
    "month": (("pdf", "write the month's statement on one or two pages of paper"),),
    "roots": (
        ("pdf", "write this week's list as a PDF to print"),
        ("ics", "write the days that make sense as a calendar (RFC 5545), without names"),
        ("names", "with --ics: name the clients"),
        ("csv", "write a call sheet: who may be contacted, is not booked and has not gone quiet"),
    ),
}
SWITCHES = ("names",)  # further options that are no file


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
    demo = _command(commands, "demo", "Copy the demo salon, load it and show what comes out.", _run_demo, salon=False)
    demo.add_argument("folder", nargs="?", type=Path, default=Path("demo-salon"), help="where to (default: demo-salon)")
    load = _command(commands, "load", "Read exports/ into the book, every row accounted for.", _run_load)
    load.add_argument("--strict", action="store_true", help="end with exit status 1 where rows were set aside")
    check = _command(commands, "check", "What was wrong with the exports, and what to do.", _run_check)
    for command in (load, check):
        _add_format(command)
    says = "write the rows set aside into this folder as CSV, to correct and drop back into exports/"
    check.add_argument("--write", type=Path, metavar="FOLDER", help=says)
    trial = _command(commands, "try", "How a file would be read, without keeping anything.", _run_try)
    trial.add_argument("file", type=Path, help="the export to look at")
    _add_format(trial)
    for name in figure_names():
        command = _command(commands, name, summary(name), _run_figure)
        if name in words:  # a figure is imported where it is asked for, and only there
            _add_options(command, name)
    _add_handover(commands)
    _add_erase(commands)
    says = "Write a workbook of forms for what no export holds: bowls, counted stock, deliveries, products, services."
    to = ("--to", "where to (default: forms.xlsx in the salon's folder)")
    _command(commands, "forms", says, _run_forms).add_argument(to[0], type=Path, metavar="FILE", help=to[1])
    says = "Print every setting, table, figure and finding, as Markdown."
    commands.add_parser("reference", help=says, description=says).set_defaults(run=_run_reference)
    dashboard = _command(commands, "dashboard", "Open the pages in a browser on this machine.", _run_dashboard)
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
    for option, says in EXTRAS.get(name, ()):
        if option in SWITCHES:
            command.add_argument(f"--{option}", action="store_true", help=says)
        else:
            command.add_argument(f"--{option}", type=Path, metavar="FILE", help=says)


def _add_handover(commands) -> None:  # type: ignore[no-untyped-def]
    says = "Write the accountant's folder of a period: tables, journal, statement, manifest."
    command = _command(commands, "handover", says, _run_handover)
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
    command = _command(commands, "erase", says, _run_erase)
    command.add_argument("client", nargs="?", help="her number or name as exports write it (asked for, if left out)")
    command.add_argument(
        "--site", default="", metavar="NAME", help="whose client, where salons of a group share numbers"
    )
    command.add_argument("--again", action="store_true", help="those who were erased and came back with an old export")
    command.add_argument("--dry-run", action="store_true", help="show where the client stands, and stop")
    command.add_argument("--yes", action="store_true", help="do not ask")


def _run_erase(asked: argparse.Namespace) -> int:
    from analytics.commands.erasing import erase

    return erase(asked, asked.today or date.today())


def _run_load(asked: argparse.Namespace) -> int:
    from analytics.commands.shared import load_with_bar
    from analytics.output import write

    report = load_with_bar(asked.salon)
    columns = ["file", "table", "rows_read", "rows_used", "repeats", "superseded", "set_aside"]
    write(report.files.select(columns), asked.format)
    aside = int(report.files["set_aside"].sum())
    if report.findings.height:
        print(f"{report.findings.height} findings; salon-figures check shows them.", file=sys.stderr)
    return 1 if asked.strict and aside else 0


def _run_check(asked: argparse.Namespace) -> None:
    from analytics.commands.shared import open_or_load
    from analytics.definitions.findings import SCHEMA
    from analytics.output import write

    book = open_or_load(asked.salon, asked.today or date.today()).book
    if asked.write:
        from analytics.commands.corrections import write_corrections

        for path in write_corrections(book, asked.write):
            print(f"Written: {path}", file=sys.stderr)
    findings = book.findings
    columns = ["file", "row", "message", "what_to_do"] if asked.format == "table" else list(SCHEMA)
    write(findings.select(columns), asked.format, empty="Nothing was found wrong with the exports.")


def _run_try(asked: argparse.Namespace) -> None:
    from analytics.commands.file_trial import try_and_print

    try_and_print(asked.file, asked.salon, asked.format)


def _run_figure(asked: argparse.Namespace) -> None:
    from analytics.commands.shared import asked_period, kept_out, open_or_load
    from analytics.output import write
    from analytics.sentences.assumed import never_set
    from analytics.sentences.resting import resting_on

    opened = open_or_load(asked.salon, asked.today or date.today())
    salon = opened if asked.site is None else opened.only_site(asked.site)
    period = asked_period(salon, vars(asked).get("month"), vars(asked).get("start"), vars(asked).get("end"))
    if any(vars(asked)[option.replace("-", "_")] for option, _ in EXTRAS.get(asked.command, ())):
        if asked.by:
            raise WorkStopped("A file is written for one salon at a time; use --site NAME in place of --by site.")
        for path in importlib.import_module(f"analytics.handover.{asked.command}").write(salon, period, asked):
            print(f"Written: {path}", file=sys.stderr)
        return
    for sentence in kept_out(salon, asked.command, period):
        print(sentence, file=sys.stderr)
    answer = (salon.figure_by_site if asked.by else salon.figure)(asked.command, period)
    write(answer, asked.format, result(asked.command), currency=salon.settings.salon.currency)
    for sentence in [*never_set(opened.settings, [asked.command]), *resting_on(salon.book.made, [asked.command])]:
        print(sentence, file=sys.stderr)
    if figure(asked.command).takes("period"):
        whole = period or salon.cover
        parts = [month for month in whole.months() if whole.is_part(month, salon.as_of)]
        if parts:
            print(f"Part-months, nothing in them is scaled: {', '.join(parts)}.", file=sys.stderr)


def _run_forms(asked: argparse.Namespace) -> None:
    from analytics.handover.forms import write

    print(f"Written: {write(asked.salon, asked.today or date.today(), asked)[0]}", file=sys.stderr)


def _run_handover(asked: argparse.Namespace) -> int:
    from analytics.commands.shared import open_or_load
    from analytics.handover.accountant.command import asked_days, check_folder, write_folder

    if asked.verify:
        return check_folder(asked.verify)
    period = asked_days(asked.period, asked.start, asked.end)
    write_folder(open_or_load(asked.salon, asked.today or date.today()), period, asked)
    return 0


def _run_reference(_: argparse.Namespace) -> None:
    from analytics.commands.reference import reference

    sys.stdout.write(reference())


def _run_dashboard(asked: argparse.Namespace) -> int:
    from analytics.commands.shared import start_dashboard

    return start_dashboard(asked.salon, asked.today, asked.port, asked.on_network)


def _run_demo(asked: argparse.Namespace) -> None:
    from analytics.commands.demo import show_demo

    show_demo(asked.folder, asked.today)


if __name__ == "__main__":
    sys.exit(main())
