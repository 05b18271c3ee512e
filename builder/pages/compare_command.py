"""`kitwright compare`: what changed between two revisions, as text, Markdown, JSON or a page."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from builder.revisions.change import Change, Field, Kind, Rank

if TYPE_CHECKING:
    from builder.revisions.edition import Edition


FORMS = ("text", "markdown", "json", "html")


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
@click.option("--format", "form", type=click.Choice(FORMS), default=None,
              help="How it is told; with --git Markdown, else text. `html` has the drawings.")  # fmt: skip
@click.option("-o", "--output", type=click.Path(dir_okay=False, path_type=Path),
              help="The file to write to; by default it is printed.")  # fmt: skip
def compare(old: str | None, new: str | None, reference: str | None, ranks: tuple[str, ...],
            kinds: tuple[str, ...], fields: tuple[str, ...], form: str | None,
            output: Path | None) -> None:  # fmt: skip
    """Say what changed between two revisions of a guide, what matters for safety first.

    OLD and NEW are folders with a guide.yml, or sealed revisions (guides/cart@2). With --git, the older
    one is the guide as it was there; without a name, all guides are compared. As `html` it is one file with
    the drawings before and after, which opens without a network. Exit status: 0, or 2 if the tool could not
    run.
    """
    from builder.revisions.commands import run_compare, stop
    from builder.revisions.printers import as_json, as_markdown, as_text

    form = form or ("markdown" if reference else "text")
    found: list[str] = []

    def printed(changes: Sequence[Change], before: Edition, after: Edition) -> str:
        if form == "html":
            from builder.pages.comparing import as_page

            found.append(after.guide.title)
            return as_page(changes, before, after)
        printer = {"text": as_text, "markdown": as_markdown, "json": as_json}[form]
        return printer(changes, after.guide.title, before.label, after.label)

    text = run_compare(old, new, reference, ranks, kinds, fields, printed)
    if len(found) > 1:
        stop(f"a page shows one guide, and there are {len(found)}: name one")
    if output is None:
        click.echo(text)
        return
    try:
        _write(output, text + "\n")
    except OSError as reason:
        stop(f"{output.as_posix()} could not be written: {reason.strerror or reason}")
    click.echo(output.as_posix())


def _write(path: Path, text: str) -> None:
    """Write a file whole or not at all."""
    part = path.with_name(f".{path.name}.part")
    try:
        part.write_text(text, encoding="utf-8", newline="\n")
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
