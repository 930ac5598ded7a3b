-- product_log, sales, stock_moves: the product is known by its id, else by the only product that ever had its name,
-- else by that name itself.
WITH named AS (
    SELECT lower(product) AS name, min(product_id) AS product_id FROM products
    GROUP BY ALL HAVING count(DISTINCT product_id) = 1
)
SELECT rid, coalesce(typed.product_id, named.product_id, typed.product) AS product_id
FROM typed
LEFT JOIN named ON named.name = lower(typed.product)
