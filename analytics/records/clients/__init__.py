"""Clients' visits: which colour roots, what became of each, and when the next is likely."""
