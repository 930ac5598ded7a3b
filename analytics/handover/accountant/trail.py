"""The trail: every line that a total of the folder rests on, with the row of the export it comes from.

Names are those of the OECD's Standard Audit File for Tax 2.0 where it has the field (RecordID, TransactionID,
TransactionDate, ValueDate, SourceDocumentID, AccountID, DebitAmount, CreditAmount, TaxPercentage, TaxBase, TaxAmount,
PaymentMethod, CurrencyCode; its structure as published, fields partly from memory), written like the other headings. Of
ISO 21378 only the table of contents is public; what it asks of a journal's entries (date, number, account, amount,
description) is there as far as exports have it, from memory.
"""

from datetime import date

import polars as pl

from analytics.definitions.results import MONEY
from analytics.definitions.vocabulary import KINDS, METHODS
from analytics.handover.accountant.journal import entry_text, item_words, reference
from analytics.handover.accountant.sheets.money import SUPPLIES
from analytics.records.money.postings import SOURCE
from analytics.settings import Settings

COLUMNS = (
    *("record_id", "transaction_id", "transaction_date", "value_date", "site", "item", "source_document_id"),
    *("description", "supply", "kind", "account_id", "debit_amount", "credit_amount", "gross_amount", "treatment"),
    *("tax_percentage", "tax_base", "tax_amount", "payment_method", "payment_amount", "currency_code", "file", "row"),
)


def trail(lines: pl.DataFrame, corrections: pl.DataFrame, first: date, settings: Settings) -> pl.DataFrame:
    """One row per line of the journal, COLUMNS, in the order of its entries.

    Words are those of the sheets, so that a total is found by filtering. lines: journal.posting_lines. corrections: as
    closed_periods answers them; each is a line of the day `first`, whose document is the period corrected.
    debit_amount, credit_amount: to the account. gross_amount, tax_base and tax_amount stand once for everything that is
    sold or taxed; payment_amount once for each payment. file and row: of the export, empty for what the program worked
    out of the other lines of its document or day.
    """
    corrected = corrections.select(
        *("site", "item", "account"),
        day=pl.lit(first),
        value_date="day",
        source_document_id="period",
        amount="difference",
        text="Correction of " + pl.col("period"),
    )
    rows = pl.concat([corrected, lines.with_columns(text=entry_text())], how="diagonal_relaxed")
    side, names = pl.col("amount"), settings.accounts.model_dump()
    order = [
        "transaction_date",
        "text",
        "site",
        "item",
        "account_id",
        "value_date",
        "source_document_id",
        "file",
        "row",
    ]
    words = {item: item_words(item) for item in rows["item"].unique()}
    return (
        rows.with_columns(pl.col(name).cast(kind) for name, kind in SOURCE.items())
        .with_columns(
            transaction_id=reference(),
            transaction_date="day",
            currency_code=pl.lit(settings.salon.currency),
            supply=pl.col("supply").replace(SUPPLIES),
            kind=pl.col("kind").replace(KINDS),
            payment_method=pl.col("payment_method").replace(METHODS),
            item=pl.col("item").replace_strict(words, return_dtype=pl.String),
            account_id=pl.col("account").replace_strict(names, return_dtype=pl.String),
            debit_amount=pl.when(side > 0).then(side).cast(MONEY.dtype),
            credit_amount=pl.when(side < 0).then(-side).cast(MONEY.dtype),
        )
        .sort(order, nulls_last=True, maintain_order=True)
        .with_row_index("record_id", offset=1)
        .select(pl.col("record_id").cast(pl.Int64), *COLUMNS[1:])
    )
