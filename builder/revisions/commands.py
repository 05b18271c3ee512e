"""The commands of revisions: carry-over, and what compare and seal do."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, NoReturn

import click

from builder.revisions.change import Field, Kind, Rank

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from builder.revisions.change import Change
    from builder.revisions.edition import Edition
    from builder.revisions.seal import Pages

    Printer = Callable[[Sequence[Change], Edition, Edition], str]


def stop(message: str) -> NoReturn:
    """The tool cannot run: say why, exit with status 2."""
    click.echo(f"kitwright: {message}", err=True)
    sys.exit(2)


def run_compare(old: str | None, new: str | None, reference: str | None, ranks: tuple[str, ...],
                kinds: tuple[str, ...], fields: tuple[str, ...], printer: Printer) -> str:  # fmt: skip
    """What the command `compare` prints. `printer` makes a text of each pair of editions."""
    from builder.revisions.change import only
    from builder.revisions.compare import compare as find

    told = []
    for before, after in _pairs(old, new, reference):
        changes = only(find(before, after), map(Rank, ranks), map(Kind, kinds), map(Field, fields))
        told.append(printer(changes, before, after))
    return "\n\n".join(text.rstrip("\n") for text in told)


def run_seal(guide: str, only_try: bool, pages: Pages | None) -> None:
    """What the command `seal` does. `pages` lists the printed pages, to be kept with the revision."""
    from builder.findings import Sources, as_text
    from builder.revisions.locate import Unknown, folder_of
    from builder.revisions.seal import prepare, told
    from builder.revisions.seal import seal as write

    try:
        folder = folder_of(guide)
        sealing = prepare(folder, pages if not only_try else None)
    except (Unknown, OSError) as reason:
        stop(str(reason))
    title = sealing.edition.guide.title or folder.as_posix()
    if sealing.findings:
        click.echo(as_text(sealing.findings, Sources(sealing.edition.guide.texts)))
    for change in sealing.unsigned:
        click.echo(f"{change.line}")
    for each in sealing.void if sealing.unsigned else ():
        click.echo(f"void: {each.name}, {each.role}, signed another content ({each.content})")
    if sealing.unsigned:
        what = "them" if len(sealing.unsigned) > 1 else "it"
        click.echo(f"To answer for {what}, write in {(folder / 'guide.yml').as_posix()}:")
        click.echo(f"signed:\n  - {{name: ..., role: ..., reason: ..., content: {sealing.sign}}}")
    if sealing.refused:
        for refusal in sealing.refusals:
            click.echo(f"{title}: revision {sealing.number} is not sealed: {refusal}")
        sys.exit(1)
    if only_try:
        click.echo(f"{title}: revision {sealing.number} could be sealed ({told(sealing)})")
        return
    try:
        place = write(folder, sealing)
    except OSError as reason:
        stop(f"the revision could not be written, and nothing has changed: {reason.strerror or reason}")
    click.echo(f"{title}: revision {sealing.number} is sealed ({told(sealing)}) in {place.as_posix()}")


@click.command("carry-over")
@click.argument("guide")
@click.option(
    "--from", "older", required=True, metavar="N", help="The sealed revision that the kit was begun by."
)
@click.option("--step", required=True, help="The last step that is done: its printed number, or its id.")
@click.option(
    "--to", "newer", metavar="N", help="The revision to finish it by; by default the working guide."
)
@click.option("--route", multiple=True, help="The option of a choice by which it is built, by its id.")
def carry_over(guide: str, older: str, step: str, newer: str | None, route: tuple[str, ...]) -> None:
    """Say what to do with a half-made kit of GUIDE, to finish it by a newer revision.

    Exit status: 0 it can be carried over, 1 it must be begun again, 2 the tool could not run.
    """
    from builder.revisions.carry_over import Unclear
    from builder.revisions.carry_over import carry_over as carry
    from builder.revisions.carry_words import as_text
    from builder.revisions.compare import compare as find
    from builder.revisions.locate import Unknown
    from builder.revisions.opening import open_edition

    try:
        before = open_edition(f"{guide}@{older}")
        after = open_edition(f"{guide}@{newer}" if newer else guide)
        options = _options(before, route)
        id = _step(before, step, options)
        plan = carry(before, after, id, options)
    except (Unknown, Unclear) as reason:
        stop(str(reason))
    stands = all(change.field is not Field.STOP for change in find(before, after))
    click.echo(as_text(plan, before, after, id, stands=stands))
    sys.exit(int(plan.begin_again))


def _options(edition: Edition, names: tuple[str, ...]) -> dict[str, str]:
    """Choice -> option, from the ids of options."""
    found = {}
    for name in names:
        choice = next((c.id for c in edition.guide.choices.values() if name in c.options), None)
        if choice is None:
            stop(f"{edition.label} has no option {name}")
        found[choice] = name
    return found


def _step(edition: Edition, step: str, options: dict[str, str]) -> str:
    """The id of a step by its number or id; a number counts on the route that was named."""
    if step in edition.steps:
        return step
    for route in edition.guide.routes:
        if any(route.options.get(choice, option) != option for choice, option in options.items()):
            continue
        number = 0
        for each in route.steps:
            number += not each.stage.per_class
            if not each.stage.per_class and str(number) == step:
                return each.id
    stop(f"{edition.label} has no step {step}")


def _pairs(old: str | None, new: str | None, reference: str | None) -> list[tuple[Edition, Edition]]:
    """What is to be compared with what."""
    from builder.revisions.locate import Unknown
    from builder.revisions.opening import open_edition

    try:
        if reference is None:
            if old is None or new is None:
                stop("name two revisions, as in: kitwright compare guides/cart@2 guides/cart (or use --git)")
            return [(open_edition(old), open_edition(new))]
        from builder.revisions.git import against

        return against(reference, [name for name in (old, new) if name])
    except Unknown as reason:
        stop(str(reason))
