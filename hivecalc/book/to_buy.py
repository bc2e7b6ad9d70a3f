"""The pages to take to the yard: what to buy, what else would do, and the joints it is for."""

from collections.abc import Iterable, Iterator, Sequence

from hivecalc.book.content import (
    TICK,
    Block,
    Chapter,
    Column,
    Paragraph,
    Section,
    Table,
)
from hivecalc.book.harmless import harmless
from hivecalc.cutting import Unplanned
from hivecalc.derivation import title
from hivecalc.shopping import Alternative, Basket, Fixing, Group, Joints, Line
from hivecalc.tables.shop import CARE, INVENTED, UNPROVED, amount_text, named_groups

GOODS = (
    Column("got", 0.9),
    Column("how many", 1.7, bold=True),
    Column("what", 6.6),
    Column("price", 1.5),
    Column("cost", 1.6, bold=True),
    Column("left over", 5),
)
MISSING = (Column("how many", 1.4, bold=True), Column("piece", 4), Column("why not", 6))
OTHER = (
    Column("for", 3.4),
    Column("the list has", 4),
    Column("instead", 4),
    Column("that is", 3, bold=True),
)
JOINTS = (Column("joint", 4), Column("what it takes", 3.6, bold=True), Column("why", 5))
ALL_JOINTS = (Column("joint", 4), Column("all hives take", 3.6, bold=True), Column("one hive", 5))
ONE_SIZE = "Here one size only is bought instead of the sizes on the list."
COUNTED = "Screws, brads and glue are counted joint by joint, and some more is bought to spare."


def to_buy(found: Basket, others: Sequence[Alternative] = ()) -> Chapter:
    """Chapter of what to buy for one or several hives, with a box to tick for each line.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.shopping import basket
    >>> from hivecalc.stock import demo_yard
    >>> [section.heading for section in to_buy(basket([demo_hive()], demo_yard())).sections]
    ['Boards', 'Sheets', 'Small goods', 'Joint by joint']
    """
    first = Paragraph(found.total_text, "What it costs.")
    told = (first, *_invented(found), *_left_out(found), Paragraph(CARE, tone="caution"))
    sections = (*_goods(found), *_missing(found.unplanned), *_other_ways(found, others))
    return harmless(Chapter("What to buy", told, (*sections, *_joints(found.joints))))


def _invented(found: Basket) -> Iterator[Paragraph]:
    if found.invented:
        yield Paragraph(INVENTED)


def _left_out(found: Basket) -> Iterator[Paragraph]:
    """Return what of the yard file was of no use."""
    for fault in found.left_out:
        yield Paragraph(str(fault), "Left out of your yard.", "wrong")


def _goods(found: Basket) -> Iterator[Section]:
    for heading, groups in named_groups(found):
        rows = tuple(row for group in groups for row in _group(group))
        if rows:
            yield Section(heading, (Table(GOODS, rows), *_notes(groups)))


def _group(group: Group) -> Iterator[tuple[str, ...]]:
    """Return a row for each line of a group; the first one says what the group is for."""
    why = f"\n{group.name}: {group.why}"
    for number, line in enumerate(group.lines):
        yield _line(line, "" if number else why)


def _line(line: Line, why: str) -> tuple[str, ...]:
    name = f"{line.name}{', at hand' * line.at_hand}{why}"
    costs = amount_text(line.price), amount_text(line.cost)
    return TICK, f"{line.count:,}", name, *costs, "; ".join(line.left_over)


def _notes(groups: Iterable[Group]) -> Iterator[Paragraph]:
    for group in groups:
        told = (*group.notes, *[UNPROVED] * (not group.proved))
        if told and group.lines:
            yield Paragraph(" ".join(told), f"{group.name}:")


def _missing(left: Iterable[Unplanned]) -> Iterator[Section]:
    table = missing(left)
    if table.rows:
        yield Section("Not to be had", (table,))


def missing(left: Iterable[Unplanned]) -> Table:
    """Table of what the yard does not give, and why not.

    >>> missing([Unplanned("ridge", 2, "your yard has no ridge")]).rows
    (('2', 'ridge', 'your yard has no ridge'),)
    """
    return Table(MISSING, tuple((f"{u.count:,}", u.label, u.why) for u in left))


def _other_ways(found: Basket, others: Sequence[Alternative]) -> Iterator[Section]:
    rows = tuple(_other(other, found.currency) for other in others)
    if rows:
        yield Section("What else you could buy", (Paragraph(ONE_SIZE), Table(OTHER, rows)))


def _other(other: Alternative, currency: str) -> tuple[str, ...]:
    return other.instead.name, other.now, other.name, other.told(currency)


# ── joints ────────────────────────────────────────────────────────────────────────────────────


def _joints(listed: Sequence[Joints]) -> Iterator[Section]:
    fixings = [fixing for alike in listed for fixing in alike.fixings]
    if fixings:
        table = _of_one(listed[0]) if len(listed) == 1 else _of_all(listed)
        blocks: tuple[Block, ...] = (Paragraph(COUNTED), table, *_remarks(fixings))
        yield Section(_heading(listed), blocks)


def _heading(listed: Sequence[Joints]) -> str:
    if len(listed) > 1:
        return "Joint by joint, for all hives"
    return "Joint by joint, for one hive" if listed[0].count > 1 else "Joint by joint"


def _of_one(alike: Joints) -> Table:
    return Table(JOINTS, tuple((_place(f), f.takes(f.count), f.reason) for f in alike.fixings))


def _of_all(listed: Sequence[Joints]) -> Table:
    """Return a table of joints that several hives have: what all take, and what one does."""
    found: dict[tuple[str, str], list[tuple[Joints, list[Fixing]]]] = {}
    for alike in listed:
        for joint, held in _by_joint(alike).items():
            found.setdefault(joint, []).append((alike, held))
    return Table(ALL_JOINTS, tuple(_of_hives(place, held) for (place, _), held in found.items()))


def _by_joint(alike: Joints) -> dict[tuple[str, str], list[Fixing]]:
    """Return what one hive takes at each joint: several where it runs unequally far."""
    found: dict[tuple[str, str], list[Fixing]] = {}
    for fixing in alike.fixings:
        found.setdefault((_place(fixing), fixing.item), []).append(fixing)
    return found


def _of_hives(place: str, held: Sequence[tuple[Joints, list[Fixing]]]) -> tuple[str, ...]:
    counts = [sum(fixing.count for fixing in own) for _, own in held]
    in_all = sum(alike.count * count for (alike, _), count in zip(held, counts, strict=True))
    reasons = {" ".join(fixing.reason for fixing in own): None for _, own in held}
    low, high = min(counts), max(counts)
    span = f"{low} to {high} in a hive" if low < high else f"{high} in each hive"
    return place, held[0][1][0].takes(in_all), span if len(reasons) > 1 else next(iter(reasons))


def _place(fixing: Fixing) -> str:
    return f"{fixing.joint}\n{title(fixing.component)}"


def _remarks(fixings: Iterable[Fixing]) -> Iterator[Paragraph]:
    told = {f"{title(f.component)}, {f.joint}:": f.remark for f in fixings if f.remark}
    return (Paragraph(remark, place, "wrong") for place, remark in told.items())
