"""A basket as text, as rows and for other programs: what to buy, what it costs, and what for."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final

from hivecalc.derivation import title
from hivecalc.hive.texts import seen
from hivecalc.length import length_json
from hivecalc.shopping import (
    Alternative,
    Basket,
    Fixing,
    Group,
    Joints,
    Line,
    amount,
)
from hivecalc.stock import ITEMS, Money
from hivecalc.tables.texts import SCHEMA, Cell, Json, Table, text_table, wrapped

INVENTED: Final = (
    "These prices are invented, as they come with the course. Write those of your own yard into a "
    "yard file."
)
CARE: Final = (
    "Take care: read the labels of glue and silicone and do what they say, ask whether the glue "
    "may touch foam, and wear gloves for cut wire mesh."
)
UNPROVED: Final = "Whether anything costs less is not proved."
UNKNOWN: Final = "?"
"""Stands in a text where a price is not known."""


# ── for other programs ────────────────────────────────────────────────────────────────────────


def basket_json(found: Basket, others: Sequence[Alternative] = ()) -> Json:
    """A basket for other programs; amounts are exact decimals, as text.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.shopping import basket
    >>> from hivecalc.stock import demo_yard
    >>> list(basket_json(basket([demo_hive()], demo_yard())))[:6]
    ['schema', 'hives', 'currency', 'prices_invented', 'total', 'groups']
    """
    return {
        "schema": SCHEMA,
        "hives": [{"name": alike.name, "count": alike.count} for alike in found.joints],
        "currency": found.currency,
        "prices_invented": found.invented,
        "total": {
            "cost": _decimal(found.total),
            "complete": not (found.unpriced or found.unplanned),
            "without_price": [line.name for line in found.unpriced],
        },
        "groups": [_group_json(group) for group in found.groups],
        "lines": [_line_json(group, line) for group in found.groups for line in group.lines],
        "unplanned": [
            {"group": group.name, "label": left.label, "count": left.count, "why": left.why}
            for group in found.groups
            for left in group.unplanned
        ],
        "alternatives": [_alternative_json(other) for other in others],
        "joints": [_joint_json(alike, f) for alike in found.joints for f in alike.fixings],
        "left_out": [str(fault) for fault in found.left_out],
    }


def _group_json(group: Group) -> Json:
    return {
        "name": group.name,
        "why": group.why,
        "cost": _decimal(None if group.unpriced else group.cost),
        "proved": group.proved,
        "notes": list(group.notes),
    }


def _line_json(group: Group, line: Line) -> Json:
    return {
        "group": group.name,
        "sort": line.sort,
        "name": line.name,
        "count": line.count,
        "price": _decimal(line.price),
        "cost": _decimal(line.cost),
        "at_hand": line.at_hand,
        "used": float(line.used),
        "left_over": list(line.left_over),
    }


def _alternative_json(other: Alternative) -> Json:
    return {
        "group": other.instead.name,
        "name": other.name,
        "lines": [{"name": line.name, "count": line.count} for line in other.group.lines],
        "cost": _decimal(None if other.group.unpriced else other.group.cost),
        "difference": _decimal(other.difference),
        "missing": other.missing,
    }


def _joint_json(alike: Joints, fixing: Fixing) -> Json:
    return {
        "hive": alike.name,
        "hives": alike.count,
        "component": fixing.component,
        "joint": fixing.joint,
        "joints": fixing.joints,
        "item": fixing.item or None,
        "each": fixing.each,
        "count": fixing.count,
        "reason": fixing.reason,
        "glue": length_json(fixing.glue),
        "remark": fixing.remark,
    }


def _decimal(money: Money | None) -> str | None:
    """Return an amount for a machine: no sign but - and no comma between thousands."""
    return None if money is None else amount(money).replace(",", "").replace("−", "-")


# ── as rows ───────────────────────────────────────────────────────────────────────────────────


def basket_table(found: Basket) -> Table:
    """A basket as rows for a spreadsheet, with what the yard does not give at the end.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.shopping import basket
    >>> from hivecalc.stock import demo_yard
    >>> basket_table(basket([demo_hive()], demo_yard())).rows[0][1:6]
    ['board', '8 ft 2x4', 1, '4', '4']
    """
    columns = (
        "group", "sort", "name", "count", "price", "cost", "currency", "at_hand", "used_percent",
        "left_over", "note",
    )  # fmt: skip
    rows = [_line_row(found, group, line) for group in found.groups for line in group.lines]
    left: list[list[Cell]] = [
        [group.name, "missing", left.label, left.count, *[None] * 6, left.why]
        for group in found.groups
        for left in group.unplanned
    ]
    return Table(columns, rows + left)


def _line_row(found: Basket, group: Group, line: Line) -> list[Cell]:
    return [
        *(group.name, line.sort, line.name, line.count),
        *(_decimal(line.price), _decimal(line.cost), found.currency),
        *("yes" if line.at_hand else "no", _percent(line.used)),
        *("; ".join(line.left_over), group.why),
    ]


def joints_table(found: Basket) -> Table:
    """What holds each joint, as rows for a spreadsheet: for one hive, and how many there are of it.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.shopping import basket
    >>> from hivecalc.stock import demo_yard
    >>> joints_table(basket([demo_hive()], demo_yard())).rows[0][2:7]
    ['bottom_board', 'side rail to front rail', 2, 'frame_screw', 4]
    """
    columns = (
        "hive", "hives", "component", "joint", "joints", "item", "count", "reason", "glue_inches",
        "remark",
    )  # fmt: skip
    rows = [_joint_row(alike, fixing) for alike in found.joints for fixing in alike.fixings]
    return Table(columns, rows)


def _joint_row(alike: Joints, fixing: Fixing) -> list[Cell]:
    return [
        *(alike.name, alike.count, fixing.component, fixing.joint, fixing.joints),
        *(fixing.item, fixing.count, fixing.reason, float(fixing.glue), fixing.remark),
    ]


def _percent(share: Fraction) -> int:
    return round(100 * share)


# ── to read ───────────────────────────────────────────────────────────────────────────────────


def basket_text(
    found: Basket, others: Sequence[Alternative] = (), across: int | None = None
) -> str:
    """A basket to read: what to buy, the total, what else could be bought, and what it is for.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.shopping import basket
    >>> from hivecalc.stock import demo_yard
    >>> print(basket_text(basket([demo_hive()], demo_yard())).splitlines()[0])
    Orchard hive: what to buy
    """
    heading = f"{seen(hives_text(found))}: what to buy"
    return "\n".join(
        (
            f"{wrapped(heading)}\n",
            *_sections(found, across),
            _total(found),
            *_missing(found),
            *_other_ways(found, others, across),
            *_joints_text(found, across),
        )
    )


def hives_text(found: Basket) -> str:
    """The hives that a basket is for.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.shopping import basket
    >>> from hivecalc.stock import demo_yard
    >>> hives_text(basket([demo_hive()] * 3, demo_yard()))
    'Orchard hive × 3'
    """
    return ", ".join(so_many(alike.name, alike.count) for alike in found.joints)


def so_many(name: str, count: int) -> str:
    """A hive's name, and how many there are of it if there are several.

    >>> so_many("Orchard hive", 1), so_many("Orchard hive", 12)
    ('Orchard hive', 'Orchard hive × 12')
    """
    return f"{name}{f' × {count:,}' * (count > 1)}"


def _sections(found: Basket, across: int | None) -> Iterator[str]:
    for heading, groups in named_groups(found):
        if any(group.lines for group in groups):
            yield _section(heading, groups, across)


def named_groups(found: Basket) -> tuple[tuple[str, tuple[Group, ...]], ...]:
    """The groups of a basket under their headings, in the order to tell them.

    >>> [heading for heading, _ in named_groups(Basket("coins", (), (), ()))]
    ['Boards', 'Sheets', 'Small goods']
    """
    return ("Boards", found.boards), ("Sheets", found.sheets), ("Small goods", found.small)


def _section(heading: str, groups: Sequence[Group], across: int | None) -> str:
    lines = [line for group in groups for line in group.lines]
    rows = zip(
        (line.count for line in lines),
        (f"{line.name}{', at hand' * line.at_hand}" for line in lines),
        _in_line([amount_text(line.price) for line in lines]),
        _in_line([amount_text(line.cost) for line in lines]),
        (f"{_percent(line.used)} %" for line in lines),
        ("; ".join(line.left_over) for line in lines),
        strict=True,
    )
    columns = ("count", "what", "price", "cost", "used", "left over")
    table = text_table(Table(columns, [list(row) for row in rows]), across)
    notes = (wrapped(seen(group_note(g)), "  ") for g in groups if g.lines)
    return f"{heading}\n{table}" + "".join(f"{note}\n" for note in notes)


def group_note(group: Group) -> str:
    """What a group is for, and what is not sure about it.

    >>> group_note(Group("long brads", (), "48 counted joint by joint"))
    'long brads: 48 counted joint by joint.'
    """
    better = () if group.proved else (UNPROVED,)
    return " ".join((f"{group.name}: {group.why}.", *group.notes, *better))


def amount_text(money: Money | None) -> str:
    """An amount, or a sign that it is not known.

    >>> amount_text(Fraction(9, 2)), amount_text(None)
    ('4.50', '?')
    """
    return UNKNOWN if money is None else amount(money)


def _in_line(amounts: Sequence[str]) -> list[str]:
    """Return amounts so that they end in one line."""
    most = max(map(len, amounts))
    return [text.rjust(most) for text in amounts]


def _total(found: Basket) -> str:
    said = seen(found.total_text)
    told = (said, INVENTED, CARE) if found.invented else (said, CARE)
    return "".join(f"{wrapped(line)}\n" for line in told)


def _missing(found: Basket) -> Iterator[str]:
    lines = [
        wrapped(seen(f"{left.count:,} × {left.label}: {left.why}."), "  ", "    ")
        for left in found.unplanned
    ]
    if lines:
        yield "Not to be had\n" + "".join(f"{line}\n" for line in lines)


def _other_ways(found: Basket, others: Sequence[Alternative], across: int | None) -> Iterator[str]:
    rows: list[list[Cell]] = [
        [other.instead.name, other.name, other.told(found.currency)] for other in others
    ]
    if rows:
        yield f"What else you could buy\n{text_table(Table(('for', 'buy', ''), rows), across)}"


def _joints_text(found: Basket, across: int | None) -> Iterator[str]:
    for alike in found.joints:
        rows = [_fixing_row(fixing) for fixing in alike.fixings if fixing.item]
        table = text_table(Table(("component", "joint", "count", "why"), rows), across)
        remarks = {
            f"{title(f.component)}, {f.joint}: {f.remark}": None for f in alike.fixings if f.remark
        }
        told = "".join(f"{wrapped(seen(remark), '  ')}\n" for remark in remarks)
        yield f"{seen(alike.name)}, joint by joint, for one hive\n{table}{told}"


def _fixing_row(fixing: Fixing) -> list[Cell]:
    item = ITEMS[fixing.item]
    return [title(fixing.component), fixing.joint, item.named(fixing.count), fixing.reason]
