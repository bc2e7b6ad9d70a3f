"""How wood moves: against the Wood Handbook's tables and examples, named beside each check."""

from fractions import Fraction

import pytest

from hivecalc import wood as wood_room
from hivecalc.hive import HiveFaults, changed, demo_hive, hive_from_text
from hivecalc.wood import (
    CLIMATES,
    KILN_DRIED,
    MONTHS,
    SPECIES,
    Species,
    change,
    climate_named,
    equilibrium_moisture,
    gaps,
    moisture_given,
    species_named,
)

FIR = SPECIES["white fir"]

# From the sources named in the library beside each; PS 20 and the share along the grain: memory.
FROZEN = {"DRY": 6, "DAMP": 14, "WETTEST": 25, "LEAST": 4, "KILN_DRIED": 19, "SPREAD": 0.2,
          "LENGTHWAYS": 0.2, "FREEZING": 0}  # fmt: skip


def test_the_figures_are_those_of_the_sources():
    assert {name: getattr(wood_room, name) for name in FROZEN} == FROZEN


def test_moistures_are_taken_from_4_to_25_percent():
    assert [moisture_given(text) for text in ("4", "25 %")] == [4, 25]
    for text in ("3.99", "25.01", "", "wet", "0", "nan"):
        with pytest.raises(HiveFaults, match="write 4 to 25"):
            moisture_given(text)


# Forest Products Laboratory's table, as a public page reprints it: RH, and moisture at °F.
AT = (30, 50, 70, 90)
TABLE = {
    20: (4.6, 4.6, 4.5, 4.3), 30: (6.3, 6.3, 6.2, 5.9), 40: (7.9, 7.9, 7.7, 7.4),
    50: (9.5, 9.5, 9.2, 8.9), 60: (11.3, 11.2, 11.0, 10.5), 65: (12.4, 12.3, 12.0, 11.5),
    70: (13.5, 13.4, 13.1, 12.6), 75: (14.9, 14.8, 14.4, 13.9), 80: (16.5, 16.4, 16.0, 15.4),
    85: (18.5, 18.4, 17.9, 17.3),
}  # fmt: skip


@pytest.mark.parametrize("rh", TABLE)
def test_equilibrium_moisture_is_the_tables(rh):
    found = [equilibrium_moisture((f - 32) / 1.8, rh / 100) for f in AT]
    assert found == pytest.approx(TABLE[rh], abs=0.12)  # 0.061 of the formula, and its rounding


def in_fahrenheit(t, h):
    """The handbook's other form, from memory: the second way."""
    weight = 330 + 0.452 * t + 0.00415 * t**2
    k = 0.791 + 4.63e-4 * t - 8.44e-7 * t**2
    k1 = 6.34 + 7.75e-4 * t - 9.35e-5 * t**2
    k2 = 1.09 + 2.84e-2 * t - 9.04e-5 * t**2
    held = (k1 * k * h + 2 * k1 * k2 * (k * h) ** 2) / (1 + k1 * k * h + k1 * k2 * (k * h) ** 2)
    return 1800 / weight * (k * h / (1 - k * h) + held)


@pytest.mark.parametrize("fahrenheit", [30, 55, 80, 100])
@pytest.mark.parametrize("rh", [0.05, 0.3, 0.6, 0.95])
def test_both_forms_of_the_formula_agree(fahrenheit, rh):
    found = equilibrium_moisture((fahrenheit - 32) / 1.8, rh)
    assert found == pytest.approx(in_fahrenheit(fahrenheit, rh), abs=0.02)


# Wood Handbook, Table 13-5, from memory but for what stands in a flooring table; the hardwoods were
# read: alder, ash, basswood.
@pytest.mark.parametrize(("wood", "radial", "tangential"), [
    (SPECIES["western redcedar"], 0.00111, 0.00234), (SPECIES["douglas-fir"], 0.00165, 0.00267),
    (FIR, 0.00112, 0.00245), (SPECIES["eastern white pine"], 0.00071, 0.00212),
    (SPECIES["ponderosa pine"], 0.00133, 0.00216), (SPECIES["loblolly pine"], 0.00165, 0.00259),
    (SPECIES["red spruce"], 0.00130, 0.00274), (SPECIES["engelmann spruce"], 0.00130, 0.00248),
    (Species("alder", 4.4, 7.3, ""), 0.00151, 0.00256),
    (Species("ash", 4.9, 7.8, ""), 0.00169, 0.00274),
    (Species("basswood", 6.6, 9.3, ""), 0.00230, 0.00330),
])  # fmt: skip
def test_coefficients_are_the_tables(wood, radial, tangential):
    assert wood.coefficient("radial") == pytest.approx(radial, abs=0.000011)
    assert wood.coefficient("tangential") == pytest.approx(tangential, abs=0.000011)


# Wood Handbook, chapter 13, from memory: white fir, 232 mm at 8 %, 11 %: 1.705 mm. The long formula
# gives 1.712 mm for the same board; both ways meet at the edge of their range.
def test_the_handbooks_example_and_the_longer_formula_near_it():
    assert change(232, FIR, "tangential", 8, 11) == pytest.approx(1.705, abs=0.0005)
    short, long = (change(232, FIR, "tangential", m, 14.0 + e) for m, e in ((8, 0), (8, 1e-6)))
    assert short == pytest.approx(long, rel=0.01)


# FPL-RP-489 (Green, 1989): shrinkage from green to 15 % of mixed lumber, 2.80 % in width and 2.35 %
# in thickness. One species is not all of them: within a fifth, as the sources say.
def test_a_green_board_shrinks_about_as_the_laboratory_found():
    shrunk = -change(100, Species("mixed", 5.0, 6.0, "", 28), "tangential", 28, 15)
    assert shrunk == pytest.approx(2.80, rel=0.2)


# A timber course's 13.25 in joist from 19 to 10 %: 13.02 printed, 12.99 by FPL-RP-489, which mixes
# boards sawn both ways; the species' own directions lie on either side of both.
def test_a_joist_dries_as_the_printed_solution_has_it():
    fir = SPECIES["douglas-fir"]
    least, most = (13.25 + change(13.25, fir, g, 19, 10) for g in ("tangential", "radial"))
    assert all(least < printed < most for printed in (12.99, 13.02))
    assert most - least < 0.15


def test_wood_moves_most_round_the_rings_and_hardly_along():
    round_rings, across, along = (
        change(10, FIR, grain, 8, 12) for grain in ("tangential", "radial", "along")
    )
    assert round_rings > across > 10 * along > 0
    assert change(10, FIR, "tangential", 12, 12) == 0
    assert change(10, FIR, "radial", 30, 60) == 0  # beyond saturation it swells no more


# Wood Handbook FPL-GTR-190, Table 13-1, from memory, typed apart: January to December of each city.
MOISTURE = {
    "phoenix": "9.4 8.4 7.9 6.1 5.1 4.6 6.2 6.9 6.9 7.0 8.2 9.5",
    "chicago": "14.2 13.7 13.4 12.5 12.2 12.4 12.8 13.3 13.3 12.9 14.0 14.9",
    "seattle": "15.6 14.6 15.4 13.7 13.0 12.7 12.2 12.5 13.5 15.3 16.3 16.5",
}


@pytest.mark.parametrize("city", MOISTURE)
def test_wood_outdoors_is_as_damp_as_the_handbook_has_it(city):
    assert [*CLIMATES[city]] == [float(figure) for figure in MOISTURE[city].split()]
    assert len(CLIMATES[city]) == len(MONTHS)


@pytest.mark.parametrize(
    ("read", "text", "near"),
    [(species_named, "wite fir", "white fir"), (climate_named, "seatle", "seattle")],
)
def test_the_nearest_name_is_told(read, text, near):
    with pytest.raises(HiveFaults, match=near):
        read(text)


# ── the gaps of a hive ────────────────────────────────────────────────────────────────────────


def gap(hive, name, made=12.0, climate="chicago", wood=FIR):
    return next(g for g in gaps(hive, wood, CLIMATES[climate], made) if g.name == name)


def test_a_gap_made_and_kept_at_one_moisture_stays_as_planned():
    for found in gaps(demo_hive(), FIR, (10.0,) * 12, 10.0):
        assert found.least == found.most == float(found.planned)


def test_the_panel_by_hand():
    """The opening's length loses a rail's swelling; the panel is foam. Tangential, 14.9 of 12 %."""
    swells = change(1.5, FIR, "tangential", 12, 14.9)  # the front rail
    longer = change(21.625, FIR, "along", 12, 14.9)  # the side rail
    found = gap(demo_hive(), "panel, front to back").months[11][0]
    assert found == pytest.approx(0.25 + 1.2 * (longer - swells), abs=0.0005)


def test_the_panels_gap_is_for_lean_and_dirt_in_every_climate():
    for climate in CLIMATES:
        found = gap(demo_hive(), "panel, side to side", climate=climate)
        assert found.meant_for == "lean, bow and dirt"
        assert found.least > 0.22


def test_a_board_across_the_grain_needs_its_room():
    """A box side nearly 10 in high moves more than the space under the frames in a dry place."""
    hive = hive_from_text("chosen.frames = 10")
    found = gap(hive, "box, under the frames", climate="phoenix")
    assert found.meant_for == "wood that moves"
    assert found.least < 0.05


def test_a_stud_measured_wet_leaves_less_headroom_in_summer():
    dry, wet = (gap(demo_hive(), "headroom over the screen", made) for made in (12, KILN_DRIED))
    assert wet.least < min(dry.least, float(wet.planned))


def test_wood_that_moves_more_moves_gaps_more():
    cedar, spruce = SPECIES["western redcedar"], SPECIES["red spruce"]
    name = "screen, side to side"
    assert gap(demo_hive(), name, wood=cedar).moves < gap(demo_hive(), name, wood=spruce).moves
    thick, name = changed(demo_hive(), {"stud_thickness": "2"}), "panel, front to back"
    assert gap(thick, name).moves > gap(demo_hive(), name).moves
    assert gap(demo_hive(), "panel, side to side").planned == Fraction(1, 4)
