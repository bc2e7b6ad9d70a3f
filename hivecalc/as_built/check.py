"""Pieces as they were cut: what comes together, what fails, and what a builder can save."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from typing import Final, Literal, TypeAlias

from hivecalc.built import BUILT, CUT_TO, PIECES, PieceSize, as_cut, each_piece, pieces_of, together
from hivecalc.components import built, values
from hivecalc.derivation import title
from hivecalc.fit import FIT, Finding, broken, findings, holds, mark, newly_failing
from hivecalc.hive import Hive
from hivecalc.length import Length, limit_text
from hivecalc.part import ADJECTIVES, LEAST_RIP, SIDES, SIZES, Material
from hivecalc.space.wrong_cuts import TOO

Readings: TypeAlias = Mapping[str, Sequence[Length]]
Verdict: TypeAlias = Literal["good", "together", "trim", "follow", "mark", "pair", "foam", "new"]

PLANED: Final = Fraction(1, 8)
"""What is planed off rather than ripped: a thin slice jams at the blade; common practice."""
THIN_SLICE: Final = Fraction(1, 2)
"""A slice of no more than this gets a caution when it is sawn off; common practice."""
_CAUTIONS: Final[Mapping[Material, str]] = {
    "foam": "Cut away from your hands, and wear a mask for the dust.",
    "sheet": "Cut away from your hands, along a straightedge.",
    "mesh": "Cut mesh has sharp ends: wear gloves and glasses.",
}
_YIELDS: Final[Mapping[Material, frozenset[Material]]] = {
    "stud": frozenset({"stud", "strip"}),
    "board": frozenset({"board", "strip"}),
    "strip": frozenset({"strip"}),
}


@dataclass(frozen=True)
class CutPiece:
    """A piece as it was cut, beside the cutting list: whether it may be used, and what to do.

    It stands for all pieces of its part where one reading was given for all: then `name` is that of
    the part's size. `planned` is what the cutting list has, `found` what was measured, in inches.
    A caution is empty where nothing is cut.
    """

    name: str
    planned: Length
    found: Length
    verdict: Verdict
    advice: str
    caution: str

    @property
    def sentence(self) -> str:
        """What to do with it, and what to take care of."""
        return " ".join(filter(None, (self.advice, self.caution)))

    @property
    def allowed(self) -> bool:
        """Whether it may be used as it is, everything else as planned or as it was cut."""
        return self.verdict in {"good", "together"}


@dataclass(frozen=True)
class AsBuilt:
    """What was cut, put together: sizes that come out, pieces one by one, rules as they stand.

    `came` has every size that comes together, in inches by name; `broken` the rules that fail now
    and hold as planned. What one of them says to mend names the wrong piece that it follows from.
    """

    came: Mapping[str, Fraction]
    pieces: tuple[CutPiece, ...]
    findings: tuple[Finding, ...]
    broken: tuple[Finding, ...]

    @property
    def holds(self) -> bool:
        """Whether every rule that matters holds with the pieces as they were cut."""
        return holds(self.findings)


def check(hive: Hive, readings: Readings) -> AsBuilt:
    """What comes together from these pieces, what fails, and what to do with each.

    `readings` gives sizes as measured, by the name of the part's size: one reading for all pieces
    of a part, or one for each in the order of its places. Raises HiveFaults with every fault.
    """
    measured = [*_measured(hive, readings)]
    cut = {s.name: v for sizes, v in measured for s in sizes}
    found = findings(hive, cut)
    fails = tuple(f for f in broken(findings(hive), found) if f.level != "note")
    failing = frozenset(f.rule for f in fails)
    alone = [
        newly_failing(hive, dict.fromkeys((s.name for s in sizes), v)) for sizes, v in measured
    ]
    clashing = failing.difference(*alone)
    read = [
        _Cut(hive, cut, failing, clashing, sizes, v, tuple(f))
        for (sizes, v), f in zip(measured, alone, strict=True)
    ]
    pieces = tuple(each.piece() for each in read)
    wrong = [each for each, piece in zip(read, pieces, strict=True) if not piece.allowed]
    sizes, components = together(hive, cut), {*built(hive), "stack"}
    came = {
        n: sizes[n]
        for n, d in BUILT.dimensions.items()
        if d.component in components and d.inputs and d.kind == "length"
    }
    return AsBuilt(came, pieces, tuple(found), tuple(_with_causes(fails, wrong, hive, cut)))


def _measured(hive: Hive, readings: Readings) -> Iterator[tuple[tuple[PieceSize, ...], Length]]:
    """The pieces that each reading stands for, and the reading."""
    pieces = pieces_of(hive)
    for name, given in readings.items():
        sizes = tuple(s for s in pieces if name in (s.name, s.planned))
        if len(given) == 1:
            yield sizes, given[0]
        else:
            yield from (((s,), v) for s, v in zip(sizes, given, strict=False))


@dataclass(frozen=True)
class _Cut:
    """A reading, the pieces that it stands for, and the rules that fail with them alone.

    Beside it all pieces as they were cut, the rules that fail with all of them, and of these the
    ones that fail with no piece alone.
    """

    hive: Hive
    cut: Mapping[str, Fraction]
    failing: frozenset[str]
    clashing: frozenset[str]
    sizes: tuple[PieceSize, ...]
    found: Length
    fails: tuple[str, ...]

    @property
    def size(self) -> PieceSize:
        return self.sizes[0]

    @property
    def several(self) -> bool:
        return len(self.sizes) > 1

    @cached_property
    def planned(self) -> Length:
        return mark(self.hive, self.size.planned)

    @property
    def alone(self) -> dict[str, Fraction]:
        """Its sizes, and nothing else cut otherwise than planned."""
        return dict.fromkeys((s.name for s in self.sizes), self.found)

    @property
    def off(self) -> Length:
        """By how much it is bigger than planned; below 0 where it is smaller."""
        return self.found - self.planned

    @property
    def sized(self) -> str:
        """The piece with its size: "Side rails: 21 5/8 in long"."""
        size = f"{self.said(self.found)} {ADJECTIVES[self.size.size]}"
        return f"{self.words.capitalize()}: {size}"

    @property
    def words(self) -> str:
        """The piece as one says it: "left side rail", "side rails"."""
        return f"{title(self.size.part.name)}s" if self.several else self.size.words

    def piece(self) -> CutPiece:
        """What to do with it: the first way that helps, in the order of what is simplest."""
        clash, use = "", "use them" if self.several else "use it"
        if not self.fails and self.off > 0 and self._trim():
            # a rule that only the pieces together break, where this one is too big for it
            clash = min(self.clashing & self.reached, default="")
        ways: tuple[tuple[Verdict, Callable[[], str]], ...] = (
            ("good", lambda: "" if self.fails or clash else f"{self.sized}, {use}."),
            ("together", self._together),
            ("trim", self._trim),
            ("mark", self._mark_anew),
            ("follow", self._follow),
            ("pair", self._pair),
            ("foam", self._foam),
            ("new", self._new),
        )
        verdict, advice = next((v, said) for v, way in ways if (said := way()))
        if verdict not in {"good", "together"}:
            because = self._why(clash, self.cut) if clash else self._why(self.fails[0], self.alone)
            too = f"{self.said(abs(self.off))} {TOO[self.size.size][self.off < 0]}"
            advice = f"The {self.words} {'are' if self.several else 'is'} {too}. {because} {advice}"
        name = self.size.planned if self.several else self.size.name
        caution = _caution(self.size, verdict, self.off)
        return CutPiece(name, self.planned, self.found, verdict, advice, caution)

    @property
    def reached(self) -> set[str]:
        """The sizes and rules that depend on it."""
        return {r for s in self.sizes for r in FIT.reached_by(s.name)}

    def said(self, length: Length) -> str:
        return limit_text(length, self.hive.units)

    def _together(self) -> str:
        if self.failing & self.reached:
            return ""
        return (
            f"{self.sized}, not as planned, but with the other pieces as you cut them it goes: use "
            "them together."
        )

    def _why(self, worst: str, cut: Mapping[str, Fraction]) -> str:
        """A rule that fails with these pieces, in the builder's figures."""
        what = FIT.dimension(worst).what.rstrip(".")
        found = next(f for f in findings(self.hive, cut) if f.rule == worst)
        if found.kind == "ratio":
            return f"{what}: {float(found.value):.3f}."
        value = self.said(found.value)
        if found.low is not None and found.value < found.low:
            return f"{what}: {value}; {self.said(found.low)} or more is wanted."
        most = found.value if found.high is None else found.high
        return f"{what}: {value}; {self.said(most)} is the most."

    def _trim(self) -> str:
        strip = self.size.part.material == "strip" and self.size.size != "length"
        if self.off <= 0 or (strip and self.off > PLANED):
            return ""
        verb, each = _verb(self.size, self.off), " each" if self.several else ""
        size = f"{self.said(self.planned)} {ADJECTIVES[self.size.size]}"
        return f"{verb} {self.said(self.off)} off{each}, to {size}."

    def _mark_anew(self) -> str:
        """Whether a deck or cover of another size is well with its screw lines marked for it."""
        if self.size.component != "roof" or self.size.part.name not in {"deck", "cover"}:
            return ""
        came = together(self.hive, self.alone)
        over = [came[f"roof.deck_overhang_{way}"] for way in ("along", "across")]
        lips = [came[f"roof.cover_lip_{way}"] for way in ("along", "across")]
        rim = came["roof.rim_side_left_thickness"]
        back = came["roof.rim_back_thickness"] / 2
        edges = {"deck": over, "cover": [lip + o for lip, o in zip(lips, over, strict=True)]}
        lines = {f"roof.{s}_screw_line": (max(e) + min(e) + rim) / 2 for s, e in edges.items()}
        backs = {f"roof.{s}_back_screw_line": e[0] + back for s, e in edges.items()}
        if newly_failing(self.hive, {**self.alone, **lines, **backs}):
            return ""
        sheet = self.size.part.name
        line, at_back = lines[f"roof.{sheet}_screw_line"], backs[f"roof.{sheet}_back_screw_line"]
        return (
            f"The deck still reaches {self.said(min(over))} beyond the rim: use it, and mark the "
            f"screw line {self.said(line)} from the {sheet}'s edge, {self.said(at_back)} at the "
            "back."
        )

    def _follow(self) -> str:
        """Whether it is well once panel, screen and runners are cut to the frame."""
        followers = _followers(self.hive, self.alone)
        if not followers or newly_failing(self.hive, {**self.alone, **followers}):
            return ""
        it = "them" if self.several else "it"
        return f"Use {it}, and cut {_what_follows(followers)} to the frame as it comes out."

    def _pair(self) -> str:
        """Whether its twin cut to the same size, and what goes in cut to them, make it well."""
        names = [s.name for s in pieces_of(self.hive) if s.planned == self.size.planned]
        longer = all(self.cut.get(n, self.found) >= self.found for n in names)
        if self.several or len(names) != len(SIDES) or not longer:
            return ""
        twins = dict.fromkeys(names, self.found)
        followers = _followers(self.hive, twins)
        if newly_failing(self.hive, {**twins, **followers}):
            return ""
        rest = f", and {_what_follows(followers)} to the frame as it comes out" if followers else ""
        return f"Cut its twin to {self.said(self.found)} too{rest}."

    def _foam(self) -> str:
        if self.size.part.material != "foam" or self.off > 0 or self.size.size == "thickness":
            return ""
        return (
            f"Glue or tape a strip of foam of {self.said(-self.off)} to its edge, or cut a new one."
        )

    def _new(self) -> str:
        if self.size.part.material == "strip":
            return f"Cut {'new strips' if self.several else 'a new strip'}: it costs a minute."
        other = self._serves_for()
        old, is_ = ("these", "are") if self.several else ("this one", "is")
        kept = f"; {old} {is_} enough for {other}" if other else ""
        wood = self.size.part.material in {"stud", "board"} and self.size.size == "length"
        screwed = wood and self.size.part.name != "landing_board"  # at its ends
        shim = " No shim holds the screws of its joints." * screwed
        return f"Cut {'new ones' if self.several else 'a new one'}{kept}.{shim}"

    def _serves_for(self) -> str:
        """The longest other piece of this hive that can be cut from this one, along the grain.

        Of lumber rather one that is only crosscut: the rest is worth more than strips, and what is
        short is not ripped at all.
        """
        have = {**as_cut(self.hive), **self.cut}
        mine, own = _three(self.size, have), self.size.part.material
        materials = _YIELDS.get(own, frozenset({own}))
        is_long = own not in _YIELDS or (mine[2] or LEAST_RIP) >= LEAST_RIP
        others = [
            (_three(other, have)[:2] == mine[:2], have[other.name], other)
            for other in pieces_of(self.hive)
            if other.size == "length"
            and other.part.name != self.size.part.name
            and other.part.material in materials
            and _lies_within(_three(other, have), mine, planed=other.part.material in _YIELDS)
        ]
        others = [one for one in others if one[0] or is_long]
        if not others:
            return ""
        best = max(others, key=lambda one: (one[0] and own in _YIELDS, one[1]))[2]
        return f"the {title(best.part.name)} ({self.said(mark(self.hive, best.planned))})"


def _with_causes(
    fails: Sequence[Finding], wrong: Sequence[_Cut], hive: Hive, cut: Mapping[str, Fraction]
) -> Iterator[Finding]:
    """The rules that fail, each with the piece that it follows from in place of its own remedy.

    It holds once that piece is as planned, or all wrong pieces that it asks about: so nobody spoils
    a good piece by cutting it to a wrong one.
    """

    def failing_without(pieces: Sequence[_Cut]) -> list[str]:
        gone = {name for piece in pieces for name in piece.alone}
        return newly_failing(hive, {n: v for n, v in cut.items() if n not in gone})

    if not (fails and wrong):
        yield from fails
        return
    one_mended = [(piece, failing_without([piece])) for piece in wrong]
    all_mended = failing_without(wrong)
    for f in fails:
        one = [p.words for p, failing in one_mended if f.rule not in failing][:1]
        asked = [p.words for p in wrong if f.rule in p.reached and f.rule not in all_mended]
        causes = " and the ".join(one or asked)
        follows = f"Do what is said of the {causes}, from which this follows."
        yield replace(f, mend=follows) if causes else f


def _three(size: PieceSize, have: Mapping[str, Fraction]) -> list[Length | None]:
    """The thickness, width and length of the piece that this size is of."""
    piece = size.name.removesuffix(size.size)
    return [have.get(f"{piece}{s}") for s in SIZES]


def _followers(hive: Hive, cut: Mapping[str, Fraction]) -> dict[str, Fraction]:
    """The pieces that are cut to a frame, as they are for the frame that these pieces make."""
    came, before = together(hive, cut), together(hive)
    given: dict[str, Fraction] = {}
    for opening, replaced in CUT_TO.items():
        if came[opening] != before[opening]:
            given |= dict.fromkeys(replaced, came[opening])
    if not given:
        return {}
    old, new = values(hive), values(hive, given)
    changed = {s.planned for s in PIECES.values() if s.planned in new}
    follow = {n: new[n] for n in changed if new[n] != old[n] and n not in cut}
    return {n: v for n, v in each_piece(hive, follow).items() if n not in cut}


def _what_follows(followers: Mapping[str, Fraction]) -> str:
    parts = {PIECES[n].part.name for n in followers}
    kinds = {
        "panel": "panel" in parts,
        "screen": any(p.startswith("screen") for p in parts),
        "runners": any(p.endswith("runner") for p in parts),
        "roof foam": "roof_panel" in parts,
    }
    *first, last = [word for word, follows in kinds.items() if follows] or ["the rest"]
    return f"{', '.join(first)} and {last}" if first else last


def _verb(size: PieceSize, off: Length) -> str:
    material = size.part.material
    if material in {"foam", "sheet", "mesh", "plywood"}:
        return {"mesh": "Snip", "plywood": "Saw"}.get(material, "Cut")
    if size.size == "length":
        return "Crosscut"
    return "Plane" if off <= PLANED or material == "strip" else "Rip"


def _caution(size: PieceSize, verdict: Verdict, off: Length) -> str:
    if verdict in {"good", "together", "mark"}:
        return ""
    material = size.part.material
    if material in _CAUTIONS:
        return _CAUTIONS[material]
    if verdict != "trim" or _verb(size, off) == "Plane" or off > THIN_SLICE:
        return ""
    return (
        "A thin slice can jam at the blade or fly: follow the manual of your saw, or plane it off."
    )


def _lies_within(
    need: Sequence[Length | None], have: Sequence[Length | None], *, planed: bool
) -> bool:
    """Whether the sizes of a piece go into those of another, its length along the other's.

    What is not planed, as plywood, must be as thick as the other already.
    """
    (t0, t1), _, (l0, l1) = zip(need, have, strict=True)
    if l0 is None or l1 is None or l0 > l1 or (not planed and t0 != t1):
        return False
    small, big = (sorted(s for s in sizes[:2] if s is not None) for sizes in (need, have))
    return all(one <= other for one, other in zip(small, big, strict=False))
