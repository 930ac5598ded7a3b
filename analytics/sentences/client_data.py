"""Where data of clients lies, how long it is kept, and how somebody is taken out."""

from analytics import wording
from analytics.settings import Settings
from analytics.storage.places import Place, Places

WHERE = {
    "exports": ("Exports", "exports/: as your other programs wrote them, and menus kept here."),
    "records": ("Records", "salon.duckdb: what was read of the exports. It is made anew by every load."),
    "marks": ("Marks on the call sheet", "asked.csv: who was asked to come, when, and what they said."),
    "handover": (
        "Accountant's folder",
        "handover/: no client's name or number; visits by number, and clients under pseudonyms where you asked for it.",
    ),
    "papers": ("Lists and papers", "Call sheets, calendars, corrections and whatever else lies in the folder."),
    "access": ("People and phones", "access/: who may sign in and which phones are paired; nothing of a client."),
    "erased": ("Erased clients", "erased.json and erased.csv: marks that keep them out, and when it was; no names."),
    "copies": ("Copies at work", "Temporary copies; what stopped work left of them goes at the next start."),
}
"""By kind of place: its name, and what lies there."""

ERASE_ONE = (
    "To take one client out of all of these: salon-figures erase, with their number or name. It shows every place "
    "first, asks once, and keeps every sum."
)
ELSEWHERE = (
    "What these pages cannot reach: files that were downloaded, sent or printed, backups, a spreadsheet's own copies, "
    "and the programs the exports come from. Browsers are told to keep nothing of these pages; a phone that lost the "
    "connection shows its last page until it is closed."
)
NOT_SET = "How long records of clients are kept is not set: they stay until they are erased."
LAW = "What has to be kept for longer, as for tax, is a matter of local rules and comes first."


def clients_sentence(clients: int, places: Places, settings: Settings) -> str:
    """Of how many clients there is data, in how many files, and who else can read them."""
    files = wording.counted(places.files, "file", "files", settings)
    who = wording.counted(clients, "client", "clients", settings)
    return f"Data of {who} lies in this salon's folder, {files} in all."


def rights_sentence(places: Places, settings: Settings) -> str:
    """Who else on this machine can read them, and the way out."""
    if not places.open_files:
        return "Other accounts of this machine cannot read them."
    files = wording.counted(places.open_files, "file", "files", settings)
    return (
        f"{files} can be read by other accounts of this machine; take those rights away, with chmod -R go= on the "
        "salon's folder."
    )


def files_say(place: Place, settings: Settings) -> str:
    """How many files, and how many of them others can read."""
    files = wording.counted(place.files, "file", "files", settings)
    return f"{files}, {wording.number(place.open_files, settings)} open to others" if place.open_files else files


def unseen_sentence(clients: int, settings: Settings) -> str:
    """How many clients had no visit for as long as records are kept, and what to do."""
    months = settings.keeping.months_without_visit
    if months is None:
        return NOT_SET
    kept = f"{wording.counted(months, 'month', 'months', settings)} or longer"
    if not clients:
        return f"Nobody was without a visit for {kept}."
    return (
        f"{wording.counted(clients, 'client was', 'clients were', settings)} without a visit for {kept}: "
        "salon-figures erase --overdue shows who, and takes them out with one confirmation. Nothing goes by itself."
    )
