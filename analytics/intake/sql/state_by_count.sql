-- Rows without a key stand as often as in the one file that holds them most often; the others are repeats.
WITH counted AS (
    SELECT *, count(*) OVER (PARTITION BY content, file_rank) AS times FROM ready
    WHERE fault IS NULL
)
SELECT * EXCLUDE (times),
    CASE
        WHEN file_rank = first_value(file_rank) OVER (PARTITION BY content ORDER BY times DESC, file_rank DESC)
            THEN 'used'
        ELSE 'repeat'
    END AS state
FROM counted
