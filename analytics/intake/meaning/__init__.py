"""Which table a sheet is, which column each heading means, and which records are rows."""
