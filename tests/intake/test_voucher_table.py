"""A register of vouchers and what payments say they are for, as exports have them."""

from datetime import date
from decimal import Decimal
from pathlib import Path

import polars as pl
import pytest
from asked_headings import matched
from salons import load_unchecked, write_salon

from analytics.checks.oddities import oddities
from analytics.salon import open_salon

REGISTER = """Bonnummer;Verkocht op;Waarde;Betaald;Geldig tot;Gebruikt
A1;02-03-2026;100,00;80,00;31-03-2027;60,00
A2;02-03-2026;50,00;;;
"""
PAYMENTS = """paid_at,booking_id,method,amount,purpose,voucher
2026-03-02 10:00,,card,130.00,voucher,
2026-03-03 11:30,B1,voucher,60.00,visit,A1
2026-03-04 09:00,B9,card,20.00,deposit,
2026-03-05 09:00,,voucher,99.00,,
"""


@pytest.mark.parametrize(
    ("name", "headings"),
    [
        ("gift cards.csv", "Voucher no;Date sold;Face value;Amount paid;Expiry date;Used"),
        ("cadeaubonnen.csv", "Cadeaubonnummer;Verkoopdatum;Waarde;Betaald bedrag;Vervaldatum;Verzilverd"),
        ("Gutscheine.csv", "Gutscheinnummer;Verkauft am;Nennwert;Verkaufspreis;Gültig bis;Eingelöst"),
        ("bons cadeaux.csv", "N° de bon;Date de vente;Valeur nominale;Prix de vente;Date d'expiration;Utilisé"),
        ("vales.csv", "Número de vale;Fecha de venta;Valor nominal;Importe pagado;Válido hasta;Utilizado"),
        ("buoni.csv", "Numero buono;Data di vendita;Valore nominale;Prezzo di vendita;Valido fino al;Utilizzato"),
    ],
)
def test_a_register_is_known_in_six_languages(name: str, headings: str) -> None:
    columns = ["number", "sold_on", "face", "paid", "expires_on", "used"]
    assert list(matched(headings, name).values()) == ["vouchers", *columns]


def test_a_register_is_loaded_and_what_is_used_beyond_it_is_said(tmp_path: Path) -> None:
    """A1 pays 60 of its 100; of 90 that are left on 5 March, 99 are used: 9 are owed to nobody."""
    folder = write_salon(tmp_path, {"cadeaubonnen.csv": REGISTER, "payments.csv": PAYMENTS})
    load_unchecked(folder)
    salon = open_salon(folder, date(2026, 4, 1))
    register = salon.figure("voucher_register").select("number", "face", "paid", "used", "expires_on")
    assert register.rows() == [
        ("A1", 100, 80, 100, date(2027, 3, 31)),
        ("A2", 50, 50, 50, None),
    ]
    assert salon.figure("deposits").select("booking_id", "owed").rows() == [("B9", 20)]
    assert salon.figure("reconciliation").select("vouchers_sold", "difference").rows() == [(130, 99)]
    found = oddities(salon.book.tables, salon.settings).filter(code="voucher_beyond")
    assert found.select("file", "row", "expected").rows() == [("payments.csv", 5, "9.00")]
    assert pl.Series([Decimal("9.00")]).sum() == salon.figure("vouchers")["vouchers_beyond"].sum()
