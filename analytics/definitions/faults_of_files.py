"""What can be said of whole files and of how they were read."""

from analytics.definitions.fault import Fault

FAULTS = (
    Fault(
        "unknown_table",
        "The headings of {file} fit no table of the reference (salon-figures reference)",
        'say what it is under [tables] in salon.toml ("" leaves it out) and what its headings mean under '
        "[columns.<table>]",
    ),
    Fault(
        "left_out",
        "Nothing of {file} was read, because [tables] in salon.toml leaves it out",
        "nothing, if it is not wanted; else take its line out of [tables]",
        sets_aside=False,
    ),
    Fault(
        "idle_rule",
        "No export is called {value!r}, which [tables] in {file} names",
        "correct the name, or take the line out",
        sets_aside=False,
    ),
    Fault(
        "heading_not_used",
        "Nothing that stands under {value} in {file} was used, since it means no column we know",
        "nothing, if no figure needs it; else say what it means under [columns.{table}] in salon.toml, or choose "
        'it on the page Exports and findings, where "not used" ends this sentence',
        sets_aside=False,
    ),
    Fault(
        "read_by_values",
        "What stands under {value!r} in {file} was read as the {plain}: {expected}",
        "nothing, if that is what it is; else say what it means under [columns.{table}] in salon.toml, or choose "
        "it on the page Exports and findings",
        sets_aside=False,
    ),
    Fault(
        "read_as_cents",
        "Amounts under {value!r} in {file} stand in cents, and were divided by 100",
        'nothing, if they do; else say [constants."{file}"] amounts = "whole" in salon.toml',
        sets_aside=False,
    ),
    Fault(
        "table_left_out",
        "Nothing in {file}, which looks like {table}, was read as {value}, so that it was left out",
        "name the heading that means it under [columns.{table}] in salon.toml, or say under [constants] what all "
        "its rows have in common",
        sets_aside=False,
    ),
    Fault(
        "column_made",
        "No column of {file} is the {plain}, so it was made: {value}",
        "nothing, if that will do; else add it to the export",
        sets_aside=False,
    ),
    Fault(
        "visit_once",
        "Neither day nor client stands in {value} rows of {file}; they were read as further lines of the visit "
        "above them",
        "nothing, if a visit is written once with blanks below; else fill the cells in",
        sets_aside=False,
    ),
    Fault(
        "day_once",
        "No day stands in {value} rows of {file}; they were read as further rows of the day above them",
        "nothing, if a day is written once with blanks below; else fill the cells in",
        sets_aside=False,
    ),
    Fault(
        "menu_drafted",
        "No export is a menu, so one was drafted from the bookings: {value}",
        "look the kinds, prices and minutes over and keep them as an export of your own; figures by kind and by "
        "hour rest on them",
        sets_aside=False,
    ),
    Fault(
        "unknown_file",
        "{file} is not a kind of file we read",
        "export it as .csv, .xlsx or .ods, or take it out of exports/",
    ),
    Fault(
        "hidden_sheet",
        "A hidden sheet of {file}, {value!r}, was passed over",
        "show it in the spreadsheet and save the workbook again, if its rows should count",
        sets_aside=False,
    ),
    Fault(
        "rate_as_share",
        "Rates under {heading} in {file} stand as shares such as {value}, as workbooks hold them; they were read as "
        "percent, this one as {expected} %",
        "export the rate as a percentage such as 21, if less than 1 % is meant",
        sets_aside=False,
    ),
    Fault(
        "share_as_percent",
        "Shares under {heading} in {file} stand as percentages such as {value}; they were read as shares of 1, this "
        "one as {expected}",
        "write shares from 0 to 1, or a % sign behind each, if it bothers you",
        sets_aside=False,
    ),
    Fault(
        "read_as_nothing",
        "Row {row} of {file} says {value!r} under {heading}, which was read as an empty cell",
        "write the value if there is one, 0 where 0 is meant; else nothing",
        sets_aside=False,
    ),
    Fault(
        "erased_client",
        "A client who was erased still stands in {file} (rows: {value}); they count without her",
        "run salon-figures erase --again, which takes her out of the file as well",
        sets_aside=False,
    ),
)
