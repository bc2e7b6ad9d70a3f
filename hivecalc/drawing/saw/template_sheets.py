"""How the sheets of a full-size template are laid together, drawn small."""

from dataclasses import dataclass

from hivecalc.drawing.layout import LETTER
from hivecalc.drawing.svg import (
    CHANGED,
    HIDDEN,
    INK,
    MARGIN,
    OUTLINE,
    PAPER,
    WIDTH,
    Hand,
    Pen,
    Sheet,
)
from hivecalc.drawing.view import View
from hivecalc.saw.templates import Paper, Template, Window, windows
from hivecalc.saw.templates.template import LineKind

PENS: dict[LineKind, Pen] = {
    "edge": OUTLINE,
    "cut": Pen(CHANGED, 2.0),
    "thin": HIDDEN,
    "mark": Pen(INK, 1.0),
}
NAMES: dict[Paper, str] = {"a4": "A4", "letter": "letter"}
HIGHEST = 200.0  # of the sheets together


def template_sheets(template: Template, paper: Paper = "a4", *, name: str = "") -> str:
    """SVG picture of a template over its sheets of paper, drawn small: print the PDF to use it.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.saw.templates import taper_template
    >>> "3 sheets of A4" in template_sheets(taper_template(demo_hive()))
    True
    """
    return _Picture(template, paper, windows(template, paper)).picture(name)


@dataclass(frozen=True)
class _Picture:
    template: Template
    paper: Paper
    windows: tuple[Window, ...]

    def picture(self, name: str) -> str:
        sheet = Sheet()
        top = sheet.paragraph(self.template.title, MARGIN, bold=True) + MARGIN
        view = self._view(top)
        with sheet.view("sheets", view.scale):
            self._draw(sheet, view)
        bottom = view.bottom + MARGIN
        for sentence in (self._count, self.template.told):
            bottom = sheet.paragraph(sentence, bottom)
        title = f"{name}: {self.template.title}" if name else self.template.title
        words = f"{self._count} {self.template.told}"
        return sheet.picture(title, words, bottom + MARGIN, view.scale)

    @property
    def _count(self) -> str:
        lying = f"{NAMES[self.paper]} paper, lying"
        if len(self.windows) == 1:
            return f"1 sheet of {lying}. Dashed: what it shows."
        return f"{len(self.windows)} sheets of {lying}. Dashed: what each shows; they overlap."

    def _view(self, top: float) -> View:
        left, foot = (min(window.low[axis] for window in self.windows) for axis in (0, 1))
        right, head = (max(window.high[axis] for window in self.windows) for axis in (0, 1))
        scale = min((WIDTH - 2 * MARGIN) / float(right - left), HIGHEST / float(head - foot))
        start = (WIDTH - float(right - left) * scale) / 2
        return View(start, top, scale, (left, right), (foot, head))

    def _draw(self, sheet: Sheet, view: View) -> None:
        for (left, foot), (right, head) in self.windows:
            corners = [(left, foot), (right, foot), (right, head), (left, head)]
            sheet.polygon(view.points(corners), Pen(HIDDEN.colour, 0.6, "3 3"), PAPER)
        for line in self.template.lines:
            start, end = view.points([line.start, line.end])
            sheet.line(start, end, PENS[line.kind])
        for number, ((left, foot), (right, head)) in enumerate(self.windows, 1):
            place = view.x((left + right) / 2), view.y((foot + head) / 2) + LETTER / 3
            sheet.text(str(number), place, "middle", Hand(bold=True))
