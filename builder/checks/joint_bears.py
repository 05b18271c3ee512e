"""A joint is asked to bear more than it can yet.

What: A joint is steady before it is moved, set before work, cured before load or paint.

Why: The joint shifts or opens, sometimes without being seen until it is loaded.

Bad:
    - {glue: eye, edge: shank, with: pva, for: nose}
    - {screw: eye, into: nose, at: hole}
    - {tie: cord, to: eye, knot: overhand}

Good:
    - {glue: eye, edge: shank, with: pva, for: nose}
    - {screw: eye, into: nose, at: hole}
    - {wait for: eye, until: cured}
    - {tie: cord, to: eye, knot: overhand}
"""

from __future__ import annotations

from msgspec.structs import replace

from builder.checks.base import Check, Look, see
from builder.dryrun import needs as n
from builder.dryrun.run import Frame
from builder.findings import Finding, Severity


def find(need: n.Bears, frame: Frame, look: Look) -> Finding | None:
    """A joint is steady before it is moved, set before work, cured before load or paint."""
    if need.met:
        return None
    joint = need.joint
    a, b = look.name(joint.a), look.name(joint.b)
    between = f"the seam of the {a}" if joint.a == joint.b else f"the joint of the {a} and the {b}"
    if need.level == "steady":
        what, check = f"{need.doing} moves {between}, which only leans: it is neither held nor set", STEADY
    elif need.demand == "coat":
        what, check = f"{need.doing} covers {between}, which is not yet cured", COAT
    elif need.level == "cured":
        what, check = f"{need.doing} loads {between}, which is not yet cured", CHECK
    else:
        what, check = f"{need.doing} works on {between}, which has not set", SET
    missing = f"; {look.time(need.missing)} are missing" if need.missing else ""
    facts = {joint.fact}
    finding = check.finding(
        need.at,
        what + missing,
        also=see(joint.cause.at, "the joint was closed here"),
        suspects=facts,
        # what was to hold it may be what could not be read in its action
        rests_on=facts | {f"steady:{joint.a}", f"steady:{joint.b}"} if need.level == "steady" else facts,
    )
    if not joint.cause.supposed:
        return finding
    # Nothing holds the two, and with what they would be held is a guess: it follows from that.
    return replace(finding, safety=False, rests_on=finding.rests_on | {f"held:{joint.a}", f"seat:{joint.a}"})


CHECK = Check(
    "joint-bears", Severity.ERROR, "need",
    why="The joint shifts or opens, sometimes without being seen until it is loaded.",
    mend="Add a `wait for` before this step, hold the part until it tacks, or do this later.",
    find=find, need=n.Bears, safety=True, source="common practice",
)  # fmt: skip

SET = Check(
    "joint-set", Severity.ERROR, "need",
    why="A joint that has not set shifts under the hand, and nobody sees it.",
    mend="Add a `wait for ..., until: set` before this step, or say with `gently` why it pushes nothing.",
    find=find, need=n.Bears, safety=True,
)  # fmt: skip

STEADY = Check(
    "joint-steady", Severity.ERROR, "need",
    why="What only leans falls over when the work is turned or touched.",
    mend="Hold it until it tacks (`hold: 3 min`), put it in a jig, or wait until it has set.",
    find=find, need=n.Bears, safety=True,
)  # fmt: skip

COAT = Check(
    "coat-cured", Severity.ERROR, "need",
    why="Paint seals the joint, so that the glue beneath never dries through, and its solvent softens it.",
    mend="Wait until the joints are cured: `wait for: body, until: cured`.",
    find=find, need=n.Bears, safety=True,
)  # fmt: skip
