"""Units in, units out: temperatures as one types them, results in both systems, by pint."""

import re
from functools import cache
from typing import TYPE_CHECKING, Final

from hivecalc.hive import Fault, HiveFaults
from hivecalc.support.faults import quoted

if TYPE_CHECKING:
    import pint

COLDEST, HOTTEST = -60.0, 60.0
"""Temperatures in °C between which a hive may stand: weather records on land, from memory."""
_TEMPERATURE: Final = re.compile(r"([+-]?\d+(?:[.,]\d+)?) ?°?([CFcf])")
_PERCENT: Final = re.compile(r"(\d+(?:[.,]\d+)?) ?%?")
_UNITS: Final = {"C": "degC", "F": "degF"}

CONDUCTANCE: Final = ("W/(m²·K)", "watt/meter**2/kelvin", "Btu/(h·ft²·°F)",
                      "Btu/hour/foot**2/delta_degF")  # fmt: skip
RESISTANCE: Final = ("m²·K/W", "meter**2*kelvin/watt", "h·ft²·°F/Btu",
                     "hour*foot**2*delta_degF/Btu")  # fmt: skip
MASS: Final = ("kg", "kilogram", "lb", "pound")


@cache
def _registry() -> "pint.UnitRegistry[float]":
    import pint  # noqa: PLC0415 - loads slowly

    return pint.UnitRegistry()


def temperature(text: str, field: str) -> float:
    """Temperature in °C, from text such as "68 F" or "20 C".

    >>> round(temperature("68 F", "inside"), 6), temperature("−5 °C", "outside")
    (20.0, -5.0)

    Raises HiveFaults with one sentence, in which `field` stands.
    """
    found = _TEMPERATURE.fullmatch(text.strip().replace("−", "-"))
    if not found:
        raise _refused(field, f"{quoted(text)} is not a temperature", "write it like 68 F or 20 C")
    number, unit = float(found[1].replace(",", ".")), _UNITS[found[2].upper()]
    celsius = round(float(_registry().Quantity(number, unit).to("degC").magnitude), 6)
    if not COLDEST <= celsius <= HOTTEST:
        beyond = f"{text[:40]} is beyond any weather"
        raise _refused(field, beyond, "write -76 to 140 F, or -60 to 60 C")
    return celsius


def _refused(field: str, found: str, accepted: str) -> HiveFaults:
    return HiveFaults([Fault(field, found, accepted)])


def humidity(text: str) -> float:
    """Relative humidity as a share, from text in percent.

    Raises HiveFaults for anything but a number from 1 to 100.
    """
    found = _PERCENT.fullmatch(text.strip())
    share = float(found[1].replace(",", ".")) / 100 if found else 0.0
    if not 0.01 <= share <= 1:  # noqa: PLR2004 - 1 to 100 %
        found_so = f"{quoted(text)} is not a humidity"
        raise _refused("humidity", found_so, "write 1 to 100, in percent")
    return share


def warmer_inside(inside: float, outside: float) -> None:
    """Refuse an inside that is colder than outside: heat then flows in, and no dew forms there."""
    if inside < outside:
        found = f"{in_both_degrees(inside)} is colder than outside"
        raise _refused("inside", found, "write a temperature that is at least as warm")


def fahrenheit(celsius: float) -> float:
    """A temperature in °F."""
    return float(_registry().Quantity(celsius, "degC").to("degF").magnitude)


def in_both_degrees(celsius: float) -> str:
    """A temperature in both scales, to the degree."""
    whole = (round(degrees) for degrees in (fahrenheit(celsius), celsius))
    return "{} °F ({} °C)".format(*whole).replace("-", "−")


def in_both(value: float, units: tuple[str, str, str, str]) -> str:
    """A transmittance or resistance in both systems.

    >>> in_both(0.88, RESISTANCE)
    'R 5.0 (0.88 m²·K/W)'
    >>> in_both(0.3, CONDUCTANCE)
    'U 0.053 (0.30 W/(m²·K))'

    R in h·ft²·°F/Btu and U in Btu/(h·ft²·°F), as foam is sold in inches.
    """
    other = imperial(value, units)
    letter, places = ("R", 1) if units == RESISTANCE else ("U", 3)
    return f"{letter} {other:.{places}f} ({value:.2f} {units[0]})"


def imperial(value: float, units: tuple[str, str, str, str]) -> float:
    """A value in SI units as those of inches and pounds have it."""
    return float(_registry().Quantity(value, units[1]).to(units[3]).magnitude)
