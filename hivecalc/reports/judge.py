"""The reports on verdicts: on one answer, on a chain, and on a whole file of answers.

A file of answers is answered as it is read, some hundred rows at a time.
"""

import json
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache
from itertools import islice
from typing import Final, TypeAlias

from hivecalc.answers import AnswerRow
from hivecalc.derivation import title
from hivecalc.document import Cell, Document, Form, Paragraph, Report, Rows, Section
from hivecalc.document.text import csv_text
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.judging import Judgement, Verdict, verdict, verdict_json
from hivecalc.judging.chain import ChainVerdict, chain_json, whole_verdict
from hivecalc.support.faults import MOST_FAULTS, escaped, quoted

AT_ONCE: Final = 200
"""Rows that are printed together."""

MOST_NAMES: Final = 20_000
"""Names that are remembered while a file is read."""

COLUMNS: Final = (
    "dimension", "answer", "verdict", "slips", "message", "first_difference", "carried",
)  # fmt: skip
IN_WORDS: Final[dict[Judgement, str]] = {
    "right": "right",
    "right_other_form": "right, in another form",
    "right_carried": "right, worked on from an earlier answer",
    "slip": "not right, a slip gives it",
    "unexplained": "not the value expected",
    "unreadable": "can't be read",
}


# ── one answer, one chain ─────────────────────────────────────────────────────────────────────


def verdict_report(judged: Verdict) -> Report:
    """The report on the verdict on one answer."""
    practice = [f"To practise: {slip.practice}" for slip in judged.slips[:1]]
    asked = f"{_named(judged.dimension)}: {quoted(judged.answer)}"
    lines = (asked, judged.message, judged.tells_apart, _look(judged.question), *practice)
    return Report(
        lambda: _lines(*lines),
        lambda: Rows(COLUMNS, [_cells(judged)]),
        lambda: verdict_json(judged),
        holds=judged.right,
    )


def chain_report(hive: Hive, found: ChainVerdict, answer: str | None) -> Report:
    """The report on the verdict on a chain, and on an answer as its sum."""
    whole = whole_verdict(hive, found, answer)
    sizes = ", ".join(f"{count} × {title(name)}" for name, count in found.chain.items())
    given = f"; {quoted(answer)}" if answer is not None else ""
    lines = (f"{_named(found.dimension)}: {sizes}{given}", whole.message, _look(found.question))
    return Report(
        lambda: _lines(*lines),
        lambda: Rows(COLUMNS, [_cells(whole)]),
        lambda: chain_json(hive, found, answer),
        holds=whole.right,
    )


def _named(dimension: str) -> str:
    return f"{title(dimension).capitalize()} ({dimension})"


def _look(question: str) -> str:
    return question and f"Look again: {question}"


def _lines(*lines: str) -> Document:
    return Document("", (Section("", tuple(Paragraph(line) for line in lines if line)),))


def _cells(judged: Verdict) -> list[Cell]:
    slips = "; ".join(slip.name for slip in judged.slips)
    carried = "yes" if judged.carried else "no"
    texts = (judged.verdict, slips, judged.message, judged.first_difference, carried)
    return [judged.dimension, judged.answer, *texts]


# ── a file of answers ─────────────────────────────────────────────────────────────────────────


Judged: TypeAlias = tuple[AnswerRow, Verdict]
"""A row of a file of answers, and the verdict on it."""


@dataclass
class Tally:
    """What became of the rows of a file: how many got which verdict, and how many are damaged."""

    hive: Hive
    place: str
    verdicts: Counter[Judgement] = field(default_factory=Counter)
    damaged: int = 0

    def judged(
        self,
        rows: Iterable[AnswerRow | Fault],
        named: Callable[[str], str],
        tell: Callable[[str], None],
    ) -> Iterator[Judged]:
        """The rows with a verdict; of those without, the first are listed one by one.

        `named` gives the full name of a dimension, and raises HiveFaults for one that there isn't.
        """

        @lru_cache(MOST_NAMES)
        def known(text: str) -> str | HiveFaults:
            try:
                return named(text)
            except HiveFaults as error:
                return error

        for row in rows:
            fault = row if isinstance(row, Fault) else None
            if isinstance(row, AnswerRow):
                dimension, *names = map(known, (row.dimension, *row.carry))
                if wrong := [n for n in (*names, dimension) if isinstance(n, HiveFaults)]:
                    fault = wrong[0].faults[0]
                    fault = replace(fault, place=f"{self.place}, row {row.number}, {fault.place}")
                else:
                    earlier = dict(zip(map(str, names), row.carry.values(), strict=True))
                    found = verdict(self.hive, str(dimension), row.answer, earlier)
                    self.verdicts[found.verdict] += 1
                    yield row, found
            if fault:
                self.damaged += 1
                if self.damaged <= MOST_FAULTS:
                    tell(str(fault))
        if self.damaged > MOST_FAULTS:
            tell(f"{self.damaged - MOST_FAULTS:,} more rows are left out.")

    @property
    def all_right(self) -> bool:
        """Whether no answer was called anything but right."""
        return all(kind.startswith("right") for kind in self.verdicts)

    @property
    def text(self) -> str:
        """The sum of it, to read."""
        counts = {IN_WORDS[kind]: self.verdicts[kind] for kind in IN_WORDS}
        counts["row left out" if self.damaged == 1 else "rows left out"] = self.damaged
        parts = [f"{count:,} {what}" for what, count in counts.items() if count]
        count = self.verdicts.total()
        return f"{count:,} answer{'s' * (count != 1)}: {'; '.join(parts) or 'nothing to judge'}"


def answers_text(judged: Iterable[Judged], tally: Tally, form: Form) -> Iterator[str]:
    """Verdicts in a form, piece by piece: "text", "csv", or "json" with an object a line.

    The text ends with what the tally says when all rows are judged.
    """
    rest, columns = iter(judged), ("row", "learner", *COLUMNS)
    head = csv_text(Rows(columns, [])) if form == "csv" else ""
    while some := list(islice(rest, AT_ONCE)):
        if form == "csv":
            rows = [[row.number, row.learner, *_cells(found)] for row, found in some]
            yield head + csv_text(Rows(columns, rows)).partition("\n")[2]
            head = ""
        else:
            said = _row_json if form == "json" else _row_text
            yield "".join(said(row, found) for row, found in some)
    end = f"{tally.text}\n" if form == "text" else head
    if end:
        yield end


def _row_text(row: AnswerRow, found: Verdict) -> str:
    slips = " or ".join(title(slip.name) for slip in found.slips)
    said = IN_WORDS[found.verdict] + (f": {slips}" if slips else "")
    name = f"{row.learner}, " if row.learner else ""
    return f"{row.number}  {escaped(name)}{title(found.dimension)} {quoted(found.answer)}: {said}\n"


def _row_json(row: AnswerRow, found: Verdict) -> str:
    said = verdict_json(found)
    first = {"schema": said.pop("schema"), "row": row.number, "learner": row.learner}
    return json.dumps({**first, **said}) + "\n"
