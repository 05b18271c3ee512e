"""Words as they are compared: letters and digits, without what is only set between them."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from html.parser import HTMLParser

_WORD = re.compile(r"[^\W_]+|[±×°%]")
_VOID = frozenset({"area", "br", "col", "hr", "img", "input", "link", "meta", "wbr"})
_UNSEEN_TAGS = frozenset({"head", "script", "style", "svg", "title"})
_SCREEN_ONLY = frozenset({"done", "lasting", "now", "unseen"})
"""The label of a tick, an address and what an old revision says: a page has them, paper has none."""


def words(text: str) -> list[str]:
    """The words of a text, in order. Joined letters (fi) and no-break spaces are what they stand for."""
    return _WORD.findall(unicodedata.normalize("NFKC", text))


def but_added(more: Counter[str], added: Counter[str]) -> Counter[str]:
    """The words that a step says more on paper, but for those that paper adds; for each NUMBER any number."""
    rest = more - added
    numbers = Counter({word: n for word, n in rest.items() if word.isdecimal()})
    return rest - numbers if sum(numbers.values()) <= added[NUMBER] else rest


NUMBER = "(number)"
_TURNED = frozenset({"to-page", "page-of"})
_OUTSIDE = ("", False, "", False)


class Told(HTMLParser):
    """The words of a page: those of each step by its anchor (`steps`), those at the heads of tables (`heads`,
    which print says again on each page), all others and those of the steps (`all`), and how many links there
    are that print adds a page's number to (`turned`). What paper alone says of a step stands in `added` and
    not in `steps`, with NUMBER for each link of it."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.all: Counter[str] = Counter()
        self.heads: Counter[str] = Counter()
        self.steps: dict[str, Counter[str]] = {}
        self.added: dict[str, Counter[str]] = {}
        self.turned = 0
        self._open: list[tuple[str, bool, str, bool]] = []
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Remember whether it is seen, and in which step it stands."""
        if tag in _VOID:
            return
        given = dict(attrs)
        classes = frozenset((given.get("class") or "").split())
        _, unseen, step, paper = self._open[-1] if self._open else _OUTSIDE
        if tag == "section" and "step" in classes:
            step = given.get("id") or ""
            self.steps.setdefault(step, Counter())
            self.added.setdefault(step, Counter())
        if tag == "a" and (classes & _TURNED or any(name == "nav" for name, *_ in self._open)):
            self.turned += 1
            if paper and step:
                self.added[step][NUMBER] += 1
        unseen = unseen or tag in _UNSEEN_TAGS or bool(classes & _SCREEN_ONLY)
        self._open.append((tag, unseen, step, paper or "only-paper" in classes))

    def handle_endtag(self, tag: str) -> None:
        """Close it, and whatever was left open within it."""
        for index in range(len(self._open) - 1, -1, -1):
            if self._open[index][0] == tag:
                del self._open[index:]
                return

    def handle_data(self, data: str) -> None:
        """Count its words."""
        _, unseen, step, paper = self._open[-1] if self._open else _OUTSIDE
        if unseen:
            return
        found = Counter(words(data))
        if any(name == "thead" for name, *_ in self._open):
            self.heads += found
        else:
            self.all += found
        if step:
            (self.added if paper else self.steps)[step] += found


def some(counted: Counter[str], most: int = 8) -> str:
    """Words for a message: `“Push”, “ring” (2 times) and 4 more`."""
    shown = [f"“{word}”" + (f" ({n} times)" if n > 1 else "") for word, n in list(counted.items())[:most]]
    more = len(counted) - most
    return ", ".join(shown) + (f" and {more} more" if more > 0 else "")
