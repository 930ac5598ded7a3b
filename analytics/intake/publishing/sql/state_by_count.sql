-- Rows without a key stand as often as in the one file that holds them most often; the others are repeats.
-- Only rows that look like another are compared: every other is used.
WITH alike AS (
    SELECT likeness FROM ready WHERE fault IS NULL GROUP BY likeness HAVING count(*) > 1
),
counted AS (
    SELECT *, count(*) OVER (PARTITION BY content, file_rank) AS times
    FROM ready SEMI JOIN alike USING (likeness)
    WHERE fault IS NULL
)
SELECT rid,
    CASE
        WHEN file_rank = first_value(file_rank) OVER (PARTITION BY content ORDER BY times DESC, file_rank DESC)
            THEN 'used'
        ELSE 'repeat'
    END AS state
FROM counted
