"""What the commands share: their options, and the way from a call to what is shown of it."""

import shutil
import sys
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property, wraps
from importlib import import_module
from pathlib import Path
from typing import Any, Final, TypeAlias, TypeVar

import click

from hivecalc import __version__
from hivecalc.components import DIMENSIONS, built, notes, opened_hive, values
from hivecalc.derivation import nearest_names, title
from hivecalc.document import FORMS, Form, Paper, Report
from hivecalc.document.text import written
from hivecalc.hive import MEASUREMENTS, Fault, Hive, HiveFaults, write_whole
from hivecalc.length import GRIDS, LONGEST, Grid
from hivecalc.support.faults import escaped, quoted

DONE: Final = 0
ANSWER_IS_NO: Final = 1
INPUT_AT_FAULT: Final = 2
INTERRUPTED: Final = 130  # as a shell has it after Ctrl-C
F = TypeVar("F", bound=Callable[..., object])
Decorator: TypeAlias = Callable[[F], F]


# ── what an option accepts ────────────────────────────────────────────────────────────────────


def option_fault(option: click.Parameter, found: str, accepted: str) -> HiveFaults:
    """The fault of an option's value."""
    return HiveFaults([Fault(option.opts[0], found, accepted)])


def settings_of(_: click.Context, option: click.Parameter, given: Sequence[str]) -> dict[str, str]:
    """What is set, by name."""
    found: dict[str, str] = {}
    for text in given:
        name, sign, length = text.partition("=")
        if not sign:
            like = 'write it like "hive_length=22 1/2"'
            raise option_fault(option, f"{quoted(text)} is not {option.metavar}", like)
        if name.strip() in found:
            raise option_fault(option, f"{quoted(name)} is given twice", "give it once")
        found[name.strip()] = length
    return found


def _grid(_: click.Context, option: click.Parameter, given: str | None) -> Grid | None:
    if given is None:
        return None
    exact = {name.replace(" ", ""): grid for name, grid in GRIDS.items()}
    short = {name.removesuffix("in"): grid for name, grid in exact.items()}
    found = (short | exact).get(given.replace(" ", ""))
    if found is None:
        known = f"write one of {', '.join(GRIDS)}"
        raise option_fault(option, f"{quoted(given)} is not a step to round to", known)
    return found


PATH: Final = click.Path(path_type=Path)


def path_option(*names: str, said: str) -> Decorator[Any]:
    """An option that names a file or a folder."""
    return click.option(*names, metavar="PATH", type=PATH, help=said)


def named_option(*names: str, like: str, said: str) -> Decorator[Any]:
    """An option that sets something by its name, written like NAME=LENGTH; it may be repeated."""
    return click.option(*names, multiple=True, metavar=like, callback=settings_of, help=said)


FILE: Final = click.argument("file", required=False, type=PATH)
SET: Final = named_option(
    "--set", "settings", like="NAME=LENGTH",
    said='Set a measurement for this call, like "stud_thickness=1 9/16"; may be repeated.',
)  # fmt: skip
GRID: Final = click.option(
    "--grid",
    metavar="STEP",
    callback=_grid,
    help=f"Step to round to: {', '.join(GRIDS)}; 1/16 in, or 1 mm for a hive in mm, if not given.",
)
FORMAT: Final = click.option(
    "--format", "form", type=click.Choice(FORMS[:3]), default="text", show_default=True,
    help="Form of the answer.",
)  # fmt: skip
OUT: Final = path_option(
    "--out", said="Write the answer to this file instead, whole or not at all."
)


def examples(*lines: str) -> str:
    """Calls as the end of a help text, in which click keeps each on its line."""
    return "\n  ".join(("\b\nExamples:", *lines))


# ── the dimension that a word from the shell means ───────────────────────────────────────────


def name_from_words(name: str) -> str:
    """Return a name as it is known, from one in words."""
    return name.strip().lower().replace(" ", "_").replace("-", "_")


def dimension_name(text: str, hive: Hive) -> str:
    """Return the full name of a dimension or measurement of this hive."""
    name, known = name_from_words(text), _known(hive)
    same = [name] if name in known else _named_so({name}, known)
    if not same:
        raise HiveFaults([_unknown_name(name, hive)])
    if len(same) > 1:
        found = f"{len(same)} dimensions have this name"
        raise HiveFaults([Fault(name, found, f"write {' or '.join(same)}")])
    return same[0]


def _known(hive: Hive) -> list[str]:
    """Return the names of what is built for a hive: a formula may count with what it has not."""
    components, known = {"", *built(hive)}, {**DIMENSIONS.dimensions, **MEASUREMENTS}
    return [n for n in values(hive) if n in known and n.rpartition(".")[0] in components]


def _named_so(names: Collection[str], known: Iterable[str]) -> list[str]:
    """Return the full names among the known ones that are these names without a component."""
    return [n for n in known if n.rpartition(".")[2] in names]


def _unknown_name(name: str, hive: Hive) -> Fault:
    known = {**DIMENSIONS.dimensions, **MEASUREMENTS}
    if unbuilt := [name] if name in known else _named_so({name}, known):
        component = unbuilt[0].rpartition(".")[0]
        accepted = "give a box or frames, in the hive file or with --set frames=10"
        if component == "inner_cover":
            accepted = 'give inner_cover = "yes" in the hive file'
        return Fault(name, f"this hive has no {title(component or name)}", accepted)
    here = _known(hive)
    short = nearest_names(name, {n.rpartition(".")[2] for n in here})
    near = nearest_names(name, here) if "." in name else _named_so(short, here)
    accepted = f"perhaps you mean {' or '.join(near)}" if near else "hivecalc parts lists the parts"
    return Fault(name[:LONGEST], "there is no dimension of this name", accepted)


def derived_name(text: str, hive: Hive) -> str:
    """Return the full name of a dimension of this hive that can be worked out."""
    name = dimension_name(text, hive)
    if name not in DIMENSIONS.dimensions:
        found = "it is measured, so there is nothing to work out"
        raise HiveFaults([Fault(name, found, "name a dimension, like bottom_board.panel_width")])
    return name


def component_of(name: str | None, known: Iterable[str]) -> str | None:
    """The component that is asked for, of those that there are; None where all are."""
    if name is None or name_from_words(name) in known:
        return name and name_from_words(name)
    fault = f"no component is called {quoted(name)}"
    raise HiveFaults([Fault("--component", fault, f"name one of {', '.join(sorted(known))}")])


# ── from a call to what is shown ──────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Call:
    """What every command is asked: about which hive, in which form, and where to write it."""

    file: Path | None = None
    settings: Mapping[str, str] = field(default_factory=dict)
    form: Form = "text"
    out: Path | None = None
    paper: Paper = "a4"

    def __post_init__(self) -> None:
        """Refuse to write a PDF on a terminal, where it can only be harm."""
        if self.form == "pdf" and self.out is None and sys.stdout.isatty():
            raise misused("a PDF can't be read on a terminal; give --out PATH.pdf")

    @cached_property
    def hive(self) -> Hive:
        """The hive that is asked about; choices in it that disagree are pointed out once."""
        return opened(self.file, self.settings)

    def show(self, report: Report) -> int:
        """Show a report in the form that is asked for, and return the exit status."""
        on_terminal = self.out is None and sys.stdout.isatty()
        across = shutil.get_terminal_size().columns if on_terminal else None
        tell(written(report, self.form, across=across, paper=self.paper), self.out)
        return DONE if report.holds else ANSWER_IS_NO


ANSWER: Final = (SET, FORMAT, OUT)
"""What every command about one hive takes beside its own options."""


def command(
    name: str,
    *listed: Decorator[Any],
    calls: Sequence[str],
    kind: type[Call] = Call,
    cls: type[click.Command] = click.Command,
) -> Callable[[Callable[..., int]], click.Command]:
    """A decorator that makes a command of a function of a `Call` and of its own options.

    `listed` are the options of both in their order, `calls` the examples in its help.
    """

    def made(function: Callable[..., int]) -> click.Command:
        @wraps(function)
        def called(**given: Any) -> int:  # noqa: ANN401 - what the options give
            asked = {n: given.pop(n) for n in kind.__dataclass_fields__ if n in given}
            return function(kind(**asked), **given)

        with_options = called
        for option in reversed(listed):
            with_options = option(with_options)
        return commands.command(name, cls=cls, epilog=examples(*calls))(with_options)

    return made


def tell(answer: str | bytes, out: Path | None) -> None:
    """Write an answer to standard output, or to a file, whole or not at all."""
    if out is None:
        click.echo(answer.encode() if isinstance(answer, str) else answer, nl=False)
    else:
        write(out, answer)


def write(path: Path, answer: str | bytes, more: str = "") -> None:
    """Write a file whole or not at all, and say so."""
    if path.suffix.lower() == ".toml":
        found = "hive files and yard files end so, and an answer would replace one"
        accepted = "choose another ending, like .txt, .json or .pdf"
        raise HiveFaults([Fault(str(path), found, accepted)])
    write_whole(path, answer)
    click.echo(escaped(f"Wrote {path}.{more}"))


def misused(found: str) -> click.UsageError:
    """The fault of a call that asks for what does not go together."""
    return click.UsageError(found, click.get_current_context())


def opened(file: Path | None, settings: Mapping[str, str]) -> Hive:
    """The hive that a command is asked about; choices in it that disagree are pointed out once."""
    hive = opened_hive(file, settings)
    for sentence in notes(hive):
        warn(sentence)
    return hive


def warn(sentence: str) -> None:
    """Tell a sentence on standard error."""
    click.echo(escaped(sentence), err=True)


HOMES: Final = {
    "new": "hive", "parts": "hive", "explain": "hive", "open": "opening", "fit": "checking",
    "check": "checking", "judge": "judging", "plan": "planning", "shop": "planning",
    "cut": "planning", "saw": "planning", "book": "book", "warmth": "physics", "wood": "physics",
}  # fmt: skip
"""The commands, each with its module of this room."""


class _Commands(click.Group):
    """All commands; the module of one is loaded when that is called, as most load slowly."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click asks so
        return sorted(HOMES)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        # a name that is not known is compared with all others
        for home in [HOMES[cmd_name]] if cmd_name in HOMES else HOMES.values():
            import_module(f"hivecalc.cli.{home}")
        return super().get_command(ctx, cmd_name)


@click.group(
    cls=_Commands,
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
        "hivecalc book my-hive.toml           all of it, to print",
        'hivecalc judge panel_width "14 1/8"  is it right, and if not, where to look',
    ),
)
@click.version_option(__version__, prog_name="hivecalc")
def commands() -> None:
    """Work out an insulated beehive from your own measurements.

    FILE is a hive file; without one, an invented demo hive is used. Lengths are written like
    23 1/8, 23.125 or 587.4 mm.
    """
