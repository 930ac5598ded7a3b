"""Sheets that hold more than one row's worth in a record, brought into the contract's shape."""
