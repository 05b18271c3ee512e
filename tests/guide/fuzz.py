"""Guides broken in every way that chance finds: no traceback, bounded time, every place inside its file.

`python -m tests.guide.fuzz 100000` runs that many; `--seed N` begins elsewhere, `--only N` repeats one.
The mutations are seeded, so that input number N is the same on every machine. What is done with each
input is a function given as an argument, so that dry runs and checks can be run through the same mill.
"""

from __future__ import annotations

import argparse
import random
import re
import sys
import time
import traceback
from collections.abc import Callable, Iterator
from typing import NamedTuple

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.findings import Finding, Sources, as_json, as_text
from builder.guide.reader import read
from tests.guide.planting import misplaced, texts_of

Texts = dict[str, str]
Run = Callable[[Texts, str], list[Finding]]

LONGEST = 5.0  # seconds of work for one input, on a slow machine


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


def only_reading(texts: Texts, main: str) -> list[Finding]:
    """Read a guide, and print its findings in two ways."""
    findings = list(read(texts, main, VERBS, "fuzz").findings)
    as_text(findings, Sources(texts))
    as_json(findings)
    return findings


def built_and_checked(texts: Texts, main: str) -> list[Finding]:
    """Read a guide, build it on paper, and ask all checks."""
    findings = check(read(texts, main, VERBS, "fuzz"))
    as_text(findings, Sources(texts))
    return findings


# The shorter a guide, the more of its broken forms can be read in the same time.
GUIDES = (("marble-run", 7), ("wind-cart.yml", 3), ("rolled-rocket.yml", 1))


def inputs(count: int, seed: int = 0) -> Iterator[Input]:
    """So many broken guides, each from its own number."""
    guides = [texts_of(name) for name, often in GUIDES for _ in range(often)]
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
        except Exception:  # whatever it is, it is a failure to report
            yield Failure(number, how, traceback.format_exc(limit=-6))
            continue
        took = time.process_time() - begin
        wrong = misplaced(findings, texts)
        if wrong:
            yield Failure(number, how, f"a place outside its file: {wrong[0]}")
        if took > LONGEST:
            yield Failure(number, how, f"took {took:.1f} s")


# -- ways to break a text -------------------------------------------------------------------------

ODD = (
    "\0", "\x07", "\x1b[31m", "\x7f", "\x85", "\u2028", "\ufeff", "\ud800", "\uffff", "\u202e", "\u200b",
    "é", "½", "±",
    "\t", "\r", "\r\n", "\n", "\n\n", " ", "  ", "'", '"', "{", "}", "[", "]", "{{", "}}", ",", ":", ": ",
    "- ", "-", "? ",
    "# ", " #2", "#", "&a ", "*a", "<<: ", "!!python/object:os.system ", "!", "|", ">-", "%", "@", "`", "\\",
    "---\n", "...\n",
    "..", "/", "../../etc/passwd", "$(ls)", "<script>", "0", "-1", "1e9", "1000000000",
    "99999999999999999999", "1/0", "0/0",
    "31/4 in", "1:30", "pi", "pi/pi", "(((((", "+-+-", "12 1/2 in ± 1 in ± 1 in", "all", "nothing", "yes",
    "~", "null", "",
    "like: body", "use: roll_tube", "choose: fin_alignment", "stage: x", "repeat: fin", "count: 9999",
    "evenly for fin",
    "to: meets meets meets", "1 in from 2 in from 3 in from x and 4 in from y", "where x will sit",
    "fin 1 and 2, 3 and 99",
)  # fmt: skip

Change = Callable[[str, random.Random], str]


def _cut_out(text: str, chance: random.Random) -> str:
    at = chance.randrange(len(text) + 1)
    return text[:at] + text[at + chance.choice((1, 1, 2, 5, 40, 400)) :]


def _put_in(text: str, chance: random.Random) -> str:
    at = chance.randrange(len(text) + 1)
    return text[:at] + chance.choice(ODD) + text[at:]


def _flip(text: str, chance: random.Random) -> str:
    if not text:
        return text
    at = chance.randrange(len(text))
    return text[:at] + chr(max(0, ord(text[at]) ^ (1 << chance.randrange(7)))) + text[at + 1 :]


def _words(text: str) -> list[str]:
    """A text as words and what stands between them."""
    return re.findall(r"[\w.]+|.", text, re.DOTALL) or [""]


def _swap_words(text: str, chance: random.Random) -> str:
    words = _words(text)
    i, j = chance.randrange(len(words)), chance.randrange(len(words))
    words[i], words[j] = words[j], words[i]
    return "".join(words)


def _odd_word(text: str, chance: random.Random) -> str:
    words = _words(text)
    words[chance.randrange(len(words))] = chance.choice(ODD)
    return "".join(words)


def _drop_word(text: str, chance: random.Random) -> str:
    words = _words(text)
    del words[chance.randrange(len(words))]
    return "".join(words)


def _spell(text: str, chance: random.Random) -> str:
    words = _words(text)
    i = chance.randrange(len(words))
    letters = list(words[i])
    chance.shuffle(letters)
    words[i] = "".join(letters)
    return "".join(words)


def _lines(change: Callable[[list[str], random.Random], list[str]]) -> Change:
    return lambda text, chance: "\n".join(change(text.split("\n"), chance))


def _drop_line(lines: list[str], chance: random.Random) -> list[str]:
    at = chance.randrange(len(lines))
    return lines[:at] + lines[at + chance.choice((1, 1, 2, 6)) :]


def _double_line(lines: list[str], chance: random.Random) -> list[str]:
    at = chance.randrange(len(lines))
    return lines[: at + 1] + lines[at:]


def _move_line(lines: list[str], chance: random.Random) -> list[str]:
    lines = list(lines)
    line = lines.pop(chance.randrange(len(lines)))
    lines.insert(chance.randrange(len(lines) + 1), line)
    return lines


def _shift_line(lines: list[str], chance: random.Random) -> list[str]:
    at = chance.randrange(len(lines))
    line = lines[at]
    shifted = " " * chance.randrange(1, 5) + line if chance.random() < 0.5 else line[chance.randrange(1, 5) :]
    return [*lines[:at], shifted, *lines[at + 1 :]]


def _join_lines(lines: list[str], chance: random.Random) -> list[str]:
    at = chance.randrange(len(lines))
    return [*lines[:at], " ".join(lines[at : at + 2]), *lines[at + 2 :]]


def _other_value(text: str, chance: random.Random) -> str:
    """A value replaced by another of the same text, as a writer's slip of the hand would."""
    pieces = [i for i, sign in enumerate(text) if sign in ",:[{" and i + 1 < len(text)]
    if len(pieces) < 2:
        return text
    i, j = chance.choice(pieces), chance.choice(pieces)
    value = text[j + 1 : j + 1 + chance.randrange(1, 30)].split("\n")[0]
    stop = next((k for k in range(i + 1, len(text)) if text[k] in ",:]}\n"), len(text))
    return text[: i + 1] + value + text[stop:]


def _no_dash(text: str, chance: random.Random) -> str:
    dashes = [i for i in range(len(text) - 1) if text[i : i + 2] == "- "]
    if not dashes:
        return text
    at = chance.choice(dashes)
    return text[:at] + "  " + text[at + 2 :]


def _ends_of_lines(text: str, chance: random.Random) -> str:
    return text.replace("\n", chance.choice(("\r\n", "\r", "\n\n")))


def _stop_short(text: str, chance: random.Random) -> str:
    return text[: chance.randrange(len(text) + 1)]


def _twice(text: str, chance: random.Random) -> str:
    return text + chance.choice(("", "\n", "\n---\n")) + text


CHANGES: tuple[tuple[str, Change], ...] = (
    ("cut out", _cut_out), ("put in", _put_in), ("put in", _put_in), ("flip", _flip),
    ("swap words", _swap_words), ("odd word", _odd_word), ("odd word", _odd_word), ("drop word", _drop_word),
    ("spell", _spell), ("drop line", _lines(_drop_line)), ("double line", _lines(_double_line)),
    ("move line", _lines(_move_line)), ("shift line", _lines(_shift_line)),
    ("join lines", _lines(_join_lines)),
    ("other value", _other_value), ("other value", _other_value), ("no dash", _no_dash),
    ("ends of lines", _ends_of_lines), ("stop short", _stop_short), ("twice", _twice),
)  # fmt: skip


def main() -> int:
    """Run the mill; 1 if anything was not borne."""
    options = argparse.ArgumentParser(description=(__doc__ or "").split("\n")[0])
    options.add_argument("count", type=int, nargs="?", default=3000)
    options.add_argument("--seed", type=int, default=0)
    options.add_argument("--check", action="store_true", help="dry runs and checks too, not reading alone")
    options.add_argument("--only", type=int, help="this one alone, and print it")
    given = options.parse_args()
    if given.only is not None:
        one = next(inputs(1, given.only))
        print(one.texts[one.main], f"\n-- {one.how}")
        given.count, given.seed = 1, given.only
    begin = time.perf_counter()
    failures = 0
    run = built_and_checked if given.check else only_reading
    for failure in run_all(inputs(given.count, given.seed), run):
        failures += 1
        print(f"{failure.number} ({failure.how}): {failure.what}", flush=True)
    took = time.perf_counter() - begin
    print(f"{given.count} inputs, {failures} not borne, {took:.0f} s")
    return int(bool(failures))


if __name__ == "__main__":
    sys.exit(main())
