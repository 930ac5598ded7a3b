"""The pages: what the figures say, one question a page."""
