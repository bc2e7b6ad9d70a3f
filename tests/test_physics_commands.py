"""The commands `warmth` and `wood`: their three forms agree, and bad input gets one sentence."""

import csv
import io
import json
import re

import pytest

from tests.commands import called

SLEEVED = "chosen.frames = 10\n"
METRIC = 'units = "mm"\nmeasured = {hive_length = 587, hive_width = 441}\n'


@pytest.fixture
def hive_file(tmp_path):
    def written(text):
        path = tmp_path / "hive.toml"
        path.write_text(text, encoding="utf-8")
        return str(path)

    return written


def test_warmth_in_three_forms_tells_the_same(capfd, hive_file):
    weather = (hive_file(SLEEVED), "--inside", "20 C", "--outside", "-10 C")
    _, told, _ = called(capfd, "warmth", "--format", "json", *weather)
    _, rows, _ = called(capfd, "warmth", "--format", "csv", *weather)
    status, text, err = called(capfd, "warmth", *weather)
    found = json.loads(told)
    losses = [r for r in csv.DictReader(io.StringIO(rows)) if r["what"] == "loss"]
    assert (status, err) == (0, "")
    assert [r["part"] for r in losses[:-2]] == [p["name"] for p in found["parts"]]
    assert float(losses[-2]["likely"]) == found["watts"]["likely"]
    assert f"Most goes through: {found['leaks_most']}." in " ".join(text.split())
    assert all(name in text for name in ("68 °F (20 °C)", "14 °F (−10 °C)", "Left out"))


def test_parts_of_a_loss_add_up_and_every_figure_of_a_material_has_its_source(capfd):
    found = called(capfd, "warmth", "--format", "json").document
    for end in ("least", "likely", "most"):
        parts = sum(p["watts"][end] for p in found["parts"])
        assert parts == pytest.approx(found["watts"][end], abs=0.06 * len(found["parts"]))
    for material in found["materials"]:
        assert material["source"]
        assert material["low"] <= material["conductivity"] <= material["high"]
        assert 1900 < material["year"] < 2030


# 2339 Pa at 20 °C (IAPWS-95, by CoolProp), of which 60 % are there.
def test_the_pressure_of_the_vapour_is_told(capfd):
    call = ("warmth", "--inside", "20 C", "--humidity", "60", "--format", "json")
    found = json.loads(called(capfd, *call)[1])
    assert found["vapour_pressure_pa"] == pytest.approx(0.6 * 2339.32, abs=1)


def test_at_equal_temperatures_nothing_flows(capfd):
    status, text, _ = called(capfd, "warmth", "--inside", "10 C", "--outside", "50 F")
    assert status == 0
    assert "it loses 0 W" in text
    assert "candle" not in text


def test_wood_in_three_forms_tells_the_same(capfd):
    place = ("--climate", "seattle", "--made", "12")
    found = json.loads(called(capfd, "wood", "--format", "json", *place)[1])
    rows = list(csv.DictReader(io.StringIO(called(capfd, "wood", "--format", "csv", *place)[1])))
    status, text, _ = called(capfd, "wood", *place)
    assert status == 0
    assert len(rows) == 12 * len(found["gaps"])
    for gap in found["gaps"]:
        mine = [r for r in rows if r["gap"] == gap["name"]]
        assert min(float(r["least_mm"]) for r in mine) == gap["least_mm"]
        assert gap["meant_for"] in text


# 68 °F and 65 %: 12.0 % (Wood Handbook, Table 4-2, at 70 °F); 40 %: 7.7 %.
@pytest.mark.parametrize(("humidity", "moisture"), [("65", 12.0), ("40", 7.7)])
def test_wood_that_lay_in_some_air_is_as_damp_as_the_table_says(capfd, humidity, moisture):
    found = json.loads(called(capfd, "wood", "--humidity", humidity, "--format", "json")[1])
    assert found["made_percent"] == pytest.approx(moisture, abs=0.15)


def test_a_metric_hive_is_told_in_mm(capfd, hive_file):
    _, text, _ = called(capfd, "wood", hive_file(METRIC))
    assert " mm" in text
    assert not re.search(r"\d in\b", text)
