"""What you cut and put together, measured: does it fit, and what can be saved.

Every piece is judged by itself, against a hive that is otherwise as planned: is it within its
tolerance, does some rule fail because of it, does it meet other pieces as it should? Tolerances,
and what can be mended how, are common practice, no published source.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Final, Literal, TypeAlias

from hivecalc.assembly import Consequence, Solid, assembled, consequences
from hivecalc.components import COURSE, MODULES, TAPE_AGREES, built, values
from hivecalc.derivation import Change, Values, changes, nearest_names, title
from hivecalc.fit import FIT, Finding, broken, findings, holds
from hivecalc.hive import BOX_SIZES, HIVE_SIZES, MEASUREMENTS, Fault, Hive, HiveFaults
from hivecalc.length import Length, Rounding, Units, shown, written
from hivecalc.measuring import Squareness, reading_to_use, squareness
from hivecalc.part import Material, Part
from hivecalc.tolerance import PIECE_SIZES, READING, resting_sizes, rule_value, rules_of, sizes_of

Verdict: TypeAlias = Literal["good", "usable", "trim", "shim", "reuse", "new"]
"""What to do with a piece, from nothing at all to the worst."""
Readings: TypeAlias = Mapping[str, Length | Sequence[Length]]

# All common practice, no published source; in inches.
MARK: Final = Fraction(1, 16)  # a mark of the tape: saw and tape are each off by half of it
STEP: Final = Fraction(1, 64)  # tolerances are whole numbers of these
HARMLESS_WAY: Final = Fraction(1, 8)  # what must slide may be short by this, what covers long
PLANED: Final = Fraction(1, 16)  # up to this a plane takes off, more the saw
BARE: Final = Fraction(1, 4)  # a joint may lack this of its cover, or an eighth of it
MOST_BARE: Final = Fraction(1)  # but never more than this
ROOM: Final = Fraction(1, 2)  # a gap that no rule speaks of may be wider than planned by this
STANDS_OUT: Final = Fraction(1, 4)  # what covers may stand out by this
SHIMS: Final[Mapping[Material, Length]] = {
    "stud": Fraction(1, 8),
    "strip": Fraction(1, 8),
    "board": Fraction(1, 8),
    "plywood": Fraction(1, 8),
    "foam": Fraction(1, 2),
}  # the widest gap that is filled, in pieces of each material
LONGEST: Final = Fraction(120)  # a stud of ten feet
SHEETS: Final[frozenset[Material]] = frozenset({"plywood", "foam", "sheet", "mesh"})
YIELDS: Final[Mapping[Material, frozenset[Material]]] = {"stud": frozenset({"stud", "strip"})}
NEAREST_WHY: Final = "Saw and tape are each off by 1/32 in, so nobody cuts closer than this."
SAW: Final = (
    "A thin slice can jam at the blade or fly: follow the manual of your saw, or plane it off."
)
CAUTIONS: Final[Mapping[Material, str]] = {
    "foam": "Cut away from your hands, and wear a mask for the dust.",
    "sheet": "Cut away from your hands, along a straightedge.",
    "mesh": "Cut mesh has sharp ends: wear gloves and glasses.",
}

# ── the sizes that are cut ────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class CutSize:
    """One size of a piece that is cut: whose it is, how many there are, and what is planned."""

    name: str
    component: str
    part: Part
    size: str
    planned: Length

    @property
    def rounding(self) -> Rounding:
        """Which way this size is rounded on the cutting list."""
        return COURSE.dimension(self.name).rule.rounding


def cut_sizes(hive: Hive) -> tuple[CutSize, ...]:
    """The sizes that somebody cuts for this hive, as planned, in the order of the parts.

    >>> from hivecalc.hive import demo_hive
    >>> [s.name.partition(".")[2] for s in cut_sizes(demo_hive())][:4]
    ['side_rail_length', 'front_rail_width', 'front_rail_length', 'back_rail_length']

    Sizes that the stock has already, such as a stud's thickness, are none of them: those belong
    in the hive's file.
    """
    return _cut_sizes(hive, values(hive))


def _cut_sizes(hive: Hive, planned: Mapping[str, Fraction]) -> tuple[CutSize, ...]:
    return tuple(
        CutSize(name, component, part, size, planned[name])
        for component in built(hive)
        for part in MODULES[component].PARTS
        for size, _ in part.sizes()
        if _stock(name := f"{component}.{part.name}_{size}") is None
    )


def _stock(name: str) -> str | None:
    """The measurement of the stock that a size of a piece is, or None where it is cut."""
    source = PIECE_SIZES[name][-1]
    known = MEASUREMENTS.get(source)
    outside = source in HIVE_SIZES + BOX_SIZES
    return source if known and known.group == "measured" and not outside else None


def _names_in_rules(size: CutSize) -> tuple[str, ...]:
    """What the rules call this size: its own name, those it repeats, and what was chosen."""
    return tuple(n for n in PIECE_SIZES[size.name] if _own(n))


def _own(name: str) -> bool:
    return name not in MEASUREMENTS or MEASUREMENTS[name].group == "chosen"


# ── the plan that pieces are held against ─────────────────────────────────────────────────────


class _Plan:
    """A hive as planned, perhaps for a frame that was made already."""

    def __init__(self, hive: Hive, frame: Mapping[str, Fraction]) -> None:
        self.hive, self.frame, self.units = hive, frame, hive.units
        self.rules = rules_of(hive)
        self.values: Values = sizes_of(hive, frame)
        self.sizes = {s.name: s for s in _cut_sizes(hive, self.values)}
        self._standing: dict[str, tuple[Solid, ...]] = {}

    @cached_property
    def held(self) -> dict[str, dict[str, Fraction]]:
        """The sizes that each rule rests on, for the rules that hold as planned and matter."""
        held, known = {}, frozenset({*self.hive.measurements, *self.frame})
        for name, rule in self.rules.items():
            sizes = {n: self.values[n] for n in resting_sizes(name, known)}
            if rule.level != "note" and rule.allows(rule_value(name, sizes)):
                held[name] = sizes
        return held

    def failing(self, measured: Mapping[str, Length]) -> list[str]:
        """The rules that fail because of these sizes of pieces."""
        found = self.in_rules({n: (v,) for n, v in measured.items()})
        return [
            name
            for name, sizes in self.held.items()
            if sizes.keys() & found.keys()
            and not self.rules[name].allows(rule_value(name, {**sizes, **found}))
        ]

    def in_rules(self, measured: Mapping[str, Sequence[Length]]) -> Values:
        """Sizes of pieces under the names that rules have: of several, the furthest from plan.

        Mesh that is short counts for nothing: the strips beside it leave no way past the screen.
        """
        found: Values = {}
        for size, value in ((self.sizes[n], v) for n, r in measured.items() for v in r):
            if size.part.material == "mesh" and value < size.planned:
                continue
            for name in _names_in_rules(size):
                if abs(value - size.planned) >= abs(found.get(name, size.planned) - size.planned):
                    found[name] = value
        return found

    def pinned(self) -> Values:
        """All sizes of pieces as planned: what one piece is off does not change the others."""
        names = {n for s in self.sizes for n in PIECE_SIZES[s] if n not in MEASUREMENTS}
        return {n: self.values[n] for n in names} | dict(self.frame)

    def standing(self, component: str) -> tuple[Solid, ...]:
        """A component as planned, in its place."""
        if component not in self._standing:
            self._standing[component] = assembled(self.values, component)
        return self._standing[component]

    def meeting(
        self, component: str, part: str, number: int, measured: Values
    ) -> tuple[Consequence, ...]:
        """What a piece of these sizes does to those round it: one of a part, or with 0 all."""
        true = self.standing(component)
        changed = assembled(self.values | measured, component)
        places = [i for i, solid in enumerate(true) if solid.part == part]
        cut = {places[number - 1]} if number else set(places)
        mixed = (changed[i] if i in cut else solid for i, solid in enumerate(true))
        return consequences(true, tuple(mixed), self.units)

    def said(self, value: Length) -> str:
        """A length as the builder reads it, with its unit."""
        return _said(value, self.units)


def _to_cut(name: str, value: Length, units: Units) -> str:
    """A planned size as one cuts it: on a mark of the tape, where it lies on none of 1/64 in."""
    exact = _said(value, units)
    rounding = COURSE.dimension(name).rule.rounding
    return shown(value, units, rounding=rounding) if exact.startswith("≈") else exact


def _said(value: Length, units: Units) -> str:
    return f"{written(value, units)} {'mm' if units == 'mm' else 'in'}"


# ── tolerance ─────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Allowance:
    """By how much a size may fall short of the plan and go beyond it, and why no more."""

    short: Length
    long: Length
    why_short: str
    why_long: str

    def allows(self, off: Length) -> bool:
        """Whether a size that is off by this (below 0: short) is within its tolerance."""
        return -self.short <= off <= self.long


def allowance(hive: Hive, name: str) -> Allowance:
    """The tolerance of a size that is cut, and its reason both ways.

    >>> from hivecalc.hive import demo_hive
    >>> screen = allowance(demo_hive(), "bottom_board.screen_side_strip_length")
    >>> screen.short, screen.long
    (Fraction(1, 32), Fraction(1, 32))
    >>> screen.why_short
    'A bee squeezes through little more than 5/32 in, gets under the screen and cannot find the \
way back.'

    One mark of the tape either way; what must slide may be shorter, what covers longer. Where a
    rule of fit would fail sooner the tolerance ends there. In inches. Raises HiveFaults for a size
    that is not cut for this hive.
    """
    _refuse(_faults(hive, {name: ()}))
    plan = _Plan(hive, {})
    return _allowance(plan, plan.sizes[name])


def _allowance(plan: _Plan, size: CutSize) -> Allowance:
    rule = COURSE.dimension(size.name).rule
    usual = {
        Rounding.NEAREST: (MARK, MARK),
        Rounding.DOWN: (HARMLESS_WAY, READING),
        Rounding.UP: (READING, HARMLESS_WAY),
    }
    why = NEAREST_WHY if rule.rounding is Rounding.NEAREST else rule.reason
    short, long = usual[rule.rounding]
    (short, why_short), (long, why_long) = (
        _pulled_in(plan, size, way, end, why) for way, end in ((-1, short), (1, long))
    )
    return Allowance(short, long, why_short, why_long)


def _pulled_in(plan: _Plan, size: CutSize, way: int, end: Length, why: str) -> tuple[Length, str]:
    """The end of a tolerance, drawn in until no rule fails, with the reason why it ends there."""
    while end > 0:
        failing = plan.failing({size.name: size.planned + way * end})
        if not failing:
            break
        end, why = end - STEP, FIT.dimension(failing[0]).why
    return end, why


# ── what can be saved ─────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class Reuse:
    """A part of the hive that can be cut from a piece, and the length it needs."""

    component: str
    part: str
    length: Length

    @property
    def words(self) -> str:
        """The part as one says it: "rim back of the inner cover"."""
        component, part = (n.replace("_", " ") for n in (self.component, self.part))
        return part if part.startswith(component) else f"{part} of the {component}"


@dataclass(frozen=True)
class OffSize:
    """A size of a piece beside its plan: measured, off by, and the tolerance that it has."""

    name: str
    planned: Length
    measured: Length
    allowance: Allowance

    @property
    def off(self) -> Length:
        """By how much it is bigger than planned; below 0 where it is smaller."""
        return self.measured - self.planned

    @property
    def within(self) -> bool:
        """Whether it is within its tolerance."""
        return self.allowance.allows(self.off)

    @property
    def size(self) -> str:
        """Which size it is: thickness, width or length."""
        return self.name.rpartition("_")[2]


@dataclass(frozen=True)
class Repair:
    """What to do with a piece as it was cut, and why.

    `number` counts the pieces of a part from 1; it is 0 where all of them were cut so. `effects`
    say what goes wrong with the piece as it is, `consequences` how it meets others. `mended` are
    its sizes after trimming or shimming. `others` are the parts that can be cut from it, the
    longest first.
    """

    component: str
    part: str
    number: int
    verdict: Verdict
    sizes: tuple[OffSize, ...]
    effects: tuple[str, ...]
    consequences: tuple[Consequence, ...]
    mended: Mapping[str, Length]
    others: tuple[Reuse, ...]
    sentence: str
    caution: str

    @property
    def off(self) -> tuple[OffSize, ...]:
        """The sizes that are out of their tolerance."""
        return tuple(s for s in self.sizes if not s.within)


@dataclass(frozen=True)
class _Piece:
    """A piece as it was cut, held against the plan."""

    plan: _Plan
    component: str
    part: Part
    number: int
    sizes: tuple[OffSize, ...]

    @property
    def measured(self) -> Values:
        return {s.name: s.measured for s in self.sizes}

    @property
    def too_big(self) -> tuple[OffSize, ...]:
        return tuple(s for s in self.sizes if not s.within and s.off > 0)

    @property
    def too_small(self) -> tuple[OffSize, ...]:
        return tuple(s for s in self.sizes if not s.within and s.off < 0)

    @property
    def several(self) -> bool:
        return not self.number and self.part.quantity > 1

    @property
    def it(self) -> str:
        return "each" if self.several else "it"

    @property
    def words(self) -> str:
        name = self.part.name.replace("_", " ")
        if self.several:
            return f"The {name}s are"
        return f"The {name} no. {self.number} is" if self.number else f"The {name} is"

    def size(self, which: str) -> Length | None:
        """A size as measured, else as planned; None where the piece has no such size."""
        name = f"{self.component}.{self.part.name}_{which}"
        return self.measured.get(name, self.plan.values.get(name))

    def met(self, sizes: Values) -> tuple[Consequence, ...]:
        """How this piece meets the others where it has these sizes."""
        return self.plan.meeting(self.component, self.part.name, self.number, sizes)

    def effects(self, sizes: Values, met: Iterable[Consequence]) -> tuple[str, ...]:
        """What goes wrong where this piece has these sizes: how it meets others, then rules."""
        covers = any(self.plan.sizes[n].rounding is Rounding.UP for n in sizes)
        harmful = sorted((c for c in met if _harmful(c, covers=covers)), key=_grave)
        told = (_effect(c.sentence) for c in harmful)
        return (*told, *(FIT.dimension(r).why for r in self.plan.failing(sizes)))

    def repair(self) -> Repair:
        """What to do with this piece."""
        off = {s.name: s.planned for s in self.sizes if not s.within}
        met = self.met(self.measured) if off else ()
        effects = self.effects(self.measured, met) if off else ()
        verdict = self._verdict(effects)
        others = self.others() if verdict == "reuse" else ()
        return Repair(
            component=self.component,
            part=self.part.name,
            number=self.number,
            verdict=verdict,
            sizes=self.sizes,
            effects=effects,
            consequences=met,
            mended=self.measured | off if verdict in {"trim", "shim"} else {},
            others=others,
            sentence=" ".join([*self._found(effects), *_TOLD[verdict](self, others)]),
            caution=self._caution(verdict),
        )

    def _verdict(self, effects: Sequence[str]) -> Verdict:
        if all(s.within for s in self.sizes):
            return "good"
        if not effects:
            return "usable"
        if self._trimmed_is_well():
            return "trim"
        if all(self._shimmed(s) for s in self.too_small):
            return "shim"
        return "reuse" if self.others() else "new"

    def _trimmed_is_well(self) -> bool:
        """Whether nothing goes wrong any more once what is too big has been taken off."""
        if not self.too_small:
            return True
        trimmed = self.measured | {s.name: s.planned for s in self.too_big}
        return bool(self.too_big) and not self.effects(trimmed, self.met(trimmed))

    def _shimmed(self, short: OffSize) -> bool:
        """Whether what a size lacks can be made up by gluing on a shim."""
        material = self.part.material
        along = short.size == "length" or material == "foam"
        return along and -short.off <= SHIMS.get(material, Fraction(0))

    def others(self) -> tuple[Reuse, ...]:
        """The other parts of the hive that can be cut from this piece, the longest first."""
        found = [
            Reuse(component, part.name, self.plan.values[f"{component}.{part.name}_length"])
            for component in built(self.plan.hive)
            for part in MODULES[component].PARTS
            if (component, part) != (self.component, self.part) and self._holds(component, part)
        ]
        return tuple(sorted(found, key=lambda r: -r.length))

    def _holds(self, component: str, other: Part) -> bool:
        """Whether another part lies within this piece, along the grain where there is one."""
        material = self.part.material
        if other.material not in YIELDS.get(material, {material}):
            return False
        need = [self.plan.values.get(f"{component}.{other.name}_{s}") for s in _ORDER]
        have = [self.size(s) for s in _ORDER]
        if material in SHEETS:
            return _alike(need[0], have[0]) and _lies_within(need[1:], have[1:])
        return _lies_within(need[:2], have[:2]) and _lies_within(need[2:], have[2:])

    def _found(self, effects: Sequence[str]) -> Iterator[str]:
        """What is off, and what that does: the first part of the sentence."""
        off = [s for s in self.sizes if not s.within]
        if not off:
            return
        faults = " and ".join(f"{self.plan.said(abs(s.off))} {_too(s)}" for s in off)
        effect = effects[0] if effects else ""
        yield f"{self.words} {faults}{': ' if effect[:1].islower() else '. '}{effect}".rstrip()

    def good(self, _others: Sequence[Reuse]) -> Iterator[str]:
        """Return what to say of a piece that is within its tolerance."""
        sizes = (f"{self.plan.said(s.measured)} {_ADJECTIVES[s.size]}" for s in self.sizes)
        yield f"{self.words} good: {' and '.join(sizes)}, within tolerance."

    def usable(self, _others: Sequence[Reuse]) -> Iterator[str]:
        yield "That is more than the tolerance, but nothing fails: use it."

    def trim(self, _others: Sequence[Reuse]) -> Iterator[str]:
        for size in self.too_big:
            verb = _verb(self.part.material, size)
            amount, planned = (
                self.plan.said(size.off),
                _to_cut(size.name, size.planned, self.plan.units),
            )
            wide = _ADJECTIVES[size.size]
            yield f"{verb} {amount} off: {self.it} should be {planned} {wide}."

    def shim(self, others: Sequence[Reuse]) -> Iterator[str]:
        yield from self.trim(others)
        for size in self.too_small:
            amount, planned = (
                self.plan.said(-size.off),
                _to_cut(size.name, size.planned, self.plan.units),
            )
            wide = _ADJECTIVES[size.size]
            strip = "a strip of foam" if self.part.material == "foam" else "a shim"
            yield f"Glue on {strip} of {amount}: {self.it} should be {planned} {wide}."

    def reuse(self, others: Sequence[Reuse]) -> Iterator[str]:
        yield "That cannot be mended: cut anew, but keep what you have."
        listed = [f"the {o.words} ({self.plan.said(o.length)})" for o in others[:NAMED]]
        yield f"It is enough for {' or '.join(listed)}."

    def new(self, _others: Sequence[Reuse]) -> Iterator[str]:
        yield "That cannot be mended, and nothing else of the hive can be cut from it: cut anew."

    def _caution(self, verdict: Verdict) -> str:
        if verdict in {"good", "usable"}:
            return ""
        return CAUTIONS.get(self.part.material, SAW)


NAMED: Final = 3  # parts that a sentence names at most
_ORDER: Final = ("thickness", "width", "length")
_ADJECTIVES: Final = {"thickness": "thick", "width": "wide", "length": "long"}
_TOO: Final = {
    "thickness": ("too thick", "too thin"),
    "width": ("too wide", "too narrow"),
    "length": ("too long", "too short"),
}
_TOLD: Final = {
    "good": _Piece.good,
    "usable": _Piece.usable,
    "trim": _Piece.trim,
    "shim": _Piece.shim,
    "reuse": _Piece.reuse,
    "new": _Piece.new,
}


def _too(size: OffSize) -> str:
    return _TOO[size.size][size.off < 0]


def _verb(material: Material, size: OffSize) -> str:
    """What one does to take a little off a piece."""
    if material in SHEETS:
        return {"mesh": "Snip", "plywood": "Saw"}.get(material, "Cut")
    if size.size == "length":
        return "Crosscut"
    return "Plane" if size.off <= PLANED else "Rip"


def _effect(sentence: str) -> str:
    """What a consequence says that the piece does, without what is wrong with it."""
    return sentence.rpartition(": ")[2]


def _harmful(found: Consequence, *, covers: bool) -> bool:
    """Whether a consequence is worse than a tape can tell, a cover's overhang or a bit of play."""
    if found.kind == "nothing":
        return False
    if found.after is None or found.amount is None:
        return True
    if found.kind == "clearance":
        return found.after == 0 or found.after - found.before > ROOM
    return found.amount > _bearable(found, covers=covers)


def _grave(found: Consequence) -> Fraction:
    """Where a consequence stands among others: first what has come apart, then by its amount."""
    return -LONGEST if found.amount is None else -found.amount


def _bearable(found: Consequence, *, covers: bool) -> Length:
    """How much of a consequence nobody minds."""
    if found.kind == "bare":
        return min(MOST_BARE, max(BARE, found.before / 8))
    return STANDS_OUT if found.kind == "stands out" and covers else READING


def _alike(need: Length | None, have: Length | None) -> bool:
    """Whether a sheet is as thick as it should be; mesh has no thickness to cut."""
    return need is None or have is None or abs(need - have) <= READING


def _lies_within(need: Sequence[Length | None], have: Sequence[Length | None]) -> bool:
    """Whether some sizes go into others, turned as they go best."""
    pairs = zip(*(sorted(s for s in side if s is not None) for side in (need, have)), strict=True)
    return all(small <= big for small, big in pairs)


# ── the frame ─────────────────────────────────────────────────────────────────────────────────

Shape: TypeAlias = Literal["straight", "tapered", "bellied", "waisted"]


@dataclass(frozen=True)
class Frame:
    """Readings of a frame that was put together, outside: three widths and both diagonals.

    The widths stand from front over middle to back. `rising` is the diagonal from the front left
    corner to the back right one, `falling` the other. `lengths` may be left out. In inches.
    """

    widths: Sequence[Length]
    rising: Length
    falling: Length
    lengths: Sequence[Length] = ()


@dataclass(frozen=True)
class FrameCheck:
    """What the readings of a frame come to.

    `taper` is how much wider the back is than the front, `belly` how much wider the middle is than
    half-way between them; each may be below 0. `given` is what the frame makes of its opening, for
    whatever is computed from there on. `recuts` are the pieces to cut otherwise than planned.
    """

    squareness: Squareness
    shapes: tuple[Shape, ...]
    taper: Length
    belly: Length
    given: Mapping[str, Length]
    recuts: tuple[Change, ...]
    sentences: tuple[str, ...]


def frame_check(hive: Hive, frame: Frame) -> FrameCheck:
    """How far a frame is out of square and out of straight, where, and what follows from it.

    >>> from hivecalc.hive import demo_hive
    >>> widths = [Fraction(139, 8), Fraction(140, 8), Fraction(141, 8)]
    >>> found = frame_check(demo_hive(), Frame(widths, Fraction(29), Fraction(29)))
    >>> found.shapes, found.sentences[0]
    (('tapered',), 'The frame is 1/4 in wider at the back than at the front: it is tapered.')

    Widths that differ by no more than 1/8 in are straight. A frame that is out of square leaves
    less width for what slides straight in: its lean comes off the opening, unless the diagonals
    differ by no more than 1/8 in. Raises HiveFaults with every fault at once.
    """
    _refuse(_faults_of_frame(hive, frame))
    front, middle, back = frame.widths
    taper, belly = back - front, middle - (front + back) / 2
    shapes = _shapes(frame.widths, taper, belly)
    length = _mean(frame.lengths) if frame.lengths else values(hive)["hive_length"]
    square = squareness(length, (front + back) / 2, frame.rising, frame.falling, hive.units)
    given = _opening(hive, frame, square)
    recuts = _recuts(hive, given)
    sentences = (
        *_shape_told(shapes, taper, belly, hive.units),
        *_square_told(square, shapes, hive.units),
        *_against_hive(hive, frame),
        *_recuts_told(recuts, hive.units),
    )
    return FrameCheck(square, shapes, taper, belly, given, recuts, sentences)


def _mean(lengths: Sequence[Length]) -> Length:
    return sum(lengths, Fraction(0)) / len(lengths)


def _shapes(widths: Sequence[Length], taper: Length, belly: Length) -> tuple[Shape, ...]:
    """What sort of crooked a frame is: at least one where readings differ by more than 1/8 in."""
    if reading_to_use(widths).straight:
        return ("straight",)
    tapered: tuple[Shape, ...] = ("tapered",) if abs(taper) > MARK else ()
    bowed: Shape = "bellied" if belly > 0 else "waisted"
    return (*tapered, bowed) if abs(belly) > MARK else tapered


def _shape_told(
    shapes: Sequence[Shape], taper: Length, belly: Length, units: Units
) -> Iterator[str]:
    if "straight" in shapes:
        yield "The three widths agree within 1/8 in: the frame is straight enough."
    if "tapered" in shapes:
        wide, narrow = ("back", "front") if taper > 0 else ("front", "back")
        yield (
            f"The frame is {_said(abs(taper), units)} wider at the {wide} than at the {narrow}:"
            " it is tapered."
        )
        yield "Bring the back to the front's width before the back rail goes on."
    if {"bellied", "waisted"} & set(shapes):
        way, how = ("wider", "outwards") if belly > 0 else ("narrower", "inwards")
        yield (
            f"In the middle it is {_said(abs(belly), units)} {way} than half-way between front and"
            f" back: the side rails bow {how}."
        )
        yield "Clamp a bowed rail straight while its screws go in, or take a straight one."


def _square_told(square: Squareness, shapes: Sequence[Shape], units: Units) -> Iterator[str]:
    yield square.sentence
    if square.square and "tapered" in shapes:
        yield "But diagonals that agree do not make the corners of a tapered frame square."
    if not square.square and not square.misread:
        side, sharp = (
            ("right", "front left and back right")
            if square.lean > 0
            else ("left", "front right and back left")
        )
        lean = _said(abs(square.lean), units)
        angle = f"{abs(square.angle):.1f}"
        yield (
            f"The back stands {lean} too far to the {side}; the corners {sharp} are {angle}"
            " degrees too sharp, the other two as much too wide."
        )


def _against_hive(hive: Hive, frame: Frame) -> Iterator[str]:
    """Where the frame and the hive that stands on it do not agree."""
    width = values(hive)["hive_width"]
    for place, reading in zip(("front", "middle", "back"), frame.widths, strict=True):
        if abs(reading - width) > TAPE_AGREES:
            what = "narrower" if reading < width else "wider"
            does = "the box stands over" if reading < width else "rain stands on its edge"
            yield (
                f"At the {place} it is {_said(abs(reading - width), hive.units)} {what} than the"
                f" hive: {does}."
            )


def _opening(hive: Hive, frame: Frame, square: Squareness) -> Values:
    """The opening that a frame leaves for what slides straight in from the back."""
    rails = 2 * hive.measurements["stud_thickness"]
    leaning = not square.square and not square.misread
    lean = abs(square.lean) if leaning else Fraction(0)
    found = {"bottom_board.opening_width": min(frame.widths) - lean - rails}
    if frame.lengths:
        found["bottom_board.opening_length"] = min(frame.lengths) - rails
    _refuse(_faults_of_opening(hive, found))
    return found


def _recuts(hive: Hive, given: Mapping[str, Fraction]) -> tuple[Change, ...]:
    cut = {s.name for s in cut_sizes(hive)}
    return tuple(c for c in changes(values(hive), values(hive, given)) if c.name in cut)


def _recuts_told(recuts: Iterable[Change], units: Units) -> Iterator[str]:
    for change in recuts:
        if abs(change.new - change.old) > READING:
            new, old = (_to_cut(change.name, v, units) for v in (change.new, change.old))
            yield f"If the frame stays so, cut the {title(change.name)} to {new}, not {old}."


# ── as built ──────────────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class AsBuilt:
    """What you made, measured: what still fits, what does not, and what to do with each piece.

    `findings` are those of every rule on the hive as it is now, `broken` the ones that would hold
    as planned. `consequences` are how the pieces out of tolerance meet the others.
    """

    repairs: tuple[Repair, ...]
    findings: tuple[Finding, ...]
    broken: tuple[Finding, ...]
    consequences: tuple[Consequence, ...]
    frame: FrameCheck | None

    @property
    def fits(self) -> bool:
        """Whether every rule that matters holds and no piece has to be mended or replaced."""
        return holds(self.findings) and all(r.verdict in {"good", "usable"} for r in self.repairs)


def as_built(hive: Hive, measured: Readings, frame: Frame | None = None) -> AsBuilt:
    """What still fits of a hive with these sizes, what does not, and what can be saved.

    >>> from hivecalc.hive import demo_hive
    >>> found = as_built(demo_hive(), {"bottom_board.front_rail_length": Fraction(29, 2)})
    >>> print(found.repairs[0].sentence)
    The front rail is 1/8 in too long: it runs 1/8 in into the right side rail. Crosscut 1/8 in \
off: it should be 14 3/8 in long.

    `measured` gives sizes that were cut, by full name as cut_sizes has them: one length for all
    pieces of a part, or one for each piece in order. With readings of the `frame`, what goes into
    it is planned from the frame as it is. Raises HiveFaults with every fault at once.
    """
    _refuse([*(_faults_of_frame(hive, frame) if frame else []), *_faults(hive, measured)])
    checked = frame_check(hive, frame) if frame else None
    plan = _Plan(hive, checked.given if checked else {})
    readings = {n: _listed(v) for n, v in measured.items()}
    repairs = tuple(p.repair() for p in _pieces(plan, readings))
    found = findings(hive, plan.pinned() | plan.in_rules(readings))
    return AsBuilt(
        repairs=repairs,
        findings=tuple(found),
        broken=tuple(broken(findings(hive), found)),
        consequences=tuple(_meetings(plan, repairs)),
        frame=checked,
    )


def _listed(value: Length | Sequence[Length]) -> tuple[Length, ...]:
    return tuple(value) if isinstance(value, Sequence) else (value,)


def _pieces(plan: _Plan, readings: Mapping[str, Sequence[Length]]) -> Iterator[_Piece]:
    """Each piece that was measured; pieces of which one reading was given for all, as one."""
    parts = dict.fromkeys((plan.sizes[n].component, plan.sizes[n].part) for n in plan.sizes)
    for component, part in parts:
        mine = {n: r for n, r in readings.items() if plan.sizes[n].part is part}
        most = max(map(len, mine.values()), default=0)
        for i in range(most):
            sizes = tuple(_off_size(plan, n, v) for n, v in _nth(mine, i).items())
            yield _Piece(plan, component, part, i + 1 if most > 1 else 0, sizes)


def _off_size(plan: _Plan, name: str, reading: Length) -> OffSize:
    size = plan.sizes[name]
    return OffSize(name, size.planned, reading, _allowance(plan, size))


def _meetings(plan: _Plan, repairs: Iterable[Repair]) -> Iterator[Consequence]:
    """How pieces meet in each component of which some piece is out of its tolerance."""
    off = [r for r in repairs if r.off]
    for component in dict.fromkeys(r.component for r in off):
        mine = [r for r in off if r.component == component]
        if len(mine) == 1:
            yield from mine[0].consequences
        else:
            true = plan.standing(component)
            yield from consequences(true, _as_cut(plan, component, mine), plan.units)


def _as_cut(plan: _Plan, component: str, repairs: Iterable[Repair]) -> tuple[Solid, ...]:
    """A component with these pieces as they were cut."""
    found = [*plan.standing(component)]
    for repair in repairs:
        places = [i for i, solid in enumerate(found) if solid.part == repair.part]
        measured = {s.name: s.measured for s in repair.sizes}
        changed = assembled(plan.values | measured, component)
        for i in places if not repair.number else [places[repair.number - 1]]:
            found[i] = changed[i]
    return tuple(found)


def _nth(readings: Mapping[str, Sequence[Length]], number: int) -> Values:
    """The sizes of a part's piece of this number: its own reading, or the one for all."""
    own = {n: r[number] for n, r in readings.items() if number < len(r)}
    return own | {n: r[0] for n, r in readings.items() if len(r) == 1}


# ── faults ────────────────────────────────────────────────────────────────────────────────────


def _refuse(faults: Iterable[Fault]) -> None:
    found = [*faults]
    if found:
        raise HiveFaults(found)


def _faults(hive: Hive, measured: Readings) -> Iterator[Fault]:
    """What is wrong with the names of sizes, and with what was read for them."""
    sizes = {s.name: s for s in cut_sizes(hive)}
    for name, value in measured.items():
        readings = _listed(value)
        if name not in sizes:
            yield _fault_of_name(name, sizes)
        elif len(readings) > sizes[name].part.quantity:
            most = sizes[name].part.quantity
            yield Fault(name, f"{len(readings)} readings", f"of this piece there are {most}")
        yield from _faults_of_lengths(name, readings, hive.units)


def _fault_of_name(name: str, sizes: Iterable[str]) -> Fault:
    stock = _stock(name) if name in PIECE_SIZES else None
    if stock:
        return Fault(name, "that is the stock's own size", f"change {stock} in your hive")
    known = list(sizes)
    near = ", ".join(nearest_names(name, known) or known[:1])
    found = "no piece of this hive is cut to a size of this name"
    return Fault(f"{name[:60]!a}", found, f"one that is: {near}")


def _faults_of_lengths(place: str, lengths: Iterable[Length], units: Units) -> Iterator[Fault]:
    for length in lengths:
        if not 0 < length <= LONGEST:
            accepted = f"more than 0 and at most {_said(LONGEST, units)} is accepted"
            yield Fault(place, _said(length, units), accepted)


def _faults_of_frame(hive: Hive, frame: Frame) -> Iterator[Fault]:
    if len(frame.widths) != 3:  # noqa: PLR2004 - front, middle, back
        found = f"{len(frame.widths)} widths"
        yield Fault("frame", found, "give three: front, middle and back")
    readings = (*frame.widths, *frame.lengths, frame.rising, frame.falling)
    yield from _faults_of_lengths("frame", readings, hive.units)


def _faults_of_opening(hive: Hive, opening: Mapping[str, Length]) -> Iterator[Fault]:
    for name, size in opening.items():
        if size <= 0:
            accepted = "readings that leave an opening between the rails are accepted"
            yield Fault("frame", f"the {title(name)} would be {_said(size, hive.units)}", accepted)
