"""The pictures of a lesson: those with a name, the view in space, the still one at its top.

`python -m hivecalc.pages.views .` draws the still ones, of the demo hive. They are files beside the
lessons, so they are there before anything runs, and hold hardly a figure and none that is asked.
"""

import sys
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Final, cast

from hivecalc.answers import Answers
from hivecalc.components import DIMENSIONS, MODULES, built, parts_of, values
from hivecalc.derivation import Dimension, title
from hivecalc.drawing import Picture, Subject, plan, section, stack
from hivecalc.drawing.boards import cut_off, real_boards
from hivecalc.drawing.bottom_board import RAILS
from hivecalc.drawing.canvas import MARGIN, Canvas
from hivecalc.drawing.frame import out_of_square
from hivecalc.drawing.in_space import in_space, lies, size_figures
from hivecalc.drawing.inner_cover import exploded_inner_cover
from hivecalc.drawing.nested import nested
from hivecalc.drawing.prisms import not_hidden, paint
from hivecalc.drawing.roof_section import roof_section
from hivecalc.drawing.tape import tape_to_read
from hivecalc.drawing.whole_hive import ACROSS, across, apart, down, exploded_hive, eye_on, layers
from hivecalc.hive import HIVE_SIZES, Hive, demo_hive, write_whole
from hivecalc.length import MM, Length
from hivecalc.pages import workshop
from hivecalc.pages.contents import found_on, lessons
from hivecalc.pages.messages import Outcome, message, picture
from hivecalc.space import AXES, Contact, Solid, contacts, only_these, solids
from hivecalc.space.roof import fall
from hivecalc.workshop import demo_yard


@dataclass(frozen=True)
class ComponentView:
    """A picture of one component: as it is, with a piece cut wrong, and after a change."""

    component: str
    draw: Callable[[Subject], Picture]
    shown: frozenset[str] | None = None  # the parts that can be built in wrong; None: all
    around: tuple[str, ...] = ()  # other components that are seen in it

    @property
    def components(self) -> tuple[str, ...]:
        """Every component that is seen in it."""
        return self.component, *self.around

    def cuts(self, name: str) -> bool:
        """Whether this is a size that somebody cuts, of a part that is seen in the picture."""
        seen = self.shown
        parts = (p for p in MODULES[self.component].PARTS if seen is None or p.name in seen)
        sizes = {f"{self.component}.{p.name}_{size}" for p in parts for size, _ in p.sizes()}
        return name in sizes and not DIMENSIONS.dimension(name).as_measured

    def of(self, hive: Hive) -> Picture:
        """The picture of this hive as it is."""
        return self.draw(Subject(values(hive), units=hive.units, name=hive.name))

    def to_work_out(
        self, hive: Hive, found: Collection[str] = (), lit: Collection[str] = ()
    ) -> Picture:
        """The picture of this hive with "?" for what has to be worked out and was not found yet.

        Pieces with a label that is `lit` are lit up.
        """
        true, known = values(hive), {*found, *hive.measurements}
        subject = Subject(true, units=hive.units, name=hive.name, asked=True, found=known, lit=lit)
        return self.draw(subject)

    def with_cut(self, hive: Hive, cut: Mapping[str, Fraction], *, asked: bool = False) -> Picture:
        """The picture of this hive with pieces of these sizes built in.

        What is `asked` for stands there as "?", and no amount is shown.
        """
        true = values(hive)
        as_cut = values(hive, only_these(true, cut))
        return self.draw(Subject(as_cut, true, hive.units, hive.name, wrong=True, asked=asked))

    def after(self, before: Hive, now: Hive) -> Picture:
        """The picture of a changed hive, with what it was before."""
        return self.draw(Subject(values(now), values(before), now.units, now.name))


VIEWS = {
    "plan": ComponentView("bottom_board", plan, frozenset(RAILS)),
    "section": ComponentView("bottom_board", section),
    "stack": ComponentView("bottom_board", stack),
    "roof": ComponentView("roof", roof_section),
    "inner cover": ComponentView("inner_cover", exploded_inner_cover),
    "box": ComponentView("box", nested, frozenset(), ("sleeve",)),
}


def real_boards_text(hive: Hive) -> str:
    """The ends of real boards, beside the sizes of their names."""
    return picture(real_boards(units=hive.units))


def pulled_apart(hive: Hive) -> str:
    """The whole hive pulled apart, with part numbers."""
    subject = Subject(values(hive), units=hive.units, name=hive.name)
    return picture(exploded_hive(subject, built(hive)))


# ── in space ──────────────────────────────────────────────────────────────────────────────────

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
        (f"{title(c)}: {title(p.name)}" if several else title(p.name), f"{c}.{p.name}")
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
    sizes, lit = values(hive), view.lit
    drawn = in_space(
        sizes, components, turn=view.turn, opened=view.opened / 100, lit=lit, asked=asked,
        units=hive.units, name=hive.name,
    )  # fmt: skip
    if not lit:
        said = "Turn it, take it apart, and choose a part to see how it lies and what it measures."
        return Outcome(message("note", said), drawn)
    component, _, part = lit.partition(".")
    pieces = solids(sizes, component)
    own = [s for s in pieces if s.part == part]
    times = f" × {len(own)}" if len(own) > 1 else ""
    place = ", ".join((lies(own[0]), *where(own[0], pieces)))
    figures = ", ".join(size_figures(sizes, own[0], hive.units, asked).values())
    said = f"{title(part).capitalize()}{times}: {place}."
    return Outcome(message("note", said, f"{figures}.".capitalize()), drawn)


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
        if dimension.component in components and not is_measured(dimension, hive)
    }
    return frozenset(left | (worked_out - found))


def is_measured(dimension: Dimension, hive: Hive) -> bool:
    """Whether it is a size as the hive's builder measured it or chose it."""
    return dimension.as_measured and dimension.inputs[0] in hive.measurements


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
    touching = [
        (c, c.second if c.first == solid else c.first)
        for c in contacts(pieces)
        if solid in (c.first, c.second)
    ]
    ends = [other for c, other in touching if _is_at_end(c, solid)]
    met = {other.part for other in ends}  # what is covered and met interlocks
    covered = [o for c, o in touching if _is_at_end(c, o) and o.part not in met]
    texts = []
    if ends:
        axis = solid.along.index("length")
        far = {sum(other.extents[axis]) > sum(solid.extents[axis]) for other in ends}
        texts.append(f"{'between' if len(far) > 1 else 'against'} {_named(ends)}")
    if covered:
        texts.append(f"over the ends of {_named(covered)}")
    return texts


def _is_at_end(contact: Contact, solid: Solid) -> bool:
    """Whether a piece meets another with an end of its length."""
    return bool(solid.along) and solid.along[AXES.index(contact.axis)] == "length"


def _named(pieces: Sequence[Solid]) -> str:
    """Pieces as one says them: "the side rails", "the front rail and the back rail"."""
    parts = list(dict.fromkeys(piece.part for piece in pieces))
    counts = {part: len({p.name for p in pieces if p.part == part}) for part in parts}
    return " and ".join(f"the {title(p)}{'s' if counts[p] > 1 else ''}" for p in parts)


# ── the still picture at the top of a lesson ──────────────────────────────────────────────────

HIVE: Final = demo_hive()
BOX: Final = Hive(HIVE.name, "inch", {}, {"frames": Fraction(10)})
ROOM, HIGH, GAP = 480.0, 340.0, 1.5  # of the hive pulled apart, in sheet units; inches


def _apart(hive: Hive, *components: str) -> Picture:
    """Draw some components pulled apart, from the lowest up, without labels."""
    true = values(hive)
    pieces = [layer for name in components for layer in layers(name, solids(true, name))]
    lifted = apart(pieces, GAP, float(fall(true)))
    (left, right), (top, bottom) = across(lifted), down(lifted)
    scale = min(ROOM / (right - left) / ACROSS, HIGH / (bottom - top))
    room = (right - left) * ACROSS * scale
    canvas = Canvas(room + 2 * MARGIN)
    _, seen = eye_on(lifted, MARGIN, MARGIN + room, MARGIN, scale)
    with canvas.view("exploded", scale):
        paint(canvas, not_hidden(seen))
    named = ", ".join(map(title, components))
    words = f"From below upwards: {named}. The front is at the lower left."
    return canvas.picture("Pulled apart", words, (bottom - top) * scale + 2 * MARGIN)


def _leaning(hive: Hive, lean: Length) -> Picture:
    length, width = (hive.measured[name] for name in HIVE_SIZES)
    return out_of_square(length, width, lean, units=hive.units, name=hive.name)


def _shown(outcome: Outcome) -> Picture:
    return cast("Picture", outcome.picture)  # not one by matplotlib


FIRST_PICTURES: Final[Mapping[str, Callable[[], Picture]]] = {
    "your-hive-and-your-tape": lambda: tape_to_read(Fraction(173, 8)),
    "inches-fractions-and-real-boards": lambda: tape_to_read(443 * MM, "mm"),
    "the-frame-of-the-bottom-board": lambda: _apart(HIVE, "bottom_board"),
    "runners-slot-and-panel": lambda: _apart(HIVE, "bottom_board"),
    "the-screen-that-pulls-out": lambda: _apart(HIVE, "bottom_board"),
    "the-roof": lambda: _apart(HIVE, "roof"),
    "the-inner-cover": lambda: _apart(HIVE, "inner_cover"),
    "the-box-and-its-sleeve": lambda: _apart(BOX, "box", "sleeve"),
    "will-it-go-together": lambda: _leaning(HIVE, Fraction(13, 32)),
    "what-to-buy": lambda: _shown(workshop.bought(HIVE, demo_yard(), "1")),
    "cutting-it-out-of-boards-and-sheets": lambda: cut_off(Fraction(96), Fraction(173, 8)),
    "at-the-saw": lambda: _shown(workshop.fence(HIVE, demo_yard(), "1/8 in")),
    "why-insulate": lambda: _apart(BOX, "box", "sleeve"),
    "wood-moves": real_boards,
    "putting-it-together": lambda: _apart(HIVE, *to_look_at(HIVE, ())[::-1]),
    "your-hive-book": lambda: _apart(HIVE, *to_look_at(HIVE, ())[::-1]),
}
"""What each lesson begins with, by the words in its file's name."""

METRIC: Final = demo_hive("mm")
FIRST_IN_MM: Final[Mapping[str, Callable[[], Picture]]] = {
    "will-it-go-together": lambda: _leaning(METRIC, 10 * MM),
    "cutting-it-out-of-boards-and-sheets": lambda: cut_off(2400 * MM, 550 * MM, units="mm"),
    "at-the-saw": lambda: _shown(workshop.fence(METRIC, demo_yard("mm"), "3.2 mm")),
    "wood-moves": lambda: real_boards(units="mm"),
}
"""The same for a tape in mm, of those on which sizes stand; it stands before the other.

The page hides one of both: what follows a picture costs less to find than what comes before it.
"""


def first_pictures(lesson: Path) -> dict[str, str]:
    """The still pictures of the lesson in this notebook, by the names of their SVG files."""
    name = lesson.stem.partition("-")[2]
    drawn = {
        f"{lesson.stem}-mm.svg": FIRST_IN_MM.get(name),
        f"{lesson.stem}.svg": FIRST_PICTURES[name],
    }
    return {file: draw().file() for file, draw in drawn.items() if draw}


def write_first_pictures(root: Path) -> None:
    """Write the pictures of each lesson that is in root/workbook, under the lesson's own name."""
    for lesson in sorted((root / "workbook").glob("*.ipynb")):
        for name, text in first_pictures(lesson).items():
            write_whole(lesson.parent / "pictures" / name, text)


if __name__ == "__main__":
    write_first_pictures(Path(sys.argv[1]))
