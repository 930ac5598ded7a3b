"""From a folder of exports to a loaded book. Knows nothing of figures."""
