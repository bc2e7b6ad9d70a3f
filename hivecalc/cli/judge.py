"""The command `judge`."""

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import Final

import click

from hivecalc.cli.names import derived_name
from hivecalc.cli.shared import (
    ANSWER_IS_NO,
    DONE,
    FORMAT,
    INPUT_AT_FAULT,
    OUT,
    SET,
    commands,
    examples,
    misused,
    opened,
    options,
    settings_of,
    tell,
    warn,
)
from hivecalc.components import values
from hivecalc.hive import Hive
from hivecalc.length import LengthError, length_from_text, likely_meant, with_unit
from hivecalc.tables import csv_text, json_text

_END_OF_LENGTH: Final = re.compile(r"""[0-9]+/[0-9]+["″]?|in|inch|inches|mm|cm""")
_BELOW_NOTHING: Final = re.compile(r"-[^A-Za-z-]")
_SHIELD: Final = "\0"  # no word from a shell has it


class _WithAnswers(click.Command):
    """A command to which -1/8 is a word like any other, and no option."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        shielded = [_SHIELD + word if _BELOW_NOTHING.match(word) else word for word in args]
        return super().parse_args(ctx, shielded)


@commands.command(
    "judge",
    cls=_WithAnswers,
    epilog=examples(
        'hivecalc judge panel_width "14 1/8"',
        'hivecalc judge "side rail length" "549.3 mm" my-hive.toml',
        'hivecalc judge panel_width "15 5/8" --carry "opening_width=15 7/8"',
        'hivecalc judge rim_length "23 1/8" --set "hive_length=22 5/8" --format json',
        "hivecalc judge front_rail_length --chain hive_width=1 --chain stud_thickness=-2",
        "hivecalc judge --answers class.csv my-hive.toml --format csv",
    ),
)
@click.argument("words", nargs=-1, metavar="DIMENSION [ANSWER] [FILE]")
@options(SET, FORMAT, OUT)
@click.option(
    "--carry",
    multiple=True,
    metavar="DIMENSION=ANSWER",
    callback=settings_of,
    help='An earlier answer to go on from, like "opening_width=14 3/8"; may be repeated.',
)
@click.option(
    "--chain",
    multiple=True,
    metavar="NAME=COUNT",
    callback=settings_of,
    help='How often one size counts, like "stud_thickness=-2"; may be repeated. The chain of them '
    "is judged, and ANSWER, if there is one, as the sum of that chain.",
)
@click.option(
    "--answers",
    metavar="PATH",
    type=click.Path(path_type=Path),
    help="Judge every row of this file instead: CSV with the columns dimension and answer, and if "
    "you like learner and carry; or the same as JSON.",
)
def judge_command(  # noqa: PLR0913, PLR0917 - one argument an option
    words: tuple[str, ...],
    settings: Mapping[str, str],
    form: str,
    out: Path | None,
    carry: Mapping[str, str],
    chain: Mapping[str, str],
    answers: Path | None,
) -> int:
    """Say whether ANSWER is right for DIMENSION and, if not, where to look again.

    With --answers no DIMENSION and no ANSWER is named. The exit status is 0 if every answer is
    right and 1 if not; it is 2 if something can't be judged. An answer that can't be read is judged
    as not right.
    """
    if chain:
        if carry or answers:
            raise misused("--chain goes with one dimension, and neither --carry nor --answers")
        return _judge_chain(words, settings, chain, form, out)
    asked, file = _asked(words, 0 if answers else 2)
    hive = opened(file, settings)
    if answers is None:
        return _judge_answer(hive, asked, carry, form, out)
    if carry:
        raise misused("--carry goes with one answer; in a file, write a column named carry")
    return _judge_file(hive, answers, form, out)


def _asked(words: Sequence[str], count: int) -> tuple[Sequence[str], Path | None]:
    """Return so many words, and the hive file that may be named after them."""
    words = [word.removeprefix(_SHIELD) for word in words]
    asked, rest = words[:count], words[count:]
    if len(asked) < count or len(rest) > 1 or any(map(_END_OF_LENGTH.fullmatch, rest)):
        expected = (
            'a dimension, an answer in quotes like "14 1/8", and' if count else "with --answers"
        )
        raise misused(f"Write {expected} at most one hive file")
    return asked, Path(*rest) if rest else None


def _judge_answer(
    hive: Hive, asked: Sequence[str], carry: Mapping[str, str], form: str, out: Path | None
) -> int:
    from hivecalc.judging import verdict, verdict_json  # noqa: PLC0415 - slips load slowly
    from hivecalc.tables.judge import verdict_table, verdict_text  # noqa: PLC0415 - the same

    earlier = {derived_name(name, hive): text for name, text in carry.items()}
    for note in _taken_as_written(hive, earlier):
        warn(note)
    dimension, answer = asked
    found = verdict(hive, derived_name(dimension, hive), answer, earlier)
    forms = {
        "text": lambda: verdict_text(found),
        "json": lambda: json_text(verdict_json(found)),
        "csv": lambda: csv_text(verdict_table([found])),
    }
    tell(forms[form](), out)
    return DONE if found.right else ANSWER_IS_NO


def _judge_chain(
    words: Sequence[str],
    settings: Mapping[str, str],
    counts: Mapping[str, str],
    form: str,
    out: Path | None,
) -> int:
    from hivecalc.cli.chain import chain_of_words, chain_told  # noqa: PLC0415 - slips load slowly

    has_answer = len(words) > 1 and not words[1].endswith(".toml")
    (dimension, *answer), file = _asked(words, 2 if has_answer else 1)
    hive = opened(file, settings)
    found = chain_of_words(hive, dimension, counts)
    text, right = chain_told(hive, found, answer[0] if answer else None, form)
    tell(text, out)
    return DONE if right else ANSWER_IS_NO


def _taken_as_written(hive: Hive, earlier: Mapping[str, str]) -> Iterator[str]:
    """What to know of earlier answers that were likelier meant to say something else."""
    sizes = values(hive)
    for name, text in earlier.items():
        try:
            meant = likely_meant(text, sizes[name], hive.units)
        except LengthError:  # it carries nothing
            continue
        if meant is not None:
            read = with_unit(hive.units, length_from_text(text, hive.units))
            spaced = with_unit(hive.units, meant)
            yield f"{text} is taken as written, {read}; with a space it would be {spaced}."


def _judge_file(hive: Hive, answers: Path, form: str, out: Path | None) -> int:
    from hivecalc.answers import rows_in  # noqa: PLC0415 - slips load slowly
    from hivecalc.tables.judge import Tally, judged_rows, told  # noqa: PLC0415 - the same

    tally, named = Tally(), partial(derived_name, hive=hive)
    rows = judged_rows(hive, rows_in(answers), named, str(answers))
    pieces = told(tally.counted(rows, warn), tally, form)
    if out is None:
        for piece in pieces:
            click.echo(piece.encode(), nl=False)
    else:
        tell("".join(pieces), out)
    if tally.damaged:
        return INPUT_AT_FAULT
    return DONE if tally.all_right else ANSWER_IS_NO
