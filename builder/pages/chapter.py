"""What the pages of a route share: its times, its stages, its cautions, where an adult is at hand."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from builder.dryrun.effects import Make
from builder.guide.model import Guide
from builder.pages.book import Chapter
from builder.pages.cautions import cautions
from builder.pages.contexts import Caution, CautionGroup, Fact, HelpRow, Link, RouteView, StageRow
from builder.pages.kit import step_links
from builder.pages.numbering import Numbered
from builder.pages.steps import who_text
from builder.pages.waits import lengths, rounded
from builder.pages.website import capital, packet_path, way
from builder.trade.hazards import hazard
from builder.trade.signals import LEVELS

AUTHORITY = (
    "The labels of the products, your local rules and the responsible adult come before this guide. Where "
    "they say otherwise, do as they say.",
    "This guide was built on paper and checked by rule. No check can see the room, the class or the "
    "weather: the responsible adult judges those.",
)


def makers(chapter: Chapter) -> dict[str, Numbered]:
    """The step in which each thing is first made, by its id."""
    found: dict[str, Numbered] = {}
    for numbered in chapter.steps:
        for frame in chapter.frames[numbered.step.id]:
            for effect in frame.effects:
                if isinstance(effect, Make):
                    found.setdefault(effect.item.thing, numbered)
    return found


def counted(number: int, noun: str) -> str:
    """`1 step`, `4 steps`."""
    return f"{number} {noun}{'' if number == 1 else 's'}"


def time_facts(chapter: Chapter) -> tuple[Fact, ...]:
    """How long the route takes: steps, hands-on time, waits."""
    steps = chapter.builder_steps
    pauses = chapter.waits_in(steps)
    facts = [
        Fact(label="Steps", value=str(len(steps))),
        Fact(
            label="Hands-on time", value=rounded(chapter.hands_on(steps)), note="as estimated by the writer"
        ),
    ]
    if pauses:
        note = f"{lengths(pauses)}, by the labels in the guide"
        facts.append(Fact(label="Waiting", value=counted(len(pauses), "wait"), note=note))
    if chapter.preparation:
        count = counted(len(chapter.preparation), "step")
        facts.append(Fact(label="Preparation", value=count, note="by the teacher, before the class"))
    return tuple(facts)


PAPERS = {"letter": "letter paper", "a4": "A4 paper"}
PARTS = {"builder": "builder’s part", "teacher": "teacher’s part"}


def part_words(part: str) -> str:
    """The part of a packet by its name: `jig-letter-builder` is the builder’s part, letter paper, jig."""
    route, paper, kind = part.rsplit("-", 2)
    told = f"{PARTS.get(kind, kind)}, {PAPERS.get(paper, paper)}"
    return told if route == "build" else f"{told}, route {route}"


def packet_links(chapter: Chapter, page: str, packets: Collection[str]) -> tuple[Link, ...]:
    """The ways to the printed packets of a route, as far as there are any."""
    found = []
    for paper, on in PAPERS.items():
        for part, name in PARTS.items():
            path = packet_path(chapter.guide, chapter.route, paper, part)
            if path in packets:
                found.append(Link(text=f"{capital(name)}, {on}", href=way(path, page)))
    return tuple(found)


def route_view(chapter: Chapter, page: str, packets: Collection[str] = ()) -> RouteView:
    """The route on the overview."""
    rows = tuple(
        StageRow(
            number=stage.number,
            name=stage.stage.name,
            href=way(stage.page, page),
            steps=counted(len(stage.steps), "step"),
            time=rounded(chapter.hands_on(stage.steps)) if chapter.hands_on(stage.steps) else "",
            makes=thing_name(chapter.guide, stage.stage.makes),
        )
        for stage in chapter.stages
    )
    first = chapter.stages[0]
    return RouteView(
        id=chapter.id,
        name=capital(chapter.name) or "Stages",
        summary="",
        start=Link(text=f"Start with stage {first.number}: {first.stage.name}", href=way(first.page, page)),
        stages=rows,
        facts=time_facts(chapter) if chapter.name else (),
        packets=packet_links(chapter, page, packets),
    )


def thing_name(guide: Guide, id: str) -> str:
    """What a reader calls a thing; empty for none."""
    thing = guide.things.get(id)
    return f"the {thing.name}" if thing else ""


def caution_groups(chapter: Chapter, page: str) -> tuple[CautionGroup, ...]:
    """Every caution of the route once, worst first, with the steps that it stands before."""
    found: dict[Caution, list[Numbered]] = {}
    for numbered in chapter.steps:
        for each in cautions(numbered.step, chapter.guide, chapter.stood):
            found.setdefault(each, []).append(numbered)
    order = sorted(found, key=lambda each: LEVELS.index(each.level))
    return tuple(CautionGroup(caution=each, steps=named_links(found[each], page)) for each in order)


def named_links(steps: Iterable[Numbered], page: str) -> tuple[Link, ...]:
    """Links that say "step 7"."""
    return tuple(Link(text=f"step {each.text}", href=each.href) for each in step_links(steps, page))


def step_link(chapter: Chapter, numbered: Numbered, page: str) -> Link:
    """A link that says number and title of a step."""
    text = f"Step {numbered.number}: {chapter.telling.title(numbered.step)}"
    return Link(text=text, href=way(numbered.path, page) if page else f"#{numbered.anchor}")


def help_rows(chapter: Chapter, page: str) -> tuple[HelpRow, ...]:
    """Where an adult is at hand: where the writer says so, and where a hazard asks for one."""
    rows = []
    steps = {each.step.id: each for each in chapter.builder_steps}
    for each in chapter.plan.times.help:
        numbered = steps[each.step]
        asked = [row.hazard for key in each.hazards if (row := hazard(key)) is not None]
        # where no hazard asks for an adult by itself, the cautions of the step say what for
        told = asked or [each.hazard for each in cautions(numbered.step, chapter.guide, chapter.stood)]
        why = " ".join((who_text(numbered.step, each), *(f"{text.rstrip('.')}." for text in told)))
        rows.append(HelpRow(step=step_link(chapter, numbered, page), why=why))
    return tuple(rows)
