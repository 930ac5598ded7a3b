-- Of rows with one key the newest file's last row counts. The same row elsewhere is a repeat, any other an older state.
SELECT rid,
    CASE
        WHEN row_number() OVER newest_first = 1 THEN 'used'
        WHEN content = first_value(content) OVER newest_first THEN 'repeat'
        ELSE 'superseded'
    END AS state
FROM ready
WHERE fault IS NULL
WINDOW newest_first AS (PARTITION BY {key} ORDER BY file_rank DESC, "row" DESC)
