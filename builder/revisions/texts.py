"""Values of a guide as text, the same however they were typed and wherever they stand."""

from __future__ import annotations

from fractions import Fraction

from builder.guide.model import Angle, Note, Prose, Ref, Share, SizeValue, Spot, Value

LINES = "\n"  # between the lines of a fact that is a list


def text_of(value: object) -> str:
    """The value of a field as text, the same however it was typed."""
    if value is True:
        return "yes"
    if isinstance(value, Ref):
        return ref_text(value)
    if isinstance(value, Spot):
        return spot_text(value)
    if isinstance(value, Value | SizeValue):
        return " ".join(value.text.split())
    if isinstance(value, Angle):
        if value.value is not None:
            return value.value.text
        return f"evenly for {value.of}" if value.of else "evenly" if value.evenly else ""
    if isinstance(value, Prose):
        return prose_text(value)
    if isinstance(value, tuple):
        inner = ", ".join(text for each in value if (text := text_of(each)))
        return inner or "nothing"
    return value if isinstance(value, str) else ""


def ref_text(ref: Ref) -> str:
    """`fin`, `nose.shoulder`, `wheel 1 and 3`."""
    copies = f" {' and '.join(str(copy) for copy in ref.copies)}" if ref.copies else ""
    return ref.text + copies


def refs_text(refs: tuple[Ref, ...]) -> str:
    return ", ".join(ref_text(ref) for ref in refs)


def spot_text(spot: Spot) -> str:
    """A place in the place grammar, with what the parameters of a shared step stand for."""
    name = spot.names[0] if spot.names else ""
    lengths = [" ".join(value.text.split()) for value in spot.lengths]
    if spot.kind in ("start", "end", "middle"):
        return f"{spot.kind} of {name}"
    if spot.kind == "flush":
        return f"flush with {name}"
    if spot.kind == "meets":
        return f"meets {name}"
    if spot.kind == "will sit":
        return f"where {name} will sit"
    if spot.kind == "from":
        return f"{lengths[0]} from {name}"
    if spot.kind == "stretch":
        return f"{lengths[0]} to {lengths[1]} from {name}"
    if spot.kind == "two":
        return f"{lengths[0]} from {name} and {lengths[1]} from {spot.names[1]}"
    return name or spot.text


def prose_text(prose: Prose) -> str:
    """A text with what its references stand for."""
    pieces = (piece if isinstance(piece, str) else f"{{{piece[0]}}}" for piece in prose.pieces)
    return " ".join("".join(pieces).split())


def notes_text(notes: tuple[Note, ...]) -> str:
    return LINES.join(f"{note.kind}: {prose_text(note.text)}" for note in notes)


def share_text(share: Share) -> str:
    if share.builders == 0:
        return "class"
    return "builder" if share.builders == 1 else f"{share.builders} builders"


def window_text(window: object) -> str:
    allowed = getattr(window, "allowed", ())
    return "; ".join(f"{exact_text(low)} to {exact_text(high)} s" for low, high in allowed)


def exact_text(number: Fraction | None) -> str:
    return "" if number is None else str(number)
