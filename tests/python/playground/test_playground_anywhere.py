"""The playground outside JupyterLab: a page with only what anywidget promises, and a page without a kernel.

Chromium comes from the system; where there is none this is skipped. VS Code itself is not tried here.
"""

import json
from pathlib import Path

import pytest
from playground_page import BROWSER, BROWSERS, finish

from libcook import playground

pytestmark = pytest.mark.skipif(
    BROWSER is None, reason=f"no browser here; one of {', '.join(BROWSERS)} would do"
)

SCRIPT = Path(playground.__file__).with_name("sliders.js")
# All that anywidget gives to a front end: get, set, save_changes, on, off.
MODEL = """
const held = %s, heard = {};
let changed = {};
const model = {
  get: (name) => held[name],
  set: (name, value) => { held[name] = changed[name] = value; },
  save_changes: async () => {
    const sent = changed;
    changed = {};
    const told = await window.kernel(sent);
    for (const [name, value] of Object.entries(told)) {
      const other = JSON.stringify(value) !== JSON.stringify(held[name]);
      held[name] = value;
      if (other) for (const each of heard[`change:${name}`] ?? []) each();
    }
  },
  on: (name, each) => { (heard[name] ??= []).push(each); },
  off: (name, each) => { heard[name] = (heard[name] ?? []).filter((other) => other !== each); },
};
render({ model, el: document.body });
"""


@pytest.fixture(scope="module")
def browser():
    playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    with playwright.sync_playwright() as driver:
        made = driver.chromium.launch(executable_path=BROWSER, args=["--no-sandbox", "--disable-gpu"])
        yield made
        made.close()


def traits(play):
    return {
        name: getattr(play, name)
        for name in ("units", "controls", "presets", "asked", "cooks", "wanted", "file", "picture")
    }


def test_the_sliders_need_nothing_of_jupyterlab(browser):
    play = playground.show()

    def kernel(asked):
        for name, value in asked.items():
            setattr(play, name, value)
        return traits(play)

    page = browser.new_page()
    faults = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    page.expose_function("kernel", kernel)
    page.set_content("<body></body>")
    page.add_script_tag(
        type="module", content=SCRIPT.read_text(encoding="utf-8") + MODEL % json.dumps(traits(play))
    )
    headline = page.locator(".headline")
    page.locator("svg").wait_for()
    before = headline.inner_text()
    slider = page.locator("input[name=air]")
    slider.focus()
    page.keyboard.press("ArrowRight")
    page.wait_for_function("old => document.querySelector('.headline').textContent !== old", arg=before)
    assert slider.input_value() == "255" and play.asked["air"] == 255
    assert finish(headline.inner_text()) < finish(before)
    page.locator("select[name=units]").select_option("C")
    page.locator("svg text", has_text="180 °C").wait_for()
    page.locator("select[name=preset]").select_option("pork shoulder to pull")
    page.wait_for_function("document.querySelector('select[name=cut]').value === 'pork shoulder'")
    assert play.values["rest"] == "box" and page.locator("select[name=rest]").input_value() == "box"
    page.get_by_role("button", name="Compare with a second cook").click()
    page.locator("svg text", has_text="the core of cook A").wait_for()
    page.locator("select[name=wrap]").select_option("butcher paper")
    page.wait_for_function("document.querySelector('.words p').textContent.startsWith('Cook B')")
    assert play.cooks == {"second": True, "picked": "b"} and play.values["wrap"] == "butcher paper"
    page.locator("select[name=which]").select_option("a")
    page.wait_for_function("document.querySelector('select[name=wrap]').value === 'foil'")
    page.get_by_role("button", name="Remove cook B").click()
    page.get_by_role("button", name="Compare with a second cook").wait_for()
    page.get_by_role("button", name="Give me the code").click()
    page.locator("pre.code", has_text="import libcook as lc").wait_for()
    assert page.locator("pre.code").inner_text().strip() == play.code.strip()
    for name, ending in (("Plan as JSON", "json"), ("Curves as CSV", "csv")):
        with page.expect_download() as waited:
            page.get_by_role("button", name=name).click()
        taken = Path(waited.value.path()).read_text(encoding="utf-8")
        assert waited.value.suggested_filename == f"pork_shoulder_foil.{ending}"
        assert taken == (play.plan.to_json() if ending == "json" else play.data)
    for each in page.locator(".libcook-playground :is(input, select, button)").all():
        each.focus()
        assert each.evaluate("one => one === document.activeElement")
        assert each.evaluate("one => (one.closest('label') ?? one).textContent.trim().length > 2")
    assert faults == []
    page.close()


def test_a_saved_page_shows_the_figure_without_kernel_and_script(browser):
    import nbformat
    from nbconvert import HTMLExporter

    play = playground.show()
    bundle = play._repr_mimebundle_()
    data, described = bundle if isinstance(bundle, tuple) else (bundle, {})
    shown = nbformat.v4.new_output("display_data", data=data, metadata=described)
    cell = nbformat.v4.new_code_cell("lc.playground.show()", outputs=[shown])
    # plain HTML, as of a viewer that knows no widgets
    data.pop("application/vnd.jupyter.widget-view+json")
    text, _ = HTMLExporter(template_name="basic").from_notebook_node(nbformat.v4.new_notebook(cells=[cell]))
    page = browser.new_context(java_script_enabled=False).new_page()
    page.set_content(text)
    figure = page.locator("svg").bounding_box()
    assert figure["width"] > 300 and figure["height"] > 200
    assert page.get_by_text(play.picture["headline"]).is_visible()
    assert page.get_by_text("Follow your local food-safety rules: they come first").is_visible()
    assert page.locator("input, select").count() == 0
    page.context.close()
