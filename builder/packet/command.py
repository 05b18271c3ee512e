"""`kitwright packet`: what was typed -> packets on disk, or words for a person."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click
from msgspec.structs import replace

from builder.dryrun.run import DryRun
from builder.findings import Sources, as_text, summary
from builder.guide.classfile import site_address
from builder.guide.model import Guide
from builder.packet.build import build_packet
from builder.packet.pdf import LayoutTrouble
from builder.packet.proving import Unproved
from builder.pages.book import open_book
from builder.plan.settings import Class, read_spares


class Refused(click.ClickException):
    """The packet cannot be printed because of what was typed."""

    exit_code = 2

    def show(self, file: object = None) -> None:
        """Say it as the command's other words are said."""
        click.echo(f"kitwright: {self.message}", err=True)


class Unbuildable(Refused):
    """The packet cannot be printed because the guide has an error."""

    exit_code = 1


def print_packets(
    path: Path,
    builders: int,
    spares: str,
    paper: str,
    routes: Sequence[str],
    folder: Path,
    known: Class | None = None,
) -> list[Path]:
    """Print the two parts of every route asked for -> the files' paths. `known` is what else is known of the
    class, from a file of its own. Errors: Refused."""
    read = read_spares(spares)
    if read is None:
        raise Refused(f'"{spares}" is no number of spare kits: write a number (3) or a share (10%)')
    place = path.parent if path.is_file() else path
    book = open_book(place)
    if book.has_error:
        raise Unbuildable(
            f"{book.guide.title or place}: {summary(book.findings)}. No packet is printed of a guide that "
            f"cannot be built: `kitwright check {place}` shows what to mend"
        )
    group = replace(known or Class(builders), builders=builders, spares=read, paper=paper)
    pictures = place.resolve().as_uri() + "/"
    site = site_address(Path("mkdocs.yml"))
    written: list[Path] = []
    runs = chosen(book.guide, book.runs, routes)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for run in runs:
            written += build_packet(book.guide, run, group, folder, site=site, pictures=pictures)
    except OSError as trouble:
        raise Refused(f"cannot write to {folder}: {trouble.strerror or trouble}") from None
    except LayoutTrouble as trouble:
        raise Refused(f"the pages could not be laid out: {trouble}") from None
    except Unproved as off:
        raise Unbuildable(
            "the packet was opened again and measured, and is not as it ought to be. "
            f"Nothing of it was written.\n{as_text(off.findings, Sources({}))}"
        ) from None
    return written


def chosen(guide: Guide, runs: Sequence[DryRun], options: Sequence[str]) -> list[DryRun]:
    """The runs whose options are among those given; of a choice that nobody names, every option.
    Errors: Refused, for an option that the guide does not have."""
    known = {option for choice in guide.choices.values() for option in choice.options}
    for option in options:
        if option not in known:
            names = ", ".join(sorted(known)) or "none, since this guide has one route"
            raise Refused(f'there is no option "{option}"; there are: {names}')
    found = list(runs)
    for choice in guide.choices.values():
        asked = [option for option in options if option in choice.options]
        if asked:
            found = [run for run in found if run.route.options.get(choice.id) in asked]
    return found
