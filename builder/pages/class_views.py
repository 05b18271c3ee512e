"""Contexts of a class: what to buy, what to lay out and to make, times, waits and queues, as tables."""

from __future__ import annotations

from markupsafe import Markup

from builder.pages.contexts import NONE, Caution, Link, MaterialsView, Picture, TeacherView, ToolRow, View


class SpanRow(View, frozen=True, kw_only=True):
    """Times of a stage, or of the whole route."""

    name: str
    hands_on: str
    waiting: str
    elapsed: str


class PreparingRow(View, frozen=True, kw_only=True):
    """A step of preparation: what is made, and how long it takes."""

    step: Link
    makes: str
    how: str
    time: str


class ClassWait(View, frozen=True, kw_only=True):
    """A wait: how long at least, what the work does not bear meanwhile, which step waits for it."""

    step: Link
    what: Markup
    length: str
    meanwhile: str
    first: Link | None = None
    if_missed: Markup = NONE


class QueueRow(View, frozen=True, kw_only=True):
    """A shared tool: in which steps it is busy, how many turns the class takes, how long that is."""

    tool: str
    steps: tuple[Link, ...]
    turns: str
    time: str


class PeriodRow(View, frozen=True, kw_only=True):
    """A period: what is done in it, how much of it that takes, what rests at its end."""

    number: str
    day: str
    steps: tuple[Link, ...]
    time: str
    rests: tuple[Link, ...]


class PeriodsView(View, frozen=True, kw_only=True):
    """The periods of a class. `told` says how they are reckoned, `trouble` why there is no plan."""

    told: str
    least: str
    rows: tuple[PeriodRow, ...]
    trouble: str = ""


class ClassView(View, frozen=True, kw_only=True):
    """What a class needs beside the lists that every guide has."""

    advice: tuple[Caution, ...]
    spans: tuple[SpanRow, ...]
    whole: SpanRow
    preparing: tuple[PreparingRow, ...]
    preparing_time: str
    lay_out: tuple[str, ...]
    waits: tuple[ClassWait, ...]
    queues: tuple[QueueRow, ...]
    unpriced: str = ""
    periods: PeriodsView | None = None
    budget: str = ""


class MaterialsPage(View, frozen=True, kw_only=True):
    """What one builder needs, and what is bought for a class. `settings` says for which class, `apart` shows
    the kit pulled apart with the letters of its parts."""

    one: MaterialsView
    shopping: MaterialsView
    settings: str
    advice: tuple[Caution, ...] = ()
    unpriced: str = ""
    apart: Picture | None = None


class TeacherPage(View, frozen=True, kw_only=True):
    """The teacher's page: the lists that every guide has, and the tables of a class."""

    teacher: TeacherView
    plan: ClassView
    settings: str
    shopping: Link
    gear: tuple[ToolRow, ...] = ()
    packets: tuple[Link, ...] = ()
