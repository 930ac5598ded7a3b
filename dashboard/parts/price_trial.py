"""Which prices want changing for an hour to bring what is aimed for, and trying another one."""

import math

import streamlit as st

from analytics import sentences, wording
from analytics.definitions.rows import Row
from analytics.money import digits_of
from analytics.records.chairs.clearing_price import aimed
from analytics.records.chairs.price_trial import to_change, tried_price
from analytics.settings import Settings
from dashboard.frames import Frame
from dashboard.parts import layout, lists

MOST_AWAY_PERCENT = 60
MOST_PROPOSALS = 3
LEAST, MOST = 0.5, 2.0  # of the price and of the minutes now


def aimed_at(prices: Frame, settings: Settings) -> Frame:
    """The figure `prices` with what the reader aims for, kept as long as the window is open.

    It begins at the target of the settings, or where these name none at what a taken hour must carry.
    """
    row = prices.row(0, named=True)
    start = row["target_per_chair_hour"] or row["cost_per_taken_hour"]
    target = st.number_input(
        f"What a chair hour should leave, product paid ({settings.salon.currency})",
        min_value=0.0,
        value=None if start is None else round(start, digits_of(settings.salon.currency)),
        step=1.0,
        format=f"%.{digits_of(settings.salon.currency)}f",
        key="target",
        persist_state="session",
        help="What it begins at is the target under Settings, or else what a taken hour must carry.",
        width=320,
    )
    return prices if target is None else aimed(prices, target, settings)


def proposals(prices: Frame, settings: Settings) -> None:
    """The three services below the target whose price for it brings most, each with what it may cost."""
    target = prices["target_per_chair_hour"][0]
    if target is None:
        return
    under = to_change(prices)
    layout.said(sentences.aim_sentence(len(under), target, settings))
    layout.html(lists.said_list([_proposal(one, prices, settings) for one in under[:MOST_PROPOSALS]]))


def _proposal(one: Row, prices: Frame, settings: Settings) -> str:
    row = prices.filter(service_id=one["service_id"]).row(0, named=True)
    return sentences.proposal_sentence(row, one, float(row["price_to_clear_target"]), settings)


def another_price(prices: Frame, rows: list[Row], settings: Settings) -> None:
    """The service is chosen among those that have a price and take time."""
    choices = {row["service_id"]: row for row in rows if row["price"] and row["minutes_per_line"]}
    if not choices:
        return
    chosen = st.selectbox(
        "Service",
        list(choices),
        format_func=lambda service_id: wording.plain_cell(choices[service_id]["service"]),
        key="tried",
        width=320,
    )
    row = choices[chosen]
    tried = _sliders(row, settings)
    trial = tried_price(prices, chosen, tried.price, tried.minutes, tried.away)
    layout.said(sentences.trial_sentence(row, tried, trial, settings))
    numbers = sentences.trial_numbers(trial, settings)
    layout.html(layout.pairs(("A month of it", "now", "as tried"), numbers))
    layout.note(sentences.TRIAL_ASSUMES)


def _sliders(row: Row, settings: Settings) -> sentences.TriedPrice:
    """Price, minutes in the chair, and the share of clients who stay away; each starts from now."""
    step = price_step(float(row["price"]), settings)
    now = float(row["price"])
    with st.container(horizontal=True, key="sliders"):
        price = st.slider(
            f"Price ({settings.salon.currency})",
            step * math.floor(LEAST * now / step),
            step * math.ceil(MOST * now / step),
            now,
            step,
            format=f"%.{digits_of(settings.salon.currency)}f",
            key=f"price of {row['service_id']}",
        )
        took = round(row["minutes_per_line"]) or 1
        minutes = st.slider(
            "Minutes in the chair",
            max(1, round(LEAST * took)),
            round(MOST * took),
            took,
            key=f"minutes of {row['service_id']}",
        )
        away = st.slider(
            "Clients who stay away (%)", 0, MOST_AWAY_PERCENT, 0, format="%d%%", key=f"away from {row['service_id']}"
        )
    return sentences.TriedPrice(price, row["minutes_per_line"] if minutes == took else float(minutes), away / 100)


def price_step(price: float, settings: Settings) -> float:
    """Half a unit of the currency, or more where prices are large and less where they are small."""
    smallest = 10.0 ** -digits_of(settings.salon.currency)
    return max(smallest, 10.0 ** math.floor(math.log10(price)) / 20)
