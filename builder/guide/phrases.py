"""The words of a language, as tables: another language needs another table of this shape.

A phrase is a text with slots in braces; an empty slot closes up. Verbs bring their own phrase in their
row; what stands here is what fills their slots, and the sentences that no verb has.
"""

from __future__ import annotations

COUNTS = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)
ORDINALS = (
    "",
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "eighth",
    "ninth",
    "tenth",
    "eleventh",
    "twelfth",
)

AND = " and "
COMMA = ", "
COMMA_AND = ", and "
THE = "the "
WITH = " with "
EVERYTHING = "everything"

# Ends whose name is a noun by itself; the others take "end", or "edge" on a flat part.
BARE_ENDS = frozenset(
    ("foot", "tip", "base", "head", "top", "bottom", "start", "end", "middle", "shank", "rim")
)
END_WORD = "{end} end"
EDGE_WORD = "{end} edge"
FACE_WORD = "{end} face"  # of a ring or a disc
FACES = {"under": "underside", "top": "top", "inside": "inside", "outside": "outside"}

# A zone is called by its name only where the name says a place: the others are told by their stations.
PLACE_WORDS = frozenset(
    (
        "bay",
        "collar",
        "groove",
        "neck",
        "notch",
        "pocket",
        "recess",
        "room",
        "root",
        "seat",
        "shoulder",
        "sleeve",
        "slot",
        "socket",
    )
)

# The last word of a mark's name that says by itself what is drawn.
LINE_WORDS = frozenset(("line", "lines"))
POINT_WORDS = frozenset(
    (
        "arrow",
        "arrows",
        "centre",
        "center",
        "centres",
        "centers",
        "corner",
        "corners",
        "cross",
        "crosses",
        "dot",
        "dots",
        "hole",
        "holes",
        "mark",
        "marks",
        "middle",
        "point",
        "points",
        "spot",
        "spots",
        "tick",
        "ticks",
    )
)

PHRASES = {
    # numbers and places
    "size": "{first} by {second}",
    "of": "{part} of {whole}",
    "stretch": "from {lo} to {hi} from {end}",
    "first stretch": "over the first {hi} from {end}",
    "whole": "over its whole length",
    "point": "{lo} from {end}",
    "two": "{first} from {end} and {second} from {other}",
    "at end": "at {end}",
    "at": "at {place}",
    "along": "along {place}",
    "in middle": "in the middle of {place}",
    "middle": "the middle of {place}",
    "flush": "flush with {end}",
    "against": "against {place}",
    "will sit": "where {part} will sit",
    "will sit known": "where {part} will sit: {place}",
    "in zone": "in {place}",
    "edge one side": "one side",
    # what verbs are filled with
    "into": "into {host}",
    "over": "over {host}",
    "one into each": "into {host}, one into each,",
    "one over each": "over {host}, one on each,",
    "from end": "from {end}",
    "through": "through {way}",
    "by holes": "by {way}",
    "with": "with {tools}",
    "using": "using {tools}",
    "with mat": "with {tools} on {mat}",
    "only mat": "on {mat}",
    "hold": "and hold {it} there for {time}",
    "held by": ", held by {holder}",
    "leaving": ", leaving {length} standing out",
    "as far": ", as far as {it} will go",
    # until
    "until fills": ", until {it} {fills} {zone}",
    "until fills flush": ", until {it} {fills} {zone} (flush with {end})",
    "until fills from": ", until {it} {fills} {zone}, {place}",
    "until is": ", until {it} {is_} {place}",
    "until lies": ", until {it} {lies} {place}",
    "until meets": ", until {it} {meets} {place}",
    "until on": ", until {it} {is_} on {place}",
    "until stands out": ", until {length} of {it} stands out at {end}",
    "until holes": ", until {places} from {end}",
    "until all": ", until {places}",
    "hole at": "the {hole} hole is {length}",
    "hole at from": "the {hole} hole is {length} from {end}",
    # making
    "for each": "for {each}, ",
    "each builder": "each builder",
    "every builders": "every {n} builders",
    "long": ", {length} long,",
    "each long": ", each {length} long,",
    "sized": ", {size},",
    "each sized": ", each {size},",
    "across": ", {length} across,",
    "each across": ", each {length} across,",
    "stock": "from {stock}",
    "printed": "out of the printed pattern",
    "along pattern": "along the printed pattern",
    "grain": ", with the grain {way}",
    "grains": ", with {ways}",
    "grain of": "the grain of {part} {way}",
    "grain from": "from {start} to {end}",
    "grain along": "along {what}",
    "grain its": "along its {axis}",
    "grain long": "along its long side",
    "grain short": "along its short side",
    "leaves": "This leaves {sizes}.",
    "leaves nothing": "Nothing is left over.",
    "fold at one": "at the line {places}",
    "fold at": "at the lines {places}",
    "fold over": "over {what}",
    "hole": "a {size} hole {depth} in {host}",
    "hole through": "a {size} hole right through {host}",
    "holes": "{n} {size} holes {depth} in {host}",
    "holes through": "{n} {size} holes right through {host}",
    "deep": "{length} deep",
    "at each hole": ": {holes}",
    "one hole": "the {hole} hole {place}",
    "edges of": "{edges} of",
    "edge": "the {edge} edge",
    "edges": "the {edges} edges",
    "not edges": "Leave {edges} as {it_is}.",
    "round": "round {host}",
    "makes": "to make {tube}",
    "roll glue": ", with {glue}",
    "from turn": "from the {ordinal} turn on",
    "from turn alone": ", from the {ordinal} turn on",
    "mark.line": "draw {what} {onto} {along} {from} {angle} {at} {with}",
    "mark.point": "mark {what} {onto} {along} {from} {angle} {at} {with}",
    "mark round": "round {host}",
    "mark round inside": "round the inside of {host}",
    "mark across": "across {host}",
    "mark along": "along {host}",
    "mark on": "on {host}",
    "through marks": "through {marks}",
    "along mark": "along {marks}",
    "by template": "by {template}",
    "evenly": ", evenly round it",
    "evenly for": ", evenly round it, one for each of {parts}",
    "angle": ", at {angle}",
    "angle from first": ", {angle} round from the first {part}",
    "half way": ", halfway between two {parts} ({angle} round)",
    "inside": "inside {host}",
    "outside hollow": "on the outside of {host}",
    "outside solid": "round {host}",
    "on": "on {host}",
    "along side": "along {edge} of {host}",
    "fillet": "run a fillet of {with} where {parts} {meet} {host} {tools}",
    "each of": "each of {parts}",
    "coats": ", in {n} coats",
    "keep bare": "Keep {things} bare.",
    # joining
    "onto": "on {host}",
    "in through": "through {end}",
    "by point": ", with {point} on {place}",
    "by point at": ", with {point} {place}",
    "to": "to {host}",
    "knot": "with {a_knot} knot",
    "knots": ", each with {a_knot} knot",
    "tape": "with {tape}",
    "out of": "out of {host}",
    "off": "off {host}",
    "from host": "from {host}",
    "over end": ", over {end}",
    "towards": "at {end}",
    "before set": "before the glue sets",
    "wait.until": "let {what} {set}",
    "wait.until known": "let {what} {set}: at least {time} (by {labels})",
    "wait.until bare": "let {what} {set}: at least {time}",
    "wait.until for": "let {what} {set} for {time}",
    "wait.for": "let {what} stand for {time}",
    "label": "the label of {glue}",
    "labels": "the labels of {glue}",
    "sticks out": "{sticks} out at {end}",
    "sticks out of": "{sticks} out of {host} at {end}",
    "sticks past": "{sticks} out past {host} at {end}",
    "by amount": "by {length}",
    "give or take": ", give or take {tolerance}",
    "stands at": "{stands} at {angle}",
    "stands at to": "{stands} at {angle} to {host}",
    "turns in": "{turns} freely in {host}",
    "slides out of": "{slides} out of {host}",
    "is long": "{is_} {length} long",
    "shows": "{shows} {what}",
    "check with": "with {tools}",
    "its": "its {what}",
    "of each": "the {what} of each",
    "each": "each {what}",
    "part line": "the line of {part}",
    "part mark": "the mark of {part}",
    "part place": "the place of {part}",
    "its line": "its line",
    "its mark": "its mark",
    "its place": "its place",
    "corner": "a corner",
    "its corner": "its corner",
    # leads
    "lead": "for each of {parts}:",
    "lead copies": "for {parts} in turn:",
    "lead round": "for each of {parts}, spaced evenly round {host} ({angles}):",
    "lead round step": "for each of {parts}, spaced evenly round {host} (every {angles}):",
    "lead corners": "for each of {parts}, at the {corners} of {host} in turn:",
    "lead places": "for each of {parts}, {spots} in turn:",
    "lead spots": "for each of {parts}, on {spots} in turn:",
    "lead holes": "for each of {parts}, in {spots} in turn:",
}

# A word of the verb that the tool's kind brings: a rod is sawn, a sheet is punched.
BY_TOOL = {("cut", "saw"): "saw", ("cut", "power saw"): "saw", ("drill", "hole punch"): "punch"}
# "screw the screw eye" stumbles.
SCREW_AGAIN = ("screw", "turn")

FITS = {
    "tight": "{it} should sit tight.",
    "running": "{it} should turn freely.",
    "sliding": "{it} should slide by hand.",
    "loose": "{it} should lie loose.",
}

WAITS = {"set": "set", "dry": "dry", "cured": "cure"}


# (singular, plural) of the verbs that agree with their subject.
AGREE = {
    "fills": ("fills", "fill"),
    "covers": ("covers", "cover"),
    "is_": ("is", "are"),
    "lies": ("lies", "lie"),
    "meets": ("meets", "meet"),
    "sticks": ("sticks", "stick"),
    "stands": ("stands", "stand"),
    "turns": ("turns", "turn"),
    "slides": ("slides", "slide"),
    "shows": ("shows", "show"),
    "it_is": ("it is", "they are"),
}

# `kitwright word`: what a writer's own sentence starts from, field by field.
SKELETONS = {
    "what": "the {%}",
    "into": "into the {%}",
    "over": "over the {%}",
    "onto": "on the {%}",
    "around": "round the {%}",
    "from": "from the {%}",
    "towards": "at the {%}",
    "through": "through the {%}",
    "with": "with the {%}",
    "makes": "to make the {%}",
    "along": "along the {%}",
    "edges": "along the {%}",
    "leaving_out": "leaving {%} standing out",
    "hold": "and hold it for {%}",
    "held_by": "held by the {%}",
    "from_turn": "from the {%} turn on",
    "angle": "{%}",
    "knot": "with a {%} knot",
    "depth": "{%}",
    "sticks_out": "sticks out at the {%}",
    "by": "by {%}",
    "turns_in": "turns in the {%}",
    "slides_out_of": "slides out of the {%}",
    "length": "is {%} long",
    "shows": "shows {%}",
    "until": "{%}",
    "for": "for {%}",
    "not": "but not the {%}",
    "place": "{place}",
    "tie.to": "to the {%}",
    "tape.to": "to the {%}",
    "seat.place": ", {place}",
    "glue.with": "{%}",
    "glue.what": "on the {%}",
    "glue.inside": "inside the {glue} {place}",
    "glue.outside": "round the {glue} {place}",
    "glue.top": "on the top of the {glue} {place}",
    "glue.under": "on the underside of the {glue} {place}",
    "glue.edge": "along the {%} of the {glue}",
    "glue.face": "on the {%} of the {glue}",
    "glue.fillet_to": "where the {glue} meets the {%}",
    "glue.for": ", for the {%}",
    "verify.what": "that the {%}",
    "verify.angle": "stands at {%}",
    "mark.from": "by the {%}",
    "mark.around": "round the {%}",
    "mark.across": "across the {%}",
    "remove.from": "from the {%}",
}
"""Field key, or kind and field, -> words round its reference; `%` stands for the field's name."""

# The kinds whose sentence does not begin with what is worked on, and the fields that tell it anyway.
SKELETON_FIRST = {"glue": "with"}
SKELETON_HOLDS_WHAT = {"glue": ("inside", "outside", "top", "under", "edge", "face", "fillet_to")}
