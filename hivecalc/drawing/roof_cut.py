"""The roof cut along its middle: its pieces drawn, what is measured on it, what does not go."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import hypot
from typing import TypeAlias

from hivecalc.drawing.canvas import HIDDEN, OUTLINE, PAPER, THIN, Canvas, Finish
from hivecalc.drawing.faults import SPACE_TAKEN_TWICE, SlopingSeen, Telling, part
from hivecalc.drawing.labels import Mark
from hivecalc.drawing.layout import Point
from hivecalc.drawing.roof_screws import Screw, Where, screws
from hivecalc.drawing.subject import Sizes, Subject
from hivecalc.drawing.view import Outline, Piece, View, cut_finish, floated
from hivecalc.length import MM, Length, shown
from hivecalc.space import Solid
from hivecalc.space.roof import fall
from hivecalc.space.solids import Profile

Pieces: TypeAlias = Mapping[str, Solid]
BEYOND = ("skirt side, left", "rim side, left", "roof retainer, left")
HUNG = ("roof panel", "roof retainer, left")
ENDS: tuple[Where, Where] = ("front", "back")
HEIGHT = 2  # the axis that runs up
LEVEL = Fraction(1, 32)  # inches: an overhang that is shorter by less than this on the slope


@dataclass(frozen=True)
class Measure:
    """A length that is found on the assembled roof: itself, as it was before, and its word."""

    name: str
    word: str
    now: Length
    before: Length

    def lines(self, subject: Subject) -> tuple[str, ...]:
        """The word and the length, and below it the one to compare it with, if it is another."""
        same = self.now == self.before
        if subject.asked:
            return subject.told(self.word, subject.figure(self.name) if same else "?", None)
        return subject.told(self.word, subject.shown(self.now), None if same else self.before)

    @property
    def mark(self) -> Mark:
        """How a label with this length is marked."""
        return "plain" if self.now == self.before else "changed"


@dataclass(frozen=True)
class CutRoof:
    """The roof cut along its middle, ready to be drawn through any view."""

    subject: Subject

    def profile(self, label: str) -> Profile:
        """The outline of a piece in the section, or of what the roof meets."""
        solid = self.subject.solids.get(label) or self.subject.met[label]
        return solid.blocks[0].profile

    def has(self, label: str) -> bool:
        """Whether the roof has such a piece or meets it."""
        return label in self.subject.solids or label in self.subject.met

    @property
    def box_top(self) -> Length:
        """How high the box's top lies, from the rim's foot: lower by an inner cover's height."""
        return self.subject.met["box below"].extents[HEIGHT][1]

    @cached_property
    def top(self) -> Outline:
        """The cover's upper face: its front and its back edge."""
        *_, back, front = floated(self.profile("cover"))
        return [front, back]

    @cached_property
    def up(self) -> Point:
        """The way square to the slope, upwards, one inch long."""
        (y0, z0), (y1, z1) = self.top
        long = hypot(y1 - y0, z1 - z0)
        return float(z0 - z1) / long, float(y1 - y0) / long

    def back_edge(self, view: View) -> Point:
        """The cover's back edge on the sheet."""
        y, z = self.top[1]
        return view.x(y), view.y(z)

    @cached_property
    def screws(self) -> dict[Where, list[Screw]]:
        """The screws at each end."""
        return {where: screws(self.subject.solids, self.subject.now, where) for where in ENDS}

    # Drawn

    def draw(self, canvas: Canvas, view: View) -> None:
        """Draw as much of the roof as the view shows, with what does not go marked."""
        for piece in self._behind:
            view.draw(canvas, *piece)
        view.draw_beside(canvas, self._pieces)
        self.telling(view).mark(canvas, view)
        view.draw_beside(canvas, (screw.piece for where in ENDS for screw in self.screws[where]))

    def telling(self, view: View) -> Telling:
        """The faults of a wrong cut, ready to be marked and told beside this view."""
        return Telling(self.seen, view, self.draw)

    @cached_property
    def seen(self) -> SlopingSeen:
        """What the section shows of a wrong cut; of twins it sees one, and names no side.

        What is below is left out: no wrong cut of the roof moves what it stands on.
        """
        pieces = self.subject.compared(lambda s: s.place != "right" and bool(s.cut))
        true, cut = ({s.name: s for s in map(_without_side, some.values())} for some in pieces)
        return SlopingSeen(("y", "z"), true, cut, self.subject.units, self.subject.asked)

    @cached_property
    def _behind(self) -> list[Piece]:
        """What lies beyond the cut, the farthest first, then what is below."""
        beyond = [self._piece(self.subject.solids[label]) for label in BEYOND]
        below = reversed(self.subject.met.values())
        hidden = Finish(HIDDEN, PAPER)
        return [*beyond, *((floated(s.blocks[0].profile), hidden, None) for s in below)]

    @cached_property
    def _pieces(self) -> list[Piece]:
        """What is cut through, and what hangs out."""
        middle, solids = self.subject.now["hive_width"] / 2, self.subject.solids.values()
        cut = (s for s in solids if s.extents[0][0] < middle < s.extents[0][1])
        return [*map(self._piece, cut), *self._hung_out()]

    def _piece(self, solid: Solid) -> Piece:
        finish = cut_finish(solid, self.subject.pen(solid))
        if solid.label in BEYOND:
            finish = Finish(THIN if finish.pen is OUTLINE else finish.pen, PAPER)
        return floated(self.profile(solid.label)), finish, {"part": solid.label}

    def _hung_out(self) -> Iterator[Piece]:
        """The parts of a hive's own foam and retainers that hang out below the rim."""
        for label in HUNG if self._hangs_out else ():
            low = part(self.profile(label), HEIGHT, (self._lowest, Fraction(0)))
            if low:
                yield floated(low), SPACE_TAKEN_TWICE, None

    @cached_property
    def _lowest(self) -> Length:
        return min(self.subject.solids[label].extents[HEIGHT][0] for label in HUNG)

    @property
    def _hangs_out(self) -> bool:
        return self._lowest < 0 and not self.subject.wrong

    # Measured

    @cached_property
    def skirt_lap(self) -> Measure:
        """How far the skirt laps the box; less than nothing where it ends above it."""

        def found(pieces: Pieces, now: Sizes) -> Length:
            cover = now["inner_cover.overall_height"] if now["inner_cover"] else Fraction(0)
            return -cover - pieces["skirt end, front"].extents[HEIGHT][0]

        return self._measured("roof.lap", "lap on the box", found)

    @cached_property
    def lip(self) -> Measure:
        """How far the cover stands out beyond the deck."""
        return self._measured(
            "cover_lip", "lip", lambda s, _: (s["cover"].cut[1] - s["deck"].cut[1]) / 2
        )

    @cached_property
    def overhang(self) -> Measure:
        """How far the deck stands out beyond the hive, as it was cut."""
        return self._measured(
            "overhang", "overhang", lambda s, now: (s["deck"].cut[1] - now["hive_length"]) / 2
        )

    def _measured(self, name: str, word: str, found: Callable[[Pieces, Sizes], Length]) -> Measure:
        subject = self.subject
        before = found(subject.solids_before, subject.before)
        return Measure(name, word, found(subject.solids, subject.now), before)

    @property
    def level_overhang(self) -> str:
        """The overhang measured level, where the slope takes something off it."""
        level = -self.subject.solids["deck"].extents[1][0]
        if self.overhang.now - level < LEVEL or self.subject.asked:
            return ""
        return f"level {shown(level, self.subject.units)}"

    # Told

    @cached_property
    def slope(self) -> str:
        """How the roof slopes, in words."""
        if not fall(self.subject.now):
            return "The roof is flat: tilt the stand to the back, so that rain runs off there."
        if self.subject.asked:
            return "The roof falls to the back, so that rain runs off there."
        now, units, steep = self.subject.now, self.subject.units, fall(self.subject.now)
        down = now["stud_width"] - now["rim_low_height"]
        long, name = (Fraction(12), "foot") if units == "inch" else (1000 * MM, "metre")
        each = shown(steep * long, units).removeprefix("≈ ")
        over = f"{self.subject.shown(down)} to the back over {self.subject.shown(down / steep)}"
        return f"The roof falls {over}, about {each} for each {name}, so rain runs off the back."

    @cached_property
    def warnings(self) -> list[str]:
        """What does not go: a screw beside its rail, a skirt too high, foam that hangs out."""
        found = [self._landing(w, s) for w in ENDS for s in self.screws[w] if s.fault]
        if self.skirt_lap.now <= 0:
            above = self.subject.shown(-self.skirt_lap.now)
            found.append(f"The skirt ends {above} above the box: wind and rain get in.")
        if self._hangs_out:
            below = self.subject.shown(-self._lowest)
            found.append(f"Foam or retainers hang {below} below the rim: the roof rocks.")
        return found

    def _landing(self, where: Where, screw: Screw) -> str:
        through = f" through the {screw.sheet}" if len(self.screws[where]) > 1 else ""
        return f"At the {where} the screw{through} {screw.fault}."


def _without_side(solid: Solid) -> Solid:
    return replace(solid, place="") if solid.place == "left" else solid
