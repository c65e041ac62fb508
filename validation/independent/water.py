"""Saturation pressure and latent heat of water: IAPWS SR1-86(1992), Wagner & Pruss 1993.

Range 0.01 to 373 °C. The engine uses Hyland & Wexler and a cubic: within 0.025 % and 0.04 % of these.
"""

from __future__ import annotations

import math
from typing import Any

CRITICAL_T, CRITICAL_P, CRITICAL_D = 647.096, 22.064e6, 322.0  # K, Pa, kg/m³
PRESSURE = (
    (1.0, -7.85951783),
    (1.5, 1.84408259),
    (3.0, -11.7866497),
    (3.5, 22.6807411),
    (4.0, -15.9618719),
    (7.5, 1.80122502),
)
LIQUID = (
    (1 / 3, 1.99274064),
    (2 / 3, 1.09965342),
    (5 / 3, -0.510839303),
    (16 / 3, -1.75493479),
    (43 / 3, -45.5170352),
    (110 / 3, -6.74694450e5),
)
VAPOUR = (
    (2 / 6, -2.03150240),
    (4 / 6, -2.68302940),
    (8 / 6, -5.38626492),
    (18 / 6, -17.2991605),
    (37 / 6, -44.7586581),
    (71 / 6, -63.9201063),
)


def saturation_and_latent(celsius: Any, functions: Any = math) -> tuple[Any, Any]:
    """Saturation pressure [Pa], and latent heat [J/kg] by Clausius and Clapeyron from the densities.

    `functions`: where exp and log come from, `math` for a number, `numpy` for an array.
    """
    exp, log = functions.exp, functions.log
    kelvin = celsius + 273.15
    tau = 1.0 - kelvin / CRITICAL_T
    log_tau = log(tau)
    terms = [(a * exp(e * log_tau), e) for e, a in PRESSURE]
    ratio = CRITICAL_T / kelvin * sum([term for term, _ in terms])
    pressure = CRITICAL_P * exp(ratio)
    slope = -pressure / kelvin * (ratio + sum([e * term for term, e in terms]) / tau)
    liquid = CRITICAL_D * (1.0 + sum([b * exp(e * log_tau) for e, b in LIQUID]))
    vapour = CRITICAL_D * exp(sum([c * exp(e * log_tau) for e, c in VAPOUR]))
    return pressure, kelvin * (1.0 / vapour - 1.0 / liquid) * slope
