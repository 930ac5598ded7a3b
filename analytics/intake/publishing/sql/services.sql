-- services: one row per line of the menu and start of validity.
SELECT rid, coalesce(resets_roots, kind IN ('root_touch_up', 'full_colour')) AS resets_roots
FROM typed
