"""Verdicts as text, as rows and for other programs: of one answer, and of a whole file of answers.

A file of answers is told as it is read, some hundred rows at a time.
"""

import json
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from itertools import islice
from typing import Final, Protocol

from hivecalc.derivation import title
from hivecalc.hive import Fault, Hive, HiveFaults
from hivecalc.judging import Judgement, Verdict, verdict, verdict_json
from hivecalc.support.faults import MOST_FAULTS, escaped, quoted
from hivecalc.tables.texts import Cell, Table, csv_text, wrapped

AT_ONCE: Final = 200
"""Rows that are told together."""

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


class Row(Protocol):
    """A row of a file of answers: its number there, whose it is, to what, and earlier answers."""

    @property
    def number(self) -> int:
        """Number in the file."""

    @property
    def learner(self) -> str:
        """Whose answer it is; may be empty."""

    @property
    def dimension(self) -> str:
        """Dimension, as it was written."""

    @property
    def answer(self) -> str:
        """Answer, as it was written."""

    @property
    def carry(self) -> Mapping[str, str]:
        """Earlier answers, by dimension."""


@dataclass(frozen=True)
class Judged:
    """A row of a file of answers, and the verdict on it."""

    row: Row
    verdict: Verdict


# ── one answer ────────────────────────────────────────────────────────────────────────────────


def verdict_text(judged: Verdict) -> str:
    """Verdict on one answer, to read.

    >>> from hivecalc.hive import demo_hive
    >>> found = verdict(demo_hive(), "bottom_board.panel_width", "14 3/8")
    >>> print(verdict_text(found), end="")
    Panel width (bottom_board.panel_width): “14 3/8”
    This is what you would get if the panel gap were left out.
    Look again: What must move or breathe there, and where in your sum is the room
    for it?
    To practise: A drawer runs in an opening 15 in wide with a gap of 1/8 in in all.
    How wide is it?
    """
    name = judged.dimension
    practice = dict.fromkeys(f"To practise: {slip.practice}" for slip in judged.slips[:1])
    question = judged.question and f"Look again: {judged.question}"
    asked = f"{title(name).capitalize()} ({name}): {quoted(judged.answer)}"
    lines = (asked, judged.message, judged.tells_apart, question, *practice)
    return "".join(f"{wrapped(line)}\n" for line in lines if line)


def verdict_table(judged: Iterable[Verdict]) -> Table:
    """Verdicts as rows for a spreadsheet.

    >>> from hivecalc.hive import demo_hive
    >>> found = verdict(demo_hive(), "bottom_board.panel_width", "14 3/8")
    >>> verdict_table([found]).rows[0][:4]
    ['bottom_board.panel_width', '14 3/8', 'slip', 'gap_forgotten']
    """
    return Table(COLUMNS, [_cells(each) for each in judged])


def _cells(judged: Verdict) -> list[Cell]:
    slips = "; ".join(slip.name for slip in judged.slips)
    carried = "yes" if judged.carried else "no"
    told = (judged.verdict, slips, judged.message, judged.first_difference, carried)
    return [judged.dimension, judged.answer, *told]


# ── a file of answers ─────────────────────────────────────────────────────────────────────────


class _Names:
    """Full names by the names that learners write, each looked up once, whether it is known or not.

    `named` gives the full name, and raises HiveFaults for a name that this hive does not have.
    """

    def __init__(self, named: Callable[[str], str]) -> None:
        self._named = named
        self._known: dict[str, str | Fault] = {}

    def __getitem__(self, text: str) -> str:
        if text not in self._known:
            if len(self._known) >= MOST_NAMES:
                self._known.clear()
            self._known[text] = self._looked_up(text)
        found = self._known[text]
        if isinstance(found, Fault):
            raise HiveFaults([found])
        return found

    def _looked_up(self, text: str) -> str | Fault:
        try:
            return self._named(text)
        except HiveFaults as error:
            return error.faults[0]


def judged_rows(
    hive: Hive, rows: Iterable[Row | Fault], named: Callable[[str], str], place: str
) -> Iterator[Judged | Fault]:
    """The verdict on each row of a file of answers, or what is wrong with the row.

    `named` gives the full name of a dimension, and raises HiveFaults for one that there isn't;
    place is what faults call the file.
    """
    names = _Names(named)
    for row in rows:
        yield row if isinstance(row, Fault) else _judged(hive, row, names, place)


def _judged(hive: Hive, row: Row, names: _Names, place: str) -> Judged | Fault:
    try:
        earlier = {names[name]: answer for name, answer in row.carry.items()}
        return Judged(row, verdict(hive, names[row.dimension], row.answer, earlier))
    except HiveFaults as error:
        fault = error.faults[0]
        return replace(fault, place=f"{place}, row {row.number}, {fault.place}")


@dataclass
class Tally:
    """What became of the rows of a file: how many got which verdict, and how many are damaged."""

    verdicts: Counter[Judgement] = field(default_factory=Counter)
    damaged: int = 0

    def counted(
        self, rows: Iterable[Judged | Fault], tell: Callable[[str], None]
    ) -> Iterator[Judged]:
        """The rows with a verdict; of those without, the first are told one by one."""
        for row in rows:
            if isinstance(row, Judged):
                self.verdicts[row.verdict.verdict] += 1
                yield row
            else:
                self.damaged += 1
                if self.damaged <= MOST_FAULTS:
                    tell(str(row))
        if self.damaged > MOST_FAULTS:
            tell(f"{self.damaged - MOST_FAULTS:,} more rows are left out.")

    @property
    def all_right(self) -> bool:
        """Whether no answer was called anything but right."""
        return all(kind.startswith("right") for kind in self.verdicts)

    @property
    def text(self) -> str:
        """The sum of it, to read.

        >>> Tally(Counter({"right": 2, "slip": 1}), damaged=1).text
        '3 answers: 2 right; 1 not right, a slip gives it; 1 row left out'
        """
        counts = {IN_WORDS[kind]: self.verdicts[kind] for kind in IN_WORDS}
        counts["row left out" if self.damaged == 1 else "rows left out"] = self.damaged
        parts = [f"{count:,} {what}" for what, count in counts.items() if count]
        count = self.verdicts.total()
        return f"{count:,} answer{'s' * (count != 1)}: {'; '.join(parts) or 'nothing to judge'}"


def told(judged: Iterable[Judged], tally: Tally, form: str) -> Iterator[str]:
    """Verdicts in a form, piece by piece: "text", "csv", or "json" with an object a line.

    The text ends with what the tally says when all rows are judged.
    """
    if form == "text":
        return _text_pieces(judged, tally)
    return _csv_pieces(judged) if form == "csv" else _json_pieces(judged)


def _text_pieces(judged: Iterable[Judged], tally: Tally) -> Iterator[str]:
    for some in _some(judged):
        yield "".join(map(_row_text, some))
    yield f"{tally.text}\n"


def _row_text(judged: Judged) -> str:
    row, found = judged.row, judged.verdict
    slips = " or ".join(title(slip.name) for slip in found.slips)
    said = IN_WORDS[found.verdict] + (f": {slips}" if slips else "")
    name = f"{row.learner}, " if row.learner else ""
    return f"{row.number}  {escaped(name)}{title(found.dimension)} {quoted(found.answer)}: {said}\n"


def _csv_pieces(judged: Iterable[Judged]) -> Iterator[str]:
    columns = ("row", "learner", *COLUMNS)
    first = True
    for some in _some(judged):
        rows = [[j.row.number, j.row.learner, *_cells(j.verdict)] for j in some]
        text = csv_text(Table(columns, rows))
        yield text if first else text.partition("\n")[2]
        first = False
    if first:
        yield csv_text(Table(columns, []))


def _json_pieces(judged: Iterable[Judged]) -> Iterator[str]:
    for some in _some(judged):
        yield "".join(map(_row_json, some))


def _row_json(judged: Judged) -> str:
    said = verdict_json(judged.verdict)
    schema = {"schema": said.pop("schema")}
    row = {"row": judged.row.number, "learner": judged.row.learner}
    return json.dumps({**schema, **row, **said}) + "\n"


def _some(judged: Iterable[Judged]) -> Iterator[list[Judged]]:
    rest = iter(judged)
    while some := list(islice(rest, AT_ONCE)):
        yield some
