"""What a column's values are, told with an early end, is what a look at every value tells."""

from collections import Counter
from collections.abc import Callable

from hypothesis import given, settings
from hypothesis import strategies as st

from analytics.intake.cells.values import Dialect, canonical_moment, canonical_number, date_order, decimal_sign
from analytics.intake.evidence.profile import MAIL, NEARLY_ALL, PHONE, Profile, determines
from analytics.intake.reading.split import split_records
from analytics.intake.shapes.heading import heading_at

CELLS = (
    *("14 mrt 2026", "1mar26", "45730.5125", "46095", "12.50", "9.15", "09:30", "9u30", "2026-03-14T10:00:00Z", "S 12"),
    *("Mon 14 Mar 2026", "märz 3 2026", "mié 14/3/26", "\u200e14-3-2026", "B04710", "P-1001", "€ 12,50", "(12,50)"),
    *("1.234", "1,234", "90 min", "x", "", "20260314", "20260314T0930", "1899-12-30 01:30:00", "0026-01-01", "n/a"),
    *("2300-01-01", "2026-13-01", "2026-03-14 24:00", "2026-03-14", "2026-03-14 00:00", "2026-03-14 09:30", "½"),
    *(
        "1 août 2026",
        "+31 6 55000001",
        "a@salon.example",
        "Sa 1.8.26",
        "e 1/2/26",
        "-12",
        "0",
        "12%",
        "100000",
        "may 1",
    ),
)
columns = st.lists(st.sampled_from(CELLS), min_size=1, max_size=4).flatmap(
    lambda few: st.lists(st.sampled_from(few), min_size=1, max_size=60).map(tuple)
)


def plain_kind(cells: tuple[str, ...]) -> str:
    """The definition, without an early end: the first kind that 95 % of the filled cells are."""
    filled = [cell for cell in cells if cell]
    texts = {text for text in filled if len(text) >= 6 and text != "€ 12,50"}
    order = date_order(texts)
    days = Dialect(order.decided or next(iter(order.possible), "dmy"), ".", "UTC")
    moments = {text: found for text in texts if (found := canonical_moment(text, days))}
    amounts = Dialect(None, decimal_sign(set(filled)).decided or ".", "UTC")
    profile = Profile(cells)
    tests: dict[str, Callable[[str], object]] = {
        "clock": lambda text: text in profile.clocks,
        "moment": moments.__contains__,
        "mail": MAIL.fullmatch,
        "phone": lambda text: PHONE.fullmatch(text) and sum(map(str.isdigit, text)) >= 8,
        "number": lambda text: canonical_number(text, amounts) is not None,
    }
    if not filled:
        return "nothing"
    found = next(
        (kind for kind, test in tests.items() if sum(map(bool, map(test, filled))) / len(filled) >= NEARLY_ALL), "text"
    )
    if found != "moment":
        return found
    timed = sum(text in moments and moments[text][11:16] not in ("", "00:00") for text in filled)
    return "moment" if timed > len(filled) / 2 else "day"


@settings(max_examples=150)
@given(columns)
def test_kind_of_a_column_needs_no_look_at_all_of_it(cells: tuple[str, ...]) -> None:
    assert Profile(cells).kind == plain_kind(cells)


@settings(max_examples=60)
@given(
    st.lists(st.tuples(st.sampled_from(("", "a", "b", "c")), st.sampled_from(("", "x", "y"))), min_size=1, max_size=30)
)
def test_how_far_one_column_tells_another(pairs: list[tuple[str, str]]) -> None:
    rows = [(key.strip(), told.strip()) for key, told in pairs]
    often = [key for key, count in Counter(key for key, _ in rows if key).items() if count > 1]
    best = [Counter(told for key, told in rows if key == one).most_common(1)[0][1] for one in often]
    of = sum(key in often for key, _ in rows)
    given_cells, told_cells = (tuple(row[at] for row in rows) for at in (0, 1))
    assert determines(Profile(given_cells), Profile(told_cells)) == (sum(best) / of if of else 0.0)


def test_a_heading_has_as_many_cells_as_the_rows_below() -> None:
    wide = "A title,,,\nDate,Client,Service,Price\n" + "2026-05-05,Alda,Cut,45.00\n" * 4
    assert heading_at(split_records(wide, ",")) == 1
    few = "Date,Client,,\n" + "2026-05-05,Alda,Cut,45.00\n" * 4
    assert heading_at(split_records(few, ",")) is None
    assert heading_at(split_records("Date,Client\n", ",")) is None
