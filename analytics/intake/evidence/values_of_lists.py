"""What values say of the columns of menus, lists, logs and payments."""

from analytics.intake.evidence.points import DAY_KINDS, FAINT, NEARLY, RULED_OUT, SOME, STRONG, SURE, Points, Sheets
from analytics.intake.evidence.profile import Profile, fold
from analytics.intake.evidence.values_of_visits import counts_up, money_columns
from analytics.intake.evidence.view import View

# --- menus, products, bowls, payments, clients ------------------------------------------------------------------------


def as_label(view: View, place: int, _: Sheets) -> Points:
    """The only column of names, each once."""
    column = view.columns[place]
    texts = [at for at in view.of_kind("text") if view.columns[at].unique and not view.columns[at].codes]
    if column.different < 0.5 * column.filled and column.filled > 20:
        return RULED_OUT  # type: ignore[return-value]
    return (STRONG, "names, each once") if texts == [place] and column.fill > 0.9 else (0.0, "")


def as_code(view: View, place: int, _: Sheets) -> Points:
    column = view.columns[place]
    if column.different < 0.5 * column.filled and column.filled > 20:
        return RULED_OUT  # type: ignore[return-value]
    coded = [at for at in view.of_kind("text") if view.columns[at].codes and view.columns[at].unique]
    labels = [at for at in view.of_kind("text") if view.columns[at].unique and not view.columns[at].codes]
    return (STRONG, "a code each") if coded == [place] and labels else (0.0, "")


def as_list_price(view: View, place: int, sheets: Sheets) -> Points:
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


def as_work(view: View, place: int, _: Sheets) -> Points:
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


def as_rate(view: View, place: int, _: Sheets) -> Points:
    return (
        (STRONG, "few different rates")
        if _rate_like(view.columns[place]) and view.columns[place].different <= 2
        else (0.0, "")
    )


def as_only_moment(view: View, place: int, _: Sheets) -> Points:
    days = view.of_kind(*DAY_KINDS)
    return (SURE, "the only column of moments") if days == [place] else (FAINT, "a column of days")


def as_clock_beside(view: View, place: int, _: Sheets) -> Points:
    return (STRONG, "the only column of times") if view.of_kind("clock") == [place] else (0.0, "")


def as_mixed(view: View, place: int, _: Sheets) -> Points:
    numbers = _grams(view)
    if numbers == [place]:
        return STRONG, "the only column of grams"
    others = [at for at in numbers if at != place]
    more = (
        len(others) == 1 and place in numbers and view.smaller(others[0], place) > 0.99 > view.smaller(place, others[0])
    )
    return (STRONG, "never less than the other grams") if more else (0.0, "")


def as_left(view: View, place: int, _: Sheets) -> Points:
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
        if not counts_up(view, at) and at not in view.lies_in and max(view.columns[at].values, default=0) <= 2000
    ]


def as_received(view: View, place: int, _: Sheets) -> Points:
    numbers = [at for at in money_columns(view) if at not in view.lies_in]
    large = [at for at in numbers if view.columns[at].nought < 0.5]
    return (
        (STRONG, "the only column of amounts")
        if large == [place]
        else ((FAINT, "amounts") if place in large else (0.0, ""))
    )


def as_phone(view: View, place: int, _: Sheets) -> Points:
    phones = view.of_kind("phone")
    return (SURE, "telephone numbers") if phones == [place] else (0.0, "")


def as_mail(view: View, place: int, _: Sheets) -> Points:
    return (SURE, "mail addresses") if view.of_kind("mail") == [place] else RULED_OUT  # type: ignore[return-value]
