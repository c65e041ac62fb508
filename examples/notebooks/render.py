"""Run the notebooks and write their pages: Markdown with figures, to be read without running anything.

python examples/notebooks/render.py [NAME ...] [--to FOLDER]
python examples/notebooks/render.py --notebooks [NAME ...] [--to FOLDER]

The second one runs nothing: from text and page it makes `.ipynb` files, outputs in, that open by double click.

A new notebook is a file beside this one, its name in NAMES, and a line in python/docs/index.md.
"""

from __future__ import annotations

import argparse
import base64
import re
from pathlib import Path
from typing import Any

import jupytext
import page_to_notebook
from nbclient import NotebookClient

HERE = Path(__file__).resolve().parent
PAGES = HERE / "pages"
NAMES = (
    "why_it_stalls",
    "wrap_or_wait",
    "hot_and_fast_or_low_and_slow",
    "the_rest",
    "calibrate_your_cooker",
    "the_best_plan",
)
SECONDS = 60  # no notebook may take longer


def run(name: str) -> Any:
    """Execute a notebook from its text in a fresh kernel."""
    notebook = jupytext.read(HERE / f"{name}.py")
    notebook.metadata["kernelspec"] = {"name": "python3", "display_name": "Python 3", "language": "python"}
    client = NotebookClient(notebook, timeout=SECONDS, resources={"metadata": {"path": str(HERE)}})
    client.execute()
    return notebook


def write(name: str, notebook: Any, folder: Path) -> Path:
    """Write an executed notebook as Markdown with its figures beside it."""
    parts, figures = [], 0
    (folder / name).mkdir(parents=True, exist_ok=True)
    for cell in notebook.cells:
        if cell.cell_type == "markdown":
            parts.append(cell.source.strip())
            continue
        if not cell.source.strip():
            continue
        code = f"```python\n{cell.source.strip()}\n```"
        if cell.metadata.get("jupyter", {}).get("source_hidden"):
            code = f"<details><summary>code</summary>\n\n{code}\n\n</details>"
        parts.append(code)
        outputs = cell.get("outputs", ())
        drawn = any("image/png" in output.get("data", {}) for output in outputs)
        for output in outputs:
            if drawn and "image/png" not in output.get("data", {}):
                continue  # the name of the axes that a plotting function returns
            figures += "image/png" in output.get("data", {})
            alt = str(cell.metadata.get("alt", name.replace("_", " ")))
            parts.append(_shown(output, f"{name}/{figures}.png", alt, folder))
    page = folder / f"{name}.md"
    head = f"<!-- Written by examples/notebooks/render.py from {name}.py -->\n\n"
    page.write_text(head + "\n\n".join(part for part in parts if part) + "\n", encoding="utf-8")
    return page


def _shown(output: Any, figure: str, alt: str, folder: Path) -> str:
    if output.output_type == "stream":
        return "```text\n" + output.text.strip() + "\n```"
    data = output.data
    if "image/png" in data:
        (folder / figure).write_bytes(base64.b64decode(data["image/png"]))
        return f"![{alt}]({figure})"
    if "text/markdown" in data:
        return str(data["text/markdown"]).strip()
    return "```text\n" + str(data["text/plain"]).strip() + "\n```"


def main() -> None:
    """Render the named notebooks, or all."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("names", nargs="*", default=NAMES, metavar="NAME", help=", ".join(NAMES))
    parser.add_argument("--to", type=Path, help="folder for what is made")
    parser.add_argument("--notebooks", action="store_true", help="make .ipynb files of the pages there are")
    told = parser.parse_args()
    for name in told.names:
        if told.notebooks:
            print(page_to_notebook.write(re.sub(r"\.py$", "", Path(name).name), told.to or HERE))
            continue
        print(write(re.sub(r"\.py$", "", Path(name).name), run(Path(name).stem), told.to or PAGES))


if __name__ == "__main__":
    main()
