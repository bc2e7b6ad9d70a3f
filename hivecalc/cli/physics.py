"""The commands `warmth` and `wood`: what heat and damp do to a hive."""

from collections.abc import Mapping
from pathlib import Path

import click

from hivecalc.cli.shared import (
    DONE,
    FILE,
    FORMAT,
    OUT,
    SET,
    across,
    commands,
    examples,
    opened,
    options,
    tell,
)
from hivecalc.tables import csv_text, json_text

INSIDE = click.option(
    "--inside", default="68 F", show_default=True, metavar="TEMPERATURE",
    help="Air inside, like 68 F or 20 C.",
)  # fmt: skip
OUTSIDE = click.option(
    "--outside", default="14 F", show_default=True, metavar="TEMPERATURE",
    help="Air outside, like 14 F or -10 C.",
)  # fmt: skip


@commands.command(
    "warmth",
    epilog=examples(
        "hivecalc warmth",
        'hivecalc warmth my-hive.toml --inside "86 F" --outside "32 F" --humidity 70',
        "hivecalc warmth my-hive.toml --set board_thickness=1",
        "hivecalc warmth my-hive.toml --format json",
    ),
)
@options(FILE, INSIDE, OUTSIDE)
@click.option(
    "--humidity", default="60 %", show_default=True, help="Humidity of the air inside, in percent."
)
@options(SET, FORMAT, OUT)
def warmth_command(  # noqa: PLR0913, PLR0917 - one argument an option
    file: Path | None,
    inside: str,
    outside: str,
    humidity: str,
    settings: Mapping[str, str],
    form: str,
    out: Path | None,
) -> int:
    """Show how much heat a hive loses, where, and where a drop forms first."""
    from hivecalc import warmth as physics  # noqa: PLC0415 - slow to load
    from hivecalc.tables import warmth as tables  # noqa: PLC0415 - as above

    at = tables.Weather(
        physics.temperature(inside, "--inside"),
        physics.temperature(outside, "--outside"),
        physics.humidity(humidity),
    )
    physics.warmer_inside(at.inside, at.outside)
    told = tables.Warmth(opened(file, settings), at)
    forms = {
        "text": lambda: tables.warmth_text(told, across(out)),
        "json": lambda: json_text(tables.warmth_json(told)),
        "csv": lambda: csv_text(tables.warmth_table(told)),
    }
    tell(forms[form](), out)
    return DONE


@commands.command(
    "wood",
    epilog=examples(
        "hivecalc wood",
        'hivecalc wood my-hive.toml --species "red spruce" --climate seattle',
        "hivecalc wood my-hive.toml --made 19",
        'hivecalc wood my-hive.toml --inside "68 F" --humidity 40',
        "hivecalc wood my-hive.toml --format csv",
    ),
)
@options(FILE)
@click.option("--species", default="white fir", show_default=True, help="Wood of the hive.")
@click.option("--climate", default="chicago", show_default=True, help="Where the hive stands.")
@click.option("--made", metavar="PERCENT", help="Moisture of the wood when you measured and cut.")
@click.option(
    "--inside", default="68 F", show_default=True, metavar="TEMPERATURE",
    help="Air of the shop where the wood lay, if you do not give --made.",
)  # fmt: skip
@click.option(
    "--humidity", default="65 %", show_default=True, help="Humidity of that air, in percent."
)
@options(SET, FORMAT, OUT)
def wood_command(  # noqa: PLR0913, PLR0917 - one argument an option
    file: Path | None,
    species: str,
    climate: str,
    made: str | None,
    inside: str,
    humidity: str,
    settings: Mapping[str, str],
    form: str,
    out: Path | None,
) -> int:
    """Show how wood moves the gaps of a hive through a year."""
    from hivecalc import warmth as physics  # noqa: PLC0415 - slow to load
    from hivecalc import wood  # noqa: PLC0415 - as above
    from hivecalc.tables import wood as tables  # noqa: PLC0415 - as above

    at, share = physics.temperature(inside, "--inside"), physics.humidity(humidity)
    moisture = wood.moisture_given(made) if made else wood.moisture_in_air(at, share)
    kind, place = wood.species_named(species), wood.climate_named(climate)
    year = tables.Year(opened(file, settings), kind, place, moisture)
    forms = {
        "text": lambda: tables.wood_text(year, across(out)),
        "json": lambda: json_text(tables.wood_json(year)),
        "csv": lambda: csv_text(tables.wood_table(year)),
    }
    tell(forms[form](), out)
    return DONE
