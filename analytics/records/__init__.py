"""Table rows brought together the way every figure needs them: priced lines, chair stays, priced bowls, retail rows."""
