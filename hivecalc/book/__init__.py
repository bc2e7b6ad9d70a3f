"""The book of one hive, to print: drawings, parts, worked sizes, checks, figures for the saw.

    book(hive, made_on, yard)    what the book says, as plain values
    book_html(book, paper)       the same as one page of HTML that needs nothing else
    book_pdf(book, paper)        the same as a PDF

The date is the caller's; nothing in here reads a clock, so the same hive gives the same book.
"""

from typing import TYPE_CHECKING

from hivecalc.book.content import Book
from hivecalc.paper import Paper

if TYPE_CHECKING:
    from collections.abc import Sequence

    from hivecalc.hive import Fault, Hive
    from hivecalc.workshop import Yard

__all__ = ["Book", "Paper", "book", "book_html", "book_pdf"]


def book(
    hive: "Hive", made_on: str = "", yard: "Yard | None" = None, faults: "Sequence[Fault]" = ()
) -> Book:
    """What the book of a hive says.

    >>> from hivecalc.hive import demo_hive
    >>> made = book(demo_hive(), "3 May")
    >>> made.name, made.made_on, made.chapters[0].heading
    ('Orchard hive', '3 May', 'The whole hive')

    `made_on` is the date as it shall stand on the title page. Names are shown as they were written;
    a character that can't be seen stands there as an escape. `yard` is where its wood is bought,
    the invented one if not given; `faults` are those of a yard file that can't be used: the book
    tells them.
    """
    from hivecalc.book.chapters import chapters  # noqa: PLC0415 - drawings and rules load slowly
    from hivecalc.book.front import front  # noqa: PLC0415
    from hivecalc.support.faults import escaped  # noqa: PLC0415
    from hivecalc.workshop import demo_yard  # noqa: PLC0415

    told = chapters(hive, yard or demo_yard(), faults)
    return Book(escaped(hive.name), escaped(made_on), front(hive), told)


def book_html(book: Book, paper: Paper = "a4") -> str:
    """A hive book as one HTML page that needs no other file and no network, and prints well.

    >>> from hivecalc.hive import demo_hive
    >>> page = book_html(book(demo_hive()), "letter")
    >>> page.startswith("<!DOCTYPE html>"), "size: letter" in page
    (True, True)
    """
    from hivecalc.book.html import page  # noqa: PLC0415

    return page(book, paper)


def book_pdf(book: Book, paper: Paper = "a4") -> bytes:
    """A hive book as a PDF, the same bytes for the same book.

    >>> from hivecalc.hive import demo_hive
    >>> book_pdf(book(demo_hive()))[:5]
    b'%PDF-'

    Signs of scripts that the fonts of typst and matplotlib lack, such as Chinese, are shown as
    boxes: the HTML page shows them with the fonts of the reader's computer.
    """
    from hivecalc.book.pdf import pdf  # noqa: PLC0415

    return pdf(book, paper)
