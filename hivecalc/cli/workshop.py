"""The commands `shop`, `cut` and `saw`: what to buy, how to cut it, how to set the saw."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Final, TypeAlias

import click

from hivecalc.cli.names import plain
from hivecalc.cli.progress import progress
from hivecalc.cli.shared import (
    ANSWER_IS_NO,
    DONE,
    FORMAT_OR_DRAWN,
    INTERRUPTED,
    OUT,
    PAPER,
    SET,
    across,
    commands,
    examples,
    misused,
    needs_a_file,
    options,
    tell,
    warn,
)
from hivecalc.components import opened_hive
from hivecalc.hive import Fault, Hive, HiveFaults, write_whole
from hivecalc.hive.faults import RefusedError
from hivecalc.hive.texts import seen
from hivecalc.hive.values import value_of
from hivecalc.tables import csv_text, harmless, json_text

if TYPE_CHECKING:  # slow to load
    from hivecalc.cutting import Aim
    from hivecalc.paper import Paper
    from hivecalc.stock import Yard

Forms: TypeAlias = Mapping[str, Callable[[], str | bytes]]

FILES: Final = click.argument(
    "files", nargs=-1, metavar="[FILE]...", type=click.Path(path_type=Path)
)
YARD: Final = click.option(
    "--yard",
    "yard_file",
    metavar="PATH",
    type=click.Path(path_type=Path),
    help="Your yard file: what your yard sells, for how much, and your offcuts; if not given, the "
    "yard that comes with the course, whose prices are invented.",
)
KERF: Final = click.option(
    "--kerf",
    metavar="LENGTH",
    help="Width of the cut that your saw leaves, for this call; else the yard file's.",
)
EDGE: Final = click.option(
    "--factory-edge",
    "on_edge",
    multiple=True,
    metavar="PART",
    help="Cut this part, like deck, so that one of its sides is a sheet's own straight long edge; "
    "may be repeated.",
)
HIVES: Final = click.option(
    "--hives",
    "many",
    type=int,
    default=1,
    show_default=True,
    metavar="NUMBER",
    help="So many hives of each file.",
)


# ── what they share ───────────────────────────────────────────────────────────────────────────


def _batch(files: Sequence[Path], settings: Mapping[str, str], many: int) -> list[Hive]:
    """Return all hives of a batch, every fault of every file told at once."""
    from hivecalc.shopping import MOST_HIVES  # noqa: PLC0415 - loads slowly

    found: list[Hive] = []
    faults: list[Fault] = []
    for file in files or (None,):
        try:
            found.append(opened_hive(file, settings))
        except HiveFaults as error:
            faults += error.faults
    total = many * max(1, len(files))
    if not 1 <= total <= MOST_HIVES:
        accepted = f"give 1 to {MOST_HIVES:,} in all, and plan more of them in parts"
        faults.append(Fault("--hives", f"that makes {total:,} hives", accepted))
    if faults:
        raise HiveFaults(dict.fromkeys(faults))
    return [hive for hive in found for _ in range(many)]


def _yard(file: Path | None, kerf: str | None) -> "Yard":
    """Return the yard to buy at, with this kerf; what was left out of its file is told."""
    from hivecalc.stock import demo_yard, yard_from_file  # noqa: PLC0415 - loads slowly

    yard = yard_from_file(file) if file else demo_yard()
    for fault in yard.left_out:
        warn(str(fault))
    return yard if kerf is None else replace(yard, kerf=_kerf(kerf))


def _on_edge(yard: "Yard", names: Sequence[str], hives: Sequence[Hive]) -> "Yard":
    """Return the yard with the parts that shall lie on a sheet's own edge."""
    from hivecalc.cutting.needs import needed  # noqa: PLC0415 - loads slowly

    known = sorted({piece.part for piece in needed(hives) if piece.section is None})
    parts = frozenset(map(plain, names))
    accepted = f"name one of {', '.join(known)}"
    faults = [
        Fault("--factory-edge", f"no part from a sheet is called {seen(name)}", accepted)
        for name in sorted(parts - {*known})
    ]
    if faults:
        raise HiveFaults(faults)
    return replace(yard, factory_edge=parts)


def _kerf(text: str) -> Fraction:
    from hivecalc.stock.entries import KERF as KNOWN  # noqa: PLC0415 - loads slowly

    try:
        return value_of(KNOWN, text, "inch")
    except RefusedError as refused:
        raise HiveFaults([Fault("--kerf", *refused.args)]) from None


def _status(*, stopped: bool, left: Iterable[object]) -> int:
    """Return the exit status of a plan: stopped, or not whole, or done."""
    if stopped:
        warn("The search was stopped; this is the best plan found up to then, and not proved.")
        return INTERRUPTED
    return ANSWER_IS_NO if any(True for _ in left) else DONE


# ── shop ──────────────────────────────────────────────────────────────────────────────────────


@commands.command(
    "shop",
    epilog=examples(
        "hivecalc shop",
        "hivecalc shop my-hive.toml --yard my-yard.toml",
        "hivecalc shop my-hive.toml --hives 12",
        "hivecalc shop my-hive.toml my-hive.toml --format csv --out basket.csv",
    ),
)
@options(FILES, SET, YARD, KERF, EDGE, HIVES, FORMAT_OR_DRAWN, OUT, PAPER)
def shop_command(  # noqa: PLR0913, PLR0917 - one argument an option
    files: tuple[Path, ...],
    settings: Mapping[str, str],
    yard_file: Path | None,
    kerf: str | None,
    on_edge: tuple[str, ...],
    many: int,
    form: str,
    out: Path | None,
    paper: "Paper",
) -> int:
    """List what to buy, what it costs and what is left over.

    Several hive files are one batch. The exit status is 1 if your yard does not give everything.
    Ctrl-C ends the search: the best plan so far is told, and the exit status is 130.
    """
    needs_a_file(form, out)
    hives = _batch(files, settings, many)
    yard = _on_edge(_yard(yard_file, kerf), on_edge, hives)
    from hivecalc.book import commands as printed  # noqa: PLC0415 - loads slowly
    from hivecalc.cutting.planner import Planner  # noqa: PLC0415 - the same
    from hivecalc.shopping import alternatives, basket  # noqa: PLC0415 - the same
    from hivecalc.tables import drawn  # noqa: PLC0415 - the same
    from hivecalc.tables import shop as tables  # noqa: PLC0415 - the same

    with progress() as hears:
        how = Planner(hives[0].units, tell=hears)
        found = replace(basket(hives, yard, how), invented=yard_file is None)
        others = [] if how.stopped or form == "csv" else alternatives(found, yard, how)
    name = drawn.hives_named(hives)
    forms: Forms = {
        "text": lambda: tables.basket_text(found, others, across(out)),
        "json": lambda: json_text(tables.basket_json(found, others)),
        "csv": lambda: csv_text(tables.basket_table(found)),
        "svg": lambda: drawn.basket_drawn(found, others, name=name),
        "pdf": lambda: printed.shop_pdf(found, others, name, paper),
    }
    tell(forms[form](), out)
    return _status(stopped=how.stopped, left=found.unplanned)


# ── cut ───────────────────────────────────────────────────────────────────────────────────────


@commands.command(
    "cut",
    epilog=examples(
        "hivecalc cut",
        "hivecalc cut my-hive.toml --yard my-yard.toml --aim cost",
        "hivecalc cut my-hive.toml --hives 12 --kerf 3/32",
        "hivecalc cut my-hive.toml my-hive.toml --format json --out plan.json",
    ),
)
@options(FILES, SET, YARD, KERF, EDGE, HIVES)
@click.option(
    "--aim",
    type=click.Choice(("boards", "cost", "waste")),
    default="boards",
    show_default=True,
    help="Buy the fewest boards, the cheapest, or the least length of them. Of sheets the fewest "
    "are bought, or the cheapest if the aim is cost.",
)
@options(FORMAT_OR_DRAWN, OUT, PAPER)
def cut_command(  # noqa: PLR0913, PLR0917 - one argument an option
    files: tuple[Path, ...],
    settings: Mapping[str, str],
    yard_file: Path | None,
    kerf: str | None,
    on_edge: tuple[str, ...],
    many: int,
    aim: "Aim",
    form: str,
    out: Path | None,
    paper: "Paper",
) -> int:
    """Plan how to cut boards and sheets, and say whether a better plan can be.

    Several hive files are one batch. The exit status is 1 if your yard does not give everything.
    Ctrl-C ends the search: the best plan so far is told, and the exit status is 130.
    """
    needs_a_file(form, out)
    hives = _batch(files, settings, many)
    yard = _on_edge(_yard(yard_file, kerf), on_edge, hives)
    from hivecalc.book import commands as printed  # noqa: PLC0415 - loads slowly
    from hivecalc.cutting.planner import Planner  # noqa: PLC0415 - the same
    from hivecalc.cutting.plans import cut_plans  # noqa: PLC0415 - the same
    from hivecalc.tables import cut as tables  # noqa: PLC0415 - the same
    from hivecalc.tables import drawn  # noqa: PLC0415 - the same

    with progress() as hears:
        plans = cut_plans(hives, yard, aim, Planner(hives[0].units, tell=hears))
    name, invented = drawn.hives_named(hives), yard_file is None
    forms: Forms = {
        "text": lambda: tables.cut_text(plans, invented=invented),
        "json": lambda: json_text(tables.cut_json(plans)),
        "csv": lambda: csv_text(tables.cut_table(plans)),
        "svg": lambda: drawn.plans_drawn(plans, yard, name=name, invented=invented),
        "pdf": lambda: printed.cut_pdf(plans, yard, name, paper, invented=invented),
    }
    tell(forms[form](), out)
    return _status(stopped=plans.stopped, left=plans.unplanned)


# ── saw ───────────────────────────────────────────────────────────────────────────────────────


@commands.command(
    "saw",
    epilog=examples(
        "hivecalc saw",
        "hivecalc saw my-hive.toml --kerf 3/32",
        "hivecalc saw my-hive.toml --format csv --out saw.csv",
        "hivecalc saw my-hive.toml --templates templates.pdf --paper letter",
    ),
)
@options(FILES, SET, YARD, KERF, HIVES, FORMAT_OR_DRAWN, OUT, PAPER)
@click.option(
    "--templates",
    metavar="PATH",
    type=click.Path(path_type=Path),
    help="Write templates at full size to this PDF file instead: taper and screw lines.",
)
def saw_command(  # noqa: PLR0913, PLR0917 - one argument an option
    files: tuple[Path, ...],
    settings: Mapping[str, str],
    yard_file: Path | None,
    kerf: str | None,
    many: int,
    form: str,
    out: Path | None,
    paper: "Paper",
    templates: Path | None,
) -> int:
    """List the settings of the saw in their order, with what is cut at each, and the cautions.

    Several hive files are one batch. The exit status is 1 if your yard has no lumber for a piece.
    """
    needs_a_file(form, out)
    hives = _batch(files, settings, many)
    if templates is not None:
        if out is not None or len(set(files)) > 1:
            raise misused("--templates goes with one hive file and without --out")
        return _write_templates(hives[0], paper, templates)
    from hivecalc.book import commands as printed  # noqa: PLC0415 - loads slowly
    from hivecalc.saw import saw_plan  # noqa: PLC0415 - the same
    from hivecalc.tables import drawn  # noqa: PLC0415 - the same
    from hivecalc.tables import saw as tables  # noqa: PLC0415 - the same

    plan, name = saw_plan(hives, _yard(yard_file, kerf)), drawn.hives_named(hives)
    forms: Forms = {
        "text": lambda: tables.saw_text(plan),
        "json": lambda: json_text(tables.saw_json(plan)),
        "csv": lambda: csv_text(tables.saw_table(plan)),
        "svg": lambda: drawn.saw_drawn(plan, name=name),
        "pdf": lambda: printed.saw_pdf(plan, name, paper),
    }
    tell(forms[form](), out)
    return _status(stopped=False, left=plan.unplanned)


def _write_templates(hive: Hive, paper: "Paper", path: Path) -> int:
    from hivecalc.book.templates import templates_pdf  # noqa: PLC0415 - loads slowly

    write_whole(path, templates_pdf(hive, paper))
    click.echo(f"Wrote {harmless(str(path))}. Print it at 100 %, and check the rulers on it.")
    return DONE
