"""The packets of a site, on both papers and for every route; what was printed before is taken over."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from pathlib import Path

from builder.guide.classfile import site_address
from builder.packet.command import print_packets
from builder.pages.store import Store, key_of, source_sign
from builder.pages.website import WebFile
from builder.plan.settings import PAPERS, Class


def print_for_site(guides: Iterable[str], group: Class, folder: Path, store: Store) -> None:
    """Put the packets of some guides for a class into a folder, as they are to lie in the site. Errors:
    Refused."""
    address = site_address(Path("mkdocs.yml"))
    for path in map(Path, guides):
        for paper in PAPERS:
            key = key_of("packet", path.name, source_sign(path), address, paper, group.sign)
            for file in store.files(key, partial(_printed, path, paper, group, folder)):
                place = folder / file.path
                place.parent.mkdir(parents=True, exist_ok=True)
                place.write_bytes(file.content)


def _printed(path: Path, paper: str, group: Class, folder: Path) -> list[WebFile]:
    name = f"{path.name}/packet"
    written = print_packets(path, group.builders, group.spares.typed, paper, (), folder / name, group)
    return [WebFile(path=f"{name}/{each.name}", content=each.read_bytes()) for each in written]
