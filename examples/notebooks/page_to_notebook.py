"""A notebook file from a notebook's text and its page: the page has the outputs, so nothing is run."""

from __future__ import annotations

import base64
import re
from pathlib import Path
from typing import Any

import jupytext
import nbformat

HERE = Path(__file__).resolve().parent
PAGES = HERE / "pages"
_FENCE = re.compile(r"```text\n(.*)\n```", re.S)
_FIGURE = re.compile(r"!\[(.*?)\]\((.*?)\)")


def read(name: str, pages: Path = PAGES) -> Any:
    """Return a notebook with the outputs of its page.

    Raises
    ------
    ValueError
        When text and page do not say the same: the page is to be rendered anew.
    """
    notebook = jupytext.read(HERE / f"{name}.py")
    notebook.metadata = {
        "kernelspec": {"name": "python3", "display_name": "Python 3", "language": "python"},
        "language_info": {"name": "python"},
    }
    rest = (pages / f"{name}.md").read_text(encoding="utf-8").partition("\n\n")[2].strip() + "\n\n"
    shown = [cell for cell in notebook.cells if cell.source.strip()]
    heads = [_in_page(cell) for cell in shown] + [""]
    for number, (cell, head) in enumerate(zip(shown, heads, strict=False)):
        if not rest.startswith(head):
            raise ValueError(f"{name}: the page lacks a cell; run render.py {name}: {head[:80]!r}")
        rest = rest[len(head) :]
        end = rest.index(heads[number + 1]) if heads[number + 1] else len(rest)
        if cell.cell_type == "code":
            cell.execution_count = None
            cell.outputs = [_output(part, pages) for part in _parts(rest[:end].strip())]
            rest = rest[end:]
    for place, cell in enumerate(notebook.cells):  # jupytext draws ids by chance
        cell["id"] = f"{name[:20].replace('_', '-')}-{place}"
    nbformat.validate(notebook)
    return notebook


def write(name: str, folder: Path = HERE, pages: Path = PAGES) -> Path:
    """Write it as a file that JupyterLab and others open by double click."""
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{name}.ipynb"
    nbformat.write(read(name, pages), path)
    return path


def _in_page(cell: Any) -> str:
    """Return a cell's own text as the page has it, see render.py."""
    if cell.cell_type == "markdown":
        return f"{cell.source.strip()}\n\n"
    code = f"```python\n{cell.source.strip()}\n```"
    if cell.metadata.get("jupyter", {}).get("source_hidden"):
        code = f"<details><summary>code</summary>\n\n{code}\n\n</details>"
    return f"{code}\n\n"


def _parts(text: str) -> list[str]:
    """Take the outputs of a cell apart: figures and texts stand for themselves, the rest is prose."""
    found = re.split(r"(?:^|\n\n)(```text\n.*?\n```|!\[[^\]]*\]\([^)]*\))(?:\n\n|$)", text, flags=re.S)
    return [part for part in found if part.strip()]


def _output(part: str, pages: Path) -> Any:
    if fence := _FENCE.fullmatch(part):
        return nbformat.v4.new_output("stream", name="stdout", text=fence[1] + "\n")
    if figure := _FIGURE.fullmatch(part):
        data = base64.b64encode((pages / figure[2]).read_bytes()).decode()
        return nbformat.v4.new_output("display_data", {"image/png": data, "text/plain": figure[1]})
    return nbformat.v4.new_output("display_data", {"text/markdown": part, "text/plain": part})
