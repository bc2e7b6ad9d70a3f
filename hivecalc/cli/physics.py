"""The commands `warmth` and `wood`: the heat a hive loses, and how its gaps move."""

from typing import Any

import click

from hivecalc import wood
from hivecalc.cli.shared import ANSWER, FILE, Call, Decorator, command
from hivecalc.reports.warmth import USUAL, Warmth, Weather, Year
from hivecalc.warmth.layers import humidity as share
from hivecalc.warmth.layers import temperature, warmer_inside

WARM, COLD = USUAL.typed("inch")


def _air(option: str, default: str, what: str) -> Decorator[Any]:
    return click.option(
        option, default=default, show_default=True, metavar="TEMPERATURE", help=what
    )


@command(
    "warmth",
    FILE,
    _air("--inside", WARM, "Air inside, like 68 F or 20 C."),
    _air("--outside", COLD, "Air outside, like 14 F or -10 C."),
    click.option(
        "--humidity",
        default="60 %",
        show_default=True,
        help="Humidity of the air inside, in percent.",
    ),
    *ANSWER,
    calls=(
        "hivecalc warmth",
        'hivecalc warmth my-hive.toml --inside "86 F" --outside "32 F" --humidity 70',
        "hivecalc warmth my-hive.toml --set board_thickness=1",
        "hivecalc warmth my-hive.toml --format json",
    ),
)
def warmth_command(call: Call, inside: str, outside: str, humidity: str) -> int:
    """Show how much heat a hive loses, where, and where a drop forms first."""
    warm, cold = temperature(inside, "--inside"), temperature(outside, "--outside")
    at = Weather(warm, cold, share(humidity))
    warmer_inside(warm, cold, call.hive.units)
    return call.show(Warmth(call.hive, at).report)


@command(
    "wood",
    FILE,
    click.option("--species", default="white fir", show_default=True, help="Wood of the hive."),
    click.option("--climate", default="chicago", show_default=True, help="Where the hive stands."),
    click.option(
        "--made", metavar="PERCENT", help="Moisture of the wood when you measured and cut."
    ),
    _air("--inside", WARM, "Air of the shop where the wood lay, if you do not give --made."),
    click.option(
        "--humidity", default="65 %", show_default=True, help="Humidity of that air, in percent."
    ),
    *ANSWER,
    calls=(
        "hivecalc wood",
        'hivecalc wood my-hive.toml --species "red spruce" --climate seattle',
        "hivecalc wood my-hive.toml --made 19",
        'hivecalc wood my-hive.toml --inside "68 F" --humidity 40',
        "hivecalc wood my-hive.toml --format csv",
    ),
)
def wood_command(  # noqa: PLR0913, PLR0917 - one argument an option
    call: Call, species: str, climate: str, made: str | None, inside: str, humidity: str
) -> int:
    """Show how wood moves the gaps of a hive through a year."""
    air = (temperature(inside, "--inside"), share(humidity))
    moisture = wood.moisture_given(made, "made") if made else wood.moisture_in_air(*air)
    kind, place = wood.species_named(species), wood.climate_named(climate)
    return call.show(Year(call.hive, kind, place, moisture).report)
