"""What is odd once rows and tables are seen together; rows are used as they stand."""

from analytics.definitions.fault import Fault

FAULTS = (
    Fault(
        "voucher_beyond",
        "Row {row} of {file} pays {expected} with vouchers beyond all that were still owed on that day",
        "export the register of vouchers, or write what was owed for vouchers before the records begin under "
        "[accounting] vouchers_opening in salon.toml",
        sets_aside=False,
    ),
    Fault(
        "stock_below_nothing",
        "Row {row} of {file} takes {value} below what there was of it on the shelf, {expected} short",
        "look for a delivery or count that was not entered, or for a slip in this row",
        sets_aside=False,
    ),
    Fault(
        "completed_ahead",
        "Row {row} of {file} is a completed visit on {value}, a day that has not come",
        "correct the date or the status in the export",
        sets_aside=False,
    ),
    Fault(
        "same_line_twice",
        "Row {row} of {file} is the same as another line of visit {value}; lines have no numbers, so each was counted",
        "if it was done once, take the second line out, or export lines with a line column",
        sets_aside=False,
    ),
    Fault(
        "price_shared",
        "Row {row} of {file} has one price for several services; it was shared over them by their list prices",
        "export one row per service where you can",
        sets_aside=False,
    ),
    Fault(
        "same_name",
        "Row {row} of {file} is another client called {value}, and clients have no numbers here, so the later row "
        "stands for both",
        "export clients with client_id, or tell the names apart",
        sets_aside=False,
    ),
    Fault(
        "before_menu",
        "Row {row} of {file} is dated before the first menu row of {value!r}, so that first row was used",
        "add the older menu row with its valid_from",
        sets_aside=False,
    ),
    Fault(
        "out_of_range",
        "Row {row} of {file} says {value} under {heading}, outside {expected}; it was used as it stands",
        "correct it if it is a slip",
        sets_aside=False,
    ),
    Fault(
        "impossible_regrowth",
        "Row {row} of {file} says {value} mm of regrowth, more than hair can grow in that time, so the "
        "measurement was left out",
        "correct regrowth_mm",
        sets_aside=False,
    ),
    Fault(
        "shrinking_regrowth",
        "Row {row} of {file} says {value} mm of regrowth, but {expected} mm was measured before it with no colour "
        "on the roots between; both were used",
        "correct regrowth_mm of one of them, or add the root service between",
        sets_aside=False,
    ),
    Fault(
        "short_root_visit",
        "Row {row} of {file} colours roots in a visit of {value} minutes; one under an hour deserves a look "
        "(common practice, no source)",
        "correct its start or end, or its service if the roots were not coloured",
        sets_aside=False,
    ),
    Fault(
        "outside_hours",
        "Row {row} of {file} lies outside opening hours ({expected}); it counts as occupied hours beyond the share",
        "correct [hours] in salon.toml or the time, if one of them is wrong",
        sets_aside=False,
    ),
    Fault(
        "chair_taken_twice",
        "Row {row} of {file} begins in a chair that is {expected}; hours that overlap count once",
        "correct the chair or the time of one of the two, if it is a slip",
        sets_aside=False,
    ),
    Fault(
        "check_failed",
        "The check {value} of {table} could not be carried out",
        "report it together with the versions that salon-figures --version prints",
        sets_aside=False,
    ),
    Fault(
        "lines_disagree",
        "Row {row} of {file} begins a visit whose lines name {expected}, so they may be several visits under one "
        "number",
        "give each visit its own booking_id in the export, or correct the line that is wrong",
        sets_aside=False,
    ),
    Fault(
        "paid_differs",
        "Row {row} of {file} begins a visit for which {expected} was paid than its lines, tips and retail come to",
        "look for a payment entered twice, left out or under another visit, or for a line that was set aside",
        sets_aside=False,
    ),
    Fault(
        "visit_unpaid",
        "Row {row} of {file} begins a completed visit of {expected} without any payment, though nearly all "
        "visits have one",
        "enter the payment, name the visit in it, or load the payments export of that time",
        sets_aside=False,
    ),
    Fault(
        "price_far_off",
        "Row {row} of {file} charges {expected} for that service; it was used as it stands",
        "correct the price if a decimal sign slipped, or the menu if its price is another one by now",
        sets_aside=False,
    ),
    Fault(
        "bowl_without_colour",
        "Row {row} of {file} is a bowl for a visit that has no line of a colouring kind",
        "correct the booking_id of the bowl, add the missing line, or the kind of the service on the menu",
        sets_aside=False,
    ),
    Fault(
        "ratio_far_off",
        "Row {row} of {file} begins a bowl mixed {expected} for that service; it was used as it stands",
        "correct the grams if a digit slipped; what goes into a bowl is for the maker's instructions to say",
        sets_aside=False,
    ),
    Fault(
        "mix_too_strong",
        "Row {row} of {file} begins a bowl of {expected} hydrogen peroxide when ready; products for hair may hold "
        "12 % (in the EU; elsewhere it may be less)",
        "correct the grams or strength_percent if one is wrong; else keep to the maker's instructions, local rules "
        "and licensed practice",
        sets_aside=False,
    ),
    Fault(
        "lightener_without_developer",
        "Row {row} of {file} begins a bowl of lightener without any developer",
        "add the developer to the log if it was left out; what goes into a bowl is for the maker to say",
        sets_aside=False,
    ),
    Fault(
        "not_grams",
        "Row {row} of {file} says {expected} under {heading}, so little that it may be kilograms or litres; it was "
        "used as it stands",
        "write grams, 60 for a tube of 60 ml and 1000 for a litre",
        sets_aside=False,
    ),
    Fault(
        "unknown_visit",
        "Row {row} of {file} names a visit that is not in the bookings",
        "load the bookings of that time, correct the rows of theirs that were set aside, or the booking_id here; "
        "where the bookings have a site, give these rows theirs",
        sets_aside=False,
    ),
    Fault(
        "service_not_listed",
        "Row {row} of {file} names the service {value!r}, which is not on the menu; it was used as it stands",
        "add it to the services export, or correct its id",
        sets_aside=False,
    ),
    Fault(
        "client_twice",
        "Row {row} of {file} is a client reached in the same way, and named nearly the same, as another one "
        "above; their visits were not added up",
        "if they are one, join them where the export comes from; else nothing",
        sets_aside=False,
    ),
    Fault(
        "calendar_gap",
        "No visit of any kind from {value}, {expected} open days, after row {row} of {file}, which looks like a "
        "missing export",
        "load the bookings of those days, or list them under closed in salon.toml if the salon was shut",
        sets_aside=False,
    ),
    Fault(
        "short_week",
        "From {value} there are {expected}, up to row {row} of {file}, which looks like an export that is missing "
        "in part",
        "load the bookings of those weeks again, or list the days under closed in salon.toml if the salon was shut",
        sets_aside=False,
    ),
    Fault(
        "lost_file",
        "Booking exports hold one stylist or chair each, and none holds visits of {value} between {expected}, "
        "after row {row} of {file}, though others worked then",
        "load the export of that time; nothing if she was away or the chair stood empty",
        sets_aside=False,
    ),
    Fault(
        "silent_month",
        "The month {value}, which begins with row {row} of {file}, has {expected} for as many booking lines",
        "load the export of that month that is missing; nothing if it was not kept then",
        sets_aside=False,
    ),
    Fault(
        "stylist_stops",
        "Row {row} of {file} is the last visit of {value}, on {expected} of the book follow",
        "nothing if she left or is away; else look for the export that lacks her visits",
        sets_aside=False,
    ),
)
