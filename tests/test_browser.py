"""Every lesson in a real browser, as everybody sees it: desk, phone, tablet, dark, projector."""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from tests.browser import Learner, label_faults
from tests.jupyter_rig import ROOT, notebooks
from tests.test_words import screens

pytestmark = pytest.mark.browser
LESSONS = [str(path.relative_to(ROOT)) for path in notebooks() if path.parent.name == "workbook"]
TAPE = "workbook/00-your-hive-and-your-tape.ipynb"
DESKS = {"small desk": (1024, 768, 1), "desk": (1366, 768, 1), "wide desk": (1920, 1080, 1)}
HAND = {
    "phone": (390, 844, 1), "tablet": (820, 1180, 1), "desk at 150 %": (1280, 900, 1.5),
}  # fmt: skip
WALLS = [(1024, 768), (1920, 1080)]
GRAVE = {"serious", "critical"}
OURS = [".jp-OutputArea-output", ".jp-RenderedMarkdown", ".hivecalc-bar"]
THEIRS = {"scrollable-region-focusable"}  # a fault of JupyterLab's, which a lesson can't mend

# What of JupyterLab's bench is seen beside the lesson.
BENCH = """() => [...document.querySelectorAll(
    '.jp-SideBar, #jp-top-panel, #jp-menu-panel, #jp-bottom-panel, .jp-NotebookPanel-toolbar, '
    + '.jp-InputPrompt, .jp-OutputPrompt, .jp-Collapser, .jp-cell-toolbar, .cm-editor')]
    .filter(one => one.checkVisibility() && one.getBoundingClientRect().width > 0)
    .map(one => one.id || one.className)"""

# A sentence for each picture that does not fit in the window, or not beside its field.
APART = """() => {
    const found = [], beside = innerWidth >= 900;
    const seen = (one) => one.checkVisibility({visibilityProperty: true});
    for (const svg of document.querySelectorAll('.jp-OutputArea-output figure > svg')) {
        if (!seen(svg)) continue;
        const box = svg.getBoundingClientRect(), name = svg.querySelector('title').textContent;
        if (box.height > Math.max(innerHeight - 44, 12 * svg.dataset.letters + 1))
            found.push(`${name}: higher than the window`);
        const panel = svg.closest('.widget-vbox');
        const ends = [...panel?.children ?? []].map(each => each.getBoundingClientRect().bottom);
        const isGrid = panel && getComputedStyle(panel).display === 'grid';
        if (isGrid && panel.getBoundingClientRect().bottom - Math.max(...ends) > 12)
            found.push(`${name}: empty room below`);
        const field = panel?.querySelector(':scope > .widget-box input');
        if (!field || !seen(field)) continue;
        const {right, top} = field.getBoundingClientRect();
        if (beside && (box.left < right || Math.abs(box.top - top) > innerHeight / 2))
            found.push(`${name}: not beside its field`);
    }
    return found;
}"""

# The panels in which a whole number may part from its fraction at a line's end.
PARTED = """[...document.querySelectorAll('.jp-OutputArea-output .hc:not(:has(svg))')]
    .map(panel => panel.textContent).filter(text => /\\d \\d+\\/\\d/.test(text))"""

# A sentence for each list whose longest line is not seen in full.
CUT_LISTS = """() => {
    const pen = document.createElement('canvas').getContext('2d');
    return [...document.querySelectorAll('.jp-OutputArea-output select')].flatMap((list) => {
        const style = getComputedStyle(list);
        pen.font = style.font;
        const sides = parseFloat(style.paddingLeft) + parseFloat(style.paddingRight);
        return [...list.options].filter(({text}) =>
            list.checkVisibility() && pen.measureText(text).width > list.clientWidth - sides)
            .map(({text}) => `“${text}” is cut off`);
    });
}"""

# A sentence for each table that is wider than its place, and for each panel that scrolls sideways.
WIDE = """() => {
    const seen = (selected) => [...document.querySelectorAll(`.jp-OutputArea-output ${selected}`)]
        .filter(one => one.checkVisibility());
    const right = (one) => one.getBoundingClientRect().right;
    const sticksOut = (one) => right(one) > right(one.closest('.widget-html')) + 1;
    const tables = seen('.hc > table').filter(sticksOut);
    const panels = seen('.widget-box').filter(one => one.scrollWidth > one.clientWidth + 1);
    return [...tables, ...panels].map(one => `${one.textContent.slice(0, 60)}: is too wide`);
}"""

# A sentence for each thing that is not whole on the wall, or too small.
ON_THE_WALL = """() => {
    const found = [], [wide, high] = [innerWidth + 1, innerHeight + 1];
    const seen = (one) => one.checkVisibility({visibilityProperty: true}) && one.clientWidth;
    for (const picture of document.querySelectorAll('.jp-Notebook :is(figure > svg, img)')) {
        const {left, right, top, bottom} = picture.getBoundingClientRect();
        const needed = 0.02 * innerHeight * (picture.dataset.letters ?? 0); // it may be scrolled
        if (seen(picture) && (left < -1 || top < -1 || right > wide
            || bottom > Math.max(high, top + needed + 1)))
            found.push(`a picture reaches from ${top} to ${bottom}`);
    }
    for (const svg of document.querySelectorAll('.jp-Notebook figure > svg')) {
        const {width, height} = svg.getBoundingClientRect(), whole = svg.viewBox.baseVal;
        const scale = Math.min(width / whole.width, height / whole.height);
        const letter = scale * (svg.getAttribute('font-size') ?? 99); // a chart has its own
        const room = width > scale * whole.width + 1; // else it fills its place from side to side
        if (seen(svg) && letter < (room ? 0.0199 * innerHeight : 11.9))
            found.push(`“${svg.querySelector('title').textContent}” has small letters`);
    }
    const right = (one) => one.getBoundingClientRect().right;
    for (const table of document.querySelectorAll('.jp-Notebook .hc table'))
        if (seen(table) && right(table) > right(table.closest('.jp-Cell')) + 1)
            found.push(`“${table.textContent.slice(0, 40)}” is cut off`);
    const top = (one) => one.getBoundingClientRect().top;
    for (const panel of document.querySelectorAll('.widget-vbox:has(> .widget-html figure)')) {
        const isField = (one) => seen(one) && one.querySelector(':scope > .widget-text');
        const tops = [...panel.children].filter(isField).slice(0, 3).map(top);
        if (Math.max(...tops) > Math.min(...tops) + 1)
            found.push(`“${panel.textContent.slice(0, 40)}” has fields below one another`);
    }
    for (const label of document.querySelectorAll('.jp-Notebook .widget-label'))
        if (seen(label) && label.scrollWidth > label.clientWidth + 1)
            found.push(`“${label.textContent}” is cut off`);
    for (const text of document.querySelectorAll('.jp-RenderedMarkdown p, .hc p, input'))
        if (seen(text) && parseFloat(getComputedStyle(text).fontSize) < 0.039 * innerHeight)
            found.push(`“${text.textContent}” is small`);
    return found;
}"""


def grave_faults(page: Page, *rules: str) -> set[str]:
    """Return what axe-core finds that would shut somebody out, in what is ours on the page.

    By these rules alone, or by all.
    """
    page.evaluate("document.body.style.height = '100vh'")  # in one of no height axe sees no text
    context = {"include": [[p] for p in OURS if page.locator(p).count()]}
    options = {"resultTypes": ["violations"], "preload": False, "selectors": False}
    options |= {"runOnly": rules} if rules else {}
    found = Axe().run(page, context=context, options=options)
    return {
        f"{v['id']}: {v['nodes'][0]['html'][:200]}"
        for v in found.response["violations"]
        if v["impact"] in GRAVE and v["id"] not in THEIRS
    }


@pytest.mark.parametrize("lesson", LESSONS)
def test_a_lesson_can_be_read_by_everybody_everywhere(reader, lesson):
    page = reader.page
    page.set_viewport_size({"width": 1366, "height": 768})
    if page.url == "about:blank":
        reader.open_lesson(lesson)
    else:
        reader.go_on_to(lesson)
    show_all_figures(reader)
    assert page.evaluate(BENCH) == []
    drawings = page.locator(".jp-OutputArea-output svg:visible").all()
    assert drawings
    for drawing in drawings:
        expect(drawing).to_have_role("img")
        expect(drawing).to_have_accessible_name(re.compile(r"\w"))
        expect(drawing).to_have_accessible_description(re.compile(r"\w"))
    assert page.evaluate(PARTED) == []
    faults: dict[object, object] = {}
    for theme, rules in {"JupyterLab Light": (), "JupyterLab Dark": ("color-contrast",)}.items():
        reader.choose_theme(theme)
        faults[theme] = grave_faults(page, *rules)
    for screen, size in {**DESKS, **HAND}.items():
        reader.view(*size)
        seen = (page.evaluate(each) for each in (APART, CUT_LISTS, WIDE))
        faults[screen] = [*label_faults(page), *(fault for found in seen for fault in found)]
        fits = "box => box.scrollWidth <= box.clientWidth + 1"
        assert page.locator(".jp-WindowedPanel-outer:visible").evaluate(fits), screen
    faults |= show_on_the_walls(reader, len(screens(ROOT / lesson)))
    assert {where: found for where, found in faults.items() if found} == {}


def show_all_figures(learner: Learner) -> None:
    """Show what waits for figures to be found, in a lesson that asks for some."""
    button = learner.page.get_by_role("button", name="Show all figures")
    if button.count():
        button.press("Enter")
        expect(learner.page.get_by_text("This opens once")).to_have_count(0)
        learner.wait_idle()


def show_on_the_walls(learner: Learner, many: int) -> dict[object, object]:
    """Show a whole lesson by keyboard alone, on one wall and back on another; what can't be seen.

    What has too little contrast is looked for on the first screen.
    """
    page = learner.page
    page.locator(".jp-WindowedPanel-outer:visible").evaluate("box => { box.scrollTop = 0; }")
    page.get_by_role("button", name="Projector", exact=True).press("Enter")
    where = page.locator(".hivecalc-where")
    expect(where).to_have_text(re.compile(rf"^1 / {many} · → next · ← back · .* Esc ends$"))
    faults: dict[object, object] = {}
    numbers = range(1, many + 1)
    for wall, key, way in zip(WALLS, ("PageDown", "PageUp"), (numbers, numbers[::-1]), strict=True):
        learner.view(*wall)
        for number in way:
            expect(where).to_have_text(re.compile(f"^{number} / "))
            page.evaluate("() => new Promise(done => requestAnimationFrame(done))")
            faults[wall, number] = page.evaluate(ON_THE_WALL)
            page.keyboard.press(key)
    assert page.evaluate(BENCH) == []
    faults["wall"] = grave_faults(page, "color-contrast")
    page.keyboard.press("Escape")
    expect(where).to_have_count(0)
    return faults


def test_labels_that_cannot_be_read_are_found(window):
    """The check of the checks: a drawing with one label too near, one cut off, one too small."""
    page = window.new_page()
    page.set_content("""<div class="jp-OutputArea-output"><svg width="300" height="100">
        <text x="10" y="20">front rail</text><text x="60" y="20">side rail</text>
        <text x="150" y="20">back rail</text><text x="280" y="60">runner</text>
        <text x="20" y="180" font-size="24" transform="scale(0.45)">panel</text>
        <text x="10" y="20" visibility="hidden">hidden</text></svg></div>""")
    assert label_faults(page) == [
        "“front rail” and “side rail” overlap", "“runner” is cut off", "“panel” is small",
    ]  # fmt: skip
    page.close()
