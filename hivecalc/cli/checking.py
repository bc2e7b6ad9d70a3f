"""The commands `fit`, `check` and `judge`: what is planned, what was cut, what is answered."""

import re
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Final, cast

import click

from hivecalc.cli.shared import (
    ANSWER,
    ANSWER_IS_NO,
    DONE,
    FILE,
    GRID,
    INPUT_AT_FAULT,
    PATH,
    Call,
    command,
    derived_name,
    dimension_name,
    misused,
    named_option,
    path_option,
    tell,
    warn,
)
from hivecalc.components import DIMENSIONS, values
from hivecalc.derivation import kind_of
from hivecalc.document import Report
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.hive.hive import value_of
from hivecalc.length import (
    MARKS,
    Grid,
    Length,
    LengthError,
    length_from_text,
    likely_meant,
    with_unit,
)
from hivecalc.support.faults import RefusedError, quoted, raise_faults

if TYPE_CHECKING:
    from hivecalc.as_built import Care, Habit


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
    from hivecalc.reports.fit import fit_report  # noqa: PLC0415 - the rules load slowly

    if hives is None:
        if care:
            raise misused("--care belongs to a trial; give --trial N too")
        return call.show(fit_report(call.hive))
    from hivecalc.as_built.trial import trial  # noqa: PLC0415 - needs numpy

    usual = _care(call.hive, care)
    made = trial(call.hive, usual, cast("Habit", habit), hives=hives, seed=seed)
    return call.show(fit_report(call.hive, made))


def _care(hive: Hive, given: Mapping[str, str]) -> "Care":
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


# ── answers ─────────────────────────────────────────────────────────────────────────────────────

_END_OF_LENGTH: Final = re.compile(r"""[0-9]+/[0-9]+["″]?|in|inch|inches|mm|cm""")
_BELOW_NOTHING: Final = re.compile(r"-[^A-Za-z-]")
_COUNT: Final = re.compile(r"[+-]?[0-9]{1,4}(/2)?")
_SHIELD: Final = "\0"  # no word from a shell has it


class _WithAnswers(click.Command):
    """A command to which -1/8 is a word like any other, and no option."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        shielded = [_SHIELD + word if _BELOW_NOTHING.match(word) else word for word in args]
        return super().parse_args(ctx, shielded)


@command(
    "judge",
    click.argument("words", nargs=-1, metavar="DIMENSION [ANSWER] [FILE]"),
    *ANSWER,
    named_option(
        "--carry",
        like="DIMENSION=ANSWER",
        said='An earlier answer to go on from, like "opening_width=14 3/8"; may be repeated.',
    ),
    named_option(
        "--chain",
        like="NAME=COUNT",
        said='How often one size counts, like "stud_thickness=-2"; may be repeated. The chain of '
        "them is judged, and ANSWER, if there is one, as the sum of that chain.",
    ),
    path_option(
        "--answers",
        said="Judge every row of this file instead: CSV with the columns dimension and answer, and "
        "if you like learner and carry; or the same as JSON.",
    ),
    cls=_WithAnswers,
    calls=(
        'hivecalc judge panel_width "14 1/8"',
        'hivecalc judge "side rail length" "549.3 mm" my-hive.toml',
        'hivecalc judge panel_width "15 5/8" --carry "opening_width=15 7/8"',
        'hivecalc judge rim_length "23 1/8" --set "hive_length=22 5/8" --format json',
        "hivecalc judge front_rail_length --chain hive_width=1 --chain stud_thickness=-2",
        "hivecalc judge --answers class.csv my-hive.toml --format csv",
    ),
)
def judge_command(
    call: Call,
    words: tuple[str, ...],
    carry: Mapping[str, str],
    chain: Mapping[str, str],
    answers: Path | None,
) -> int:
    """Say whether ANSWER is right for DIMENSION and, if not, where to look again.

    With --answers no DIMENSION and no ANSWER is named. The exit status is 0 if every answer is
    right and 1 if not; it is 2 if something can't be judged. An answer that can't be read is judged
    as not right.
    """
    if chain and (carry or answers):
        raise misused("--chain goes with one dimension, and neither --carry nor --answers")
    if carry and answers:
        raise misused("--carry goes with one answer; in a file, write a column named carry")
    has_sum = len(words) > 1 and not words[1].endswith(".toml")
    count = 0 if answers else 1 + has_sum if chain else 2
    asked, file = _asked(words, count)
    call = replace(call, file=file)
    if answers:
        return _judge_file(call, answers)
    report = _chain if chain else _answer
    return call.show(report(call.hive, asked, chain or carry))


def _asked(words: Sequence[str], count: int) -> tuple[Sequence[str], Path | None]:
    """So many words, and the hive file that may be named after them."""
    words = [word.removeprefix(_SHIELD) for word in words]
    asked, rest = words[:count], words[count:]
    if len(asked) < count or len(rest) > 1 or any(map(_END_OF_LENGTH.fullmatch, rest)):
        expected = (
            'a dimension, an answer in quotes like "14 1/8", and' if count else "with --answers"
        )
        raise misused(f"Write {expected} at most one hive file")
    return asked, Path(*rest) if rest else None


# ── one answer ────────────────────────────────────────────────────────────────────────────────


def _answer(hive: Hive, asked: Sequence[str], carry: Mapping[str, str]) -> Report:
    from hivecalc.judging import verdict  # noqa: PLC0415 - slips load slowly
    from hivecalc.reports.judge import verdict_report  # noqa: PLC0415 - the same

    earlier = {derived_name(name, hive): text for name, text in carry.items()}
    for name, text in earlier.items():
        with suppress(LengthError):  # what can't be read carries nothing
            meant = likely_meant(text, values(hive)[name], hive.units)
            if meant is not None:
                read = with_unit(hive.units, length_from_text(text, hive.units))
                spaced = with_unit(hive.units, meant)
                warn(f"{text} is taken as written, {read}; with a space it would be {spaced}.")
    dimension, answer = asked
    return verdict_report(verdict(hive, derived_name(dimension, hive), answer, earlier))


# ── a chain ───────────────────────────────────────────────────────────────────────────────────


def _chain(hive: Hive, words: Sequence[str], counts: Mapping[str, str]) -> Report:
    """The report on a chain and its sum; raises HiveFaults for all that is wrong with it."""
    from hivecalc.judging.chain import chain_verdict, true_chain  # noqa: PLC0415 - slips load slowly
    from hivecalc.reports.judge import chain_report  # noqa: PLC0415 - the same

    asked = derived_name(words[0], hive)
    if true_chain(hive, asked) is None:
        found = "it is not a plain sum of sizes, so it has no chain"
        raise HiveFaults([Fault(asked, found, "judge its answer")])
    faults: list[Fault] = []
    chain: dict[str, Fraction] = {}
    for text, count in counts.items():
        try:
            name = dimension_name(text, hive)
            if kind_of(name, DIMENSIONS.dimensions) != "length":
                faults.append(Fault(name, "it is not a length", "a chain is made of lengths"))
            if name in chain:
                faults.append(Fault(name, "it is given twice", "give it once"))
            chain[name] = _count(text, count)
        except HiveFaults as error:
            faults += error.faults
    raise_faults(iter(faults), "--chain")
    if not any(chain.values()):
        found = "there is nothing in this chain"
        raise HiveFaults([Fault("--chain", found, "count at least one size")])
    return chain_report(hive, chain_verdict(hive, asked, chain), words[1] if words[1:] else None)


def _count(name: str, text: str) -> Fraction:
    from hivecalc.judging.chain import MOST_COUNT  # noqa: PLC0415 - slips load slowly

    found = text.strip().replace("−", "-")
    if _COUNT.fullmatch(found):
        count = Fraction(found)
        if abs(count) <= MOST_COUNT:
            return count
    accepted = f"write a number from -{MOST_COUNT} to {MOST_COUNT}, like -2, 1 or 1/2"
    raise HiveFaults([Fault(f"--chain {name}", f"{quoted(text)} is not a count", accepted)])


# ── a file of answers ─────────────────────────────────────────────────────────────────────────


def _judge_file(call: Call, answers: Path) -> int:
    from hivecalc.reports.judge import JudgedFile  # noqa: PLC0415 - slips load slowly

    judged = JudgedFile.of(call.hive, answers, partial(derived_name, hive=call.hive))
    for sentence in judged.warnings:
        warn(sentence)
    tell(judged.written(call.form), call.out)
    if judged.faults:
        return INPUT_AT_FAULT
    return DONE if all(found.right for _, found in judged.rows) else ANSWER_IS_NO
