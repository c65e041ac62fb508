"""Outcomes, fits and forecasts in words: one-line forms, sentences, HTML."""
