-- Rows with one price for several services.
SELECT 'price_shared' AS code, 'bookings' AS "table", file, "row", 'price' AS "column", NULL AS value, '' AS expected
FROM stated
WHERE state = 'used' AND services <> ''
ORDER BY file, "row"
