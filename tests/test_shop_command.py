"""The command `shop`: the basket in every form, its exit status, and what it does when stopped."""

import json
import re
from decimal import Decimal

from hivecalc.cutting import boards as cutting_boards
from hivecalc.stock import demo_yard, yard_text
from tests.test_cli import called, hive_file
from tests.test_cut_command import yard_file

PRICES = {goods.name: goods.price for goods in
          (*demo_yard().boards, *demo_yard().sheets, *demo_yard().packages)}  # fmt: skip


def test_json_of_shop_adds_up_to_its_total(capfd):
    document = called(capfd, "shop", "--format", "json").document
    assert document["schema"] == "hivecalc/1"
    assert document["prices_invented"] is True
    costs = [Decimal(line["cost"]) for line in document["lines"]]
    assert Decimal(document["total"]["cost"]) == sum(costs)
    by_price = sum(line["count"] * PRICES[line["name"]] for line in document["lines"])
    assert by_price == sum(costs)
    assert document["alternatives"]


def test_csv_of_shop_agrees_with_its_json(capfd):
    rows = called(capfd, "shop", "--format", "csv").rows
    lines = called(capfd, "shop", "--format", "json").document["lines"]
    assert [(row["name"], int(row["count"])) for row in rows] == [
        (line["name"], line["count"]) for line in lines
    ]


def test_text_of_shop_says_the_total_the_choices_and_whose_prices(capfd, tmp_path):
    told = called(capfd, "shop")
    flat = " ".join(told.out.split())
    assert told.status == 0
    assert re.search(r"[0-9.]+ coins in all\.", flat)
    assert "These prices are invented" in flat
    assert "What else you could buy" in flat
    assert "Orchard hive, joint by joint" in flat
    own = tmp_path / "my-yard.toml"
    own.write_text(yard_text(), encoding="utf-8")
    assert "invented" not in called(capfd, "shop", "--yard", own).out


def test_the_prices_stay_invented_whatever_the_kerf(capfd):
    told = called(capfd, "shop", "--kerf", "3/32", "--format", "json")
    assert told.document["prices_invented"] is True


def test_a_batch_of_several_hives_is_one_basket(capfd, tmp_path):
    files = [hive_file(tmp_path, name) for name in ("orchard", "smallest")]
    document = called(capfd, "shop", *files, "--hives", "3", "--format", "json").document
    assert document["hives"] == [
        {"name": "Orchard hive", "count": 3},
        {"name": "Smallest hive", "count": 3},
    ]


def test_twelve_hives_together_cost_less_than_twelve_times_one(capfd):
    one, twelve = (
        Decimal(called(capfd, "shop", "--hives", n, "--format", "json").document["total"]["cost"])
        for n in ("1", "12")
    )
    assert one < twelve < 12 * one


def test_without_prices_the_counts_stand_and_the_cost_is_said_to_be_missing(capfd, tmp_path):
    unpriced = yard_file(tmp_path, (r"^price = .*$", ""))
    told = called(capfd, "shop", "--yard", unpriced, "--format", "json")
    assert told.status == 0
    assert told.document["total"]["complete"] is False
    assert all(line["cost"] is None and line["count"] > 0 for line in told.document["lines"])
    assert "no price is known" in called(capfd, "shop", "--yard", unpriced).out
    some = yard_file(tmp_path, (r"^price = 5.50$", ""))
    assert "without what has no price: 1 × 10 ft 2x4." in " ".join(
        called(capfd, "shop", "--yard", some).out.split()
    )


def test_a_currency_is_any_text(capfd, tmp_path):
    own = yard_file(tmp_path, ('^currency = "coins" ', 'currency = "jars of honey" '))
    assert re.search(r"jars of honey\s+in\s+all", called(capfd, "shop", "--yard", own).out)


def test_what_the_yard_does_not_give_is_told_and_the_answer_is_no(capfd, tmp_path):
    short = yard_file(tmp_path, (r'^length = "(8|10|12|16) ft"$', 'length = "20"'))
    told = called(capfd, "shop", "--yard", short, "--format", "json")
    assert told.status == 1
    assert "bottom board side rail" in {left["label"] for left in told.document["unplanned"]}
    assert told.document["lines"]
    empty = tmp_path / "empty.toml"
    empty.write_text('currency = "coins"\n', encoding="utf-8")
    for form in ("text", "json", "csv"):
        assert called(capfd, "shop", "--yard", empty, "--format", form).status == 1


def test_ctrl_c_tells_the_best_basket_so_far(capfd, tmp_path, monkeypatch):
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(cutting_boards.planning, "search", interrupted)
    out = tmp_path / "basket.json"
    told = called(capfd, "shop", "--format", "json", "--out", out)
    assert told.status == 130
    assert "not proved" in told.err
    document = json.loads(out.read_text(encoding="utf-8"))
    assert document["lines"]
    assert document["alternatives"] == []
