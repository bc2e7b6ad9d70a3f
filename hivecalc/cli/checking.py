"""The commands `fit` and `check`: what is planned, and what was cut."""

from collections.abc import Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, cast

import click

from hivecalc.cli.shared import (
    ANSWER_IS_NO,
    DONE,
    FILE,
    FORMAT,
    GRID,
    OUT,
    SET,
    across,
    commands,
    examples,
    misused,
    opened,
    options,
    settings_of,
    tell,
)
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.length import Grid, Length, LengthError, length_from_text
from hivecalc.tables import (
    check_json,
    check_table,
    check_text,
    csv_text,
    fit_table,
    fit_text,
    json_text,
    trial_json,
    trial_text,
    usual_grid,
)

if TYPE_CHECKING:
    from hivecalc.as_built import Care, Habit


@commands.command(
    "fit",
    epilog=examples(
        "hivecalc fit",
        'hivecalc fit my-hive.toml --set "strip_wide=7/8"',
        "hivecalc fit my-hive.toml --trial 10000 --care cut=1/16 --habit plan",
        "hivecalc fit my-hive.toml --format json",
    ),
)
@options(FILE, SET, FORMAT, OUT)
@click.option(
    "--trial", "hives", type=int, metavar="N", help="Build N hives by chance: how many fail."
)
@click.option(
    "--care",
    multiple=True,
    metavar="KIND=LENGTH",
    callback=settings_of,
    help="How far off a cut, rip, tape or plane is, more or less; may be repeated.",
)
@click.option(
    "--habit",
    metavar="HABIT",
    default="frame",
    show_default=True,
    help="frame: cut panel, screen and runners to the measured frame; plan; block: one stop too.",
)
@click.option("--seed", type=int, default=1, show_default=True, help="Which hives are built.")
def fit_command(  # noqa: PLR0913, PLR0917 - one argument an option
    file: Path | None,
    settings: Mapping[str, str],
    form: str,
    out: Path | None,
    hives: int | None,
    care: Mapping[str, str],
    habit: str,
    seed: int,
) -> int:
    """Check whether it goes together and bees will use it.

    The exit status is 0 if every rule holds that matters, and 1 if not.
    """
    from hivecalc.as_built import trial  # noqa: PLC0415 - the rules load slowly
    from hivecalc.fit import findings, fit_json, holds  # noqa: PLC0415 - as above

    hive = opened(file, settings)
    found = findings(hive)
    if hives is None and care:
        raise misused("--care belongs to a trial; give --trial N too")
    made = partial(trial, hive, _care(hive, care), cast("Habit", habit), seed=seed)
    tried = None if hives is None else made(hives=hives)
    forms = {
        "text": lambda: (
            fit_text(hive, found, across(out)) + (f"\n{trial_text(hive, tried)}" if tried else "")
        ),
        "json": lambda: json_text(fit_json(hive) | ({"trial": trial_json(tried)} if tried else {})),
        "csv": lambda: csv_text(fit_table(hive, found)),
    }
    tell(forms[form](), out)
    return DONE if holds(found) else ANSWER_IS_NO


def _care(hive: Hive, given: Mapping[str, str]) -> "Care":
    """The care of a call: what is usual, and what was given."""
    from hivecalc.as_built import KINDS, usual_care  # noqa: PLC0415 - the rules load slowly

    amounts: dict[str, Length] = {}
    faults = []
    for kind, text in given.items():
        if kind not in KINDS:
            found = f"{kind[:40]!a} isn't a kind of work"
            faults.append(Fault("--care", found, f"write {', '.join(KINDS)}"))
            continue
        try:
            amounts[kind] = length_from_text(text, hive.units)
        except LengthError as error:
            said, _, accepted = str(error).rstrip(".").rpartition("; ")
            faults.append(Fault(f"--care {kind}", said[:1].lower() + said[1:], accepted))
    if faults:
        raise HiveFaults(faults)
    return usual_care(hive).with_amounts(amounts)


@commands.command(
    "check",
    epilog=examples(
        "hivecalc check my-hive.toml pieces.toml",
        'hivecalc check my-hive.toml --piece "bottom_board.side_rail_length=21 1/2, 21 7/16"',
        "hivecalc check my-hive.toml pieces.toml --format json",
    ),
)
@options(FILE)
@click.argument("pieces", required=False, type=click.Path(path_type=Path))
@click.option(
    "--piece",
    "given",
    multiple=True,
    metavar="NAME=LENGTH",
    callback=settings_of,
    help="A size of a piece as you cut it; several pieces between commas; may be repeated.",
)
@options(SET, GRID, FORMAT, OUT)
def check_command(  # noqa: PLR0913, PLR0917 - one argument an option
    file: Path | None,
    pieces: Path | None,
    given: Mapping[str, str],
    settings: Mapping[str, str],
    grid: Grid | None,
    form: str,
    out: Path | None,
) -> int:
    """Put together what you cut: what fails, and what can be saved.

    PIECES is a TOML file of part names with one or more measured sizes. The exit status is 0 if
    every rule holds that matters, and 1 if not.
    """
    from hivecalc.as_built import (  # noqa: PLC0415 - the rules load slowly
        Pieces,
        check,
        check_frame,
        pieces_from_file,
        pieces_given,
    )

    hive = opened(file, settings)
    if not pieces and not given:
        raise misused("nothing was measured; name a file of PIECES, or give --piece NAME=LENGTH")
    read = pieces_from_file(pieces, hive) if pieces else Pieces({})
    read = Pieces({**read.readings, **pieces_given(given, hive).readings}, read.frame)
    frame = check_frame(hive, read.frame) if read.frame else None
    found, marks = check(hive, read.readings), grid or usual_grid(hive.units)
    forms = {
        "text": lambda: check_text(hive, found, frame, marks, across(out)),
        "json": lambda: json_text(check_json(found, frame, marks)),
        "csv": lambda: csv_text(check_table(hive, found, marks)),
    }
    tell(forms[form](), out)
    return DONE if found.holds and (frame is None or frame.holds) else ANSWER_IS_NO
