"""python -m tests.overlaps [GUIDE]...: every drawing, both units, light and dark, at 320 px and printed.

Tells each overlap once, with the look in which it was first seen.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.conftest import program
from tests.drawings.guides import NAMES
from tests.overlaps.browser import Browser
from tests.overlaps.collect import jobs, shown
from tests.overlaps.looking import LOOKS, looked, page_of

AT_ONCE = 150
"""So many drawings stand on one page."""


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.overlaps", description=__doc__)
    parser.add_argument("guides", nargs="*", default=NAMES)
    parser.add_argument("--loose", action="store_true", help="tell also of lines above and below letters")
    asked = parser.parse_args()
    bad: dict[str, None] = {}
    loose: dict[str, None] = {}
    drawings = texts = 0
    with (
        TemporaryDirectory() as place,
        Browser(program("chromium", "chromium-browser"), Path(place) / "profile") as browser,
    ):
        page = Path(place) / "drawings.html"
        for name in asked.guides:
            every = shown(jobs(name))
            drawings += len(every)
            print(f"{name}: {len(every)} drawings", flush=True)
            for start in range(0, len(every), AT_ONCE):
                page.write_text(page_of(every[start : start + AT_ONCE]), encoding="utf-8")
                browser.open(page)
                for look in LOOKS:
                    told = looked(browser, look)
                    assert told.seen == len(every[start : start + AT_ONCE])
                    texts += told.texts
                    for what in (*told.bad, *told.colours, *(told.loose if asked.loose else ())):
                        if what not in bad and what not in loose:
                            print(f"  {look.name}: {what}", flush=True)
                    bad |= dict.fromkeys((*told.bad, *told.colours))
                    loose |= dict.fromkeys(told.loose)
    print(f"{drawings} drawings, each in {len(LOOKS)} looks: {texts} boxes of texts, {len(bad)} overlaps")
    print(f"(lines in the room that a line box has above and below its letters: {len(loose)})")
    return int(bool(bad))


if __name__ == "__main__":
    sys.exit(main())
