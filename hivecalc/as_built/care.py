"""How far off a piece is, by how it was made: sawn, ripped, read off a tape or planed.

The errors of a trial are those of hands and tools: each piece has that of its own cut; strips that
were ripped at one setting of the fence share theirs; a stud that was misread is misread for all of
its pieces. A sum that no hand makes has none.
"""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from fractions import Fraction
from typing import Final, Literal, TypeAlias

from hivecalc.built import PIECES, SET_OUT, PieceSize, pieces_of
from hivecalc.components import DIMENSIONS, values
from hivecalc.fit import mark
from hivecalc.hive import BOX_SIZES, HIVE_SIZES, MEASUREMENTS, Hive
from hivecalc.hive.measurements import entry
from hivecalc.length import MM, Length, Units, with_unit

Work: TypeAlias = Literal["cut", "rip", "tape", "plane"]
Habit: TypeAlias = Literal["frame", "plan", "block"]

KINDS: Final[Mapping[Work, str]] = {
    "cut": "a cut across, or a line drawn by hand",
    "rip": "a setting of the rip fence",
    "tape": "a reading of the tape",
    "plane": "a thin strip planed to its line",
}
HABITS: Final[Mapping[Habit, str]] = {
    "frame": "panel, screen, runners and roof foam are cut to the frames as measured once glued",
    "plan": "everything is cut to the plan",
    "block": "as frame, and sticks of one length are cut against one stop block",
}
HABIT_NAMES: Final[Mapping[Habit, str]] = {
    "frame": "cut to the glued frame",
    "plan": "cut all to the plan",
    "block": "glued frame and stop block",
}
OFF_BY: Final = entry(
    "off_by", "0", "1/2", "How far off a piece is, more or less.",
    "Whoever is further off than that cuts anew.",
)  # fmt: skip
SPREAD_NOTE: Final = (
    "Most errors are small and few are large: bell curves, cut off at the amount given."
)
GAUGED: Final = Fraction(1, 256)
"""A wire or sheet too thin for a tape, gauged; common practice, no published source."""
THIN: Final = Fraction(1, 8)

_PLANED: Final = frozenset({"bottom_board.screen_front_stop_thickness", "roof.rim_back_width"})
_STRIPS: Final = frozenset({"strip_narrow", "strip_wide"})
_RIPPED: Final = frozenset({"stud", "strip", "board"})
_RIPPED_SHEETS: Final = frozenset({"skirt_end", "skirt_side", "skin_side", "skin_end"})


@dataclass(frozen=True)
class Care:
    """How far off each kind of work is, more or less, in inches.

    Usual care is 1/32 in for saw and fence and 1/64 in for tape and plane: common practice, no
    published source. What is typed is held against OFF_BY.
    """

    cut: Length = Fraction(1, 32)
    rip: Length = Fraction(1, 32)
    tape: Length = Fraction(1, 64)
    plane: Length = Fraction(1, 64)

    @property
    def amounts(self) -> dict[str, Length]:
        """How far off each kind of work is, by its name."""
        return asdict(self)

    def with_amounts(self, amounts: Mapping[str, Length]) -> "Care":
        """The same care with some amounts replaced."""
        return replace(self, **amounts)


_USUAL: Final[Mapping[Units, Care]] = {
    "inch": Care(),
    "mm": Care(cut=MM * 4 / 5, rip=MM * 4 / 5, tape=MM * 2 / 5, plane=MM * 2 / 5),
}


def usual_care(hive: Hive) -> Care:
    """The care that one may expect of somebody who builds this hive, by its units."""
    return _USUAL[hive.units]


@dataclass(frozen=True)
class Source:
    """One size that may be off: its value as aimed at, what makes its error, how large that is.

    Sizes with one `shared` error are off together.
    """

    name: str
    aimed: Length
    kind: Work
    tolerance: Length
    shared: str


def sources(hive: Hive, care: Care, habit: Habit = "frame") -> tuple[Source, ...]:
    """Every size that this hive is put together from and that may be off, each with its error.

    Pieces are aimed at what the cutting list has for them.
    """
    plan, on_the_saw = values(hive), ("joint_depth", "rest_depth", "rim_low_height")
    return (
        *(_of_piece(hive, size, plan, care, habit) for size in pieces_of(hive)),
        *(Source(n, plan[n], "cut", care.cut, n) for n in SET_OUT if n in plan),
        *(Source(n, plan[n], "rip", care.rip, n) for n in on_the_saw),
        *(Source(n, v, "tape", _read(care, v), n) for n, v in plan.items() if _read_off(n, hive)),
    )


def _of_piece(
    hive: Hive, size: PieceSize, plan: Mapping[str, Fraction], care: Care, habit: Habit
) -> Source:
    stock, planned = _stock_of(size.planned), plan[size.planned]
    if stock in _STRIPS:
        return Source(size.name, planned, "rip", care.rip, stock)
    if stock:
        return Source(size.name, planned, "tape", _read(care, planned), stock)
    aimed = mark(hive, size.planned)
    if size.planned in _PLANED:
        return Source(size.name, aimed, "plane", care.plane, size.name)
    across = size.size in {"width", "thickness"}
    if across and (size.part.material in _RIPPED or size.part.name in _RIPPED_SHEETS):
        return Source(size.name, aimed, "rip", care.rip, f"fence at {with_unit(hive.units, aimed)}")
    at_a_stop = habit == "block" and size.size == "length" and size.part.material in _RIPPED
    own = f"stop at {with_unit(hive.units, aimed)}" if at_a_stop else size.name
    return Source(size.name, aimed, "cut", care.cut, own)


def _stock_of(planned: str) -> str:
    """The measurement of the stock that a size of a piece is; empty where it is cut."""
    dimension = DIMENSIONS.dimension(planned)
    source = dimension.inputs[0] if dimension.as_measured else ""
    known = MEASUREMENTS.get(source)
    outside = source in HIVE_SIZES + BOX_SIZES
    return source if known and known.group == "measured" and not outside else ""


def _read_off(name: str, hive: Hive) -> bool:
    """Whether a size that rules ask for itself was read off a tape: measured, and no strip."""
    known = MEASUREMENTS.get(name)
    if known is None or known.group != "measured" or name in _STRIPS or name in PIECES:
        return False
    return name in hive.measured or name not in HIVE_SIZES + BOX_SIZES


def _read(care: Care, value: Length) -> Length:
    return min(care.tape, GAUGED) if value < THIN else care.tape
