"""What a stopped load asks, with the answers there are and what each writes into salon.toml."""

from dataclasses import dataclass

import polars as pl

from analytics.definitions.tables import METHODS
from analytics.settings import AMOUNTS
from analytics.stops import Asked, LeftOpen, Question, WorkStopped, plainly
from analytics.storage.settings_file import Sections

WAYS = {
    "dates": ("order", {"dmy": "day, month, year", "mdy": "month, day, year", "ymd": "year, month, day"}),
    "numbers": ("decimal", {",": "1,5 is one and a half", ".": "1.5 is one and a half"}),
}
"""By section of salon.toml: the setting that says how files are written, and the ways there are."""

PAID_BY = {"cash": "Cash", "card": "Card", "bank": "Bank transfer", "voucher": "Voucher", "other": "In other ways"}


@dataclass(frozen=True)
class Answer:
    """label: words of ours, never a file's. heading, values: what of the file it speaks of, where it does."""

    label: str
    lines: Sections
    heading: str = ""
    values: tuple[str, ...] = ()


@dataclass(frozen=True)
class Inquiry:
    """One question in a sentence, which may quote a file, and the answers there are."""

    says: str
    answers: tuple[Answer, ...]


def inquiries(stop: WorkStopped | None) -> list[Inquiry]:
    """What has to be said before the load can go on; nothing where it asks nothing."""
    if isinstance(stop, Asked):
        return [_inquiry(one) for one in stop.questions]
    return [_of_ways(stop)] if isinstance(stop, LeftOpen) else []


def _of_ways(stop: LeftOpen) -> Inquiry:
    key, ways = WAYS[stop.section]
    says = f"{str(stop).partition('; say [')[0]}. How are its {stop.section} written?"
    return Inquiry(says, tuple(Answer(label, {(stop.section,): {key: way}}) for way, label in ways.items()))


def _inquiry(one: Question) -> Inquiry:
    if one.columns[0] == "cents":
        ways = {"cents": "In cents", "whole": "In whole amounts"}
        return Inquiry(
            str(one), tuple(Answer(label, {("constants", one.file): {AMOUNTS: way}}) for way, label in ways.items())
        )
    answers = _of_columns(one) if len(one.headings) == 1 else _of_headings(one)
    return Inquiry(_sentence(one), answers)


def _sentence(one: Question) -> str:
    if len(one.headings) < 2:
        return str(one)
    return f"{one.file}: what is the {_names(one.columns)}?"


def _names(columns: tuple[str, ...]) -> str:
    return " or ".join(dict.fromkeys(map(plainly, columns)))


def _of_columns(one: Question) -> tuple[Answer, ...]:
    """One heading, and what it may be."""
    ((heading, _),) = one.headings
    by_name = {plainly(column): column for column in (*reversed(one.columns), *one.fits)}
    section = ("columns", one.table)
    meant = [Answer(f"It is the {name}", {section: {heading: by_name[name]}}) for name in map(plainly, one.columns)]
    neither = Answer("Neither" if len(by_name) > 1 else "It is not", {section: {heading: ""}})
    return (*{one.label: one for one in meant}.values(), neither)


def _of_headings(one: Question) -> tuple[Answer, ...]:
    """Several headings that may be it, and the way out where none is."""
    fits = one.fits or (one.columns[0],) * len(one.headings)
    meant = [
        Answer(f"This is the {plainly(column)}", {("columns", one.table): {heading: column}}, heading, values)
        for (heading, values), column in zip(one.headings, fits, strict=True)
    ]
    return (*meant, Answer("None is: leave this file out", {("tables",): {one.file: ""}}))


def asked_of_findings(findings: pl.DataFrame) -> list[Inquiry]:
    """Payments that do not say how they were paid were left out; one word for the whole file brings them in."""
    lacking = findings.filter(code="table_left_out", value="method")
    return [
        Inquiry(
            f"{file} looks like payments, but does not say how they were paid. How were all of them?",
            tuple(Answer(PAID_BY[way], {("constants", file): {"method": way}}) for way in METHODS),
        )
        for file in lacking["file"].unique(maintain_order=True)
    ]
