"""The teaching page, built and opened from disk in Chromium with the network off.

Where Emscripten is not installed nothing can be built, and where there is no browser nothing can be opened:
the tests are then skipped, and say so.
"""

import fcntl
import functools
import os
import random
import shutil
import subprocess
import sys
from contextlib import contextmanager
from pathlib import Path

import pytest
from playground_page import BROWSER, BROWSERS

import libcook as lc

ROOT = Path(__file__).resolve().parents[2]
PAGE = ROOT / "python" / "page"
BUILT = ROOT / "build" / "page" / "index.html"
NO_COMPILER = (
    "THE TEACHING PAGE IS NOT TESTED: Emscripten is not installed (apt-get install emscripten node-acorn)"
)

needs_page = [
    pytest.mark.skipif(shutil.which("emcc") is None, reason=NO_COMPILER),
    pytest.mark.skipif(
        BROWSER is None, reason=f"THE TEACHING PAGE IS NOT TESTED: none of {BROWSERS} is here"
    ),
]


@functools.cache
def built_page():
    """Build the page, or what changed of it; files of tests that run side by side wait for each other."""
    (ROOT / "build").mkdir(exist_ok=True)
    with (ROOT / "build" / "page.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        done = subprocess.run(
            [sys.executable, PAGE / "build"], capture_output=True, encoding="utf-8", check=False
        )
    assert done.returncode == 0, done.stdout + done.stderr
    return BUILT


class Opened:
    """The page in a tab, what it complained of, and what it asked the network for."""

    def __init__(self, tab):
        self.tab, self.said, self.asked = tab, [], []
        tab.on(
            "console", lambda line: self.said.append(line.text) if line.type in ("error", "warning") else None
        )
        tab.on("pageerror", lambda error: self.said.append(str(error)))
        tab.on("request", lambda request: self.asked.append(request.url))

    def open(self, link="", sure=False):
        self.tab.goto(f"{built_page().as_uri()}#{link}" if link else built_page().as_uri())
        self.tab.wait_for_selector("body[data-turn]", timeout=60_000)
        if sure:
            self.settle()
        return self

    def settle(self):
        """Wait until how sure it is has been computed as well, and the address is written."""
        self.tab.wait_for_selector("#sure:not(:has-text('Asking'))", timeout=60_000)

    def turn(self):
        return int(self.tab.locator("body").get_attribute("data-turn"))

    def after(self, act):
        """Do something, and wait until the cook has been computed anew."""
        before = self.turn()
        act()
        self.tab.wait_for_selector(
            f'body[data-turn="{before + 1}"], body[data-turn="{before + 2}"]', timeout=30_000
        )

    def text(self, selector):
        return self.tab.locator(selector).inner_text().replace("\u00a0", " ")

    def drawn(self):
        return self.tab.locator("#curves").inner_html() + self.tab.locator("#words").inner_text()

    def ask(self, code, *given):
        return self.tab.evaluate(code, given[0] if given else None)

    def picture(self, name):
        if folder := os.environ.get("COOK_SCREENSHOTS"):
            self.tab.screenshot(path=f"{folder}/page-{name}.png", full_page=True)


@contextmanager
def browser():
    playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    with playwright.sync_playwright() as driver:
        made = driver.chromium.launch(executable_path=BROWSER, args=["--no-sandbox", "--disable-gpu"])
        try:
            yield made
        finally:
            made.close()


def new_tab(chromium, width=1280, theme="light", **more):
    context = chromium.new_context(
        viewport={"width": width, "height": 900}, color_scheme=theme, offline=True,
        **{"locale": "en-US", **more},
    )  # fmt: skip
    return Opened(context.new_page())


def some_settings(form, count, seed=19):
    """Settings as a reader may leave them, drawn at random from what the form offers."""
    chance = random.Random(seed)
    dials = {dial["key"]: dial for dial in form["dials"]}
    made = []
    for _ in range(count):
        cut = chance.choice(form["cuts"])["name"]
        piece = form["pieces"][cut]
        settings = {
            "cut": cut,
            "cooker": chance.choice(form["cookers"])["name"],
            "wrap": chance.choice(form["wraps"])["name"],
            "rest": chance.choice(form["rests"])["name"],
            "mass": round(chance.uniform(piece["smallest"], piece["largest"]), 3),
            "air": round(chance.uniform(105.0, 160.0), 2),
            "wrap_at": round(chance.uniform(55.0, 80.0), 2),
            "pull": round(chance.uniform(75.0, 95.0), 2),
            "spritz": chance.choice([0.0, 0.0, 1800.0, 3600.0]),
            "rest_time": 900.0 * chance.randint(1, 24),
            "clock": 900.0 * chance.randint(0, 95),
            "start": round(chance.uniform(1.0, 20.0), 1),
        }
        if chance.random() < 0.3:
            settings["vapour"] = round(chance.uniform(3000.0, 15000.0))
        assert set(settings) <= {*dials, "cut", "cooker", "wrap", "rest"}
        made.append(settings)
    return made


def plan_of(opened, settings):
    return lc.Plan.from_json(opened.ask("(given) => libcook.planText(given)", settings))
