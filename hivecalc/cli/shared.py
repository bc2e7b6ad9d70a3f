"""What the commands share: their options, their exit status, how an answer is told."""

import shutil
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Final, TypeVar, get_args

import click

from hivecalc import __version__
from hivecalc.components import notes, opened_hive
from hivecalc.hive import Hive, write_whole
from hivecalc.length import GRIDS, Grid
from hivecalc.paper import Paper
from hivecalc.tables import harmless

DONE: Final = 0
ANSWER_IS_NO: Final = 1
INPUT_AT_FAULT: Final = 2
INTERRUPTED: Final = 130  # as a shell has it after Ctrl-C
FORMATS: Final = ("text", "json", "csv")
DRAWN: Final = (*FORMATS, "svg", "pdf")
F = TypeVar("F", bound=Callable[..., object])


def settings_of(_: click.Context, option: click.Parameter, given: Sequence[str]) -> dict[str, str]:
    """Return what is set, by name."""
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


def examples(*lines: str) -> str:
    """Return calls as the end of a help text, in which click keeps each on its line."""
    return "\n  ".join(("\b\nExamples:", *lines))


def options(*listed: Callable[[F], F]) -> Callable[[F], F]:
    """Return a decorator that gives a command these options, in this order."""

    def given(command: F) -> F:
        for option in reversed(listed):
            command = option(command)
        return command

    return given


FILE: Final = click.argument("file", required=False, type=click.Path(path_type=Path))
SET: Final = click.option(
    "--set",
    "settings",
    multiple=True,
    metavar="NAME=LENGTH",
    callback=settings_of,
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
FORMAT_OR_DRAWN: Final = click.option(
    "--format", "form", type=click.Choice(DRAWN), default="text", show_default=True,
    help="Form of the answer: svg is one picture, pdf is pages to print.",
)  # fmt: skip
PAPER: Final = click.option(
    "--paper", type=click.Choice(get_args(Paper)), default="a4", show_default=True,
    help="Paper to print a PDF on.",
)  # fmt: skip
OUT: Final = click.option(
    "--out",
    metavar="PATH",
    type=click.Path(path_type=Path),
    help="Write the answer to this file instead, whole or not at all.",
)


def across(out: Path | None) -> int | None:
    """Return how many characters go across the terminal; None where none is written to."""
    if out is not None or not sys.stdout.isatty():
        return None
    return shutil.get_terminal_size().columns


def tell(answer: str | bytes, out: Path | None) -> None:
    """Write an answer to standard output, or to a file, whole or not at all."""
    if out is None:
        click.echo(answer.encode() if isinstance(answer, str) else answer, nl=False)
    else:
        write_whole(out, answer)
        click.echo(f"Wrote {harmless(str(out))}.")


def needs_a_file(form: str, out: Path | None) -> None:
    """Refuse to write a PDF on a terminal, where it can only be harm."""
    if form == "pdf" and out is None and sys.stdout.isatty():
        raise misused("a PDF can't be read on a terminal; give --out PATH.pdf")


def misused(found: str) -> click.UsageError:
    """Return the fault of a call that asks for what does not go together."""
    return click.UsageError(found, click.get_current_context())


def opened(file: Path | None, settings: Mapping[str, str]) -> Hive:
    """Return the hive that a command is asked about; choices in it that disagree are told once."""
    hive = opened_hive(file, settings)
    for sentence in notes(hive):
        warn(sentence)
    return hive


def warn(sentence: str) -> None:
    """Tell a sentence on standard error."""
    click.echo(harmless(sentence), err=True)


@click.group(
    context_settings={"help_option_names": ["-h", "--help"]},
    epilog=examples(
        "hivecalc open                        the lessons, in your browser",
        "hivecalc new my-hive.toml            a hive file to fill in",
        "hivecalc parts my-hive.toml          the pieces to cut",
        "hivecalc explain panel_width         where a size comes from",
        "hivecalc fit my-hive.toml            will it go together?",
        "hivecalc shop my-hive.toml           what to buy, and what it costs",
        "hivecalc cut my-hive.toml            how to cut boards and sheets",
        "hivecalc saw my-hive.toml            how to set the saw",
        "hivecalc warmth my-hive.toml         how much heat it loses, and where",
        "hivecalc wood my-hive.toml           how its gaps move through a year",
        'hivecalc judge panel_width "14 1/8"  is it right, and if not, where to look',
    ),
)
@click.version_option(__version__, prog_name="hivecalc")
def commands() -> None:
    """Work out an insulated beehive from your own measurements.

    FILE is a hive file; without one, an invented demo hive is used. Lengths are written like
    23 1/8, 23.125 or 587.4 mm.
    """
