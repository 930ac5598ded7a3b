"""What was charged, taxed and paid."""
