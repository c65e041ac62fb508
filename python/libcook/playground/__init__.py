"""Sliders over one cook."""

from libcook.playground.sliders import Still, show

__all__ = ["Still", "show"]
