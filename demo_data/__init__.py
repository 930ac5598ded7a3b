"""An invented salon: three years of exports made from a fixed seed, with a dozen planted faults."""
