"""Tables as the pages hand them on. No other module of the pages knows polars."""

import polars as pl

Frame = pl.DataFrame
