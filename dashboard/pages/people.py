"""People and phones: who may open these pages besides you, what they see, and on which phones."""

import streamlit as st

from analytics.stops import WorkStopped
from dashboard.access import members, network
from dashboard.access.people import ACCOUNTANT, OWNER, ROLES, STYLIST, THE_OWNER
from dashboard.data import reading
from dashboard.for_stylists import stylists
from dashboard.page import Page
from dashboard.parts import layout, people_list

PAGE = Page(title="People and phones", order=120, readers=("owner",), needs="nothing")

read = reading(PAGE)
everybody = members.everybody(read.folder)
layout.answer(people_list.opening(len(everybody), sum(len(phones) for _, phones in everybody)))
layout.note(network.where(network.OPEN) if network.OPEN else people_list.ALONE)
layout.said(str(st.session_state.pop("people_say", "")))


def done(text: str) -> None:
    """Show the page anew under this sentence."""
    st.session_state["people_say"] = text
    st.rerun()


for person, phones in everybody:
    layout.html(people_list.person_line(person, phones))
    with st.container(horizontal=True, key=f"person {person.key}"):
        if network.OPEN and st.button("Pair a phone", key=f"pair {person.key}"):
            st.session_state["pairing"] = members.pairing_link(read.folder, person.key, network.OPEN.door.origin)
            st.session_state["pairing_for"] = person.key
        for number, phone in enumerate(phones, start=1):
            if st.button(f"End phone {number}" if len(phones) > 1 else "End this phone", key=f"end {phone.key}"):
                members.end_phone(read.folder, phone.key)
                done(f"{phone.name} opens nothing any more.")
        if person.passphrase and st.button("Forgot the passphrase", key=f"forgot {person.key}"):
            members.forget_passphrase(read.folder, person.key)
            done(f"{person.name} chooses a new one with the next phone that is paired; the phones so far are ended.")
        if person.key != THE_OWNER.key and st.button("End this person", key=f"end person {person.key}"):
            members.end_person(read.folder, person.key)
            done(f"{person.name} is off the list, and so are their phones.")
    if network.OPEN and st.session_state.get("pairing_for") == person.key:
        layout.said(people_list.how_to_pair(person.name))
        layout.html(people_list.fingerprint(network.OPEN))
        layout.html(people_list.code(st.session_state["pairing"]))
        if st.button("Done", key="paired"):
            del st.session_state["pairing"], st.session_state["pairing_for"]
            st.rerun()

layout.head("Add somebody")
role = st.segmented_control(
    "What they are", [STYLIST, ACCOUNTANT, OWNER], default=STYLIST, key="new_role", required=True
)
layout.note(ROLES[role or STYLIST])
names = stylists(read) if role == STYLIST and read.loaded else []
stylist = st.selectbox("Their name in the exports", names, key="new_stylist") if role == STYLIST else ""
with st.form("new_person", border=False, clear_on_submit=True):
    name = st.text_input("Name", max_chars=80, key="new_name")
    if st.form_submit_button("Add"):
        try:
            members.add_person(read.folder, name, role or STYLIST, stylist or "")
        except WorkStopped as stopped:
            layout.said(str(stopped))
        else:
            done(f"{name} is on the list; pair a phone next.")
