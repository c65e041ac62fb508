"""The page for everyone: names of controls, contrast, order of the focus, the keyboard alone, small screens.

What is checked by script follows WCAG 2.2, level AA, from memory: names (4.1.2, 1.3.1), contrast of text 4.5
and of large text 3 (1.4.3), reflow without sideways scrolling (1.4.10), a focus in the order of reading that
is seen (2.4.3, 2.4.7), targets of 24 px (2.5.8).
"""

from pathlib import Path

import pytest
from teaching_page import browser, needs_page, new_tab

pytestmark = needs_page
LOOKS = [(1280, "light"), (1280, "dark"), (390, "light"), (390, "dark")]

CHECKS = (Path(__file__).parent / "checks.js").read_text(encoding="utf-8").partition("*/")[2].strip()


@pytest.fixture(scope="module")
def chromium():
    with browser() as made:
        yield made


@pytest.fixture(scope="module", params=LOOKS, ids=lambda look: f"{look[0]}-{look[1]}")
def page(request, chromium):
    width, theme = request.param
    opened = new_tab(chromium, width, theme).open(sure=True)
    opened.picture(f"{width}-{theme}")
    opened.tab.locator("#more > summary").click()
    opened.tab.locator("#hourly > summary").click()
    opened.after(lambda: opened.tab.locator("#add-b").click())
    opened.after(lambda: opened.tab.locator("label[for=set-wrap-none]").click())
    opened.settle()
    for k in (1, 6, 7):  # a lesson with an answer
        opened.tab.locator(f"#step-{k}").click()
        if k in (1, 7):
            opened.tab.locator("#guess-fire" if k == 1 else "#guess-none").check()
        opened.tab.locator("#lesson-compute").click()
        opened.tab.wait_for_selector(f'#lesson-answer[data-answered="{k}"]', timeout=60_000)
        if k == 7:
            opened.tab.locator("#lesson-answer summary").click()
        if k in (1, 7):
            opened.picture(f"{width}-{theme}-{'all' if k == 1 else 'dinner'}")
        assert opened.ask(f"({CHECKS}).figures()") == []
    yield opened
    assert opened.said == []


def test_everything_has_a_name(page):
    assert page.ask(f"({CHECKS}).names()") == []


def test_text_can_be_read(page):
    assert page.ask(f"({CHECKS}).contrast()") == []


def test_figures_have_no_text_on_text_and_none_on_a_curve(page):
    assert page.ask(f"({CHECKS}).figures()") == []


def test_nothing_is_cut_off_at_the_side(page):
    assert page.ask("() => document.documentElement.scrollWidth <= innerWidth")
    wide = page.ask(f"({CHECKS}).tooWide()")
    assert wide == []


def test_targets_are_large_enough_for_a_finger(page):
    assert page.ask(f"({CHECKS}).smallTargets()") == []


def test_the_focus_goes_through_all_controls_in_the_order_of_reading(page):
    tab = page.tab
    expected = page.ask(f"({CHECKS}).order()")
    page.ask("() => { document.activeElement.blur(); window.scrollTo(0, 0); }")
    tab.locator("body").evaluate("(el) => { el.tabIndex = -1; el.focus(); el.removeAttribute('tabindex'); }")
    walked, unseen = [], []
    for _ in range(len(expected) + 12):
        tab.keyboard.press("Tab")
        order, shown = page.ask(f"({CHECKS}).focused()")
        if order is None:
            continue  # a time has several fields, and a table that scrolls takes the focus
        if not walked or walked[-1] != int(order):
            walked.append(int(order))
        if not shown:
            unseen.append(expected[int(order)])
        if int(order) == len(expected) - 1:
            break
    assert walked == list(range(len(expected))), [expected[k] for k in walked]
    assert unseen == []


def test_a_cook_and_a_lesson_by_keyboard_alone(chromium):
    page = new_tab(chromium).open(sure=True)
    tab, keys = page.tab, page.tab.keyboard

    def go(to, most=60):
        for _ in range(most):
            if page.ask("() => document.activeElement.id") == to:
                return
            keys.press("Tab")
        raise AssertionError(f"{to} is not reached by Tab")

    go("set-air")
    before = page.text("#headline")
    page.after(lambda: keys.press("ArrowRight"))
    assert page.text("#shown-air") == "255 °F" and page.text("#headline") != before
    go("set-wrap-butcher-paper")
    page.after(lambda: keys.press("ArrowRight"))
    assert tab.locator("#set-wrap-foil").is_checked()
    go("set-clock")
    keys.press("Enter")
    assert "#units" in tab.url or tab.url.endswith(".html")
    go("look")
    read = page.text("#read-core")
    keys.press("Home")
    assert page.text("#read-core") != read
    go("step-2")
    keys.press("Enter")
    go("guess-dry")
    keys.press("Space")
    go("lesson-compute")
    keys.press("Enter")
    tab.wait_for_selector('#lesson-answer[data-answered="2"]', timeout=60_000)
    go("lesson-next")
    keys.press("Enter")
    assert page.ask("() => document.activeElement.id") == "lesson-card"
    assert "foil" in page.text("#lesson-card h3")
    assert page.said == []
