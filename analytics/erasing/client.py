"""Who a client is, by her number or name: every number, name, telephone number and mail address that exports have."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from analytics.intake.meaning.recognise import Recognised, recognise
from analytics.intake.reading.find import Export, find_exports
from analytics.intake.reading_plan import Sheets, planned
from analytics.settings import Settings
from analytics.stops import WorkStopped
from analytics.storage.erased import Erased, folded

OF_HER = ("site", "client_id", "client", "phone", "email")
MOST_NAMED = 6
Said = tuple[str, str, str, str, str]
"""site, client_id, client, phone, email of a row, as typed."""


@dataclass(frozen=True)
class Rows:
    """The rows of a sheet that name clients: by row, OF_HER; none of a table without clients. places: where its columns
    stand among the cells."""

    sheet: str
    export: Export
    table: str
    places: dict[str, int]
    said: dict[int, Said]


@dataclass
class Client:
    """Everything by which exports call her, as typed. shared: what other clients have as well, so that it stays."""

    site: str = ""
    numbers: set[str] = field(default_factory=set)
    names: set[str] = field(default_factory=set)
    phones: set[str] = field(default_factory=set)
    emails: set[str] = field(default_factory=set)
    shared: set[str] = field(default_factory=set)
    instead: str = ""

    def is_hers(self, said: Said) -> bool:
        """Whether a row names her: by its number, and where it has none by its name."""
        site, number, name, _, _ = said
        if self.site and site and folded(site) != folded(self.site):
            return False
        who = folded(number or name)
        return bool(who) and who in {folded(one) for one in (*self.numbers, *self.names)}


def named_rows(folder: Path, settings: Settings) -> list[Rows]:
    """Every sheet of the exports that is a table. Raises WorkStopped as loading does."""
    exports, sheets = find_exports(folder), Sheets(settings)
    plan = planned(exports, sheets)
    recognised = (recognise(sheet, settings, plan) for export in exports for sheet in sheets.of(export))
    return [rows for sheet in recognised for rows in _of_sheet(sheet)]


def _of_sheet(sheet: Recognised) -> Iterator[Rows]:
    if sheet.match is None:
        return
    places = {name: sheet.match.places[name] for name in OF_HER if name in sheet.match.places}
    said: dict[int, Said] = {}
    for records in (sheet.rows, sheet.faulty) if {"client_id", "client"} & set(places) else ():
        numbers = records["row"].to_list()
        columns = [
            records[f"c{places[name]}"].str.strip_chars().to_list()
            if name in places and f"c{places[name]}" in records.columns
            else [""] * len(numbers)
            for name in OF_HER
        ]
        said |= dict(zip(numbers, zip(*columns, strict=True), strict=True))
    yield Rows(sheet.name, sheet.export, sheet.match.table.name, sheet.match.places, said)


def clients(whom: Iterable[tuple[str, str]], sheets: list[Rows]) -> list[Client]:
    """Everybody of these salons and numbers or names. Raises WorkStopped where nobody has one, or several do."""
    rows, found = [said for sheet in sheets for said in sheet.said.values()], []
    for site, asked in whom:
        her = _client(asked, site, rows)
        rows = [said for said in rows if not her.is_hers(said)]  # what two of them share is nobody's after both
        found.append(her)
    return found


def _client(asked: str, site: str, rows: list[Said]) -> Client:
    rows = [said for said in rows if not site or not said[0] or folded(said[0]) == folded(site)]
    asked = folded(asked)
    by_number = {said[1] for said in rows if said[1] and folded(said[1]) == asked}
    by_name = {said[1] for said in rows if said[1] and folded(said[2]) == asked}
    numbers = by_number or by_name
    if len({folded(number) for number in numbers} - {asked}) > 1:
        named = ", ".join(sorted(numbers)[:MOST_NAMED])
        raise WorkStopped(f"Several clients have this name: {named}; name one of them by her number.")
    if not numbers and not any(folded(said[2]) == asked for said in rows):
        raise WorkStopped("No export names a client by this number or name; check how it is written in the exports.")
    _one_salon(numbers, site, rows)
    return _with_all(Client(site, set(numbers)), asked, rows)


def _one_salon(numbers: set[str], site: str, rows: list[Said]) -> None:
    """Raises WorkStopped where salons of a group gave the number to different clients."""
    own = {folded(number) for number in numbers}
    named = {(said[0], folded(said[2])) for said in rows if said[2] and folded(said[1]) in own}
    sites = sorted({one for one, _ in named if one})
    if not site and len(sites) > 1 and len({name for _, name in named}) > 1:
        raise WorkStopped(f"This number is of different clients in {', '.join(sites)}; say whose with --site NAME.")


def again(erased: Erased, sheets: list[Rows]) -> list[Client]:
    """Those who were erased and stand in an export again."""
    rows = [said for sheet in sheets for said in sheet.said.values()]
    sites = sorted({said[0] for said in rows if said[0]})
    who = {said[1] or said[2] for said in rows}
    found = erased.instead_of(who, sites)
    return [
        _with_all(Client(site, {value}, instead=instead), folded(value), rows)
        for (site, value), instead in sorted(found.items())
    ]


def _with_all(her: Client, asked: str, rows: list[Said]) -> Client:
    """Her names by her number, and what she is reached by; less what others have as well."""
    own = {folded(number) for number in her.numbers}
    her.names |= {said[2] for said in rows if said[2] and (folded(said[1]) in own or folded(said[2]) == asked)}
    others = [said for said in rows if said[1] and folded(said[1]) not in own and folded(said[1]) != folded(said[2])]
    shared_names = {folded(said[2]) for said in others}
    her.shared |= {name for name in her.names if folded(name) in shared_names}
    her.names -= her.shared
    hers = [said for said in rows if her.is_hers(said)]
    strangers = [said for said in rows if not her.is_hers(said)]
    for at, found in ((3, her.phones), (4, her.emails)):
        theirs = {folded(said[at]) for said in strangers}
        mine = {said[at] for said in hers if said[at]}
        her.shared |= {value for value in mine if folded(value) in theirs}
        found.update(mine - her.shared)
    return her
