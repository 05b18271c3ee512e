"""wait for: time passes until something is set, dry or cured."""

from __future__ import annotations

from fractions import Fraction

from builder.dryrun import needs as n
from builder.dryrun.effects import Lift
from builder.dryrun.labels import label_times
from builder.dryrun.work import Work, later
from builder.guide.fields import Field, Holds
from builder.guide.model import Verb
from builder.quantities.units import Dimension

T = Dimension.TIME

FIELDS = (
    Field("wait for", Holds.THINGS, "What dries.", "body", sort="part|tool", required=True, told=True),
    Field(
        "until",
        Holds.WORD,
        "Set, dry or cured, by the label.",
        "set",
        words=("set", "dry", "cured"),
        told=True,
    ),
    Field("for", Holds.NUMBER, "Minutes, for what no clock knows.", "20 min", T, told=True),
    Field(
        "if missed", Holds.PROSE, "What to do if the wait was too long.", "No harm. It may stand for days."
    ),
)

VERBS = (
    Verb(
        "wait for",
        "wait",
        "let {what} {until} {for}",
        ("wait", "let", "leave"),
        "carry",
        "Time passes. The minutes come from the label.",
    ),
)


def run(work: Work) -> None:
    """Time passes: as long as the label says, or as long as is stated. No hands are busy."""
    action = work.action
    items = work.field_items("what")
    below = list(dict.fromkeys(x for item in items for x in work.bench.below(item)))
    stated = action.value("for")
    until = action.word("until")
    seconds = stated.base if stated is not None and stated.base is not None else Fraction(0)
    dries = stated is not None
    if until:
        needed, dries_by_label = _needed(work, below, until)
        seconds = max(seconds, needed if dries_by_label else _meant(work, below, until))
        dries = dries or dries_by_label
    work.need(n.Dries(at=action.at, met=dries, what=action.refs("what")[0].id if action.refs("what") else ""))
    for item in below:
        for seat in list(work.bench.children(item)):
            if seat.fit == "former":
                work.need(n.Out(at=action.at, met=False, tool=seat.child, host=item, since=seat.cause.at))
                work.suppose(Lift(seat.child, work.cause(supposed=True)))
    work.active = Fraction(0)
    work.seconds = seconds


def _meant(work: Work, items: list[str], until: str) -> Fraction:
    """Seconds that were probably meant where nothing dries: the glue that is laid for what is waited for has
    not been met (a finding of its own), and the wait for it is waited all the same."""
    if until not in ("set", "cured"):
        return Fraction(0)
    times = (
        label_times(work.guide.things[wet.adhesive])[0 if until == "set" else 1]
        for wet in work.bench.wets
        if wet.host in items or not wet.meets.isdisjoint(items)
    )
    return max((each for each in times if each is not None), default=Fraction(0))


def _needed(work: Work, items: list[str], until: str) -> tuple[Fraction, bool]:
    """(seconds until everything there is as asked, whether anything there dries)."""
    ready = work.start
    dries = False
    if until in ("set", "cured"):
        for joint in work.bench.joints_of(items):
            if not joint.adhesive:
                continue
            moment = joint.set_at if until == "set" else joint.cured_at
            dries = dries or moment is None or later(moment, work.start)
            if moment is not None and later(moment, ready):
                ready = moment
    longest = ready - work.start
    for coat in work.bench.coats:
        if coat.item not in items:
            continue
        label = work.guide.things.get(coat.paint)
        needed = label.mm("full_cure" if until == "cured" else "dry") if label is not None else None
        if needed is not None:
            missing = max(Fraction(0), needed - (work.start - coat.at))
            dries = dries or missing > 0
            longest = max(longest, missing)
    return longest, dries
