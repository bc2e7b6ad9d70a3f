"""What the lesson on buying says: the basket of some hives, its joints, and other ways to buy."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import groupby
from typing import Final

from hivecalc.cutting.planner import Planner
from hivecalc.derivation import title
from hivecalc.drawing.cutting import Bar, bars
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.pages.messages import message, table
from hivecalc.pages.outcomes import Outcome
from hivecalc.pages.to_the_saw.folding import folded
from hivecalc.shopping import (
    Alternative,
    Basket,
    Fixing,
    Group,
    Line,
    alternatives,
    amount,
    basket,
    fixings,
    paid,
    small_goods,
)
from hivecalc.stock import ITEMS, Yard, demo_yard

MOST: Final = 100
"""More hives than a class builds: hivecalc shop takes more."""

SECONDS: Final = 1.0
INVENTED: Final = "All prices are invented. Those of your yard go into my-yard.toml."


def bought(hive: Hive, yard: Yard, many: str) -> Outcome:
    """The outcome of a number of hives that are alike: what to buy, what it costs, what is left.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> "invented" in bought(demo_hive(), demo_yard(), "1").message
    True

    Raises HiveFaults for a number that no class builds, and for sizes that can't be planned.
    """
    found = basket([hive] * _count(many), yard, Planner(hive.units, SECONDS))
    said = [found.total_text, *_invented(found), *map(str, found.left_out)]
    said += [f"{u.count} × {u.label}: {u.why}." for u in found.unplanned]
    lines = [_line_row(line) for line in found.lines]
    head = ["what", "how many", "price", "cost", "left over"]
    return Outcome(message("note", *said), _drawn(found, hive.name), table(head, lines))


def _invented(found: Basket) -> Iterator[str]:
    """Whether the prices are those that came with the course, all or some of them."""
    if found.invented:
        yield INVENTED
        return
    shipped = demo_yard()
    known = {(board.name, board.price) for board in shipped.boards}
    known |= {(sheet.name, sheet.price) for sheet in shipped.sheets}
    known |= {(package.name, package.price) for package in shipped.packages}
    if same := sum((line.name, line.price) in known for line in found.lines):
        yield f"{same} of these prices are as the invented ones were: are they your yard's?"


def _count(text: str) -> int:
    bare = text.strip()
    if not (bare.isascii() and bare.isdigit() and len(bare) <= len(str(MOST))):
        raise _no_count(f"“{bare[:20]}” is no number of hives")
    if not 1 <= int(bare) <= MOST:
        raise _no_count(f"{int(bare)} hives are not planned here")
    return int(bare)


def _no_count(found: str) -> HiveFaults:
    return HiveFaults([Fault("how many hives", found, f"type a number from 1 to {MOST}")])


def _drawn(found: Basket, name: str) -> str:
    currency = found.currency
    named = (("Boards", found.boards), ("Sheets", found.sheets), ("Small goods", found.small))
    rows = [_bar(word, groups, currency) for word, groups in named if groups]
    return bars("What it costs", rows, name=name)


def _bar(word: str, groups: tuple[Group, ...], currency: str) -> Bar:
    cost = sum((group.cost for group in groups), Fraction(0))
    more = " and what has no price" if any(group.unpriced for group in groups) else ""
    return Bar(word, cost, f"{paid(cost, currency)}{more}")


def _line_row(line: Line) -> list[str]:
    price, cost = ("?" if money is None else amount(money) for money in (line.price, line.cost))
    name = f"{line.name}, at hand" if line.at_hand else line.name
    return [name, f"{line.count:,}", price, cost, "; ".join(line.left_over)]


def joints(hive: Hive) -> str:
    """The screws, brads and glue of a hive, and for each part of it joint by joint, folded away.

    >>> from hivecalc.hive import demo_hive
    >>> "side rail to front rail" in joints(demo_hive())
    True
    """
    found = list(fixings(hive))
    remarks = [f"{title(f.component)}, {f.joint}: {f.remark}" for f in found if f.remark]
    told = message("note", f"In all: {_taking(found)}.", *dict.fromkeys(remarks))
    return told + "".join(_by_part(found))


def _taking(found: Iterable[Fixing]) -> str:
    return ", ".join(ITEMS[item].named(count) for item, count in small_goods(found).items())


def _by_part(found: Iterable[Fixing]) -> Iterator[str]:
    """The joints of each part of the hive, those of the first one unfolded."""
    for number, (part, fixed) in enumerate(groupby(found, key=lambda one: one.component)):
        there = list(fixed)
        listed = table(["joint", "what it takes", "why"], map(_joint_row, there))
        yield folded(f"{title(part).capitalize()}: {_taking(there)}", listed, unfolded=not number)


def _joint_row(fixing: Fixing) -> list[str]:
    return [fixing.joint, fixing.takes(fixing.count), fixing.reason]


def other_ways(hive: Hive, yard: Yard) -> str:
    """What else could be bought for a hive, and by how much that costs more or less.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> "only 8 ft 2x4" in other_ways(demo_hive(), demo_yard())
    True
    """
    how = Planner(hive.units, SECONDS)
    found = basket([hive], yard, how)
    rows = list(_other_rows(found, alternatives(found, yard, how)))
    return table(["for", "the basket has", "instead", "that is"], rows)


def _other_rows(found: Basket, others: list[Alternative]) -> Iterator[list[str]]:
    for other in others:
        many = sum(line.count for line in other.group.lines if not line.at_hand)
        only = f"{other.name}: {many:,} of them" if many else other.name
        yield [other.instead.name, other.now, only, other.told(found.currency)]
