"""The commands `fit` and `check`: what is planned, and what was cut."""

from collections.abc import Mapping
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, cast

import click

from hivecalc.cli.shared import ANSWER, FILE, GRID, Call, Whole, command, misused, settings_of
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.hive.hive import value_of
from hivecalc.length import MARKS, Grid, Length
from hivecalc.support.faults import RefusedError, quoted

if TYPE_CHECKING:
    from hivecalc.as_built import Care, Habit


@command(
    "fit",
    FILE,
    click.option(
        "--trial",
        "hives",
        type=Whole(),
        metavar="N",
        help="Build N hives by chance: how many fail.",
    ),
    click.option(
        "--care",
        multiple=True,
        metavar="KIND=LENGTH",
        callback=settings_of,
        help="How far off a cut, rip, tape or plane is, more or less; may be repeated.",
    ),
    click.option(
        "--habit",
        metavar="HABIT",
        default="frame",
        show_default=True,
        help="frame: cut panel, screen and runners to the measured frame; plan; block: one stop "
        "too.",
    ),
    click.option(
        "--seed", type=Whole(), default=1, show_default=True, help="Which hives are built."
    ),
    *ANSWER,
    calls=(
        "hivecalc fit",
        'hivecalc fit my-hive.toml --set "strip_wide=7/8"',
        "hivecalc fit my-hive.toml --trial 10000 --care cut=1/16 --habit plan",
        "hivecalc fit my-hive.toml --format json",
    ),
)
def fit_command(
    call: Call, hives: int | None, care: Mapping[str, str], habit: str, seed: int
) -> int:
    """Check whether it goes together and bees will use it.

    The exit status is 0 if every rule holds that matters, and 1 if not.
    """
    from hivecalc.as_built.trial import trial  # noqa: PLC0415 - the rules load slowly
    from hivecalc.reports.fit import fit_report  # noqa: PLC0415 - as above

    if hives is None and care:
        raise misused("--care belongs to a trial; give --trial N too")
    made = partial(trial, call.hive, _care(call.hive, care), cast("Habit", habit), seed=seed)
    return call.show(fit_report(call.hive, None if hives is None else made(hives=hives)))


def _care(hive: Hive, given: Mapping[str, str]) -> "Care":
    """The care of a call: what is usual, and what was given."""
    from hivecalc.as_built import KINDS, OFF_BY, usual_care  # noqa: PLC0415 - rules load slowly

    amounts: dict[str, Length] = {}
    faults = []
    for kind, text in given.items():
        if kind not in KINDS:
            found = f"{quoted(kind)} isn't a kind of work"
            faults.append(Fault("--care", found, f"write {', '.join(KINDS)}"))
            continue
        try:
            amounts[kind] = value_of(OFF_BY, text, hive.units)
        except RefusedError as error:
            faults.append(Fault(f"--care {kind}", *error.args))
    if faults:
        raise HiveFaults(faults)
    return usual_care(hive).with_amounts(amounts)


@command(
    "check",
    FILE,
    click.argument("pieces", required=False, type=click.Path(path_type=Path)),
    click.option(
        "--piece",
        "given",
        multiple=True,
        metavar="NAME=LENGTH",
        callback=settings_of,
        help="A size of a piece as you cut it; several pieces between commas; may be repeated.",
    ),
    GRID,
    *ANSWER,
    calls=(
        "hivecalc check my-hive.toml pieces.toml",
        'hivecalc check my-hive.toml --piece "bottom_board.side_rail_length=21 1/2, 21 7/16"',
        "hivecalc check my-hive.toml pieces.toml --format json",
    ),
)
def check_command(
    call: Call, pieces: Path | None, given: Mapping[str, str], grid: Grid | None
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
    from hivecalc.reports.fit import check_report  # noqa: PLC0415 - as above

    hive = call.hive
    if not pieces and not given:
        raise misused("nothing was measured; name a file of PIECES, or give --piece NAME=LENGTH")
    read = pieces_from_file(pieces, hive) if pieces else Pieces({})
    read = Pieces({**read.readings, **pieces_given(given, hive).readings}, read.frame)
    frame = check_frame(hive, read.frame) if read.frame else None
    marks = grid or MARKS[hive.units]
    return call.show(check_report(hive, check(hive, read.readings), frame, marks))
