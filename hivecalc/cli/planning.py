"""The commands `plan`, `shop`, `cut` and `saw`: one plan of a batch, and three views of it."""

import os
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Final, get_args

import click

from hivecalc.cli.shared import (
    ANSWER_IS_NO,
    DONE,
    OUT,
    PATH,
    SET,
    Call,
    command,
    component_of,
    misused,
    name_from_words,
    opened,
    path_option,
    tell,
    warn,
    write,
)
from hivecalc.components import opened_hive
from hivecalc.document import FORMS, Paper, Report
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.hive.hive import value_of
from hivecalc.length import Units
from hivecalc.reports import plan as reports
from hivecalc.reports.saw import saw_report
from hivecalc.support.faults import RefusedError, quoted, raise_faults, short
from hivecalc.workshop import (
    Plan,
    Yard,
    changes_since,
    demo_yard,
    plan,
    plan_from_file,
    plan_text,
    units_of,
    yard_beside,
    yard_from_file,
)
from hivecalc.workshop.boards import Aim
from hivecalc.workshop.needs import MOST_HIVES, batch, needed
from hivecalc.workshop.settings import Group
from hivecalc.workshop.templates import templates_pdf
from hivecalc.workshop.yard import CHOICES


def _each_file(_: click.Context, __: click.Parameter, given: Sequence[Path]) -> tuple[Path, ...]:
    """The files that are named one by one, or by a pattern: Windows leaves those to the program."""
    found = list[Path]()
    for file in given:
        is_pattern = "*" in file.name and not os.path.lexists(file)
        found += (sorted(file.parent.glob(file.name)) if is_pattern else []) or [file]
    return tuple(found)


COMPONENT: Final = click.option(
    "--component", metavar="NAME", help="Only what is for this component, like bottom_board."
)
BATCH: Final = (
    click.argument("files", nargs=-1, metavar="[FILE]...", type=PATH, callback=_each_file),
    SET,
    path_option(
        "--yard",
        "yard_file",
        said="Your yard file: what your yard sells, for how much, your offcuts, and what your saw "
        "and you can do; if not given, my-yard.toml beside FILE, or the invented yard.",
    ),
    click.option(
        "--kerf",
        metavar="LENGTH",
        help="Width of the cut that your saw leaves, for this call; else the yard file's.",
    ),
    click.option(
        "--factory-edge",
        "on_edge",
        multiple=True,
        metavar="PART",
        help="Cut this part, like deck, so that one of its sides is a sheet's own straight long "
        "edge; may be repeated.",
    ),
    click.option(
        "--hives",
        "many",
        type=int,
        default=1,
        show_default=True,
        metavar="NUMBER",
        help="So many hives of each file.",
    ),
    click.option(
        "--aim",
        type=click.Choice(("cost", "boards")),
        default="cost",
        show_default=True,
        help="Buy the cheapest boards and sheets, or the fewest.",
    ),
)
VIEW: Final = (
    *BATCH,
    path_option(
        "--plan", "plan_file",
        said="Show this plan, which the command plan wrote; with FILE it is checked whether it "
        "still fits these hives.",
    ),
    click.option(
        "--format", "form", type=click.Choice(FORMS), default="text", show_default=True,
        help="Form of the answer: svg is one picture, pdf is pages to print.",
    ),
    OUT,
    click.option(
        "--paper", type=click.Choice(get_args(Paper)), default="a4", show_default=True,
        help="Paper to print a PDF on.",
    ),
)  # fmt: skip


# ── the plan ──────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Batch(Call):
    """A call about a batch of hives: those of some files, at a yard, or a plan that was kept."""

    files: tuple[Path, ...] = ()
    yard_file: Path | None = None
    kerf: str | None = None
    on_edge: tuple[str, ...] = ()
    many: int = 1
    aim: Aim = "cost"
    plan_file: Path | None = None

    @cached_property
    def plan(self) -> Plan:
        """The plan that the call is about."""
        if self.plan_file is None:
            hives = self._hives()
            yard = self._yard(hives)
            return plan(hives, yard, self.aim, _on_edge(self.on_edge, hives))
        if self.settings or self.kerf or self.on_edge:
            without = "leave out --set, --kerf, --factory-edge"
            raise misused(f"--plan shows a plan as it was made: {without}")
        return plan_from_file(self.plan_file)

    def show(self, report: Report) -> int:
        """Show a report, and whether a plan that was kept no longer fits its hives."""
        stale: Sequence[str] = []
        if self.plan_file and (self.files or self.yard_file):
            hives = self._hives() if self.files else [one.hive for one in self.plan.hives]
            yard = self._yard(hives) if self.yard_file else None
            stale = changes_since(self.plan, hives, yard)
        for sentence in stale:
            warn(f"{sentence} Make the plan again.")
        for sentence in reports.lacks(self.plan) if self.out else ():
            warn(sentence)
        return super().show(replace(report, holds=report.holds and not stale))

    def _yard(self, hives: Sequence[Hive]) -> Yard:
        """The yard to buy at for these hives; what was left out of its file is said."""
        yard = yard_for(self.yard_file, next(iter(self.files), None), units_of(hives))
        for fault in yard.left_out:
            warn(str(fault))
        if self.kerf is None:
            return yard
        try:
            return replace(yard, kerf=value_of(CHOICES["kerf"], self.kerf, yard.units))
        except RefusedError as refused:
            raise HiveFaults([Fault("--kerf", *refused.args)]) from None

    def _hives(self) -> list[Hive]:
        """All hives of the batch, every fault of every file listed at once."""
        found: list[Hive] = []
        faults: list[Fault] = []
        for file in self.files or (None,):
            try:
                found.append(opened(file, self.settings))
            except HiveFaults as error:
                faults += error.faults
        total = self.many * max(1, len(self.files))
        if not 1 <= total <= MOST_HIVES:
            accepted = f"give 1 to {MOST_HIVES:,} in all, and plan more of them in parts"
            faults.append(Fault("--hives", f"that makes {total:,} hives", accepted))
        raise_faults(iter(dict.fromkeys(faults)), "")
        called = _called_apart(self.files, found) if self.files else found
        return [hive for hive in called for _ in range(self.many)]


def _called_apart(files: Sequence[Path], hives: Sequence[Hive]) -> list[Hive]:
    """The hives, those of several files that have one name called by their files.

    Whoever does not name a hive has a “My hive”, as all others of the class.
    """
    whose: dict[str, set[Path]] = {}
    for file, hive in zip(files, hives, strict=True):
        whose.setdefault(hive.name, set()).add(file)
    stems = {file: file.stem for file in files}
    if len(set(stems.values())) < len(stems):
        stems = {file: f"{file.parent.name}/{file.stem}" for file in files}
    return [
        replace(hive, name=short(stems[file])) if len(whose[hive.name]) > 1 else hive
        for file, hive in zip(files, hives, strict=True)
    ]


def yard_for(asked: Path | None, hive_file: Path | None, units: Units) -> Yard:
    """The yard that is asked for; else the one beside a hive file, or the invented one."""
    if asked:
        return yard_from_file(asked)
    return yard_beside(hive_file, units) if hive_file else demo_yard(units)


def _on_edge(names: Sequence[str], hives: Sequence[Hive]) -> frozenset[str]:
    if not names:
        return frozenset()
    known = sorted({piece.part for piece in needed(batch(hives)) if piece.section is None})
    faults = (
        Fault("--factory-edge", f"no part from a sheet is called {quoted(name)}",
              f"name one of {', '.join(known)}")
        for name in sorted(set(names))
        if name_from_words(name) not in known
    )  # fmt: skip
    raise_faults(faults, "--factory-edge")
    return frozenset(map(name_from_words, names))


def _components(found: Plan) -> set[str]:
    return {piece.component for piece in found.pieces}


@command(
    "plan",
    *BATCH,
    OUT,
    kind=Batch,
    calls=(
        "hivecalc plan my-hive.toml --out plan.json",
        "hivecalc plan my-hive.toml my-hive.toml --yard my-yard.toml --out class.json",
        "hivecalc plan my-hive.toml --hives 12 --aim boards --out class.json",
    ),
)
def plan_command(call: Batch) -> int:
    """Make one plan of a batch: boards, strips, sheets, settings and basket, as JSON.

    `shop`, `cut`, `saw` and `book` show it with --plan. The same files give the same plan, byte for
    byte. The exit status is 1 if your yard does not give everything.
    """
    tell(plan_text(call.plan), call.out)
    for sentence in reports.lacks(call.plan):
        warn(sentence)
    return DONE if call.plan.is_whole else ANSWER_IS_NO


# ── its views ─────────────────────────────────────────────────────────────────────────────────


@command(
    "shop",
    *VIEW,
    kind=Batch,
    calls=(
        "hivecalc shop",
        "hivecalc shop my-hive.toml --yard my-yard.toml",
        "hivecalc shop my-hive.toml --hives 12",
        "hivecalc shop my-hive.toml my-hive.toml --format csv --out basket.csv",
    ),
)
def shop_command(call: Batch) -> int:
    """List what to buy, what it costs, what is left over and who pays what.

    Several hive files are one batch. The exit status is 1 if your yard does not give everything,
    or if the plan no longer fits the hives.
    """
    return call.show(reports.shop_report(call.plan))


@command(
    "cut",
    *VIEW,
    COMPONENT,
    path_option(
        "--labels",
        said="Write labels to stick on the pieces to this PDF file instead, each hive's on pages "
        "of their own.",
    ),
    kind=Batch,
    calls=(
        "hivecalc cut",
        "hivecalc cut my-hive.toml --yard my-yard.toml",
        "hivecalc cut my-hive.toml --hives 12 --format pdf --out cut.pdf",
        "hivecalc cut my-hive.toml --labels labels.pdf",
    ),
)
def cut_command(call: Batch, component: str | None, labels: Path | None) -> int:
    """Show how boards, strips and sheets are cut, each board and sheet with its number.

    Several hive files are one batch. The exit status is 1 if your yard does not give everything,
    or if the plan no longer fits the hives.
    """
    if labels is not None:
        pages = Report(lambda: reports.labels(call.plan), holds=call.plan.is_whole)
        return replace(call, form="pdf", out=labels).show(pages)
    return call.show(reports.cut_report(call.plan, component_of(component, _components(call.plan))))


@command(
    "saw",
    *VIEW,
    COMPONENT,
    click.option(
        "--group",
        type=click.Choice(("week before", "day one", "day two", "at home")),
        help="Only what a class does then.",
    ),
    path_option(
        "--templates",
        said="Write templates at full size to this PDF file instead: taper and screw lines.",
    ),
    kind=Batch,
    calls=(
        "hivecalc saw",
        "hivecalc saw my-hive.toml --kerf 3/32",
        'hivecalc saw my-hive.toml --hives 12 --group "week before"',
        "hivecalc saw my-hive.toml --templates templates.pdf --paper letter",
    ),
)
def saw_command(
    call: Batch, component: str | None, group: Group | None, templates: Path | None
) -> int:
    """List the settings in their order: machine, boards, pieces, time, and the cautions for each.

    Several hive files are one batch. The exit status is 1 if your yard does not give everything,
    or if the plan no longer fits the hives.
    """
    if templates is not None:
        if call.out is not None or len(set(call.files)) > 1 or call.plan_file:
            raise misused("--templates goes with one hive file, and without --out and --plan")
        hive = opened_hive(next(iter(call.files), None), call.settings)
        more = " Print it at 100 %, and check the rulers on it."
        write(templates, templates_pdf(hive, call.paper), more)
        return DONE
    return call.show(saw_report(call.plan, component_of(component, _components(call.plan)), group))
