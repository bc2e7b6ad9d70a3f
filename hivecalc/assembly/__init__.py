"""Putting it together: the order of work, joint by joint, for one hive.

The one record that the lesson, the projector and the book read. `order.py` says which pieces come
in when, what is done and why then; which joints that makes follows from the joints in space, and
what holds them from `space/fastening.py`.

    steps(hive)   every step for this hive, in order
"""

from hivecalc.assembly.order import PHRASES, STRIP_WAY
from hivecalc.assembly.steps import STANDS_FOR, THERE, WHOLE, Step, steps, taken

__all__ = ["PHRASES", "STANDS_FOR", "STRIP_WAY", "THERE", "WHOLE", "Step", "steps", "taken"]
