"""A text that is not YAML: one finding for each slip, and the rest read all the same.

What the loader says ("did not find expected key") tells where it gave up, not where the slip is. From
its two marks the slip is placed; then the smallest mends are tried (a closing brace, a quotation mark,
another indentation, at last the loss of a line), and the first one that lets the loader get further is
kept. So a slip costs one finding and, as a rule, nothing of what the writer wrote.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import msgspec
import yaml

from builder.findings import Finding, Place
from builder.guide.nodes import PlainLoader, error

MOST_SLIPS = 20
MOST_TRIES = 60
MOST_COMPOSED = 6_000_000  # characters, over all tries


_DOCUMENT = re.compile(r"(?m)^(?:---|\.\.\.|%)")  # a sign between documents


class Slip(msgspec.Struct, frozen=True):
    """Where a slip stands (lines and columns from 0), where the loader gave up, and what it is."""

    line: int
    column: int
    stuck: int
    stuck_column: int
    kind: str  # "quote", "open", "comma", "dash" or "other"
    message: str
    mend: str


def mend(text: str, file: str) -> tuple[str | None, list[Finding], frozenset[str]]:
    """The text as mended (None if it could not be), the slips, and the words of the lines left out."""
    lines = text.split("\n")
    fault = _fault(text)
    findings: list[Finding] = []
    lost: set[str] = set()
    tries = min(MOST_TRIES, MOST_COMPOSED // (len(text) + 1) + 3)
    while fault is not None:
        slip = _slip(fault, lines)
        findings.append(error(
            "yaml", Place(file, slip.line + 1, slip.column + 1), slip.message,
            "Nothing here can be used until it can be read.", slip.mend))  # fmt: skip
        for mended in _mends(slip, lines):
            if tries <= 0:
                return None, findings, frozenset(lost)
            tries -= 1
            fault = _fault("\n".join(mended))
            if fault is not None:
                further = _slip(fault, mended)
                past = slip.line if slip.kind == "quote" else slip.stuck
                if further.stuck <= past or further.line <= slip.line:
                    continue
            lost.update(_words_left_out(lines, mended))
            lines = mended
            break
        else:
            return None, findings, frozenset(lost)
        if len(findings) == MOST_SLIPS and fault is not None:
            return None, findings, frozenset(lost)
    return "\n".join(lines), findings, frozenset(lost)


def _fault(text: str) -> yaml.YAMLError | None:
    """Where a text is no YAML. An alias of which there is no anchor is none of our business."""
    if _DOCUMENT.search(text) is None:
        try:  # nothing is composed: it is only asked whether the text holds together
            PlainLoader(text).raw_parse()
        except yaml.YAMLError as fault:
            return fault
        return None
    try:
        PlainLoader(text).get_single_node()
    except yaml.YAMLError as fault:
        if not re.search("alias|anchor", getattr(fault, "problem", None) or ""):
            return fault
    else:
        return None
    begun: list[yaml.Event] = []
    try:  # the events know nothing of what an alias stands for
        begun += (e for e in yaml.parse(text, Loader=PlainLoader) if isinstance(e, yaml.DocumentStartEvent))
    except yaml.YAMLError as fault:
        return fault
    if len(begun) < 2:
        return None
    mark = begun[1].start_mark
    return yaml.MarkedYAMLError(problem="another document", problem_mark=mark)  # type: ignore[arg-type]


def _words_left_out(before: list[str], after: list[str]) -> Iterator[str]:
    for old, new in zip(before, after, strict=True):
        if old and not new:
            yield from re.findall(r"[a-z][a-z0-9_]*", old)


# -- where it is ----------------------------------------------------------------------------------


def _slip(fault: yaml.YAMLError, lines: list[str]) -> Slip:
    problem = getattr(fault, "problem_mark", None) or getattr(fault, "context_mark", None)
    stuck, stuck_column = _within(problem, lines) if problem else (0, 0)
    context = getattr(fault, "context_mark", None)
    begin = _within(context, lines) if context else (stuck, stuck_column)
    said = f"{getattr(fault, 'context', '')}: {getattr(fault, 'problem', '') or fault}"
    line = lines[stuck]

    def at(place: tuple[int, int], kind: str, message: str, mend: str) -> Slip:
        return Slip(*place, stuck, stuck_column, kind, message, mend)

    quote = begin if "scanning a quoted scalar" in said and "unexpected" in said else None
    quote = quote or _open_quote(lines, stuck, stuck_column)
    if quote is not None:
        return at(quote, "quote", "a quotation mark is opened here and not closed", "Write the closing mark.")
    if "flow" in said and _left_open(lines, begin):
        sign = lines[begin[0]][begin[1] : begin[1] + 1]
        what, closing = ("brace", "}") if sign == "{" else ("bracket", "]")
        return at(begin, "open", f"a {what} is opened here and not closed", f"Write the closing `{closing}`.")
    here = (stuck, stuck_column)
    above = _filled_above(lines, stuck)
    ends_open = above >= 0 and lines[above].rstrip().endswith((",", "{", "["))
    if "flow" in said and begin[0] <= above < stuck and not ends_open:
        return at((above, len(lines[above].rstrip()) - 1), "comma",
                  "a comma is missing at the end of this line",
                  "Put a comma between the entries.")  # fmt: skip
    if ("expected key" in said or "block" in said) and line.lstrip().startswith("- ") and above >= 0 and (
            _indentation(lines[above]) == _indentation(line)
        and not lines[above].lstrip().startswith("-")):  # fmt: skip
        return at((above, _indentation(lines[above])), "dash", "a dash is missing before this line",
                  "Begin each entry of a list with a dash.")  # fmt: skip
    if "expected ':'" in said:
        if re.match(r" *(?:- )?[a-z][\w ]*:\S", lines[begin[0]]):
            return at((begin[0], lines[begin[0]].index(":")), "other", "a space is missing behind the colon",
                      "Write `name: value`.")  # fmt: skip
        return at(begin, "other", "a colon is missing, or the line is indented too little",
                  "Write `name: value`.")  # fmt: skip
    if "\t" in line[: stuck_column + 1] and ("cannot start" in said or "tab" in said):
        return at((stuck, line.index("\t")), "other", "a tab stands where YAML wants spaces",
                  "Indent with spaces.")  # fmt: skip
    opened = re.match(r"( *(?:- )?\w[\w ]*: +)\{[^{}]*\} *[^\s#]", line)
    if opened is not None and stuck_column >= opened.end() - 1:
        return at((stuck, opened.end(1)), "other", "a text cannot begin with a brace",
                  "Put quotes round the text.")
    for sign, message, mend in _SAID:
        if sign in said:
            return at(here, "other", message, mend)
    return at(here, "other", "this cannot be read as YAML",
              "Compare the line with its neighbours: indentation, colons, quotes, brackets.")  # fmt: skip


_SAID = (
    ("mapping values",
     "a colon is one too many here, or the line is indented differently from its neighbours",
     "Put quotes round a text that holds a colon; give the line the indentation of its neighbours."),
    ("cannot start", "a text cannot begin with this sign", "Put quotes round the text."),
    ("escape", "a backslash inside double quotes means something else to YAML",
     "Put single quotes round the text, or leave the backslash out."),
    ("flow", "a comma is missing here, or a text holds a sign that ends it",
     "Put a comma between the entries, or quotes round a text that holds a comma, a colon, a brace or a "
     "bracket."),
    ("another document", "`---` begins another document", "Delete the line."),
    ("block collection", "this line does not fit under the ones above it",
     "A dash is missing, or the line is indented differently from its neighbours."),
    ("expected key", "this line does not fit under the ones above it",
     "Give it the indentation of its neighbours; perhaps a bracket or a quotation mark is one too many."),
)  # fmt: skip


def _filled_above(lines: list[str], line: int) -> int:
    """The nearest line above that holds anything; -1 if there is none."""
    return next((n for n in range(line - 1, -1, -1) if lines[n].strip()), -1)


def _within(mark: yaml.Mark, lines: list[str]) -> tuple[int, int]:
    """A mark's line and column, on the last line that holds anything if it lies behind it."""
    line, column = min(mark.line, len(lines) - 1), mark.column
    while line and not lines[line].strip():
        line, column = line - 1, len(lines[line - 1])
    return line, min(column, len(lines[line]))


def _open_quote(lines: list[str], stuck: int, column: int) -> tuple[int, int] | None:
    """The quotation mark that was closed by another text's opening one, just before the loader gave up."""
    closing = re.search(r"([\"'])\s*$", lines[stuck][:column])
    if closing is None:
        return None
    for line in range(stuck - 1, -1, -1):
        opened = _quote_left_open(lines[line], closing[1])
        if opened is not None:
            return line, opened
    return None


def _quote_left_open(line: str, sign: str) -> int | None:
    """Where a text is opened that is not closed on its line."""
    at = 0
    while (match := re.compile(r"(?:^|(?<=[\s\[{,:]))[\"']|(?:^|\s)#").search(line, at)) is not None:
        if match[0].endswith("#"):
            return None
        end = line.find(match[0], match.end())
        if end < 0:
            return match.start() if match[0] == sign else None
        at = end + 1
    return None


def _left_open(lines: list[str], begin: tuple[int, int]) -> bool:
    """Whether the bracket at `begin` is still open where its entry ends."""
    return bool(_open_brackets(lines, begin, _end_of_entry(lines, begin[0])))


def _end_of_entry(lines: list[str], line: int) -> int:
    """The first line behind the entry that begins on a line: one that is indented no deeper."""
    depth = _indentation(lines[line])
    for after in range(line + 1, len(lines)):
        if lines[after].strip() and _indentation(lines[after]) <= depth:
            return after
    return len(lines)


def _open_brackets(lines: list[str], begin: tuple[int, int], end: int) -> str:
    """What would close the brackets that are open from a place on, up to a line: `]}`."""
    closing: list[str] = []
    for number in range(begin[0], end):
        text = lines[number][begin[1] if number == begin[0] else 0 :]
        for match in _TOKENS.finditer(text):
            sign = match[0]
            if sign in "[{":
                closing.append("]" if sign == "[" else "}")
            elif closing and sign == closing[-1]:
                closing.pop()
                if not closing:
                    return ""
            elif sign.lstrip().startswith("#"):
                break
    return "".join(reversed(closing))


_TOKENS = re.compile(r"\"(?:[^\"\\]|\\.)*\"|(?<![^\s\[{,:])'[^']*'|[\[\]{}]|(?:^|\s)#")


def _indentation(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


# -- how it may be mended -------------------------------------------------------------------------


def _mends(slip: Slip, lines: list[str]) -> Iterator[list[str]]:
    """Texts as they might have been meant, smallest change first."""
    if slip.kind == "quote":
        sign = lines[slip.line][slip.column : slip.column + 1]
        line = lines[slip.line]
        for closing in dict.fromkeys((sign, sign + "}", sign + "]}")):
            yield _with(lines, slip.line, _before_comment(line, slip.column + 1, closing))
        bare = line.rstrip().rstrip("]}")
        yield _with(lines, slip.line, bare + sign + line.rstrip()[len(bare) :])
    if slip.kind == "comma":
        yield _with(lines, slip.line, _before_comment(lines[slip.line], 0, ","))
    if slip.kind == "dash":
        text = lines[slip.line]
        depth = _indentation(text)
        yield _with(lines, slip.line, text[:depth] + "- " + text[depth:])
    if slip.kind == "open":
        text = lines[slip.line]
        following = re.compile(r", *[a-z][\w ]*: ").search(text, slip.column)
        if text[slip.column : slip.column + 1] == "[" and following:
            yield _with(lines, slip.line, text[: following.start()] + "]" + text[following.start() :])
        wrong = lines[slip.stuck][slip.stuck_column : slip.stuck_column + 1]
        if wrong in ("}", "]"):
            other = "}" if wrong == "]" else "]"
            yield _with(lines, slip.stuck, _replaced(lines[slip.stuck], slip.stuck_column, other))
        last = max(slip.line, slip.stuck - 1)
        while last > slip.line and not lines[last].strip():
            last -= 1
        for line_number in dict.fromkeys((slip.line, last)):
            closing = _open_brackets(lines, (slip.line, slip.column), line_number + 1)
            if closing:
                whole = _open_brackets(lines, (slip.line, 0), line_number + 1)
                for signs in dict.fromkeys((closing, whole)):
                    yield _with(lines, line_number, _before_comment(lines[line_number], 0, signs))
                yield _with(lines, line_number, _closed_inside(lines[line_number], slip.column, closing[0]))
    if slip.kind == "other":
        yield from _small_changes(slip, lines)
    yield from _losses(slip, lines)


def _with(lines: list[str], number: int, line: str) -> list[str]:
    return [*lines[:number], line, *lines[number + 1 :]]


def _replaced(line: str, column: int, sign: str) -> str:
    return line[:column] + sign + line[column + 1 :]


def _before_comment(line: str, start: int, closing: str) -> str:
    """A line with signs added behind its last word, before a comment and a comma."""
    comment = re.search(r"\s+#", line[start:])
    end = start + comment.start() if comment else len(line.rstrip())
    word = line[:end].rstrip()
    return word + closing + line[end:]


def _closed_inside(line: str, column: int, closing: str) -> str:
    """A bracket closed before the brackets that close at the end of the line."""
    bare = line.rstrip().rstrip("]}")
    return bare + closing + line.rstrip()[len(bare) :]


def _small_changes(slip: Slip, lines: list[str]) -> Iterator[list[str]]:
    line = lines[slip.stuck]
    if "\t" in line:
        yield [re.sub(r"^[ \t]+", lambda m: m[0].replace("\t", "  "), each) for each in lines]
        yield _with(lines, slip.stuck, line.replace("\t", " "))
    if line[slip.stuck_column : slip.stuck_column + 1] in ("}", "]"):
        yield _with(lines, slip.stuck, _replaced(line, slip.stuck_column, " "))
    yield from _inside_braces(slip, lines)
    for number in dict.fromkeys((slip.line, slip.stuck)):
        pair = re.match(r"( *(?:- )?[A-Za-z][\w ]*: +)([^\"'\s].*)$", lines[number])
        if pair is not None and not pair[2].startswith(("[", "|", ">")) and not pair[2].endswith(("}", "},")):
            text = pair[2].rstrip().replace("'", "''")
            yield _with(lines, number, f"{pair[1]}'{text}'")
    if "\\" in line:
        yield _with(lines, slip.stuck, line.replace("\\", "\\\\"))
    if re.match(r" *-\w", line):
        yield _with(lines, slip.stuck, line.replace("-", "- ", 1))
    joined = re.match(r" *(?:- )?[a-z][\w ]*:(?=\S)", lines[slip.line])
    if joined is not None:
        yield _with(lines, slip.line, joined[0] + " " + lines[slip.line][joined.end() :])
    depths = [_indentation(n) + (2 if n.lstrip().startswith("- ") and not line.lstrip().startswith("- ")
                                 else 0)
              for n in (*reversed([each for each in lines[: slip.stuck] if each.strip()][-1:]),
                        *[each for each in lines[slip.stuck + 1 :] if each.strip()][:1])]  # fmt: skip
    for depth in dict.fromkeys(depths):
        if depth != _indentation(line):
            yield _with(lines, slip.stuck, " " * depth + line.lstrip())


def _inside_braces(slip: Slip, lines: list[str]) -> Iterator[list[str]]:
    """A comma before the word that is a name of its own, or quotes round the sentence that holds the sign."""
    line, column = lines[slip.stuck], slip.stuck_column
    values = list(re.finditer(r"[{,] *\w[\w ]*: +", line[:column]))
    if not values:
        return
    value = values[-1]
    end = re.compile(r", *[a-z][\w ]*: |[\]} ]*$").search(line, max(column, value.end()))
    text = line[value.end() : end.start()] if end else ""
    quoted = line[: value.end()] + "'" + text.replace("'", "''") + "'" + line[value.end() + len(text) :]
    word = re.search(r" +(\w+) *$", line[value.end() : column])
    comma = None
    if word is not None:
        at = value.end() + word.start()
        comma = line[:at] + "," + line[at:]
    sentence = text[:1].isupper() and text.count(" ") > 2
    for mended in (quoted, comma) if sentence else (comma, quoted):
        if mended is not None:
            yield _with(lines, slip.stuck, mended)


def _losses(slip: Slip, lines: list[str]) -> Iterator[list[str]]:
    """The text without a line, without an entry, without ever larger entries."""
    tried: set[tuple[int, int]] = set()
    spans = [(slip.stuck, slip.stuck + 1), (slip.line, slip.line + 1), (slip.line, slip.stuck + 1)]
    begin = slip.line
    for _ in range(12):
        spans.append((begin, max(_end_of_entry(lines, begin), slip.stuck + 1)))
        depth = _indentation(lines[begin])
        above = (n for n in range(begin - 1, -1, -1) if lines[n].strip() and _indentation(lines[n]) < depth)
        parent = next(above, None)
        if parent is None:
            break
        begin = parent
    spans.append((slip.line, len(lines)))
    for first, last in spans:
        if (first, last) not in tried:
            tried.add((first, last))
            yield [*lines[:first], *([""] * (last - first)), *lines[last:]]
