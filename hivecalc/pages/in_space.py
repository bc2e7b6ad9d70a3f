"""The view in space on a page: which parts can be lit, what is said of one, what it may tell."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from hivecalc.answers import Answers
from hivecalc.components import DIMENSIONS, built, parts_of, values
from hivecalc.derivation import Dimension
from hivecalc.drawing.in_space import in_space, lies, size_figures
from hivecalc.hive import Hive
from hivecalc.pages.contents import found_on, lessons
from hivecalc.pages.messages import Outcome, message
from hivecalc.space import AXES, Contact, Solid, contacts, solids

WHOLE = ("roof", "inner_cover", "sleeve", "box", "bottom_board")  # as they are seen from above


@dataclass(frozen=True)
class Viewpoint:
    """What a learner chose: how far it is turned and taken apart, in percent, and what is lit."""

    turn: int = 30
    opened: int = 0
    lit: str = ""


def to_look_at(hive: Hive, components: Sequence[str]) -> tuple[str, ...]:
    """The components that are looked at: those asked for that are built, or the whole hive."""
    return tuple(c for c in components or WHOLE if c in built(hive))


def parts_to_light(hive: Hive, components: Sequence[str]) -> list[tuple[str, str]]:
    """Each part of some components that can be lit: what it is called, and its name."""
    sizes = values(hive)
    several = len(components) > 1
    return [
        (f"{_words(c)}: {_words(p.name)}" if several else _words(p.name), f"{c}.{p.name}")
        for c in components
        for p in parts_of(c, sizes)
    ]


def turned(
    hive: Hive, asked: Collection[str], components: Sequence[str], view: Viewpoint
) -> Outcome:
    """The picture of some components as somebody looks at them, and what is said of what is lit.

    There is a "?" for the dimensions that are still `asked`.
    """
    if not components:
        return Outcome(message("note", "This hive has none, as it is built."), "")
    drawn = in_space(
        values(hive),
        components,
        turn=view.turn,
        opened=view.opened / 100,
        lit=view.lit,
        asked=asked,
        units=hive.units,
        name=hive.name,
    )
    return Outcome(message("note", *_told(hive, view.lit, asked)), drawn)


def still_asked(hive: Hive, answers: Answers) -> frozenset[str]:
    """The dimensions whose figures would give away what a learner is still to find.

    What lessons ask, and what is worked out in a component of which they ask something.
    """
    in_lessons = {
        name for lesson in lessons() for name in lesson.asks if name in DIMENSIONS.dimensions
    }
    left = in_lessons - found_on(hive, answers)
    components = {DIMENSIONS.dimension(name).component for name in left}
    found = in_lessons - left
    worked_out = {
        name
        for name, dimension in DIMENSIONS.dimensions.items()
        if dimension.component in components and not _is_measured(dimension, hive)
    }
    return frozenset(left | (worked_out - found))


def _is_measured(dimension: Dimension, hive: Hive) -> bool:
    """Whether it is a size as the hive's builder measured it or chose it."""
    return dimension.as_measured and dimension.inputs[0] in hive.measurements


def _told(hive: Hive, lit: str, asked: Collection[str]) -> Iterator[str]:
    """What is said of the part that is lit: how it lies, what it meets, how large it is."""
    if not lit:
        yield "Turn it, take it apart, and choose a part to see how it lies and what it measures."
        return
    component, _, part = lit.partition(".")
    pieces = solids(values(hive), component)
    own = [s for s in pieces if s.part == part]
    times = f" × {len(own)}" if len(own) > 1 else ""
    place = "".join(f", {each}" for each in where(own[0], pieces))
    yield f"{_words(part).capitalize()}{times}: {lies(own[0])}{place}."
    sizes = size_figures(values(hive), own[0], hive.units, asked)
    yield f"{', '.join(sizes.values())}.".capitalize()


def where(solid: Solid, pieces: Sequence[Solid]) -> list[str]:
    """What a piece's ends meet, and whose ends it covers.

    >>> from hivecalc.components import values
    >>> from hivecalc.hive import demo_hive
    >>> pieces = solids(values(demo_hive()), "bottom_board")
    >>> where(pieces[2], pieces)
    ['between the side rails']
    >>> where(pieces[3], pieces)
    ['over the ends of the side rails']
    """
    touching = [c for c in contacts(pieces) if solid in (c.first, c.second)]
    ends = [_other(c, solid) for c in touching if _is_at_end(c, solid)]
    met = {other.part for other in ends}
    others = [_other(c, solid) for c in touching if _is_at_end(c, _other(c, solid))]
    covered = [other for other in others if other.part not in met]  # else the two interlock
    told = []
    if ends:
        opposite = any(_face(a, solid) != _face(b, solid) for a, b in combinations(ends, 2))
        told.append(f"{'between' if opposite else 'against'} {_named(ends)}")
    if covered:
        told.append(f"over the ends of {_named(covered)}")
    return told


def _other(contact: Contact, solid: Solid) -> Solid:
    return contact.second if contact.first == solid else contact.first


def _is_at_end(contact: Contact, solid: Solid) -> bool:
    """Whether a piece meets another with an end of its length."""
    return bool(solid.along) and solid.along[AXES.index(contact.axis)] == "length"


def _face(other: Solid, solid: Solid) -> bool:
    """Whether another piece lies at the far end of this one."""
    axis = solid.along.index("length")
    (low, high), (start, end) = other.extents[axis], solid.extents[axis]
    return low + high > start + end


def _named(pieces: Sequence[Solid]) -> str:
    """Pieces as one says them: "the side rails", "the front rail and the back rail"."""
    parts = list(dict.fromkeys(piece.part for piece in pieces))
    counts = {part: len({p.name for p in pieces if p.part == part}) for part in parts}
    return " and ".join(f"the {_words(p)}{'s' if counts[p] > 1 else ''}" for p in parts)


def _words(name: str) -> str:
    return name.replace("_", " ")
