"""Small goods to buy: a group for each item, packed into what the yard sells."""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from hivecalc.cutting import Unplanned
from hivecalc.shopping.lines import Group, Line
from hivecalc.shopping.packages import Bought, packed, with_spare
from hivecalc.stock import ITEMS, Item, Package


def item_group(name: str, count: int, packages: Sequence[Package], share: Fraction) -> Group:
    """The packages of one item that hold so many of it, and some to spare.

    >>> box = Package("box of 200", "long_brad", 200, Fraction(3))
    >>> group = item_group("long_brad", 48, [box], Fraction(1, 10))
    >>> group.lines[0].left_over, group.why
    (('147 brads of 1 1/4 in',), '48 counted joint by joint, and 10 % to spare: 53')

    `count` as the joints take them; `share` is what is bought beyond it, of what gets lost.
    """
    item = ITEMS[name]
    extra = share if item.gets_lost else Fraction(0)
    wanted = with_spare(count, extra)
    bought = packed(wanted, [p for p in packages if p.item == name])
    lines = tuple(_lines(item, wanted, bought))
    left = () if bought else (Unplanned(item.several, wanted, "your yard has no package of it"),)
    return Group(item.several, lines, _why(item, count, wanted, extra), left)


def _why(item: Item, count: int, wanted: int, extra: Fraction) -> str:
    unit = " in" if item.spread else ""
    counted = f"{count:,}{unit} counted joint by joint"
    if not extra:
        return counted
    return f"{counted}, and {float(100 * extra):g} % to spare: {wanted:,}{unit}"


def _lines(item: Item, wanted: int, bought: Sequence[Bought]) -> Iterator[Line]:
    """A line for each kind of package; what is left over stands at the last of them."""
    held = sum(b.package.holds * b.count for b in bought)
    for number, b in enumerate(bought, 1):
        over = held - wanted if number == len(bought) else 0
        left = (item.named(over),) if over else ()
        used = Fraction(wanted, held)
        yield Line("package", b.package.name, b.count, b.package.price, used, left)
