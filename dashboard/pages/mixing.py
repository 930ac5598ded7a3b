"""Mixing card: how much to mix for each service and for clients whose own amount is known. No money stands here."""

import streamlit as st

from analytics.sentences import waste as of_waste
from dashboard.data import reading
from dashboard.for_stylists import mixing_card
from dashboard.page import Page
from dashboard.parts import bars, layout

PAGE = Page(
    title="Mixing card",
    order=65,
    readers=("owner", "stylist"),
    filters=("site",),
)

read = reading(PAGE)
settings = read.settings
mixing, clients, mixes = (read.figure(name) for name in ("mixing", "mixing_clients", "mixes"))
if mixing.is_empty():
    layout.answer("No bowls are logged, so no amounts are known yet.")
    layout.worked_out("mixing")
    st.stop()

layout.answer(of_waste.mixing_sentence(mixing, settings))
layout.caution(of_waste.CAUTIONS)
layout.html(bars.drawn(bars.mix_bars(mixing.to_dicts(), settings)))
layout.file_button("Mixing card for the wall (PDF)", lambda: mixing_card(read), "mixing-card.pdf")
amounts = {
    "service": "Service",
    "kind": "Grams of",
    "advised_mix_g": layout.number_column("Mix (g)"),
    "usual_mix_g": layout.number_column("Usual now (g)"),
    "used_median_g": layout.number_column("Half use up to (g)"),
    "used_p90_g": layout.number_column("Nine in ten (g)"),
    "second_bowl_share": layout.share_column("Second bowl"),
    "weighed_bowls": layout.number_column("Bowls weighed"),
}
layout.table(mixing, amounts, "Amounts to mix by service", "mixing", ("second_bowl_share",))
if not clients.is_empty():
    layout.head("Clients whose own amount is known")
    layout.table(clients, {"client": "Client"} | amounts, "Amounts by client", "clients", ("second_bowl_share",))
if not mixes.is_empty():
    layout.head("As it was mixed, from all months")
    layout.table(
        mixes,
        {
            "service": "Service",
            "kind": "Main product",
            "ready_per_visit_g": layout.number_column("Ready, a visit (g)"),
            "ratio": layout.number_column("Developer to 1 part", 2),
            "strength_percent": layout.number_column("Ready strength (%)", 1),
            "developers": "Developers, most used first",
        },
        "Bowls as they were mixed, by service",
        "mixes",
    )
layout.worked_out("mixing", "mixing_clients", "mixes")
