"""Long lists that are folded away, and pictures that leave the words beside them their width."""

from html import escape

WIDE = "margin:0;overflow-x:auto;contain:inline-size"
"""A picture's box: where the page is narrow, the picture is moved, and no words are cut off."""


def folded(summary: str, inner: str, *, unfolded: bool = False) -> str:
    """HTML that shows a line, and the rest when somebody presses it.

    >>> folded("3 cuts", "<p>1. Rip</p>")
    '<details class="hc"><summary>3 cuts</summary><p>1. Rip</p></details>'
    """
    state = " open" if unfolded else ""
    return f'<details class="hc"{state}><summary>{escape(summary)}</summary>{inner}</details>'


def wide_picture(svg: str) -> str:
    """A picture in a box of its own, among words.

    >>> wide_picture("<svg></svg>").endswith("<svg></svg></figure>")
    True
    """
    return f'<figure style="{WIDE}">{svg}</figure>'
