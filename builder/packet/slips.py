"""Slips of paper that mend printed pages: each as large as its box, with a line to cut along."""

from __future__ import annotations

import re
from collections.abc import Sequence

from markupsafe import escape

from builder.packet.errata import Slip

STYLE = """
@page { size: %s; margin: 10mm 12mm; }
.slip-set { break-inside: avoid; margin-bottom: 9mm; }
.slip-say { font: 9pt/1.3 "Kitwright Sans"; margin: 0 0 2mm; }
.slip { box-sizing: border-box; outline: 0.4pt dashed #000; overflow: hidden; }
.slip > .step { margin: 0 !important; break-inside: avoid; }
.slip .gone { font: 600 14pt "Kitwright Sans"; margin: 4mm; }
"""
HOW = (
    "Print at actual size (100 %). Cut each slip along its dashed line, and glue it over the step that it "
    "names: the edges meet."
)
_PAGES = re.compile(r'<a class="page-of"[^>]*>page</a>(?:, <a class="page-of"[^>]*>page</a>)*')
"""The pages of a step's gauges: in the packet that is mended they are others, or none, but all at the end."""

SIZES = {"a4": "210mm 297mm", "letter": "215.9mm 279.4mm"}


def slips_html(slips: Sequence[Slip], title: str, part: str, paper: str) -> str:
    """The sheets of slips as HTML for the layout engine; each slip says over what it goes."""
    sets = [_set(slip, number) for number, slip in enumerate(slips, 1)]
    head = f'<meta charset="utf-8"><title>{escape(title)}: slips</title><style>{STYLE % SIZES[paper]}</style>'
    say = f"<strong>{escape(title)}, {escape(part)}.</strong> {HOW}"
    body = f'<p class="slip-say">{say}</p>{"".join(sets)}'
    return f'<!doctype html><html lang="en"><head>{head}</head><body>{body}</body></html>'


def _set(slip: Slip, number: int) -> str:
    box = slip.old.box
    gone = '<p class="gone">This step is left out.</p>'
    shown = _PAGES.sub("at the end", slip.new.html) if slip.new is not None else gone
    return (
        f'<section class="slip-set"><p class="slip-say">Slip {number}: page {slip.old.page}, '
        f"marked <strong>{escape(slip.mark)}</strong> at its foot.</p>"
        f'<div class="slip" id="slip-{number}" style="width: {box.width:.3f}mm; height: {box.height:.3f}mm">'
        f"{shown}</div></section>"
    )
