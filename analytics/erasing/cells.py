"""Files as cells whose places are known, so that some can be written anew and everything else stays byte for byte."""

from dataclasses import dataclass, field
from typing import Protocol


@dataclass
class Grid:
    """One sheet. title: "" of a text file. rows: of each row, as a spreadsheet counts it, its cells by column from 0.
    new: the cells to write anew."""

    title: str
    rows: dict[int, dict[int, str]]
    new: dict[tuple[int, int], str] = field(default_factory=dict)

    def put(self, row: int, column: int, text: str) -> None:
        """Write a cell anew, where it says something else."""
        if self.rows[row][column] != text:
            self.new[row, column] = text

    def now(self, row: int, column: int) -> str:
        return self.new.get((row, column), self.rows[row][column])


class Cells(Protocol):
    """A file taken apart into grids."""

    grids: list[Grid]

    def written(self) -> bytes:
        """The file with the new cells in it."""
