"""The one error that people are meant to read."""

from dataclasses import dataclass


class WorkStopped(Exception):  # noqa: N818
    """The input or the settings stop the work.

    Its text is one sentence that says where, what was found, what was expected and what to do; the command line
    prints it to stderr and ends with exit status 1.
    """


class LeftOpen(WorkStopped):
    """A file can be read in two ways, and salon.toml does not say which; section: where it would say it."""

    def __init__(self, says: str, section: str) -> None:
        super().__init__(says)
        self.section = section


class TablesLacking(WorkStopped):
    """No export is one of these tables, without which there are no figures; what is there is in order."""

    def __init__(self, says: str, tables: tuple[str, ...]) -> None:
        super().__init__(says)
        self.tables = tables


PLAIN = {
    "starts_at": "start",
    "day": "day",
    "start_time": "time it starts",
    "client_id": "client",
    "service_id": "service",
    "product_id": "product",
    "paid_at": "day of payment",
    "logged_at": "moment of mixing",
    "mixed_g": "grams mixed",
    "sold_at": "day of sale",
    "moved_at": "day of the movement",
}
"""What a question calls a column, where its name is no plain word."""

WITHOUT = {
    "price": "; drop a price list beside it that says what each of its services costs, and every line has the list's "
    "price of that day, marked as assumed"
}
"""By what a file lacks: what else tells it."""


def plainly(column: str) -> str:
    """What people call the column."""
    return PLAIN.get(column, column.replace("_", " "))


@dataclass(frozen=True)
class Question:
    """What has to be said of one file: which of its headings (with their first values) are which of these columns.

    fits: where several headings may be it, the column that each of them would be.
    """

    file: str
    table: str
    columns: tuple[str, ...]
    headings: tuple[tuple[str, tuple[str, ...]], ...]
    fits: tuple[str, ...] = ()

    def __str__(self) -> str:
        shown = [f"{heading!r} ({', '.join(values)})" if values else repr(heading) for heading, values in self.headings]
        names = " or ".join(dict.fromkeys(map(plainly, self.columns)))
        if self.columns[0] == "cents":
            return f"{self.file}: are the amounts under {shown[0]} in cents?"
        if not shown:
            return (
                f"{self.file}: no heading of it can be the {names}, which every figure needs{WITHOUT.get(names, '')}."
            )
        if len(shown) == 1:
            return f"{self.file}: is {shown[0]} the {names}, or neither?"
        return f"{self.file}: which heading is the {names} ({', '.join(shown)}, or none)?"


class Asked(WorkStopped):
    """Files can be read in more than one way, or lack what nothing can make; questions: one for each thing to say."""

    def __init__(self, questions: tuple[Question, ...]) -> None:
        self.questions = questions
        headed = [one for one in questions if one.columns[0] != "cents" and one.headings]
        tables = ", ".join(dict.fromkeys(f"[columns.{one.table}]" for one in headed))
        cents = [one for one in questions if one.columns[0] == "cents"]
        ways = [f'say it in salon.toml under {tables}, "" for neither'] if tables else []
        ways += [f'[constants."{cents[0].file}"] amounts = "cents" or "whole"'] if cents else []
        asked = " ".join(map(str, questions))
        super().__init__(f"{asked} Choose it on the page Start, or {'; '.join(ways)}." if ways else asked)
