"""Page contexts: all that a person is shown, ready to print. No template computes anything.

Text fields are plain `str` and are escaped by the template; fields of type `Markup` hold HTML or
SVG that was escaped or cleaned where it was made. Numbers are already worded with their units.
The site's pages and the printed packet are laid out from the same contexts.
"""

from __future__ import annotations

from typing import Literal, TypeAlias

import msgspec
from markupsafe import Markup

NONE = Markup("")

Level = Literal["danger", "warning", "caution", "notice"]
Paper = Literal["letter", "a4"]


class View(msgspec.Struct, frozen=True, kw_only=True):
    """Base of every context: immutable, fields by name."""


# --- around every page ------------------------------------------------------------------------


class Link(View, frozen=True, kw_only=True):
    """A link as a menu shows it. `href` is relative to the page it stands on."""

    text: str
    href: str
    current: bool = False
    note: str = ""


class TitleCell(View, frozen=True, kw_only=True):
    """One cell of a page's title block: a small label and its value."""

    label: str
    value: str


class Stamp(View, frozen=True, kw_only=True):
    """What a page is worth, as a stamp at its top: the current revision, a superseded one, a draft.

    `kind` is current, superseded, stop or draft; `reasons` say what stops a class that works from it.
    """

    kind: str
    word: str
    text: Markup
    links: tuple[Link, ...] = ()
    reasons: tuple[str, ...] = ()


class Frame(View, frozen=True, kw_only=True):
    """What stands round a page's content.

    `root` leads from the page to the site's top ("" or "../../"). `tabs` are the pages of this
    guide and no other. `keep` names the guide, revision and route under which ticks are kept.
    """

    title: str
    root: str
    site_name: str
    lang: str = "en"
    heading: str = ""
    crumbs: tuple[Link, ...] = ()
    tabs: tuple[Link, ...] = ()
    stages: tuple[Link, ...] = ()
    previous: Link | None = None
    next: Link | None = None
    cells: tuple[TitleCell, ...] = ()
    keep: str = ""
    find: str = ""
    banner: str = ""
    stamp: Stamp | None = None


# --- a step -----------------------------------------------------------------------------------


class Caution(View, frozen=True, kw_only=True):
    """A safety message: hazard first, then what it does, then how it is avoided.

    `symbol` tells whether the alert triangle is printed: for injury only, never with a notice.
    """

    level: Level
    signal_word: str
    hazard: Markup
    consequence: Markup
    avoidance: Markup
    symbol: bool = True
    source: str = ""


class Picture(View, frozen=True, kw_only=True):
    """A computed drawing (`svg`) or a writer's picture (`src`), always with its text alternative.

    `width` is the drawing's own width in millimetres, at which its letters are easy to read; `beside` says
    that it is tall and narrow, so that the lines stand beside it in print.
    """

    alt: str
    svg: Markup = NONE
    width: str = ""
    src: str = ""
    caption: str = ""
    beside: bool = False


class ActionLine(View, frozen=True, kw_only=True):
    """One action, told. `label` is step and place in it, as 7.2."""

    label: str
    html: Markup
    kind: Literal["action"] = "action"


class NoteLine(View, frozen=True, kw_only=True):
    """A note, a tip or a reason: it informs and never instructs."""

    word: str
    html: Markup
    kind: Literal["note"] = "note"


class VerifyLine(View, frozen=True, kw_only=True):
    """A measure to look at, and what the builder does when it is off."""

    label: str
    html: Markup
    otherwise: Markup = NONE
    kind: Literal["verify"] = "verify"


class WaitBlock(View, frozen=True, kw_only=True):
    """A wait, with blanks for its start and ready times. `minutes` runs the timer; 0 means none.

    `meanwhile` says what the work does not bear until then.
    """

    id: str
    label: str
    what: Markup
    length: str
    minutes: int
    source: str = ""
    meanwhile: str = ""
    if_missed: Markup = NONE
    kind: Literal["wait"] = "wait"


class RepeatBlock(View, frozen=True, kw_only=True):
    """Actions done once for each copy, with one tick box for each."""

    label: str
    heading: Markup
    copies: tuple[str, ...]
    lines: tuple[ActionLine | NoteLine | VerifyLine | WaitBlock, ...]
    kind: Literal["repeat"] = "repeat"


Line: TypeAlias = ActionLine | NoteLine | VerifyLine | WaitBlock | RepeatBlock


class Used(View, frozen=True, kw_only=True):
    """A part, material or tool as a step names it, with its count or amount."""

    name: str
    amount: str = ""


class Now(View, frozen=True, kw_only=True):
    """Where a step of an older revision stands in the current one, and what stops a class at it."""

    text: str
    link: Link
    stops: tuple[str, ...] = ()


class StepView(View, frozen=True, kw_only=True):
    """One step. `anchor` is the id of the block that holds cautions and step together. `lasting` leads to
    its address that never changes; `now` says where the current revision has it, if this is an older one;
    `table` shows what lies on the table before and after it."""

    id: str
    anchor: str
    number: str
    title: str
    heading: str
    who: str = ""
    time: str = ""
    optional: bool = False
    why: Markup = NONE
    cautions: tuple[Caution, ...] = ()
    pictures: tuple[Picture, ...] = ()
    table: tuple[Picture, ...] = ()
    lines: tuple[Line, ...] = ()
    parts: tuple[Used, ...] = ()
    materials: tuple[Used, ...] = ()
    tools: tuple[Used, ...] = ()
    turn: str = ""
    lasting: str = ""
    now: Now | None = None


class StageView(View, frozen=True, kw_only=True):
    """A group of steps: what it starts from and makes, and what the builder holds at its end."""

    number: str
    name: str
    heading: str
    route: str = ""
    who: str = ""
    time: str = ""
    waits: str = ""
    makes: str = ""
    opener: tuple[Picture, ...] = ()
    table: tuple[Picture, ...] = ()
    parts: tuple[Used, ...] = ()
    materials: tuple[Used, ...] = ()
    tools: tuple[Used, ...] = ()
    steps: tuple[StepView, ...] = ()
    holds: tuple[str, ...] = ()
    holds_pictures: tuple[Picture, ...] = ()


# --- the guide's pages ------------------------------------------------------------------------


class Fact(View, frozen=True, kw_only=True):
    """A label and its value, as the overview and the teacher's page list them; or with several `rows`."""

    label: str
    value: str
    note: str = ""
    rows: tuple[str, ...] = ()


class StageRow(View, frozen=True, kw_only=True):
    """A stage as the overview lists it."""

    number: str
    name: str
    href: str
    steps: str
    time: str
    makes: str = ""


class RouteView(View, frozen=True, kw_only=True):
    """One route through the guide, with the way into its build pages."""

    id: str
    name: str
    summary: str
    start: Link
    stages: tuple[StageRow, ...]
    facts: tuple[Fact, ...] = ()
    packets: tuple[Link, ...] = ()


class OverviewView(View, frozen=True, kw_only=True):
    """The first page of a guide."""

    title: str
    summary: Markup
    facts: tuple[Fact, ...]
    picture: Picture | None
    routes: tuple[RouteView, ...]
    choice: str = ""
    words: Link | None = None
    levels: tuple[Caution, ...] = ()
    authority: tuple[str, ...] = ()


class StockRow(View, frozen=True, kw_only=True):
    """One row of the materials list. `steps` links to where it is used."""

    name: str
    size: str
    amount: str
    packs: str = ""
    cost: str = ""
    note: str = ""
    steps: tuple[Link, ...] = ()


class PartRow(View, frozen=True, kw_only=True):
    """One row of the parts list: `source` says made in a step, made by the teacher, or bought; `letter` is
    what the part is called by in exploded views."""

    letter: str = ""
    name: str
    count: str
    size: str
    source: str
    steps: tuple[Link, ...] = ()


class ToolRow(View, frozen=True, kw_only=True):
    """One row of the tools list; `amount` is for the class when the plan is at hand."""

    name: str
    amount: str
    note: str = ""
    steps: tuple[Link, ...] = ()


class ToolGroup(View, frozen=True, kw_only=True):
    """Tools that are shared alike: one for each builder, one for the class ..."""

    heading: str
    rows: tuple[ToolRow, ...]


class MaterialsView(View, frozen=True, kw_only=True):
    """Materials, parts, tools and protective gear. `scale` says for how many they are counted."""

    scale: str
    materials: tuple[StockRow, ...]
    parts: tuple[PartRow, ...]
    tools: tuple[ToolGroup, ...]
    gear: tuple[ToolRow, ...]
    show_packs: bool = False
    total: str = ""


class PatternSheet(View, frozen=True, kw_only=True):
    """One sheet of a pattern at true size. Lengths are in millimetres, written as CSS reads them."""

    id: str
    name: str
    sheet: str
    svg: Markup
    width: str
    height: str
    alt: str
    note: str = ""


class PatternRow(View, frozen=True, kw_only=True):
    """The files of one pattern; `note` says how many the class needs, and on how many sheets."""

    name: str
    links: tuple[Link, ...]
    note: str


class PatternsView(View, frozen=True, kw_only=True):
    """All patterns of a route. `how` tells how to prove the printed size; `files` lead to what is printed,
    `prepared` says what the teacher cuts."""

    how: tuple[str, ...]
    files: tuple[Link, ...] = ()
    prepared: str = ""
    rows: tuple[PatternRow, ...] = ()
    sheets: tuple[PatternSheet, ...]


class HelpRow(View, frozen=True, kw_only=True):
    """A step at which an adult stands by or works, and why."""

    step: Link
    why: str


class KeyRow(View, frozen=True, kw_only=True):
    """What a verify should show, for the teacher's key."""

    step: Link
    shows: Markup
    otherwise: Markup = NONE


class CautionGroup(View, frozen=True, kw_only=True):
    """A caution and the steps it stands before."""

    caution: Caution
    steps: tuple[Link, ...]


class TeacherView(View, frozen=True, kw_only=True):
    """The teacher's page of one route."""

    route: str
    facts: tuple[Fact, ...]
    authority: tuple[str, ...]
    preparation: tuple[StepView, ...]
    help: tuple[HelpRow, ...]
    tools: tuple[ToolGroup, ...]
    key: tuple[KeyRow, ...]
    cautions: tuple[CautionGroup, ...]
