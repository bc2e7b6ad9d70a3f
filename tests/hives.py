"""Hive files, invented for tests, that lead every notebook to the ends of what is allowed."""

from hivecalc.hive import MEASUREMENTS
from hivecalc.length import written

LENGTH, WIDTH = MEASUREMENTS["hive_length"], MEASUREMENTS["hive_width"]

HIVES = {
    "smallest": f"""
        name = "Smallest hive"
        [measured]
        hive_length = "{written(LENGTH.low)}"
        hive_width = "{written(WIDTH.low)}"
        """,
    "largest": f"""
        name = "Largest hive"
        [measured]
        hive_length = "{written(LENGTH.high)}"
        hive_width = "{written(WIDTH.high)}"
        """,
    "orchard": """
        name = "Orchard hive"
        units = "inch"
        [measured]
        hive_length = "23 1/8"
        hive_width = "17 3/8"
        """,
    "metric": """
        name = "Metric yard"
        units = "mm"
        [measured]
        hive_length = "587"
        hive_width = "441.5"
        stud_thickness = "38"
        stud_width = "89"
        foam_thickness = "25"
        [chosen]
        panel_gap = "6"
        """,
    "eight-frame": """
        name = "Eight frames outwards"
        [measured]
        stud_thickness = "1 9/16"
        [chosen]
        frames = 8
        """,
    "sleeved": """
        name = "Old box in a sleeve"
        [measured]
        box_length = "19 7/8"
        box_width = "16 1/4"
        box_height = "9 5/8"
        foam_thickness = "25 mm"
        skin_thickness = "3/8"
        """,
}
