"""Guides broken in every way that chance finds: no traceback, bounded time, every place inside its file.

`python -m tests.guide.fuzz 100000` runs that many; `--seed N` begins elsewhere, `--only N` repeats one,
`--of small` takes small guides. The mutations are seeded, so that input number N is the same on every
machine. What is done with each input is a function given as an argument, so that dry runs and checks can be
run through the same mill.
"""

from __future__ import annotations

import argparse
import gc
import multiprocessing
import random
import resource
import signal
import sys
import time
import traceback
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from types import FrameType
from typing import NamedTuple

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.findings import Finding, Sources, as_json, as_text
from builder.findings.annotations import as_annotations
from builder.guide.reader import load, read
from builder.guide.wording import Book, sentence, skeleton, title
from tests.checks.examples_of import FOLDER, whole
from tests.guide.breaking import CHANGES
from tests.guide.planting import GUIDES as FIXTURES
from tests.guide.planting import misplaced, texts_of

Texts = dict[str, str]
Run = Callable[[Texts, str], list[Finding]]

LONGEST = 2.0  # seconds of work for one input
CHUNK = 250  # inputs of one process
MOST_BYTES = 4 << 30  # of memory, for one process

CORPORA = ("fixtures", "guides", "small")
SMALL = FIXTURES.parent / "small"
DEMONSTRATIONS = Path(__file__).parents[2] / "guides"


class Input(NamedTuple):
    """One broken guide."""

    number: int
    texts: Texts
    main: str
    how: str


class Failure(NamedTuple):
    """An input that was not borne, and what happened."""

    number: int
    how: str
    what: str


class TooLong(BaseException):
    """The work on one input went on for too long; not an Exception, so that nothing else catches it."""


def only_reading(texts: Texts, main: str) -> list[Finding]:
    """Read a guide, and print its findings in two ways."""
    findings = list(read(texts, main, VERBS, "fuzz").findings)
    as_text(findings, Sources(texts))
    as_json(findings)
    return findings


def everything(texts: Texts, main: str) -> list[Finding]:
    """Read a guide, word it, build it on paper, ask all checks, and print the findings in each way."""
    guide = read(texts, main, VERBS, "fuzz")
    findings = check(guide)
    as_text(findings, Sources(texts)).encode("utf-8", "surrogatepass")
    as_json(findings)
    as_annotations(findings)
    book = Book(guide)
    for step in guide.every_step():
        title(step, book)
        for action in step.each_action():
            sentence(action, book)
            skeleton(action)
    return findings


# -- what is broken ---------------------------------------------------------------------------------


@cache
def corpus(name: str) -> tuple[tuple[Texts, str], ...]:
    """The guides that are broken, each as its texts and the name of its own: `fixtures`, `guides` or `small`.

    The shorter a guide, the more of its broken forms can be read in the same time; so some stand there often.
    """
    if name == "fixtures":
        often = (("marble-run", 7), ("wind-cart.yml", 3), ("rolled-rocket.yml", 1))
        return tuple(texts_of(each) for each, times in often for _ in range(times))
    if name == "guides":
        shown = [load(path.parent)[:2] for path in sorted(DEMONSTRATIONS.glob("*/guide.yml"))]
        return (*shown, texts_of("wind-cart.yml"), texts_of("rolled-rocket.yml"))
    shared = {"coil.yml": (SMALL / "common" / "coil.yml").read_text("utf-8")}
    files = sorted(SMALL.glob("*.yml"))
    own = [({each.name: each.read_text("utf-8"), **shared}, each.name) for each in files]
    examples = sorted(FOLDER.glob("*/*.yml"))
    short = [({"guide.yml": whole(each.read_text("utf-8")).text}, "guide.yml") for each in examples]
    return (*own * 6, *short)


def inputs(count: int, seed: int = 0, of: str = "fixtures") -> Iterator[Input]:
    """So many broken guides, each from its own number."""
    guides = corpus(of)
    for number in range(seed, seed + count):
        chance = random.Random(number)
        texts, main = chance.choice(guides)
        file = main if chance.random() < 0.85 else chance.choice(sorted(texts))
        text, how = texts[file], []
        for _ in range(chance.choice((1, 1, 1, 2, 3, 8))):
            name, change = chance.choice(CHANGES)
            text = change(text, chance)
            how.append(name)
        yield Input(number, {**texts, file: text}, main, f"{', '.join(how)} in {file}")


def run_all(each: Iterator[Input], run: Run) -> Iterator[Failure]:
    """What was not borne: an exception, a place outside its file, a run that took too long."""
    for number, texts, main, how in each:
        begin = time.process_time()
        try:
            findings = run(texts, main)
        except (Exception, TooLong):  # whatever it is, it is a failure to report
            yield Failure(number, how, traceback.format_exc(limit=-6))
            continue
        took = time.process_time() - begin
        wrong = misplaced(findings, texts)
        if wrong:
            yield Failure(number, how, f"a place outside its file: {wrong[0]}")
        if took > LONGEST:
            yield Failure(number, how, f"took {took:.1f} s")


# -- the mill ---------------------------------------------------------------------------------------


class Task(NamedTuple):
    """What one process does."""

    begin: int
    end: int
    of: str
    checked: bool


def _stop(_signal: int, _frame: FrameType | None) -> None:
    raise TooLong


def _limited(run: Run) -> Run:
    """A run that ends by itself when it takes ten times too long."""

    def limited(texts: Texts, main: str) -> list[Finding]:
        signal.setitimer(signal.ITIMER_PROF, 10 * LONGEST)
        try:
            return run(texts, main)
        finally:
            signal.setitimer(signal.ITIMER_PROF, 0)

    return limited


def milled(task: Task) -> tuple[Task, list[Failure]]:
    """Run the inputs of a task, in a process of its own."""
    signal.signal(signal.SIGPROF, _stop)
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    gc.freeze()  # what was loaded before stays: to look through it again costs a third of the time
    gc.set_threshold(50_000, 20, 100)
    run = everything if task.checked else only_reading
    return task, list(run_all(inputs(task.end - task.begin, task.begin, task.of), _limited(run)))


def _tasks(count: int, seed: int, of: str, checked: bool) -> Iterator[Task]:
    for begin in range(seed, seed + count, CHUNK):
        yield Task(begin, min(begin + CHUNK, seed + count), of, checked)


def main() -> int:
    """Run the mill; 1 if anything was not borne."""
    options = argparse.ArgumentParser(description=(__doc__ or "").split("\n")[0])
    options.add_argument("count", type=int, nargs="?", default=3000)
    options.add_argument("--seed", type=int, default=0)
    options.add_argument("--of", choices=CORPORA, default=CORPORA[0], help="what is broken")
    options.add_argument("--check", action="store_true", help="wording, dry runs and checks too")
    options.add_argument("--jobs", type=int, default=1, help="so many processes at a time")
    options.add_argument("--only", type=int, help="this one alone, and print it")
    given = options.parse_args()
    if given.only is not None:
        one = next(inputs(1, given.only, given.of))
        print("\n".join(f"-- {name}\n{text}" for name, text in one.texts.items()), f"\n-- {one.how}")
        given.count, given.seed = 1, given.only
    begin = time.perf_counter()
    failures = 0
    corpus(given.of)  # read once, before the processes part
    with multiprocessing.Pool(given.jobs, maxtasksperchild=1) as pool:
        done = pool.imap_unordered(milled, _tasks(given.count, given.seed, given.of, given.check))
        for task, failed in done:
            failures += len(failed)
            for each in failed:
                print(f"{each.number} ({each.how}): {each.what}", flush=True)
            if given.count > CHUNK:
                print(f"{task.begin} to {task.end - 1}: {len(failed)} not borne", flush=True)
    took = time.perf_counter() - begin
    print(f"{given.count} inputs, {failures} not borne, {took:.0f} s")
    return int(bool(failures))


if __name__ == "__main__":
    sys.exit(main())
