"""Forecasts on cooks that the library did not invent: measured ones, and other worlds."""
