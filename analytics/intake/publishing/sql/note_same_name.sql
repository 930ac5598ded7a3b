-- Clients known by name only, of whom one file has several rows that differ: one client or two, nobody can tell.
SELECT 'same_name' AS code, 'clients' AS "table", file, "row", 'client' AS "column", client AS value, '' AS expected
FROM stated
WHERE client_id = lower(regexp_replace(strip_accents(trim(client)), '\s+', ' ', 'g'))
QUALIFY count(DISTINCT content) OVER (PARTITION BY file, client_id) > 1
    AND row_number() OVER (PARTITION BY file, client_id ORDER BY "row") > 1
ORDER BY file, "row"
