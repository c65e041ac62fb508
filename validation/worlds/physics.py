"""The few laws that the physical worlds share: vapour, films, sizes. From memory of textbooks, as marked."""

from __future__ import annotations

import math

import numpy as np

from .cook import Array

GAS = 461.5  # J/kgK of water vapour, handbook value
LATENT = 2.33e6  # J/kg near 70 °C, steam tables
PSYCHROMETER = 1.0 / 62.0  # K/Pa: L M_w/M_a / (cp P Le^(2/3)) near 70 °C, from memory
RHO_C = 3.55e6  # J/m³K of raw meat: 1050 kg/m³ x 3.4 kJ/kgK, from memory
CONDUCTIVITY = 0.46  # W/mK, raw to cooked meat 0.4 to 0.5, from memory
MODEST = {"brisket": 5.0, "pork": 4.0}  # kg for which thicknesses are told


def saturation(t: float) -> float:
    """Vapour pressure over water [Pa] by Magnus's formula, 0 to 110 °C within 1 % (t in °C)."""
    t = max(min(t, 110.0), 0.0)
    return 611.2 * math.exp(17.5043 * t / (241.2 + t))


def saturations(t: Array) -> Array:
    """The same over an array."""
    t = np.clip(t, 0.0, 110.0)
    return np.asarray(611.2 * np.exp(17.5043 * t / (241.2 + t)))


def vapour(cooker: str, dice: np.random.Generator) -> float:
    """Vapour pressure in the cooker [Pa]: 5 to 20 kPa, wetter where the air is hardly changed."""
    middle = {
        "cabinet": 1.35e4,
        "ceramic": 1.3e4,
        "drum": 1.15e4,
        "kettle": 1.05e4,
        "oven": 9.0e3,
        "offset": 7.5e3,
    }
    return float(np.clip(middle[cooker] * np.exp(0.2 * dice.standard_normal()), 3.0e3, 2.5e4))


def film(cooker: str, dice: np.random.Generator) -> float:
    """Convection and radiation together [W/m²K]: 12 to 25, from memory."""
    middle = {"cabinet": 15.0, "ceramic": 14.0, "drum": 16.0, "kettle": 16.0, "oven": 19.0, "offset": 19.0}
    return middle[cooker] * float(np.exp(0.07 * dice.standard_normal()))


def size(cut: str, mass: float) -> float:
    """How much thicker a piece of this mass is than the one of the usual mass."""
    return float((mass / MODEST[cut]) ** (1.0 / 3.0))
