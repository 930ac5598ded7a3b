"""What keeps a row from being used, and names that nothing is known of."""

from analytics.definitions.fault import Fault

FAULTS = (
    Fault(
        "ragged_row",
        "Row {row} of {file} has {value} cells, but there are {expected} headings",
        "look for a missing or extra separator in that row",
    ),
    Fault(
        "open_quotation",
        "Row {row} of {file} has a quotation mark that is not closed or stands in mid-cell",
        "take the quotation mark out, or double it",
    ),
    Fault(
        "repeated_heading",
        "Row {row} of {file} repeats the headings",
        "nothing, it was skipped; take it out if it bothers you",
    ),
    Fault("total_line", "Row {row} of {file} is a total, not a record", "nothing, it was skipped"),
    Fault(
        "missing_value",
        "Row {row} of {file} has nothing under {heading}, which is needed",
        "fill in {expected} and load again",
    ),
    Fault(
        "bad_date",
        "Row {row} of {file} says {value!r} under {heading}, which is no day of the calendar",
        "write {expected}",
    ),
    Fault(
        "bad_number",
        "Row {row} of {file} says {value!r} under {heading}, where a number was expected",
        "write {expected}",
    ),
    Fault(
        "unknown_word",
        "Row {row} of {file} says {value!r} under {heading}, which is none of the words we know",
        "use {expected}, or map the word under [words.{column}] in salon.toml",
    ),
    Fault(
        "unknown_service",
        "Row {row} of {file} names the service {value!r}, which is not on the menu",
        "add it to the services export, or correct its name or id",
    ),
    Fault(
        "ambiguous_service",
        "Row {row} of {file} names the service {value!r}, which stands on the menu more than once",
        "give its service_id",
    ),
    Fault(
        "end_before_start",
        "Row {row} of {file} ends at {value} before it starts",
        "correct starts_at or ends_at",
    ),
    Fault(
        "end_too_late",
        "Row {row} of {file} ends at {value}, more than a day after it starts",
        "correct starts_at or ends_at; a wrong month or year is the usual slip",
    ),
    Fault(
        "unknown_product",
        "Row {row} of {file} names the product {value!r}, which is not in the products export, so it has no cost",
        "add it to the products export with pack_g and pack_cost",
        sets_aside=False,
    ),
)
