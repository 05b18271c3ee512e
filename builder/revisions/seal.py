"""Sealing: the working guide becomes the next revision, whole, unless something speaks against it."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path

import msgspec

from builder.checks.judge import check
from builder.findings import Finding, Severity, as_json
from builder.guide.files import shown
from builder.guide.model import Guide, Signature
from builder.revisions import manifest as manifests
from builder.revisions import record as records
from builder.revisions.change import Change
from builder.revisions.checks import sealed_findings
from builder.revisions.compare import compare
from builder.revisions.edition import Edition
from builder.revisions.manifest import Manifest, Signed, digest, sealed
from builder.revisions.opening import open_edition
from builder.revisions.printers import as_markdown, summary
from builder.revisions.signing import content_sign, safety_sign, valid, weakened
from builder.revisions.vault import FOLDER, Sealed, sealed_revisions, write

TRADE, REPORT, CHANGES = "trade.json", "report.json", "changes.md"


class Sealing(msgspec.Struct, frozen=True):
    """What sealing would do. `refusals` say in whole sentences why it would not; `findings` are the errors
    that stand, `unsigned` the changes that guard less and that nobody has signed, `sign` what a signature
    must name, `void` the signatures that are for another content."""

    number: int
    edition: Edition
    files: dict[str, bytes]
    changes: tuple[Change, ...]
    refusals: tuple[str, ...]
    findings: tuple[Finding, ...]
    unsigned: tuple[Change, ...]
    sign: str
    void: tuple[Signature, ...]

    @property
    def refused(self) -> bool:
        """Whether nothing may be written."""
        return bool(self.refusals)


Pages = Callable[[Edition, Path], Mapping[str, bytes]]
"""Lists the printed pages of an edition: files to be kept with it, by name."""


def prepare(folder: Path, pages: Pages | None = None) -> Sealing:
    """Everything about sealing a guide's folder, without writing anything. Errors: Unknown, OSError."""
    edition = open_edition(folder)
    guide = edition.guide
    there = sealed_revisions(folder)
    number = (there[-1].number if there else 0) + 1
    findings = [*check(guide, edition.runs), *sealed_findings(guide, folder)]
    errors = tuple(f for f in findings if f.severity is Severity.ERROR and f.accepted is None)
    changes: tuple[Change, ...] = ()
    before = there[-1] if there else None
    if before is not None and not errors:
        changes = compare(open_edition(before.folder), edition)
    sign = safety_sign(edition, changes)
    good = valid(guide.signed, sign)
    unsigned = () if good else tuple(weakened(changes))
    refusals = tuple(_refusals(guide, number, there, errors, changes, unsigned))
    files: dict[str, bytes] = {}
    if not refusals:
        files = _files(folder, edition, findings, changes, before)
        if pages is not None:
            files |= pages(edition, folder)
        revision = guide.revision
        assert revision is not None
        files[manifests.NAME] = manifests.encode(sealed(Manifest(
            guide=guide.id, number=number, dated=revision.dated, by=revision.by, summary=revision.summary,
            content=content_sign(edition), safety=sign, before=before.manifest.seal if before else "",
            files={name: digest(data) for name, data in sorted(files.items())},
            signed=tuple(Signed(s.name, s.role, s.reason, s.content) for s in good),
        )))  # fmt: skip
    void = tuple(each for each in guide.signed if each.content != sign)
    return Sealing(number, edition, files, changes, refusals, errors, unsigned, sign, void)


def seal(folder: Path, sealing: Sealing) -> Path:
    """Write what was prepared -> the folder of the revision. Errors: OSError."""
    assert not sealing.refused
    return write(folder, sealing.number, sealing.files)


def _refusals(guide: Guide, number: int, there: Sequence[Sealed], errors: tuple[Finding, ...],
              changes: tuple[Change, ...], unsigned: tuple[Change, ...]) -> Iterator[str]:  # fmt: skip
    if errors:
        many = len(errors) > 1
        yield f"{len(errors)} {'errors stand: mend them' if many else 'error stands: mend it'} first"
        return
    revision = guide.revision
    example = (
        f"revision: {{number: {number}, dated: 2026-11-25, by: Tannerfield Workshop, summary: What changed.}}"
    )
    if revision is None:
        yield f"the guide does not say which revision it is: write `{example}`"
        return
    last = there[-1].manifest if there else None
    if revision.number != str(number):
        yield f"the guide says revision {revision.number}: the next one is {number}, write `number: {number}`"
    if last is not None and revision.dated < last.dated:
        yield f"the date {revision.dated} is before that of revision {last.number}, which is {last.dated}"
    if not revision.by:
        yield "the revision does not say who made it: write `by: ...`"
    if not revision.summary:
        yield "the revision does not say what changed: write `summary: ...`"
    if last is not None and not changes:
        yield f"nothing has changed since revision {last.number}"
    if unsigned:
        guard = "changes guard" if len(unsigned) > 1 else "change guards"
        yield f"{len(unsigned)} {guard} less, and nobody has signed"


def _files(folder: Path, edition: Edition, findings: list[Finding], changes: tuple[Change, ...],
           before: Sealed | None) -> dict[str, bytes]:  # fmt: skip
    """The bytes of the revision by path, without the manifest."""
    guide = edition.guide
    files = {
        f"{guide.id}/{path.relative_to(folder).as_posix()}": path.read_bytes() for path in own_files(folder)
    }
    if files[f"{guide.id}/guide.yml"].decode("utf-8-sig") != guide.texts[guide.file]:
        raise OSError("the guide was written to meanwhile; seal it again")
    for path in shared_files(guide, folder):
        files[f"common/{path.name}"] = path.read_bytes()
    files[TRADE] = records.encode(records.record_of(edition))
    files[REPORT] = (as_json(findings) + "\n").encode()
    told = "The first revision.\n"
    if before is not None:
        told = as_markdown(changes, guide.title, f"revision {before.number}", f"revision {before.number + 1}")
    files[CHANGES] = told.encode()
    return dict(sorted(files.items()))


def own_files(folder: Path) -> Iterator[Path]:
    """Every file of a guide's folder, its pictures among them; not its revisions, nor what is hidden."""
    for place, inner, names in os.walk(folder):
        if Path(place) == folder:
            inner[:] = [name for name in inner if name != FOLDER]
        inner[:] = sorted(name for name in inner if not name.startswith("."))
        yield from (Path(place) / name for name in sorted(names) if not name.startswith("."))


def shared_files(guide: Guide, folder: Path) -> list[Path]:
    """The shared files that the guide uses: of its shared steps, of the cautions that it
    names, of the verbs of its library."""
    named = (caution.at for step in guide.every_step() for caution in step.cautions)
    used = {at.file for at in named if at is not None}
    used |= {step.at.file for step in guide.every_step() if step.shared}
    used |= {action.verb.file for step in guide.every_step() for action in step.each_action()}
    common = folder.parent / "common"
    files = sorted(common.glob("*.yml")) if common.is_dir() else []
    return [path for path in files if shown(path) in used or shown(os.path.normpath(path)) in used]


def told(sealing: Sealing) -> str:
    """What is said before a revision is written: the changes since the last one."""
    return summary(sealing.changes) if sealing.number > 1 else "the first revision"
