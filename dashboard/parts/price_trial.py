"""Trying another price: a service, three sliders, and what a month of it would bring."""

import math

import streamlit as st

from analytics import sentences, wording
from analytics.definitions.rows import Row
from analytics.money import digits_of
from analytics.records.chairs.price_trial import tried_price
from analytics.settings import Settings
from dashboard.data import Reading
from dashboard.parts import layout

MOST_AWAY_PERCENT = 60
LEAST, MOST = 0.5, 2.0  # of the price and of the minutes now


def another_price(read: Reading, rows: list[Row]) -> None:
    """The service is chosen among those that have a price and take time."""
    choices = {row["service_id"]: row for row in rows if row["price"] and row["minutes_per_line"]}
    if not choices:
        return
    layout.head("Try another price")
    chosen = st.selectbox(
        "Service",
        list(choices),
        format_func=lambda service_id: wording.plain_cell(choices[service_id]["service"]),
        key="tried",
        width=320,
    )
    row, settings = choices[chosen], read.settings
    tried = _sliders(row, settings)
    trial = tried_price(read.year("prices"), chosen, tried.price, tried.minutes, tried.away)
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
