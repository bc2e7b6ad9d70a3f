"""Why insulate: where heat goes out, where wood bridges the foam, where drops form.

    losses(hive, inside, outside)       watts through each part of the hive, and with the air
    compared(hive, inside, outside)     the same hive built in other ways
    bridges(hive)                       what wood costs against foam, by sections through the hive
    faces(hive, inside, outside, rh)    faces inside the hive, and where the first drop forms
    surfaces(hive)                      walls, roof and bottom board as layers (ISO 6946)
    solved(section)                     steady heat through any section (ISO 10211)

Inside is SI and °C; `temperature`, `humidity` and `in_both` are the way in and out.
"""

from hivecalc.warmth.bridges import Bridge, bridges
from hivecalc.warmth.layers import (
    MATERIALS,
    Element,
    Layer,
    Path,
    Surface,
    layer,
    surfaces,
    temperatures,
)
from hivecalc.warmth.losses import (
    CANDLE,
    CLUSTER,
    LEFT_OUT,
    WINTER_DAYS,
    Compared,
    Face,
    Losses,
    Range,
    compared,
    dew_point,
    faces,
    first_drop,
    foam_saves,
    honey,
    losses,
    saturation_pressure,
)
from hivecalc.warmth.section import Air, Box, Field, Patch, Section, solved
from hivecalc.warmth.units import (
    COLDEST,
    CONDUCTANCE,
    MASS,
    RESISTANCE,
    humidity,
    imperial,
    in_both,
    in_both_degrees,
    temperature,
    warmer_inside,
)

__all__ = [
    "CANDLE",
    "CLUSTER",
    "COLDEST",
    "CONDUCTANCE",
    "LEFT_OUT",
    "MASS",
    "MATERIALS",
    "RESISTANCE",
    "WINTER_DAYS",
    "Air",
    "Box",
    "Bridge",
    "Compared",
    "Element",
    "Face",
    "Field",
    "Layer",
    "Losses",
    "Patch",
    "Path",
    "Range",
    "Section",
    "Surface",
    "bridges",
    "compared",
    "dew_point",
    "faces",
    "first_drop",
    "foam_saves",
    "honey",
    "humidity",
    "imperial",
    "in_both",
    "in_both_degrees",
    "layer",
    "losses",
    "saturation_pressure",
    "solved",
    "surfaces",
    "temperature",
    "temperatures",
    "warmer_inside",
]
