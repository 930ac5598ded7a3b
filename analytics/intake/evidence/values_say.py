"""What values say of the columns a heading may mean, in points; a column whose type the values are not is ruled out.

The points weigh how seldom other columns of a salon show the same: values of a closed list, or that lie in another
sheet's column of different values, count most; what several columns show alike counts little.
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from analytics.definitions.tables import Column, Table
from analytics.intake.evidence.profile import Profile, fold
from analytics.intake.evidence.view import Roles, View

SURE, STRONG, SOME, FAINT = 6.0, 4.0, 2.0, 1.0
RULED_OUT = None
FEWEST = 5  # rows from which values are evidence at all
DAY_KINDS = ("moment", "day")
MOST_STYLISTS = 15

Points = tuple[float, str]


@dataclass(frozen=True)
class Sheets:
    """All views by name, and what their columns were read as before (empty the first time)."""

    views: dict[str, View]
    roles: Roles


def said_by_values(view: View, table: Table, place: int, column: str, sheets: Sheets) -> Points | None:
    """Points and the reason; None where the values cannot be the column's."""
    profile = view.columns[place]
    if profile.kind == "nothing":
        return 0.0, ""
    definition = next((one for one in table.columns if one.name == column), None)
    if not _may_be(profile, definition, column):
        return RULED_OUT
    if profile.filled < FEWEST:
        return 0.0, ""
    found = [rule(view, place, sheets) for rule in RULES.get((table.name, column), ())]
    found += [_of_closed_list(profile, table, definition)] if definition else []
    found += [_refers(view, place, table, column, sheets)]
    if any(one is None for one in found):
        return RULED_OUT
    given = sorted((one for one in found if one and one[0] > 0), reverse=True)
    if not given:
        return 0.0, ""
    return given[0][0] + sum(points for points, _ in given[1:2]) / 2, " and ".join(reason for _, reason in given[:2])


def _may_be(profile: Profile, column: Column | None, name: str) -> bool:
    """Whether the values are of the column's type at all."""
    kind = profile.kind
    if name in ("start_time", "end_time", "time"):
        return _times_of_day(profile)
    if name == "day":
        return kind in DAY_KINDS
    if column is None:
        return True
    return TYPES[column.type](profile)


def _words(profile: Profile) -> bool:
    return profile.kind == "text" or (profile.kind == "number" and profile.different <= 12)


TYPES: dict[str, Callable[[Profile], bool]] = {
    "text": lambda profile: profile.kind not in ("moment", "day", "clock"),
    "word": _words,
    "yes_no": lambda profile: profile.different <= 3,
    "whole": lambda profile: profile.whole,
    "number": lambda profile: (
        profile.kind in ("number", "clock") or profile.share(profile.durations.__contains__) > 0.9
    ),
    "quantity": lambda profile: profile.kind == "number",
    "grams": lambda profile: profile.kind == "number",
    "money": lambda profile: profile.kind == "number",
    "percent": lambda profile: profile.kind == "number",
    "day": lambda profile: profile.kind in DAY_KINDS,
    "moment": lambda profile: profile.kind in ("moment", "clock"),
    "moment_or_day": lambda profile: profile.kind in DAY_KINDS,
}


def _of_closed_list(profile: Profile, table: Table, column: Column) -> Points:
    if column.type == "yes_no" and profile.different == 2 and profile.speaks("yes_no") > 0.95:
        return STRONG, "its values are yes and no"
    if column.type == "word" and column.words and not (profile.unique and profile.filled > FEWEST):
        key = f"{table.name}.kind" if column.name == "kind" else column.name
        share = profile.speaks(key)
        if share >= 0.5 and profile.different >= min(2, profile.filled):
            return SURE * share, f"its values are words for {column.name}"
    return 0.0, ""


REFERENCES = {
    ("services", "service_id"): ("service_id",),
    ("services", "service"): ("service",),
    ("products", "product_id"): ("product_id",),
    ("products", "product"): ("product",),
    ("clients", "client_id"): ("client_id",),
    ("clients", "client"): ("client",),
    ("bookings", "booking_id"): ("booking_id",),
}


def _refers(view: View, place: int, table: Table, column: str, sheets: Sheets) -> Points:
    """Values that stand in a column of another sheet, once each there, and what that column was read as."""
    for other in view.lies_in.get(place, []):
        role = sheets.roles.get(other)
        if role and column in REFERENCES.get(role, ()) and role[0] != table.name:
            return SURE, f"its values stand in {other[0]}"
    mine = (table.name, column)
    if column.endswith("_id") and view.columns[place].share(lambda text: " " in text) > 0.05:
        return 0.0, ""
    if mine in REFERENCES:
        for other in view.referred.get(place, []):
            role = sheets.roles.get(other)
            if role and role[0] != table.name and role[1] in REFERENCES[mine]:
                return STRONG, f"{other[0]} refers to it"
        if any(other not in sheets.roles for other in view.referred.get(place, [])):
            return SOME, f"{view.referred[place][0][0]} refers to it"
    return 0.0, ""


# --- bookings ------------------------------------------------------------------------------------------------------


def _starts(view: View, place: int, _: Sheets) -> Points:
    if view.columns[place].kind != "moment":
        return RULED_OUT  # type: ignore[return-value]
    others = [at for at in view.of_kind(*DAY_KINDS) if at != place]
    if not others:
        return SURE, "the only column of moments"
    later = [at for at in others if _stay(view, place, at)]
    return (SURE, "others end on its day, after it") if len(others) == len(later) else (FAINT, "a column of moments")


def _ends(view: View, place: int, _: Sheets) -> Points:
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


def _only_day(view: View, place: int, _: Sheets) -> Points:
    if view.columns[place].kind != "day":
        return RULED_OUT  # type: ignore[return-value]
    days, clocks = view.of_kind(*DAY_KINDS), view.of_kind("clock")
    return (SURE, "the only column of days") if days == [place] and clocks else (FAINT, "a column of days")


def _start_clock(view: View, place: int, _: Sheets) -> Points:
    clocks = [at for at in view.of_kind("clock") if _times_of_day(view.columns[at])]
    if clocks == [place]:
        return STRONG, "the only column of times"
    return (STRONG, "the earlier of two times") if len(clocks) == 2 and _earlier(view, place, clocks) else (0.0, "")


def _end_clock(view: View, place: int, _: Sheets) -> Points:
    clocks = view.of_kind("clock")
    later = len(clocks) == 2 and place in clocks and not _earlier(view, place, clocks)
    return (STRONG, "the later of two times") if later else (0.0, "")


def _earlier(view: View, place: int, clocks: list[int]) -> bool:
    other = next(at for at in clocks if at != place)
    mine, theirs = view.columns[place].clocks, view.columns[other].clocks
    pairs = [(mine[one], theirs[two]) for one, two in view.pairs(place, other) if one in mine and two in theirs]
    return bool(pairs) and sum(one < two for one, two in pairs) >= 0.95 * len(pairs)


def _money_columns(view: View) -> list[int]:
    return [
        at for at, one in enumerate(view.columns) if one.kind == "number" and one.money and not _counts_up(view, at)
    ]


def _counts_up(view: View, place: int) -> bool:
    """Whether the whole numbers are those of lines, visits or clients: mostly different, or one more each time."""
    column = view.columns[place]
    if not column.whole or column.filled < FEWEST:
        return False
    numbers = [column.numbers[cell] for cell in column.cells if cell in column.numbers]
    steps = sum(after - before in (0, 1) or after == 1 for before, after in pairwise(numbers))
    return steps >= 0.9 * max(len(numbers) - 1, 1) or column.different > 0.6 * column.filled > 20


def _price(view: View, place: int, sheets: Sheets) -> Points:
    column = view.columns[place]
    if column.nought > 0.5:
        return 0.0, ""
    if (near := _near_menu(view, place, sheets)) > 0.6:
        return SURE, f"{near:.0%} of it are the menu's prices"
    money = [at for at in _money_columns(view) if view.columns[at].nought <= 0.5]
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


def _taken_off(view: View, place: int, _: Sheets) -> Points:
    """Mostly nought, which a tip is as well: by itself it decides nothing."""
    return (FAINT, "mostly nothing") if view.columns[place].nought > 0.5 else RULED_OUT  # type: ignore[return-value]


def _service(view: View, place: int, _: Sheets) -> Points:
    return (
        _tells_price(view, place) if view.columns[place].kind == "text" and not view.columns[place].codes else (0.0, "")
    )


def _service_code(view: View, place: int, _: Sheets) -> Points:
    return _tells_price(view, place) if view.columns[place].kind == "text" and view.columns[place].codes else (0.0, "")


def _tells_price(view: View, place: int) -> Points:
    """What was done tells what was charged, in most rows, and better than who did it or for whom."""
    column = view.columns[place]
    if not 3 <= column.different <= max(0.25 * column.filled, 12):
        return 0.0, ""
    money = _money_columns(view)
    tells = max((view.determines(place, at) for at in money), default=0.0)
    others = [at for at in view.of_kind("text") if at != place and view.columns[at].different > 1]
    best = max((view.determines(at, other) for at in others for other in money if _often(view, at)), default=0.0)
    if tells > 0.75 and tells > best + 0.1:
        return STRONG, f"it tells the price in {tells:.0%} of rows"
    return 0.0, ""


def _often(view: View, place: int) -> bool:
    column = view.columns[place]
    return column.different <= 0.25 * column.filled


def _client(view: View, place: int, _: Sheets) -> Points:
    column = view.columns[place]
    if not column.names or column.different < max(10, 0.05 * column.filled) or column.fill < 0.5:
        return 0.0, ""
    many = [at for at in view.of_kind("text") if view.columns[at].names and view.columns[at].different >= 10]
    largest = max(many, key=lambda at: view.columns[at].different, default=place)
    apart = [view.columns[at].different for at in many if at != place]
    if largest == place and column.different >= 2 * max(apart, default=0):
        return STRONG, "names, most of them seldom"
    return 0.0, ""


def _person(view: View, place: int, sheets: Sheets) -> Points:
    """A stylist is one of a few names; without a list she looks like a chair, a kind of client or a room."""
    column = view.columns[place]
    few = column.names and 1 <= column.different <= MOST_STYLISTS and column.filled >= 8 * column.different
    if not few or column.speaks("status") > 0.5:
        return 0.0, ""
    rivals = [at for at in view.of_kind("text") if at != place and _few_names(view, at)]
    if _service(view, place, sheets)[0] or view.lies_in.get(place):
        return 0.0, ""
    return (SOME, "a few names") if not rivals else (FAINT, "a few names")


def _few_names(view: View, place: int) -> bool:
    column = view.columns[place]
    few = column.names and 1 <= column.different <= MOST_STYLISTS and column.filled >= 8 * column.different
    return few and column.speaks("status") < 0.5


def _seat(view: View, place: int, _: Sheets) -> Points:
    column = view.columns[place]
    few = 1 <= column.different <= MOST_STYLISTS and column.filled >= 8 * column.different
    if not few or column.speaks("status") > 0.5:
        return 0.0, ""
    numbered = column.kind == "text" and column.share(lambda text: text[-1:].isdigit()) > 0.9
    return (SOME, "a few places with numbers") if numbered else (FAINT, "few different values")


def _visit_number(view: View, place: int, _: Sheets) -> Points:
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


def _line_number(view: View, place: int, _: Sheets) -> Points:
    column = view.columns[place]
    if not column.whole or column.different > 15 or column.different < 2:
        return 0.0, ""
    numbers = [column.numbers[cell] for cell in column.cells if cell in column.numbers]
    steps = sum(after == 1 or after == before + 1 for before, after in pairwise(numbers))
    return (SURE, "1, 2, … again and again") if steps >= 0.97 * (len(numbers) - 1) and min(numbers) == 1 else (0.0, "")


def _client_number(view: View, place: int, _: Sheets) -> Points:
    """A code that goes with one name each, and the other way round."""
    column = view.columns[place]
    if not column.codes or not 10 <= column.different <= 0.9 * column.filled:
        return 0.0, ""
    names = [at for at in view.of_kind("text") if view.columns[at].names and view.columns[at].different >= 10]
    twins = [at for at in names if view.determines(place, at) > 0.97 and view.determines(at, place) > 0.9]
    return (STRONG, "one for each name") if twins else (0.0, "")


def _length(view: View, place: int, _: Sheets) -> Points:
    column = view.columns[place]
    written = column.kind != "number" and column.share(column.durations.__contains__) > NEARLY
    if written and (column.kind != "clock" or not _times_of_day(column)):
        return SURE, "lengths of time"
    fives = (
        column.whole
        and column.share(lambda text: column.numbers[text] % 5 == 0 and 5 <= column.numbers[text] <= 600) > 0.98
    )
    priced = [at for at in _money_columns(view) if at != place and not view.columns[at].whole]
    return (SOME, "minutes in steps of five") if fives and priced else (0.0, "")


NEARLY = 0.95
EARLIEST = "06:00"


def _times_of_day(column: Profile) -> bool:
    """Whether times such as 1:15 may be those of a day's work: none lies before it."""
    return column.kind == "clock" and min(column.clocks.values()) >= EARLIEST


def _made_on(*_: object) -> Points:
    """A day, as when it starts is one: by itself it decides nothing."""
    return FAINT, "a column of days"


# --- menus, products, bowls, payments, clients ------------------------------------------------------------------------


def _label(view: View, place: int, _: Sheets) -> Points:
    """The only column of names, each once."""
    column = view.columns[place]
    texts = [at for at in view.of_kind("text") if view.columns[at].unique and not view.columns[at].codes]
    if column.different < 0.5 * column.filled and column.filled > 20:
        return RULED_OUT  # type: ignore[return-value]
    return (STRONG, "names, each once") if texts == [place] and column.fill > 0.9 else (0.0, "")


def _code(view: View, place: int, _: Sheets) -> Points:
    column = view.columns[place]
    if column.different < 0.5 * column.filled and column.filled > 20:
        return RULED_OUT  # type: ignore[return-value]
    coded = [at for at in view.of_kind("text") if view.columns[at].codes and view.columns[at].unique]
    labels = [at for at in view.of_kind("text") if view.columns[at].unique and not view.columns[at].codes]
    return (STRONG, "a code each") if coded == [place] and labels else (0.0, "")


def _list_price(view: View, place: int, sheets: Sheets) -> Points:
    charged = _charged(view, place, sheets)
    if charged is not None:
        if charged < 0.3:
            return RULED_OUT  # type: ignore[return-value]
        if charged > 0.6:
            return SURE, f"{charged:.0%} of it are prices that visits were charged"
    money = [at for at in view.of_kind("number") if not _rate_like(view.columns[at]) and not _fives(view.columns[at])]
    if money == [place]:
        return STRONG, "the only column of amounts"
    return (SOME, "amounts") if place in money else (0.0, "")


def _charged(view: View, place: int, sheets: Sheets) -> float | None:
    """In which share of services the amount is a price that a diary charges for it (or a hundred times less, where the
    diary counts cents); None where no diary tells."""
    for at, referrers in view.referred.items():
        for name, there in referrers:
            if sheets.roles.get((name, there), ("", ""))[0] != "bookings":
                continue
            diary = sheets.views[name]
            priced = [p for p in range(len(diary.columns)) if sheets.roles.get((name, p)) == ("bookings", "price")]
            if not priced:
                continue
            prices: dict[str, set[float]] = {}
            for label, text in diary.pairs(there, priced[0]):
                if text in diary.columns[priced[0]].numbers:
                    prices.setdefault(fold(label), set()).add(diary.columns[priced[0]].numbers[text])
            numbers = view.columns[place].numbers
            both = [(numbers[text], prices[fold(label)]) for label, text in view.pairs(at, place)
                    if fold(label) in prices and text in numbers]  # fmt: skip
            if len(both) >= 3:
                return sum(listed in paid or listed * 100 in paid for listed, paid in both) / len(both)
    return None


def _work(view: View, place: int, _: Sheets) -> Points:
    """The only column of minutes is the whole time of a service; of two, only words can say which is which."""
    minutes = [
        at for at, one in enumerate(view.columns) if one.kind == "number" and _fives(one) and not _rate_like(one)
    ]
    written = [
        at
        for at, one in enumerate(view.columns)
        if one.share(one.durations.__contains__) > NEARLY and one.kind != "number"
    ]
    every = view.columns[place].nought == 0
    return (STRONG, "the only column of minutes") if every and [*minutes, *written] == [place] else (0.0, "")


def _rate_like(column: Profile) -> bool:
    return column.different <= 4 and all(0 <= value <= 27 for value in column.values) and column.filled >= 4


def _fives(column: Profile) -> bool:
    return column.whole and all(value % 5 == 0 and value <= 300 for value in column.values)


def _rate(view: View, place: int, _: Sheets) -> Points:
    return (
        (STRONG, "few different rates")
        if _rate_like(view.columns[place]) and view.columns[place].different <= 2
        else (0.0, "")
    )


def _only_moment(view: View, place: int, _: Sheets) -> Points:
    days = view.of_kind(*DAY_KINDS)
    return (SURE, "the only column of moments") if days == [place] else (FAINT, "a column of days")


def _clock_beside(view: View, place: int, _: Sheets) -> Points:
    return (STRONG, "the only column of times") if view.of_kind("clock") == [place] else (0.0, "")


def _mixed(view: View, place: int, _: Sheets) -> Points:
    numbers = _grams(view)
    if numbers == [place]:
        return STRONG, "the only column of grams"
    others = [at for at in numbers if at != place]
    more = (
        len(others) == 1 and place in numbers and view.smaller(others[0], place) > 0.99 > view.smaller(place, others[0])
    )
    return (STRONG, "never less than the other grams") if more else (0.0, "")


def _left(view: View, place: int, _: Sheets) -> Points:
    numbers = _grams(view)
    others = [at for at in numbers if at != place]
    less = (
        len(others) == 1 and place in numbers and view.smaller(place, others[0]) > 0.99 > view.smaller(others[0], place)
    )
    return (STRONG, "never more than the other grams") if less else (0.0, "")


def _grams(view: View) -> list[int]:
    """Columns of amounts that are no numbers of visits or codes."""
    return [
        at
        for at in view.of_kind("number")
        if not _counts_up(view, at) and at not in view.lies_in and max(view.columns[at].values, default=0) <= 2000
    ]


def _received(view: View, place: int, _: Sheets) -> Points:
    numbers = [at for at in _money_columns(view) if at not in view.lies_in]
    large = [at for at in numbers if view.columns[at].nought < 0.5]
    return (
        (STRONG, "the only column of amounts")
        if large == [place]
        else ((FAINT, "amounts") if place in large else (0.0, ""))
    )


def _phone(view: View, place: int, _: Sheets) -> Points:
    phones = view.of_kind("phone")
    return (SURE, "telephone numbers") if phones == [place] else (0.0, "")


def _mail(view: View, place: int, _: Sheets) -> Points:
    return (SURE, "mail addresses") if view.of_kind("mail") == [place] else RULED_OUT  # type: ignore[return-value]


Rule = Callable[[View, int, Sheets], Points]
RULES: dict[tuple[str, str], tuple[Rule, ...]] = {
    ("bookings", "starts_at"): (_starts,),
    ("bookings", "ends_at"): (_ends,),
    ("bookings", "day"): (_only_day,),
    ("bookings", "start_time"): (_start_clock,),
    ("bookings", "end_time"): (_end_clock,),
    ("bookings", "price"): (_price,),
    ("bookings", "discount"): (_taken_off,),
    ("bookings", "tip"): (_taken_off,),
    ("bookings", "service"): (_service,),
    ("bookings", "service_id"): (_service_code,),
    ("bookings", "client"): (_client,),
    ("bookings", "client_id"): (_client_number,),
    ("bookings", "stylist"): (_person,),
    ("bookings", "chair"): (_seat,),
    ("bookings", "booking_id"): (_visit_number,),
    ("bookings", "line"): (_line_number,),
    ("bookings", "minutes"): (_length,),
    ("bookings", "booked_on"): (_made_on,),
    ("services", "service"): (_label,),
    ("services", "service_id"): (_code,),
    ("services", "price"): (_list_price,),
    ("services", "hands_on_min"): (_work,),
    ("services", "tax_rate"): (_rate,),
    ("products", "product"): (_label,),
    ("products", "product_id"): (_code,),
    ("clients", "client"): (_label,),
    ("clients", "client_id"): (_code,),
    ("clients", "phone"): (_phone,),
    ("clients", "email"): (_mail,),
    ("product_log", "logged_at"): (_only_moment,),
    ("product_log", "time"): (_clock_beside,),
    ("product_log", "mixed_g"): (_mixed,),
    ("product_log", "left_g"): (_left,),
    ("payments", "paid_at"): (_only_moment,),
    ("payments", "time"): (_clock_beside,),
    ("payments", "amount"): (_received,),
    ("sales", "sold_at"): (_only_moment,),
    ("sales", "time"): (_clock_beside,),
    ("stock_moves", "moved_at"): (_only_moment,),
    ("stock_moves", "time"): (_clock_beside,),
}
