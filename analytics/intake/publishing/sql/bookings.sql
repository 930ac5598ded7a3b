-- bookings: one row per booked service line. The line of the menu is found by its id, else by its name as it stood on
-- that day, else by the only line that ever had that name; where no chair is named the stylist's own name stands in.
WITH menu AS (
    SELECT
        service_id,
        lower(regexp_replace(service, '\s+', ' ', 'g')) AS name,
        coalesce(valid_from, DATE '0001-01-01') AS valid_from,
        lead(valid_from, 1, DATE '9999-12-31') OVER (PARTITION BY service_id ORDER BY valid_from NULLS FIRST) AS valid_to
    FROM services
),
ever AS (
    SELECT name, min(service_id) AS service_id, count(DISTINCT service_id) AS many FROM menu GROUP BY name
),
cells AS (
    SELECT service, lower(regexp_replace(service, '\s+', ' ', 'g')) AS name
    FROM (SELECT DISTINCT service FROM typed WHERE service_id IS NULL AND service IS NOT NULL)
),
named AS (
    SELECT typed.*, cells.name, coalesce(several.services, '') AS services
    FROM typed
    LEFT JOIN cells ON typed.service_id IS NULL AND cells.service = typed.service
    LEFT JOIN several ON several.cell = typed.service
),
asked AS (
    SELECT DISTINCT name, starts_at::DATE AS day FROM named WHERE name IS NOT NULL
),
that_day AS (
    SELECT asked.name, asked.day, min(menu.service_id) AS service_id, count(DISTINCT menu.service_id) AS many
    FROM asked
    JOIN menu ON menu.name = asked.name AND asked.day >= menu.valid_from AND asked.day < menu.valid_to
    GROUP BY ALL
),
found AS (
    SELECT
        t.*,
        CASE
            WHEN t.service_id IS NOT NULL THEN by_id.service_id
            WHEN that_day.many = 1 THEN that_day.service_id
            WHEN that_day.many IS NULL AND ever.many = 1 THEN ever.service_id
        END AS found_id,
        t.service_id IS NULL AND coalesce(that_day.many, ever.many, 0) > 1 AS ambiguous
    FROM named AS t
    LEFT JOIN (SELECT DISTINCT service_id FROM services) AS by_id ON by_id.service_id = t.service_id
    LEFT JOIN that_day ON that_day.name = t.name AND that_day.day = t.starts_at::DATE
    LEFT JOIN ever ON ever.name = t.name
)
SELECT
    rid,
    coalesce(chair, stylist, 'not named') AS chair,
    coalesce(found_id, found.service_id) AS service_id,
    services,
    CASE
        WHEN fault IS NOT NULL THEN fault
        WHEN ends_at < starts_at THEN
            struct_pack(code := 'end_before_start', "column" := 'ends_at', value := strftime(ends_at, '%Y-%m-%d %H:%M'), expected := '')
        WHEN ends_at > starts_at + INTERVAL 24 HOUR THEN
            struct_pack(code := 'end_too_late', "column" := 'ends_at', value := strftime(ends_at, '%Y-%m-%d %H:%M'), expected := '')
        WHEN ambiguous THEN
            struct_pack(code := 'ambiguous_service', "column" := 'service', value := service, expected := '')
        WHEN services <> '' AND found.service_id IS NULL THEN NULL
        WHEN found_id IS NULL AND found.service_id IS NOT NULL THEN
            struct_pack(code := 'unknown_service', "column" := 'service_id', value := found.service_id, expected := '')
        WHEN found_id IS NULL THEN
            struct_pack(code := 'unknown_service', "column" := 'service', value := service, expected := '')
    END AS fault
FROM found
