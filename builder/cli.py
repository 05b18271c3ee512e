"""The command `kitwright`. Commands import what they need themselves, so that a check starts quickly."""

from __future__ import annotations

import os
import sys
from typing import NoReturn

import click

from builder.checking import NoGuide, check_guides, named, revisions_of

TYPE_CHECKING = False  # as type checkers read it; to import it would cost a check its quick start
if TYPE_CHECKING:
    from builder.plan.settings import Class

# Commands of another room: the module that is imported when one of them is asked for.
_ELSEWHERE = {
    "draw": "builder.packet.draw_command",
    "compare": "builder.pages.compare_command",
    "seal": "builder.packet.revision_commands",
    "carry-over": "builder.revisions.commands",
    "errata": "builder.packet.revision_commands",
    "page": "builder.packet.revision_commands",
    "explain": "builder.editor.commands",
    "schema": "builder.editor.commands",
    "edit-server": "builder.editor.commands",
}


class _Plain(click.Group):
    """Commands in the order in which a writer meets them."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return [*self.commands, *_ELSEWHERE]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in _ELSEWHERE:
            return super().get_command(ctx, cmd_name)
        from importlib import import_module

        found: click.Command = getattr(import_module(_ELSEWHERE[cmd_name]), cmd_name.replace("-", "_"))
        return found


@click.group(cls=_Plain, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="kitwright", prog_name="kitwright")
def main() -> None:
    """Build guides that are checked by building the kit on paper.

    A guide is a folder with a guide.yml. Without a GUIDE, a command takes all guides below guides/.
    """


def _guides(given: tuple[str, ...]) -> list[str]:
    """The guides asked for, or all; exits with status 2 if there is none, or if a sealed revision of one of
    them is not as it was sealed."""
    try:
        found = named(given)
    except NoGuide as no:
        _stop(str(no))
    if any(os.path.isdir(revisions_of(guide)) for guide in found):
        from builder.revisions.checks import touched

        for guide in found:
            for message in touched(os.path.dirname(revisions_of(guide))):
                _stop(message)
    return found


def _stop(message: str) -> NoReturn:
    """The tool cannot run: say why, exit with status 2."""
    click.echo(f"kitwright: {message}", err=True)
    sys.exit(2)


@main.command()
@click.argument("guides", nargs=-1, metavar="[GUIDE]...")
@click.option("--strict", is_flag=True, help="Count a warning as an error.")
@click.option("--format", "form", type=click.Choice(["text", "json", "sarif", "ci"]), default="text",
              show_default=True, help="`sarif` is for results, `ci` for annotations.")  # fmt: skip
def check(guides: tuple[str, ...], strict: bool, form: str) -> None:
    """Build the kit of each GUIDE on paper and report what would go wrong at a bench.

    Exit status: 0 no error, 1 an error, 2 the tool could not run.
    """
    try:
        sys.exit(check_guides(guides, click.echo, form, strict))
    except NoGuide as no:
        _stop(str(no))


@main.command()
@click.argument("guide")
@click.argument("step", required=False)
def word(guide: str, step: str | None) -> None:
    """Print how the tool words the actions of a STEP, with a skeleton for a sentence of your own."""
    from builder.dryrun.kinds import VERBS
    from builder.guide.reader import read_guide
    from builder.guide.wording import Book, sentence, skeleton, title

    read = read_guide(_guides((guide,))[0], VERBS)
    steps = [s for s in read.every_step() if step in (None, s.id)]
    if not steps and step is None:
        _stop(f"{guide} has no steps that could be read: `kitwright check {guide}` says why")
    if not steps:
        _stop(f'there is no step "{step}"; there are: {", ".join(s.id for s in read.every_step())}')
    book = Book(read)
    for each in steps:
        click.echo(f"{each.id}: {title(each, book).text}")
        for action in each.each_action():
            click.echo(f"  {sentence(action, book).text}")
            if step is not None:
                click.echo(f"    say: {skeleton(action)}")


@main.command()
@click.argument("name", required=False)
def checks(name: str | None) -> None:
    """List the checks, or explain the one called NAME: what a finding has in brackets."""
    from builder.explain.of_checks import groups

    known: list[str] = []
    for heading, rows in groups():
        if name is None:
            width = max(len(row.name) for row in rows)
            click.echo(("" if not known else "\n") + f"{heading}:")
            for row in rows:
                click.echo(f"{row.name:<{width}}  {row.severity:<8} {row.why}")
        for row in rows:
            if row.name == name:
                click.echo(f"{row.name} ({row.severity})\n\n{row.page}")
                return
        known += [row.name for row in rows]
    if name is not None:
        from builder.guide.reading import nearest

        guess = nearest(name, known)
        _stop(f'there is no check "{name}"' + (f"; did you mean {guess}?" if guess else ""))


@main.command()
@click.argument("guides", nargs=-1, metavar="[GUIDE]...")
@click.option("--kind", "kinds", multiple=True, help="Only kinds whose name holds this; may be repeated.")
@click.option("--all", "every", is_flag=True, help="At every place that a guide offers, not only the first.")
@click.option("--pairs", "in_pairs", is_flag=True, help="Two at a time, where they lie in different things.")
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
def plant(guides: tuple[str, ...], kinds: tuple[str, ...], every: bool, in_pairs: bool, form: str) -> None:
    """Plant one fault of each kind in copies of a GUIDE, and see which of them the checks tell.

    Nothing is written: the copies are made in memory. Exit status: 0 each fault was caught, by one leading
    finding; 1 one was missed, or told by more; 2 the tool could not run.
    """
    from builder.planting.command import harvests, printed

    found = harvests(_guides(guides), kinds, every=every, in_pairs=in_pairs)
    if not any(harvest.results for harvest in found):
        _stop("nothing was planted: no guide has a place for such a kind")
    click.echo(printed(found, form))
    sys.exit(int(any(harvest.missed for harvest in found)))


@main.command()
@click.argument("guide")
@click.option("--class", "class_file", type=click.Path(dir_okay=False), metavar="FILE",
              help="The class: builders, spares, paper, adults, period, days, budget.")  # fmt: skip
@click.option("--builders", "-n", type=click.IntRange(1, 999), help="How many build.")
@click.option("--spares", help="Spare sets: a number, or a share such as 10%.  [default: 0]")
@click.option("--paper", type=click.Choice(["letter", "a4"]))
@click.option("--route", multiple=True, help="An option of a choice, by its id; by default every route.")
@click.option(
    "-o",
    "--output",
    type=click.Path(file_okay=False),
    default="packets",
    show_default=True,
    help="The folder to write to.",
)
def packet(guide: str, class_file: str | None, builders: int | None, spares: str | None, paper: str | None,
           route: tuple[str, ...], output: str) -> None:  # fmt: skip
    """Print the packet of a GUIDE for a class: a builder's and a teacher's PDF for each route.

    How many build, and on which paper, is said here or in the file of the class.
    """
    from pathlib import Path

    from builder.packet.command import print_packets

    guide = _guides((guide,))[0]
    known = _class_of(class_file)
    if known is None and (builders is None or paper is None):
        raise click.UsageError("Say --builders and --paper, or name the file of the class with --class.")
    count = builders or (known.builders if known else 1)
    if spares is None:
        spares = known.spares.typed if known else "0"
    on = paper or (known.paper if known else "letter")
    for path in print_packets(Path(guide), count, spares, on, route, Path(output), known):
        click.echo(path.as_posix())


def _class_of(file: str | None) -> Class | None:
    """The class of a file; exits with status 2 if it cannot be read."""
    if file is None:
        return None
    from pathlib import Path

    from builder.guide.classfile import settings
    from builder.plan.settings import class_of

    try:
        values = settings(Path(file))
    except ValueError as reason:
        _stop(str(reason))
    try:
        return class_of(values)
    except ValueError as reason:
        _stop(f"{file}: {reason}")


@main.command()
@click.option("--site-dir", type=click.Path(file_okay=False), default="site", show_default=True)
@click.option(
    "--packets/--no-packets", default=True, help="Print the packets too, both papers, for a class of 24."
)
@click.option("--planting/--no-planting", default=True,
              help="Plant faults in copies of the guides, for the reviewer's pages.")  # fmt: skip
@click.option("--class", "class_file", type=click.Path(dir_okay=False), metavar="FILE",
              help="The class to count for; by default class.yml, if it is there.")  # fmt: skip
def build(site_dir: str, packets: bool, planting: bool, class_file: str | None) -> None:
    """Build the site of all guides, and their packets.

    What has not changed since the last build is taken over from the site that stands there.
    """
    from functools import partial
    from pathlib import Path

    from builder.plan.settings import SHOWN
    from builder.site import build_site

    found, job = _guides(()), None
    if class_file is None and Path("class.yml").is_file():
        class_file = "class.yml"
    group = _class_of(class_file) or SHOWN
    if packets:
        from builder.packet.for_site import print_for_site

        job = partial(print_for_site, found, group)
    asked = f"packets {packets}, planting {planting}"
    problem = build_site(Path("mkdocs.yml"), Path(site_dir), job, group, planting=planting, asked=asked)
    if problem:
        _stop(problem)
    click.echo(f"Open {site_dir}/index.html")
    if packets:
        click.echo(f"The packets are in {site_dir}/<guide>/packet/")
