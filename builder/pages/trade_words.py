"""What the trade's tables know, as lists and tables in Markdown for the manual: the words for a guide."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping

from builder.trade.adhesives import ADHESIVES
from builder.trade.hazards import HAZARDS
from builder.trade.materials import MATERIALS
from builder.trade.paints import PAINTS
from builder.trade.tools import TOOLS

PLACEHOLDER = re.compile(r"^\[\[(?P<name>[a-z]+)\]\]$", re.MULTILINE)


def adhesives() -> str:
    """A row for each kind: the word to write, other words for it, what its use brings."""
    rows = ((row.key, row.aka, row.needs) for row in ADHESIVES)
    return _kinds("adhesive", rows)


def paints() -> str:
    """The same for paints and finishes."""
    return _kinds("paint", ((row.key, row.aka, row.needs) for row in PAINTS))


def hazards() -> str:
    """A row for each hazard: its key, its level, what it is."""
    lines = ["| key | level | what it is |", "|---|---|---|"]
    lines += [f"| `{row.key}` | {row.level} | {row.hazard} |" for row in HAZARDS]
    return "\n".join(lines)


def tools() -> str:
    """The kinds of tool by name."""
    return ", ".join(sorted(row.key for row in TOOLS)) + "."


def materials() -> str:
    """The kinds of material by name."""
    return ", ".join(sorted(row.key for row in MATERIALS)) + "."


def _kinds(field: str, rows: Iterable[tuple[str, tuple[str, ...], tuple[str, ...]]]) -> str:
    lines = [f"| `{field}:` | or | hazards |", "|---|---|---|"]
    for key, others, needs in rows:
        brings = ", ".join(f"`{need}`" for need in needs) or "none"
        lines.append(f"| `{key.replace('_', ' ')}` | {', '.join(others)} | {brings} |")
    return "\n".join(lines)


LISTS: Mapping[str, Callable[[], str]] = {
    "adhesives": adhesives, "paints": paints, "hazards": hazards, "tools": tools, "materials": materials,
}  # fmt: skip


def filled(text: str) -> str:
    """Markdown with each `[[name]]` on a line of its own replaced by its list. KeyError for a name without
    one."""
    return PLACEHOLDER.sub(lambda found: LISTS[found["name"]](), text)
