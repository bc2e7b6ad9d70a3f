"""The commands `new` and `open`."""

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Final

import click

from hivecalc.cli.shared import DONE, FILE, SET, Call, command, misused
from hivecalc.components import checked, opened_hive
from hivecalc.hive import (
    BOX_SIZES,
    HIVE_SIZES,
    Fault,
    Hive,
    HiveFaults,
    changed,
    demo_hive,
    hive_text,
    write_new,
)
from hivecalc.length import MM, UNITS, Units
from hivecalc.support.faults import escaped, quoted
from hivecalc.workshop.yard import yard_text

FIRST_IN_MM: Final = {"hive_length": 588 * MM, "hive_width": 442 * MM}
METRIC: Final = re.compile(r"[0-9] *(?:mm|cm|m) *$")
IN_INCHES: Final = re.compile(r"""[0-9] *(?:in|ft|["'″′]|/[0-9])""")

FIRST_SIZES: Final = """\
# hive_length and hive_width below are those of a demo hive, which is invented.
# Measure your own hive and write its sizes in their place.

"""

HIVE_NEXT: Final = "Write your own measurements into it, then: hivecalc parts"
YARD_NEXT: Final = "Write your yard's prices into it, then: hivecalc shop --yard"


@command(
    "new",
    click.argument("target", metavar="FILE", type=click.Path(path_type=Path)),
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
    name = escaped(str(target))
    click.echo(f"Wrote {name}. {YARD_NEXT if yard else HIVE_NEXT} {name}")
    return DONE


def _new_text(settings: Mapping[str, str]) -> str:
    """Return a hive file's text, with the demo hive's size if no size is set."""
    lengths = {name: text for name, text in settings.items() if name != "units"}
    units = _units(settings.get("units"), lengths)
    sized = bool(lengths.keys() & {*HIVE_SIZES, *BOX_SIZES, "frames"})
    first = FIRST_IN_MM if units == "mm" else demo_hive().measured
    start = Hive("My hive", units, {} if sized else first, {})
    hive = checked(changed(start, lengths)) if lengths else start
    return ("" if sized else FIRST_SIZES) + hive_text(hive)


def _units(asked: str | None, lengths: Mapping[str, str]) -> Units:
    """Return the units of a new file: those asked for, else mm where lengths are set in them."""
    if asked is None:
        metric = any(METRIC.search(text) for text in lengths.values())
        return "mm" if metric and not any(map(IN_INCHES.search, lengths.values())) else "inch"
    for units in UNITS:
        if asked.strip() == units:
            return units
    found = f"{quoted(asked.strip())} is not a unit of a hive file"
    raise HiveFaults([Fault("--set units", found, "write inch or mm")])


@command(
    "open",
    FILE,
    click.option(
        "--folder",
        metavar="PATH",
        type=click.Path(path_type=Path),
        help="Your course folder; hivecalc-course in your home folder if not given here or by the "
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
