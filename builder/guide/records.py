"""What a guide says of its own making: its revision, the findings that it accepts, who answers for it."""

from __future__ import annotations

import msgspec

from builder.findings import Place


class Revision(msgspec.Struct, frozen=True):
    """Number, date, author and summary of a revision."""

    number: str
    dated: str
    by: str
    summary: str
    at: Place


class Acceptance(msgspec.Struct, frozen=True):
    """A finding that a writer lets stay: the check, the place by name, the reason.

    `facts` is the sign of what the finding said when it was accepted; empty if it was not written yet.
    """

    check: str
    spot: str
    why: str
    facts: str
    at: Place


class Signature(msgspec.Struct, frozen=True):
    """Someone answers for a revision that guards less than the one before. `content` is the sign of what was
    signed; with another content the signature is void."""

    name: str
    role: str
    reason: str
    content: str
    at: Place
