-- Of rows with one key the newest file's last row counts. The same row elsewhere is a repeat, any other an older state.
-- likeness is enough to compare the rows of one key.
SELECT rid,
    CASE
        WHEN row_number() OVER newest_first = 1 THEN 'used'
        WHEN likeness = first_value(likeness) OVER newest_first THEN 'repeat'
        ELSE 'superseded'
    END AS state
FROM ready
WHERE fault IS NULL
WINDOW newest_first AS (PARTITION BY {key} ORDER BY file_rank DESC, "row" DESC)
