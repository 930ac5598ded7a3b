"""The commands: what each asks for and says; the figures themselves are worked out elsewhere."""
