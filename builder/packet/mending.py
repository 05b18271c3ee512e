"""Errata on disk: the pages to put in and the slips, a PDF of each for every part that needs it."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from pathlib import Path

from builder.dryrun.run import DryRun
from builder.packet.blocks import Laid
from builder.packet.codes import Page, kept_class, laid_parts
from builder.packet.errata import Errata, errata
from builder.packet.files import write_whole
from builder.packet.pdf import to_pdf
from builder.packet.slips import slips_html
from builder.plan.settings import Class
from builder.revisions.edition import Edition
from builder.revisions.standing import standing


def mend(old: Edition, new: Edition, group: Class, folder: Path, output: Path,
         printed: Mapping[str, Sequence[Page]]) -> list[str]:  # fmt: skip
    """Write the errata of every route -> what to say of them. `printed` are the pages that were kept when the
    older revision was sealed, by part. Errors: LayoutTrouble, OSError."""
    names = {_anchor(id): _anchor(name) for id, name in standing(old, new).names.items()}
    pictures = folder.resolve().as_uri() + "/"
    said: list[str] = []
    files: dict[Path, bytes] = {}
    for run in old.runs:
        twin = next((each for each in new.runs if each.route.options == run.route.options), None)
        if twin is None:
            said.append(f'The route "{run.route.name}" is gone: its packets cannot be mended.')
            continue
        before, after = _parts(old, run, group, pictures), _parts(new, twin, group, pictures)
        for name, laid in before.items():
            if comparable(name, group) and otherwise(laid, printed.get(name, ())):
                said.append(
                    f"{name.replace('-', ', ')}: these pages are laid out otherwise now than when they were "
                    "printed, so no slip fits and their letters are others: print the whole part again."
                )
                files[output / f"{new.guide.id}-{name}-pages.pdf"] = after[name].data
                continue
            found = errata(laid, after[name], names)
            said += told(name, laid, found)
            stem = f"{new.guide.id}-{name}"
            if found.come:
                files[output / f"{stem}-pages.pdf"] = _only(after[name].data, found.come)
            if found.slips:
                html = slips_html(found.slips, new.guide.title, name.replace("-", ", "), group.paper)
                files[output / f"{stem}-slips.pdf"] = to_pdf(html)[0]
    for path, data in files.items():
        write_whole(path, data)
    return said + [path.as_posix() for path in files]


def _anchor(step: str) -> str:
    return f"step-{step.replace('_', '-')}"


def _parts(edition: Edition, run: DryRun, group: Class, pictures: str) -> dict[str, Laid]:
    return laid_parts(edition.guide, run, group, pictures)


def comparable(part: str, group: Class) -> bool:
    """Whether the marks that were kept are those of a part printed for this class: a builder's part is the
    same for every class, a teacher's is not."""
    return part.endswith("-builder") or group == kept_class(group.paper)


def otherwise(laid: Laid, printed: Sequence[Page]) -> bool:
    """Whether the marks that were kept when a part was printed are others than those that its pages get now:
    the look of the pages has changed since. A part whose marks were not kept is taken as it is."""
    return bool(printed) and tuple(page.mark for page in printed) != laid.marks


def told(name: str, old: Laid, found: Errata) -> list[str]:
    """What to do with one printed part."""
    part = name.replace("-", ", ")
    if not found.out and not found.come:
        return [f"{part}: nothing to do."]
    marks = [f"{page} ({old.marks[page - 1]})" for page in found.out]
    lines = [f"{part}: take out {_pages(marks)}; put in {_pages(list(map(str, found.come)))}."]
    if found.slips:
        slips = f"{len(found.slips)} slip{'s' if len(found.slips) > 1 else ''}"
        rest = f"; print {_pages(list(map(str, found.unmended)))} again" if found.unmended else ""
        lines.append(f"  or glue {slips} on: {_pages(list(map(str, found.mended)))} need nothing else{rest}.")
    return lines


def _pages(pages: Sequence[str]) -> str:
    if not pages:
        return "no page"
    return f"page{'s' if len(pages) > 1 else ''} {', '.join(pages)}"


def _only(data: bytes, pages: Sequence[int]) -> bytes:
    """A PDF of some pages of another, as they are."""
    import pypdf

    reader = pypdf.PdfReader(io.BytesIO(data))
    writer = pypdf.PdfWriter()
    for page in pages:
        writer.add_page(reader.pages[page - 1])
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()
