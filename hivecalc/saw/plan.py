"""The plan at the saw: all steps in their order, each setting once where that can be."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from hivecalc.cutting.needs import BoardNeed, HiveKind, board_needs, kinds_of, needed
from hivecalc.cutting.needs.pieces import MARKS
from hivecalc.cutting.strips import Blanks
from hivecalc.cutting.strips.ripped_off import RippedOff, ripped_off
from hivecalc.cutting.wanted import Unplanned
from hivecalc.hive import Hive
from hivecalc.length import Length, Units
from hivecalc.saw.bevel import Bevel, landing_bevel, rim_front_bevel
from hivecalc.saw.cautions import Kind
from hivecalc.saw.ripping import Pass, ripping
from hivecalc.saw.steps import Counted, Step, bevels, crosscuts, cuts_to_length, rips, tapers
from hivecalc.saw.taper import Taper, taper
from hivecalc.stock import Yard

KINDS: tuple[Kind, ...] = ("crosscut", "rip", "to_length", "bevel", "taper")


@dataclass(frozen=True)
class SawPlan:
    """All steps at the saw for some hives, in their order, and what is known about them.

    `fewest_fences` is the number of settings that the rips can't do without; `labels` says what is
    written on the pieces, and on how many of each. Lengths in inches.
    """

    units: Units
    kerf: Length
    steps: tuple[Step, ...]
    needs: tuple[BoardNeed, ...]
    ripped_off: tuple[tuple[str, RippedOff], ...]
    labels: tuple[Counted, ...]
    fewest_fences: int

    def of(self, kind: Kind) -> tuple[Step, ...]:
        """The steps of one kind."""
        return tuple(step for step in self.steps if step.kind == kind)

    @cached_property
    def settings(self) -> dict[Kind, int]:
        """How many settings each kind of step takes."""
        return {kind: len(self.of(kind)) for kind in KINDS}

    @cached_property
    def fewest(self) -> dict[Kind, int]:
        """How many settings each kind of step can't do without.

        One for each different length, tilt or taper; for the fence, what the rips' order asks for.
        """
        found = {kind: len({(s.setting, s.tilt, s.taper) for s in self.of(kind)}) for kind in KINDS}
        return {**found, "rip": self.fewest_fences}

    @property
    def blanks(self) -> tuple[Blanks, ...]:
        """Everything that is ripped, with its cross-section."""
        return tuple(blanks for need in self.needs for blanks in need.blanks)

    def lying(self, passing: Pass) -> Length:
        """How high what is ripped stands above the table, in inches."""
        section = next(b.section for b in self.blanks if b.label == passing.label)
        if passing.stage == "slice":
            return next(part.size for part in section.slices if passing.rip in part.rips)
        return section.thickness if section.first == "width" else section.width

    @property
    def unplanned(self) -> tuple[Unplanned, ...]:
        """What the yard has no lumber for."""
        return tuple(left for need in self.needs for left in need.unplanned)


def saw_plan(hives: Iterable[Hive], yard: Yard) -> SawPlan:
    """How to cut one or several hives' lumber with stop and fence reset as rarely as can be.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> plan = saw_plan([demo_hive()], demo_yard())
    >>> plan.settings
    {'crosscut': 7, 'rip': 11, 'to_length': 9, 'bevel': 2, 'taper': 1}
    >>> plan.fewest == plan.settings
    True

    First all crosscuts from boards, longest first; then the rips, the strips cut to length, the
    bevels and the tapers. Pieces of several hives that need the same setting share it. Raises
    HiveFaults where there is no hive.
    """
    built = list(hives)
    kinds, needs = kinds_of(built), board_needs(built, yard)
    blanks = [blanks for need in needs for blanks in need.blanks]
    ripped, grid = ripping(blanks), MARKS[kinds[0].hive.units]
    steps = (
        *crosscuts(needs),
        *rips(ripped),
        *cuts_to_length(blanks),
        *bevels(_edges(kinds), grid),
        *tapers(_sides(kinds), grid),
    )
    return SawPlan(
        kinds[0].hive.units,
        yard.kerf,
        steps,
        needs,
        tuple((kind.name, ripped_off(kind.hive, yard.kerf)) for kind in kinds),
        tuple((piece.label, piece.count) for piece in needed(built) if piece.section),
        ripped.settings.fewest,
    )


def _edges(kinds: Iterable[HiveKind]) -> dict[Bevel, list[Counted]]:
    """The bevelled edges of these hives, each with the pieces that have it."""
    found: dict[Bevel, list[Counted]] = {}
    for kind in kinds:
        front, landing = rim_front_bevel(kind.hive), landing_bevel(kind.hive)
        found.setdefault(front, []).append((_label(kind, "roof rim front"), kind.count))
        landing_label = _label(kind, "bottom board landing board")
        found.setdefault(landing, []).append((landing_label, kind.count))
    return found


def _sides(kinds: Iterable[HiveKind]) -> dict[Taper, list[Counted]]:
    found: dict[Taper, list[Counted]] = {}
    for kind in kinds:
        label = _label(kind, "roof rim side")
        found.setdefault(taper(kind.hive), []).append((label, 2 * kind.count))
    return found


def _label(kind: HiveKind, part: str) -> str:
    return f"{kind.name}: {part}" if kind.name else part
