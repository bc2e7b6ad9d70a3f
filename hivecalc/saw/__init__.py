"""At the saw: all settings in order, with stop, fence, tilt and jig reset as rarely as can be.

saw_plan(hives, yard)                  all steps, with what is cut at each
taper(hive), landing_bevel(hive), rim_front_bevel(hive)   angles, marks and settings
CAUTIONS                               what to take care of at each kind of step
"""

from hivecalc.saw.bevel import Bevel, landing_bevel, rim_front_bevel
from hivecalc.saw.cautions import CAUTIONS, Caution, Kind
from hivecalc.saw.plan import SawPlan, saw_plan
from hivecalc.saw.steps import Step, Work
from hivecalc.saw.taper import Mark, Taper, taper

__all__ = [
    "CAUTIONS",
    "Bevel",
    "Caution",
    "Kind",
    "Mark",
    "SawPlan",
    "Step",
    "Taper",
    "Work",
    "landing_bevel",
    "rim_front_bevel",
    "saw_plan",
    "taper",
]
