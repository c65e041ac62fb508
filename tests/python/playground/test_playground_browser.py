"""The playground in JupyterLab in a real browser: a slider is moved, and the page answers.

Chromium comes from the system; where there is none this is skipped.
"""

import json
import os
import re
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request

import pytest
from playground_page import BROWSER, BROWSERS

TOKEN = "sliders"

pytestmark = pytest.mark.skipif(
    BROWSER is None,
    reason=f"no browser here; one of {', '.join(BROWSERS)} would do (apt-get install chromium)",
)

CODE = "import libcook as lc\nplay = lc.playground.show()\nplay"


def free_port():
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        return found.getsockname()[1]


@pytest.fixture(scope="module")
def address(tmp_path_factory):
    folder = tmp_path_factory.mktemp("lab")
    cell = {
        "cell_type": "code",
        "execution_count": None,
        "id": "a",
        "metadata": {},
        "outputs": [],
        "source": CODE,
    }
    kernel = {"display_name": "Python 3", "language": "python", "name": "python3"}
    notebook = {"cells": [cell], "metadata": {"kernelspec": kernel}, "nbformat": 4, "nbformat_minor": 5}
    (folder / "play.ipynb").write_text(json.dumps(notebook), encoding="utf-8")
    port = free_port()
    homes = {
        name: str(folder / name.lower())
        for name in ("JUPYTER_CONFIG_DIR", "JUPYTER_RUNTIME_DIR", "IPYTHONDIR")
    }
    log = (folder / "lab.log").open("w")
    server = subprocess.Popen(
        [
            sys.executable, "-m", "jupyterlab", "--no-browser", "--allow-root", f"--port={port}",
            "--ServerApp.ip=127.0.0.1", f"--IdentityProvider.token={TOKEN}", f"--ServerApp.root_dir={folder}",
            "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
        ],
        cwd=folder, env={**os.environ, **homes}, stdout=log, stderr=subprocess.STDOUT,
    )  # fmt: skip
    base = f"http://127.0.0.1:{port}"
    try:
        for _ in range(240):
            if server.poll() is not None:
                break
            try:
                urllib.request.urlopen(f"{base}/api?token={TOKEN}", timeout=5).close()
                break
            except (urllib.error.URLError, OSError):
                time.sleep(0.25)
        assert server.poll() is None, (folder / "lab.log").read_text()
        yield f"{base}/lab/tree/play.ipynb?token={TOKEN}&reset"
    finally:
        server.terminate()
        try:
            server.wait(timeout=20)
        except subprocess.TimeoutExpired:
            server.kill()
            server.wait()
        log.close()


def run_the_first_cell(page):
    """Run it until it has a number, which takes the kernel some seconds.

    A cell that is run while the kernel's connection is still being made is not run at all, so the
    kernel must say "idle" first; and it is run again if the kernel is idle and has given no number.
    """
    cell = page.locator(".jp-Notebook .jp-Cell").first
    cell.locator(".cm-content").click(timeout=90_000)
    kernel = page.locator(".jp-Notebook-ExecutionIndicator").first
    status = prompt = None
    for _ in range(90):
        page.wait_for_timeout(1000)
        status, prompt = kernel.get_attribute("data-status"), cell.locator(".jp-InputPrompt").inner_text()
        if re.fullmatch(r"\[\d+\]:", prompt.strip()):
            return
        if status == "idle":
            cell.locator(".cm-content").click()
            page.keyboard.press("Control+Enter")
    raise AssertionError(f"the cell did not run in 90 s: kernel {status!r}, prompt {prompt!r}")


def notebook_page(browser, address, said):
    """Open the notebook and run its cell; what the page complains of is added to `said`."""
    page = browser.new_page(viewport={"width": 1250, "height": 1000})
    page.on("console", lambda line: said.append(line.text) if line.type == "error" else None)
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(address)
    run_the_first_cell(page)
    return page


@pytest.fixture(scope="module")
def page(address):
    playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
    said = []
    with playwright.sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=BROWSER, args=["--no-sandbox", "--disable-gpu"])
        try:
            for _ in range(3):  # a page whose widget does not come up is opened again, as a cook would
                shown = notebook_page(browser, address, said)
                try:
                    shown.locator(".libcook-playground svg").wait_for(timeout=30_000)
                    break
                except playwright.TimeoutError:
                    output = shown.locator(".jp-Notebook .jp-Cell").first.locator(".jp-OutputArea")
                    said.append(f"no playground in 30 s; output: {output.all_inner_texts()}")
                    shown.close()
            else:
                pytest.fail("; ".join(said))
            yield shown
        finally:
            browser.close()


def headline(page):
    return page.locator(".libcook-playground .headline").inner_text()


def finish(text):
    found = re.search(r"done after (?:(\d+) h)? ?(?:(\d+) min)?", text)
    return 60 * int(found[1] or 0) + int(found[2] or 0)


def test_a_moved_slider_changes_curves_budget_and_finish(page):
    before, drawn = headline(page), page.locator(".libcook-playground svg").inner_html()
    slider = page.locator(".libcook-playground input[name=air]")
    slider.focus()
    for _ in range(5):  # 5 °F each
        page.keyboard.press("ArrowRight")
    page.wait_for_function(
        "old => document.querySelector('.libcook-playground .headline').textContent !== old", arg=before
    )
    page.wait_for_timeout(500)  # the last of the five
    assert slider.input_value() == "275"
    assert finish(headline(page)) < finish(before) - 30
    assert page.locator(".libcook-playground svg").inner_html() != drawn
    # the kernel has the same cook
    hotter = kernel_says(page, "print(round(play.values['air'] * 1.8 + 32))")
    assert hotter == "275"
    if folder := os.environ.get("COOK_SCREENSHOTS"):
        page.screenshot(path=f"{folder}/playground.png")
        print("ms from slider to figure:", page.locator(".libcook-playground").get_attribute("data-answer"))


def test_the_wrap_and_the_units_are_chosen_from_lists(page):
    before = headline(page)
    page.locator(".libcook-playground select[name=wrap]").select_option("foil")
    page.wait_for_function(
        "old => document.querySelector('.libcook-playground .headline').textContent !== old", arg=before
    )
    assert finish(headline(page)) < finish(before)
    page.locator(".libcook-playground select[name=units]").select_option("C")
    page.locator(".libcook-playground svg text", has_text="180 °C").wait_for()
    assert page.locator(".libcook-playground input[name=air]").input_value() == "135"


def kernel_says(page, code):
    """Run a line in a new cell and read what it prints."""
    page.locator(".jp-Notebook .jp-Cell .cm-content").first.click()
    page.keyboard.press("Escape")
    page.keyboard.press("b")
    page.keyboard.press("Enter")
    page.keyboard.type(code)
    page.keyboard.press("Control+Enter")
    answer = page.locator(".jp-OutputArea-output pre").last
    answer.wait_for()
    return answer.inner_text().strip()
