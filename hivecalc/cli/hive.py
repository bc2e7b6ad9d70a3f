"""The commands `new`, `parts` and `explain`: a hive file, its pieces, where a size comes from."""

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Final

import click

from hivecalc.cli.shared import (
    ANSWER,
    DONE,
    FILE,
    GRID,
    PATH,
    SET,
    Call,
    command,
    component_of,
    dimension_name,
    misused,
)
from hivecalc.components import built, checked
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
from hivecalc.reports.sizes import parts_report, size_report
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
    return call.show(size_report(call.hive, dimension_name(dimension, call.hive), grid))
