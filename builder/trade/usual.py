"""What a verb usually takes, beside what its action names: a pencil and a ruler to mark, a brush to glue.

A row asks for one tool of each of its groups; any kind named in a group serves. `what` narrows the row to
an adhesive, a paint or the form of what is worked on; a row without it is for all others of the verb.
"""

from __future__ import annotations

import re

import msgspec

from builder.trade.match import plain


class Usual(msgspec.Struct, frozen=True):
    """One verb's usual tools: `tools` is one group of kinds per tool asked for. Empty: none is needed."""

    verb: str
    what: str
    tools: tuple[tuple[str, ...], ...]
    sources: tuple[str, ...] = ("common_practice",)


_SPREADERS = ("brush", "glue spreader", "stick", "glue syringe", "sponge")
_CUTTERS = ("scissors", "craft knife", "circle cutter", "paper trimmer", "hole punch", "laser cutter")
_SAWS = ("saw", "power saw", "craft knife", "laser cutter")
_MARKERS = ("pencil", "pen", "permanent marker", "awl", "push pin", "compass")
_MEASURES = (
    "ruler",
    "tape measure",
    "square",
    "calipers",
    "template",
    "dividers",
    "compass",
    "protractor",
    "angle",
)

USUAL = (
    Usual("mark", "", (_MARKERS, _MEASURES)),
    Usual("mark", "from pattern", (_MARKERS,)),
    Usual(
        "cut",
        "",
        (
            (
                *_CUTTERS,
                "saw",
                "power saw",
                "wire cutters",
                "tube cutter",
                "tin snips",
                "hot wire cutter",
                "chisel",
            ),
        ),
    ),
    Usual("cut", "sheet", ((*_CUTTERS, "saw", "power saw", "hot wire cutter", "tin snips"),)),
    Usual("cut", "strip", ((*_CUTTERS, "saw", "wire cutters", "tin snips"),)),
    Usual("cut", "tape", (("scissors", "craft knife", "tape dispenser"),)),
    Usual("cut", "cord", (("scissors", "craft knife", "wire cutters"),)),
    Usual("cut", "rod", ((*_SAWS, "wire cutters", "scissors"),)),
    Usual("cut", "tube", ((*_SAWS, "scissors", "tube cutter"),)),
    Usual(
        "drill",
        "",
        (
            (
                "hand drill",
                "power drill",
                "bit",
                "pin vice",
                "hole punch",
                "awl",
                "push pin",
                "needle",
                "laser cutter",
            ),
        ),
    ),
    Usual("sand", "", (("sanding block", "file", "sander"),)),
    Usual("fold", "", ()),
    Usual("roll", "", ()),
    Usual("wrap", "", ()),
    Usual("glue", "", (_SPREADERS,)),
    Usual("glue", "pva", (_SPREADERS,)),
    Usual("glue", "wood glue", (_SPREADERS,)),
    Usual("glue", "paste", (_SPREADERS,)),
    Usual("glue", "contact cement", (_SPREADERS,)),
    Usual("glue", "epoxy 5min", (("stick", "glue spreader", "brush"),)),
    Usual("glue", "hot melt", (("hot glue gun",),)),
    Usual("glue", "gummed tape", (("sponge", "brush"),)),
    Usual("glue", "cyanoacrylate", ()),
    Usual("glue", "cyanoacrylate gel", ()),
    Usual("glue", "glue stick", ()),
    Usual("glue", "rubber cement", ()),  # the brush is in the lid
    Usual("glue", "solvent cement", ()),
    Usual("glue", "spray adhesive", ()),
    Usual("glue", "double sided tape", ()),
    Usual("insert", "", ()),
    Usual("slide", "", ()),
    Usual("attach", "", ()),
    Usual("screw", "", ()),  # a screw eye goes in by hand
    Usual("screw", "bolt", (("screwdriver", "pliers"),)),
    Usual("tie", "", ()),
    Usual("tape", "", ()),
    Usual("paint", "", (("brush", "sponge", "rolling pin"),)),
    Usual("paint", "aerosol acrylic", ()),
    Usual("paint", "aerosol enamel", ()),
    Usual("paint", "aerosol primer", ()),
    Usual("paint", "aerosol lacquer", ()),
    Usual("remove", "", ()),
    Usual("wait for", "", ()),
    Usual("verify", "", ()),
    Usual("do", "", ()),
)

VERB_HAZARDS: dict[str, tuple[str, ...]] = {"sand": ("dust",)}
"""Hazards that a verb brings whatever tool does it; those of cutting and drilling come with the tool."""

BESIDE: dict[str, tuple[str, ...]] = {
    "craft knife": ("cutting mat",),
    "circle cutter": ("cutting mat",),
    "bit": ("pin vice", "hand drill", "power drill"),
    "hot glue gun": ("stand", "cutting mat", "palette"),
}
"""Kinds of tool that are used beside another one: one of the row's serves. Only usual, never asked for by
itself."""

_BY_KEY = {(row.verb, row.what): row for row in USUAL}


def usual(verb: str, what: str = "") -> Usual | None:
    """The row for a verb and an adhesive, a paint or a form; else the verb's general row; None for no known
    verb."""
    return _BY_KEY.get((verb, plain(what))) or _BY_KEY.get((verb, ""))


def verb_hazards(verb: str) -> tuple[str, ...]:
    """The hazards that a verb brings by itself."""
    return VERB_HAZARDS.get(verb, ())


def told_hazards(text: str) -> tuple[str, ...]:
    """The hazards of what a sentence in free words bids: "Sand it until it does." makes dust. A verb counts
    where a clause begins with it, so that the sand in a bag does not."""
    low = text.lower()
    found: list[str] = []
    for verb, keys in VERB_HAZARDS.items():
        if verb in low and re.search(rf"(?:^|[.;:,]|\b(?:and|or|then))\s*{verb}\b", low):
            found += keys
    return tuple(dict.fromkeys(found))
