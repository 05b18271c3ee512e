"""The packets of a site, on both papers and for every route; what was printed before is taken over."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from pathlib import Path

from builder.guide.classfile import site_address
from builder.packet.command import print_packets
from builder.pages.store import Store, key_of, source_sign
from builder.pages.website import WebFile

BUILDERS, SPARES = 24, "10%"
PAPERS = ("letter", "a4")


def print_for_site(guides: Iterable[str], folder: Path, store: Store) -> None:
    """Put the packets of some guides into a folder, as they are to lie in the site. Errors: Refused."""
    address = site_address(Path("mkdocs.yml"))
    for path in map(Path, guides):
        for paper in PAPERS:
            key = key_of("packet", path.name, source_sign(path), address, paper, BUILDERS, SPARES)
            for file in store.files(key, partial(_printed, path, paper, folder)):
                place = folder / file.path
                place.parent.mkdir(parents=True, exist_ok=True)
                place.write_bytes(file.content)


def _printed(path: Path, paper: str, folder: Path) -> list[WebFile]:
    name = f"{path.name}/packet"
    written = print_packets(path, BUILDERS, SPARES, paper, (), folder / name)
    return [WebFile(path=f"{name}/{each.name}", content=each.read_bytes()) for each in written]
