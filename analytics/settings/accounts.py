"""What the accounts of the journal are called."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field


class Section(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False, str_strip_whitespace=True)


AccountName = Annotated[str, Field(min_length=1, max_length=80)]


class Accounts(Section):
    """What the accounts of the journal are called; an accountant's numbers do as well."""

    cash: AccountName = Field(default="Cash", description="account of cash in the till")
    card: AccountName = Field(default="Card payments", description="account of card payments on their way to the bank")
    bank: AccountName = Field(default="Bank", description="account of payments to the bank")
    other: AccountName = Field(default="Other payments", description="account of payments by other means")
    open_items: AccountName = Field(
        default="Unreconciled differences", description="account of what visits owe or were paid too much"
    )
    fees: AccountName = Field(default="Payment fees", description="account of what payments cost")
    services: AccountName = Field(default="Services", description="account of revenue of services")
    retail: AccountName = Field(default="Retail", description="account of revenue of goods")
    charges: AccountName = Field(default="Service charges", description="account of compulsory charges")
    tips: AccountName = Field(default="Tips owed", description="account of tips owed to stylists")
    vouchers: AccountName = Field(default="Vouchers owed", description="account of vouchers owed to clients")
    deposits: AccountName = Field(default="Deposits owed", description="account of deposits owed to clients")
    kept: AccountName = Field(default="Deposits kept", description="account of deposits kept after a no-show")
    breakage: AccountName = Field(default="Vouchers not used", description="account of what of vouchers is never used")
    tax: AccountName = Field(default="Tax owed", description="account of tax owed")
    stock: AccountName = Field(default="Stock", description="account of what stands on the shelves")
    suppliers: AccountName = Field(default="Suppliers", description="account of what is owed for product, without tax")
    stock_before: AccountName = Field(
        default="Stock brought in", description="account of stock that was there before its records begin"
    )
    product_used: AccountName = Field(default="Product used", description="account of what product used at work cost")
    retail_cost: AccountName = Field(default="Cost of retail", description="account of what goods that were sold cost")
    stock_lost: AccountName = Field(
        default="Stock lost", description="account of stock thrown away or missing at a count"
    )
    write_downs: AccountName = Field(
        default="Stock written down", description="account of what stock is written down below its cost"
    )
