"""YAML text -> node tree, with the faults of the text itself. The one home of yaml, with `mending`.

The C loader composes nodes; nothing is constructed, so `no`, `012` and `1:30` stay the text that was
typed. What YAML would let pass in silence (a comment that swallows a number, an alias) is a finding
here. Work is bounded before it begins: by length, by the number of pieces, by nesting.
"""

from __future__ import annotations

import re
from typing import TypeAlias

import msgspec
import yaml

from builder.findings import Finding, Place, Related, Severity

Node: TypeAlias = yaml.Node
ScalarNode: TypeAlias = yaml.ScalarNode
SequenceNode: TypeAlias = yaml.SequenceNode
MappingNode: TypeAlias = yaml.MappingNode

MOST_CHARACTERS = 1_000_000
MOST_PIECES = 60_000  # lines, commas, colons, brackets, dashes: no node is without one of them
MOST_NESTING = 40
MOST_INDENTATION = 200

# Control characters, the line ends that only YAML knows, lone halves of characters, byte-order marks.
_UNSEEN = "[\0-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ud800-\udfff\ufeff\ufffe\uffff]"
_ASCII = bytes(range(128))
_CONTROLS = bytes(b for b in range(32) if b not in b"\t\n") + b"\x7f"
_PIECES = (b"\n", b",", b":", b"[", b"{", b"- ", b"? ")
_NOT_BRACKETS = bytes(b for b in range(256) if b not in b"[]{}")
_DEEP = rf"(?m)^(?: {{{MOST_INDENTATION},}}\S| *(?:[-?:] +){{12}})"
_DASHES = bytes.maketrans(b"?:", b"--")
_NUMBER_COMMENT = r"(?m) #\d+(?= *$| *[,}\]]| and\b)"
_COMMENT = r"(?:^|\s)#"
_WORD = r"\S*"
_SIGNS = r"[&*!<][^\s,\[\]{}](?<![^\s\[{,:-]..)"  # at the beginning of a text


class PlainLoader(yaml.CSafeLoader):
    """The C parser with its composer; no tag is resolved, since every scalar is read as text."""

    # The composer asks three questions about every node. An empty text, formatted, gives the same empty tag
    # to each of them, and does not go through Python for it.
    resolve = "".format
    descend_resolver = "".format  # type: ignore[assignment]
    ascend_resolver = "".format  # type: ignore[assignment]


def error(check: str, place: Place, message: str, why: str, mend: str, **more: object) -> Finding:
    """An error of the text; a shorthand for the reader's modules."""
    return Finding(check, Severity.ERROR, place, message, why, mend, **more)  # type: ignore[arg-type]


class Composed(msgspec.Struct, frozen=True):
    """A node tree (None if nothing could be read) and the faults of its text.

    `lost` holds the words of the lines that had to be left out, so that what is missed because of a
    slip is not told as a second fault. `text` is what the nodes' marks point into.
    """

    node: Node | None
    findings: list[Finding]
    lost: frozenset[str]
    text: str


def compose(text: str, file: str) -> Composed:
    """The node tree of a text, and what is wrong with the text as YAML."""
    written = text = plain_breaks(text)
    limit = _beyond_limits(text, file)
    if limit is not None:
        return Composed(None, [limit], frozenset(), text)
    findings: list[Finding] = []
    lost: frozenset[str] = frozenset()
    if _has_unseen(text):
        text = _without_unseen(text, file, findings)
        limit = _beyond_limits(text, file)  # a bracket that the sign kept apart, a line that it ended
        if limit is not None:
            return Composed(None, [*findings, limit], frozenset(), text)
    if " #" in text and (not text.isascii() or any(f" #{digit}" in text for digit in "0123456789")):
        text = _without_number_comments(text, file, findings)
    if _has_signs(text):
        text = _without_aliases(text, file, findings)
    node: Node | None = None
    try:
        node = PlainLoader(text).get_single_node()
    except yaml.YAMLError:
        from builder.guide.mending import mend  # only a slip pays for it

        mended, slips, lost = mend(text, file)
        findings[:0] = slips
        if mended is not None:
            # What lay behind the slip had not been seen yet.
            text = _without_aliases(mended, file, findings) if _has_signs(mended) else mended
            node = _composed(text)
    if node is not None and text != written:
        _as_written(node, written.split("\n"), text.split("\n"))
    return Composed(node, findings, lost, text)


def _has_signs(text: str) -> bool:
    """Whether an anchor, an alias, a tag or a merge key may stand in a text."""
    return any(sign in text for sign in "&*!<") and re.search(_SIGNS, text) is not None


def _composed(text: str) -> Node | None:
    try:
        return PlainLoader(text).get_single_node()
    except yaml.YAMLError:
        return None


def _alike(one: str, other: str) -> int:
    """Up to which column two lines are the same."""
    pairs = zip(one, other, strict=False)
    return next((i for i, (a, b) in enumerate(pairs) if a != b), min(len(one), len(other)))


def _as_written(node: Node, written: list[str], mended: list[str]) -> None:
    """Let the marks of a mended text point to the columns of the text as it was written."""
    moved = {  # asked once for a line: it may hold all the nodes that there are
        n: (len(old), len(new), _alike(old, new))
        for n, (old, new) in enumerate(zip(written, mended, strict=True))
        if old != new
    }

    def back(mark: yaml.Mark) -> yaml.Mark:
        line = moved.get(mark.line)
        if line is None:
            return mark
        (old, new, same), column = line, mark.column
        if column >= same:
            column = max(same, column - (new - old))
        return type(mark)(mark.name, mark.index, mark.line, min(column, old), None, 0)

    stack = [node]
    while stack:
        each = stack.pop()
        each.start_mark, each.end_mark = back(each.start_mark), back(each.end_mark)
        if not isinstance(each, ScalarNode):
            for part in each.value:
                stack += part if isinstance(part, tuple) else (part,)


def plain_breaks(text: str) -> str:
    """A text without a byte-order mark and with one kind of line end: lines then count alike everywhere."""
    text = text.removeprefix("\ufeff")
    return text.replace("\r\n", "\n").replace("\r", "\n") if "\r" in text else text


def _beyond_limits(text: str, file: str) -> Finding | None:
    start = Place(file, 1, 1)
    if len(text) > MOST_CHARACTERS:
        return error("too-large", start, f"the file has more than {MOST_CHARACTERS:,} characters",
                     "A guide of that size can hardly be meant.",
                     "Split it into several guides.")  # fmt: skip
    data = text.encode("utf-8", "surrogatepass")
    if sum(data.count(sign) for sign in _PIECES) > MOST_PIECES:
        return error("too-large", start, f"the file has more than {MOST_PIECES:,} lines, names and values",
                     "A guide of that size can hardly be meant.",
                     "Split it into several guides.")  # fmt: skip
    deep = re.search(_DEEP, text) if _may_be_deep(data) else None
    at = deep.start() if deep is not None else _too_deep(text, data.translate(None, _NOT_BRACKETS))
    if at is None:
        return None
    return error("too-deep", _place_at(text, file, at, at + 1),
                 f"brackets or dashes are nested more than {MOST_NESTING} deep here",
                 "No part of a guide is nested so deeply; a bracket was probably left open.",
                 "Close the brackets, one `}` or `]` for each.")  # fmt: skip


def _may_be_deep(data: bytes) -> bool:
    """Whether a line may be indented too far or begin with too many dashes: asked quickly, of all texts."""
    bare = b"\n" + data.translate(_DASHES, b" ")
    return b"\n" + 12 * b"-" in bare or MOST_INDENTATION * b" " in data


def _has_unseen(text: str) -> bool:
    """Whether a sign stands in a text that nobody can see and YAML cannot read past."""
    data = text.encode("utf-8", "surrogatepass")
    odd = data.translate(None, _ASCII).decode("utf-8", "surrogatepass")  # the signs beyond ASCII
    return len(data.translate(None, _CONTROLS)) < len(data) or (
        not odd.isprintable() and re.search(_UNSEEN, odd) is not None
    )


def _without_unseen(text: str, file: str, findings: list[Finding]) -> str:
    """The text as if its invisible signs were not there, with one finding for all of them."""
    signs = list(re.finditer(_UNSEEN, text))
    first, others = signs[0], len(signs) - 1
    more = f", and {others} more in this file" if others else ""
    findings.append(error(
        "control-character", _place_at(text, file, first.start(), first.end()),
        f"there is an invisible control character (number {ord(first[0])}) in the text{more}",
        "YAML cannot read past it, and nobody can see it.", "Delete it and type the line again."))
    return re.sub(_UNSEEN, "", text)


def _too_deep(text: str, brackets: bytes) -> int | None:
    """Where brackets are nested too deeply; taking away closed pairs, layer by layer, settles most texts."""
    for _ in range(MOST_NESTING):
        inner = brackets.replace(b"[]", b"").replace(b"{}", b"")
        if not inner:
            return None
        if inner == brackets:
            break
        brackets = inner
    depth = 0
    for match in re.finditer(r"[\[\]{}]", text):
        depth = depth + 1 if match[0] in "[{" else max(depth - 1, 0)
        if depth > MOST_NESTING:
            return match.start()
    return None


def _without_number_comments(text: str, file: str, findings: list[Finding]) -> str:
    """`fin #2` -> `fin  2`, with a finding for each line: YAML would take the number for a comment."""
    found = [match for match in re.finditer(_NUMBER_COMMENT, text)
             if text[match.start() - 1 : match.start()].isalnum()]  # fmt: skip
    if not found:
        return text
    words = _spans_of_texts(text)
    signs: list[int] = []
    told = -1
    for match in found:
        sign = match.start() + 1
        begin = text.rfind("\n", 0, sign) + 1
        before = text[begin:sign]
        if any(a <= sign < b for a, b in words) or (begin != told and re.search(_COMMENT, before)):
            continue
        if words is NO_SPANS and (before.count('"') % 2 or before.count("'") % 2):
            continue
        signs.append(sign)
        if begin != told:
            told = begin
            findings.append(error(
                "comment", _place_at(text, file, sign, match.end()),
                f'"{match[0].strip()}" after a space is a comment to YAML, so it is not read',
                "The number would be lost without a word.",
                f"Write the copy without the sign: `{_word_before(before)} {match[0].strip(' #')}`."))
    letters = list(text)
    for sign in signs:
        letters[sign] = " "
    return "".join(letters)


NO_SPANS: tuple[tuple[int, int], ...] = ()


def _spans_of_texts(text: str) -> tuple[tuple[int, int], ...]:
    """Where quoted and block texts stand, in which a # is no comment; NO_SPANS if it cannot be composed."""
    try:
        node = PlainLoader(text).get_single_node()
    except yaml.YAMLError:
        return NO_SPANS
    spans = [(0, 0)]
    stack = [node]
    seen: set[int] = set()
    while stack:
        each = stack.pop()
        if each is None or id(each) in seen:
            continue
        seen.add(id(each))
        if isinstance(each, ScalarNode):
            if each.style:
                spans.append((each.start_mark.index, each.end_mark.index))
        elif isinstance(each, MappingNode):
            stack.extend(part for pair in each.value for part in pair)
        else:
            stack.extend(each.value)
    return tuple(spans)


def _word_before(before: str) -> str:
    return re.split(r"[^A-Za-z0-9_]", before.rstrip())[-1]


def _without_aliases(text: str, file: str, findings: list[Finding]) -> str:
    """Anchors, aliases, merge keys and tags are findings, one for each name, at the first alias.

    An anchor is blanked; an alias becomes a plain word of the same length, so that every other column
    stays, nothing is read twice and nothing can grow by naming itself.
    """
    anchors: dict[str, int] = {}
    aliases: dict[str, list[int]] = {}
    merges: list[int] = []
    tags: list[tuple[int, str]] = []
    try:
        for event in yaml.parse(text, Loader=PlainLoader):
            start = event.start_mark.index if event.start_mark is not None else 0
            if isinstance(event, yaml.AliasEvent):
                aliases.setdefault(event.anchor or "", []).append(start)
                if merges and not text[merges[-1] + 2 : start].strip(" :"):
                    merges.pop()
                continue
            if not isinstance(event, yaml.NodeEvent):
                continue
            if event.anchor is not None:
                anchors.setdefault(event.anchor, text.index(f"&{event.anchor}", start))
            tag = getattr(event, "tag", None)
            if tag is not None and "!" in text[start : start + 400]:
                at = text.index("!", start)
                tags.append((at, re.compile(_WORD).match(text, at)[0]))  # type: ignore[index]
            if isinstance(event, yaml.ScalarEvent) and event.value == "<<" and not event.style:
                merges.append(start)
    except yaml.YAMLError:
        pass  # its own finding comes when the text is composed
    for name in dict.fromkeys((*anchors, *aliases)):
        used = [(at, f"*{name}") for at in aliases.get(name, ())]
        spots = used + ([(anchors[name], f"&{name}")] if name in anchors else [])
        first, *others = [_place_at(text, file, at, at + len(sign)) for at, sign in spots]
        further = zip(others, spots[1:], strict=True)
        findings.append(_no_alias(first, spots[0][1], tuple(
            Related(place, f"`{sign}` stands here") for place, (_, sign) in further)))
    for at in merges:
        findings.append(_no_alias(_place_at(text, file, at, at + 2), "<<", ()))
    for at, tag in tags:
        findings.append(error("tag", _place_at(text, file, at, at + len(tag)),
                              f'"{tag}" is a YAML tag, which means nothing in a guide',
                              "A guide holds no code and no types of its own.", "Delete it."))  # fmt: skip
    letters = list(text)
    for places in aliases.values():
        for at in places:
            letters[at] = "_"
    text = "".join(letters)
    for at, length in sorted(((at, len(name) + 1) for name, at in anchors.items()), reverse=True):
        text = _taken_out(text, at, length)
    for at, tag in sorted(tags, reverse=True):
        text = _taken_out(text, at, len(tag))
    return text


def _taken_out(text: str, at: int, length: int) -> str:
    """A text without a sign and the spaces behind it, which go to the end of the line: no line is indented
    otherwise, and no later line moves."""
    end = text.find("\n", at)
    end = len(text) if end < 0 else end
    rest = text[at + length : end].lstrip(" ")
    return text[:at] + rest.ljust(end - at) + text[end:]


def _no_alias(place: Place, sign: str, also: tuple[Related, ...]) -> Finding:
    return error(
        "alias", place, f'"{sign}" is a YAML alias or anchor, which a guide may not use',
        "An alias is the same text in two places, so a fault in it would be shown in the wrong line.",
        "Write `like: ID` to copy a part, or give the number a name under `dimensions`.", also=also)


def _place_at(text: str, file: str, start: int, end: int) -> Place:
    line = text.count("\n", 0, start) + 1
    return Place(file, line, start - text.rfind("\n", 0, start), max(1, end - start))


def place_of(node: Node, file: str) -> Place:
    """The place of a node: its whole text if it stands on one line, else its first character."""
    start, end = node.start_mark, node.end_mark
    line, column = start.line, start.column
    length = end.column - column if end.line == line else 1
    return Place(file, line + 1, column + 1, length if length > 1 else 1)


def is_laid_out(node: ScalarNode) -> bool:
    """Whether a text stands in its line just as it reads: on one line, nothing folded or escaped."""
    begin, end = node.start_mark, node.end_mark
    quotes = 2 if node.style in ("'", '"') else 0
    return begin.line == end.line and end.column - begin.column == len(node.value) + quotes


def inside(node: ScalarNode, file: str, start: int, length: int, source: str = "") -> Place:
    """The place of a stretch of a scalar's own text.

    A text that is folded, escaped or runs over several lines is not laid out as it reads: there the
    stretch is looked for in the `source`, and the text's own place serves if it cannot be found.
    """
    begin, end = node.start_mark, node.end_mark
    if is_laid_out(node):
        shift = 1 if node.style in ("'", '"') else 0
        return Place(file, begin.line + 1, begin.column + 1 + shift + start, max(1, length))
    piece = node.value[start : start + length]
    if piece and source:
        before = node.value.count(piece, 0, start)
        at = begin.index - 1
        for _ in range(before + 1):
            at = source.find(piece, at + 1, end.index)
            if at < 0:
                break
        else:
            return _place_at(source, file, at, at + length)
    return Place(file, begin.line + 1, begin.column + 1)


def is_null(node: Node) -> bool:
    """True for a value that was left out: `{glue: fin, edge}` leaves the value of `edge` out."""
    return isinstance(node, ScalarNode) and node.value in ("", "~") and not node.style
