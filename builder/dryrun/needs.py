"""What an action needs of the bench, as records. Each holds the facts that decide it and says by `met`
whether they do; judging what an unmet need means is the checks' work.

A need whose facts are unknown, or rest on a supposed fact, is met: that fault has its own finding.
"""

from __future__ import annotations

from fractions import Fraction

import msgspec

from builder.dryrun.bench import Joint, Wet
from builder.findings import Place


class Need(msgspec.Struct, frozen=True, kw_only=True):
    """`at` is the place of the written item concerned; `reads` are the written numbers behind it."""

    at: Place
    met: bool = True
    reads: frozenset[str] = frozenset()


class Exists(Need, frozen=True, kw_only=True):
    """The item is there. `state`: here, missing, optional (only an optional step makes it), copy (there
    are not so many copies)."""

    item: str
    thing: str
    state: str = "here"


class Free(Need, frozen=True, kw_only=True):
    """The child is not yet placed (a part-way seat may be pushed on)."""

    child: str
    host: str
    seated_on: str = ""
    since: Place | None = None


class Station(Need, frozen=True, kw_only=True):
    """The place lies on the host: from `lo` to `hi` within 0 to `length` mm."""

    what: str
    host: str
    lo: Fraction
    hi: Fraction
    length: Fraction


class Apart(Need, frozen=True, kw_only=True):
    """Nothing else is where the child goes. `other` is what is, `room` what length is free for it."""

    child: str
    host: str
    other: str = ""
    other_at: Place | None = None
    inside: bool = False
    room: Fraction | None = None
    asked: Fraction | None = None


class Way(Need, frozen=True, kw_only=True):
    """The way is open. `blocker` stands in it; `swept` is wet glue on it that is meant for another."""

    child: str
    host: str
    end: str
    blocker: str = ""
    blocker_at: Place | None = None
    swept: Wet | None = None


class Fits(Need, frozen=True, kw_only=True):
    """The play between two surfaces (mm, diametral; negative: too thick) lies within low..high."""

    inner: str
    outer: str
    play: Fraction
    low: Fraction
    high: Fraction
    kind: str  # "glue", or the stated fit
    inner_mm: Fraction
    outer_mm: Fraction


class Fills(Need, frozen=True, kw_only=True):
    """What is placed at a zone fills it: the two lengths agree."""

    child: str
    host: str
    zone: str
    zone_mm: Fraction
    child_mm: Fraction


class Held(Need, frozen=True, kw_only=True):
    """The placing is held by glue laid for it, or by a stated fit. `other` is wet glue of the same step
    that would serve but is meant for another part."""

    child: str
    host: str
    other: Wet | None = None


class Bare(Need, frozen=True, kw_only=True):
    """The surface can be reached: `state` is open, covered (by `other`), inside (of `other`), blocked (the
    way to it, by `other`), or far."""

    host: str
    what: str  # "glue", "mark", "paint"
    state: str = "open"
    other: str = ""
    other_at: Place | None = None
    depth: Fraction | None = None
    reach: Fraction | None = None


class NotYet(Need, frozen=True, kw_only=True):
    """The part that the glue is for is not yet in place."""

    target: str
    host: str
    items: tuple[str, ...] = ()
    since: Place | None = None


class Covered(Need, frozen=True, kw_only=True):
    """The joint covers the glue that was laid for it."""

    wet: Wet
    child: str
    host: str
    lo: Fraction | None = None
    hi: Fraction | None = None


class Open(Need, frozen=True, kw_only=True):
    """The glue is met within its working time: `age` seconds at most `limit`."""

    wet: Wet
    age: Fraction
    limit: Fraction


class Bears(Need, frozen=True, kw_only=True):
    """A joint bears what is asked of it. `demand`: carry, work, load, coat. `ready` is when it will, in
    seconds of the clock; `level` what it lacks: steady, set, cured."""

    demand: str
    joint: Joint
    doing: str
    level: str = ""
    missing: Fraction | None = None


class Marked(Need, frozen=True, kw_only=True):
    """A mark is there and can be seen. `state`: drawn, missing, covered (by `other`)."""

    mark: str
    host: str
    state: str = "drawn"
    other: str = ""
    other_at: Place | None = None


class InPlace(Need, frozen=True, kw_only=True):
    """A jig, a guide or a former is where it has to be."""

    tool: str
    host: str
    what: str  # "held by", "taken from", "around"


class Stock(Need, frozen=True, kw_only=True):
    """The stock left is large enough. Sizes in mm; `across` None for cords and rods; `wide` is the width of a
    strip that the piece is too wide for."""

    material: str
    thing: str
    count: int
    along: Fraction
    across: Fraction | None
    wide: Fraction | None = None
    left: tuple[tuple[Fraction, Fraction | None], ...] = ()


class Grain(Need, frozen=True, kw_only=True):
    """The grain of what is cut runs as the thing says. `unsaid`: nobody knows how it runs on the stock.
    `left`: only what is stated as left asks for a cut across it; else there is no room to lay it along the
    grain of the stock."""

    material: str
    thing: str
    count: int
    unsaid: bool = False
    left: bool = False


class Leaves(Need, frozen=True, kw_only=True):
    """The stated remainder is what remains."""

    material: str
    thing: str
    stated: tuple[tuple[Fraction, Fraction | None], ...]
    found: tuple[tuple[Fraction, Fraction | None], ...]


class Out(Need, frozen=True, kw_only=True):
    """Nothing that must come out is still in while glue sets."""

    tool: str
    host: str
    since: Place | None = None


class Before(Need, frozen=True, kw_only=True):
    """It comes out before the glue has set: `age` seconds at most `limit`."""

    tool: str
    host: str
    age: Fraction
    limit: Fraction


class Steadied(Need, frozen=True, kw_only=True):
    """What a jig held is set when the jig is taken off."""

    tool: str
    joint: Joint
    missing: Fraction | None = None


class Masked(Need, frozen=True, kw_only=True):
    """What must stay bare is covered while paint flies."""

    item: str
    end: str = ""


class Recoat(Need, frozen=True, kw_only=True):
    """The next coat goes on when the label allows it."""

    item: str
    paint: str
    since: Fraction
    state: str = ""  # "early" or "late"
    dry: Fraction | None = None


class Dries(Need, frozen=True, kw_only=True):
    """Something there dries while one waits."""

    what: str


class Measures(Need, frozen=True, kw_only=True):
    """What is measured is what was built. Base units; `found` None when it cannot be worked out."""

    item: str
    what: str
    stated: Fraction
    found: Fraction
    tolerance: Fraction


class Attachable(Need, frozen=True, kw_only=True):
    """There is a hole, an eye or a corner to fasten to."""

    item: str
    what: str


class Former(Need, frozen=True, kw_only=True):
    """A sheet is rolled round the former that the tube's bore was worked out from."""

    tube: str
    former: str
    former_mm: Fraction
    bore_mm: Fraction


class Fresh(Need, frozen=True, kw_only=True):
    """What is made is not there already."""

    item: str
    since: Place | None = None


class There(Need, frozen=True, kw_only=True):
    """What is to come off sits there."""

    child: str
    host: str
    seated_on: str = ""


class Unglued(Need, frozen=True, kw_only=True):
    """What is to come off is not glued on."""

    child: str
    host: str
    joint: Joint
