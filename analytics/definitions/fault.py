"""One thing that can be wrong with exports: its code, what it says, what to do.

`sets_aside` tells whether a row with this fault is kept out of the figures. Sentences may use {file}, {row},
{column}, {value}, {table}, {expected} and {count}; {heading} is what the file itself calls the column,
{plain} the column in plain words.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Fault:
    code: str
    says: str
    what_to_do: str
    sets_aside: bool = True
