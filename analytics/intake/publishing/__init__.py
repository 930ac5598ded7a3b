"""Typed rows -> a new book: which rows count, every row accounted for, the file swapped in whole."""
