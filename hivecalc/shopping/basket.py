"""The basket of one or several hives: everything to buy, what it costs, what is left over."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from hivecalc.cutting import Unplanned
from hivecalc.cutting.needs import HiveKind, board_needs, kinds_of, sheet_needs
from hivecalc.cutting.planner import Planner
from hivecalc.cutting.plans import BoardsCut, SheetsCut
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.shopping.boards import board_group
from hivecalc.shopping.fixings import Fixing, fixings, small_goods
from hivecalc.shopping.lines import Group, Line, counted_lines, known_cost
from hivecalc.shopping.saying import paid
from hivecalc.shopping.sheets import sheet_group
from hivecalc.shopping.small import item_group
from hivecalc.stock import ITEMS, Money, Yard, demo_yard

MOST_HIVES: Final = 2_000
"""So many hives are planned at once; nobody teaches a larger class."""


@dataclass(frozen=True)
class Joints:
    """What holds the joints of hives that are alike: their name, how many, joint by joint."""

    name: str
    hive: Hive
    count: int
    fixings: tuple[Fixing, ...]


@dataclass(frozen=True)
class Basket:
    """Everything to buy for some hives, group by group, and the joints that small goods are for.

    `left_out` tells which rows of the yard file were of no use; `invented` says that all prices are
    those that come with the course.
    """

    currency: str
    boards: tuple[Group, ...]
    sheets: tuple[Group, ...]
    small: tuple[Group, ...]
    joints: tuple[Joints, ...] = ()
    left_out: tuple[Fault, ...] = ()
    invented: bool = False

    @property
    def groups(self) -> tuple[Group, ...]:
        """Every group: boards, sheets, small goods."""
        return (*self.boards, *self.sheets, *self.small)

    @property
    def boards_cut(self) -> tuple[BoardsCut, ...]:
        """The boards of each kind of lumber, with the plan that they are cut by."""
        return tuple(g.cut for g in self.boards if isinstance(g.cut, BoardsCut))

    @property
    def sheets_cut(self) -> tuple[SheetsCut, ...]:
        """The sheets of each material and thickness, with the plan that they are cut by."""
        return tuple(g.cut for g in self.sheets if isinstance(g.cut, SheetsCut))

    @property
    def lines(self) -> tuple[Line, ...]:
        """Every line, group by group."""
        return tuple(line for group in self.groups for line in group.lines)

    @property
    def total(self) -> Money:
        """What everything costs whose price is known."""
        return known_cost(self.lines)

    @property
    def unpriced(self) -> tuple[Line, ...]:
        """Lines whose price is not known, and which the total leaves out."""
        return tuple(line for line in self.lines if line.price is None)

    @property
    def unplanned(self) -> tuple[Unplanned, ...]:
        """What the yard does not give, and why not; the total leaves it out."""
        return tuple(left for group in self.groups for left in group.unplanned)

    @property
    def total_text(self) -> str:
        """The total in a sentence, which says what it leaves out.

        >>> nails = Line("package", "box of nails", 1, None, 1)
        >>> Basket("coins", (), (), (Group("nails", (nails,)),)).total_text
        'There is no total, as no price is known. The counts stand.'
        """
        missing = sum(left.count for left in self.unplanned)
        if not missing:
            return self._priced
        return f"{self._priced} What your yard does not give is not in it: {missing:,} in all."

    @property
    def _priced(self) -> str:
        unpriced = self.unpriced
        if unpriced and len(unpriced) == sum(not line.at_hand for line in self.lines):
            return "There is no total, as no price is known. The counts stand."
        said = f"{paid(self.total, self.currency)} in all"
        without = counted_lines(unpriced)
        return f"{said}, without what has no price: {without}." if without else f"{said}."


def basket(hives: Sequence[Hive], yard: Yard, planner: Planner | None = None) -> Basket:
    """Everything to buy for one or several hives at a yard, at the least cost.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> basket([demo_hive()], demo_yard()).boards[0].lines[0].name
    '8 ft 2x4'

    Hives may differ. What has no price is counted all the same, and the total says that it leaves
    it out. Ctrl-C ends the search that is on and hurries the others: the best plans so far are
    kept, and say so. Raises HiveFaults for no hive and for more than 2,000.
    """
    kinds, how = hives_alike(hives), planner or Planner(hives[0].units)
    joints = tuple(
        Joints(k.name or k.hive.name, k.hive, k.count, (*fixings(k.hive),)) for k in kinds
    )
    boards = tuple(board_group(need, yard, how) for need in board_needs(hives, yard))
    sheets = tuple(sheet_group(need, how) for need in sheet_needs(hives, yard))
    small = (item_group(*item, yard.packages, yard.spare) for item in counted(joints).items())
    told = (joints, yard.left_out, yard == demo_yard())
    return Basket(yard.currency, boards, sheets, tuple(small), *told)


def counted(joints: Iterable[Joints]) -> dict[str, int]:
    """How many of each item all these joints take; of glue, the inches of joint.

    >>> from hivecalc.hive import demo_hive
    >>> hive = demo_hive()
    >>> counted([Joints(hive.name, hive, 12, tuple(fixings(hive)))])["hanger_bolt"]
    24
    """
    found = dict.fromkeys(ITEMS, 0)
    for alike in joints:
        for name, count in small_goods(alike.fixings).items():
            found[name] += alike.count * count
    return {name: count for name, count in found.items() if count}


def hives_alike(hives: Sequence[Hive]) -> list[HiveKind]:
    """Hives that differ, each with how many there are of it.

    >>> from hivecalc.hive import demo_hive
    >>> [kind.count for kind in hives_alike([demo_hive()] * 3)]
    [3]

    Raises HiveFaults for no hive and for more than 2,000.
    """
    if not 1 <= len(hives) <= MOST_HIVES:
        accepted = f"give 1 to {MOST_HIVES:,}, and of more hives a part at a time"
        raise HiveFaults([Fault("hives", f"there are {len(hives):,} of them", accepted)])
    return kinds_of(hives)
