"""`salon-figures erase`: what it shows, and what it asks."""

import argparse
import sys
from datetime import date

from analytics.commands.shared import finish_stopped
from analytics.erasing.erase import Found, carry_out, find
from analytics.loading import load_salon
from analytics.plain_text import visible
from analytics.stops import WorkStopped
from analytics.storage.working import working_privately

YES = "yes"
ELSEWHERE = (
    "Not looked into: copies outside this folder (backups, mails, files that were sent or printed, a spreadsheet's own "
    "copies), PDFs, and what is open in a browser: close its windows of these pages."
)
SHARED = "What other clients have as well, such as a shared telephone number or the same name, stays in their rows."


def erase(asked: argparse.Namespace, day: date) -> int:
    """Show every place, ask once, and take the client out. Exit status 0 done, 1 not wanted. Raises WorkStopped."""
    finish_stopped(asked.salon)
    if asked.again == bool(asked.client) and (asked.again or not sys.stdin.isatty()):
        raise WorkStopped("Name a client by number or name, or --again for those who came back with an old export.")
    who = None if asked.again else asked.client or input("Number or name of the client to erase: ")
    with working_privately(asked.salon):
        found = find(asked.salon, who, asked.site)
        if not found.places:
            print("Nobody who was erased stands in any file.")
            return 0
        _show(found)
        if asked.dry_run:
            print("Nothing was changed.")
            return 0
        if not (asked.yes or _agreed(len(found.rewrites))):
            print("Nothing was changed.")
            return 1
        carry_out(asked.salon, found, day, lambda: load_salon(asked.salon))
    print(f"Taken out of {len(found.rewrites)} files, and the records were made anew. erased.csv says when, not who.")
    return 0


def _show(found: Found) -> None:
    for place in found.places:
        times = "once" if place.how_often == 1 else f"{place.how_often} times"
        print(f"{visible(place.where)}: {place.what}, {times}")
    print("salon.duckdb: the records, made anew without the client")
    print("Sums of all months stay, under no name.")
    if found.shared:
        print(SHARED)
    print(ELSEWHERE)


def _agreed(files: int) -> bool:
    try:
        said = input(f"This cannot be taken back. Take the client out of these {files} files? Type {YES}: ")
    except EOFError:
        return False
    return said.strip().casefold() == YES
