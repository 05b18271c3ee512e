"""The table of kinds of action, one file each, in the order of a build."""

from __future__ import annotations

from collections.abc import Callable

import msgspec

from builder.dryrun.kinds import (
    attach,
    cut,
    do,
    drill,
    fold,
    glue,
    mark,
    paint,
    remove,
    roll,
    sand,
    screw,
    seat,
    tape,
    tie,
    verify,
    wait,
)
from builder.dryrun.work import Work
from builder.guide.fields import Field
from builder.guide.model import Verb


class Kind(msgspec.Struct, frozen=True):
    """A kind of action: its name, its fields, the verbs that mean it, and what it does at the bench."""

    name: str
    fields: tuple[Field, ...]
    verbs: tuple[Verb, ...]
    run: Callable[[Work], None]


KINDS = (
    Kind("cut", cut.FIELDS, cut.VERBS, cut.run),
    Kind("fold", fold.FIELDS, fold.VERBS, fold.run),
    Kind("drill", drill.FIELDS, drill.VERBS, drill.run),
    Kind("sand", sand.FIELDS, sand.VERBS, sand.run),
    Kind("roll", roll.FIELDS, roll.VERBS, roll.run),
    Kind("mark", mark.FIELDS, mark.VERBS, mark.run),
    Kind("glue", glue.FIELDS, glue.VERBS, glue.run),
    Kind("seat", seat.FIELDS, seat.VERBS, seat.run),
    Kind("attach", attach.FIELDS, attach.VERBS, attach.run),
    Kind("screw", screw.FIELDS, screw.VERBS, screw.run),
    Kind("tie", tie.FIELDS, tie.VERBS, tie.run),
    Kind("tape", tape.FIELDS, tape.VERBS, tape.run),
    Kind("paint", paint.FIELDS, paint.VERBS, paint.run),
    Kind("remove", remove.FIELDS, remove.VERBS, remove.run),
    Kind("wait", wait.FIELDS, wait.VERBS, wait.run),
    Kind("verify", verify.FIELDS, verify.VERBS, verify.run),
    Kind("do", do.FIELDS, do.VERBS, do.run),
)

BY_NAME = {kind.name: kind for kind in KINDS}


def verbs_of(kinds: tuple[Kind, ...] = KINDS) -> dict[str, tuple[Verb, tuple[Field, ...]]]:
    """Verb -> (verb, fields), for the reader."""
    return {verb.word: (verb, kind.fields) for kind in kinds for verb in kind.verbs}


VERBS = verbs_of()
