"""`kitwright draw`: one drawing, a pattern, or all drawings of a guide on one page."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

if TYPE_CHECKING:
    from builder.drawings.shapes import Drawing
    from builder.dryrun.run import DryRun
    from builder.guide.model import Guide

FORMATS = ("svg", "png", "pdf")

MOST_DOTS = 30_000
"""A picture has at most so many dots along its longer side: the raster takes no more than 32,767."""


def stop(message: str) -> NoReturn:
    """The tool cannot run: say why, exit with status 2."""
    click.echo(f"kitwright: {message}", err=True)
    sys.exit(2)


@click.command()
@click.argument("guide")
@click.option("--step", metavar="ID", help="The drawing of one step, by its id.")
@click.option("--stage", metavar="NAME", help="What goes where in a stage and what is held at its end.")
@click.option("--pattern", metavar="NAME",
              help="The lines of one pattern at true size, for a cutting machine.")  # fmt: skip
@click.option("--copies", type=click.IntRange(1, 999), help="With --pattern: so many on sheets, for a class.")
@click.option("--gauges", is_flag=True, help="The bars on which cut pieces are laid, at true size.")
@click.option("--kit", is_flag=True, help="The finished kit, together and pulled apart.")
@click.option("--sheet", is_flag=True, help="All drawings of a route on one page.")
@click.option("--route", multiple=True, metavar="OPTION", help="An option of a choice, by its id.")
@click.option(
    "--paper", type=click.Choice(["letter", "a4"]), help="For sheets: by default what both can print."
)
@click.option(
    "--format", "form", type=click.Choice(FORMATS), help="By default what the output's name ends in."
)
@click.option("-o", "--output", type=click.Path(dir_okay=False), help="The file to write.")
def draw(
    guide: str,
    step: str | None,
    stage: str | None,
    pattern: str | None,
    copies: int | None,
    gauges: bool,
    kit: bool,
    sheet: bool,
    route: tuple[str, ...],
    paper: str | None,
    form: str | None,
    output: str | None,
) -> None:
    """Draw one thing of a GUIDE: a step, a stage, a pattern, the kit, or everything on one sheet.

    Several drawings of one thing stand below one another; in a PDF each has its page, at true size.
    """
    asked = [name for name, value in (("--step", step), ("--stage", stage), ("--pattern", pattern),
             ("--gauges", gauges), ("--kit", kit), ("--sheet", sheet)) if value]  # fmt: skip
    if len(asked) != 1:
        told = f"not {' and '.join(asked)} at once" if asked else "none is named"
        stop(f"say one thing to draw ({told}): --step, --stage, --pattern, --gauges, --kit or --sheet")
    if copies and not pattern:
        stop("--copies goes with --pattern: it says how many of it lie on the sheets")
    read, run = _opened(guide, route)
    form = _format(form, output)
    if step:
        name, drawings = step, _step(read, run, step)
    elif stage:
        name, drawings = stage, _stage(read, run, stage)
    elif pattern:
        name, drawings = pattern, _pattern(read, run, pattern, copies, paper or "")
    elif gauges:
        name, drawings = "gauges", _gauges(read, run, paper or "")
    elif kit:
        name, drawings = "kit", _kit(read, run)
    else:
        name, drawings = "sheet", _sheet(read, run)
    place = Path(output or f"{read.id}-{re.sub(r'[^a-z0-9]+', '-', name.lower()).strip('-')}.{form}")
    _write(place, form, drawings, name)
    click.echo(place.as_posix())


def _opened(path: str, options: tuple[str, ...]) -> tuple[Guide, DryRun]:
    """A guide and the first of its routes that has the options asked for."""
    from builder.dryrun.kinds import VERBS
    from builder.dryrun.run import run_all
    from builder.guide.reader import read_guide
    from builder.packet.command import Refused, chosen
    from builder.revisions.checks import touched

    place = Path(path)
    if not place.exists():
        stop(f"there is no {path}: name a folder with a guide.yml, or a guide's file")
    if place.is_dir() and not (place / "guide.yml").is_file():
        stop(f"{path} holds no guide.yml")
    for message in touched(place if place.is_dir() else place.parent):
        stop(message)
    guide = read_guide(place, VERBS)
    runs = run_all(guide)
    try:
        found = chosen(guide, runs, options)
    except Refused as reason:
        stop(reason.message)
    if not found:
        stop(f"{guide.title or path} has no route to draw: `kitwright check {path}` shows what to mend")
    return guide, found[0]


def _format(form: str | None, output: str | None) -> str:
    """The format that was named, or that the output's name ends in."""
    ending = Path(output).suffix.lower().lstrip(".") if output else ""
    if form and ending in FORMATS and ending != form:
        stop(f"--format says {form} and the output is called .{ending}: let one of them say it")
    if not form and ending and ending not in FORMATS:
        stop(f'a drawing is written as {", ".join(FORMATS)}, not as "{ending}"')
    return form or ending or "svg"


def _named(kind: str, name: str, known: Iterable[str]) -> str:
    """The known name that is meant; says which there are, and which may have been meant."""
    from builder.guide.reading import nearest

    names = list(known)
    if name in names:
        return name
    same = [each for each in names if each.casefold() == name.casefold()]
    if len(same) == 1:
        return same[0]
    guess = nearest(name, names)
    did = f"did you mean {guess}? " if guess else ""
    there = ", ".join(names) if names else f"none, since this guide has no {kind}"
    stop(f'there is no {kind} "{name}"; {did}There are: {there}' if did else
         f'there is no {kind} "{name}"; there are: {there}')  # fmt: skip


def _step(guide: Guide, run: DryRun, name: str) -> tuple[Drawing, ...]:
    from builder.drawings.catalogue import step_entry, step_names

    steps = step_names(run)
    id = _named("step", name, steps)
    return step_entry(guide, id, steps[id]).drawings


def _stage(guide: Guide, run: DryRun, name: str) -> tuple[Drawing, ...]:
    from builder.drawings.catalogue import stage_entry, stage_names

    stages = stage_names(run)
    built = [s for s, frames in stages.items() if not frames[0].step.stage.per_class]
    if name.isdigit() and 0 < int(name) <= len(built):
        name = built[int(name) - 1]
    id = _named("stage", name, stages)
    found = stage_entry(guide, id, stages[id]).drawings
    return found or stop(f'nothing is put together or made in the stage "{id}"')


def _pattern(guide: Guide, run: DryRun, name: str, copies: int | None, paper: str) -> tuple[Drawing, ...]:
    from builder.drawings.class_sheets import class_sheets, single
    from builder.drawings.of_pattern import origin_of, pattern_of, patterns_of
    from builder.drawings.sheets import COMMON, printable

    found = {id: p for p in patterns_of(guide, (run,)) for id in p.id.split(", ")}
    if name in guide.things and name not in found:
        # what has no printed pattern may still be cut by a machine from its own numbers
        thing = guide.things[name]
        made = pattern_of(guide, thing, name, thing.name, "", (run,))
        if made is not None:
            found[name] = made
    pattern = found[_named("pattern", name, found)]
    if copies is None:
        return (single(pattern),)
    page = printable(paper) if paper else COMMON
    return tuple(class_sheets(pattern, copies, origin_of(guide, paper), page))


def _gauges(guide: Guide, run: DryRun, paper: str) -> tuple[Drawing, ...]:
    from builder.drawings.gauges import gauge_sheets

    found = gauge_sheets(guide, (run,), paper=paper)
    return tuple(found) or stop("nothing is cut in this guide, so there is nothing to gauge")


def _kit(guide: Guide, run: DryRun) -> tuple[Drawing, ...]:
    from builder.drawings.catalogue import kit_entry

    found = kit_entry(guide, run)
    if found is None or not found.drawings:
        stop("the guide does not say what is finished, or nothing of it has a size")
    return found.drawings


def _sheet(guide: Guide, run: DryRun) -> tuple[Drawing, ...]:
    from builder.drawings.catalogue import everything
    from builder.drawings.contact import contact_sheet

    title = f"{guide.title}: all drawings"
    if run.route.options:
        title += f" ({', '.join(run.route.options.values())})"
    return (contact_sheet(everything(guide, run), title),)


def _write(place: Path, form: str, drawings: tuple[Drawing, ...], name: str) -> None:
    """The drawings as one file, whole or not at all."""
    from builder.drawings.raster import pdf, png
    from builder.drawings.shapes import stacked
    from builder.drawings.svg import write
    from builder.packet.files import write_whole

    if form == "pdf":
        data = pdf([write(d, f"drawing-{n}") for n, d in enumerate(drawings, 1)], title=drawings[0].title)
    else:
        one = stacked(drawings, drawings[0].title)
        svg = write(one)
        dots = min(192.0 if name != "sheet" else 96.0, MOST_DOTS * 25.4 / max(one.width, one.height))
        data = svg.encode() if form == "svg" else png(svg, dots_per_inch=dots)
    try:
        write_whole(place, data)
    except OSError as trouble:
        stop(f"cannot write {place}: {trouble.strerror or trouble}")
