"""What was planted and what was told: a table for people, and plain data for a page."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from builder.planting.run import Harvest, Result

VERDICTS = {
    "caught": "caught",
    "missed": "missed: no finding tells it",
    "beneath": "told only beneath another finding",
    "extra": "caught, with more findings than it has faults",
    "weak": "caught, with another severity",
}


def as_rows(harvest: Harvest) -> list[dict[str, object]]:
    """One row for each planting, as plain data (strings, numbers, lists)."""
    return [
        {
            "kinds": list(result.kinds),
            "expected": list(result.expected),
            "at": result.at,
            "verdict": result.verdict,
            "findings": [told._asdict() for told in result.leaders],
        }
        for result in harvest.results
    ]


def as_data(harvest: Harvest) -> dict[str, object]:
    """A harvest as plain data: counts, the kinds without a place, and the rows."""
    return {
        "guide": harvest.guide,
        "title": harvest.title,
        "planted": len(harvest.results),
        "caught": sum(r.good for r in harvest.results),
        "no_place": list(harvest.no_place),
        "own_findings": harvest.own,
        "rows": as_rows(harvest),
    }


def as_json(harvests: Sequence[Harvest]) -> str:
    """One JSON document: a list of harvests."""
    body = msgspec.json.encode([as_data(h) for h in harvests])
    return msgspec.json.format(body, indent=2).decode()


def as_text(harvest: Harvest) -> str:
    """A table: what was planted, where, and which finding told it; at the end the sums."""
    table = [
        (" + ".join(r.kinds), r.at, " + ".join(dict.fromkeys(t.check for t in r.leaders)) or "-", r.verdict)
        for r in harvest.results
    ]
    head = ("planted", "where", "told by", "verdict")
    widths = [max(len(row[i]) for row in (head, *table)) for i in range(4)]
    lines = ["  ".join(cell.ljust(w) for cell, w in zip(row, widths, strict=True)).rstrip()
             for row in (head, tuple("-" * w for w in widths), *table)]  # fmt: skip
    for result in harvest.missed:
        lines += ["", *_told(result)]
    return "\n".join([*lines, "", summary(harvest)])


def _told(result: Result) -> list[str]:
    wanted = " or ".join(result.expected)
    first = f"{' + '.join(result.kinds)} ({result.at}): {VERDICTS[result.verdict]}; expected {wanted}"
    return [first, *(f"  {t.place}: {t.severity}: {t.message} [{t.check}]" for t in result.leaders)]


def summary(harvest: Harvest) -> str:
    """`Sail cart: 98 planted, 98 caught; 39 kinds have no place here: ...`"""
    caught = sum(r.good for r in harvest.results)
    text = f"{harvest.title or harvest.guide}: {len(harvest.results)} planted, {caught} caught"
    for verdict in ("missed", "beneath", "extra", "weak"):
        number = sum(r.verdict == verdict for r in harvest.results)
        text += f", {number} {verdict}" if number else ""
    if harvest.no_place:
        text += f"; {len(harvest.no_place)} kinds have no place here: {', '.join(harvest.no_place)}"
    if harvest.own:
        text += f"; the guide has {harvest.own} findings of its own, which are not counted"
    return text
