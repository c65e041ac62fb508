"""Which column of a log is which: words of headers, names and units, roles, scales."""
