"""The commands `warmth` and `wood`: their three forms agree; figures against their sources."""

import re

import pytest

from tests.commands import called

SLEEVED = "chosen.frames = 10\n"
METRIC = 'units = "mm"\nmeasured = {hive_length = 587, hive_width = 441}\n'


def test_warmth_in_three_forms_tells_the_same(capfd, tmp_path):
    (tmp_path / "hive.toml").write_text(SLEEVED)
    call = ("warmth --inside '20 C' --outside '-10 C'", tmp_path / "hive.toml", "--format")
    found = called(capfd, *call, "json").document
    losses = [row for row in called(capfd, *call, "csv").rows if row["what"] == "loss"]
    status, text, err = called(capfd, *call, "text")
    assert (status, err) == (0, "")
    assert [r["part"] for r in losses[:-2]] == [p["name"] for p in found["parts"]]
    assert float(losses[-2]["likely"]) == found["watts"]["likely"]
    assert f"Most goes through: {found['leaks_most']}." in " ".join(text.split())
    assert all(name in text for name in ("68 °F (20 °C)", "14 °F (−10 °C)", "Left out"))


def test_parts_of_a_loss_add_up_and_every_figure_of_a_material_has_its_source(capfd):
    found = called(capfd, "warmth --humidity 60 --format json").document
    for end in ("least", "likely", "most"):
        parts = sum(p["watts"][end] for p in found["parts"])
        assert parts == pytest.approx(found["watts"][end], abs=0.06 * len(found["parts"]))
    for material in found["materials"]:
        assert material["source"]
        assert material["low"] <= material["conductivity"] <= material["high"]
        assert 1900 < material["year"] < 2030
    # 2339.3 Pa at 20 °C (IAPWS-95, by CoolProp), of which 60 % are there
    assert found["vapour_pressure_pa"] == pytest.approx(0.6 * 2339.3, abs=1)


def test_at_equal_temperatures_nothing_flows(capfd):
    status, text, _ = called(capfd, "warmth --inside '10 C' --outside '50 F'")
    assert (status, "it loses 0 W" in text, "candle" in text) == (0, True, False)


def test_wood_in_three_forms_tells_the_same(capfd):
    call = "wood --climate seattle --made 12 --format"
    found, rows = called(capfd, f"{call} json").document, called(capfd, f"{call} csv").rows
    status, text, _ = called(capfd, f"{call} text")
    assert (status, len(rows)) == (0, 12 * len(found["gaps"]))
    for gap in found["gaps"]:
        mine = [float(row["least_mm"]) for row in rows if row["gap"] == gap["name"]]
        assert min(mine) == gap["least_mm"]
        assert gap["meant_for"] in text


# 68 °F and 65 %: 12.0 % (Wood Handbook, Table 4-2, at 70 °F); 40 %: 7.7 %.
@pytest.mark.parametrize(("humidity", "moisture"), [("65", 12.0), ("40", 7.7)])
def test_wood_that_lay_in_some_air_is_as_damp_as_the_table_says(capfd, humidity, moisture):
    found = called(capfd, f"wood --humidity {humidity} --format json").document
    assert found["made_percent"] == pytest.approx(moisture, abs=0.15)


def test_a_metric_hive_is_told_in_mm(capfd, tmp_path):
    (tmp_path / "hive.toml").write_text(METRIC)
    text = called(capfd, "wood", tmp_path / "hive.toml").out
    assert " mm" in text
    assert not re.search(r"\d in\b", text)
