"""Findings about pieces, told in one plain sentence each."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeAlias

from hivecalc.length import Length, Units, by_the_tape, written
from hivecalc.space.solids import AXES, Axis, Solid

Kind: TypeAlias = Literal["overlap", "open", "stands out", "bare", "clearance", "nothing"]
WrongPiece: TypeAlias = tuple[Solid, Solid]
_Fault: TypeAlias = tuple[str, tuple[tuple[str, Length], ...]]  # turned or not, sizes off by this

EASILY_SEEN = Fraction(1, 16)  # inches: at least so much is never rounded to nothing
# What one says of a size that is too big or too small.
TOO: dict[str, tuple[str, str]] = {
    "length": ("too long", "too short"),
    "width": ("too wide", "too narrow"),
    "thickness": ("too thick", "too thin"),
    "height": ("too high", "too low"),
}


@dataclass(frozen=True)
class Finding:
    """A consequence for one pair, before twins are put together.

    `first` does it to `second`, or `both` do it to one another; `before` and `after` are the
    overlap, gap or face along the axis.
    """

    kind: Kind
    axis: Axis
    before: Length
    after: Length | None
    first: Solid
    second: Solid | None = None
    side: str = ""
    both: bool = False

    @property
    def doers(self) -> tuple[Solid, ...]:
        """The piece that does it, or both."""
        return (self.first, self.second) if self.both and self.second else (self.first,)


def twins(finding: Finding, wrong: Mapping[str, WrongPiece]) -> tuple[object, ...]:
    """What findings have in common that are told in one sentence.

    >>> rail = Solid("roof", "rim_back", "", ())
    >>> twins(Finding("stands out", "x", 0, 1, rail, side="at the left"), {})
    ('stands out', (), '', 'x', 0, 1, 'at the left')
    """
    axis, doers = finding.axis, finding.doers
    faults = tuple(_fault(*wrong[d.name], axis) for d in doers if d.name in wrong)
    met = finding.second.part if finding.second else ""
    return (finding.kind, faults, met, axis, finding.before, finding.after, finding.side)


def worth_telling(finding: Finding, units: Units) -> bool:
    """Whether the change is big enough to show at all.

    >>> from fractions import Fraction
    >>> rail = Solid("roof", "rim_back", "", ())
    >>> worth_telling(Finding("stands out", "x", 0, Fraction(1, 3000), rail), "inch")
    False
    """
    if finding.after is None or finding.kind == "nothing":
        return True
    change = abs(finding.after - finding.before)
    return change >= EASILY_SEEN or written(change, units).removeprefix("≈ ") != "0"


def sentence(
    group: Sequence[Finding], wrong: Mapping[str, WrongPiece], units: Units = "inch"
) -> str:
    """One sentence for the findings about twins: what is wrong with a piece, and what that does.

    `wrong` holds each piece that was cut or turned wrong, by name: as it should be, and as it is.

    >>> from fractions import Fraction
    >>> from hivecalc.space.solids import Block, rectangle
    >>> face, along = rectangle((0, 1), (0, 1)), ("length", "thickness", "width")
    >>> def rail(length):
    ...     cut = (Fraction(length), Fraction(1), Fraction(1))
    ...     return Solid("roof", "rim_back", "", (Block(0, length, face),), along, cut)
    >>> side = Solid("roof", "rim_side", "right", (Block(9, 10, face),))
    >>> found = Finding("overlap", "x", Fraction(0), Fraction(1), rail(10), side)
    >>> sentence([found], {rail(10).name: (rail(9), rail(10))})
    'The rim back is 1 in too long: it runs 1 in into the right rim side.'
    """
    doers = _each_once(d for f in group for d in f.doers)
    own = [wrong[s.name] for s in doers if s.name in wrong]
    several = len(doers) > 1
    subject = ("they" if several else "it") if own else noun(doers)
    effect = _EFFECTS[group[0].kind](_Told(group, subject, several, units))
    cause = _causes(own or _off_along(group[0].axis, wrong), group[0].axis, units)
    text = f"{cause}: {effect}." if cause else f"{effect}."
    return text[0].upper() + text[1:]


def noun(solids: Sequence[Solid]) -> str:
    """Some pieces as one speaks of them: one by its place, twins by their part's name.

    >>> left = Solid("bottom_board", "side_rail", "left", ())
    >>> right = Solid("bottom_board", "side_rail", "right", ())
    >>> noun([left]), noun([left, right]), noun([left, Solid("bottom_board", "panel", "", ())])
    ('the left side rail', 'the side rails', 'the left side rail and the panel')
    """
    by_part: dict[str, list[Solid]] = {}
    for solid in solids:
        by_part.setdefault(solid.part, []).append(solid)
    words = (
        s[0].words if len(s) == 1 else f"{part.replace('_', ' ')}s" for part, s in by_part.items()
    )
    return " and ".join(f"the {w}" for w in words)


def _each_once(solids: Iterable[Solid]) -> list[Solid]:
    return list({s.name: s for s in solids}.values())


def _off_along(axis: Axis, wrong: Mapping[str, WrongPiece]) -> list[WrongPiece]:
    """The wrong pieces that reach elsewhere along an axis; all of them where none does."""
    i = AXES.index(axis)
    off = [(old, new) for old, new in wrong.values() if old.extents[i] != new.extents[i]]
    return off or list(wrong.values())


def _causes(wrong: Sequence[WrongPiece], axis: Axis, units: Units) -> str:
    """What is wrong with these pieces; pieces with the same fault are named together."""
    by_fault: dict[_Fault, list[Solid]] = {}
    for old, new in wrong:
        by_fault.setdefault(_fault(old, new, axis), []).append(new)
    return "; ".join(_cause(fault, pieces, units) for fault, pieces in by_fault.items())


def _cause(fault: _Fault, pieces: Sequence[Solid], units: Units) -> str:
    turned, sizes = fault
    too = " and ".join(_too(size, more, units) for size, more in sizes)
    return f"{noun(pieces)}{turned} {'are' if len(pieces) > 1 else 'is'} {too}"


def _too(size: str, more: Length, units: Units) -> str:
    too_much, too_little = TOO[size]
    return f"{by_the_tape(abs(more), units)} {too_much if more > 0 else too_little}"


def _fault(old: Solid, new: Solid, axis: Axis) -> _Fault:
    """Whether a piece is turned, and by how much its size is off along an axis, else any size."""
    off = dict(_off(old, new))
    if axis in off:
        return "", (off[axis],)
    if old.along != new.along:
        return ", turned the wrong way,", (("height", new.cut[2] - old.cut[2]),)
    return "", tuple(off.values())


def _off(old: Solid, new: Solid) -> Iterator[tuple[Axis, tuple[str, Length]]]:
    """The axes along which a piece has the same size as before, but bigger or smaller by this."""
    sizes = zip(AXES, old.along, new.along, old.cut, new.cut, strict=True)
    for axis, name, now, was, cut in sizes:
        if name == now and was != cut:
            yield axis, ("height" if (axis, name) == ("z", "width") else name, cut - was)


@dataclass(frozen=True)
class _Told:
    """What a sentence speaks of: the findings, the subject in words, and the units."""

    group: Sequence[Finding]
    subject: str
    several: bool
    units: Units

    @property
    def others(self) -> str:
        if self.group[0].both:
            return "one another"
        return noun(_each_once(f.second for f in self.group if f.second))

    @property
    def apart(self) -> str:
        """Between what a gap is."""
        return "between them" if self.group[0].both else f"to {self.others}"

    def verb(self, word: str) -> str:
        ending = "es" if word.endswith("ch") else "s"
        return word if self.several else word + ending

    def amount(self, length: Length) -> str:
        return by_the_tape(length, self.units)

    @property
    def before(self) -> Length:
        return self.group[0].before

    @property
    def after(self) -> Length | None:
        return self.group[0].after


def _overlap(told: _Told) -> str:
    depth = told.amount(told.after or told.before)
    return f"{told.subject} {told.verb('run')} {depth} into {told.others}"


def _open(told: _Told) -> str:
    if told.after:
        gap = told.amount(told.after)
        return f"{told.subject} {told.verb('leave')} a gap of {gap} {told.apart}"
    return f"{told.subject} no longer {told.verb('touch')} {told.others}"


def _stands_out(told: _Told) -> str:
    out = told.amount(told.after or told.before)
    return f"{told.subject} {told.verb('stand')} out {out} {told.group[0].side}"


def _bare(told: _Told) -> str:
    less = told.amount(told.before - (told.after or 0))
    if told.group[0].both:
        return f"{less} less of each lies against the other"
    subject = {"it": "it", "they": "each"}.get(told.subject, told.subject)
    return f"{less} less of {subject} lies against {told.others}"


def _clearance(told: _Told) -> str:
    start = "" if told.subject in ("it", "they") else f" from {told.subject}"
    gap, before = f"the gap{start} {told.apart}", told.amount(told.before)
    if not told.after:
        return f"{gap} closes, it should be {before}"
    return f"{gap} is {told.amount(told.after)} instead of {before}"


def _nothing(told: _Told) -> str:
    return f"{told.subject} {told.verb('touch')} the same pieces, and no gap changes"


_EFFECTS: dict[Kind, Callable[[_Told], str]] = {
    "overlap": _overlap,
    "open": _open,
    "stands out": _stands_out,
    "bare": _bare,
    "clearance": _clearance,
    "nothing": _nothing,
}
