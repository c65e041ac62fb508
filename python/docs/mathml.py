"""Equations as MathML, which browsers draw themselves: no script, no font and no network."""

from __future__ import annotations

from typing import Any

from docutils import nodes
from latex2mathml.converter import convert


def _inline(self: Any, node: nodes.math) -> None:
    self.body.append(convert(node.astext(), display="inline"))
    raise nodes.SkipNode


def _block(self: Any, node: nodes.math_block) -> None:
    # equations that share a line are pieces of their own, so that a narrow screen sets them below each other
    pieces = (convert(each.strip(), display="block") for each in node.astext().split(r"\qquad"))
    self.body.append(f'<div class="equation">{"".join(f"<div>{each}</div>" for each in pieces)}</div>')
    raise nodes.SkipNode


def setup(app: Any) -> dict[str, Any]:
    """Tell Sphinx how to write equations in HTML."""
    app.add_html_math_renderer("mathml", (_inline, None), (_block, None))
    app.config.html_math_renderer = "mathml"
    return {"parallel_read_safe": True, "parallel_write_safe": True}
