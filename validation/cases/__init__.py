"""One file a case; see `catalogue`."""
