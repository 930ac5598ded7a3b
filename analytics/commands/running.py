"""What each command does once its words are read; what a command does not need is not imported."""

import argparse
import importlib
import sys
from datetime import date

from analytics.catalogue import figure, result
from analytics.stops import WorkStopped

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


def run_erase(asked: argparse.Namespace) -> int:
    from analytics.commands.erasing import erase

    return erase(asked, asked.today or date.today())


def run_load(asked: argparse.Namespace) -> int:
    from analytics.commands.shared import load_with_bar
    from analytics.output import write

    report = load_with_bar(asked.salon)
    columns = ["file", "table", "rows_read", "rows_used", "repeats", "superseded", "set_aside"]
    write(report.files.select(columns), asked.format)
    aside = int(report.files["set_aside"].sum())
    if report.findings.height:
        print(f"{report.findings.height} findings; salon-figures check shows them.", file=sys.stderr)
    return 1 if asked.strict and aside else 0


def run_check(asked: argparse.Namespace) -> None:
    from analytics.commands.shared import open_or_load
    from analytics.definitions.findings import SCHEMA
    from analytics.output import write
    from analytics.sentences.client_data import unseen_sentence

    salon = open_or_load(asked.salon, asked.today or date.today())
    book, settings = salon.book, salon.settings
    if settings.keeping.months_without_visit is not None:
        print(unseen_sentence(salon.figure("long_unseen").height, settings), file=sys.stderr)
    if asked.write:
        from analytics.commands.corrections import write_corrections

        for path in write_corrections(book, asked.write):
            print(f"Written: {path}", file=sys.stderr)
    findings = book.findings
    columns = ["file", "row", "message", "what_to_do"] if asked.format == "table" else list(SCHEMA)
    write(findings.select(columns), asked.format, empty="Nothing was found wrong with the exports.")


def run_try(asked: argparse.Namespace) -> None:
    from analytics.commands.file_trial import try_and_print

    try_and_print(asked.file, asked.salon, asked.format)


def run_figure(asked: argparse.Namespace) -> None:
    from analytics.commands.shared import asked_period, kept_out, open_or_load
    from analytics.output import write
    from analytics.sentences.assumed import never_set
    from analytics.sentences.resting import resting_on
    from analytics.sentences.roots import nobody_came

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
    assumed = [*never_set(opened.settings, [asked.command]), *resting_on(salon.book.made, [asked.command])]
    for sentence in [*assumed, *(nobody_came(answer, salon.settings) if asked.command == "roots" else [])]:
        print(sentence, file=sys.stderr)
    if figure(asked.command).takes("period"):
        whole = period or salon.cover
        parts = [month for month in whole.months() if whole.is_part(month, salon.as_of)]
        if parts:
            print(f"Part-months, nothing in them is scaled: {', '.join(parts)}.", file=sys.stderr)


def run_forms(asked: argparse.Namespace) -> None:
    from analytics.handover.forms import write

    print(f"Written: {write(asked.salon, asked.today or date.today(), asked)[0]}", file=sys.stderr)


def run_handover(asked: argparse.Namespace) -> int:
    from analytics.commands.shared import open_or_load
    from analytics.handover.accountant.command import asked_days, check_folder, write_folder

    if asked.verify:
        return check_folder(asked.verify)
    period = asked_days(asked.period, asked.start, asked.end)
    write_folder(open_or_load(asked.salon, asked.today or date.today()), period, asked)
    return 0


def run_reference(_: argparse.Namespace) -> None:
    from analytics.commands.reference import reference

    sys.stdout.write(reference())


def run_dashboard(asked: argparse.Namespace) -> int:
    from analytics.commands.shared import start_dashboard

    return start_dashboard(asked.salon, asked.today, asked.port, asked.on_network)


def run_demo(asked: argparse.Namespace) -> None:
    from analytics.commands.demo import show_demo

    show_demo(asked.folder, asked.today)
