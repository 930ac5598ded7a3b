"""One row of a figure as sentences, pages and papers read it: column name -> value."""

from typing import Any

Row = dict[str, Any]
