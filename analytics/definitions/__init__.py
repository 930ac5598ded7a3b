"""What things are called and mean: tables in, results out, findings, and the trade's words."""
