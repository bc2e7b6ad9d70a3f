"""What to buy for one or several hives: counted, packed, priced, with what is left over.

basket(hives, yard)           everything to buy, at the least cost
alternatives(basket, yard)    the same from one size only, and the difference
fixings(hive)                 screws, brads and glue, joint by joint
"""

from hivecalc.shopping.alternatives import Alternative, alternatives
from hivecalc.shopping.basket import MOST_HIVES, Basket, Joints, basket
from hivecalc.shopping.fixings import Fixing, fixings, small_goods
from hivecalc.shopping.lines import Group, Line
from hivecalc.shopping.saying import amount, more_or_less, paid

__all__ = [
    "MOST_HIVES",
    "Alternative",
    "Basket",
    "Fixing",
    "Group",
    "Joints",
    "Line",
    "alternatives",
    "amount",
    "basket",
    "fixings",
    "more_or_less",
    "paid",
    "small_goods",
]
