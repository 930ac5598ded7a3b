"""`salon-figures erase`: what it shows, and what it asks."""

import argparse
import sys
from collections import Counter
from datetime import date
from pathlib import Path

from analytics import wording
from analytics.commands.shared import finish_stopped, open_or_load
from analytics.erasing.erase import Found, carry_out, find_all
from analytics.loading import load_salon
from analytics.plain_text import visible
from analytics.stops import WorkStopped
from analytics.storage.working import working_privately

YES = "yes"
MANY = 10  # clients at once
ELSEWHERE = (
    "Not looked into: copies outside this folder (backups, mails, files that were sent or printed, a spreadsheet's own "
    "copies), PDFs, and what is open in a browser: close its windows of these pages."
)
NOT_SET = (
    "Nothing says how long clients' records are kept; set months_without_visit under [keeping] in salon.toml, or on "
    "the page Settings."
)
LAW = "What has to be kept for longer, as for tax, is a matter of local rules; keep a copy of it elsewhere first."
SHARED = "What other clients have as well, such as a shared telephone number or the same name, stays in their rows."


def erase(asked: argparse.Namespace, day: date) -> int:
    """Show every place, ask once, and take the client out. Exit status 0 done, 1 not wanted. Raises WorkStopped."""
    finish_stopped(asked.salon)
    whom = _whom(asked, day)
    if whom == []:
        print("Nobody has been unseen for longer than records are kept.")
        return 0
    if whom and len(whom) > MANY:
        print("Every file is looked through for each of them, which takes a while.", file=sys.stderr)
    with working_privately(asked.salon):
        found = find_all(asked.salon, whom)
        if not found.places:
            print("Nobody who was erased stands in any file.")
            return 0
        _show(found)
        if asked.dry_run:
            print("Nothing was changed.")
            return 0
        if not (asked.yes or _agreed(found.files, 1 if whom is None else len(whom))):
            print("Nothing was changed.")
            return 1
        carry_out(asked.salon, found, day, lambda: load_salon(asked.salon))
    print(f"Taken out of {found.files} files, and the records were made anew. erased.csv says when, not who.")
    return 0


def _whom(asked: argparse.Namespace, day: date) -> list[tuple[str, str]] | None:
    """By salon of a group and number or name; None: those who were erased before."""
    if sum((asked.again, asked.overdue, bool(asked.client))) > 1:
        raise WorkStopped("Name one client, or use --overdue or --again alone.")
    if asked.again:
        return None
    if asked.overdue:
        return _overdue(asked.salon, day)
    if not (asked.client or sys.stdin.isatty()):
        raise WorkStopped("Name a client by number or name, or --again for those who came back with an old export.")
    return [(asked.site, asked.client or input("Number or name of the client to erase: "))]


def _overdue(folder: Path, day: date) -> list[tuple[str, str]]:
    """Whoever had no visit for as long as the settings keep records, shown one by one."""
    salon = open_or_load(folder, day)
    if salon.settings.keeping.months_without_visit is None:
        raise WorkStopped(NOT_SET)
    if salon.stale:
        raise WorkStopped("The exports have changed since they were loaded; run salon-figures load first.")
    gone = salon.figure("long_unseen")
    for site, number, name, last, months in gone.iter_rows():
        who = ", ".join(one for one in (site, number, name if name != number else "") if one)
        print(f"{visible(who)}: last seen {wording.day(last, salon.settings)}, {months} months ago")
    if not gone.is_empty():
        print(LAW)
    return list(gone.select("site", "client_id").iter_rows())


def _show(found: Found) -> None:
    times: Counter[tuple[str, str]] = Counter()
    for place in found.places:
        times[place.where, place.what] += place.how_often
    for (where, what), often in times.items():
        print(f"{visible(where)}: {what}, {'once' if often == 1 else f'{often} times'}")
    print("salon.duckdb: the records, made anew without the client")
    print("Sums of all months stay, under no name.")
    if found.shared:
        print(SHARED)
    print(ELSEWHERE)


def _agreed(files: int, clients: int) -> bool:
    who = "the client" if clients == 1 else f"these {clients} clients"
    try:
        said = input(f"This cannot be taken back. Take {who} out of these {files} files? Type {YES}: ")
    except EOFError:
        return False
    return said.strip().casefold() == YES
