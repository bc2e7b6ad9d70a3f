"""What a learner types into and looks at: wiring only, every decision is made elsewhere.

A lesson makes a `Bench`. A panel is made by one of its methods, such as
`bench.measurements("hive_length", "hive_width")`, and shows itself at the end of a cell.
"""

from hivecalc.widgets.bench import Bench

__all__ = ["Bench"]
