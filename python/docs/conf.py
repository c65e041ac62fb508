"""Settings of the documentation site. Nothing here, and nothing in the pages, needs a network."""

import sys
from pathlib import Path

from sphinx.ext.napoleon.docstring import GoogleDocstring

import libcook

sys.path.insert(0, str(Path(__file__).parent))

# Napoleon takes what stands before a colon in a property's sentence for its type; here it is a sentence.
GoogleDocstring._parse_attribute_docstring = lambda self: list(self._lines)

project = "libcook"
author = "the libcook developers"
copyright = author
release = version = libcook.__version__

extensions = ["myst_parser", "sphinx.ext.autodoc", "sphinx.ext.napoleon", "mathml", "signatures"]
myst_enable_extensions = ["dollarmath", "colon_fence", "deflist"]
myst_heading_anchors = 3
default_role = "py:obj"  # docstrings name what they mean in single backticks
nitpicky = False

autodoc_member_order = "bysource"
autodoc_typehints = "none"  # the docstrings say what is accepted
autodoc_default_options = {"members": True}
napoleon_google_docstring = False
napoleon_use_rtype = False
napoleon_use_ivar = True  # a named tuple documents its fields itself

html_theme = "furo"
html_title = f"libcook {release}"
html_static_path = ["_static"]
html_css_files = ["site.css"]
html_theme_options = {
    "light_css_variables": {"color-brand-primary": "#B84D00", "color-brand-content": "#0063A0"},
    "dark_css_variables": {"color-brand-primary": "#E69F00", "color-brand-content": "#56B4E9"},
    "sidebar_hide_name": False,
}
html_show_sourcelink = False
html_copy_source = False
