"""Figures, by matplotlib: one look for all."""
