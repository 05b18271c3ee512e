"""`make bench`: where the time of a check goes, as ratios measured side by side in one run.

The unit is the C compose of the same YAML text. Nothing here is a test: machines differ, ratios less.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import yaml

from builder.checks.judge import check
from builder.dryrun.kinds import VERBS
from builder.dryrun.run import run_all
from builder.guide.reader import load, read

GUIDE = Path(__file__).parent / "fixtures" / "bench" / "sixty"
ROUNDS = 15


def spent() -> float:
    """Processor seconds of this process and the processes that it has waited for; a busy machine changes
    them little."""
    both = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return sum(used.ru_utime + used.ru_stime for used in both)


def best(
    work: Callable[[], object], rounds: int = ROUNDS, clock: Callable[[], float] = time.process_time
) -> float:
    """The shortest of several rounds, in processor seconds."""
    times = []
    for _ in range(rounds):
        start = clock()
        work()
        times.append(clock() - start)
    return min(times)


def in_turn(*works: Callable[[], object]) -> list[float]:
    """The shortest round of each, in processor seconds; taken in turn, so that all meet the same machine."""
    rounds = [[best(work, 1, spent) for work in works] for _ in range(ROUNDS)]
    return [min(times) for times in zip(*rounds, strict=True)]


def process(*code: str) -> Callable[[], object]:
    """A whole Python process; it keeps the bytecode of its modules, as an installed command does."""
    around = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return lambda: subprocess.run([sys.executable, *code], check=False, capture_output=True, env=around)


def main() -> None:
    """Print the ratios."""
    texts, name, findings = load(GUIDE)
    yml = [text for file, text in texts.items() if file.endswith(".yml")]
    guide = read(texts, name, VERBS, "sixty", findings)
    runs = run_all(guide)
    steps = len(list(guide.every_step()))
    print(f"{steps} steps, {len(guide.routes)} routes, {sum(map(len, yml)):,} characters of YAML")
    loader = yaml.CSafeLoader

    def composed() -> None:
        for text in yml:
            yaml.compose(text, Loader=loader)

    def everything() -> None:
        check(read(texts, name, VERBS, "sixty", findings))

    unit = best(composed)
    rows = (
        ("compose the YAML", unit),
        ("read the guide", best(lambda: read(texts, name, VERBS, "sixty", findings))),
        ("dry run of all routes", best(lambda: run_all(guide))),
        ("checks", best(lambda: check(guide, runs))),
        ("read, run and check", best(everything)),
    )
    for title, seconds in rows:
        print(f"{title:<24}{seconds * 1000:8.1f} ms  {seconds / unit:6.1f} x compose")
    base, cold = in_turn(
        process("-c", "import yaml, click, msgspec"), process("-m", "builder", "check", str(GUIDE))
    )
    print(f"{'cold imports only':<24}{base * 1000:8.1f} ms")
    print(f"{'cold kitwright check':<24}{cold * 1000:8.1f} ms  {cold / base:6.2f} x imports")


if __name__ == "__main__":
    main()
