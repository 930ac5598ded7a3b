"""What values say of the columns of a diary: when, who, what, for how much."""

from itertools import pairwise

from analytics.intake.evidence.points import (
    DAY_KINDS,
    FAINT,
    FEWEST,
    MOST_STYLISTS,
    NEARLY,
    RULED_OUT,
    SOME,
    STRONG,
    SURE,
    Points,
    Sheets,
    times_of_day,
)
from analytics.intake.evidence.profile import fold
from analytics.intake.evidence.view import View

# --- bookings ------------------------------------------------------------------------------------------------------


def as_starts(view: View, place: int, _: Sheets) -> Points:
    if view.columns[place].kind != "moment":
        return RULED_OUT  # type: ignore[return-value]
    others = [at for at in view.of_kind(*DAY_KINDS) if at != place]
    if not others:
        return SURE, "the only column of moments"
    later = [at for at in others if _stay(view, place, at)]
    return (SURE, "others end on its day, after it") if len(others) == len(later) else (FAINT, "a column of moments")


def as_ends(view: View, place: int, _: Sheets) -> Points:
    if view.columns[place].kind == "clock":
        moments = view.of_kind("moment")
        after = len(moments) == 1 and _ends_that_day(view, moments[0], place)
        return (STRONG, "a time of day after a moment") if after else RULED_OUT  # type: ignore[return-value]
    if any(_stay(view, at, place) for at in view.of_kind("moment") if at != place):
        return SURE, "it lies after the start on the same day"
    return 0.0, ""


def _ends_that_day(view: View, moment: int, clock: int) -> bool:
    """Whether the times lie after the moments' own in nearly all rows."""
    starts, ends = view.columns[moment].moments, view.columns[clock].clocks
    pairs = [
        (f"{starts[one]:%H:%M}", ends[two]) for one, two in view.pairs(moment, clock) if one in starts and two in ends
    ]
    return bool(pairs) and sum(start < end for start, end in pairs) >= 0.95 * len(pairs)


def _stay(view: View, first: int, second: int) -> bool:
    """Whether the second moment ends what the first begins: later, and within one day, in nearly all rows."""
    ones, others = view.columns[first].moments, view.columns[second].moments
    pairs = [(ones[one], others[other]) for one, other in view.pairs(first, second) if one in ones and other in others]
    within = sum(0 < (end - start).total_seconds() < 12 * 3600 for start, end in pairs)
    return bool(pairs) and within >= 0.95 * len(pairs)


def as_only_day(view: View, place: int, _: Sheets) -> Points:
    if view.columns[place].kind != "day":
        return RULED_OUT  # type: ignore[return-value]
    days, clocks = view.of_kind(*DAY_KINDS), view.of_kind("clock")
    return (SURE, "the only column of days") if days == [place] and clocks else (FAINT, "a column of days")


def as_start_clock(view: View, place: int, _: Sheets) -> Points:
    clocks = [at for at in view.of_kind("clock") if times_of_day(view.columns[at])]
    if clocks == [place]:
        return STRONG, "the only column of times"
    return (STRONG, "the earlier of two times") if len(clocks) == 2 and _earlier(view, place, clocks) else (0.0, "")


def as_end_clock(view: View, place: int, _: Sheets) -> Points:
    clocks = [at for at in view.of_kind("clock") if times_of_day(view.columns[at])]
    later = len(clocks) == 2 and place in clocks and not _earlier(view, place, clocks)
    return (STRONG, "the later of two times") if later else (0.0, "")


def _earlier(view: View, place: int, clocks: list[int]) -> bool:
    other = next(at for at in clocks if at != place)
    mine, theirs = view.columns[place].clocks, view.columns[other].clocks
    pairs = [(mine[one], theirs[two]) for one, two in view.pairs(place, other) if one in mine and two in theirs]
    return bool(pairs) and sum(one < two for one, two in pairs) >= 0.95 * len(pairs)


def money_columns(view: View) -> list[int]:
    return [at for at, one in enumerate(view.columns) if one.kind == "number" and one.money and not counts_up(view, at)]


def counts_up(view: View, place: int) -> bool:
    """Whether the whole numbers are those of lines, visits or clients: mostly different, or one more each time."""
    column = view.columns[place]
    if not column.whole or column.filled < FEWEST:
        return False
    numbers = [column.numbers[cell] for cell in column.cells if cell in column.numbers]
    steps = sum(after - before in (0, 1) or after == 1 for before, after in pairwise(numbers))
    return steps >= 0.9 * max(len(numbers) - 1, 1) or column.different > 0.6 * column.filled > 20


def as_price(view: View, place: int, sheets: Sheets) -> Points:
    column = view.columns[place]
    if column.nought > 0.5:
        return 0.0, ""
    if (near := _near_menu(view, place, sheets)) > 0.6:
        return SURE, f"{near:.0%} of it are the menu's prices"
    money = [at for at in money_columns(view) if view.columns[at].nought <= 0.5]
    if money == [place]:
        return STRONG, "the only column of amounts"
    return FAINT, "a column of amounts"


def _near_menu(view: View, place: int, sheets: Sheets) -> float:
    """The share of rows whose amount is the price of their service on another sheet."""
    prices = menu_prices(view, sheets)
    if prices is None:
        return 0.0
    at, listed = prices
    numbers = view.columns[place].numbers
    pairs = [
        (listed[fold(name)], numbers[text])
        for name, text in view.pairs(at, place)
        if fold(name) in listed and text in numbers
    ]
    return sum(paid in charged for charged, paid in pairs) / len(pairs) if len(pairs) >= FEWEST else 0.0


def menu_prices(view: View, sheets: Sheets) -> tuple[int, dict[str, set[float]]] | None:
    """The place of the column whose values are another sheet's services, and what each of them costs there."""
    for at, places in view.lies_in.items():
        for name, there in places:
            if sheets.roles.get((name, there), ("", ""))[0] != "services":
                continue
            menu = sheets.views[name]
            priced = [p for p in range(len(menu.columns)) if sheets.roles.get((name, p)) == ("services", "price")]
            if priced:
                listed: dict[str, set[float]] = {}
                for label, text in menu.pairs(there, priced[0]):
                    if text in menu.columns[priced[0]].numbers:
                        listed.setdefault(fold(label), set()).add(menu.columns[priced[0]].numbers[text])
                return at, listed
    return None


def as_taken_off(view: View, place: int, _: Sheets) -> Points:
    """Mostly nought, which a tip is as well: by itself it decides nothing."""
    return (FAINT, "mostly nothing") if view.columns[place].nought > 0.5 else RULED_OUT  # type: ignore[return-value]


def as_service(view: View, place: int, _: Sheets) -> Points:
    return (
        _tells_price(view, place) if view.columns[place].kind == "text" and not view.columns[place].codes else (0.0, "")
    )


def as_service_code(view: View, place: int, _: Sheets) -> Points:
    return _tells_price(view, place) if view.columns[place].kind == "text" and view.columns[place].codes else (0.0, "")


def _tells_price(view: View, place: int) -> Points:
    """What was done tells what was charged, in most rows, and better than who did it or for whom."""
    column = view.columns[place]
    if not 3 <= column.different <= max(0.25 * column.filled, 12):
        return 0.0, ""
    money = money_columns(view)
    tells = max((view.determines(place, at) for at in money), default=0.0)
    others = [at for at in view.of_kind("text") if at != place and view.columns[at].different > 1]
    best = max((view.determines(at, other) for at in others for other in money if _often(view, at)), default=0.0)
    if tells > 0.75 and tells > best + 0.1:
        return STRONG, f"it tells the price in {tells:.0%} of rows"
    return 0.0, ""


def _often(view: View, place: int) -> bool:
    column = view.columns[place]
    return column.different <= 0.25 * column.filled


def as_client(view: View, place: int, _: Sheets) -> Points:
    column = view.columns[place]
    if not column.names or column.different < max(10, 0.05 * column.filled) or column.fill < 0.5:
        return 0.0, ""
    many = [at for at in view.of_kind("text") if view.columns[at].names and view.columns[at].different >= 10]
    largest = max(many, key=lambda at: view.columns[at].different, default=place)
    apart = [view.columns[at].different for at in many if at != place]
    if largest == place and column.different >= 2 * max(apart, default=0):
        return STRONG, "names, most of them seldom"
    return 0.0, ""


def as_person(view: View, place: int, sheets: Sheets) -> Points:
    """A stylist is one of a few names; without a list she looks like a chair, a kind of client or a room."""
    column = view.columns[place]
    few = column.names and 1 <= column.different <= MOST_STYLISTS and column.filled >= 8 * column.different
    if not few or column.speaks("status") > 0.5:
        return 0.0, ""
    rivals = [at for at in view.of_kind("text") if at != place and _few_names(view, at)]
    if as_service(view, place, sheets)[0] or view.lies_in.get(place):
        return 0.0, ""
    return (SOME, "a few names") if not rivals else (FAINT, "a few names")


def _few_names(view: View, place: int) -> bool:
    column = view.columns[place]
    few = column.names and 1 <= column.different <= MOST_STYLISTS and column.filled >= 8 * column.different
    return few and column.speaks("status") < 0.5


def as_seat(view: View, place: int, _: Sheets) -> Points:
    column = view.columns[place]
    few = 1 <= column.different <= MOST_STYLISTS and column.filled >= 8 * column.different
    if not few or column.speaks("status") > 0.5:
        return 0.0, ""
    numbered = column.kind == "text" and column.share(lambda text: text[-1:].isdigit()) > 0.9
    return (SOME, "a few places with numbers") if numbered else (FAINT, "few different values")


def as_visit_number(view: View, place: int, _: Sheets) -> Points:
    """Of rows with one visit number all say one moment, and one client where there is one."""
    column = view.columns[place]
    if not column.codes or column.fill < 0.95:
        return 0.0, ""
    when = view.of_kind("moment", "day", "clock")
    shared = column.different < column.filled
    if shared and column.different > 0.3 * column.filled and when:
        tells = min(view.determines(place, at) for at in when)
        return (STRONG, "rows that share it share their moment") if tells > 0.98 else (0.0, "")
    return (FAINT, "a number of each row") if column.unique else (0.0, "")


def as_line_number(view: View, place: int, _: Sheets) -> Points:
    column = view.columns[place]
    if not column.whole or column.different > 15 or column.different < 2:
        return 0.0, ""
    numbers = [column.numbers[cell] for cell in column.cells if cell in column.numbers]
    steps = sum(after == 1 or after == before + 1 for before, after in pairwise(numbers))
    return (SURE, "1, 2, … again and again") if steps >= 0.97 * (len(numbers) - 1) and min(numbers) == 1 else (0.0, "")


def as_client_number(view: View, place: int, _: Sheets) -> Points:
    """A code that goes with one name each, and the other way round."""
    column = view.columns[place]
    if not column.codes or not 10 <= column.different <= 0.9 * column.filled or column.fill < 0.5:
        return 0.0, ""
    names = [at for at in view.of_kind("text") if view.columns[at].names and view.columns[at].different >= 10]
    twins = [at for at in names if view.determines(place, at) > 0.97 and view.determines(at, place) > 0.9]
    return (STRONG, "one for each name") if twins else (0.0, "")


def as_length(view: View, place: int, _: Sheets) -> Points:
    column = view.columns[place]
    written = column.kind != "number" and column.share(column.durations.__contains__) > NEARLY
    if written and (column.kind != "clock" or not times_of_day(column)):
        return SURE, "lengths of time"
    fives = (
        column.whole
        and column.share(lambda text: column.numbers[text] % 5 == 0 and 5 <= column.numbers[text] <= 600) > 0.98
    )
    priced = [at for at in money_columns(view) if at != place and not view.columns[at].whole]
    return (SOME, "minutes in steps of five") if fives and priced else (0.0, "")


def as_made_on(*_: object) -> Points:
    """A day, as when it starts is one: by itself it decides nothing."""
    return FAINT, "a column of days"
