"""What the commands print: the pages of buying, of cutting or of the saw as a PDF of their own."""

from collections.abc import Sequence
from dataclasses import replace

from hivecalc.book.content import Book, Chapter, Paragraph
from hivecalc.book.pdf import pdf
from hivecalc.book.saw_settings import labels, saw_settings
from hivecalc.book.to_buy import to_buy
from hivecalc.book.to_cut import to_cut
from hivecalc.cutting.plans import CutPlans
from hivecalc.hive.texts import seen
from hivecalc.paper import Paper
from hivecalc.saw import SawPlan
from hivecalc.shopping import Alternative, Basket
from hivecalc.stock import Yard
from hivecalc.tables.cut import INVENTED


def shop_pdf(found: Basket, others: Sequence[Alternative], name: str, paper: Paper = "a4") -> bytes:
    """What to buy as a PDF: the list, other ways to buy, and the joints that small goods are for.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.shopping import basket
    >>> from hivecalc.stock import demo_yard
    >>> shop_pdf(basket([demo_hive()], demo_yard()), [], "Orchard hive")[:5]
    b'%PDF-'

    `name` heads each page.
    """
    return pages_pdf(name, [to_buy(found, others)], paper)


def cut_pdf(
    plans: CutPlans, yard: Yard, name: str, paper: Paper = "a4", *, invented: bool = False
) -> bytes:
    """How to cut boards, strips and sheets as a PDF, each drawn with its pieces.

    >>> from hivecalc.cutting.plans import cut_plans
    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.stock import demo_yard
    >>> cut_pdf(cut_plans([demo_hive()], demo_yard()), demo_yard(), "Orchard hive")[:5]
    b'%PDF-'

    `yard` is the one that the plans are for; `name` heads each page. `invented` says that no yard
    file was given, and the page tells so.
    """
    told = to_cut(plans, yard, name)
    first = (*told.blocks, *[Paragraph(INVENTED)] * invented)
    return pages_pdf(name, [replace(told, blocks=first)], paper)


def saw_pdf(plan: SawPlan, name: str, paper: Paper = "a4") -> bytes:
    """The settings of the saw as a PDF, with cautions and pictures, and the labels of the pieces.

    >>> from hivecalc.hive import demo_hive
    >>> from hivecalc.saw import saw_plan
    >>> from hivecalc.stock import demo_yard
    >>> saw_pdf(saw_plan([demo_hive()], demo_yard()), "Orchard hive", "letter")[:5]
    b'%PDF-'

    `name` heads each page.
    """
    return pages_pdf(name, [saw_settings(plan, name), labels(plan)], paper)


def pages_pdf(name: str, chapters: Sequence[Chapter], paper: Paper = "a4") -> bytes:
    """Chapters as a PDF without a title page; the name heads each page.

    >>> pages_pdf("Orchard hive", [Chapter("Notes", ())])[:5]
    b'%PDF-'
    """
    return pdf(Book(seen(name), "", (), tuple(chapters)), paper)
