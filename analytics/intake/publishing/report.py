"""What a load says of itself."""

from dataclasses import dataclass

import polars as pl


@dataclass(frozen=True)
class Report:
    """files: row accounting per file. findings: causes with count, sentence and what to do."""

    files: pl.DataFrame
    findings: pl.DataFrame
