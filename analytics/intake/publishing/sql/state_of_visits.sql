-- A visit's newest state is all its lines in the newest file that holds it. In that file the last row of a line
-- counts; lines without numbers all count. The same row elsewhere is a repeat, any other is an older state.
-- Only visits in several files, or with a line that stands twice, are looked at: of the others every row is used.
-- likeness is enough to compare the rows of one visit.
WITH contested AS (
    SELECT site, booking_id FROM ready
    WHERE fault IS NULL
    GROUP BY site, booking_id
    HAVING min(file_rank) < max(file_rank) OR bit_count(bit_or(1::BIGINT << least(line, 62))) < count(line)
),
known AS (
    SELECT *,
        max(file_rank) OVER visit = file_rank AS newest,
        line IS NULL
        OR row_number() OVER (PARTITION BY site, booking_id, file_rank, line ORDER BY "row" DESC) = 1 AS latest
    FROM ready SEMI JOIN contested USING (site, booking_id)
    WHERE fault IS NULL
    WINDOW visit AS (PARTITION BY site, booking_id)
)
SELECT rid,
    CASE
        WHEN newest AND latest THEN 'used'
        WHEN bool_or(newest AND latest) OVER (PARTITION BY site, booking_id, likeness) THEN 'repeat'
        ELSE 'superseded'
    END AS state
FROM known
