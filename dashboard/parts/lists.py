"""Lists in words: the month's figures and the findings. Every text from data is escaped here."""

from collections.abc import Iterable
from html import escape

from analytics import sentences, wording
from analytics.definitions.rows import Row
from analytics.sentences import client_data
from analytics.settings import Settings
from analytics.storage.places import Place


def finding_list(rows: list[Row], settings: Settings) -> str:
    """The causes found: the first row in words, how many rows and files it is, and what to do."""
    return '<ul class="findings">' + "".join(_finding(row, settings) for row in rows) + "</ul>"


def _finding(row: Row, settings: Settings) -> str:
    files = f" in {wording.counted(row['files'], 'file', 'files', settings)}" if row["files"] > 1 else ""
    again = f"{wording.counted(row['count'], 'row', 'rows', settings)} like it{files}; the table below names them."
    more = f'<p class="quiet">{escape(again)}</p>' if row["count"] > 1 else ""
    quiet = " quiet" if row["what_to_do"].startswith("nothing") else ""
    return f'<li><p>{escape(row["message"])}</p>{more}<p class="do{quiet}">To do: {escape(row["what_to_do"])}</p></li>'


def cause_list(steps: list[sentences.Step], settings: Settings) -> str:
    """Causes with their amounts, and under each what it counts."""
    return '<ul class="causes">' + "".join(_cause(step, settings) for step in steps) + "</ul>"


def _cause(step: sentences.Step, settings: Settings) -> str:
    more = f"<small>{escape(step.more)}</small>" if step.more else ""
    return f"<li><span>{escape(step.name)}</span><em>{escape(wording.signed(step.amount, settings))}</em>{more}</li>"


def said_list(texts: list[str]) -> str:
    """Sentences of one weight, one under the other."""
    return '<ul class="said">' + "".join(f"<li>{escape(text)}</li>" for text in texts) + "</ul>"


def place_list(places: Iterable[Place], settings: Settings) -> str:
    """Where data of clients lies: what it is, and how many files."""
    return '<ul class="figures">' + "".join(_place(place, settings) for place in places) + "</ul>"


def _place(place: Place, settings: Settings) -> str:
    name, says = client_data.WHERE[place.kind]
    return (
        f"<li><span>{escape(name)}</span><em>{escape(client_data.files_say(place, settings))}</em>"
        f"<small>{escape(says)}</small></li>"
    )


def sites_list(sites: dict[str, list[Row]], settings: Settings) -> str:
    """The first figures of each salon of a group."""
    return '<ul class="figures">' + "".join(_site(site, rows, settings) for site, rows in sites.items()) + "</ul>"


def _name(figure: str) -> str:
    return wording.word(figure).lower()


def _site(site: str, rows: list[Row], settings: Settings) -> str:
    values = {row["figure"]: wording.quantity(row["value"], row["unit"], settings) for row in rows}
    first, *others = values
    more = " · ".join(values[name] if name == "visits" else f"{_name(name)} {values[name]}" for name in others)
    return (
        f"<li><span>{escape(sentences.site_name(site))}</span><em>{escape(values[first])}</em>"
        f"<small>{escape(more)}</small></li>"
    )
