"""What a learner types into and looks at: wiring only, every decision is made elsewhere.

    from hivecalc.widgets import Bench
    bench = Bench()
    bench.measurements("hive_length", "hive_width")

A panel is made by a method of the bench and shows itself at the end of a cell.
"""

from hivecalc.widgets.bench import Bench

__all__ = ["Bench"]
