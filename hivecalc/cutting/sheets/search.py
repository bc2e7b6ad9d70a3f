"""The search: mixes of sheets, the cheapest first, each shown to hold all pieces or not to.

The first mix that holds them is the best, if all before it were shown not to. One that was neither
shown to hold them nor not to stays open: the bound can't pass it.
"""

from fractions import Fraction
from itertools import chain
from typing import Final

from hivecalc.cutting.sheets.choosing import chosen
from hivecalc.cutting.sheets.columns import Columns
from hivecalc.cutting.sheets.knapsack import Effort
from hivecalc.cutting.sheets.mixes import Certificate, by_area, mixes
from hivecalc.cutting.sheets.packing import PATIENCE, Packing
from hivecalc.cutting.sheets.pricing import by_layouts, by_search, by_table, step_for
from hivecalc.cutting.sheets.problem import Mix, Pattern
from hivecalc.cutting.sheets.record import Record

POINTS: Final = 50_000
"""Points of a table that takes a tenth of a second."""

POINTS_A_SECOND: Final = 500_000

SHARES: Final = 20
"""Parts that the time is shared out in."""

MOST_ROOM: Final = Fraction(1, 4)
LEAST_ROOM: Final = Fraction(1, 200)
"""Shares of the sheets that may be left over, between which the tightest packing is sought."""

MOST_OPEN: Final = 6
"""Mixes that may be open; beyond them the time is better spent on these."""


def searched(record: Record) -> None:
    """Go on until the best cutting is proved, the time is up, or nothing new comes up."""
    _Search(record).go_on()


class _Search:
    """What is known about mixes, and those that are open: each with its tries to pack it."""

    def __init__(self, record: Record) -> None:
        self.record, self.problem = record, record.problem
        self.share = record.seconds / SHARES
        self.certificates: list[Certificate] = [by_area(record.problem)]
        self.columns: list[Columns] = []
        self.open: list[Packing] = []
        self.cut_short = False  # by time, with cheaper mixes that nobody looked at

    def go_on(self) -> None:
        """Settle mixes that are cheaper than the best, then pack what stayed open."""
        self.record.doing = "looking at cheaper sheets"
        for mix in mixes(self.problem, self.certificates):
            cost = self.problem.cost(mix)
            if not self.open:
                self.record.prove(cost)
            settled = cost >= self.record.cost or len(self.open) == MOST_OPEN
            if settled or self.record.seconds_left <= 0:
                self.cut_short = not settled
                break
            self._settle(mix)
        self.record.doing = "packing tighter"
        self._pack_open()

    def _settle(self, mix: Mix) -> None:
        """Pack all pieces in a mix, or refute it, or leave it open."""
        packing = Packing(self.problem, mix)
        if self._packed(packing) or self._refuted(mix) or self._packed(packing):
            return
        self.open.append(packing)

    def _narrow(self) -> None:
        """Pack mixes with some room left, less and less of it, halving what is not known yet."""
        failed, packed = Fraction(0), MOST_ROOM
        while packed - failed > LEAST_ROOM and self.record.seconds_left > 0:
            room = (failed + packed) / 2
            roomy = [certificate.with_room(room) for certificate in self.certificates]
            mix = next(mixes(self.problem, roomy), None)
            dearer = mix and self.problem.cost(mix) >= self.record.cost
            if mix is None or dearer or self._packed(Packing(self.problem, mix)):
                packed = room
            else:
                failed = room

    def _packed(self, packing: Packing) -> bool:
        """Whether all pieces could be packed, in a share of the time or before patience ends."""
        until = max(self.record.seconds_left - self.share, 0)
        while packing.left and packing.stale < PATIENCE and self.record.seconds_left > until:
            packing.try_again()
        if packing.left:
            return False
        self.record.improve(packing.cutting)
        return True

    def _refuted(self, mix: Mix) -> bool:
        """Whether a mix is shown not to hold all; once one is open, only by what is known."""
        if not self.columns:
            self._narrow()
            self._generate()
        for columns in () if self.open else self.columns:
            if not all(certificate.allows(mix) for certificate in self.certificates):
                break
            seconds = min(2 * self.share, self.record.seconds_left)
            if found := columns.refuting(mix, seconds):
                self.certificates.append(found)
        return not all(certificate.allows(mix) for certificate in self.certificates)

    def _generate(self) -> None:
        """Patterns and certificates from what pieces are worth, for all mixes at once."""
        fine = max(POINTS, int(POINTS_A_SECOND * self.share))
        for points in (POINTS, fine):
            step = step_for(self.problem, points)
            self._grow(step)
            self._choose()
            if step == 1 or self._settled():
                break
        effort = Effort(self.share / 4, step_for(self.problem, POINTS))
        self.columns.append(
            Columns(self.problem, by_search(self.problem, effort), self.record.best)
        )

    def _grow(self, step: int) -> None:
        """Patterns and certificates from tables in units of this step."""
        known = [*self.record.best, *chain.from_iterable(c.patterns for c in self.columns)]
        layouts = Columns(self.problem, by_layouts(self.problem, step), known)
        if step > 1:
            layouts.grown(2 * self.share)
        tables = Columns(self.problem, by_table(self.problem, step), layouts.patterns)
        self.certificates += tables.grown(2 * self.share)[-2:]
        self.columns = [tables]

    def _settled(self) -> bool:
        """Whether no mix that is cheaper than the best may hold all."""
        mix = next(mixes(self.problem, self.certificates), None)
        return mix is None or self.problem.cost(mix) >= self.record.cost

    def _choose(self) -> None:
        """Put patterns that came up together anew."""
        found = chain.from_iterable(columns.patterns for columns in self.columns)
        packed = chain.from_iterable(packing.full_patterns() for packing in self.open)
        patterns: dict[Pattern, None] = dict.fromkeys(chain(self.record.best, found, packed))
        if cutting := chosen(self.problem, patterns, self.share):
            self.record.improve(cutting)

    def _pack_open(self) -> None:
        """Pack what is open, in turns and the cheaper ones first, as long as there is hope."""
        while hopeful := [packing for packing in self.open if self._hopeful(packing)]:
            next((packing for packing in hopeful if self._packed(packing)), None)
        if self.open:
            self._choose()
        costs = [self.problem.cost(packing.mix) for packing in self.open if packing.left]
        if self.open or not self.cut_short:
            self.record.prove(min(costs, default=self.record.cost))

    def _hopeful(self, packing: Packing) -> bool:
        cheaper = self.problem.cost(packing.mix) < self.record.cost
        return cheaper and packing.stale < PATIENCE and self.record.seconds_left > 0
