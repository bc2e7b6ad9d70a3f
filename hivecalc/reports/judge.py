"""The reports on verdicts: on one answer, on a chain, and on a whole file of answers."""

import json
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Final, Self

from hivecalc.answers import AnswerRow, rows_in
from hivecalc.derivation import title
from hivecalc.document import Cell, Document, Form, Json, Paragraph, Report, Rows, Section
from hivecalc.document.text import csv_text
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.judging import Judgement, Verdict, verdict, verdict_json
from hivecalc.judging.chain import ChainVerdict, chain_json, whole_verdict
from hivecalc.support.faults import MOST_FAULTS, escaped, quoted, so_many

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
    return _report(judged, lines, lambda: verdict_json(judged))


def chain_report(hive: Hive, found: ChainVerdict, answer: str | None) -> Report:
    """The report on the verdict on a chain, and on an answer as its sum."""
    whole = whole_verdict(hive, found, answer)
    sizes = ", ".join(f"{count} × {title(name)}" for name, count in found.chain.items())
    given = f"; {quoted(answer)}" if answer is not None else ""
    lines = (f"{_named(found.dimension)}: {sizes}{given}", whole.message, _look(found.question))
    return _report(whole, lines, lambda: chain_json(hive, found, answer))


def _named(dimension: str) -> str:
    return f"{title(dimension).capitalize()} ({dimension})"


def _look(question: str) -> str:
    return question and f"Look again: {question}"


def _report(judged: Verdict, lines: Iterable[str], data: Callable[[], Json]) -> Report:
    paragraphs = tuple(Paragraph(line) for line in lines if line)
    return Report(
        lambda: Document("", (Section("", paragraphs),)),
        lambda: Rows(COLUMNS, [_cells(judged)]),
        data,
        holds=judged.right,
    )


def _cells(judged: Verdict) -> list[Cell]:
    slips = "; ".join(slip.name for slip in judged.slips)
    carried = "yes" if judged.carried else "no"
    texts = (judged.verdict, slips, judged.message, judged.first_difference, carried)
    return [judged.dimension, judged.answer, *texts]


# ── a file of answers ─────────────────────────────────────────────────────────────────────────


@dataclass(frozen=True)
class JudgedFile:
    """A file of answers: the rows with their verdicts, and what is wrong with the other rows."""

    rows: Sequence[tuple[AnswerRow, Verdict]]
    faults: Sequence[Fault]

    @classmethod
    def of(cls, hive: Hive, path: Path, named: Callable[[str], str]) -> Self:
        """The file judged for a hive.

        `named` gives the full name of a dimension, and raises HiveFaults for one that there isn't.
        Raises HiveFaults for a file that can't be read.
        """

        @cache
        def known(text: str) -> str | Fault:
            try:
                return named(text)
            except HiveFaults as error:
                return error.faults[0]

        rows, faults = list[tuple[AnswerRow, Verdict]](), list[Fault]()
        for row in rows_in(path):
            if isinstance(row, Fault):
                faults.append(row)
                continue
            dimension, *names = map(known, (row.dimension, *row.carry))
            if wrong := [name for name in (*names, dimension) if isinstance(name, Fault)]:
                place = f"{escaped(str(path))}, row {row.number}, {wrong[0].place}"
                faults.append(replace(wrong[0], place=place))
            else:
                earlier = dict(zip(map(str, names), row.carry.values(), strict=True))
                rows.append((row, verdict(hive, str(dimension), row.answer, earlier)))
        return cls(rows, faults)

    @property
    def warnings(self) -> list[str]:
        """What is wrong, a sentence a row; of very many rows only the first."""
        more = len(self.faults) - MOST_FAULTS
        rest = [f"{more:,} more rows are left out."] if more > 0 else []
        return [*map(str, self.faults[:MOST_FAULTS]), *rest]

    def written(self, form: Form) -> str:
        """The verdicts in a form: "text", "csv", or "json" with an object a line."""
        if form == "csv":
            cells = [[row.number, row.learner, *_cells(found)] for row, found in self.rows]
            return csv_text(Rows(("row", "learner", *COLUMNS), cells))
        said = _row_json if form == "json" else _row_text
        end = "" if form == "json" else f"{self._summary}\n"
        return "".join(said(row, found) for row, found in self.rows) + end

    @property
    def _summary(self) -> str:
        verdicts, damaged = Counter(found.verdict for _, found in self.rows), len(self.faults)
        counts = {IN_WORDS[kind]: verdicts[kind] for kind in IN_WORDS}
        counts["row left out" if damaged == 1 else "rows left out"] = damaged
        parts = [f"{count:,} {what}" for what, count in counts.items() if count]
        return f"{so_many(len(self.rows), 'answer')}: {'; '.join(parts) or 'nothing to judge'}"


def _row_text(row: AnswerRow, found: Verdict) -> str:
    slips = " or ".join(title(slip.name) for slip in found.slips)
    said = IN_WORDS[found.verdict] + (f": {slips}" if slips else "")
    name = f"{row.learner}, " if row.learner else ""
    return f"{row.number}  {escaped(name)}{title(found.dimension)} {quoted(found.answer)}: {said}\n"


def _row_json(row: AnswerRow, found: Verdict) -> str:
    said = verdict_json(found)
    first = {"schema": said.pop("schema"), "row": row.number, "learner": row.learner}
    return json.dumps({**first, **said}) + "\n"
