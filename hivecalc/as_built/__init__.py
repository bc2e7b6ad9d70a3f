"""What you cut and put together, measured: does it fit, and what can be saved.

Every piece is judged by itself, against a hive that is otherwise as planned: is it within its
tolerance, does some rule fail because of it, does it meet other pieces as it should? Tolerances,
and what can be mended how, are common practice, no published source.
"""

from hivecalc.as_built.allowances import Allowance, allowance
from hivecalc.as_built.checking import AsBuilt, as_built
from hivecalc.as_built.frames import Frame, FrameCheck, frame_check
from hivecalc.as_built.repairs import OffSize, Repair, Reuse
from hivecalc.as_built.sizes import CutSize, cut_sizes

__all__ = [
    "Allowance",
    "AsBuilt",
    "CutSize",
    "Frame",
    "FrameCheck",
    "OffSize",
    "Repair",
    "Reuse",
    "allowance",
    "as_built",
    "cut_sizes",
    "frame_check",
]
