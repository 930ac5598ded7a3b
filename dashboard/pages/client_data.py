"""Client data: where it lies, who else can read it, how long it is kept, and how somebody is taken out."""

import streamlit as st

from analytics.records.loaded import known_clients
from analytics.sentences import client_data as said
from dashboard.data import reading
from dashboard.page import Page
from dashboard.parts import layout, lists

PAGE = Page(title="Client data", order=115, readers=("owner",), needs="settings")

read = reading(PAGE)
settings, places = read.settings, read.client_places()
clients = known_clients(read.book.tables) if read.loaded else 0
layout.answer(said.clients_sentence(clients, places, settings))
layout.said(said.rights_sentence(places, settings))
layout.said(said.ERASE_ONE)

layout.head("Where it lies")
layout.html(lists.place_list(places.of_kinds, settings))
layout.note(said.ELSEWHERE)

layout.head("How long it is kept")
unseen = read.figure("long_unseen") if read.loaded else None
layout.said(said.unseen_sentence(0 if unseen is None else unseen.height, settings))
layout.note(said.LAW)
if settings.keeping.months_without_visit is None:
    st.page_link("../pages/settings.py", label="Set it")
if unseen is not None and not unseen.is_empty():
    layout.table(
        unseen,
        ({"site": "Salon"} if read.sites else {})
        | {
            "client_id": "Number",
            "client": "Name",
            "last_on": layout.day_column("Last seen"),
            "months": layout.number_column("Months ago"),
        },
        "Clients without a visit for as long as records are kept",
        "unseen",
    )
if unseen is not None:
    layout.worked_out("long_unseen")
