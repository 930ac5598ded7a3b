"""Files spoilt at random: their bytes, their text, and what archives and workbooks hold."""

import io
import random
import zipfile

from dialects.writer import Dialect

from fuzz.texts import a_place, texts_of


def bytes_of(drawn: random.Random, content: bytes) -> bytes:
    """The file with its bytes spoilt in one of many ways."""
    spoilt = bytearray(content)
    way = drawn.choice(["flip", "flip", "cut", "nul", "noise", "empty", "drop", "mark", "again"])
    at = a_place(drawn, len(spoilt))
    if way == "flip":
        for _ in range(drawn.choice([1, 3, 40])):
            place = a_place(drawn, len(spoilt))
            spoilt[place : place + 1] = bytes([drawn.randrange(256)])
    elif way == "cut":
        del spoilt[at:]
    elif way == "nul":
        spoilt[at:at] = b"\0" * drawn.choice([1, 7, 5000])
    elif way == "noise":
        spoilt[at:at] = drawn.randbytes(drawn.choice([1, 20, 3000]))
    elif way == "empty":
        spoilt.clear()
    elif way == "drop":
        del spoilt[at : at + drawn.choice([1, 50, 1000])]
    elif way == "mark":
        spoilt[0:0] = drawn.choice([b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff", b"\xff\xfe\0\0", b"PK\3\4", b"%PDF-1.4"])
    else:
        spoilt = spoilt + spoilt
    return bytes(spoilt)


def archive_of(drawn: random.Random, content: bytes, dialect: Dialect) -> bytes:
    """A zip archive or workbook whose members, or whose own bytes, are spoilt."""
    if drawn.random() < 0.25:
        return bytes_of(drawn, content)
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            members = {item.filename: archive.read(item) for item in archive.infolist()}
    except Exception:  # spoilt before, in one of the many ways that zipfile tells apart
        return content
    spoilt = drawn.choice(sorted(members))
    if spoilt.endswith(".csv"):
        members[spoilt] = a_file(drawn, members[spoilt], "x.csv", dialect)
    else:
        sheets = [name for name in members if "sheet" in name or name == "content.xml"] or [spoilt]
        spoilt = drawn.choice(sheets) if drawn.random() < 0.6 else spoilt
        members[spoilt] = xml_of(drawn, members[spoilt])
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, member in members.items():
            if drawn.random() > 0.01:
                archive.writestr(name, member)
    return packed.getvalue()


def xml_of(drawn: random.Random, content: bytes) -> bytes:
    """The text of a sheet with cells, rows or numbers changed, or spoilt as any bytes are."""
    text = content.decode("utf-8", "replace")
    swaps = [
        ("<row", "<rom"), ("</v>", "99</v>"), ('t="s"', 't="n"'), ('t="s"', 't="e"'), ("<v>", "<v>-"),
        ('r="B', 'r="A'), ('r="A2"', 'r="ZZ3"'), ('office:value-type="float"', 'office:value-type="date"'),
        ('office:value="', 'office:value="x'), ('office:value-type="date"', ""), ("</t>", "\n</t>"),
        ('number-columns-repeated="2"', 'number-columns-repeated="900000"'),
    ]  # fmt: skip
    usable = [(old, new) for old, new in swaps if old in text]
    if drawn.random() < 0.6 and usable:
        old, new = drawn.choice(usable)
        return text.replace(old, new, drawn.choice([1, 1, 5, 10_000])).encode()
    if drawn.random() < 0.3:
        return text.partition("<sheetData")[0].encode() + b"<sheetData/></worksheet>"
    return bytes_of(drawn, content)


def a_file(drawn: random.Random, content: bytes, name: str, dialect: Dialect) -> bytes:
    if name.endswith((".zip", ".xlsx", ".ods")):
        return archive_of(drawn, content, dialect)
    return bytes_of(drawn, content) if drawn.random() < 0.2 else texts_of(drawn, content, dialect)
