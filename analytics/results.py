"""Every table that a figure answers with, once: grain, and of each column its type, unit and meaning.

Money is net of tax unless the name says gross. A result has the name of its figure, its command and its module.
"""

from dataclasses import dataclass

import polars as pl

MONEY = pl.Decimal(38, 4)  # sums of MONEY cells; written with the currency's own digits
VALUE = pl.Decimal(38, 4)
TEXT, DAY, HOURS, SHARE, COUNT = pl.String(), pl.Date(), pl.Float64(), pl.Float64(), pl.Int64()
GRAMS = pl.Decimal(38, 3)
MM = pl.Float64()
RATE = pl.Decimal(9, 4)
QUANTITY = pl.Decimal(38, 3)

COMPARISONS = {"previous": 1, "year_ago": 12}  # what a month is held against -> how many months before it lies


@dataclass(frozen=True)
class Result:
    """grain: what one row is. columns: name -> (type, unit, meaning)."""

    name: str
    grain: str
    columns: dict[str, tuple[pl.DataType, str, str]]

    @property
    def schema(self) -> dict[str, pl.DataType]:
        return {name: column[0] for name, column in self.columns.items()}

    def empty(self) -> pl.DataFrame:
        return pl.DataFrame(schema=self.schema)

    def shape(self, frame: pl.DataFrame) -> pl.DataFrame:
        """The frame with exactly this result's columns, order and types."""
        return frame.select(pl.col(name).cast(dtype) for name, dtype in self.schema.items())


MONTH_KEY = {"month": (TEXT, "YYYY-MM", "calendar month")}
COMPARED = {"compared_with": (TEXT, "", "previous (the month before) or year_ago; a part-month with the same days")}

RESULTS = {
    result.name: result
    for result in (
        Result(
            "roots",
            "one row per client who has had a root-resetting service",
            {
                "client_id": (TEXT, "", "the client"),
                "client": (TEXT, "", "name, where the clients table gives one"),
                "kind": (TEXT, "", "kind of the last root-resetting service"),
                "stylist": (TEXT, "", "who did it"),
                "last_root_on": (DAY, "", "day of the last root-resetting service"),
                "days_since": (COUNT, "days", "days since then"),
                "growth_mm_per_day": (MM, "mm a day", "expected growth of this client"),
                "regrowth_mm": (MM, "mm", "expected regrowth today"),
                "regrowth_low_mm": (MM, "mm", "low end of its 80 % range"),
                "regrowth_high_mm": (MM, "mm", "high end of its 80 % range"),
                "ready_from": (DAY, "", "day regrowth is expected to reach touch_up_from_mm"),
                "ready_by": (DAY, "", "day regrowth is expected to reach touch_up_by_mm"),
                "expected_on": (DAY, "", "day this client is likely to come, median"),
                "expected_low_on": (DAY, "", "low end of its 80 % range"),
                "expected_high_on": (DAY, "", "high end of its 80 % range"),
                "chance_of_return": (SHARE, "0–1", "probability that the client is still one"),
                "chance_next_week": (SHARE, "0–1", "the same in seven days, if she has not come by then"),
                "state": (TEXT, "", "resting, nearing, ready, long_past, quiet or booked"),
                "booked_on": (DAY, "", "day of the next root visit in the book"),
                "may_contact": (pl.Boolean(), "", "may be called or written to"),
                "site": (TEXT, "", "the salon of a group; empty where there is one"),
            },
        ),
        Result(
            "cards",
            "one row per client who has had a root-resetting service",
            {
                "client_id": (TEXT, "", "the client"),
                "root_visits": (COUNT, "visits", "root visits in the book"),
                "usual_services": (TEXT, "", "services done in at least half of the last five root visits"),
                "usual_chair_minutes": (HOURS, "min", "median chair time of those visits"),
                "last_mixed_on": (DAY, "", "day of the last root visit that the mixing log covers"),
                "last_mixed": (TEXT, "", "what was mixed for the roots then: products and grams"),
                "last_mixed_g": (GRAMS, "g", "grams of it together"),
                "last_left_g": (GRAMS, "g", "grams left of it; empty where not all of it was weighed"),
                "next_visit_on": (DAY, "", "day of the next visit in the book, whatever it is for"),
                "next_services": (TEXT, "", "what it is for"),
                "skin_test_by": (pl.Datetime("us"), "", "when the skin test before the next colour visit is due"),
                "patch_tested_on": (DAY, "", "day of the last skin test, where the clients table gives one"),
                "site": (TEXT, "", "the salon of a group; empty where there is one"),
            },
        ),
        Result(
            "returns",
            "one row per quarter of the first visit and kind",
            {
                "cohort": (TEXT, "YYYY-Qn", "quarter of the client's first completed visit in the book"),
                "kind": (TEXT, "", "kind of the main line of that visit"),
                "clients": (COUNT, "clients", "clients who first came then"),
                **{
                    column: told
                    for weeks in (6, 8, 12)
                    for column, told in (
                        (f"returned_{weeks}w", (SHARE, "0–1", f"share that has returned within {weeks} weeks")),
                        (f"returned_{weeks}w_low", (SHARE, "0–1", "low end of its 95 % confidence band")),
                        (f"returned_{weeks}w_high", (SHARE, "0–1", "high end of its 95 % confidence band")),
                    )
                },
                "median_days": (COUNT, "days", "days until half have returned; empty where that was not reached"),
                "returned": (COUNT, "clients", "clients who have returned so far"),
            },
        ),
        Result(
            "return_curves",
            "one row per group of clients and week since their first visit",
            {
                "split": (TEXT, "", "what the clients are grouped by: everybody, kind, stylist or cohort"),
                "name": (TEXT, "", "the group: the kind or the stylist of the first visit, or its quarter"),
                "week": (COUNT, "weeks", "weeks since the first visit, 0 to 26"),
                "returned": (SHARE, "0–1", "share that has returned by then"),
                "returned_low": (SHARE, "0–1", "low end of its 95 % confidence band"),
                "returned_high": (SHARE, "0–1", "high end of its 95 % confidence band"),
                "at_risk": (COUNT, "clients", "clients still waited for on that day (the number at risk)"),
                "clients": (COUNT, "clients", "clients in the group"),
                "median_days": (COUNT, "days", "days until half have returned; empty where that was not reached"),
            },
        ),
        Result(
            "backtest",
            "one row per group of clients and method",
            {
                "group": (TEXT, "", "all, at_most_two_gaps, or a kind of last root service"),
                "method": (TEXT, "", "habit (ours), six_weeks, kind_average or own_median"),
                "n": (COUNT, "clients at month ends", "those who came back, over 12 month ends"),
                "mean_error_days": (HOURS, "days", "mean absolute error of the day expected"),
                "median_error_days": (HOURS, "days", "median absolute error of the day expected"),
                "share_inside": (SHARE, "0–1", "share who came within their 80 % range"),
                "crps_days": (HOURS, "days", "mean CRPS; for a rule, which names one day, its mean absolute error"),
                "brier": (SHARE, "0–1", "Brier score of the chance to come within 90 days"),
                "chance_brier": (SHARE, "0–1", "Brier score of the chance of return against coming within 90 days"),
                "base_rate_brier": (SHARE, "0–1", "Brier score of the plain share who came within 90 days"),
                "n_brier": (COUNT, "clients at month ends", "all clients behind the Brier scores, back or not"),
            },
        ),
        Result(
            "chairs",
            "one row per month and service",
            {
                **MONTH_KEY,
                "service_id": (TEXT, "", "line of the menu"),
                "service": (TEXT, "", "its name in that month"),
                "kind": (TEXT, "", "kind of work"),
                "lines": (COUNT, "lines", "completed lines"),
                "chair_hours": (HOURS, "h", "chair hours of those lines, developing included"),
                "hands_on_hours": (HOURS, "h", "the stylist's hands-on hours by the menu"),
                "gross": (MONEY, "currency", "charged, tax included"),
                "net": (MONEY, "currency", "charged, without tax"),
                "product_cost": (MONEY, "currency", "all grams mixed for the service at their pack cost"),
                "net_per_chair_hour": (HOURS, "currency/h", "net ÷ chair hours"),
                "net_per_hands_on_hour": (HOURS, "currency/h", "net ÷ hands-on hours"),
                "after_product_per_chair_hour": (HOURS, "currency/h", "(net − product cost) ÷ chair hours"),
            },
        ),
        Result(
            "prices",
            "one row per service, over the last 12 months of the period",
            {
                "service_id": (TEXT, "", "line of the menu"),
                "service": (TEXT, "", "its name"),
                "kind": (TEXT, "", "kind of work"),
                "lines": (COUNT, "lines", "completed lines, refunds left out"),
                "lines_per_month": (HOURS, "lines a month", "lines in a month of usual length"),
                "lines_logged": (COUNT, "lines", "of the lines, those with a bowl in the log"),
                "typical_minutes": (HOURS, "min", "chair minutes of a line, median"),
                "minutes_per_line": (HOURS, "min", "chair minutes of a line, average"),
                "price": (MONEY, "currency", "list price now; the average charged where the menu has none"),
                "tax_rate": (RATE, "%", "tax rate now"),
                "net_per_line": (HOURS, "currency", "charged for a line after discounts, without tax"),
                "product_cost_per_line": (HOURS, "currency", "product mixed for the service ÷ lines"),
                "net_per_chair_hour": (HOURS, "currency/h", "net ÷ chair hours"),
                "after_product_per_chair_hour": (HOURS, "currency/h", "(net − product cost) ÷ chair hours"),
                "cost_per_open_hour": (HOURS, "currency/h", "what an open chair hour costs; empty without costs"),
                "clears_cost": (pl.Boolean(), "", "a chair hour brings at least that, product paid"),
                "price_to_clear_cost": (MONEY, "currency", "price at which it would just clear that cost"),
                "target_per_chair_hour": (HOURS, "currency/h", "the target of salon.toml; empty where it names none"),
                "price_to_clear_target": (MONEY, "currency", "price at which it would just reach the target"),
            },
        ),
        Result(
            "economics",
            "one row per month, split and item of the split",
            {
                **MONTH_KEY,
                "split": (TEXT, "", "salon (all of it), kind, service, stylist or chair"),
                "item_id": (TEXT, "", "the kind, line of the menu, stylist or chair; empty for the salon, or unknown"),
                "item": (TEXT, "", "its name"),
                "lines": (COUNT, "lines", "completed lines"),
                "chair_hours": (HOURS, "h", "chair hours of those lines, developing included"),
                "hands_on_hours": (HOURS, "h", "the stylist's hands-on hours by the menu"),
                "net": (MONEY, "currency", "charged, without tax"),
                "product_cost": (MONEY, "currency", "all grams mixed at their pack cost"),
                "net_per_chair_hour": (HOURS, "currency/h", "net ÷ chair hours"),
                "net_per_hands_on_hour": (HOURS, "currency/h", "net ÷ hands-on hours"),
                "after_product_per_chair_hour": (HOURS, "currency/h", "(net − product cost) ÷ chair hours"),
                "after_product_per_hands_on_hour": (HOURS, "currency/h", "(net − product cost) ÷ hands-on hours"),
                "cost_per_open_hour": (HOURS, "currency/h", "what an open chair hour costs; empty without costs"),
                "clears_cost": (pl.Boolean(), "", "a chair hour brings at least that, product paid"),
                "open_hours": (HOURS, "h", "opening hours of the chair, or of all chairs; for chairs and the salon"),
                "empty_hours": (HOURS, "h", "of them, hours in which no visit took the chair"),
                "empty_cost": (MONEY, "currency", "empty hours at the cost of an open hour"),
            },
        ),
        Result(
            "hours_of_week",
            "one row per weekday and clock hour of the period",
            {
                "weekday": (TEXT, "", "mon to sun"),
                "hour": (COUNT, "", "0 to 23, from that hour on, local time"),
                "open_hours": (HOURS, "h", "open chair hours that lie in it"),
                "taken_hours": (HOURS, "h", "of them, hours in which a chair was taken"),
                "taken_share": (SHARE, "0–1", "taken ÷ open hours"),
                "net": (MONEY, "currency", "net of the visits, spread over their time"),
                "net_per_open_hour": (HOURS, "currency/h", "net ÷ open hours"),
            },
        ),
        Result(
            "stylists",
            "one row per stylist, over the period",
            {
                "stylist": (TEXT, "", "who did the work"),
                "lines": (COUNT, "lines", "completed lines, refunds left out"),
                "chair_hours": (HOURS, "h", "chair hours of her lines"),
                "hands_on_hours": (HOURS, "h", "hands-on hours by the menu"),
                "net": (MONEY, "currency", "charged, without tax"),
                "net_per_chair_hour": (HOURS, "currency/h", "net ÷ chair hours, whatever the work"),
                "like_services": (COUNT, "services", "services that a colleague did too"),
                "like_lines": (COUNT, "lines", "her lines of those services"),
                "others_lines": (COUNT, "lines", "her colleagues' lines of those services"),
                "compared": (pl.Boolean(), "", "20 lines or more of like work on both sides"),
                "minutes_per_line": (HOURS, "min", "chair minutes of her lines of like work"),
                "colleagues_minutes_per_line": (HOURS, "min", "what the same lines would take her colleagues"),
                "like_net_per_chair_hour": (HOURS, "currency/h", "what her chair hours of like work bring"),
                "colleagues_net_per_chair_hour": (
                    HOURS,
                    "currency/h",
                    "what the same lines would bring her colleagues",
                ),
            },
        ),
        Result(
            "processing",
            "one row per month and stylist",
            {
                **MONTH_KEY,
                "stylist": (TEXT, "", "who did the work"),
                "chair_hours": (HOURS, "h", "chair hours of the lines"),
                "hands_on_hours": (HOURS, "h", "hands-on hours by the menu"),
                "processing_hours": (HOURS, "h", "developing hours by the menu"),
                "second_client_hours": (HOURS, "h", "of them, hours with another client of hers in another chair"),
                "second_client_share": (SHARE, "0–1", "second-client hours ÷ processing hours"),
            },
        ),
        Result(
            "durations",
            "one row per service, over the period",
            {
                "service_id": (TEXT, "", "line of the menu"),
                "service": (TEXT, "", "its name"),
                "kind": (TEXT, "", "kind of work"),
                "lines": (COUNT, "lines", "completed lines that took time, refunds left out"),
                "single_lines": (COUNT, "lines", "of them, lines that were all of their visit"),
                "basis": (TEXT, "", "single: those lines alone; shared: all lines, a visit's time shared by the menu"),
                "menu_minutes": (HOURS, "min", "hands-on and developing by the menu of the last line; empty for none"),
                "low_minutes": (HOURS, "min", "a tenth of the lines took less"),
                "median_minutes": (HOURS, "min", "half of the lines took less"),
                "high_minutes": (HOURS, "min", "a tenth of the lines took more"),
                "median_over_menu": (HOURS, "min", "median of the minutes beyond the menu of the day"),
                "over_menu_share": (SHARE, "0–1", "lines that took longer than the menu of their day"),
            },
        ),
        Result(
            "occupancy",
            "one row per month and chair",
            {
                **MONTH_KEY,
                "chair": (TEXT, "", "the chair"),
                "open_hours": (HOURS, "h", "hours the salon was open"),
                "occupied_hours": (HOURS, "h", "hours the chair was taken, outside opening hours included"),
                "occupied_share": (SHARE, "0–1", "taken within opening hours ÷ opening hours"),
            },
        ),
        Result(
            "bowls",
            "one row per month and product",
            {
                **MONTH_KEY,
                "product_id": (TEXT, "", "the product"),
                "product": (TEXT, "", "its name"),
                "kind": (TEXT, "", "colour, developer, lightener, additive"),
                "bowls": (COUNT, "bowls", "bowls it went into"),
                "mixed_g": (GRAMS, "g", "grams mixed"),
                "weighed_mixed_g": (GRAMS, "g", "grams mixed in bowls that were weighed afterwards"),
                "left_g": (GRAMS, "g", "grams left in those bowls"),
                "left_share": (SHARE, "0–1", "left ÷ mixed of the weighed bowls"),
                "left_cost": (MONEY, "currency", "what the grams left cost, at the pack cost of their day"),
                "colour_lines": (COUNT, "lines", "completed colour lines of the month, all products"),
                "colour_lines_logged": (COUNT, "lines", "of these, lines with a bowl in the log"),
            },
        ),
        Result(
            "retail",
            "one row per month and product",
            {
                **MONTH_KEY,
                "product_id": (TEXT, "", "the product"),
                "product": (TEXT, "", "its name"),
                "units": (GRAMS, "pieces", "pieces sold, those brought back taken off"),
                "gross": (MONEY, "currency", "charged, tax included"),
                "net": (MONEY, "currency", "charged, without tax"),
                "cost": (MONEY, "currency", "what the pieces cost, at the pack cost of their day"),
                "margin": (MONEY, "currency", "net − cost"),
                "margin_share": (SHARE, "0–1", "margin ÷ net"),
                "visits": (COUNT, "visits", "completed visits of the month, all products"),
                "visits_with_sale": (COUNT, "visits", "of these, visits in which something was sold"),
            },
        ),
        Result(
            "retail_by_stylist",
            "one row per month and stylist with completed visits",
            {
                **MONTH_KEY,
                "stylist": (TEXT, "", "who did the main line of the visit"),
                "visits": (COUNT, "visits", "completed visits"),
                "visits_with_sale": (COUNT, "visits", "visits in which something was sold"),
                "share": (SHARE, "0–1", "visits with a sale ÷ visits"),
                "share_low": (SHARE, "0–1", "low end of its 95 % range"),
                "share_high": (SHARE, "0–1", "high end of its 95 % range"),
                "like_visits_with_sale": (SHARE, "visits", "what the salon sells in as many visits of the same kinds"),
                "like_share": (SHARE, "0–1", "that ÷ visits"),
                "units": (GRAMS, "pieces", "pieces sold in those visits"),
                "net": (MONEY, "currency", "what they brought, without tax"),
            },
        ),
        Result(
            "reorder",
            "one row per product that is on the shelf or was used within half a year",
            {
                "salon": (TEXT, "", "the salon of a group; empty where there is one, or one stock for all of them"),
                "product_id": (TEXT, "", "the product"),
                "product": (TEXT, "", "its name"),
                "kind": (TEXT, "", "colour, developer, lightener, additive, retail"),
                "advice": (TEXT, "", "order, enough, not used, not counted (nor delivered), no pack known"),
                "packs": (COUNT, "packs", "packs to order"),
                "order_cost": (MONEY, "currency", "what they cost today"),
                "likely_g": (HOURS, "g", "probably on the shelf: the book less what nobody logged"),
                "booked_g": (GRAMS, "g", "on the shelf by the book"),
                "counted_on": (DAY, "", "day of the last count; empty: never"),
                "weekly_g": (HOURS, "g a week", "use to be expected"),
                "weekly_sd_g": (HOURS, "g a week", "its standard deviation from week to week"),
                "needed_g": (HOURS, "g", "needed until the next order has come, reserve included"),
                "weeks_left": (HOURS, "weeks", "how long what is there lasts; empty where nothing is used"),
                "runs_out_on": (DAY, "", "day on which it is used up, without an order"),
                "last_used_on": (DAY, "", "day it was last mixed or sold"),
                "closing_value": (MONEY, "currency", "value on the shelf by the book, at cost"),
                "expires_on": (DAY, "", "first day on which some of it expires unused"),
                "expiring_g": (HOURS, "g", "what expires before it is used, at that use"),
                "expiring_cost": (MONEY, "currency", "what it costs today"),
            },
        ),
        Result(
            "stock",
            "one row per product and stretch between two counts, the last one up to today",
            {
                "salon": (TEXT, "", "the salon of a group; empty where there is one, or one stock for all of them"),
                "product_id": (TEXT, "", "the product"),
                "product": (TEXT, "", "its name"),
                "kind": (TEXT, "", "colour, developer, lightener, additive, retail"),
                "from_on": (DAY, "", "day of the count it starts with; empty where it was not counted before"),
                "to_on": (DAY, "", "day of the count it ends with, or today"),
                "opening_g": (GRAMS, "g", "there at the start: counted, or what the first count implies"),
                "delivered_g": (GRAMS, "g", "delivered"),
                "mixed_g": (GRAMS, "g", "mixed, by the log"),
                "sold_g": (GRAMS, "g", "sold, pieces brought back taken off"),
                "returned_g": (GRAMS, "g", "sent back to the supplier"),
                "discarded_g": (GRAMS, "g", "thrown away"),
                "expected_g": (GRAMS, "g", "what should be there at the end"),
                "counted_g": (GRAMS, "g", "what was counted; empty for the stretch up to today"),
                "unexplained_g": (GRAMS, "g", "missing at the count; before a first count at least so much, or empty"),
                "unexplained_packs": (HOURS, "packs", "the same in packs of that day"),
                "unexplained_cost": (MONEY, "currency", "what it cost"),
                "unlogged_g": (
                    HOURS,
                    "g",
                    "what colour lines without a bowl would have taken, were they like the others",
                ),
                "closing_g": (GRAMS, "g", "there at the end; below nothing where a delivery or count is missing"),
                "closing_packs": (HOURS, "packs", "the same in packs of that day"),
                "opening_value": (MONEY, "currency", "stock at the start, at cost"),
                "delivered_cost": (MONEY, "currency", "deliveries, at cost"),
                "used_cost": (MONEY, "currency", "all that left but what is unexplained, at cost"),
                "closing_value": (MONEY, "currency", "stock at the end, at cost"),
                "colour_lines": (COUNT, "lines", "completed colour lines of that time; empty for retail"),
                "colour_lines_logged": (COUNT, "lines", "of these, lines with a bowl in the log"),
            },
        ),
        Result(
            "month",
            "one row per month and figure",
            {
                **MONTH_KEY,
                "figure": (TEXT, "", "name of the figure"),
                "value": (VALUE, "as unit says", "its value; empty where there is nothing to divide"),
                "unit": (TEXT, "", "the currency, share, h, currency/h, or what is counted"),
                "previous": (VALUE, "as unit says", "the month before"),
                "year_ago": (VALUE, "as unit says", "the same month a year before"),
                "usual_low": (VALUE, "as unit says", "lower limit of the 12 months before"),
                "usual_high": (VALUE, "as unit says", "upper limit of the 12 months before"),
                "part_month": (pl.Boolean(), "", "the month is not over, or was cut by --from or --to"),
                "flag": (TEXT, "", "above or below, where the value lies beyond the limits of the months before"),
            },
        ),
        Result(
            "changes",
            "one row per month, comparison and service, and one for retail",
            {
                **MONTH_KEY,
                **COMPARED,
                "service_id": (TEXT, "", "line of the menu; empty for retail"),
                "service": (TEXT, "", "its name"),
                "kind": (TEXT, "", "kind of work, or retail"),
                "quantity": (QUANTITY, "", "completed lines; pieces for retail"),
                "quantity_before": (QUANTITY, "", "the same of the month compared with"),
                "net": (MONEY, "currency", "charged, without tax"),
                "net_before": (MONEY, "currency", "the same of the month compared with"),
                "change": (MONEY, "currency", "net − net before"),
                "price_effect": (MONEY, "currency", "of the change, from what a line brought"),
                "volume_effect": (MONEY, "currency", "of the change, from how many lines there were in all"),
                "mix_effect": (MONEY, "currency", "of the change, from more of this and less of that"),
            },
        ),
        Result(
            "clientele",
            "one row per month, comparison and group of clients",
            {
                **MONTH_KEY,
                **COMPARED,
                "group": (TEXT, "", "new, returning, lost, or nobody (retail sold to no known client)"),
                "clients": (COUNT, "clients", "clients of the group who came this month"),
                "clients_before": (COUNT, "clients", "of the group, those who came in the month compared with"),
                "net": (MONEY, "currency", "charged to them, without tax, retail included"),
                "net_before": (MONEY, "currency", "the same of the month compared with"),
                "change": (MONEY, "currency", "net − net before"),
            },
        ),
        Result(
            "tax",
            "one row per month and tax rate",
            {
                **MONTH_KEY,
                "tax_rate": (RATE, "%", "tax rate"),
                "gross": (MONEY, "currency", "charged, tax included"),
                "net": (MONEY, "currency", "charged, without tax"),
                "tax": (MONEY, "currency", "the tax"),
            },
        ),
        Result(
            "takings",
            "one row per month and method of payment",
            {
                **MONTH_KEY,
                "method": (TEXT, "", "cash, card, bank, voucher or other"),
                "amount": (MONEY, "currency", "paid that way, refunds taken off"),
                "fees": (MONEY, "currency", "what those payments cost the salon"),
            },
        ),
        Result(
            "tieout",
            "one row per month",
            {
                **MONTH_KEY,
                "charged_gross": (MONEY, "currency", "charged for services, tax included"),
                "retail_gross": (MONEY, "currency", "charged for retail items, tax included"),
                "tips": (MONEY, "currency", "tips"),
                "vouchers_sold": (MONEY, "currency", "vouchers and deposits sold: owed, not earned"),
                "vouchers_used": (MONEY, "currency", "paid with vouchers"),
                "taken": (MONEY, "currency", "money taken: all payments but vouchers"),
                "difference": (
                    MONEY,
                    "currency",
                    "taken − (charged + retail + tips + vouchers sold − vouchers used)",
                ),
            },
        ),
    )
}
