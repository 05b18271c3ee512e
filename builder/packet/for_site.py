"""The packets of a site, on both papers and for every route; what was printed before is taken over, and the
rest is printed side by side."""

from __future__ import annotations

from collections.abc import Iterable
from concurrent.futures.process import BrokenProcessPool
from functools import partial
from pathlib import Path

from builder.guide.classfile import site_address
from builder.packet.command import Refused, print_packets
from builder.packet.side_by_side import side_by_side
from builder.pages.store import Store, key_of, source_sign
from builder.pages.website import WebFile
from builder.plan.settings import PAPERS, Class

STOPPED = (
    "a process that printed a packet was ended from outside, perhaps for want of memory; what was printed "
    "before it is kept: run it again"
)


def print_for_site(guides: Iterable[str], group: Class, folder: Path, store: Store) -> None:
    """Put the packets of some guides for a class into a folder, as they are to lie in the site. Errors:
    Refused."""
    address = site_address(Path("mkdocs.yml"))
    jobs = {
        key_of("packet", path.name, source_sign(path), address, paper, group.sign): (path, paper)
        for path in map(Path, guides)
        for paper in PAPERS
    }
    wanted = [key for key in jobs if not store.has(key)]
    try:
        with side_by_side(len(wanted)) as start:
            made = {key: start(partial(_printed, *jobs[key], group, folder)) for key in wanted}
            for key in jobs:
                for file in store.files(key, made.get(key, tuple)):
                    place = folder / file.path
                    place.parent.mkdir(parents=True, exist_ok=True)
                    place.write_bytes(file.content)
    except BrokenProcessPool:
        raise Refused(STOPPED) from None


def _printed(path: Path, paper: str, group: Class, folder: Path) -> list[WebFile]:
    name = f"{path.name}/packet"
    written = print_packets(path, group.builders, group.spares.typed, paper, (), folder / name, group)
    return [WebFile(path=f"{name}/{each.name}", content=each.read_bytes()) for each in written]
