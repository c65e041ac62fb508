"""A plan and what was measured: belief, calibration, forecast, start time."""
