"""What several modules ask of the teaching page."""

import pytest
from teaching_page import browser, new_tab


@pytest.fixture(scope="module")
def page():
    with browser() as chromium:
        yield new_tab(chromium).open()


@pytest.fixture(scope="module")
def form(page):
    return page.ask("() => libcook.form")
