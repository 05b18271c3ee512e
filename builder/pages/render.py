"""Rendering: the one place that knows jinja2.

The site generator brings an environment of its own; `prepare` gives it the same strictness, so a
template reads the same whether a page, a packet or a test asks for it.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import jinja2

from builder.pages.spaces import shown

THEME = Path(__file__).resolve().parents[2] / "theme"


def prepare(environment: jinja2.Environment) -> jinja2.Environment:
    """Make an environment escape what is not `Markup`, keep numbers and units on one line, and fail on a name
    that is not there."""
    environment.autoescape = True
    environment.finalize = shown
    environment.undefined = jinja2.StrictUndefined
    environment.trim_blocks = True
    environment.lstrip_blocks = True
    return environment


@lru_cache(maxsize=4)
def environment(theme: Path = THEME) -> jinja2.Environment:
    """The environment over the theme's folder. Templates are read from there and nowhere else."""
    return prepare(jinja2.Environment(loader=jinja2.FileSystemLoader(theme), keep_trailing_newline=True))


def render(template: str, **context: object) -> str:
    """Lay out `context` with the template of this name.

    A name that the template asks for and the context lacks raises `jinja2.UndefinedError`: that is
    a fault of the program, never of a guide.
    """
    return environment().get_template(template).render(**context)
