"""What values say of the columns a heading may mean, in points; a column whose type the values are not is ruled out.

The points weigh how seldom other columns of a salon show the same: values of a closed list, or that lie in another
sheet's column of different values, count most; what several columns show alike counts little.
"""

from collections.abc import Callable

from analytics.definitions.columns import Column, Table
from analytics.intake.evidence.points import (
    DAY_KINDS,
    FEWEST,
    RULED_OUT,
    SOME,
    STRONG,
    SURE,
    Points,
    Rule,
    Sheets,
    times_of_day,
)
from analytics.intake.evidence.profile import Profile
from analytics.intake.evidence.values_of_lists import (
    as_clock_beside,
    as_code,
    as_label,
    as_left,
    as_list_price,
    as_mail,
    as_mixed,
    as_only_moment,
    as_phone,
    as_rate,
    as_received,
    as_work,
)
from analytics.intake.evidence.values_of_visits import (
    as_client,
    as_client_number,
    as_end_clock,
    as_ends,
    as_length,
    as_line_number,
    as_made_on,
    as_only_day,
    as_person,
    as_price,
    as_seat,
    as_service,
    as_service_code,
    as_start_clock,
    as_starts,
    as_taken_off,
    as_visit_number,
)
from analytics.intake.evidence.view import View

MOSTLY = 0.5
NUMBERS = ("number", "quantity", "grams", "money", "percent")
DAYS = ("day", "moment_or_day")


def said_by_values(view: View, table: Table, place: int, column: str, sheets: Sheets) -> Points | None:
    """Points and the reason; None where the values cannot be the column's."""
    profile = view.columns[place]
    if profile.kind == "nothing":
        return 0.0, ""
    definition = next((one for one in table.columns if one.name == column), None)
    if not _may_be(profile, definition, column):
        return (0.0, "") if definition and _mostly(profile, definition) else RULED_OUT
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
        return times_of_day(profile)
    if name == "day":
        return kind in DAY_KINDS
    if column is None:
        return True
    return TYPES[column.type](profile)


def _mostly(profile: Profile, column: Column) -> bool:
    """Whether most values are of the type and some are not, as slips are: they say nothing, and rule nothing out."""
    if column.type in NUMBERS:
        return profile.share(profile.numbers.__contains__) > MOSTLY
    return column.type in DAYS and profile.share(profile.moments.__contains__) > MOSTLY


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


RULES: dict[tuple[str, str], tuple[Rule, ...]] = {
    ("bookings", "starts_at"): (as_starts,),
    ("bookings", "ends_at"): (as_ends,),
    ("bookings", "day"): (as_only_day,),
    ("bookings", "start_time"): (as_start_clock,),
    ("bookings", "end_time"): (as_end_clock,),
    ("bookings", "price"): (as_price,),
    ("bookings", "discount"): (as_taken_off,),
    ("bookings", "tip"): (as_taken_off,),
    ("bookings", "service"): (as_service,),
    ("bookings", "service_id"): (as_service_code,),
    ("bookings", "client"): (as_client,),
    ("bookings", "client_id"): (as_client_number,),
    ("bookings", "stylist"): (as_person,),
    ("bookings", "chair"): (as_seat,),
    ("bookings", "booking_id"): (as_visit_number,),
    ("bookings", "line"): (as_line_number,),
    ("bookings", "minutes"): (as_length,),
    ("bookings", "booked_on"): (as_made_on,),
    ("services", "service"): (as_label,),
    ("services", "service_id"): (as_code,),
    ("services", "price"): (as_list_price,),
    ("services", "hands_on_min"): (as_work,),
    ("services", "tax_rate"): (as_rate,),
    ("products", "product"): (as_label,),
    ("products", "product_id"): (as_code,),
    ("clients", "client"): (as_label,),
    ("clients", "client_id"): (as_code,),
    ("clients", "phone"): (as_phone,),
    ("clients", "email"): (as_mail,),
    ("product_log", "logged_at"): (as_only_moment,),
    ("product_log", "time"): (as_clock_beside,),
    ("product_log", "mixed_g"): (as_mixed,),
    ("product_log", "left_g"): (as_left,),
    ("payments", "paid_at"): (as_only_moment,),
    ("payments", "time"): (as_clock_beside,),
    ("payments", "amount"): (as_received,),
    ("sales", "sold_at"): (as_only_moment,),
    ("sales", "time"): (as_clock_beside,),
    ("stock_moves", "moved_at"): (as_only_moment,),
    ("stock_moves", "time"): (as_clock_beside,),
}
