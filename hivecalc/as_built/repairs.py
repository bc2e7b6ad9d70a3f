"""A piece as it was cut, and what can be saved of it."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, TypeAlias

from hivecalc.as_built.allowances import Allowance
from hivecalc.as_built.bearing import gravity, is_harmful
from hivecalc.as_built.plan import Plan, to_cut
from hivecalc.components import MODULES, built
from hivecalc.derivation import Values
from hivecalc.fit import FIT
from hivecalc.length import Length, Rounding
from hivecalc.part import Material, Part
from hivecalc.space import Consequence
from hivecalc.tolerance import READING

Verdict: TypeAlias = Literal["good", "usable", "trim", "shim", "reuse", "new"]
"""What to do with a piece, from nothing at all to the worst."""
PLANED: Final = Fraction(1, 16)  # up to this a plane takes off, more the saw
SHIMS: Final[Mapping[Material, Length]] = {
    "stud": Fraction(1, 8),
    "strip": Fraction(1, 8),
    "board": Fraction(1, 8),
    "plywood": Fraction(1, 8),
    "foam": Fraction(1, 2),
}  # the widest gap that is filled, in pieces of each material
SHEETS: Final[frozenset[Material]] = frozenset({"plywood", "foam", "sheet", "mesh"})
YIELDS: Final[Mapping[Material, frozenset[Material]]] = {"stud": frozenset({"stud", "strip"})}
SAW: Final = (
    "A thin slice can jam at the blade or fly: follow the manual of your saw, or plane it off."
)
CAUTIONS: Final[Mapping[Material, str]] = {
    "foam": "Cut away from your hands, and wear a mask for the dust.",
    "sheet": "Cut away from your hands, along a straightedge.",
    "mesh": "Cut mesh has sharp ends: wear gloves and glasses.",
}


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
class PieceAsCut:
    """A piece as it was cut, held against the plan."""

    plan: Plan
    component: str
    part: Part
    number: int
    sizes: tuple[OffSize, ...]

    @property
    def measured(self) -> Values:
        """The sizes as measured, by full name."""
        return {s.name: s.measured for s in self.sizes}

    @property
    def too_big(self) -> tuple[OffSize, ...]:
        """The sizes that are more than their tolerance over."""
        return tuple(s for s in self.sizes if not s.within and s.off > 0)

    @property
    def too_small(self) -> tuple[OffSize, ...]:
        """The sizes that are more than their tolerance under."""
        return tuple(s for s in self.sizes if not s.within and s.off < 0)

    @property
    def several(self) -> bool:
        """Whether one reading stands for all pieces of the part."""
        return not self.number and self.part.quantity > 1

    @property
    def it(self) -> str:
        """The piece, or each of the pieces, in a sentence."""
        return "each" if self.several else "it"

    @property
    def words(self) -> str:
        """The piece at the beginning of a sentence, with its verb."""
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
        harmful = sorted((c for c in met if is_harmful(c, covers=covers)), key=gravity)
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
        """What to do where nothing fails though it is out of tolerance."""
        yield "That is more than the tolerance, but nothing fails: use it."

    def trim(self, _others: Sequence[Reuse]) -> Iterator[str]:
        """What to take off."""
        for size in self.too_big:
            verb = _verb(self.part.material, size)
            amount, planned = (
                self.plan.said(size.off),
                to_cut(size.name, size.planned, self.plan.units),
            )
            wide = _ADJECTIVES[size.size]
            yield f"{verb} {amount} off: {self.it} should be {planned} {wide}."

    def shim(self, others: Sequence[Reuse]) -> Iterator[str]:
        """What to take off, and what to glue on."""
        yield from self.trim(others)
        for size in self.too_small:
            amount, planned = (
                self.plan.said(-size.off),
                to_cut(size.name, size.planned, self.plan.units),
            )
            wide = _ADJECTIVES[size.size]
            strip = "a strip of foam" if self.part.material == "foam" else "a shim"
            yield f"Glue on {strip} of {amount}: {self.it} should be {planned} {wide}."

    def reuse(self, others: Sequence[Reuse]) -> Iterator[str]:
        """What else can be cut from it."""
        yield "That cannot be mended: cut anew, but keep what you have."
        listed = [f"the {o.words} ({self.plan.said(o.length)})" for o in others[:NAMED]]
        yield f"It is enough for {' or '.join(listed)}."

    def new(self, _others: Sequence[Reuse]) -> Iterator[str]:
        """That nothing is left but to cut it anew."""
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
    "good": PieceAsCut.good,
    "usable": PieceAsCut.usable,
    "trim": PieceAsCut.trim,
    "shim": PieceAsCut.shim,
    "reuse": PieceAsCut.reuse,
    "new": PieceAsCut.new,
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


def _alike(need: Length | None, have: Length | None) -> bool:
    """Whether a sheet is as thick as it should be; mesh has no thickness to cut."""
    return need is None or have is None or abs(need - have) <= READING


def _lies_within(need: Sequence[Length | None], have: Sequence[Length | None]) -> bool:
    """Whether some sizes go into others, turned as they go best."""
    pairs = zip(*(sorted(s for s in side if s is not None) for side in (need, have)), strict=True)
    return all(small <= big for small, big in pairs)
