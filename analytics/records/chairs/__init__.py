"""Who sat where and when, on which line of the menu, and what an open hour of a chair is."""
