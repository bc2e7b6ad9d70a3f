"""Templates as a PDF at full size, set by typst from templates.typ."""

import json
from collections.abc import Iterable
from importlib import resources

from hivecalc.book.pdf import fonts
from hivecalc.hive import Hive
from hivecalc.length import MM, Length
from hivecalc.paper import Paper
from hivecalc.support.faults import escaped
from hivecalc.workshop.templates import Page, Template, pages, screw_templates, taper_template


def templates(hive: Hive) -> tuple[Template, ...]:
    """The templates of a hive: its taper, and the screw lines along sides and ends of its roof.

    >>> from hivecalc.hive import demo_hive
    >>> [template.title for template in templates(demo_hive())][0]
    'Taper of the rim sides, ≈ 4.8°'
    """
    return taper_template(hive), *screw_templates(hive)


def templates_pdf(hive: Hive, paper: Paper = "a4", which: Iterable[Template] = ()) -> bytes:
    """The templates of a hive as a PDF at full size, on lying sheets with marks to join them.

    >>> from hivecalc.hive import demo_hive
    >>> templates_pdf(demo_hive())[:5]
    b'%PDF-'

    `which` are other templates than all of the hive's. The same bytes for the same templates.
    """
    import typst  # noqa: PLC0415 - only a PDF needs it

    name = escaped(hive.name)
    sheets = [page for t in which or templates(hive) for page in pages(t, paper, name)]
    return typst.compile(
        (resources.files(__package__) / "templates.typ").read_bytes(),
        font_paths=typst.Fonts(include_system_fonts=False, font_paths=[fonts()]),
        sys_inputs={"sheets": json.dumps([_sheet(page) for page in sheets]), "title": name},
    )


def _sheet(page: Page) -> dict[str, object]:
    return {
        "width": _mm(page.width),
        "height": _mm(page.height),
        "strokes": [(*map(_mm, (*s.start, *s.end)), s.kind) for s in page.strokes],
        "words": [(w.text, *map(_mm, w.place), w.anchor) for w in page.words],
    }


def _mm(length: Length) -> float:
    return float(length / MM)
