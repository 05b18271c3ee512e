"""The commands of the writer's desk: schema, explain, edit-server."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from typing import NoReturn

import click


def stop(message: str) -> NoReturn:
    """The tool cannot run: say why, exit with status 2."""
    click.echo(f"kitwright: {message}", err=True)
    sys.exit(2)


@click.command()
@click.option("-o", "--output", type=click.Path(dir_okay=False), help="The file to write; without it, print.")
@click.option("--library", type=click.Path(file_okay=False), default="guides/common", show_default=True,
              help="The folder of shared files whose verbs are in it too.")  # fmt: skip
def schema(output: str | None, library: str) -> None:
    """Print the JSON Schema of a guide, by which an editor completes and checks while you type.

    It stands in guides/common/guide.schema.json, and the first line of each guide names it.
    """
    from builder.dryrun.kinds import VERBS
    from builder.guide.own_verbs import of_folder
    from builder.guide.schema import as_json

    own, faults = of_folder(library, VERBS)
    for fault in faults:
        click.echo(f"{fault.place}: {fault.severity.value}: {fault.message}", err=True)
    text = as_json({**VERBS, **own.rows})
    if output is None:
        click.echo(text, nl=False)
        return
    unfinished = f"{output}.part"
    try:
        with open(unfinished, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
        os.replace(unfinished, output)
    except OSError as fault:
        with suppress(OSError):
            os.remove(unfinished)
        stop(f"{output} cannot be written: {fault.strerror}")


@click.command()
@click.argument("guide")
@click.argument("value")
@click.option("--quick", is_flag=True, help="Leave out drawings, pages and what a slip would do.")
def explain(guide: str, value: str, quick: bool) -> None:
    """Tell where a number of a GUIDE was written, how it was worked out and where it shows.

    VALUE is a name (body.length), or the number as it is printed ("12 1/2 in").
    """
    if not os.path.exists(guide) or (
        os.path.isdir(guide) and not os.path.isfile(os.path.join(guide, "guide.yml"))
    ):
        stop(f"there is no guide {guide}: name a folder with a guide.yml, or a guide's file")
    from builder.dryrun.kinds import VERBS
    from builder.explain.numbers import meant, numbers_of
    from builder.explain.numbers import told as shown
    from builder.guide.desk import nearest
    from builder.guide.reader import read_guide
    from builder.revisions.checks import touched

    for message in touched(guide if os.path.isdir(guide) else os.path.dirname(guide)):
        stop(message)
    read = read_guide(guide, VERBS)
    numbers = numbers_of(read)
    names = meant(value, numbers, read)
    if not names:
        guess = nearest(value.replace(" ", "_"), numbers)
        stop(f'the guide holds no number "{value}"' + (f"; did you mean {guess}?" if guess else ""))
    if len(names) > 1:
        click.echo(f"{len(names)} numbers of the guide are {value}; ask for one by its name:")
        for name in names:
            at = numbers[name].at if numbers[name].text else "worked out"
            click.echo(f"  {name}: {shown(numbers[name], read)} ({at})")
        return
    from builder.explain.telling import report

    click.echo(report(read, names[0], quick))


@click.command("edit-server")
def edit_server() -> None:
    """Serve an editor over standard input and output (Language Server Protocol).

    Findings while you type, where a number comes from, where an id is defined, what may be typed.
    """
    from builder.editor.server import main

    sys.exit(main())
