"""The commands `parts` and `explain`."""

from collections.abc import Mapping
from pathlib import Path

import click

from hivecalc.cli.names import dimension_name, plain
from hivecalc.cli.shared import (
    DONE,
    FILE,
    FORMAT,
    GRID,
    OUT,
    SET,
    across,
    commands,
    examples,
    opened,
    options,
    tell,
)
from hivecalc.components import parts
from hivecalc.length import Grid
from hivecalc.tables import (
    csv_text,
    explain_json,
    explain_table,
    explain_text,
    explanation,
    json_text,
    parts_json,
    parts_table,
    parts_text,
    usual_grid,
)


@commands.command(
    "parts",
    epilog=examples(
        "hivecalc parts",
        "hivecalc parts my-hive.toml --component roof",
        'hivecalc parts --set "hive_length=22 1/2" --set hive_width=16',
        'hivecalc parts my-hive.toml --grid "1/32 in"',
        "hivecalc parts my-hive.toml --format csv --out parts.csv",
    ),
)
@options(FILE, SET, GRID, FORMAT, OUT)
@click.option("--component", metavar="NAME", help="Only this component, like bottom_board.")
def parts_command(  # noqa: PLR0913, PLR0917 - one argument an option
    file: Path | None,
    settings: Mapping[str, str],
    grid: Grid | None,
    form: str,
    out: Path | None,
    component: str | None,
) -> int:
    """List the pieces to cut, with their sizes and what each is for."""
    hive = opened(file, settings)
    pieces = parts(hive, component=component and plain(component))
    marks = grid or usual_grid(hive.units)
    forms = {
        "text": lambda: parts_text(hive, pieces, marks, across(out)),
        "json": lambda: json_text(parts_json(hive, pieces, marks)),
        "csv": lambda: csv_text(parts_table(hive, pieces, marks)),
    }
    tell(forms[form](), out)
    return DONE


@commands.command(
    "explain",
    epilog=examples(
        "hivecalc explain bottom_board.side_rail_length",
        'hivecalc explain "panel width" my-hive.toml',
        'hivecalc explain roof.slope --set "stud_width=3 3/8"',
        "hivecalc explain way_in --format json",
    ),
)
@click.argument("dimension")
@options(FILE, SET, GRID, FORMAT, OUT)
def explain_command(  # noqa: PLR0913, PLR0917 - one argument an option
    dimension: str,
    file: Path | None,
    settings: Mapping[str, str],
    grid: Grid | None,
    form: str,
    out: Path | None,
) -> int:
    """Show how DIMENSION comes out of what was measured, step by step.

    DIMENSION is a component and a name, or the name alone where only one component has it.
    """
    hive = opened(file, settings)
    told = explanation(hive, dimension_name(dimension, hive))
    marks = grid or usual_grid(hive.units)
    forms = {
        "text": lambda: explain_text(hive, told, marks),
        "json": lambda: json_text(explain_json(told, marks)),
        "csv": lambda: csv_text(explain_table(told, marks)),
    }
    tell(forms[form](), out)
    return DONE
