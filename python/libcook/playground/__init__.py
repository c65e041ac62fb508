"""Sliders over one cook."""

from libcook.playground.sliders import Still
from libcook.playground.widget import show

__all__ = ["Still", "show"]
