"""The commands of revisions: seal, compare."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, NoReturn

import click

from builder.revisions.change import Field, Kind, Rank

if TYPE_CHECKING:
    from builder.revisions.edition import Edition


def stop(message: str) -> NoReturn:
    """The tool cannot run: say why, exit with status 2."""
    click.echo(f"kitwright: {message}", err=True)
    sys.exit(2)


@click.command()
@click.argument("old", required=False)
@click.argument("new", required=False)
@click.option(
    "--git", "reference", metavar="REF", help="Compare with a git reference: a branch, a tag, a commit."
)
@click.option("--only", "ranks", multiple=True, type=click.Choice([rank.value for rank in Rank]),
              help="Only changes that matter for this; may be given again.")  # fmt: skip
@click.option("--kind", "kinds", multiple=True, type=click.Choice([kind.value for kind in Kind]),
              help="Only changes of this kind; may be given again.")  # fmt: skip
@click.option("--under-way", "fields", multiple=True, type=click.Choice([field.value for field in Field]),
              help="Only changes that ask this of a class under way; may be given again.")  # fmt: skip
@click.option("--format", "form", type=click.Choice(["text", "markdown", "json"]), default=None,
              help="How it is told; with --git Markdown, else text.")  # fmt: skip
def compare(old: str | None, new: str | None, reference: str | None, ranks: tuple[str, ...],
            kinds: tuple[str, ...], fields: tuple[str, ...], form: str | None) -> None:  # fmt: skip
    """Say what changed between two revisions of a guide, what matters for safety first.

    OLD and NEW are folders with a guide.yml, or sealed revisions (guides/cart@2). With --git, the older
    one is the guide as it was there; without a name, all guides are compared. Exit status: 0, or 2 if
    the tool could not run.
    """
    from builder.revisions.change import only
    from builder.revisions.compare import compare as find
    from builder.revisions.printers import as_json, as_markdown, as_text

    printer = {"text": as_text, "markdown": as_markdown, "json": as_json}[
        form or ("markdown" if reference else "text")
    ]
    told = []
    for before, after in _pairs(old, new, reference):
        changes = only(find(before, after), map(Rank, ranks), map(Kind, kinds), map(Field, fields))
        told.append(printer(changes, after.guide.title, before.label, after.label))
    click.echo("\n\n".join(text.rstrip("\n") for text in told))


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
