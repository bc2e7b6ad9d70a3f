"""The commands about one hive: `new`, `open`, `parts`, `explain`, `warmth`, `wood`, `book`."""

import re
from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Any, Final, get_args

import click

from hivecalc.cli.shared import (
    ANSWER,
    DONE,
    FILE,
    GRID,
    OUT,
    PATH,
    SET,
    Call,
    Decorator,
    command,
    component_of,
    dimension_name,
    misused,
    path_option,
    write,
)
from hivecalc.components import built, checked, opened_hive
from hivecalc.document import Paper
from hivecalc.hive import (
    SIZED_BY,
    Fault,
    Hive,
    HiveFaults,
    changed,
    demo_hive,
    hive_text,
    write_new,
)
from hivecalc.length import MM, UNITS, Grid, Units
from hivecalc.support.faults import escaped, quoted
from hivecalc.workshop.yard import yard_text

METRIC: Final = re.compile(r"[0-9] *(?:mm|cm|m) *$")
IN_INCHES: Final = re.compile(r"""[0-9] *(?:in|ft|["'″′]|/[0-9])""")

FIRST_SIZES: Final = """\
# hive_length and hive_width below are those of a demo hive, which is invented.
# Measure your own hive and write its sizes in their place.

"""


@command(
    "new",
    click.argument("target", metavar="FILE", type=PATH),
    SET,
    click.option(
        "--yard",
        is_flag=True,
        help="Write a yard file instead: what your yard sells, its prices, the offcuts you have.",
    ),
    calls=(
        "hivecalc new my-hive.toml",
        'hivecalc new my-hive.toml --set "hive_length=22 1/2" --set hive_width=16',
        "hivecalc new my-hive.toml --set units=mm",
        "hivecalc new my-hive.toml --set frames=10",
        "hivecalc new my-yard.toml --yard",
        "hivecalc new my-yard.toml --yard --set units=mm",
    ),
)
def new_command(call: Call, target: Path, yard: bool) -> int:  # noqa: FBT001 - click hands it so
    """Write a new hive file, with a note on each line.

    With --set units=mm, or lengths that are set in millimetres, it is a file in millimetres, with
    defaults in whole ones. A file that is there already is never overwritten.
    """
    settings = call.settings
    if yard and settings.keys() - {"units"}:
        raise misused("a yard has no such size: with --yard, only --set units=mm")
    text = yard_text(_units(settings.get("units"), {})) if yard else _new_text(settings)
    write_new(target, text)
    what, then = "your own measurements", "parts"
    if yard:
        what, then = "your yard's prices", "shop --yard"
    name = escaped(str(target))
    word = name if re.fullmatch(r"[\w./\\:~-]+", name) else f'"{name}"'  # as a shell takes it
    click.echo(f"Wrote {name}. Write {what} into it, then: hivecalc {then} {word}")
    return DONE


def _new_text(settings: Mapping[str, str]) -> str:
    """Return a hive file's text, with the demo hive's size if no size is set."""
    lengths = {name: text for name, text in settings.items() if name != "units"}
    units = _units(settings.get("units"), lengths)
    sized = bool(lengths.keys() & {*SIZED_BY})
    in_mm = {"hive_length": 588 * MM, "hive_width": 442 * MM}
    first = in_mm if units == "mm" else demo_hive().measured
    start = Hive("My hive", units, {} if sized else first, {})
    hive = checked(changed(start, lengths)) if lengths else start
    return ("" if sized else FIRST_SIZES) + hive_text(hive)


def _units(asked: str | None, lengths: Mapping[str, str]) -> Units:
    """Return the units of a new file: those asked for, else mm where lengths are set in them."""
    if asked is None:
        metric = any(METRIC.search(text) for text in lengths.values())
        return "mm" if metric and not any(map(IN_INCHES.search, lengths.values())) else "inch"
    if found := [units for units in UNITS if asked.strip() == units]:
        return found[0]
    not_known = f"{quoted(asked.strip())} is not a unit of a hive file"
    raise HiveFaults([Fault("--set units", not_known, "write inch or mm")])


@command(
    "open",
    FILE,
    path_option(
        "--folder",
        said="Your course folder; hivecalc-course in your home folder if not given here or by the "
        "environment variable HIVECALC_COURSE.",
    ),
    click.option("--no-browser", is_flag=True, help="Only say the address, and open no browser."),
    click.option(
        "--stop", is_flag=True, help="Stop what runs on the course folder, and open nothing."
    ),
    calls=(
        "hivecalc open",
        "hivecalc open my-hive.toml",
        "hivecalc open --folder saturday-course",
        "hivecalc open --no-browser",
        "hivecalc open --stop",
    ),
)
def open_command(call: Call, folder: Path | None, no_browser: bool, stop: bool) -> int:  # noqa: FBT001 - click hands it so
    """Open the lessons in your browser.

    The first time, your course folder is made, with copies of lessons, exercises and a hive file.
    Later, you go on where you left off; what is new is added, and what you have changed stays as
    you left it. FILE becomes the course's hive file my-hive.toml if there is none yet. Ctrl-C stops
    it.
    """
    from hivecalc.course_folder import copying, serving  # noqa: PLC0415 - only this needs them

    file, place = call.file, folder or copying.usual_folder()
    if stop:
        stopped = serving.stop_lab(copying.Course(place.expanduser().resolve(), ""))
        click.echo("Stopped." if stopped else f"Nothing runs on {escaped(str(place))}.")
        return DONE
    if file is not None:
        opened_hive(file)
    course = copying.prepare(place, file)
    click.echo("\n".join(map(escaped, copying.report(course, file))))
    browser = not no_browser and serving.shows_browser()
    status = serving.run_lab(course, click.echo, browser=browser)
    if status:
        found = f"it ended with status {status}"
        raise HiveFaults([Fault("JupyterLab", found, "what it said stands above")])
    return DONE


# ── the report on it ──────────────────────────────────────────────────────────────────────────


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

    asked = component_of(component, built(call.hive))
    return call.show(parts_report(call.hive, grid, asked))


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
    from hivecalc.reports.warmth import Warmth, Weather  # noqa: PLC0415 - slow to load
    from hivecalc.warmth.layers import humidity as share  # noqa: PLC0415 - as above
    from hivecalc.warmth.layers import temperature, warmer_inside  # noqa: PLC0415 - as above

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
    from hivecalc import wood  # noqa: PLC0415 - slow to load
    from hivecalc.reports.warmth import Year  # noqa: PLC0415 - as above
    from hivecalc.warmth.layers import humidity as share  # noqa: PLC0415 - as above
    from hivecalc.warmth.layers import temperature  # noqa: PLC0415 - as above

    air = (temperature(inside, "--inside"), share(humidity))
    moisture = wood.moisture_given(made, "made") if made else wood.moisture_in_air(*air)
    kind, place = wood.species_named(species), wood.climate_named(climate)
    return call.show(Year(call.hive, kind, place, moisture).report)


@command(
    "book",
    FILE,
    SET,
    path_option(
        "--yard", "yard_file",
        said="Your yard file; if not given, my-yard.toml beside FILE, or the invented yard.",
    ),
    path_option(
        "--plan", "plan_file",
        said="Show this plan, which the command plan wrote for this one hive.",
    ),
    OUT,
    click.option(
        "--paper", "sheet", type=click.Choice(get_args(Paper)),
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
    from hivecalc.cli.planning import plan_of_one, yard_for  # noqa: PLC0415 - slow to load
    from hivecalc.reports.book import book, book_paths, written_book  # noqa: PLC0415 - as above
    from hivecalc.reports.sizes import usual_paper  # noqa: PLC0415 - as above

    hive, file = call.hive, call.file
    paths = [call.out] if call.out else book_paths(file or Path("demo-hive.toml"))
    if any(path.suffix.lower() not in {".html", ".pdf"} for path in paths):
        raise misused("--out names a file that ends with .html or .pdf")
    made = plan_of_one(plan_file, hive) if plan_file else None
    yard = yard_for(yard_file, file, hive.units)
    made_book = book(hive, date.today().isoformat(), yard, made=made)  # noqa: DTZ011 - the reader's day
    for path in paths:
        write(path, written_book(made_book, path, sheet or usual_paper(hive.units)))
    return DONE
