"""The commands of revisions that print: seal (which keeps the marks of the pages), errata, page."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

if TYPE_CHECKING:
    from builder.revisions.edition import Edition


def stop(message: str) -> NoReturn:
    """The tool cannot run: say why, exit with status 2."""
    click.echo(f"kitwright: {message}", err=True)
    sys.exit(2)


@click.command()
@click.argument("guide")
@click.option("--try", "only_try", is_flag=True, help="Say what would be done, and write nothing.")
@click.option("--pages/--no-pages", default=True,
              help="Keep the marks of the printed pages, so that `kitwright page` knows them.")  # fmt: skip
def seal(guide: str, only_try: bool, pages: bool) -> None:
    """Freeze the working GUIDE as its next revision, below revisions/ in its folder.

    The revision is kept whole: the guide, its pictures, the shared steps and the trade's data that it
    used, the check report, the marks of its printed pages, and a SHA-256 of each file. It is refused
    while an error stands, and while a change that guards less against harm is not signed. Exit status:
    0 sealed, 1 refused, 2 the tool could not run.
    """
    from builder.packet.pdf import LayoutTrouble
    from builder.revisions.commands import run_seal

    try:
        run_seal(guide, only_try, _kept_pages if pages else None)
    except LayoutTrouble as reason:
        stop(f"the pages could not be laid out: {reason}")


def _kept_pages(edition: Edition, folder: Path) -> dict[str, bytes]:
    from builder.packet.codes import PAGES, encode, pages_of

    return {PAGES: encode(pages_of(edition.guide, edition.runs, folder.resolve().as_uri() + "/"))}


@click.command()
@click.argument("guide")
@click.option("--from", "older", required=True, type=int, metavar="N", help="The revision that was printed.")
@click.option(
    "--to", "newer", type=int, metavar="N", help="The revision that holds now; else the working guide."
)
@click.option("--paper", type=click.Choice(["letter", "a4"]), required=True)
@click.option(
    "--builders", "-n", type=click.IntRange(1, 999), default=24, show_default=True, help="How many build."
)
@click.option("--spares", default="10%", show_default=True, help="Spare sets, as they were printed.")
@click.option("-o", "--output", type=click.Path(file_okay=False, path_type=Path), default=Path("errata"),
              show_default=True, help="The folder to write to.")  # fmt: skip
def errata(
    guide: str, older: int, newer: int | None, paper: str, builders: int, spares: str, output: Path
) -> None:
    """Mend printed packets of GUIDE: which pages to take out and put in, as a PDF, and slips to glue over."""
    from builder.packet.codes import kept
    from builder.packet.mending import mend
    from builder.packet.pdf import LayoutTrouble
    from builder.plan.settings import Class, read_spares
    from builder.revisions.locate import Unknown
    from builder.revisions.opening import open_edition

    read = read_spares(spares)
    if read is None:
        stop(f'"{spares}" is no number of spare kits: write a number (3) or a share (10%)')
    try:
        old = open_edition(f"{guide}@{older}")
        new = open_edition(f"{guide}@{newer}" if newer else guide)
        printed = kept(Path(guide)).get(older, {})
        mended = mend(old, new, Class(builders, read, paper), Path(guide), output, printed)
    except (Unknown, OSError, LayoutTrouble) as reason:
        stop(str(reason))
    for line in mended:
        click.echo(line)


@click.command()
@click.argument("code")
@click.argument("guides", nargs=-1, metavar="[GUIDE]...")
def page(code: str, guides: tuple[str, ...]) -> None:
    """Say what a printed page is worth now, by the six letters in the middle of its foot: current,
    superseded, or stop.

    Exit status: 0 current, 1 superseded or stop, 2 no sealed revision has printed such a page.
    """
    from builder.packet.codes import CURRENT, table, told
    from builder.revisions.locate import Unknown, folder_of
    from builder.revisions.opening import title_of

    wanted = code.strip().lower()
    try:
        folders = [folder_of(name) for name in guides]
        folders = folders or sorted(each.parent for each in Path("guides").glob("*/guide.yml"))
        for folder in folders:
            for found in table(folder):
                if found.mark == wanted:
                    click.echo("\n".join(told(found, title_of(folder))))
                    sys.exit(int(found.worth != CURRENT))
    except Unknown as reason:
        stop(str(reason))
    stop(
        f"no sealed revision has printed a page with the letters {code}: look at them again, they stand in "
        "the middle of the foot. A teacher's page may have been printed for a class of another size"
    )
