"""What a month of one service would bring at another price, beside what it brings now."""

from dataclasses import asdict

import polars as pl

from analytics.definitions.rows import Row
from analytics.methods.break_even import price_trial


def tried_price(prices: pl.DataFrame, service_id: str, price: float, minutes: float, away: float) -> Row:
    """A month of the service of the figure `prices` now (_before) and as tried (_after), in the currency, net, and h.

    price: on the menu. minutes: in the chair. away: share of its clients who stay away, 0–1. Discounts and tax keep
    their share of the price, product per line stays, and freed chair hours are left empty. after_product_change is
    after − before; all_services_net is what all services bring in a usual month, with this one as now or as tried;
    break_even_share is the share of lines that can be lost before a month brings what it brings now (None: no line
    leaves anything after its product, below 0: so many more are needed).
    """
    net = pl.coalesce("net_per_line", pl.col("contribution_per_line") + pl.col("product_cost_per_line_in_all"))
    prices = prices.with_columns(net_per_line=net)  # left empty where it is the menu's own
    row = prices.row(by_predicate=pl.col("service_id") == service_id, named=True)
    trial = price_trial(
        row["lines_per_month"],
        row["net_per_line"],
        row["product_cost_per_line_in_all"],
        row["minutes_per_line"],
        price / float(row["price"]),
        minutes,
        away,
    )
    all_net = float(prices.select((pl.col("lines_per_month") * pl.col("net_per_line")).sum()).item())
    return asdict(trial) | {
        "after_product_change": trial.after_product_after - trial.after_product_before,
        "all_services_net_before": all_net,
        "all_services_net_after": all_net + trial.net_after - trial.net_before,
    }


def to_change(prices: pl.DataFrame) -> list[Row]:
    """The services of the figure `prices` below its target, each with its trial at the price that reaches it.

    service_id and what tried_price answers, with nobody staying away; what brings most a month stands first.
    """
    under = prices.filter(~pl.col("reaches_target"))
    asked = under.filter(pl.col("price") > 0).select("service_id", "price_to_clear_target", "minutes_per_line")
    tried = [
        {"service_id": name} | tried_price(prices, name, float(price), minutes, 0)
        for name, price, minutes in asked.iter_rows()
    ]
    return sorted(tried, key=lambda one: (-one["after_product_change"], one["service_id"]))
