"""What the pages are put together from."""
