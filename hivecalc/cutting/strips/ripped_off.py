"""What is ripped off the front rail for the entrance, and whether it serves as a strip."""

from dataclasses import dataclass

from hivecalc.components import values
from hivecalc.cutting.strips.cross_section import LEAST_HELD, CrossSection, cross_section
from hivecalc.hive import Hive
from hivecalc.hive.values import said_with_unit
from hivecalc.length import Length, Units


@dataclass(frozen=True)
class RippedOff:
    """The piece that falls off the front rail: its sizes, and how it is ripped into strips.

    >>> from hivecalc.hive import demo_hive
    >>> from fractions import Fraction
    >>> piece = ripped_off(demo_hive(), Fraction(1, 8))
    >>> str(piece.thickness), piece.section.count
    ('5/8', 1)

    In inches. It is one kerf thinner than the entrance is high.
    """

    entrance: Length
    kerf: Length
    length: Length
    section: CrossSection
    units: Units = "inch"

    @property
    def thickness(self) -> Length:
        """What the kerf leaves of the entrance's height; nothing where it takes all."""
        return self.section.thickness

    @property
    def sentence(self) -> str:
        """Whether it serves as a strip, and why, in a sentence."""
        kerf = said_with_unit(self.kerf, self.units)
        if not self.thickness:
            return f"The kerf of {kerf} takes all that is ripped off the front rail."
        thick = said_with_unit(self.thickness, self.units)
        return (
            f"What is ripped off the front rail is {thick} thick, one kerf of {kerf} less than the "
            f"entrance is high: {self._serves}."
        )

    @property
    def _serves(self) -> str:
        section = self.section
        sides = section.piece_thickness, section.piece_width
        strip = " by ".join(said_with_unit(side, self.units) for side in sides)
        if section.count:
            many = "one strip" if section.count == 1 else f"{section.count} strips"
            return f"it gives {many} of {strip}, as long as the rail"
        if self.thickness < section.piece_thickness:
            return f"too thin for a strip of {strip}"
        least = said_with_unit(LEAST_HELD, self.units)
        return f"a strip of {strip} can't be ripped from it, as less than {least} stays to hold"


def ripped_off(hive: Hive, kerf: Length) -> RippedOff:
    """What is ripped off a hive's front rail with this kerf.

    >>> from hivecalc.hive import demo_hive
    >>> from fractions import Fraction
    >>> print(ripped_off(demo_hive(), Fraction(1, 8)).sentence)
    What is ripped off the front rail is 5/8 in thick, one kerf of 1/8 in less than the \
entrance is high: it gives one strip of 1/2 in by 3/4 in, as long as the rail.
    """
    found = values(hive)
    entrance, stud = found["entrance_height"], found["stud_thickness"]
    left = max(entrance - kerf, entrance * 0)
    strip = found["strip_narrow"], found["strip_wide"]
    section = cross_section(left, stud, *strip, kerf)
    length = found["bottom_board.front_rail_length"]
    return RippedOff(entrance, kerf, length, section, hive.units)
