"""A basket as one SVG file: a bar as long as its cost for everything that is bought."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final

from hivecalc.drawing.cutting import Bar, bars
from hivecalc.drawing.page import Page
from hivecalc.shopping import Alternative, Basket, Group, Line, paid
from hivecalc.tables.drawn.words import named, write_missing
from hivecalc.tables.shop import CARE, INVENTED, group_note, hives_text, named_groups

TITLE: Final = "what to buy"
SCALE: Final = "A bar as long as a picture is wide stands for {}, in every picture."
NO_PRICE: Final = "no price, so no bar"


def basket_drawn(found: Basket, others: Sequence[Alternative] = (), *, name: str = "") -> str:
    """A basket as an SVG file: all lines as bars to one scale, the total, other ways to buy.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.shopping import basket
    >>> from hivecalc.stock import demo_yard
    >>> svg = basket_drawn(basket([demo_hive()], demo_yard()))
    >>> svg.count("<title"), "1 × 8 ft 2x4: 4 coins" in svg
    (1, True)

    `name`, where it is given, stands in the title for the hives' own names.
    """
    page, title = Page(), named(name or hives_text(found), TITLE)
    page.begin(title)
    page.write(*_first(found))
    _draw_bars(page, found)
    write_missing(page, found.unplanned)
    if others:
        page.begin("What else you could buy")
        page.write(*(_other(other, found.currency) for other in others))
    return page.file(title)


def _first(found: Basket) -> Iterator[str]:
    """Return what goes for the whole basket."""
    yield found.total_text
    if found.invented:
        yield INVENTED
    yield from map(str, found.left_out)
    yield CARE
    if most := _most(found):
        yield SCALE.format(paid(most, found.currency))


def _most(found: Basket) -> Fraction:
    """Return what the dearest line costs."""
    return max((line.cost for line in found.lines if line.cost is not None), default=Fraction(0))


def _draw_bars(page: Page, found: Basket) -> None:
    for heading, groups in named_groups(found):
        bought = [group for group in groups if group.lines]
        if bought:
            page.begin(heading)
            page.hang(_group(group, found) for group in bought)


def _group(group: Group, found: Basket) -> str:
    """Return the picture of a group: a bar for each line, and what the group is for."""
    cell = Page(abreast=1)
    told = [_bar(line, found.currency) for line in group.lines]
    cell.hang([bars(group.name, told, most=_most(found))])
    cell.write(group_note(group))
    return cell.picture()


def _bar(line: Line, currency: str) -> Bar:
    return Bar(
        f"{line.count:,} × {line.name}{', at hand' * line.at_hand}",
        line.cost,
        _cost(line, currency),
    )


def _cost(line: Line, currency: str) -> str:
    """Return what a line costs, and one of it where there are several."""
    if line.cost is None or line.price is None:
        return NO_PRICE
    each = f", {paid(line.price, currency)} each" if line.count > 1 else ""
    return f"{paid(line.cost, currency)}{each}"


def _other(other: Alternative, currency: str) -> str:
    return f"For {other.instead.name}: {other.name}: {other.told(currency)}."
