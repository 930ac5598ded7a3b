"""Bytes of an export -> text: byte-order marks, UTF-16 without one, UTF-8, else the alphabet of the settings."""

import codecs

from analytics.stops import WorkStopped

SAMPLE = 4096
MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)


def decode(content: bytes, name: str, fallback: str) -> str:
    """The text of the file without its mark and without NULs.

    fallback: the 8-bit alphabet of files that are not UTF-8. Raises WorkStopped where the bytes are none of these.
    """
    alphabet, mark = alphabet_of(content, name, fallback)
    return content[mark:].decode(alphabet).replace("\0", "")


def alphabet_of(content: bytes, name: str, fallback: str) -> tuple[str, int]:
    """The alphabet that the bytes are text in, and the length of the mark that says so. Raises as decode does."""
    encoding, mark = _marked(content)
    for alphabet in [encoding] if encoding else ["utf-8", fallback]:
        try:
            content[mark:].decode(alphabet)
            return alphabet, mark
        except UnicodeDecodeError as error:
            place = error.start
    line = content.count(b"\n", 0, place) + 1
    raise WorkStopped(
        f"{name} holds bytes that are no text (line {line}); save it as CSV UTF-8, or name its alphabet under [files] "
        'encoding in salon.toml, for example encoding = "cp1250".'
    )


def _marked(content: bytes) -> tuple[str | None, int]:
    """(encoding, length of its mark) where the bytes tell it."""
    for mark, encoding in MARKS:
        if content.startswith(mark):
            return encoding, len(mark)
    sample = content[:SAMPLE]
    even, odd = sample[0::2].count(0), sample[1::2].count(0)
    if odd > len(sample) * 0.2 and even < odd / 10:
        return "utf-16-le", 0
    if even > len(sample) * 0.2 and odd < even / 10:
        return "utf-16-be", 0
    return None, 0
