"""What the lesson on cutting says of boards and strips: pieces, the bound, a stud's end."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Final

from hivecalc.components import values
from hivecalc.cutting import BoardPlan
from hivecalc.cutting.needs import BoardNeed, board_needs
from hivecalc.cutting.planner import Planner
from hivecalc.cutting.strips import cross_section
from hivecalc.cutting.strips.ripped_off import ripped_off
from hivecalc.drawing.cutting import boards_cut_up
from hivecalc.drawing.saw import stud_section
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.hive.texts import sentence
from hivecalc.hive.values import said_with_unit
from hivecalc.length import Length, Units, length_from_text
from hivecalc.pages.messages import message
from hivecalc.pages.outcomes import Outcome
from hivecalc.pages.to_the_saw.yards import with_kerf
from hivecalc.stock import Board, Yard

SHORTEST, LONGEST = Fraction(12), Fraction(288)
"""Boards between 1 ft and 24 ft: a choice, so that a slip of the pen is told."""

A_LENGTH: Final = (
    f"type {SHORTEST // 12} ft to {LONGEST // 12} ft, with its unit, like 8 ft or 2440 mm"
)
SECONDS: Final = 5.0


def cut_up(hive: Hive, yard: Yard, kerf: str, board: str) -> Outcome:
    """The outcome of a kerf and a length of board: the boards with their pieces, and the bound.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> found = cut_up(demo_hive(), demo_yard(), "1/8", "8 ft")
    >>> "Nobody can do with fewer" in found.message
    True

    An empty length stands for all that the yard sells. Raises LengthError or HiveFaults.
    """
    here = with_kerf(yard, kerf, hive.units)
    if board.strip():
        here = replace(here, boards=tuple(_of_length(here.boards, _length(board, hive.units))))
    planner = Planner(hive.units, SECONDS)
    plans = [(n, planner.boards(n, here, "boards")) for n in board_needs([hive], here)]
    patterns = [pattern for _, plan in plans for pattern in plan.patterns]
    drawn = boards_cut_up(patterns, here.kerf, here.end_trim, units=hive.units, name=hive.name)
    right = all(plan.proved and not _left(need, plan) for need, plan in plans)
    said = [told for need, plan in plans for told in _told(need, plan, hive.units)]
    said += map(str, yard.left_out)
    return Outcome(message("right" if right else "note", *said), drawn)


def _length(text: str, units: Units) -> Length:
    length = length_from_text(text, units)
    if not SHORTEST <= length <= LONGEST:
        found = f"{said_with_unit(length, units)} is no board's"
        raise HiveFaults([Fault("length of a board", found, A_LENGTH)])
    return length


def _of_length(boards: tuple[Board, ...], length: Length) -> Iterator[Board]:
    """One board of this length for each kind of lumber that is sold, and all that is at hand."""
    seen: set[tuple[str, Length, Length]] = set()
    for board in boards:
        kind = (board.material, board.thickness, board.width)
        if board.at_hand:
            yield board
        elif kind not in seen:
            seen.add(kind)
            yield replace(board, name=_renamed(board, length), length=length, price=None)


def _renamed(board: Board, length: Length) -> str:
    feet, inches = divmod(length, 12)
    size = board.name.rpartition(" ")[2]
    return f"{said_with_unit(length, 'inch')} {size}" if inches else f"{feet} ft {size}"


def _left(need: BoardNeed, plan: BoardPlan) -> list[str]:
    return [f"{u.count} × {u.label}: {u.why}." for u in (*need.unplanned, *plan.unplanned)]


def _told(need: BoardNeed, plan: BoardPlan, units: Units) -> Iterator[str]:
    left = _left(need, plan)
    yield from left
    if plan.patterns:
        which = f"{sentence(need.name)}{', what does go in' if left else ''}"
        yield f"{which}: {_taken(plan)}.{_over(plan, units)}"
        yield _bound_told(plan)


def _taken(plan: BoardPlan) -> str:
    """How many boards are bought, and how many are there already."""
    count = plan.boards_to_buy
    at_hand = sum(p.count for p in plan.patterns if p.board.at_hand)
    many = "1 board to buy" if count == 1 else f"{count} boards to buy"
    return f"{many}, {at_hand} at hand" if at_hand else many


def _over(plan: BoardPlan, units: Units) -> str:
    left = (p.offcut for p in plan.patterns for _ in range(p.count) if p.offcut)
    over = ", ".join(said_with_unit(offcut, units) for offcut in left)
    return f" Left over: {over}." if over else ""


def _bound_told(plan: BoardPlan) -> str:
    if plan.proved:
        return f"The bound is {plan.bound}. Nobody can do with fewer: this is proved."
    return f"The bound is {plan.bound}. Whether fewer would do is not proved."


def strips(hive: Hive, yard: Yard, kerf: str) -> Outcome:
    """The outcome of a kerf at a stud: its strips, which way to rip, and the piece ripped off.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> found = strips(demo_hive(), demo_yard(), "1/8")
    >>> "8 strips" in found.message, "5/8 in thick" in found.message
    (True, True)

    Raises LengthError or HiveFaults.
    """
    takes = with_kerf(yard, kerf, hive.units).kerf
    found = values(hive)
    stud = found["stud_thickness"], found["stud_width"]
    section = cross_section(*stud, found["strip_narrow"], found["strip_wide"], takes)
    drawn = stud_section(section, units=hive.units, name=hive.name)
    used = f"{float(100 * section.used):.0f} of 100 parts of the stud become strips"
    count = "1 strip" if section.count == 1 else f"{section.count} strips"
    told = f"{count} come out of a stud: {used}."
    return Outcome(message("note", told, ripped_off(hive, takes).sentence), drawn)
