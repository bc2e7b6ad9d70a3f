"""The panels of shop and saw as a learner uses them, and what the pages say, figured by hand."""

import re
import time
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from html import unescape
from itertools import pairwise
from pathlib import Path

import nbformat
import pytest
from playwright.sync_api import expect

from hivecalc.hive import changed, demo_hive, hive_from_text
from hivecalc.pages.to_the_saw import basket, boards, saw, sheets
from hivecalc.pages.to_the_saw.yards import typed_kerf, with_kerf, yard_beside
from hivecalc.saw import CAUTIONS
from hivecalc.stock import COMMON, demo_yard, yard_text
from hivecalc.widgets import Bench
from tests.browser import Learner
from tests.hives import HIVES
from tests.jupyter_rig import ROOT
from tests.test_widgets import enter, said

HIVE, YARD = demo_hive(), demo_yard()


def plain(html: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "my-hive.toml"


@pytest.fixture
def bench(file: Path) -> Bench:
    return Bench(str(file))


# ── the yard ──────────────────────────────────────────────────────────────────────────────────


def test_the_yard_is_the_learners_own_where_there_is_one(bench, file):
    assert bench.yard == YARD
    own = yard_text().replace('kerf = "1/8"', 'kerf = "3/32"')
    assert own != yard_text()
    file.with_name("my-yard.toml").write_text(own)
    assert bench.yard.kerf == Fraction(3, 32)
    assert typed_kerf(file, "inch") == "3/32 in"
    assert bench.strips().fields[0].box.value == "3/32 in"


def test_a_yard_file_that_is_nonsense_is_told_on_the_page(bench, file):
    file.with_name("my-yard.toml").write_text("currency = [")
    for area in (bench.saw(), bench.sheets("plywood"), bench.boards().message):
        assert said(area).startswith("✗")
        assert "my-yard.toml" in said(area)
    assert typed_kerf(file, "inch") == ""


@pytest.mark.parametrize("text", ["-1/8", "1", "rubbish", "9" * 5000, "<b>"])
@pytest.mark.parametrize("name", ["boards", "strips", "fence"])
def test_a_kerf_that_no_saw_has_is_told_and_the_page_goes_on(bench, name, text):
    panel = getattr(bench, name)()
    told = [enter(panel.fields[0], text), said(panel.message)]
    assert sum(each.startswith("✗") for each in set(told)) == 1
    assert panel.picture.value == ""
    assert "<b>" not in panel.message.value + panel.fields[0].message.value
    enter(panel.fields[0], "1/8")
    assert not said(panel.message).startswith("✗")


def test_a_fault_of_the_yard_names_the_file_and_not_its_folders(bench, file):
    own = file.with_name("my-yard.toml")
    own.write_text(yard_text() + '[[at_hand]]\nmaterial = "gold"\nlength = "8 ft"\n')
    for told in (said(bench.basket().field.message), said(bench.boards().message)):
        assert "my-yard.toml, [[at_hand]] 1 material: “gold”" in told
        assert str(file.parent) not in told
    own.write_text(yard_text().replace("price = 5.50", 'price = "cheap"'))
    told = said(bench.boards().message)
    assert told.startswith("✗ my-yard.toml, [[board]] 2 price")


def test_the_yard_that_lies_in_the_course_folder_still_has_invented_prices(bench, file):
    file.with_name("my-yard.toml").write_text(yard_text())
    assert "invented" in said(bench.basket().field.message)


def test_prices_that_are_still_the_invented_ones_are_counted(bench, file):
    own = file.with_name("my-yard.toml")
    own.write_text(yard_text().replace("price = 4\n", "price = 4.75\n", 1))  # that of 8 ft 2x4
    panel = bench.basket()
    rows = re.findall(r"<tr>(?!<th)(.*?)</tr>", panel.follows.value)
    assert f"{len(rows) - 1} of these prices are as the invented" in said(panel.field.message)
    own.write_text(re.sub(r"price = (\S+)", r"price = 1\1", yard_text()))
    assert "invented" not in said(bench.basket().field.message)


def test_a_kerf_in_mm_is_read_as_such():
    assert with_kerf(YARD, "3.2 mm", "inch").kerf == Fraction(32, 254)
    assert yard_beside(Path("/nowhere/my-hive.toml")) == YARD


# ── at the saw ────────────────────────────────────────────────────────────────────────────────


def test_every_caution_is_read(bench):
    told = said(bench.saw_cautions())
    assert all(c.text in told for found in CAUTIONS.values() for c in found)
    laws = {c.source for found in CAUTIONS.values() for c in found} - {COMMON}
    assert all(f"({law})" in told for law in laws)
    assert told.count(COMMON) == 1


def test_the_settings_of_the_saw_stand_in_one_numbered_order(bench):
    told = bench.saw().value
    numbers = [int(n) for n in re.findall(r"<tr><td>(\d+)</td>", told)]
    assert numbers == list(range(1, len(numbers) + 1))
    assert "stop block 21 5/8 in from the blade" in plain(told)  # the side rail: 23 1/8 - 1 1/2


def test_only_the_crosscuts_are_unfolded_and_each_kind_says_how_many_settings_it_takes(bench):
    told = bench.saw().value
    first, *others = re.findall(r"<details(.*?)</details>", unescape(told))
    assert " open>" in first
    assert not any(" open>" in other for other in others)
    for part in (first, *others):
        count = int(re.search(r"<summary>\D*(\d+) setting", part)[1])
        assert count == part.count("<tr><td>")


def test_a_distance_of_the_fence_that_comes_twice_is_explained():
    def settings_of(kerf: str) -> str:
        return saw.settings(HIVE, with_kerf(YARD, kerf, "inch"))

    fences = {kerf: re.findall(r"<td>fence ([^<]+?) from the blade</td>", settings_of(kerf))
              for kerf in ("1/8", "3/32")}  # fmt: skip
    assert len(set(fences["1/8"])) < len(fences["1/8"])
    for kerf, found in fences.items():
        assert (saw.TWICE in settings_of(kerf)) == (len(set(found)) < len(found))


def test_the_landing_boards_bevel_is_set_and_drawn(bench):
    # By hand: 3 1/2 less 3/4 × tan 30° is 3.067, and 3 1/16 is the nearest mark.
    panel = bench.fence()
    assert "fence 3 1/16 in from the blade, tilted 30° away from it" in said(panel.follows)
    thin = panel.follows.value
    enter(panel.fields[0], "1/4")
    assert panel.follows.value != thin
    assert 'data-part="blade"' in panel.follows.value


def test_the_fence_stays_and_only_the_waste_grows_thinner_with_the_kerf(bench):
    # By hand: a stud of 3 1/2 less an entrance of 3/4 is 2 3/4; what is over is 3/4 less the kerf.
    panel = bench.fence()
    for kerf, off in (("1/8", "5/8 in falls off"), ("1/4", "1/2 in falls off")):
        enter(panel.fields[0], kerf)
        assert "set the fence to 2 3/4 in" in said(panel.message)
        assert off in said(panel.message)
        assert "fence 2 3/4 in" in panel.picture.value
    enter(panel.fields[0], "0")
    assert "3/4 in falls off" in said(panel.message)


@pytest.mark.parametrize("name", HIVES)
def test_the_fence_that_is_drawn_is_the_one_in_the_list_of_settings(name):
    hive = hive_from_text(HIVES[name])
    listed = plain(saw.settings(hive, YARD))
    drawn = plain(saw.fence(hive, YARD, "").picture)
    fence, off = (
        re.search(rf"{word} ([^,;:]+? (?:in|mm))\b", drawn)[1] for word in ("fence", "off")
    )
    assert f"front rail: {fence} stays at the fence and is kept, {off} falls off" in listed


def test_the_taper_is_told_by_its_two_heights(bench):
    # By hand: half-way between 3 1/2 and 2 is 2 3/4.
    panel = bench.taper()
    enter(panel.fields[0], "2")
    assert "Half-way it must be 2 3/4 in high" in said(panel.message)
    assert "back 2 in" in panel.picture.value
    assert bench.hive == HIVE
    for wrong in ("9", "1/0", "🐝", "3 1/2"):
        enter(panel.fields[0], wrong)
        told = said(panel.message)
        assert told.startswith("✗")
        assert "Still in use: 1 1/2 in" in told
        assert not re.search(r"--set|_", told)
        assert "back 1 1/2 in" in panel.picture.value


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_templates_are_written_beside_the_hive_file(bench, file, paper):
    panel = bench.templates()
    panel.paper.value = paper
    panel.make()
    assert said(panel.said).startswith("✓ Written: my-hive-templates.pdf")
    assert file.with_name("my-hive-templates.pdf").read_bytes().startswith(b"%PDF-")


def test_templates_that_can_not_be_written_are_told(bench, file):
    file.with_name("my-hive-templates.pdf").mkdir()
    panel = bench.templates()
    panel.make()
    assert said(panel.said).startswith("✗")


# ── boards, strips, sheets ────────────────────────────────────────────────────────────────────


def test_the_demo_hive_takes_three_studs_of_8_ft(bench):
    # By hand: the pieces come to 199 5/8 in, and two boards give 191 in after their trim.
    told = said(bench.boards().message)
    assert "3 boards to buy" in told
    assert "The bound is 3. Nobody can do with fewer" in told


def test_another_length_of_board_changes_the_plan_and_too_short_a_one_is_told(bench):
    panel = bench.boards()
    enter(panel.fields[1], "16 ft")
    assert "16 ft 2x4" in panel.picture.value
    assert "2 boards to buy" in said(panel.message)
    enter(panel.fields[1], "20 in")
    assert "roof rim side" in said(panel.message)
    assert said(panel.message).startswith("•")
    enter(panel.fields[1], "")
    assert "to buy" in said(panel.message)
    for text in ("3 in", "400 in"):
        enter(panel.fields[1], text)
        assert said(panel.message).startswith("✗")
    assert enter(panel.fields[1], "rubbish").startswith("✗")
    assert said(panel.message) == panel.picture.value == ""
    enter(panel.fields[1], "8")  # as one says it, without its unit
    assert "like 8 ft" in said(panel.message)


def test_what_does_not_go_in_is_told_first_and_nothing_is_proved_of_it():
    found = plain(boards.cut_up(HIVE, YARD, "", "20 in").message)
    assert found.index("longer than") < found.index("what does go in: ")
    none = plain(boards.cut_up(HIVE, replace(YARD, boards=()), "", "").message)
    assert "your yard has no stud" in none
    assert "proved" not in none


def test_boards_and_sheets_at_hand_are_told_apart_from_those_to_buy():
    stud = next(board for board in YARD.boards if board.material == "stud")
    half = next(sheet for sheet in YARD.sheets if sheet.name == "half sheet of 1/2 in plywood")
    here = replace(
        YARD,
        boards=(*YARD.boards, replace(stud, length=Fraction(60), count=1, at_hand=True)),
        sheets=(*YARD.sheets, replace(half, count=1, at_hand=True)),
    )
    assert "2 boards to buy, 1 at hand" in plain(boards.cut_up(HIVE, here, "", "8 ft").message)
    assert f"1 × {half.name}, at hand" in plain(sheets.cut_up(HIVE, here, "plywood"))
    assert "at hand" not in plain(sheets.cut_up(HIVE, YARD, "plywood"))


def test_a_stud_gives_eight_strips_and_what_is_ripped_off_is_a_kerf_thinner(bench):
    # By hand: four slices of 3/4 with three kerfs take 3 3/8 of 3 1/2, each gives two of 1/2.
    panel = bench.strips()
    assert "8 strips come out" in said(panel.message)
    assert "5/8 in thick" in said(panel.message)
    enter(panel.fields[0], "1/4")
    assert "1/2 in thick" in said(panel.message)


@pytest.mark.parametrize("material", ["plywood", "foam", "mesh", "plastic"])
def test_sheets_are_laid_out_with_their_cuts_in_order(bench, material):
    told = bench.sheets(material).value
    assert "✗" not in told
    assert "<svg" in told
    assert "1. " in plain(told)


def test_what_goes_for_all_cuts_is_said_once_and_each_sheets_cuts_are_counted():
    told = sheets.cut_up(HIVE, YARD, "plywood")
    assert told.count("Clamp a straight strip as a fence.") == 1
    counted = re.findall(r"<summary>(\d+) cuts, in order</summary>(.*?)</details>", told)
    assert len(counted) == told.count("<svg") > 1
    assert all(int(count) == listed.count("<tr><td>") for count, listed in counted)


def test_without_prices_nothing_is_called_the_cheapest():
    free = replace(YARD, sheets=tuple(replace(sheet, price=None) for sheet in YARD.sheets))
    told = plain(sheets.cut_up(HIVE, free, "plywood"))
    assert "fewer sheets: this is proved" in told
    assert "cheaper" not in told


def test_a_material_that_a_hive_has_none_of_is_told():
    assert "no gold" in sheets.cut_up(HIVE, YARD, "gold")


# ── the basket ────────────────────────────────────────────────────────────────────────────────


def test_the_basket_grows_with_the_hives_and_its_total_is_what_its_lines_cost(bench):
    panel = bench.basket()
    for many in ("1", "3"):
        told = enter(panel.field, many)
        rows = re.findall(r"<tr><td>(.*?)</td></tr>", panel.follows.value)
        costs = [Fraction(row.split("</td><td>")[3]) for row in rows]
        total = Fraction(re.search(r"([\d.,]+) coins in all", told)[1].replace(",", ""))
        assert sum(costs) == total
    assert "invented" in told
    assert "Boards: " in panel.picture.value


def test_while_a_class_is_planned_the_page_says_that_it_is_at_work(bench):
    panel, seen = bench.basket(), []
    panel.field.message.observe(lambda change: seen.append(plain(change["new"])), names="value")
    enter(panel.field, "12")
    assert [told.split(" ")[1] for told in seen] == ["Working", seen[-1].split(" ")[1]]
    assert "in all" in seen[-1]


@pytest.mark.parametrize("text", ["0", "101", "-1", "two", "1.5", "", "9" * 5000, "<b>", "٣"])
def test_a_number_of_hives_that_no_class_builds_is_told(bench, text):
    panel = bench.basket()
    told = enter(panel.field, text)
    assert told.startswith("✗")
    assert "1 to 100" in told
    assert "<b>" not in panel.field.message.value
    assert panel.picture.value == panel.follows.value == ""


def test_prices_that_are_not_known_are_left_out_and_said(bench, file):
    own = re.sub(r'(name = "tube of outdoor silicone"(?:\n.*?)*?)\nprice = .*', r"\1", yard_text())
    assert own != yard_text()
    file.with_name("my-yard.toml").write_text(own)
    told = said(bench.basket().field.message)
    assert "without what has no price: 1 × tube of outdoor silicone" in told
    assert "All prices are invented" not in told


def test_screws_are_counted_joint_by_joint_and_other_ways_are_compared(bench):
    assert "2 joints × 2 screws of 3 in" in said(bench.fixings())
    assert "only 8 ft 2x4: 3 of them" in said(bench.alternatives())  # as the boards' plan has it
    assert re.search(r"coins (more|less)", said(bench.alternatives()))


def test_the_joints_of_each_part_come_to_those_of_the_whole_hive(bench):
    told = bench.fixings().value
    goods = r"(\d+) ((?:[a-z]+ )?(?:screws|brads) of [\d /]+ in)"
    whole = Counter({name: int(n) for n, name in re.findall(goods, told.partition("</div>")[0])})
    parts = re.findall(r"<summary>(.*?)</summary>", told)
    counted: Counter[str] = Counter()
    for part in parts:
        counted.update({name: int(n) for n, name in re.findall(goods, part)})
    assert len(parts) == told.count("<table>") == 3  # bottom board, roof, inner cover
    assert counted == whole
    assert len(whole) == 5


# ── any hive, and how long it takes ───────────────────────────────────────────────────────────


@pytest.mark.parametrize("name", HIVES)
def test_every_page_is_told_for_every_hive(name):
    hive = hive_from_text(HIVES[name])
    told = [
        saw.settings(hive, YARD),
        saw.fence(hive, YARD, "").message,
        saw.tapered(hive, "").message,
        boards.cut_up(hive, YARD, "", "").message,
        boards.strips(hive, YARD, "").message,
        *(sheets.cut_up(hive, YARD, m) for m in ("plywood", "foam")),
        basket.bought(hive, YARD, "1").message,
        basket.joints(hive),
        basket.other_ways(hive, YARD),
    ]
    assert all(plain(t) for t in told)


def test_an_answer_does_not_keep_a_learner_waiting():
    boards.cut_up(HIVE, YARD, "1/8", "8 ft")
    start = time.perf_counter()
    boards.cut_up(HIVE, YARD, "3/32", "8 ft")
    saw.fence(HIVE, YARD, "3/32")
    saw.tapered(changed(HIVE, {"rim_low_height": "2"}), "1 3/4")
    assert time.perf_counter() - start < 1


# ── the lessons ───────────────────────────────────────────────────────────────────────────────


def asking_cells(path: Path) -> dict[str, str]:
    """Each exercise of a notebook, with the text of the cell before it."""
    cells = nbformat.read(path, as_version=4).cells
    found = {re.match(r'bench\.exercise\("(.+)"\)', c.source): b.source for b, c in pairwise(cells)}
    return {match[1]: text for match, text in found.items() if match}


@pytest.mark.parametrize("lesson", ["09", "10", "11"])
def test_a_lesson_asks_its_exercises_in_the_words_of_their_records(lesson):
    (told,) = (ROOT / "workbook").glob(f"{lesson}-*.ipynb")
    asked = asking_cells(told)
    assert asked == asking_cells(ROOT / "exercises" / told.name)
    assert list(asked) == [f"{lesson}-0{n}" for n in range(1, 5)]


# Each sentence, and how far its words reach beyond what is shown of its cell.
SENTENCES = """() => {
    const reach = sentence => {
        const words = document.createRange();
        words.selectNodeContents(sentence);
        return Math.max(...[...words.getClientRects()].map(box => box.right));
    };
    return [...document.querySelectorAll('.jp-OutputArea-output .hc p')]
        .filter(sentence => sentence.checkVisibility() && sentence.innerText.trim())
        .map(sentence => [sentence.innerText, reach(sentence)
            - sentence.closest('.jp-OutputArea-output').getBoundingClientRect().right]);
}"""


@pytest.mark.browser
def test_on_a_phone_no_sentence_among_pictures_is_cut_off_at_the_right(learner: Learner) -> None:
    learner.open_lesson("workbook/10-cutting-it-out-of-boards-and-sheets.ipynb")
    learner.fold_file_list()
    learner.view(390, 14_000)  # all of it: what is not in view is not laid out
    shown = learner.page.evaluate(SENTENCES)
    assert any("this is proved" in sentence for sentence, _ in shown)
    assert [sentence for sentence, beyond in shown if beyond > 1] == []


@pytest.mark.browser
def test_a_folded_list_is_opened_by_keyboard_on_the_projector(learner: Learner) -> None:
    learner.open_lesson("workbook/11-at-the-saw.ipynb")
    learner.page.get_by_role("button", name="Projector").click()
    rips = learner.page.locator("details.hc").filter(has_text="Rip the blanks")
    while rips.locator("summary").is_hidden():
        learner.page.keyboard.press("PageDown")
    rips.locator("summary").focus()
    learner.page.keyboard.press("Enter")
    expect(rips.locator("table")).to_be_visible()
    learner.page.keyboard.press("Enter")
    expect(rips.locator("table")).to_be_hidden()
