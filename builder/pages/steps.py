"""A step of a route -> its view: cautions, drawing, lines, waits, ticks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from markupsafe import Markup

from builder.dryrun.bench import Bench
from builder.guide.model import Action, Guide, Note, Repeat, Step, Thing
from builder.pages.bench_words import carrier, counted_name, in_hand
from builder.pages.cautions import Stood, cautions
from builder.pages.contexts import (
    NONE,
    ActionLine,
    Line,
    NoteLine,
    Picture,
    RepeatBlock,
    StepView,
    Used,
    VerifyLine,
    WaitBlock,
)
from builder.pages.numbering import Numbered, names_in, only_cut
from builder.pages.telling import Telling
from builder.pages.waits import meanwhile, source_text
from builder.plan.times import Help, Wait
from builder.plan.used import gear_of, taken
from builder.quantities.show import show_time

NOTE_WORD = {"note": "Note", "tip": "Tip", "why": "Why"}
WHO = {
    "adult helps": "An adult stands by.",
    "adult": "An adult does this step.",
    "teacher": "The teacher does this.",
}
SimpleLine = ActionLine | NoteLine | VerifyLine | WaitBlock


class StepWriter:
    """Writes the views of one route's steps. `before` are the benches before each step, by its id;
    `help` is where an adult is at hand; `waits` and their seconds (`told`) go by the action's path;
    `stood` are the cautions that a sealed revision printed, by step."""

    def __init__(
        self,
        guide: Guide,
        telling: Telling,
        before: Mapping[str, Bench],
        help: Mapping[str, Help],
        waits: Mapping[str, Wait],
        told: Mapping[str, Fraction],
        stood: Stood | None = None,
    ) -> None:
        self.guide = guide
        self.stood = stood
        self.telling = telling
        self.before = before
        self.help = help
        self.waits = waits
        self.told = told

    def view(self, numbered: Numbered, pictures: Iterable[Picture] = ()) -> StepView:
        """The whole step, with what was drawn of it."""
        step, number = numbered.step, numbered.number
        title = self.telling.title(step)
        return StepView(
            id=step.id,
            anchor=numbered.anchor,
            number=number,
            title=title,
            heading=f"Step {number}: {title}",
            who=who_text(step, self.help.get(step.id)),
            time=self.time_text(step),
            optional=step.optional,
            why=self.telling.prose(step.why) if step.why else NONE,
            cautions=cautions(step, self.guide, self.stood),
            pictures=tuple(pictures),
            lines=tuple(self.lines(numbered)),
            parts=self.parts(step),
            materials=self.used(step, ("material",)),
            tools=self.used(step, ("tool",)),
        )

    def lines(self, numbered: Numbered) -> list[Line]:
        """All lines of a step, each action with its label."""
        lines: list[Line] = []
        order = 0
        for entry in numbered.step.actions:
            order += 1
            label = f"{numbered.number}.{order}"
            if isinstance(entry, Repeat):
                lines.append(self.repeat(entry, label))
                continue
            told = self.action(entry, label)
            order -= not told
            lines += told
        return lines + [self.note(note) for note in numbered.step.notes]

    def repeat(self, repeat: Repeat, label: str) -> RepeatBlock:
        """Actions that are done once for each copy."""
        lines: list[SimpleLine] = []
        order = 0
        for action in repeat.actions:
            told = self.action(action, f"{label}.{order + 1}")
            order += bool(told)
            lines += told
        thing = self.guide.things[repeat.of.id]
        return RepeatBlock(
            label=label,
            heading=self.telling.repeat(repeat),
            copies=tuple(
                f"{thing.name} {number}" for number in repeat.of.copies or range(1, thing.count + 1)
            ),
            lines=(*lines, *(self.note(note) for note in repeat.notes)),
        )

    def action(self, action: Action, label: str) -> list[SimpleLine]:
        """The line of an action and those of its notes; nothing for one that the line above tells."""
        notes: list[SimpleLine] = [self.note(note) for note in action.notes]
        html = self.telling.action(action)
        if not html:
            return notes
        line: SimpleLine = ActionLine(label=label, html=html)
        if action.verb.kind == "wait":
            line = self.wait(action, label, html)
        elif action.verb.kind == "verify":
            line = VerifyLine(label=label, html=html, otherwise=self.telling.otherwise(action))
        return [line, *notes]

    def wait(self, action: Action, label: str, html: Markup) -> WaitBlock:
        """A wait as a block of its own, with its length from the labels."""
        found = self.waits.get(action.path)
        seconds = self.told.get(action.path, Fraction(0))
        return WaitBlock(
            id=f"wait-{label.replace('.', '-')}",
            label=label,
            what=html,
            length=show_time(seconds) if seconds else "",
            minutes=int(-(-seconds // 60)),
            source=source_text(found, action, self.guide) if found else "",
            meanwhile=meanwhile(found) if found else "",
            if_missed=self.telling.otherwise(action),
        )

    def note(self, note: Note) -> NoteLine:
        """A note, a tip or a reason."""
        return NoteLine(word=NOTE_WORD[note.kind], html=self.telling.prose(note.text))

    def time_text(self, step: Step) -> str:
        """Hands-on time of a step; a preparation says its set-up and its time for each."""
        each = show_time(step.time.quantity) if step.time and step.time.quantity else ""
        if step.set_up and step.set_up.quantity:
            return f"{show_time(step.set_up.quantity)} to set up" + (f", {each} each" if each else "")
        return each

    def used(self, step: Step, sorts: Iterable[str]) -> tuple[Used, ...]:
        """The things of these sorts that a step takes, in its order; not what it only makes, as a jig."""
        unnamed = (name for action in step.each_action() for name in taken(action, self.guide))
        names = (*names_in(step, self.guide), *unnamed, *gear_of(step, self.guide))
        made = only_cut(step, self.guide)
        things = (self.guide.things.get(name) for name in dict.fromkeys(names) if name not in made)
        return tuple(self.used_row(thing) for thing in things if thing is not None and thing.sort in sorts)

    def parts(self, step: Step) -> tuple[Used, ...]:
        """The parts that a step takes in hand: those that are there when it begins."""
        bench = self.before.get(step.id)
        if bench is None:
            return ()
        things = [self.guide.things[name] for name in names_in(step, self.guide) if name in self.guide.things]
        whole = {carrier(thing): thing for thing in things if thing.form == "assembly"}
        return in_hand(self.guide, bench, [carrier(thing) for thing in things], whole)

    def used_row(self, thing: Thing) -> Used:
        """A thing by name, with its count if there are several."""
        return Used(name=counted_name(thing, thing.count))


def who_text(step: Step, help: Help | None) -> str:
    """Who helps with a step or does it, as a short sentence; a hazard may ask for an adult by itself."""
    who = step.who or (step.stage.who if step.stage.per_class else "") or (help.who if help else "")
    if not who:
        return WHO["adult helps"] if help else ""
    return WHO.get(who, f"{who[:1].upper()}{who[1:]}.")
