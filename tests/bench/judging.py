"""Figures of judging: is the true slip named, is silence kept, how long does it take.

Run it from the top of the project: `python -m tests.bench.judging`; with a number behind it so many
right answers are tried. Every hive is invented, and the same each time.
"""

# ruff: noqa: S311 - it prints its figures, and its dice need no secrecy

import random
import statistics
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from hivecalc.components import DIMENSIONS, values
from hivecalc.fit.findings import mark
from hivecalc.hive import MEASUREMENTS, Hive, HiveFaults, changed, hive_from_text
from hivecalc.judging import Entry, Wrong, question, verdict
from hivecalc.length import (
    MILLIMETRE,
    SIXTEENTH,
    SIXTY_FOURTH,
    THIRTY_SECOND,
    Units,
    decimal_inches,
    feet_and_inches,
    millimetres,
    mixed,
    rounded,
    written,
)

STARTS = (
    'measured = {{hive_length = "{length}", hive_width = "{width}"}}',
    "chosen = {{frames = {frames}}}",
    'measured = {{box_length = "{length}", box_width = "{width}", box_height = "9 5/8"}}',
)
OWN_STOCK = (
    "stud_thickness", "stud_width", "strip_narrow", "strip_wide", "foam_thickness", "panel_gap",
    "screen_gap", "runner_gap", "entrance_height", "cap_clearance", "overhang", "cover_lip",
    "rim_back_thickness", "skirt_thickness", "sheet_thickness", "board_thickness", "slot_ease",
    "inner_notch", "edge_strip_height", "skin_thickness",
)  # fmt: skip


def hives(count: int, seed: int = 5) -> Iterator[Hive]:
    """Invented hives: measured ones, boxes and frames in sleeves; usual stock and odd stock."""
    dice = random.Random(seed)
    made = 0
    while made < count:
        start = STARTS[(0, 0, 1, 2)[made % 4]]
        text = start.format(
            length=written(Fraction(dice.randint(16 * 17, 16 * 26), 16)),
            width=written(Fraction(dice.randint(16 * 12, 16 * 21), 16)),
            frames=dice.randint(5, 12),
        )
        hive = hive_from_text(text)
        try:
            hive = changed(hive, _stock(dice)) if made % 3 else hive
            made += all(v >= 0 for n, v in values(hive).items() if n in DIMENSIONS.dimensions)
        except HiveFaults:
            continue
        if all(v >= 0 for n, v in values(hive).items() if n in DIMENSIONS.dimensions):
            yield hive


def _stock(dice: random.Random) -> dict[str, Fraction]:
    """Sizes near the usual ones, as a tape reads them."""
    found = {}
    for name in OWN_STOCK:
        known = MEASUREMENTS[name]
        off = Fraction(dice.choice([0, 0, 0, -2, -1, 1, 2]), 16)
        found[name] = min(max((known.defaults["inch"] or 0) + off, known.low), known.high)
    return found


# ── how an answer is written ──────────────────────────────────────────────────────────────────


def spelled(wrong: Wrong, value: Fraction, units: Units) -> list[str]:
    """What a slip comes to, in each notation in which that slip can stand at all.

    >>> from hivecalc.judging import SLIPS
    >>> cm = Wrong(SLIPS["mm_for_cm"], "roof.lap", Fraction(2), forms=frozenset({"metric"}))
    >>> spelled(cm, cm.value, "inch")
    ['50.8 mm', '5.08 cm']
    """
    texts = [*notations(value, wrong.slip.family), f"{value.numerator}/{value.denominator}"]
    if not wrong.forms:
        return texts[:-1]
    return [t for t in texts if wrong.forms <= Entry(t, value, units).forms]


def notations(value: Fraction, family: str = "rule") -> list[str]:
    """A value in five notations: fraction, decimal, feet and inches, mm, cm.

    What came of a slip in writing is no mark of a tape and is not rounded to one: it stays decimal.
    """
    places = decimal_inches(value, 4) if family == "writing" else mixed(value, SIXTY_FOURTH)
    feet, inches = divmod(value, 12)
    long = f"{feet} ft {decimal_inches(inches)} in"
    texts = (
        places,
        decimal_inches(value),
        long if family == "writing" else feet_and_inches(value, SIXTY_FOURTH),
        f"{millimetres(value)} mm",
        f"{millimetres(value / 10, 2)} cm",
    )
    return [t.replace("≈ ", "") for t in texts]


def right_texts(hive: Hive, name: str) -> list[str]:
    """A right value in every notation, and at each mark of its own unit that fit allows here."""
    value, asked = values(hive)[name], DIMENSIONS.dimension(name)
    if asked.kind == "ratio":
        return [decimal_inches(value, p).removeprefix("≈ ") for p in (3, 4, 5)]
    marks = {value, *(mark(hive, name, g) for g in (SIXTEENTH, THIRTY_SECOND, SIXTY_FOURTH))}
    texts = [t for m in marks if m > 0 for t in _in_inches(m)]
    if value > 0:
        texts += [f"{millimetres(value)} mm", f"{millimetres(value / 10, 2)} cm"]
    texts += [f"{millimetres(mark(hive, name, MILLIMETRE))} mm"]
    return [t.replace("≈ ", "") for t in texts if not t.startswith("0 ")]


def _in_inches(value: Fraction) -> Iterator[str]:
    yield from (decimal_inches(value, places) for places in (2, 3, 4))
    if 64 % value.denominator == 0:
        inches = mixed(value, SIXTY_FOURTH)
        feet = feet_and_inches(value, SIXTY_FOURTH)
        top = value.numerator
        yield from (inches, f"{inches} in", f'{inches}"', f"{inches}″", inches.replace(" ", "-"))
        yield from (feet, f"{top}/{value.denominator}", f"{2 * top}/{2 * value.denominator}")


# ── the figures ───────────────────────────────────────────────────────────────────────────────


def slipped(hive: Hive, name: str) -> Iterator[tuple[Wrong, Fraction, int]]:
    """The wrong answers to one dimension: the slip, what it comes to, how many steps back it is.

    One that would be judged right is none. Nor is one that leaves no trace, as another size decides
    and any wrong value there would give the same.
    """
    known = hive.measurements
    found = values(hive)
    steps = {name: 0} if name in known else {name: 0, **DIMENSIONS.before(name, known)}
    for step, back in steps.items():
        for wrong in question(hive, step).wrong:
            if back and not wrong.slip.carries:
                continue
            value, other = (
                DIMENSIONS.worked_on(name, found, {step: wrong.value + off}, known)
                for off in (0, Fraction(1, 1000))
            )
            if value > 0 and value != other:
                yield wrong, value, back


class Naming:
    """How often the true slip was named, and how many were named beside it."""

    def __init__(self) -> None:
        self.tried: Counter[int] = Counter()
        self.named: Counter[int] = Counter()
        self.numbers: list[int] = []
        self.missed: Counter[tuple[str, str]] = Counter()
        self.missed_dimensions: Counter[str] = Counter()

    def note(self, hive: Hive, name: str, wrong: Wrong, back: int, text: str) -> None:
        """Judge one wrong answer; one that rounds to the right value is left out."""
        judged = verdict(hive, name, text)
        if judged.right:
            return
        slips = [s.name for s in judged.slips]
        self.tried[back] += 1
        if wrong.slip.name in slips:
            self.named[back] += 1
        else:
            self.missed[wrong.slip.name, ",".join(slips)] += 1
            self.missed_dimensions[name] += 1
        self.numbers.append(len(slips))


def naming(some: Iterable[Hive], names: Iterable[str] | None = None) -> Naming:
    """Every slip of every dimension in five notations, at the step, one and two steps back."""
    result = Naming()
    for hive in some:
        for name in names or DIMENSIONS.dimensions:
            if name not in values(hive):
                continue
            for wrong, value, back in slipped(hive, name):
                if DIMENSIONS.dimension(name).kind == "ratio":
                    texts = [decimal_inches(value, 4).removeprefix("≈ ")]
                else:
                    texts = spelled(wrong, value, hive.units)
                for text in texts:
                    result.note(hive, name, wrong, back, text)
    return result


def loudness(some: Iterable[Hive]) -> dict[str, float]:
    """The share of wrong answers, any 1/16 within 3 in of the value, that get a slip named."""
    heard: dict[str, list[bool]] = defaultdict(list)
    for hive in some:
        found = values(hive)
        for name in DIMENSIONS.dimensions:
            if name in found:
                middle = rounded(found[name], SIXTEENTH)
                for off in range(-48, 49):
                    answer = middle + Fraction(off, 16)
                    judged = verdict(hive, name, mixed(answer)) if answer > 0 else None
                    if judged and not judged.right:
                        heard[name].append(judged.verdict == "slip")
    return {name: statistics.mean(each) for name, each in heard.items()}


def wronged(some: Iterable[Hive], most: int) -> tuple[int, list[str]]:
    """How many right answers were tried, and those that were not called right."""
    tried, wrong = 0, []
    for hive in some:
        for name, value in values(hive).items():
            if name in DIMENSIONS.dimensions:
                for text in right_texts(hive, name):
                    judged = verdict(hive, name, text)
                    tried += 1
                    if not judged.right or judged.carried or judged.slips:
                        wrong.append(f"{name} = {value}: {text} {judged.verdict}")
        if tried >= most:
            break
    return tried, wrong


@dataclass(frozen=True)
class Speed:
    """Milliseconds of one answer at p95, and answers a second, in time of the processor."""

    new_hive: float
    new_answer: float
    a_second: float
    a_second_repeated: float


def speed(some: list[Hive]) -> Speed:
    """How long one answer takes: the first to a dimension of a hive, a further one, a known one."""
    off = [Fraction(n, 16) for n in (4, 5, 23, -3, 8)]
    first = _times(some, off[:1])
    further = _times(some, off[1:])
    again = [_times(some[:4], off[1:]) for _ in range(2)][1]
    return Speed(_p95(first), _p95(further), len(further) / sum(further), len(again) / sum(again))


def _times(some: list[Hive], off: list[Fraction]) -> list[float]:
    found = []
    for hive in some:
        for name, value in values(hive).items():
            for text in [mixed(value + o).removeprefix("≈ ") for o in off]:
                if name in DIMENSIONS.dimensions and value > -min(off):
                    begin = time.process_time()
                    verdict(hive, name, text)
                    found.append(time.process_time() - begin)
    return found


def _p95(times: list[float]) -> float:
    return 1000 * statistics.quantiles(times, n=20)[-1]


def main(right_answers: int = 10_000) -> None:
    """Print all figures."""
    some = list(hives(44))
    print(speed(some))
    found = naming(some)
    for back in sorted(found.tried):
        share = found.named[back] / found.tried[back]
        print(f"true slip named, {back} steps back: {share:.2%} of {found.tried[back]}")
    tenths = statistics.quantiles(found.numbers, n=10)
    print(f"named: median {statistics.median(found.numbers)}, ninth decile {tenths[-1]}")
    for (slip, named), times in found.missed.most_common(25):
        print(f"  missed {times:5}: {slip} (named {named or 'none'})")
    print(*found.missed_dimensions.most_common(6), sep="\n  ")
    table = loudness(some)
    for name, share in sorted(table.items(), key=lambda row: row[1]):
        print(f"  {share:6.1%} {name}")
    copies = [n for n in table if DIMENSIONS.dimension(n).parameters == ("source",)]
    worked = [share for n, share in table.items() if n not in copies]
    print(f"wrong answers that get a slip named: {statistics.mean(table.values()):.1%} in the mean")
    print(f"the same, of those with a rule of their own: {statistics.mean(worked):.1%}")
    tried, wrong = wronged(hives(10_000, 6), right_answers)
    print(f"right answers called wrong: {len(wrong)} of {tried}", *wrong[:10], sep="\n  ")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
