"""The commands `plan`, `shop`, `cut` and `saw`: one plan of a batch, and three views of it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Final, TypeAlias

import click

from hivecalc.cli.names import plain
from hivecalc.cli.shared import (
    ANSWER_IS_NO,
    DONE,
    FORMAT_OR_DRAWN,
    OUT,
    PAPER,
    SET,
    commands,
    examples,
    misused,
    needs_a_file,
    opened,
    options,
    tell,
    warn,
)
from hivecalc.components import opened_hive
from hivecalc.hive import Fault, Hive, HiveFaults, write_whole
from hivecalc.hive.hive import value_of
from hivecalc.support.faults import RefusedError, escaped
from hivecalc.tables import csv_text, harmless, json_text

if TYPE_CHECKING:  # slow to load
    from hivecalc.paper import Paper
    from hivecalc.workshop import Plan, Yard
    from hivecalc.workshop.boards import Aim
    from hivecalc.workshop.settings import Group

Forms: TypeAlias = Mapping[str, Callable[[], str | bytes]]

FILES: Final = click.argument(
    "files", nargs=-1, metavar="[FILE]...", type=click.Path(path_type=Path)
)
YARD: Final = click.option(
    "--yard",
    "yard_file",
    metavar="PATH",
    type=click.Path(path_type=Path),
    help="Your yard file: what your yard sells, for how much, your offcuts, and what your saw and "
    "you can do; if not given, the yard that comes with the course, whose prices are invented.",
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
AIM: Final = click.option(
    "--aim",
    type=click.Choice(("cost", "boards")),
    default="cost",
    show_default=True,
    help="Buy the cheapest boards and sheets, or the fewest.",
)
PLAN: Final = click.option(
    "--plan",
    "plan_file",
    metavar="PATH",
    type=click.Path(path_type=Path),
    help="Show this plan, which the command plan wrote; with FILE it is checked whether it still "
    "fits these hives.",
)
COMPONENT: Final = click.option(
    "--component", metavar="NAME", help="Only what is for this component, like bottom_board."
)
GROUP: Final = click.option(
    "--group",
    type=click.Choice(("week before", "day one", "day two", "at home")),
    help="Only what a class does then.",
)
BATCH: Final = (FILES, SET, YARD, KERF, EDGE, HIVES, AIM)
MADE: Final = (*BATCH, PLAN, FORMAT_OR_DRAWN, OUT, PAPER)


# ── the plan ──────────────────────────────────────────────────────────────────────────────────


def _plan(  # noqa: PLR0913, PLR0917 - one argument an option
    files: Sequence[Path],
    settings: Mapping[str, str],
    yard_file: Path | None,
    kerf: str | None,
    on_edge: Sequence[str],
    many: int,
    aim: "Aim",
    plan_file: Path | None = None,
) -> "tuple[Plan, bool]":
    """Return the plan that a call is about, and whether it no longer fits its hives."""
    from hivecalc.workshop import changes_since, plan, plan_from_file  # noqa: PLC0415 - loads slowly

    if plan_file is None:
        hives = _batch(files, settings, many)
        yard = _yard(yard_file, kerf)
        return plan(hives, yard, aim, _on_edge(on_edge, hives)), False
    found = plan_from_file(plan_file)
    if settings or kerf or on_edge:
        raise misused("--plan shows a plan as it was made: leave out --set, --kerf, --factory-edge")
    own = _yard(yard_file, None) if yard_file else None
    told = changes_since(found, _batch(files, {}, many), own) if files else []
    if own and not files:
        told = changes_since(found, [one.hive for one in found.hives], own)
    for sentence in told:
        warn(f"{sentence} Make the plan again.")
    return found, bool(told)


def _batch(files: Sequence[Path], settings: Mapping[str, str], many: int) -> list[Hive]:
    """Return all hives of a batch, every fault of every file told at once."""
    from hivecalc.workshop.needs import MOST_HIVES  # noqa: PLC0415 - loads slowly

    found: list[Hive] = []
    faults: list[Fault] = []
    for file in files or (None,):
        try:
            found.append(opened(file, settings))
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
    from hivecalc.workshop import demo_yard, yard_from_file  # noqa: PLC0415 - loads slowly

    yard = yard_from_file(file) if file else demo_yard()
    for fault in yard.left_out:
        warn(str(fault))
    return yard if kerf is None else replace(yard, kerf=_kerf(kerf))


def _kerf(text: str) -> Fraction:
    from hivecalc.workshop.yard_file import CHOICES  # noqa: PLC0415 - loads slowly

    try:
        return value_of(CHOICES["kerf"], text, "inch")
    except RefusedError as refused:
        raise HiveFaults([Fault("--kerf", *refused.args)]) from None


def _on_edge(names: Sequence[str], hives: Sequence[Hive]) -> frozenset[str]:
    """Return the parts that shall lie on a sheet's own edge."""
    from hivecalc.workshop.needs import batch, needed  # noqa: PLC0415 - loads slowly

    parts = frozenset(map(plain, names))
    if not parts:
        return parts
    known = sorted({piece.part for piece in needed(batch(hives)) if piece.section is None})
    accepted = f"name one of {', '.join(known)}"
    faults = [
        Fault("--factory-edge", f"no part from a sheet is called {escaped(name)}", accepted)
        for name in sorted(parts - {*known})
    ]
    if faults:
        raise HiveFaults(faults)
    return parts


def _component(name: str | None, found: "Plan") -> str | None:
    if name is None:
        return None
    known = sorted({piece.component for piece in found.pieces})
    if plain(name) not in known:
        fault = f"no component is called {escaped(name)}"
        raise HiveFaults([Fault("--component", fault, f"name one of {', '.join(known)}")])
    return plain(name)


def _status(found: "Plan", *, stale: bool) -> int:
    return ANSWER_IS_NO if stale or found.unplanned or found.basket.missing else DONE


@commands.command(
    "plan",
    epilog=examples(
        "hivecalc plan my-hive.toml --out plan.json",
        "hivecalc plan my-hive.toml my-hive.toml --yard my-yard.toml --out class.json",
        "hivecalc plan my-hive.toml --hives 12 --aim boards --out class.json",
    ),
)
@options(*BATCH, OUT)
def plan_command(  # noqa: PLR0913, PLR0917 - one argument an option
    files: tuple[Path, ...],
    settings: Mapping[str, str],
    yard_file: Path | None,
    kerf: str | None,
    on_edge: tuple[str, ...],
    many: int,
    aim: "Aim",
    out: Path | None,
) -> int:
    """Make one plan of a batch: boards, strips, sheets, settings and basket, as JSON.

    `shop`, `cut` and `saw` show it with --plan. The same files give the same plan, byte for byte.
    The exit status is 1 if your yard does not give everything.
    """
    found, _ = _plan(files, settings, yard_file, kerf, on_edge, many, aim)
    from hivecalc.workshop import plan_text  # noqa: PLC0415 - loads slowly

    tell(plan_text(found), out)
    return _status(found, stale=False)


# ── its views ─────────────────────────────────────────────────────────────────────────────────


@commands.command(
    "shop",
    epilog=examples(
        "hivecalc shop",
        "hivecalc shop my-hive.toml --yard my-yard.toml",
        "hivecalc shop my-hive.toml --hives 12",
        "hivecalc shop my-hive.toml my-hive.toml --format csv --out basket.csv",
    ),
)
@options(*MADE)
def shop_command(  # noqa: PLR0913, PLR0917 - one argument an option
    files: tuple[Path, ...],
    settings: Mapping[str, str],
    yard_file: Path | None,
    kerf: str | None,
    on_edge: tuple[str, ...],
    many: int,
    aim: "Aim",
    plan_file: Path | None,
    form: str,
    out: Path | None,
    paper: "Paper",
) -> int:
    """List what to buy, what it costs, what is left over and who pays what.

    Several hive files are one batch. The exit status is 1 if your yard does not give everything,
    or if the plan no longer fits the hives.
    """
    needs_a_file(form, out)
    found, stale = _plan(files, settings, yard_file, kerf, on_edge, many, aim, plan_file)
    from hivecalc.book import workshop as views  # noqa: PLC0415 - loads slowly

    forms: Forms = {
        "text": lambda: views.text([views.to_buy(found)], found),
        "json": lambda: _json(found),
        "csv": lambda: csv_text(views.rows_to_buy(found)),
        "svg": lambda: views.basket_svg(found),
        "pdf": lambda: views.pages_pdf(found, [views.to_buy(found)], paper),
    }
    tell(forms[form](), out)
    return _status(found, stale=stale)


@commands.command(
    "cut",
    epilog=examples(
        "hivecalc cut",
        "hivecalc cut my-hive.toml --yard my-yard.toml",
        "hivecalc cut my-hive.toml --hives 12 --format pdf --out cut.pdf",
        "hivecalc cut my-hive.toml --labels labels.pdf",
    ),
)
@options(*MADE, COMPONENT)
@click.option(
    "--labels",
    metavar="PATH",
    type=click.Path(path_type=Path),
    help="Write a page for each hive to this PDF file instead: labels to cut out and stick on.",
)
def cut_command(  # noqa: PLR0913, PLR0917 - one argument an option
    files: tuple[Path, ...],
    settings: Mapping[str, str],
    yard_file: Path | None,
    kerf: str | None,
    on_edge: tuple[str, ...],
    many: int,
    aim: "Aim",
    plan_file: Path | None,
    form: str,
    out: Path | None,
    paper: "Paper",
    component: str | None,
    labels: Path | None,
) -> int:
    """Show how boards, strips and sheets are cut, each board and sheet with its number.

    Several hive files are one batch. The exit status is 1 if your yard does not give everything,
    or if the plan no longer fits the hives.
    """
    needs_a_file(form, out)
    found, stale = _plan(files, settings, yard_file, kerf, on_edge, many, aim, plan_file)
    from hivecalc.book import workshop as views  # noqa: PLC0415 - loads slowly
    from hivecalc.workshop import cut_json  # noqa: PLC0415 - as above

    if labels is not None:
        write_whole(labels, views.pages_pdf(found, views.labels(found), paper))
        click.echo(f"Wrote {harmless(str(labels))}.")
        return _status(found, stale=stale)
    part = _component(component, found)
    forms: Forms = {
        "text": lambda: views.text([views.to_cut(found, part)], found, boards=True),
        "json": lambda: json_text(cut_json(found)),
        "csv": lambda: csv_text(views.rows_to_cut(found)),
        "svg": lambda: views.boards_svg(found),
        "pdf": lambda: views.pages_pdf(found, [views.to_cut(found, part)], paper),
    }
    tell(forms[form](), out)
    return _status(found, stale=stale)


@commands.command(
    "saw",
    epilog=examples(
        "hivecalc saw",
        "hivecalc saw my-hive.toml --kerf 3/32",
        'hivecalc saw my-hive.toml --hives 12 --group "week before"',
        "hivecalc saw my-hive.toml --templates templates.pdf --paper letter",
    ),
)
@options(*MADE, COMPONENT, GROUP)
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
    on_edge: tuple[str, ...],
    many: int,
    aim: "Aim",
    plan_file: Path | None,
    form: str,
    out: Path | None,
    paper: "Paper",
    component: str | None,
    group: "Group | None",
    templates: Path | None,
) -> int:
    """List the settings in their order: machine, boards, pieces, time, and the cautions for each.

    Several hive files are one batch. The exit status is 1 if your yard does not give everything,
    or if the plan no longer fits the hives.
    """
    needs_a_file(form, out)
    if templates is not None:
        if out is not None or len(set(files)) > 1 or plan_file:
            raise misused("--templates goes with one hive file, and without --out and --plan")
        return _write_templates(opened_hive(next(iter(files), None), settings), paper, templates)
    found, stale = _plan(files, settings, yard_file, kerf, on_edge, many, aim, plan_file)
    from hivecalc.book import workshop as views  # noqa: PLC0415 - loads slowly
    from hivecalc.workshop.settings import only  # noqa: PLC0415 - the same

    part = _component(component, found)
    shown = views.at_the_saw(found, part, group)
    forms: Forms = {
        "text": lambda: views.text([shown], found),
        "json": lambda: _json(replace(found, settings=only(found.settings, part, group))),
        "csv": lambda: csv_text(views.rows_at_the_saw(only(found.settings, part, group), found)),
        "svg": lambda: views.settings_svg(shown, found),
        "pdf": lambda: views.pages_pdf(found, [shown], paper),
    }
    tell(forms[form](), out)
    return _status(found, stale=stale)


def _json(found: "Plan") -> str:
    from hivecalc.workshop import plan_json  # noqa: PLC0415 - loads slowly

    return json_text(plan_json(found))


def _write_templates(hive: Hive, paper: "Paper", path: Path) -> int:
    from hivecalc.book.templates import templates_pdf  # noqa: PLC0415 - loads slowly

    write_whole(path, templates_pdf(hive, paper))
    click.echo(f"Wrote {harmless(str(path))}. Print it at 100 %, and check the rulers on it.")
    return DONE
