"""Everything that judges loaded rows. It drops nothing: what is odd is said and used as it stands."""
