"""YAML as plain data, the way an editor's YAML reader sees it: the core schema of YAML 1.2.2, section 10.3.

The reader of guides types every scalar by its field. A JSON Schema is asked about data that a general
reader typed, so `4` is a number there and `yes` is a text.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TypeAlias, Union

import yaml

from builder.guide.nodes import MOST_CHARACTERS, MappingNode, Node, PlainLoader, ScalarNode, compose, is_null

Data: TypeAlias = Union[None, bool, int, Fraction, str, "list[Data]", "dict[str, Data]"]

LONGEST_NUMBER = 100  # characters; what is longer stays text
_WHOLE = re.compile(r"[-+]?[0-9]+")
_DECIMAL = re.compile(r"[-+]?(?:\.[0-9]+|[0-9]+\.[0-9]*)")
_WORDS = {"true": True, "True": True, "TRUE": True, "false": False, "False": False, "FALSE": False}
_NULLS = ("null", "Null", "NULL")


def plain_data(text: str) -> Data:
    """The data of a YAML text; decimals stay exact. ValueError if it cannot be read without mending."""
    read = compose(text, "text")
    if read.findings:
        raise ValueError(read.findings[0].message)
    return None if read.node is None else data_of(read.node)


def data_of(node: Node) -> Data:
    """The data of a node."""
    if isinstance(node, MappingNode):
        return {key.value if isinstance(key, ScalarNode) else "": data_of(value) for key, value in node.value}
    if not isinstance(node, ScalarNode):
        return [data_of(each) for each in node.value]
    text = str(node.value)
    if node.style:
        return text
    if is_null(node) or text in _NULLS:
        return None
    if text in _WORDS:
        return _WORDS[text]
    if len(text) <= LONGEST_NUMBER and _WHOLE.fullmatch(text):
        return int(text)
    if len(text) <= LONGEST_NUMBER and _DECIMAL.fullmatch(text):
        return Fraction(text)
    return text


def strict(text: str) -> Node | None:
    """The node tree of a text as it is; None where it is no YAML. Nothing is mended and nothing is told."""
    if len(text) > MOST_CHARACTERS:
        return None
    try:
        return PlainLoader(text).get_single_node()
    except yaml.YAMLError:
        return None
