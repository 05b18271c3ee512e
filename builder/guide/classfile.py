"""Small settings files beside the guides: a class, and where the built site will stand."""

from __future__ import annotations

from pathlib import Path

import yaml

from builder.guide.nodes import MappingNode, PlainLoader, ScalarNode

MOST_CHARACTERS = 100_000


def settings(path: Path) -> dict[str, str]:
    """The plain values of a settings file, by key, as typed; what is no plain value is left out.

    Errors: ValueError with words for a person if the file cannot be read or is no list of settings.
    """
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        raise ValueError(f"{path.name} cannot be read") from None
    if len(text) > MOST_CHARACTERS:
        raise ValueError(f"{path.name} is too long for a settings file")
    try:
        node = PlainLoader(text).get_single_node()
    except (yaml.YAMLError, ValueError, RecursionError):
        raise ValueError(f"{path.name} is not written as `key: value` lines") from None
    if node is None:
        return {}
    if not isinstance(node, MappingNode):
        raise ValueError(f"{path.name} is not written as `key: value` lines")
    return {
        key.value: value.value
        for key, value in node.value
        if isinstance(key, ScalarNode) and isinstance(value, ScalarNode)
    }


def site_address(path: Path) -> str:
    """Where the site of a mkdocs.yml will stand; empty if it does not say, or is not there."""
    if not path.is_file():
        return ""
    try:
        address = settings(path).get("site_url", "").strip()
    except ValueError:
        return ""
    return address if address.startswith(("https://", "http://")) else ""
