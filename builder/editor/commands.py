"""The commands of the writer's desk: schema, explain, edit-server."""

from __future__ import annotations

import os
import sys
from typing import NoReturn

import click


def stop(message: str) -> NoReturn:
    """The tool cannot run: say why, exit with status 2."""
    click.echo(f"kitwright: {message}", err=True)
    sys.exit(2)


@click.command()
@click.option("-o", "--output", type=click.Path(dir_okay=False), help="The file to write; without it, print.")
def schema(output: str | None) -> None:
    """Print the JSON Schema of a guide, by which an editor completes and checks while you type.

    It stands in guides/common/guide.schema.json, and the first line of each guide names it.
    """
    from builder.dryrun.kinds import VERBS
    from builder.guide.schema import as_json

    text = as_json(VERBS)
    if output is None:
        click.echo(text, nl=False)
        return
    unfinished = f"{output}.part"
    try:
        with open(unfinished, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
        os.replace(unfinished, output)
    except OSError as fault:
        stop(f"{output} cannot be written: {fault.strerror}")
