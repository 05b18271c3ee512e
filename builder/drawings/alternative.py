"""The text alternative of a drawing, from the same scene: what is there, what is new, where, how long."""

from __future__ import annotations

from builder.drawings.pencil import WRITTEN
from builder.drawings.scene import BENEATH, UPRIGHT, Placed, Scene
from builder.drawings.solids import Turned
from builder.drawings.vectors import dot

VIEWS = {
    "half section": "Half section: the upper half is cut open, the lower half shows the outside.",
    "side": "Side view.",
    "rear end": "View of the {0} end.",
    "front end": "View of the {1} end.",
    "plan": "Plan: seen from above.",
    "axonometric": "View at an angle from above.",
    "developed": "The outside unrolled flat.",
    "flat lay": "The pieces laid out on what they are cut from.",
}


def listed(names: list[str]) -> str:
    """Words in a row: a, b and c."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"


def counted(parts: list[Placed]) -> list[str]:
    """Names with their number where several copies share one: "4 x fin"."""
    return counted_names([p.name for p in parts])


def counted_names(names: list[str]) -> list[str]:
    """The same for bare names."""
    tally: dict[str, int] = {}
    for name in names:
        tally[name] = tally.get(name, 0) + 1
    return [name if n == 1 else f"{n} x {name}" for name, n in tally.items()]


def _middle(p: Placed) -> float:
    if isinstance(p.solid, Turned):
        return dot(p.pose.world(((p.solid.start + p.solid.end) / 2, 0.0, 0.0)), (1.0, 0.0, 0.0))
    return p.pose.origin[0]


def _places(new: list[Placed]) -> list[str]:
    """Where each new part sits; copies that differ by their angle alone are told in one sentence."""
    found: dict[tuple[str, str, str], list[str]] = {}
    for p in new:
        before, at, after = p.sits.partition(" at ")
        number, sign, rest = after.partition("°")
        angle, rest = (number + sign, rest) if sign else ("", at + after)
        if p.sits:
            angles = found.setdefault((p.name, before, rest), [])
            if angle and angle not in angles:
                angles.append(angle)
    return [
        f"{name[:1].upper()}{name[1:]}: {before}{' at ' if angles else ''}{listed(angles)}{rest}."
        for (name, before, rest), angles in found.items()
    ]


ON = "to "
"""What the name of an end begins with where the picture breaks off before it."""


def sides_told(ends: tuple[str, str]) -> list[str]:
    """Which end is on which side, and on which side the picture breaks off."""
    if not any(name.startswith(ON) for name in ends):
        return [f"The {ends[0]} end is on the left, the {ends[1]} end on the right."]
    sides = tuple(zip(ends, ("left", "right"), strict=True))
    whole = [f"the {name} end is on the {side}" for name, side in sides if not name.startswith(ON)]
    broken = [
        f"on the {side} it goes on to the {name.removeprefix(ON)} end, beyond a break line"
        for name, side in sides
        if name.startswith(ON)
    ]
    told = ", ".join([*whole, *broken])
    return [f"{told[:1].upper()}{told[1:]}."] if told else []


def alternative(scene: Scene, view: str, unseen: tuple[str, ...] = ()) -> str:
    """Sentences that say what the drawing shows.  Parts are named in order along the host."""
    names = [(e or "").removeprefix(ON) for e in scene.ends]
    said = [VIEWS[view].format(*(n or "near" for n in names))]
    old = [p for p in scene.parts if not p.new and p.id not in unseen]
    new = [p for p in scene.parts if p.new and p.id not in unseen]
    if view == "plan" and any(scene.edges):
        left, right, below, above = scene.edges
        said[0] = f"Plan: the {scene.face} of the {scene.parts[0].name} is up."
        said.append(
            f"Its {left} edge is on the left, its {right} edge on the right, "
            f"its {above} edge above and its {below} edge below."
        )
    elif view == "plan" and scene.face not in UPRIGHT:
        said[0] = f"Plan: the {scene.face} of the {scene.parts[0].name} is up."
    if scene.ends != ("", "") and view in {"half section", "side", "developed"}:
        said += sides_told(scene.ends)
    if old:
        said.append(f"Already there: {listed(counted(sorted(old, key=_middle)))}.")
    if new:
        said.append(f"New in this step: {listed(counted(sorted(new, key=_middle)))}.")
    said += _places(new)
    marks = [m.name for m in scene.marks if m.new]
    done = (
        ("Drawn", ("",)),
        ("Written", (WRITTEN,)),
        ("Worked on or made", ("new", "worked", "through")),
    )
    for start, lines in done:
        own = [m.name for m in scene.marks if m.new and m.line in lines]
        if own:
            said.append(f"{start} in this step: {listed(list(dict.fromkeys(own)))}.")
    earlier = [m.name for m in scene.marks if m.label and not m.new and m.name not in marks]
    if earlier:
        said.append(f"Lines to go by: {listed(list(dict.fromkeys(earlier)))}.")
    for band in scene.bands:
        host = scene.part(band.part).name
        where = {"edge": "on the edge of", "inside": "inside", "outside": "on the outside of"}.get(
            band.face, f"on the {band.face} of" if band.face != "under" else "on the under face of"
        )
        if band.name.endswith(BENEATH):
            where = f"what lies {where}"
        sentence = f"{band.name[:1].upper()}{band.name[1:]} {where} the {host}."
        if sentence not in said:
            said.append(sentence)
    if scene.dims:
        said.append(f"Dimensions shown: {listed([d.text for d in scene.dims])}.")
    for way in scene.ways if view in {"half section", "side", "round"} else ():
        end, _, heading = way.partition(" ")
        at = names[0] if end == "start" else names[1]
        if at:
            said.append(f"An arrow shows that it goes {heading} at the {at} end.")
    if scene.doing:
        said.append(scene.doing)
    hidden = [p for p in scene.parts if p.id in unseen]
    if hidden:
        said.append(f"Not to be seen in this picture: {listed(counted(hidden))}.")
    return " ".join(said)
