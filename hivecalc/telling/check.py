"""What is told of pieces as they were cut: what comes together, what fails, what can be saved."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from hivecalc.derivation import title
from hivecalc.document import SCHEMA, Document, Json, Paragraph, Rows, Section, Told
from hivecalc.hive import Hive
from hivecalc.length import Grid, length_json, shown
from hivecalc.telling.fit import rule_sections

if TYPE_CHECKING:  # the rules take a while to load, and parts need none of them
    from hivecalc.as_built import AsBuilt, FrameCheck


def check_told(hive: Hive, found: "AsBuilt", frame: "FrameCheck | None", grid: Grid) -> Told:
    """What is told of pieces that were cut, and of a frame that was measured."""
    cut = _Cut(hive, found, frame, grid)
    return Told(cut.document, cut.table, cut.data, holds=cut.holds)


@dataclass(frozen=True)
class _Cut:
    hive: Hive
    found: "AsBuilt"
    frame: "FrameCheck | None"
    grid: Grid

    @property
    def holds(self) -> bool:
        return self.found.holds and (self.frame is None or self.frame.holds)

    def document(self) -> Document:
        pieces = (
            _note(f"{'✓' if piece.allowed else '✗'} {_advice(piece.advice, piece.caution)}")
            for piece in self.found.pieces
        )
        first = Section("", (Paragraph(f"{self.hive.name}, as cut: {self._result}."),))
        return Document("", (first, Section("", tuple(pieces)), *self._rest()))

    @property
    def _result(self) -> str:
        if self.found.holds:
            return "it goes together" if self.holds else "the frame is not as planned"
        count = len(self.found.broken)
        return "1 rule fails now" if count == 1 else f"{count} rules fail now"

    def _rest(self) -> Iterator[Section]:
        if self.frame:
            yield Section("The frame", tuple(map(_note, self.frame.sentences)))
        for component in dict.fromkeys(p.name.partition(".")[0] for p in self.found.pieces):
            rows = [
                [title(name), shown(value, grid=self.grid)]
                for name, value in self.found.came.items()
                if name.startswith(f"{component}.")
            ]
            heading = f"{title(component).capitalize()}, put together"
            yield Section(heading, (Rows(("", "comes to"), rows),))
        if self.found.broken:
            failing = rule_sections(self.hive, self.found.broken)
            yield Section("What fails now", sections=tuple(failing))

    def table(self) -> Rows:
        columns = ("hive", "piece", "planned", "found", "allowed", "advice", "caution")
        rows = [
            [
                *(self.hive.name, piece.name),
                *(shown(size, grid=self.grid) for size in (piece.planned, piece.found)),
                *("yes" if piece.allowed else "no", piece.advice, piece.caution),
            ]
            for piece in self.found.pieces
        ]
        return Rows(columns, rows)

    def data(self) -> Json:
        from hivecalc.fit import finding_json  # noqa: PLC0415 - the rules load slowly

        found, grid, frame = self.found, self.grid, self.frame
        pieces = [
            {
                "piece": piece.name,
                "planned": length_json(piece.planned, grid),
                "found": length_json(piece.found, grid),
                "allowed": piece.allowed,
                "advice": _advice(piece.advice, piece.caution),
            }
            for piece in found.pieces
        ]
        told: Json = {
            "schema": SCHEMA,
            "holds": self.holds,
            "built": {name: length_json(value, grid) for name, value in found.came.items()},
            "pieces": pieces,
            "rules": [finding_json(f) for f in found.findings],
        }
        return {**told, "frame": _frame(frame, grid)} if frame else told


def _advice(*sentences: str) -> str:
    return " ".join(filter(None, sentences))


def _note(text: str) -> Paragraph:
    return Paragraph(text, tone="note")


def _frame(frame: "FrameCheck", grid: Grid) -> Json:
    return {
        "shapes": list(frame.shapes),
        "square": frame.squareness.square,
        "opening": [length_json(side, grid) for side in frame.opening],
        "recut": {name: length_json(size, grid) for name, size in frame.recut.items()},
        "told": list(frame.sentences),
    }
