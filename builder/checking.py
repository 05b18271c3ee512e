"""`kitwright check` without its options: the guides found, checked and told.

It loads nothing that reads command lines, so that a check of named guides can begin at once (see
`builder/__main__.py`).
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from builder.findings import Finding

GUIDES = "guides"


class NoGuide(Exception):
    """There is no guide to work on; the message says why, for people."""


def named(given: Sequence[str]) -> list[str]:
    """The guides asked for, or all below `guides/`. Errors: `NoGuide`."""
    for guide in given:
        if not os.path.exists(guide):
            raise NoGuide(f"there is no {guide}: name a folder with a guide.yml, or a guide's file")
        if os.path.isdir(guide) and not os.path.isfile(os.path.join(guide, "guide.yml")):
            raise NoGuide(f"{guide} holds no guide.yml")
    if given:
        return list(given)
    folders = sorted(os.listdir(GUIDES)) if os.path.isdir(GUIDES) else []
    found = [os.path.join(GUIDES, f) for f in folders if os.path.isfile(os.path.join(GUIDES, f, "guide.yml"))]
    if not found:
        raise NoGuide("there is no guide below guides/: name one, or go to the folder that holds guides/")
    return found


def revisions_of(guide: str) -> str:
    """Where the sealed revisions of a guide stand, if it has any."""
    return os.path.join(guide if os.path.isdir(guide) else os.path.dirname(guide), "revisions")


def check_guides(
    guides: Sequence[str], say: Callable[[str], object], form: str = "text", strict: bool = False
) -> int:
    """Check these guides (or all, if none is named) and tell what was found -> the exit status, 0 or 1.

    `form` is text, json, sarif or ci; `say` gets whole lines. Errors: `NoGuide`.
    """
    from builder.checks.judge import check
    from builder.dryrun.kinds import VERBS
    from builder.findings import Sources, as_json, as_text, exit_status, in_order, summary
    from builder.guide.reader import read_guide

    everything: list[Finding] = []
    for path in named(guides):
        guide = read_guide(path, VERBS)
        findings = check(guide)
        if os.path.isdir(revisions_of(path)):
            from builder.revisions.checks import sealed_findings

            findings = in_order([*findings, *sealed_findings(guide, path)])
        everything += findings
        if form == "text":
            if findings:
                say(as_text(findings, Sources(guide.texts)))
            routes = len(guide.routes)
            how = f"on {routes} routes" if routes > 1 else "on its one route" if routes else "on no route"
            count = sum(1 for _ in guide.every_step())
            steps = f"{count} step" if count == 1 else f"{count} steps"
            say(f"{guide.title or path}: {summary(findings)} ({steps}, {how})")
    if form == "json":
        say(as_json(everything))
    elif form == "sarif":
        say(_sarif(everything))
    elif form == "ci":
        from builder.findings.annotations import as_annotations

        say(as_annotations(everything) or summary(everything))
    return exit_status(everything, strict=strict)


def _sarif(findings: Sequence[Finding]) -> str:
    from importlib.metadata import PackageNotFoundError, version

    from builder.checks.every import ALL
    from builder.findings.sarif import Rule, as_sarif

    rules = [Rule(each.name, each.severity, each.why, each.mend) for each in ALL]
    try:
        return as_sarif(findings, rules, version("kitwright"))
    except PackageNotFoundError:  # run from a clone that is not installed
        return as_sarif(findings, rules, "0")
