"""Lists in words: the month's figures and the findings. Every text from data is escaped here."""

from html import escape
from typing import Any

from analytics import sentences, wording
from analytics.settings import Settings

Row = dict[str, Any]


def finding_list(rows: list[Row], settings: Settings) -> str:
    """The causes found: the first row in words, how many rows and files it is, and what to do."""
    return '<ul class="findings">' + "".join(_finding(row, settings) for row in rows) + "</ul>"


def _finding(row: Row, settings: Settings) -> str:
    files = f" in {wording.counted(row['files'], 'file', 'files', settings)}" if row["files"] > 1 else ""
    again = f"{wording.counted(row['count'], 'row', 'rows', settings)} like it{files}; the table below names them."
    more = f'<p class="quiet">{escape(again)}</p>' if row["count"] > 1 else ""
    quiet = " quiet" if row["what_to_do"].startswith("nothing") else ""
    return f'<li><p>{escape(row["message"])}</p>{more}<p class="do{quiet}">To do: {escape(row["what_to_do"])}</p></li>'


def figure_list(lines: list[dict[str, str]]) -> str:
    """The month's figures: name and value, and under them what they were before and what is usual."""
    return '<ul class="figures">' + "".join(_figure_line(line) for line in lines) + "</ul>"


def _figure_line(line: dict[str, str]) -> str:
    text = {name: escape(value) for name, value in line.items()}
    news = " wants" if line["standing"] in (sentences.ABOVE, sentences.BELOW) else ""
    return (
        f'<li class="{news.strip()}"><span>{text["figure"]}</span><em>{text["value"]}</em>'
        f"<small>month before {text['previous']} · a year before {text['year_ago']}</small>"
        f"<small class='standing'>{_standing(text)}</small></li>"
    )


def _standing(text: dict[str, str]) -> str:
    place, usual = text["standing"], text["usual"]
    if place == sentences.ORDINARY:
        return f"usual {usual}"
    return f"{place} {usual}" if place in (sentences.ABOVE, sentences.BELOW) else place
