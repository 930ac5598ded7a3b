"""Whole months, or the same days of several: what they brought, and what was to be expected of them."""
