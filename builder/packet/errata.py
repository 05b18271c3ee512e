"""What is wrong with a printed packet by now: the pages to take out and to put in, and the slips that mend
some of them without a new page.

A slip is a step as it is now, cut to the size of the box where the step stood: laid over it, edges meet.
"""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from builder.packet.blocks import Block, Laid

ROUNDING = 0.3  # mm: two layouts of the same box differ by less


class Slip(msgspec.Struct, frozen=True):
    """A slip of paper: over which box it goes (of the older packet), and the step that it shows, which is
    None for a step that is gone. `mark` is that of the older page."""

    old: Block
    new: Block | None
    mark: str


class Errata(msgspec.Struct, frozen=True):
    """`out` are the pages of the older part that are wrong by now, `come` those of the newer part that are
    new; together they turn a printed part into the newer one. `slips` mend steps in place, and `mended` are
    the older pages that need nothing else: the others have to be printed again. `moved` are older pages that
    stay as they are, with the number that they have now."""

    out: tuple[int, ...]
    come: tuple[int, ...]
    slips: tuple[Slip, ...]
    mended: tuple[int, ...]
    moved: Mapping[int, int]

    @property
    def unmended(self) -> tuple[int, ...]:
        """The older pages that no slip mends."""
        return tuple(page for page in self.out if page not in self.mended)


def errata(old: Laid, new: Laid, names: Mapping[str, str]) -> Errata:
    """Compare two laid-out parts. `names` gives the newer anchor of a step whose id has changed."""
    here = dict.fromkeys(new.marks)
    there = set(old.marks)
    out = tuple(page for page, mark in enumerate(old.marks, 1) if mark not in here)
    come = tuple(page for page, mark in enumerate(new.marks, 1) if mark not in there)
    moved = {
        page: new.marks.index(mark) + 1
        for page, mark in enumerate(old.marks, 1)
        if mark in here and new.marks.index(mark) + 1 != page
    }
    everywhere = frozenset().union(*new.rest) if new.rest else frozenset()
    slips: list[Slip] = []
    mended: list[int] = []
    for page in out:
        own, whole = [], old.rest[page - 1] <= everywhere
        for block in old.on(page):
            after = new.block(names.get(block.step, block.step))
            if after is not None and after.shows == block.shows:
                continue
            if block.whole and (after is None or _fits(after, block)):
                own.append(Slip(block, after, old.marks[page - 1]))
            else:
                whole = False
        slips += own
        if whole and own and not _lacks_a_step(page, old, new, names):
            mended.append(page)
    return Errata(out, come, tuple(slips), tuple(mended), moved)


def _fits(new: Block, old: Block) -> bool:
    """Whether a step as it is now goes into the box where it stood."""
    wide = abs(new.box.width - old.box.width) <= ROUNDING
    return new.whole and wide and new.box.height <= old.box.height + ROUNDING


def _lacks_a_step(page: int, old: Laid, new: Laid, names: Mapping[str, str]) -> bool:
    """Whether a step that is new, or that came from elsewhere, stands now between two steps of this page or
    right before or behind them: no slip shows it."""
    before = [names.get(block.step, block.step) for block in old.blocks]
    after = [block.step for block in new.blocks]
    known = set(before)
    for block in old.on(page):
        step = names.get(block.step, block.step)
        if step not in after:
            continue
        at = after.index(step)
        if any(other not in known for other in after[max(0, at - 1) : at + 2]):
            return True
    return False
