-- A visit's newest state is all its lines in the newest file that holds it. In that file the last row of a line
-- counts; lines without numbers all count. The same row elsewhere is a repeat, any other is an older state.
WITH known AS (
    SELECT *,
        max(file_rank) OVER visit = file_rank AS newest,
        line IS NULL
        OR row_number() OVER (PARTITION BY site, booking_id, file_rank, line ORDER BY "row" DESC) = 1 AS latest
    FROM ready
    WHERE fault IS NULL
    WINDOW visit AS (PARTITION BY site, booking_id)
)
SELECT * EXCLUDE (newest, latest),
    CASE
        WHEN newest AND latest THEN 'used'
        WHEN bool_or(newest AND latest) OVER (PARTITION BY site, booking_id, content) THEN 'repeat'
        ELSE 'superseded'
    END AS state
FROM known
