"""The accountant's folder: sheets, journal, statement and manifest of a period, written, closed and checked."""
