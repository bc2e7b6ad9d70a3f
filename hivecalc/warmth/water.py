"""Damp air, by psychrolib: dew point, faces inside the hive, and where the first drop forms.

SI units, °C; humidity is a share.
"""

from dataclasses import dataclass
from functools import cache
from importlib import import_module
from types import ModuleType
from typing import Final

from hivecalc.hive import Hive
from hivecalc.warmth.bridges import bridges
from hivecalc.warmth.surfaces import surfaces

CORNER_FILM: Final = 0.25
"""Film resistance in a corner, m²·K/W, where air hardly moves: ISO 13788 for mould, as a public
program for the Spanish code reads it (factor 1 − U × 0.25)."""


@cache
def _psychrolib() -> ModuleType:
    psychrolib = import_module("psychrolib")  # loads slowly
    psychrolib.SetUnitSystem(psychrolib.SI)
    return psychrolib


def saturation_pressure(celsius: float) -> float:
    """Pressure of water vapour in air that can hold no more, in Pa; over ice below 0 °C.

    >>> round(saturation_pressure(20))
    2339

    By psychrolib, after ASHRAE Handbook Fundamentals (2017), chapter 1, equations 5 and 6.
    """
    return float(_psychrolib().GetSatVapPres(celsius))


def dew_point(celsius: float, humidity: float) -> float:
    """Temperature in °C at which a drop forms, for air of this temperature and humidity.

    >>> round(dew_point(20, 0.5), 1)
    9.3

    `humidity` is a share. Below 0 °C frost forms there. By psychrolib.
    """
    return float(_psychrolib().GetTDewPointFromRelHum(celsius, humidity))


def first_drop(factor: float, inside: float, humidity: float) -> float | None:
    """Outside temperature in °C at which a drop forms on a face; None where it never does.

    >>> round(first_drop(0.6, 20, 0.6) or 0, 1)
    0.0

    `factor` is the temperature factor of the face (ISO 13788): it is
    factor × inside + (1 − factor) × outside warm, and is set equal to the dew point.
    """
    if factor >= 1:
        return None
    return (dew_point(inside, humidity) - factor * inside) / (1 - factor)


@dataclass(frozen=True)
class Face:
    """A face inside the hive: its name, temperature factor, temperature, and its first drop.

    `drop` is the outside temperature at which a drop forms on it; None where it never does.
    """

    name: str
    factor: float
    temperature: float
    drop: float | None


def faces(hive: Hive, inside: float, outside: float, humidity: float) -> tuple[Face, ...]:
    """The faces inside a hive, that on which the first drop forms foremost.

    >>> from hivecalc.hive import hive_from_text
    >>> found = [f.name for f in faces(hive_from_text("chosen.frames = 10"), 20, 0, 0.6)]
    >>> found[0], found[-1]
    ("bottom board's rail", 'above the bees')

    Walls, bottom board and roof at their plainest; the edges by their sections' coldest place.
    """
    plain = {one.name: one.element.factor for one in surfaces(hive)}
    walls = surfaces(hive)[0].element
    factors = {
        "walls": plain["walls"],
        "above the bees": plain["roof"],
        "bottom board": plain["bottom board"],
        "upright corner": max(1 - CORNER_FILM / (walls.clear - walls.film + CORNER_FILM), 0.0),
        **{b.name: b.field.coldest for b in bridges(hive) if not b.name.startswith("sleeve")},
    }
    found = [
        Face(n, f, outside + f * (inside - outside), first_drop(f, inside, humidity))
        for n, f in factors.items()
    ]
    return tuple(sorted(found, key=lambda one: one.factor))
