"""The word lists themselves: one meaning a word, six languages, and how a spelling is folded."""

import pytest
from asked_headings import settings
from hypothesis import example, given
from hypothesis import strategies as st

from analytics.definitions.columns import CORRECTS
from analytics.definitions.tables import METHODS, MOVEMENTS, PRODUCT_KINDS, PURPOSES, SERVICE_KINDS, STATUSES, TABLES
from analytics.intake.meaning import words
from analytics.intake.meaning.one_heading import column_meant
from analytics.intake.meaning.words.spelling import folded, spelling


@pytest.mark.parametrize("table", TABLES.values(), ids=lambda table: table.name)
def test_no_word_stands_for_two_columns_of_one_table(table) -> None:
    columns: dict[tuple[str, frozenset[str]], set[str]] = {}
    for column, languages in words.HEADINGS[table.name].items():
        for word in (word for listed in languages.values() for word in listed):
            spelt = spelling(word)
            columns.setdefault((spelt.key, spelt.units), set()).add(column)
    assert {word: found for word, found in columns.items() if len(found) > 1} == {}


@pytest.mark.parametrize("table", TABLES.values(), ids=lambda table: table.name)
def test_every_listed_word_means_its_column(table) -> None:
    for column, languages in words.HEADINGS[table.name].items():
        for word in (word for listed in languages.values() for word in listed):
            assert column_meant(table, word, settings()).column == column, word


def test_every_column_has_words_in_six_languages() -> None:
    few = {
        (table, column)
        for table, columns in words.HEADINGS.items()
        for column, languages in columns.items()
        if len(languages) < 6 and column not in CORRECTS
    }
    assert few == set()


def test_cell_words_stand_for_one_value_of_the_contract_each() -> None:
    allowed = {
        "status": STATUSES,
        "services.kind": SERVICE_KINDS,
        "products.kind": PRODUCT_KINDS,
        "method": METHODS,
        "movement": MOVEMENTS,
        "purpose": PURPOSES,
        "yes_no": ("yes", "no"),
    }
    assert {column: tuple(values) for column, values in words.VALUES.items()} == allowed
    for values in words.VALUES.values():
        meant: dict[str, set[str]] = {}
        for value, listed in values.items():
            for word in listed:
                meant.setdefault(folded(word), set()).add(value)
        assert {word: found for word, found in meant.items() if len(found) > 1} == {}


@pytest.mark.parametrize(
    ("column", "word", "value"),
    [
        ("status", "erledigt", "completed"),
        ("status", "niet verschenen", "no_show"),
        ("status", "annulé", "cancelled"),
        ("status", "confermato", "booked"),
        ("method", "efectivo", "cash"),
        ("method", "pin", "card"),
        ("method", "bon cadeau", "voucher"),
        ("services.kind", "ricrescita", "root_touch_up"),
        ("services.kind", "Ansatzfarbe", "root_touch_up"),
        ("products.kind", "oxydant", "developer"),
        ("movement", "Inventur", "count"),
        ("yes_no", "nee", "no"),
    ],
)
def test_cell_words(column: str, word: str, value: str) -> None:
    assert word in words.VALUES[column][value]


@pytest.mark.parametrize(
    ("column", "word"),
    [("status", "bezahlt"), ("method", "Rechnung"), ("services.kind", "Farbe"), ("yes_no", "x"), ("status", "open")],
)
def test_unclear_cell_words_are_left_out(column: str, word: str) -> None:
    assert all(word not in listed for listed in words.VALUES[column].values())


def test_total_words_are_in_lower_case_with_and_without_accents() -> None:
    assert {"totaal", "summe", "total général", "total general", "totale", "suma"} <= set(words.TOTAL_WORDS)
    assert all(word == word.lower() for word in words.TOTAL_WORDS)


@given(st.text())
@example("Preis (EUR) in %")
@example("a in in g")
@example("N.º (x) [y] €")
def test_folding_is_idempotent(heading: str) -> None:
    assert folded(folded(heading)) == folded(heading)


@given(st.text())
@example("%")
@example("€ g (EUR) min")
@example("()")
def test_any_text_can_be_a_heading(heading: str) -> None:
    for table in TABLES.values():
        assert column_meant(table, heading, settings()).heading == heading


@pytest.mark.parametrize(
    ("heading", "expected"),
    [
        ("Mixed-G [g]", "mixed_g"),
        ("  STARTS AT ", "starts_at"),
        ("Größe (g)", "grosse"),
        ("Durée", "duree"),
        ("Beh.-Nr.", "beh_nr"),
        ("Rabatt in %", "rabatt"),
        ("Price €", "price"),
        ("N° RDV", "no_rdv"),
        ("hands_on_min", "hands_on_min"),
        ("(EUR)", ""),
    ],
)
def test_folded(heading: str, expected: str) -> None:
    assert folded(heading) == expected


@pytest.mark.parametrize("table", TABLES.values(), ids=lambda table: table.name)
def test_a_column_of_the_contract_means_itself(table) -> None:
    for column in table.headings:
        for heading in (column, column.upper(), column.replace("_", " "), f" {column.replace('_', '-')} (as agreed)"):
            meaning = column_meant(table, heading, settings())
            assert (meaning.column, meaning.by) == (column, "contract name")
