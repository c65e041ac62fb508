"""One plan, many times over: paths into it, chunks, folders of Parquet."""
