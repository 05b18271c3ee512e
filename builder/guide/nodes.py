"""YAML text -> node tree, with the faults of the text itself. The one home of yaml.

The C loader composes nodes; nothing is constructed, so `no`, `012` and `1:30` stay the text that was
typed. What YAML would let pass in silence (a comment that swallows a number, an alias, a doubled key)
is a finding here.
"""

from __future__ import annotations

import re
from typing import TypeAlias

import yaml

from builder.findings import Finding, Place, Severity

Node: TypeAlias = yaml.Node
ScalarNode: TypeAlias = yaml.ScalarNode
SequenceNode: TypeAlias = yaml.SequenceNode
MappingNode: TypeAlias = yaml.MappingNode

_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

MOST_BYTES = 1_000_000
MOST_NODES = 60_000
MOST_NESTING = 40
MOST_REPAIRS = 8

_BRACKET = re.compile(r"[\[\]{}]")
_DASHES = re.compile(r"^\s*(?:[-?:]\s+){12,}", re.MULTILINE)
_NUMBER_COMMENT = re.compile(r"(?m)^[^#'\"\n]*[A-Za-z_][A-Za-z0-9_]* (#\d+\b)")
_ALIAS = re.compile(r"(?m)(?<=[\s\[{,:-])([*&][A-Za-z0-9_]+)")
_MERGE = re.compile(r"(?m)(?:^|[{,\s-])(<<)\s*:")


def error(check: str, place: Place, message: str, why: str, mend: str, **more: object) -> Finding:
    """An error of the text; a shorthand for the reader's modules."""
    return Finding(check, Severity.ERROR, place, message, why, mend, **more)  # type: ignore[arg-type]


def compose(text: str, file: str) -> tuple[Node | None, list[Finding]]:
    """The node tree of a text, and what is wrong with the text as YAML.

    A syntax error costs only the line that it stands on: the line is blanked and the rest is read, a
    counted number of times, so that one slip does not hide the others.
    """
    findings = _too_large(text, file)
    if findings:
        return None, findings
    node, findings = _compose_with_repairs(text, file)
    for match in _NUMBER_COMMENT.finditer(text):
        place = _place_at(text, file, match.start(1), match.end(1))
        findings.append(error(
            "comment", place, f'"{match.group(1)}" after a space is a comment to YAML, so it is not read',
            "The number would be lost without a word.", "Write the copy without the sign: `fin 2`."))  # fmt: skip
    if "*" in text or "&" in text:
        findings += _aliases(text, file)
    if "<<" in text:
        for match in _MERGE.finditer(text):
            place = _place_at(text, file, match.start(1), match.end(1))
            findings.append(_no_alias(place, "<<"))
    return node, findings


def _aliases(text: str, file: str) -> list[Finding]:
    found = []
    for match in _ALIAS.finditer(text):
        line_start = text.rfind("\n", 0, match.start()) + 1
        before = text[line_start : match.start()]
        if "#" in before or before.count('"') % 2 or before.count("'") % 2:
            continue
        if not re.search(r"(?:^|[:\[{,-])\s*$", before):
            continue  # a sign inside plain text, as in `2 * wall`
        found.append(_no_alias(_place_at(text, file, match.start(1), match.end(1)), match.group(1)))
    return [f for f in found if "*" in f.message or "<<" in f.message] or found


def _no_alias(place: Place, sign: str) -> Finding:
    return error(
        "alias", place, f'"{sign}" is a YAML alias or anchor, which a guide may not use',
        "An alias is the same text in two places, so a fault in it would be shown in the wrong line.",
        "Write `like: ID` to copy a part, or give the number a name under `dimensions`.")  # fmt: skip


def _too_large(text: str, file: str) -> list[Finding]:
    place = Place(file, 1, 1)
    if len(text) > MOST_BYTES:
        return [error("too-large", place, f"the file has more than {MOST_BYTES:,} characters",
                      "A guide of that size can hardly be meant.", "Split it into several guides.")]  # fmt: skip
    depth = deepest = 0
    for match in _BRACKET.finditer(text):
        depth += 1 if match.group() in "[{" else -1
        depth = max(depth, 0)
        deepest = max(deepest, depth)
    if deepest > MOST_NESTING or _DASHES.search(text):
        return [error("too-deep", place, f"brackets or dashes are nested more than {MOST_NESTING} deep",
                      "No part of a guide is nested so deeply; a bracket was probably left open.",
                      "Close the brackets, one `}` or `]` for each.")]  # fmt: skip
    bad = next((c for c in text if c < " " and c not in "\n\r\t"), None)
    if bad is not None:
        at = text.index(bad)
        return [error("control-character", _place_at(text, file, at, at + 1),
                      f"there is an invisible control character (number {ord(bad)}) in the text",
                      "YAML cannot read past it.", "Delete it and type the line again.")]  # fmt: skip
    return []


def _compose_with_repairs(text: str, file: str) -> tuple[Node | None, list[Finding]]:
    findings: list[Finding] = []
    lines = text.split("\n")
    for _ in range(MOST_REPAIRS):
        try:
            node = yaml.compose("\n".join(lines), Loader=_Loader)
        except yaml.MarkedYAMLError as fault:
            mark = fault.problem_mark or fault.context_mark
            line = min(mark.line if mark else 0, len(lines) - 1)
            findings.append(_syntax(fault, file, line, mark.column if mark else 0, lines[line]))
            blanked = _entry_to_blank(fault, line, lines)
            if blanked is None:
                return None, findings
            lines[blanked] = ""
        except (yaml.YAMLError, ValueError, RecursionError) as fault:
            findings.append(_syntax_plain(str(fault).split("\n")[0], file))
            return None, findings
        else:
            return node, findings
    return None, findings


def _entry_to_blank(fault: yaml.MarkedYAMLError, line: int, lines: list[str]) -> int | None:
    """The line whose loss lets the rest be read: the flow entry's start, else the line itself."""
    context = fault.context_mark.line if fault.context_mark else line
    for candidate in (context, line, line - 1):
        if 0 <= candidate < len(lines) and lines[candidate].strip():
            return candidate
    return None


_SYNTAX_HINTS = (
    ("mapping values are not allowed", "A colon inside a sentence needs quotes round the sentence."),
    ("could not find expected ':'", "A colon is missing, or the line is indented too little."),
    ("did not find expected ',' or '}'", "Close the brace, or put quotes round a text that holds a comma or a brace."),
    ("did not find expected ',' or ']'", "Close the bracket, or put a comma between the entries."),
    ("found character", "Indent with spaces, and put quotes round a text that begins with %, @ or `."),
    ("did not find expected key", "The line is indented differently from its neighbours."),
    ("block collection", "A dash is missing, or the line is indented differently from its neighbours."),
    ("quoted scalar", "A quotation mark is not closed."),
)


def _syntax(fault: yaml.MarkedYAMLError, file: str, line: int, column: int, text: str) -> Finding:
    problem = (fault.problem or fault.context or "the text cannot be read").strip()
    mend = next((hint for sign, hint in _SYNTAX_HINTS if sign in str(fault)),
                "Compare the line with its neighbours: indentation, colons, quotes, brackets.")  # fmt: skip
    if "{" in text and "#" in text:
        mend = "A # after a space begins a comment and swallows the closing brace: write `fin 2`, or quote it."
    return error("yaml", Place(file, line + 1, column + 1), f"this line is not YAML: {problem}",
                 "Nothing on this line can be used until it can be read.", mend)  # fmt: skip


def _syntax_plain(problem: str, file: str) -> Finding:
    return error("yaml", Place(file, 1, 1), f"this file cannot be read: {problem}",
                 "Nothing in it can be used.", "Save it as UTF-8 text.")  # fmt: skip


def _place_at(text: str, file: str, start: int, end: int) -> Place:
    line = text.count("\n", 0, start) + 1
    return Place(file, line, start - text.rfind("\n", 0, start), max(1, end - start))


def place_of(node: Node, file: str) -> Place:
    """The place of a node: its whole text if it stands on one line, else its first character."""
    start, end = node.start_mark, node.end_mark
    length = end.column - start.column if end.line == start.line else 1
    return Place(file, start.line + 1, start.column + 1, max(1, length))


def inside(node: ScalarNode, file: str, start: int, length: int) -> Place:
    """The place of a stretch of a scalar's own text."""
    shift = 1 if node.style in ("'", '"') else 0
    mark = node.start_mark
    return Place(file, mark.line + 1, mark.column + 1 + shift + start, max(1, length))


def is_null(node: Node) -> bool:
    """True for a value that was left out: `{glue: fin, edge}` leaves the value of `edge` out."""
    return isinstance(node, ScalarNode) and node.value in ("", "~") and node.style is None
