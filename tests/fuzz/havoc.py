"""Exports spoilt without knowing what they are: bits turned, bytes put in, taken out, moved and doubled, pieces of one
file in another, and now and then a word that parsers look for.

The other way (texts, archives) knows rows and cells; this one breaks what it would never think of.
"""

import random

from fuzz.salons import Salon, a_whole_salon

WORDS = (
    b'"', b'""', b"\r", b"\r\n", b"\n\n", b"\0", b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff", b",,,", b";", b"\t", b"|",
    b"sep=;\n", b"=1+1", b"-0", b"1e999", b"9" * 40, b"NaN", b"\xc3", b"\xed\xa0\x80", b"\xe2\x80\xae", b"PK\x03\x04",
    b"total", b"0000-00-00", b"2026-02-30", b"24:00", b"\x1b]52;c;eA==\x07", b"'", b"\\", b"<", b"&amp;",
)  # fmt: skip
LONGEST_PIECE = 400


def havoc_salon(seed: int) -> tuple[str, Salon]:
    """The dialect's name and the files of the salon of this seed."""
    drawn = random.Random(f"havoc {seed}")
    dialect, files = a_whole_salon(drawn)
    exports = sorted(name for name in files if name != "salon.toml")
    for _ in range(drawn.choice([1, 1, 2, 4])):
        name = drawn.choice(exports)
        content = bytearray(files[name])
        for _ in range(drawn.choice([1, 1, 2, 8, 40])):
            _spoil(drawn, content, files[drawn.choice(exports)])
        files[name] = bytes(content)
    return dialect.name, files


def _spoil(drawn: random.Random, content: bytearray, other: bytes) -> None:
    """One change in place."""
    at, length = drawn.randrange(len(content) + 1), min(drawn.randrange(1, LONGEST_PIECE), 1 + drawn.randrange(60))
    piece = bytes(content[at : at + length])
    way = drawn.randrange(7)
    if way == 0 and at < len(content):
        content[at] ^= 1 << drawn.randrange(8)
    elif way == 1:
        content[at:at] = drawn.choice(WORDS)
    elif way == 2:
        del content[at : at + length]
    elif way == 3:
        content[at:at] = piece * drawn.choice([1, 1, 2, 30])
    elif way == 4:
        begin = drawn.randrange(len(other) + 1)
        content[at:at] = other[begin : begin + LONGEST_PIECE]
    elif way == 5:
        content[at : at + length] = drawn.randbytes(length)
    else:
        del content[at:]
