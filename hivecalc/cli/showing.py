"""The commands about one hive: `parts`, `explain`, `warmth`, `wood` and `book`."""

from datetime import date
from pathlib import Path
from typing import Any

import click

from hivecalc.cli.shared import (
    ANSWER,
    DONE,
    FILE,
    GRID,
    OUT,
    SET,
    Call,
    Decorator,
    OneOf,
    command,
    dimension_name,
    misused,
    plain,
    write,
)
from hivecalc.document import Paper
from hivecalc.length import Grid


@command(
    "parts",
    FILE,
    GRID,
    click.option("--component", metavar="NAME", help="Only this component, like bottom_board."),
    *ANSWER,
    calls=(
        "hivecalc parts",
        "hivecalc parts my-hive.toml --component roof",
        'hivecalc parts --set "hive_length=22 1/2" --set hive_width=16',
        'hivecalc parts my-hive.toml --grid "1/32 in"',
        "hivecalc parts my-hive.toml --format csv --out parts.csv",
    ),
)
def parts_command(call: Call, grid: Grid | None, component: str | None) -> int:
    """List the pieces to cut, with their sizes and what each is for."""
    from hivecalc.reports.sizes import parts_report  # noqa: PLC0415 - loaded when it is asked for

    return call.show(parts_report(call.hive, grid, component and plain(component)))


@command(
    "explain",
    click.argument("dimension"),
    FILE,
    GRID,
    *ANSWER,
    calls=(
        "hivecalc explain bottom_board.side_rail_length",
        'hivecalc explain "panel width" my-hive.toml',
        'hivecalc explain roof.slope --set "stud_width=3 3/8"',
        "hivecalc explain way_in --format json",
    ),
)
def explain_command(call: Call, dimension: str, grid: Grid | None) -> int:
    """Show how DIMENSION comes out of what was measured, step by step.

    DIMENSION is a component and a name, or the name alone where only one component has it.
    """
    from hivecalc.reports.sizes import size_report  # noqa: PLC0415 - loaded when it is asked for

    return call.show(size_report(call.hive, dimension_name(dimension, call.hive), grid))


def _air(option: str, default: str, what: str) -> Decorator[Any]:
    return click.option(
        option, default=default, show_default=True, metavar="TEMPERATURE", help=what
    )


@command(
    "warmth",
    FILE,
    _air("--inside", "68 F", "Air inside, like 68 F or 20 C."),
    _air("--outside", "14 F", "Air outside, like 14 F or -10 C."),
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
    from hivecalc import warmth  # noqa: PLC0415 - slow to load
    from hivecalc.reports.warmth import Warmth, Weather  # noqa: PLC0415 - as above

    warm, cold = warmth.temperature(inside, "--inside"), warmth.temperature(outside, "--outside")
    at = Weather(warm, cold, warmth.humidity(humidity))
    warmth.warmer_inside(at.inside, at.outside)
    return call.show(Warmth(call.hive, at).report)


@command(
    "wood",
    FILE,
    click.option("--species", default="white fir", show_default=True, help="Wood of the hive."),
    click.option("--climate", default="chicago", show_default=True, help="Where the hive stands."),
    click.option(
        "--made", metavar="PERCENT", help="Moisture of the wood when you measured and cut."
    ),
    _air("--inside", "68 F", "Air of the shop where the wood lay, if you do not give --made."),
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
    from hivecalc import warmth, wood  # noqa: PLC0415 - slow to load
    from hivecalc.reports.warmth import Year  # noqa: PLC0415 - as above

    at, share = warmth.temperature(inside, "--inside"), warmth.humidity(humidity)
    moisture = wood.moisture_given(made, "made") if made else wood.moisture_in_air(at, share)
    kind, place = wood.species_named(species), wood.climate_named(climate)
    return call.show(Year(call.hive, kind, place, moisture).report)


@command(
    "book",
    FILE,
    SET,
    click.option(
        "--yard", "yard_file", metavar="PATH", type=click.Path(path_type=Path),
        help="Your yard file; if not given, my-yard.toml beside FILE, or the invented yard.",
    ),
    click.option(
        "--plan", "plan_file", metavar="PATH", type=click.Path(path_type=Path),
        help="Show this plan, which the command plan wrote for this one hive.",
    ),
    OUT,
    click.option(
        "--paper", "sheet", type=OneOf(("a4", "letter")),
        help="Paper to print on; letter for a hive in inches, a4 for one in mm, if not given.",
    ),
    calls=(
        "hivecalc book my-hive.toml",
        "hivecalc book my-hive.toml --out book.pdf --paper letter",
        "hivecalc book my-hive.toml --yard my-yard.toml --out book.html",
        "hivecalc book my-hive.toml --plan plan.json",
    ),
)  # fmt: skip
def book_command(
    call: Call, yard_file: Path | None, plan_file: Path | None, sheet: Paper | None
) -> int:
    """Write the hive book: a page to pin over the bench, drawings, workings, plan, checks.

    Without --out it is written beside FILE, as a page of HTML and as a PDF; else as the one that
    the end of PATH says, .html or .pdf.
    """
    from hivecalc.cli.planning import plan_of_one  # noqa: PLC0415 - slow to load
    from hivecalc.reports.book import book, written_book  # noqa: PLC0415 - as above
    from hivecalc.reports.sizes import usual_paper  # noqa: PLC0415 - as above
    from hivecalc.workshop import yard_beside, yard_from_file  # noqa: PLC0415 - as above

    hive, file, out = call.hive, call.file, call.out
    beside = (file or Path("demo-hive.toml")).with_suffix("")
    paths = (
        [out] if out else [beside.with_name(f"{beside.name}-book{e}") for e in (".html", ".pdf")]
    )
    if any(path.suffix.lower() not in {".html", ".pdf"} for path in paths):
        raise misused("--out names a file that ends with .html or .pdf")
    made = plan_of_one(plan_file, hive) if plan_file else None
    yard = None
    if yard_file or file:
        yard = yard_from_file(yard_file) if yard_file else yard_beside(beside, hive.units)
    told = book(hive, date.today().isoformat(), yard, made=made)  # noqa: DTZ011 - the reader's day
    for path in paths:
        write(path, written_book(told, path, sheet or usual_paper(hive.units)))
    return DONE
