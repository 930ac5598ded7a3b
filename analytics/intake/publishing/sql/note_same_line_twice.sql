-- Lines of one visit that say the same and have no numbers: each is counted, and said to be.
SELECT 'same_line_twice' AS code, 'bookings' AS "table", file, "row", 'line' AS "column", booking_id AS value,
    '' AS expected
FROM stated
WHERE state = 'used' AND line IS NULL
QUALIFY row_number() OVER (PARTITION BY content ORDER BY "row") > 1
ORDER BY file, "row"
