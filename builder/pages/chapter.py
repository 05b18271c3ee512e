"""The pages of one route: build pages by stage, materials, teacher's page; and its row on the overview."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction

from markupsafe import Markup

from builder.dryrun.bench import Bench
from builder.dryrun.effects import Make
from builder.guide.model import Action, Guide, Stage, Step
from builder.guide.wording import name_of
from builder.pages.book import Chapter
from builder.pages.cautions import cautions, gear_of_step, needs_adult, taken
from builder.pages.contexts import (
    Caution,
    CautionGroup,
    Fact,
    HelpRow,
    KeyRow,
    Link,
    MaterialsView,
    Picture,
    RouteView,
    StageRow,
    StageView,
    TeacherView,
    Used,
    WaitRow,
)
from builder.pages.kit import Uses, materials_view, step_links, tool_groups, uses
from builder.pages.numbering import Numbered, NumberedStage
from builder.pages.steps import who_text
from builder.pages.website import capital, way
from builder.quantities.show import show_time
from builder.trade.signals import LEVELS

Pictures = Callable[[Step], tuple[Picture, ...]]

AUTHORITY = (
    "The labels of the products, your local rules and the responsible adult come before this guide. Where "
    "they say otherwise, do as they say.",
    "This guide was built on paper and checked by rule. No check can see the room, the class or the "
    "weather: the responsible adult judges those.",
)


def no_pictures(step: Step) -> tuple[Picture, ...]:
    """For pages without drawings."""
    return ()


def uses_of(chapter: Chapter) -> Uses:
    """The steps that use each thing, those that a verb or a hazard takes unnamed among them."""
    guide = chapter.guide
    more = {
        each.step.id: (*taken(each.step, guide), *gear_of_step(each.step, guide)) for each in chapter.steps
    }
    return uses(guide, chapter.route, more)


def makers(chapter: Chapter) -> dict[str, Numbered]:
    """The step in which each thing is first made, by its id."""
    found: dict[str, Numbered] = {}
    for numbered in chapter.steps:
        for frame in chapter.frames[numbered.step.id]:
            for effect in frame.effects:
                if isinstance(effect, Make):
                    found.setdefault(effect.item.thing, numbered)
    return found


def rounded(seconds: Fraction) -> str:
    """A time as a plan shows it."""
    return show_time(seconds, up=True)


def counted(number: int, noun: str) -> str:
    """`1 step`, `4 steps`."""
    return f"{number} {noun}{'' if number == 1 else 's'}"


def waits(chapter: Chapter) -> list[tuple[Numbered, Action, Fraction]]:
    """Every wait of the builder's steps that lasts, with its seconds."""
    found = []
    for numbered in chapter.builder_steps:
        for frame in chapter.frames[numbered.step.id]:
            if frame.action.verb.kind == "wait" and frame.seconds:
                found.append((numbered, frame.action, frame.seconds))
    return found


def time_facts(chapter: Chapter) -> tuple[Fact, ...]:
    """How long the route takes: steps, hands-on time, waits."""
    steps = chapter.builder_steps
    pauses = waits(chapter)
    longest = max((seconds for *_, seconds in pauses), default=Fraction(0))
    facts = [
        Fact(label="Steps", value=str(len(steps))),
        Fact(
            label="Hands-on time", value=rounded(chapter.hands_on(steps)), note="as estimated by the writer"
        ),
        Fact(
            label="Waiting",
            value=f"{counted(len(pauses), 'wait')}, {rounded(chapter.waiting(steps))} in all",
            note=f"the longest {rounded(longest)}, by the labels in the guide" if pauses else "",
        ),
    ]
    if chapter.preparation:
        count = counted(len(chapter.preparation), "step")
        facts.append(Fact(label="Preparation", value=count, note="by the teacher, before the class"))
    return tuple(facts)


def route_view(chapter: Chapter, page: str) -> RouteView:
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
        start=Link(text=f"Start with {first.stage.name}", href=way(first.page, page)),
        stages=rows,
        facts=time_facts(chapter) if chapter.name else (),
    )


def thing_name(guide: Guide, id: str) -> str:
    """What a reader calls a thing; empty for none."""
    thing = guide.things.get(id)
    return f"the {thing.name}" if thing else ""


def stage_view(chapter: Chapter, stage: NumberedStage, pictures: Pictures = no_pictures) -> StageView:
    """A build page."""
    steps = tuple(chapter.writer.view(each, pictures(each.step)) for each in stage.steps)
    last = chapter.frames[stage.steps[-1].step.id]
    before = chapter.frames[stage.steps[0].step.id]
    return StageView(
        number=stage.number,
        name=stage.stage.name,
        heading=f"Stage {stage.number}: {stage.stage.name}",
        route=chapter.name,
        time=rounded(chapter.hands_on(stage.steps)),
        parts=brought(chapter, stage, before[0].before if before else None),
        materials=_once(each for step in steps for each in step.materials),
        tools=_once(each for step in steps for each in step.tools),
        steps=steps,
        holds=holds(chapter.guide, stage.stage, last[-1].after) if last else (),
    )


def brought(chapter: Chapter, stage: NumberedStage, bench: Bench | None) -> tuple[Used, ...]:
    """The parts that a stage starts from: those that its steps name and that are there already."""
    if bench is None:
        return ()
    there = {item.thing for item in bench.items.values()}
    steps = [chapter.writer.used(each.step, ("part", "assembly")) for each in stage.steps]
    names = {
        thing.name for thing in chapter.guide.things.values() if thing.id in there or _made(thing.refs, there)
    }
    return _once(each for used in steps for each in used if each.name in names)


def _made(refs: object, there: set[str]) -> bool:
    base = refs.get("base") if isinstance(refs, dict) else None
    return base is not None and base.id in there


def _once(items: Iterable[Used]) -> tuple[Used, ...]:
    return tuple({item.name: item for item in items}.values())


def holds(guide: Guide, stage: Stage, bench: Bench) -> tuple[Markup, ...]:
    """What the builder holds at the end of a stage: each thing with what sits on it, largest first."""
    roots: dict[str, list[str]] = {}
    for key, item in bench.items.items():
        thing = guide.things[item.thing]
        if (
            thing.sort == "part"
            and not thing.blank_of
            and not (thing.words.get("source") and key not in bench.seats)
        ):
            roots.setdefault(bench.root(key), []).append(key)
    told: dict[str, int] = {}
    for root, keys in sorted(roots.items(), key=lambda pair: -len(pair[1])):
        inner: dict[str, int] = {}
        for key in keys:
            if key != root:
                inner[bench.items[key].thing] = inner.get(bench.items[key].thing, 0) + 1
        thing = guide.things[bench.items[root].thing]
        if thing.sort != "part":
            continue
        parts = [_several(guide, id, count) for id, count in inner.items()]
        text = thing.name + (f", with {_listed(parts)}" if parts else "")
        told[text] = told.get(text, 0) + 1
    return tuple(
        Markup("{}").format(text if count == 1 else f"{count} times: {text}") for text, count in told.items()
    )


def _several(guide: Guide, id: str, count: int) -> str:
    name = name_of(guide.things[id], count)
    return f"{count} {name}" if count > 1 else f"the {name}"


def _listed(words: list[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def materials(chapter: Chapter, page: str) -> MaterialsView:
    """What one builder needs on this route."""
    return materials_view(chapter.guide, uses_of(chapter), page, makers(chapter))


def caution_groups(chapter: Chapter, page: str) -> tuple[CautionGroup, ...]:
    """Every caution of the route once, worst first, with the steps that it stands before."""
    found: dict[Caution, list[Numbered]] = {}
    for numbered in chapter.steps:
        for each in cautions(numbered.step, chapter.guide):
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
    for numbered in chapter.builder_steps:
        step = numbered.step
        why = [who_text(step)] if step.who else []
        why += [f"{each}." for each in needs_adult(step, chapter.guide)]
        if why:
            rows.append(HelpRow(step=step_link(chapter, numbered, page), why=" ".join(why)))
    return tuple(rows)


def teacher_view(chapter: Chapter, page: str, pictures: Pictures = no_pictures) -> TeacherView:
    """The teacher's page of a route."""
    used = uses_of(chapter)
    return TeacherView(
        route=chapter.name,
        facts=time_facts(chapter),
        authority=AUTHORITY,
        preparation=tuple(chapter.writer.view(each, pictures(each.step)) for each in chapter.preparation),
        setup=setup_lines(chapter),
        help=help_rows(chapter, page),
        tools=tool_groups(chapter.guide, used, page, {}),
        waits=tuple(
            WaitRow(
                step=step_link(chapter, numbered, page),
                what=chapter.telling.action(action),
                length=rounded(seconds),
                if_missed=chapter.telling.otherwise(action),
            )
            for numbered, action, seconds in waits(chapter)
        ),
        key=tuple(
            KeyRow(
                step=step_link(chapter, numbered, page),
                shows=chapter.telling.action(action),
                otherwise=chapter.telling.otherwise(action),
            )
            for numbered in chapter.builder_steps
            for action in numbered.step.each_action()
            if action.verb.kind == "verify"
        ),
        cautions=caution_groups(chapter, page),
    )


def setup_lines(chapter: Chapter) -> tuple[Markup, ...]:
    """What is done before the class, as a list to tick."""
    lines = []
    for numbered in chapter.preparation:
        title = chapter.telling.title(numbered.step)
        time = chapter.writer.time_text(numbered.step)
        lines.append(Markup("{} ({}{})").format(title, numbered.number, f"; {time}" if time else ""))
    shared = [
        Markup("Lay out: {}").format(", ".join(row.name for row in group.rows))
        + Markup(" ({})").format(group.heading.lower())
        for group in tool_groups(chapter.guide, uses_of(chapter), "", {})
    ]
    return (*lines, *shared)
