"""Methods the literature has a name for, one per file, each with its published check in the tests."""
