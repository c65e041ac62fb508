"""Logged temperatures: what was measured, read from files, and looked at."""

from libcook.logs.events import Event
from libcook.logs.findings import Finding
from libcook.logs.from_file import read_log
from libcook.logs.log import Log
from libcook.logs.log import _rebuild as _rebuild  # by this name in pickles

__all__ = ["Event", "Finding", "Log", "read_log"]
