"""Terms of a workbench, what each means to a builder, and the words that would be second names for the same
thing.

A guide's glossary takes its meanings from here. A word of `never` is a fault only in a guide that calls the
thing by its term: "mandrel" where the tool list says "former". The meanings are common usage, in our words.
"""

from __future__ import annotations

import msgspec

from builder.trade.words import plural


class Term(msgspec.Struct, frozen=True):
    """A term, in small letters and in the singular; `forms` are other shapes of the same word."""

    word: str
    means: str
    never: tuple[str, ...] = ()
    forms: tuple[str, ...] = ()
    sources: tuple[str, ...] = ("common_practice",)

    @property
    def shapes(self) -> tuple[str, ...]:
        """Every shape in which the term may stand in a text."""
        return (self.word, plural(self.word), *self.forms)


TERMS = (
    Term("adhesive", "Glue, cement or paste: what holds two surfaces together once it has set."),
    Term("anchor", "What holds the end of a cord fast in the work."),
    Term("axle", "The rod that a wheel turns on, or turns with."),
    Term("axle line", "The line along which an axle comes to lie."),
    Term("balsa", "A very light, soft wood."),
    Term("bead", "A thin round line of glue, as it comes out of the bottle."),
    Term("bearing", "What an axle turns in.", ("bushing",)),
    Term("blank", "A piece cut to its outer size, from which a part is still to be made."),
    Term("bore", "The round hole through a tube or a ring."),
    Term("canopy", "The sheet that opens in the air and slows the fall.", ("parachute", "chute")),
    Term("coat", "One layer of paint."),
    Term("cure", "To reach full strength, which takes glue and paint far longer than to set.",
         forms=("cures", "cured", "curing")),
    Term("datum", "The end or edge that all positions are measured from.", ("reference edge",)),
    Term("dowel", "A round wooden rod."),
    Term("draw tube", "The inner tube of a telescope, which slides to focus it."),
    Term("eyepiece", "The end of a telescope that the eye looks into, with its lens.", ("ocular",)),
    Term("fillet", "A bead of glue in the corner between two parts, smoothed so that it braces both."),
    Term("fin", "A thin blade at the rear that keeps a rocket straight."),
    Term("focal length", "How far behind a lens the light of a far thing comes to a point."),
    Term("former", "A round rod that a tube is rolled round.", ("mandrel",)),
    Term("fret", "To cut out along a curved line with a thin saw.", forms=("frets", "fretted")),
    Term("grain", "The direction of the fibres in wood, paper or card."),
    Term("hub", "The middle of a wheel, where the axle goes."),
    Term("jig", "A frame that holds parts in the right place while they are worked on or while glue sets."),
    Term("kerf", "The width that a saw turns to dust.", ("saw width",)),
    Term("launch lug", "The small tube on the outside of a rocket that slides on the launch rod.",
         ("launch tube", "rod guide")),
    Term("lens", "A piece of glass or plastic that bends light to a point."),
    Term("mast", "The upright rod that carries a sail.", ("sail pole",)),
    Term("motor", "What drives the model; in a rocket, the case of fuel that pushes it.", ("engine",)),
    Term("motor mount", "What holds the motor in the middle of the body.", ("engine mount",)),
    Term("nose cone", "The front end of a rocket, shaped to part the air.", ("nosecone", "nose piece")),
    Term("objective", "The lens at the front of a telescope.", ("object lens",)),
    Term("offcut", "What is left of the stock when a part has been cut from it.", ("scrap piece",)),
    Term("overlap", "The stretch where one edge lies over another."),
    Term("pattern", "An outline printed at true size, to cut or mark along."),
    Term("play", "How much wider a hole is than the thing in it."),
    Term("primer", "A first coat that helps the next one to hold."),
    Term("rib", "A thin piece set on edge that stiffens a flat part."),
    Term("root", "The edge of a fin that is glued to the body."),
    Term("sail", "The sheet that catches the wind."),
    Term("score", "To cut or press a line part of the way through, so that a fold comes out straight.",
         forms=("scores", "scored", "scoring")),
    Term("screw eye", "A screw whose head is a ring.", ("eye screw", "eyelet screw")),
    Term("seam", "The line where the last edge of a rolled tube is glued down."),
    Term("seat", "The place where a part sits on another."),
    Term("shock cord", "The elastic that keeps the parts of a rocket together as they come down.",
         ("bungee",)),
    Term("shoulder", "The narrower end of a part, which goes into a tube."),
    Term("shroud line", "One of the threads from the canopy to what hangs under it.",
         ("suspension line", "rigging line")),
    Term("span", "How far a fin or a wing reaches outwards."),
    Term("tack", "To begin to stick, so that a part stays by itself.", forms=("tacks", "tacked")),
    Term("taper", "To grow evenly narrower towards one end.", forms=("tapers", "tapered")),
    Term("template", "A shape to draw or cut round."),
    Term("thrust ring", "The ring inside a tube that the motor pushes against.",
         ("thrust block", "engine block")),
    Term("tip", "The outer or front end."),
    Term("wadding", "Soft paper that does not burn, packed between a motor and what it must not scorch."),
    Term("wheelbase", "The distance between the front axle and the back axle."),
    Term("working time", "How long a glue may lie open before the parts must meet.",
         ("open time", "pot life")),
)  # fmt: skip

_BY_WORD = {term.word: term for term in TERMS}


def term(word: str) -> Term | None:
    """The term with this word, or None."""
    return _BY_WORD.get(word)
