"""The commands: `hivecalc open`, `new`, `parts`, `explain`, `fit` and `judge`.

Exit status: 0 done; 1 the answer is no; 2 the input is at fault, with one sentence a fault on
standard error and nothing written.
"""

import os
import re
import shutil
import sys
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Final, NoReturn, TypeVar

import click

from hivecalc import __version__
from hivecalc.components import COURSE, checked, opened_hive, parts, values
from hivecalc.derivation import UnknownNameError, nearest_names
from hivecalc.hive import (
    BOX_SIZES,
    HIVE_SIZES,
    MEASUREMENTS,
    Fault,
    Hive,
    HiveFaults,
    changed,
    demo_hive,
    hive_text,
    write_whole,
)
from hivecalc.length import GRIDS, LONGEST, Grid
from hivecalc.tables import (
    csv_text,
    explain_json,
    explain_table,
    explain_text,
    explanation,
    fit_table,
    fit_text,
    harmless,
    json_text,
    parts_json,
    parts_table,
    parts_text,
    usual_grid,
)

DONE: Final = 0
ANSWER_IS_NO: Final = 1
INPUT_AT_FAULT: Final = 2
INTERRUPTED: Final = 130  # as a shell has it after Ctrl-C
FORMATS: Final = ("text", "json", "csv")
FIRST_SIZES: Final = """\
# hive_length and hive_width below are those of a demo hive, which is invented.
# Measure your own hive and write its sizes in their place.

"""
F = TypeVar("F", bound=Callable[..., object])

# ── what the commands share ───────────────────────────────────────────────────────────────────


def _settings(_: click.Context, option: click.Parameter, given: Sequence[str]) -> dict[str, str]:
    found: dict[str, str] = {}
    for text in given:
        name, sign, length = text.partition("=")
        if not sign:
            raise click.BadParameter(
                f'{text!r} is not {option.metavar}, like "hive_length=22 1/2".'
            )
        if name.strip() in found:
            raise click.BadParameter(f"{name!r} is given twice; give it once.")
        found[name.strip()] = length
    return found


def _grid(_: click.Context, __: click.Parameter, given: str | None) -> Grid | None:
    if given is None:
        return None
    written = {name.replace(" ", ""): grid for name, grid in GRIDS.items()}
    short = {name.removesuffix("in"): grid for name, grid in written.items()}
    found = (short | written).get(given.replace(" ", ""))
    if found is None:
        raise click.BadParameter(f"{given!r} is no grid; write one of {', '.join(GRIDS)}.")
    return found


def _examples(*lines: str) -> str:
    """Return calls as the end of a help text, in which click keeps each on its line."""
    return "\n  ".join(("\b\nExamples:", *lines))


def _options(*options: Callable[[F], F]) -> Callable[[F], F]:
    """Return a decorator that gives a command these options, in this order."""

    def given(command: F) -> F:
        for option in reversed(options):
            command = option(command)
        return command

    return given


FILE: Final = click.argument("file", required=False, type=click.Path(path_type=Path))
SET: Final = click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="NAME=LENGTH",
    callback=_settings,
    help='Set a measurement for this call, like "stud_thickness=1 9/16"; may be repeated.',
)
GRID: Final = click.option(
    "--grid",
    metavar="STEP",
    callback=_grid,
    help=f"Step to round to: {', '.join(GRIDS)}; 1/16 in, or 1 mm for a hive in mm, if not given.",
)
FORMAT: Final = click.option(
    "--format", "form", type=click.Choice(FORMATS), default="text", show_default=True,
    help="Form of the answer.",
)  # fmt: skip
OUT: Final = click.option(
    "--out",
    metavar="PATH",
    type=click.Path(path_type=Path),
    help="Write the answer to this file instead, whole or not at all.",
)


def _across(out: Path | None) -> int | None:
    """Return how many characters go across the terminal; None where none is written to."""
    if out is not None or not sys.stdout.isatty():
        return None
    return shutil.get_terminal_size().columns


def _tell(text: str, out: Path | None) -> None:
    if out is None:
        click.echo(text.encode(), nl=False)
    else:
        write_whole(out, text)
        click.echo(f"Wrote {harmless(str(out))}.")


@click.group(
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog=_examples(
        "hivecalc open                        the lessons, in your browser",
        "hivecalc new my-hive.toml            a hive file to fill in",
        "hivecalc parts my-hive.toml          the pieces to cut",
        "hivecalc explain panel_width         where a size comes from",
        "hivecalc fit my-hive.toml            will it go together?",
        'hivecalc judge panel_width "14 1/8"  is it right, and if not, where to look',
    ),
)
@click.version_option(__version__, prog_name="hivecalc")
def commands() -> None:
    """Work out an insulated beehive from your own measurements.

    FILE is a hive file; without one, an invented demo hive is used. Lengths are written like
    23 1/8, 23.125 or 587.4 mm.
    """


# ── parts ─────────────────────────────────────────────────────────────────────────────────────


@commands.command(
    "parts",
    epilog=_examples(
        "hivecalc parts",
        "hivecalc parts my-hive.toml --component roof",
        'hivecalc parts --set "hive_length=22 1/2" --set hive_width=16',
        'hivecalc parts my-hive.toml --grid "1/32 in"',
        "hivecalc parts my-hive.toml --format csv --out parts.csv",
    ),
)
@_options(FILE, SET, GRID, FORMAT, OUT)
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
    hive = opened_hive(file, settings)
    pieces = parts(hive, component=component and _plain(component))
    marks = grid or usual_grid(hive.units)
    forms = {
        "text": lambda: parts_text(hive, pieces, marks, _across(out)),
        "json": lambda: json_text(parts_json(hive, pieces, marks)),
        "csv": lambda: csv_text(parts_table(hive, pieces, marks)),
    }
    _tell(forms[form](), out)
    return DONE


def _plain(name: str) -> str:
    """Return a name as it is known, from one in words."""
    return name.strip().lower().replace(" ", "_").replace("-", "_")


# ── explain ───────────────────────────────────────────────────────────────────────────────────


@commands.command(
    "explain",
    epilog=_examples(
        "hivecalc explain bottom_board.side_rail_length",
        'hivecalc explain "panel width" my-hive.toml',
        'hivecalc explain roof.slope --set "stud_width=3 3/8"',
        "hivecalc explain way_in --format json",
    ),
)
@click.argument("dimension")
@_options(FILE, SET, GRID, FORMAT, OUT)
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
    hive = opened_hive(file, settings)
    told = explanation(hive, _dimension_name(dimension, hive))
    marks = grid or usual_grid(hive.units)
    forms = {
        "text": lambda: explain_text(hive, told, marks),
        "json": lambda: json_text(explain_json(told, marks)),
        "csv": lambda: csv_text(explain_table(told, marks)),
    }
    _tell(forms[form](), out)
    return DONE


def _dimension_name(text: str, hive: Hive) -> str:
    """Return the full name of a dimension or measurement of this hive."""
    name, known = _plain(text), values(hive)
    same = [name] if name in known else _named_so({name}, known)
    if not same:
        raise HiveFaults([_unknown_name(name, hive)])
    if len(same) > 1:
        found = f"{len(same)} dimensions have this name"
        raise HiveFaults([Fault(name, found, f"write {' or '.join(same)}")])
    return same[0]


def _named_so(names: Collection[str], known: Iterable[str]) -> list[str]:
    """Return the full names among the known ones that are these names without a component."""
    return [n for n in known if n.rpartition(".")[2] in names]


def _unknown_name(name: str, hive: Hive) -> Fault:
    known = {**COURSE.dimensions, **MEASUREMENTS}
    for unbuilt in [name] if name in known else _named_so({name}, known):
        found = f"this hive has no {unbuilt.rpartition('.')[0] or name}"
        return Fault(name, found, "give a box or frames, in the hive file or with --set frames=10")
    short = nearest_names(name, {n.rpartition(".")[2] for n in values(hive)})
    near = nearest_names(name, values(hive)) if "." in name else _named_so(short, values(hive))
    accepted = f"did you mean {' or '.join(near)}" if near else "hivecalc parts lists the parts"
    return Fault(name[:LONGEST], "there is no dimension of this name", accepted)


# ── fit ───────────────────────────────────────────────────────────────────────────────────────


@commands.command(
    "fit",
    epilog=_examples(
        "hivecalc fit",
        'hivecalc fit my-hive.toml --set "strip_wide=7/8"',
        "hivecalc fit my-hive.toml --format json",
    ),
)
@_options(FILE, SET, FORMAT, OUT)
def fit_command(file: Path | None, settings: Mapping[str, str], form: str, out: Path | None) -> int:
    """Check whether it goes together and bees will use it.

    The exit status is 0 if every rule holds that matters, and 1 if not.
    """
    from hivecalc.fit import findings, fit_json, holds  # noqa: PLC0415 - the rules load slowly

    hive = opened_hive(file, settings)
    found = findings(hive)
    forms = {
        "text": lambda: fit_text(hive, found, _across(out)),
        "json": lambda: json_text(fit_json(hive)),
        "csv": lambda: csv_text(fit_table(hive, found)),
    }
    _tell(forms[form](), out)
    return DONE if holds(found) else ANSWER_IS_NO


# ── judge ─────────────────────────────────────────────────────────────────────────────────────

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
    epilog=_examples(
        'hivecalc judge panel_width "14 1/8"',
        'hivecalc judge "side rail length" "549.3 mm" my-hive.toml',
        'hivecalc judge panel_width "15 5/8" --carry "opening_width=15 7/8"',
        'hivecalc judge rim_length "23 1/8" --set "hive_length=22 5/8" --format json',
        "hivecalc judge --answers class.csv my-hive.toml --format csv",
    ),
)
@click.argument("words", nargs=-1, metavar="DIMENSION ANSWER [FILE]")
@_options(SET, FORMAT, OUT)
@click.option(
    "--carry",
    multiple=True,
    metavar="DIMENSION=ANSWER",
    callback=_settings,
    help='An earlier answer to go on from, like "opening_width=14 3/8"; may be repeated.',
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
    answers: Path | None,
) -> int:
    """Say whether ANSWER is right for DIMENSION and, if not, where to look again.

    With --answers no DIMENSION and no ANSWER is named. The exit status is 0 if every answer is
    right and 1 if not; it is 2 if something can't be judged. An answer that can't be read is judged
    as not right.
    """
    asked, file = _asked(words, 0 if answers else 2)
    hive = opened_hive(file, settings)
    if answers is None:
        return _judge_answer(hive, asked, carry, form, out)
    if carry:
        raise _misused("--carry goes with one answer; in a file, write a column named carry")
    return _judge_file(hive, answers, form, out)


def _asked(words: Sequence[str], count: int) -> tuple[Sequence[str], Path | None]:
    """Return so many words, and the hive file that may be named after them."""
    words = [word.removeprefix(_SHIELD) for word in words]
    asked, rest = words[:count], words[count:]
    if len(asked) < count or len(rest) > 1 or any(map(_END_OF_LENGTH.fullmatch, rest)):
        expected = (
            'a dimension, an answer in quotes like "14 1/8", and' if count else "with --answers"
        )
        raise _misused(f"Write {expected} at most one hive file")
    return asked, Path(*rest) if rest else None


def _misused(found: str) -> click.UsageError:
    return click.UsageError(found, click.get_current_context())


def _judge_answer(
    hive: Hive, asked: Sequence[str], carry: Mapping[str, str], form: str, out: Path | None
) -> int:
    from hivecalc.judging import verdict, verdict_json  # noqa: PLC0415 - slips load slowly
    from hivecalc.tables.judge import verdict_table, verdict_text  # noqa: PLC0415 - the same

    earlier = {_derived_name(name, hive): text for name, text in carry.items()}
    dimension, answer = asked
    found = verdict(hive, _derived_name(dimension, hive), answer, earlier)
    forms = {
        "text": lambda: verdict_text(found),
        "json": lambda: json_text(verdict_json(found)),
        "csv": lambda: csv_text(verdict_table([found])),
    }
    _tell(forms[form](), out)
    return DONE if found.right else ANSWER_IS_NO


def _judge_file(hive: Hive, answers: Path, form: str, out: Path | None) -> int:
    from hivecalc.answers import rows_in  # noqa: PLC0415 - slips load slowly
    from hivecalc.tables.judge import Tally, judged_rows, told  # noqa: PLC0415 - the same

    tally, named = Tally(), partial(_derived_name, hive=hive)
    rows = judged_rows(hive, rows_in(answers), named, str(answers))
    pieces = told(tally.counted(rows, _warn), tally, form)
    if out is None:
        for piece in pieces:
            click.echo(piece.encode(), nl=False)
    else:
        _tell("".join(pieces), out)
    if tally.damaged:
        return INPUT_AT_FAULT
    return DONE if tally.all_right else ANSWER_IS_NO


def _derived_name(text: str, hive: Hive) -> str:
    """Return the full name of a dimension of this hive that can be worked out."""
    name = _dimension_name(text, hive)
    if name not in COURSE.dimensions:
        found = "it is measured, so there is nothing to work out"
        raise HiveFaults([Fault(name, found, "name a dimension, like bottom_board.panel_width")])
    return name


def _warn(sentence: str) -> None:
    click.echo(harmless(sentence), err=True)


# ── new ───────────────────────────────────────────────────────────────────────────────────────


@commands.command(
    "new",
    epilog=_examples(
        "hivecalc new my-hive.toml",
        'hivecalc new my-hive.toml --set "hive_length=22 1/2" --set hive_width=16',
        "hivecalc new my-hive.toml --set frames=10",
    ),
)
@click.argument("file", type=click.Path(path_type=Path))
@SET
def new_command(file: Path, settings: Mapping[str, str]) -> int:
    """Write a new hive file, with a note on each line.

    A file that is there already is never overwritten.
    """
    if os.path.lexists(file):
        accepted = "choose another name, as nothing is ever overwritten"
        raise HiveFaults([Fault(str(file), "this file is there already", accepted)])
    write_whole(file, _new_text(settings))
    name = harmless(str(file))
    click.echo(f"Wrote {name}. Write your own measurements into it, then: hivecalc parts {name}")
    return DONE


def _new_text(settings: Mapping[str, str]) -> str:
    """Return a hive file's text, with the demo hive's size if no size is set."""
    sized = bool(settings.keys() & {*HIVE_SIZES, *BOX_SIZES, "frames"})
    start = replace(demo_hive(), name="My hive", measured={} if sized else demo_hive().measured)
    hive = checked(changed(start, settings)) if settings else start
    return ("" if sized else FIRST_SIZES) + hive_text(hive)


# ── open ──────────────────────────────────────────────────────────────────────────────────────


@commands.command(
    "open",
    epilog=_examples(
        "hivecalc open",
        "hivecalc open my-hive.toml",
        "hivecalc open --folder saturday-course",
        "hivecalc open --no-browser",
    ),
)
@FILE
@click.option(
    "--folder",
    metavar="PATH",
    type=click.Path(path_type=Path),
    help="Your course folder; hivecalc-course in your home folder if not given here or by the "
    "environment variable HIVECALC_COURSE.",
)
@click.option("--no-browser", is_flag=True, help="Only say the address, and open no browser.")
def open_command(file: Path | None, folder: Path | None, no_browser: bool) -> int:  # noqa: FBT001 - click hands it so
    """Open the lessons in your browser.

    The first time, your course folder is made, with copies of lessons, exercises and a hive file.
    Later, what is new is added, and what you have changed stays as you left it. FILE becomes the
    course's hive file my-hive.toml if there is none yet. Ctrl-C stops it.
    """
    from hivecalc import course_folder  # noqa: PLC0415 - only this command needs it

    if file is not None:
        opened_hive(file)
    course = course_folder.prepare(folder or course_folder.usual_folder(), file)
    browser = not no_browser and course_folder.shows_browser()
    click.echo("\n".join(map(harmless, course_folder.report(course, file))))
    status = course_folder.run_lab(
        course, lambda address: click.echo(address.told(browser=browser)), browser=browser
    )
    if status:
        found = f"it ended with status {status}"
        raise HiveFaults([Fault("JupyterLab", found, "what it said stands above")])
    return DONE


# ── the end of a command ──────────────────────────────────────────────────────────────────────


def main() -> NoReturn:
    """Run the command that the shell gave, and leave with its exit status."""
    sys.exit(exit_status(sys.argv[1:]))


def exit_status(arguments: Sequence[str]) -> int:
    """Run a command: its exit status, when all that it tells has been written."""
    try:
        with commands.make_context("hivecalc", list(arguments) or ["--help"]) as context:
            return int(commands.invoke(context))
    except click.exceptions.Exit as ending:  # help or the version was asked for
        return ending.exit_code
    except KeyboardInterrupt:
        return INTERRUPTED
    except OSError as error:
        return _told_output_fault(error)
    except (HiveFaults, UnknownNameError, click.ClickException) as error:
        for sentence in _sentences(error):
            click.echo(harmless(sentence), err=True)
        return INPUT_AT_FAULT


def _sentences(error: Exception) -> list[str]:
    if isinstance(error, HiveFaults):
        return [str(fault) for fault in error.faults]
    return [_sentence(error) if isinstance(error, click.ClickException) else str(error)]


def _sentence(error: click.ClickException) -> str:
    """Return one sentence for a call that click refused."""
    near = getattr(error, "possibilities", None)
    found = (error.message if near else error.format_message()).strip().rstrip(".")
    context = getattr(error, "ctx", None)
    command = context.command_path if context else "hivecalc"
    hint = f"did you mean {' or '.join(near)}?" if near else f"see {command} --help."
    return f"{' '.join(found.split())}; {hint}"


def _told_output_fault(error: OSError) -> int:
    """Tell that standard output broke; a reader that closed it has had enough."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    if isinstance(error, BrokenPipeError):
        return DONE
    reason = (error.strerror or str(error)).lower()
    click.echo(f"The answer could not be written: {reason}.", err=True)
    return INPUT_AT_FAULT
