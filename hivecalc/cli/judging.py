"""The command `judge`: one answer, a chain and its sum, or a file of answers."""

import re
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import Final

import click

from hivecalc.cli.shared import (
    ANSWER,
    ANSWER_IS_NO,
    DONE,
    INPUT_AT_FAULT,
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
from hivecalc.judging import verdict
from hivecalc.judging.chain import MOST_COUNT, chain_verdict, true_chain
from hivecalc.length import LengthError, length_from_text, likely_meant, with_unit
from hivecalc.reports.judge import JudgedFile, chain_report, verdict_report
from hivecalc.support.faults import quoted, raise_faults

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
    found = text.strip().replace("−", "-")
    if _COUNT.fullmatch(found):
        count = Fraction(found)
        if abs(count) <= MOST_COUNT:
            return count
    accepted = f"write a number from -{MOST_COUNT} to {MOST_COUNT}, like -2, 1 or 1/2"
    raise HiveFaults([Fault(f"--chain {name}", f"{quoted(text)} is not a count", accepted)])


# ── a file of answers ─────────────────────────────────────────────────────────────────────────


def _judge_file(call: Call, answers: Path) -> int:
    judged = JudgedFile.of(call.hive, answers, partial(derived_name, hive=call.hive))
    for sentence in judged.warnings:
        warn(sentence)
    tell(judged.written(call.form), call.out)
    if judged.faults:
        return INPUT_AT_FAULT
    return DONE if all(found.right for _, found in judged.rows) else ANSWER_IS_NO
