"""Contexts of the reviewer's and the writer's pages: findings, checks, the manual, the list of guides."""

from __future__ import annotations

from markupsafe import Markup

from builder.pages.contexts import Fact, Link, Picture, View
from builder.pages.printing import ProofTable


class FindingView(View, frozen=True, kw_only=True):
    """A finding with its place, its reason, its mend and what may follow from it."""

    severity: str
    severity_word: str
    check: str
    check_href: str
    place: str
    message: str
    source: str = ""
    caret: str = ""
    reason: str = ""
    mend: str = ""
    routes: str = ""
    others: tuple[str, ...] = ()
    follows: tuple[str, ...] = ()
    accepted: str = ""


class CheckRow(View, frozen=True, kw_only=True):
    """A check as the report and the index list it."""

    id: str
    title: Markup
    href: str
    severity_word: str
    found: str = ""


class ReportView(View, frozen=True, kw_only=True):
    """The check report of a guide, or of all guides when it stands in for their pages."""

    verdict: str
    findings: tuple[FindingView, ...]
    accepted: tuple[FindingView, ...] = ()
    judged: tuple[Fact, ...]
    checked: tuple[CheckRow, ...]
    ran: tuple[Fact, ...]
    uncovered: tuple[str, ...]
    noticed: tuple[Fact, ...] = ()
    planted: Link | None = None
    proofs: tuple[ProofTable, ...] = ()


class CheckView(View, frozen=True, kw_only=True):
    """The page of one check, written from the check itself."""

    id: str
    title: str
    severity_word: str
    what: Markup
    why: Markup
    source: str
    failing: str
    mended: str
    mend: Markup


class ChecksView(View, frozen=True, kw_only=True):
    """The index of all checks, in report order."""

    groups: tuple[tuple[str, tuple[CheckRow, ...]], ...]


class FieldRow(View, frozen=True, kw_only=True):
    """A field as its one declaration has it."""

    name: str
    type: str
    needed: str
    description: Markup
    example: str = ""


class FieldTable(View, frozen=True, kw_only=True):
    """The fields of one kind of entry."""

    id: str
    heading: str
    rows: tuple[FieldRow, ...]


class VerbRow(View, frozen=True, kw_only=True):
    """A verb: the other words that may tell it, what it says, needs and asks of joints, its fields."""

    word: str
    others: str
    says: str
    needs: str
    demand: str
    rows: tuple[FieldRow, ...] = ()


class ManualSection(View, frozen=True, kw_only=True):
    """A part of the manual: prose, and the tables that belong to it."""

    id: str
    heading: str
    html: Markup
    tables: tuple[FieldTable, ...] = ()
    verbs: tuple[VerbRow, ...] = ()


class ManualView(View, frozen=True, kw_only=True):
    """The writers' manual."""

    sections: tuple[ManualSection, ...]


class GuideCard(View, frozen=True, kw_only=True):
    """A guide as the home page lists it."""

    title: str
    href: str
    summary: str
    facts: tuple[Fact, ...]
    state: str = ""
    picture: Picture | None = None
    revisions: tuple[Link, ...] = ()


class HomeView(View, frozen=True, kw_only=True):
    """The list of guides."""

    title: str
    summary: Markup
    guides: tuple[GuideCard, ...]
    more: tuple[Link, ...] = ()


class FindEntry(View, frozen=True, kw_only=True):
    """Something that can be found by name: a step, a part, a tool, a material."""

    text: str
    kind: str
    where: Link


class FindView(View, frozen=True, kw_only=True):
    """Everything in the site by name, in the order of the alphabet."""

    entries: tuple[FindEntry, ...]


class WordsView(View, frozen=True, kw_only=True):
    """The glossary of a guide."""

    words: tuple[Fact, ...]


class ProseView(View, frozen=True, kw_only=True):
    """A page that is a text."""

    html: Markup
