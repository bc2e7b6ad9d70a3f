"""The steps of putting one hive together: what comes in, which joints that makes, what is said."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Final

from hivecalc.assembly.order import PHRASES, ROWS, Comes, Row
from hivecalc.components import LEAST_BEARING, MODULES, built, values
from hivecalc.derivation import Values
from hivecalc.hive import Hive
from hivecalc.length import MARKS, Rounding, rounded, with_unit
from hivecalc.measuring import SQUARE_ENOUGH
from hivecalc.space import Joint, Loose, Solid, held, is_kind, joints, stacked
from hivecalc.support.faults import sentence
from hivecalc.workshop.basket import Fixing, fixings_of
from hivecalc.workshop.cautions import DRILL, FOAM, GLUE, MESH, NAILS, Caution
from hivecalc.workshop.yard import ITEMS

WHOLE: Final = "hive"
"""What is worked on where the whole hive is set up."""
STANDS_FOR: Final[Mapping[str, tuple[str, ...]]] = {
    "box above": ("box",),
    "box below": ("box",),
    "top bars": ("box",),
    "cover above": ("inner_cover", "roof"),
    "inner cover below": ("inner_cover",),
    "roof above": ("roof",),
}
"""What a plain block beside a component is when the hive is set up: the first of these there is."""
THERE: Final = "box inside"
"""The box that a sleeve is put round: it was there before."""


@dataclass(frozen=True)
class Step:
    """One step for one hive: what comes in, what it joins by what, and what is done.

    `joints` are those that this step makes, each with its component; `fixings` what holds them and
    `loose` why others need nothing. `shown` are the names of the pieces that are there after it,
    without what is taken `off` while it is done; of what is made apart, only that. `puts` are the
    names of pieces that were made apart and are put in now. `sets` are the components that it sets
    where they belong.
    """

    key: str
    title: str
    pieces: tuple[Solid, ...]
    shown: tuple[str, ...]
    joints: tuple[tuple[str, Joint], ...]
    fixings: tuple[Fixing, ...]
    loose: tuple[str, ...]
    do: tuple[str, ...]
    why: str
    check: str
    comes: Comes
    puts: tuple[str, ...]
    off: tuple[str, ...]
    sets: tuple[str, ...]
    cautions: tuple[Caution, ...]

    @property
    def component(self) -> str:
        """The component that is worked on; "hive" where the whole is set up."""
        return self.key.partition(".")[0]

    @property
    def holds(self) -> tuple[str, ...]:
        """What holds the joints that it makes, a sentence for each kind of joint.

        >>> from hivecalc.hive import demo_hive
        >>> steps(demo_hive())[1].holds
        ('Side rail to front rail: 4 screws of 3 in, and glue.',)
        """
        held = []
        for fixing in self.fixings:
            glue = ", and glue" if fixing.glue and fixing.item else ""
            held.append(f"{sentence(fixing.joint)}: {fixing.takes}{glue}.")
        return (*held, *self.loose)


def taken(fixings: Iterable[Fixing]) -> str:
    """How many fasteners of each kind some joints take together, and glue where there is some.

    >>> from hivecalc.hive import demo_hive
    >>> taken(steps(demo_hive())[5].fixings)
    '5 deck screws of 1 5/8 in, glue'
    """
    found = tuple(fixings)
    counted = Counter[tuple[str, str]]()
    for fixing in found:
        counted[fixing.item, fixing.size] += fixing.count
    texts = [ITEMS[item].named(count, size) for (item, size), count in counted.items() if item]
    return ", ".join([*texts, *(["glue"] if any(each.glue for each in found) else [])])


def steps(hive: Hive) -> tuple[Step, ...]:
    """Every step for this hive, in order.

    >>> from hivecalc.hive import demo_hive
    >>> front = steps(demo_hive())[1]
    >>> front.title, [piece.words for piece in front.pieces]
    ('Glue in the front rail', ['front rail'])
    """
    return tuple(_Work(hive).steps())


@dataclass(frozen=True)
class _Work:
    """The work on one hive: its rows, its pieces where they stand, its joints."""

    hive: Hive

    @cached_property
    def sizes(self) -> Values:
        return values(self.hive)

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """The rows of what is built for this hive."""
        there = (WHOLE, *built(self.hive))
        choices = self.sizes | {c: Fraction(c in there) for c in MODULES}
        return tuple(r for r in ROWS if r.component in there and choices.get(r.only, True))

    @cached_property
    def pieces(self) -> tuple[Solid, ...]:
        """Every piece in its place; walls that stand for a box that is not built are left out."""
        return tuple(s for s in stacked(self.sizes, built(self.hive)) if s.part != "wall")

    @cached_property
    def joints(self) -> dict[int, list[tuple[str, Joint]]]:
        """The joints that each row makes, by the number of the row."""
        made: dict[int, list[tuple[str, Joint]]] = {n: [] for n in range(len(self.rows))}
        for component in built(self.hive):
            for joint in joints(self.sizes, component):
                made[self._made_by(component, joint)].append((component, joint))
        return made

    def _made_by(self, component: str, joint: Joint) -> int:
        """The row by which both pieces of a joint are there, in what is worked on or set up."""
        brought = [self._brought_by(component, label) for label in joint[:2]]
        first, second = (self.rows[number].work for number in brought)
        if first and first == second:
            return max(brought)
        later = {row.puts: number for number, row in enumerate(self.rows)}  # what was made apart
        return max(later[w] if w else n for w, n in zip((first, second), brought, strict=True))

    def _brought_by(self, component: str, label: str) -> int:
        """The row that brings a piece, or what a plain block stands for, where it belongs."""
        if label == THERE:
            return 0
        if label in STANDS_FOR:
            return max(self._set_by(component), self._set_by(*STANDS_FOR[label]))
        for n, row in enumerate(self.rows):
            if row.component == component and any(is_kind(label, kind) for kind in row.brings):
                return n
        raise ValueError(f"{component}: no row of assembly/order.py brings the {label}")

    def _set_by(self, *components: str) -> int:
        """The row that sets the first of some components that there is."""
        rows = self.rows
        return next(n for c in components for n, row in enumerate(rows) if c in row.sets)

    def steps(self) -> Iterator[Step]:
        brought: list[tuple[str, str]] = []
        for number, row in enumerate(self.rows):
            new = tuple(s for s in self.pieces if _is_among(s, row, row.brings))
            brought += [(s.name, row.work) for s in new]
            off = tuple(s.name for s in self.pieces if _is_among(s, row, row.off))
            here = (name for name, work in brought if not row.work or work == row.work)
            made = self.joints[number]
            met = {c: [joint for component, joint in made if component == c] for c, _ in made}
            fixings = tuple(f for c, own in met.items() for f in fixings_of(self.hive, c, own))
            ways = [way for c, own in met.items() for way, _ in held(own, c)]
            loose = [w.why for w in ways if isinstance(w, Loose) and not w.glued]
            yield Step(
                key=row.key, title=row.title, pieces=new,
                shown=tuple(name for name in here if name not in off),
                joints=tuple(made), fixings=fixings, loose=tuple(dict.fromkeys(loose)),
                do=tuple(filter(None, map(self._said, row.do.split("\n")))),
                why=self._said(row.why), check=self._said(row.check), comes=row.comes,
                puts=tuple(name for name, work in brought if work and work == row.puts),
                off=off, sets=row.sets,
                cautions=tuple(dict.fromkeys((*_cautions(new, fixings), *row.care))),
            )  # fmt: skip

    def _said(self, text: str) -> str:
        return text.format_map(self._words).strip()

    @cached_property
    def _words(self) -> Mapping[str, str]:
        found, many = self.sizes, int(self.sizes["boxes"])
        named = {
            "bolt_hole": found["bolt_hole"],
            "slot_height": found["bottom_board.slot_height"],
            "mesh_margin": found["mesh_margin"],
            "way_in": found["bottom_board.way_in"],
            "deck_overhang": found["roof.deck_overhang"],
            "skirt_below": found["skirt_width"] - found["rim_low_height"],
            "square_enough": rounded(SQUARE_ENOUGH, MARKS[self.hive.units], Rounding.DOWN),
        }
        sloped, bare = found["roof.slope"] > 0, found.get("sleeve.bearing", LEAST_BEARING)
        only_if = {
            "each_box": (many > 1, f"Do the same with each of the {many} boxes."),
            "on_top": (many > 1, "Set the next box on the first, flush all round."),
            "glued_strips": (bare < LEAST_BEARING, "Glue the lower ones, too: they carry the box."),
            "notch": (found["inner_notch"] > 0,
                      "The two front pieces leave the notch between them, in the middle."),
            "plane_skirt": (sloped,
                            "Behind, the deck comes down on it: plane its top edge to the slope."),
            "plane": (sloped, ("When it is hard, plane front and back on top until they follow the "
                               "slope of the sides.")),
            "tilt": (not sloped, "The roof is flat: let the stand lean a little to the front."),
        }  # fmt: skip
        figures = {name: with_unit(self.hive.units, size) for name, size in named.items()}
        return {
            **figures,
            **{name: phrase.format_map(figures) for name, phrase in PHRASES.items()},
            **{name: text if so else "" for name, (so, text) in only_if.items()},
        }


def _is_among(piece: Solid, row: Row, kinds: Sequence[str]) -> bool:
    return piece.component == row.component and any(is_kind(piece.label, k) for k in kinds)


def _cautions(pieces: Sequence[Solid], fixings: Sequence[Fixing]) -> Iterator[Caution]:
    items = {fixing.item for fixing in fixings}
    if any(item.endswith(("screw", "bolt")) for item in items):
        yield DRILL
    if any(item.endswith("brad") for item in items):
        yield NAILS
    if any(fixing.glue for fixing in fixings) or "silicone" in items:
        yield GLUE
    if any(piece.part == "mesh" for piece in pieces):
        yield MESH
    if any("foam" in piece.part or piece.part.endswith("panel") for piece in pieces):
        yield FOAM
