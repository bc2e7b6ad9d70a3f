"""The commands `fit` and `check`: what is planned, and what was cut."""

from collections.abc import Mapping
from pathlib import Path
from typing import cast

import click

from hivecalc.as_built import (
    KINDS,
    OFF_BY,
    Care,
    Habit,
    Pieces,
    check,
    check_frame,
    pieces_from_file,
    pieces_given,
    usual_care,
)
from hivecalc.cli.shared import (
    ANSWER,
    FILE,
    GRID,
    PATH,
    Call,
    command,
    misused,
    named_option,
)
from hivecalc.hive import Fault, Hive
from hivecalc.hive.hive import value_of
from hivecalc.length import (
    MARKS,
    Grid,
    Length,
)
from hivecalc.reports.fit import check_report, fit_report
from hivecalc.support.faults import RefusedError, quoted, raise_faults


@command(
    "fit",
    FILE,
    click.option(
        "--trial",
        "hives",
        type=int,
        metavar="N",
        help="Build N hives by chance: how many fail.",
    ),
    named_option(
        "--care",
        like="KIND=LENGTH",
        said="How far off a cut, rip, tape or plane is, more or less; may be repeated.",
    ),
    click.option(
        "--habit",
        metavar="HABIT",
        default="frame",
        show_default=True,
        help="frame: cut panel, screen and runners to the measured frame; plan; block: one stop "
        "too.",
    ),
    click.option("--seed", type=int, default=1, show_default=True, help="Which hives are built."),
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
    if hives is None:
        if care:
            raise misused("--care belongs to a trial; give --trial N too")
        return call.show(fit_report(call.hive))
    from hivecalc.as_built.trial import trial  # noqa: PLC0415 - needs numpy

    usual = _care(call.hive, care)
    made = trial(call.hive, usual, cast("Habit", habit), hives=hives, seed=seed)
    return call.show(fit_report(call.hive, made))


def _care(hive: Hive, given: Mapping[str, str]) -> Care:
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
    raise_faults(iter(faults), "--care")
    return usual_care(hive).with_amounts(amounts)


@command(
    "check",
    FILE,
    click.argument("pieces", required=False, type=PATH),
    named_option(
        "--piece",
        "given",
        like="NAME=LENGTH",
        said="A size of a piece as you cut it; several pieces between commas; may be repeated.",
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
    hive = call.hive
    if not pieces and not given:
        raise misused("nothing was measured; name a file of PIECES, or give --piece NAME=LENGTH")
    read = pieces_from_file(pieces, hive) if pieces else Pieces({})
    read = Pieces({**read.readings, **pieces_given(given, hive).readings}, read.frame)
    frame = check_frame(hive, read.frame) if read.frame else None
    marks = grid or MARKS[hive.units]
    return call.show(check_report(hive, check(hive, read.readings), frame, marks))
