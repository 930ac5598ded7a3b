"""Which files are one export in parts, of which the fullest is read for all."""

from analytics.intake.evidence.months import fullest_of_months
from analytics.intake.evidence.view import View, view_of
from analytics.intake.reading.split import split_records

HEADINGS = ["column 1", "column 2", "column 3"]
PAID = "".join(
    f"2026-05-{day:02} 1{day % 8}:00,4{day % 5}.00,{'cash' if day % 3 else 'card'}\n" for day in range(1, 29)
)
LOGGED = "".join(f"2026-05-{day:02} 1{day % 7}:10,{day % 9}.5,Shade {day % 4}.0\n" for day in range(1, 27))


def seen(name: str, rows: str) -> View:
    return view_of(name, -1, HEADINGS, split_records(rows, ","))


def fullest(known: set[str] = frozenset(), **rows: str) -> dict[str, str]:  # type: ignore[assignment]
    views = {
        f"{name.replace('_', ' ')}.csv": seen(f"{name.replace('_', ' ')}.csv", text) for name, text in rows.items()
    }
    return fullest_of_months(views, known)


def test_months_of_one_export_are_read_as_the_fullest() -> None:
    june = PAID.replace("2026-05", "2026-06")[:300]
    assert fullest(file_1=june, file_2=PAID) == {"file 1.csv": "file 2.csv", "file 2.csv": "file 2.csv"}


def test_files_of_one_time_are_read_each_for_itself() -> None:
    """A log of bowls beside payments under headings that say nothing, in files that are numbered through."""
    assert seen("a", PAID).columns[2].kind == seen("a", LOGGED).columns[2].kind
    assert set(fullest(file_1=LOGGED, file_2=PAID).values()) == {"file 1.csv", "file 2.csv"}


def test_files_that_hold_other_words_are_read_each_for_itself() -> None:
    later = LOGGED.replace("2026-05", "2026-06")
    assert set(fullest(file_1=later, file_2=PAID).values()) == {"file 1.csv", "file 2.csv"}


def test_a_day_within_the_time_of_another_file_lies_not_apart() -> None:
    day = PAID.splitlines()[9] + "\n"
    assert set(fullest(file_1=day * 3, file_2=PAID).values()) == {"file 1.csv", "file 2.csv"}


def test_where_words_know_the_headings_their_kinds_are_enough() -> None:
    known = {"file 1.csv", "file 2.csv"}
    assert set(fullest(known, file_1=LOGGED, file_2=PAID).values()) == {"file 2.csv"}
    assert set(fullest(known, file_1=LOGGED.replace("Shade ", ""), file_2=PAID).values()) == known
