"""Places of the tool and positions of the protocol, file names and their addresses.

A place counts lines and characters from 1. A position counts from 0, and its characters are UTF-16 code
units unless the client can do with characters ("utf-32").
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import Any
from urllib.parse import quote, unquote, urlsplit

from builder.findings import Place


class Positions:
    """Converts between the two, for the texts of a guide by their shown names."""

    def __init__(self, utf16: bool = True) -> None:
        self.utf16 = utf16

    def units(self, text: str) -> int:
        """How many units the protocol counts for a text."""
        return len(text.encode("utf-16-le", "surrogatepass")) // 2 if self.utf16 else len(text)

    def column(self, line: str, units: int) -> int:
        """The number of characters that so many units of a line are."""
        if not self.utf16:
            return min(units, len(line))
        count = 0
        for number, sign in enumerate(line):
            if count >= units:
                return number
            count += 2 if sign > "\uffff" else 1
        return len(line)

    def span(self, line: str, start: int, end: int, number: int) -> dict[str, Any]:
        """A range on one line, from its character columns (from 0)."""
        start, end = min(start, len(line)), min(end, len(line))
        return {
            "start": {"line": number, "character": self.units(line[:start])},
            "end": {"line": number, "character": self.units(line[: max(start, end)])},
        }

    def range(self, place: Place, texts: Mapping[str, str]) -> dict[str, Any]:
        """The range of a place. A text that is not there any more gives the start of its line."""
        lines = split(texts.get(place.file, ""))
        line = lines[place.line - 1] if place.line <= len(lines) else ""
        return self.span(line, place.column - 1, place.column - 1 + place.length, place.line - 1)

    def location(self, place: Place, texts: Mapping[str, str]) -> dict[str, Any]:
        """A range in a file."""
        return {"uri": uri_of(place.file), "range": self.range(place, texts)}

    def offset(self, text: str, position: Mapping[str, int]) -> int:
        """Where in a text a position is."""
        lines = text.split("\n")
        number = min(max(position["line"], 0), len(lines) - 1)
        line = lines[number].removesuffix("\r")
        return sum(len(each) + 1 for each in lines[:number]) + self.column(line, position["character"])


def split(text: str) -> list[str]:
    """Lines as YAML and the protocol count them."""
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def uri_of(file: str) -> str:
    """The address of a file by its shown name."""
    path = os.path.abspath(file).replace(os.sep, "/")
    return "file://" + quote(path if path.startswith("/") else f"/{path}")


def path_of(uri: str, windows: bool = os.name == "nt") -> str:
    """The path of an address; empty for what is no file of this machine."""
    parts = urlsplit(uri)
    if parts.scheme != "file":
        return ""
    path = unquote(parts.path)
    if windows and path[:1] == "/" and path[2:3] == ":":
        path = path[1:]
    return os.path.normpath(path)
