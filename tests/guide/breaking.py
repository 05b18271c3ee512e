"""Ways to break the text of a guide: slips of the hand, nonsense in the place of a value, another structure.

A change takes a text and a source of chance, and gives the text changed; it may leave it as it was. A line
is moved with what stands deeper below it, so that what comes out is often still YAML, and is read to its end.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable

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


# -- ways to break its structure --------------------------------------------------------------------

_PAIR = re.compile(r"(?<=[{,\n])([ ]*(?:- )?)([a-z][\w ]*): ([^,{}\[\]\n]+)")
_ID = re.compile(r"(?m)^  ([a-z]\w*):")


def _depth(line: str) -> int:
    return len(line) - len(line.lstrip())


def _stop(lines: list[str], at: int) -> int:
    """Where the block that begins at a line stops: before the next line that is no deeper."""
    stop = at + 1
    while stop < len(lines) and (not lines[stop].strip() or _depth(lines[stop]) > _depth(lines[at])):
        stop += 1
    return stop


def _drop_block(lines: list[str], chance: random.Random) -> list[str]:
    at = chance.randrange(len(lines))
    return lines[:at] + lines[_stop(lines, at) :] or [""]


def _double_block(lines: list[str], chance: random.Random) -> list[str]:
    at = chance.randrange(len(lines))
    block = lines[at : _stop(lines, at)]
    return lines[:at] + block * chance.choice((1, 1, 1, 2, 9)) + lines[at:]


def _swap_blocks(lines: list[str], chance: random.Random) -> list[str]:
    i, j = sorted((chance.randrange(len(lines)), chance.randrange(len(lines))))
    first, second = _stop(lines, i), _stop(lines, j)
    if first > j:
        return lines
    return lines[:i] + lines[j:second] + lines[first:j] + lines[i:first] + lines[second:]


def _move_block(lines: list[str], chance: random.Random) -> list[str]:
    """A block somewhere else, as deep as what stands there."""
    at = chance.randrange(len(lines))
    stop = _stop(lines, at)
    block, rest = lines[at:stop], lines[:at] + lines[stop:] or [""]
    to = chance.randrange(len(rest))
    shift = _depth(rest[to]) - _depth(block[0])
    moved = [" " * shift + line if shift > 0 else line[-shift:] for line in block]
    return rest[:to] + moved + rest[to:]


def _pair(text: str, chance: random.Random) -> re.Match[str] | None:
    pairs = list(_PAIR.finditer(text))
    return chance.choice(pairs) if pairs else None


def _drop_pair(text: str, chance: random.Random) -> str:
    pair = _pair(text, chance)
    if pair is None:
        return text
    return text[: pair.start()] + text[pair.end() + (text[pair.end() : pair.end() + 1] == ",") :]


def _double_pair(text: str, chance: random.Random) -> str:
    pair = _pair(text, chance)
    return text if pair is None else text[: pair.end()] + ", " + pair[0].strip() + text[pair.end() :]


def _other_key(text: str, chance: random.Random) -> str:
    pair, other = _pair(text, chance), _pair(text, chance)
    return text if pair is None or other is None else text[: pair.start(2)] + other[2] + text[pair.end(2) :]


def _same_key(text: str, chance: random.Random) -> str:
    """The value of the same key somewhere else."""
    pair = _pair(text, chance)
    if pair is None:
        return text
    value = chance.choice([other[3] for other in _PAIR.finditer(text) if other[2] == pair[2]])
    return text[: pair.start(3)] + value + text[pair.end(3) :]


def _nonsense(text: str, chance: random.Random) -> str:
    pair = _pair(text, chance)
    return text if pair is None else text[: pair.start(3)] + nonsense(chance, text) + text[pair.end(3) :]


FIELDS = ("length", "outside", "inside", "wall", "blank", "over_seam", "area", "x")
WORDS = ("yes", "no", "~", "null", "nothing", "all", "class", "pattern", "none", "0", "-1", "0 mm")
TAGS = ("!x", "!!str", "!!int", "!!set", "!!binary", "!!python/name:os.system", "!<tag:x>", "!!null")


def nonsense(chance: random.Random, text: str) -> str:
    """What nobody would write for a value: too large, too deep, too long, of another kind, strange signs."""
    many = chance.choice((2, 9, 70, 700))
    ids = _ID.findall(text) or ["x"]
    one, two = chance.choice(ids), chance.choice(ids)
    unit = chance.choice(("mm", "in", "min", "h", "deg", "mL", "g", "USD", "", "pieces"))
    return chance.choice((
        lambda: f"{chance.choice('-0123456789')}{'9' * many} {unit}",
        lambda: f"{chance.randrange(-9, 99)}/{chance.randrange(0, 9)} {unit}",
        lambda: f"1/{'9' * many} {unit}",
        lambda: "(" * many + f"1 {unit}" + ")" * many,
        lambda: " * ".join(["999 mm"] * many), lambda: " + ".join([f"{one}.length"] * many),
        lambda: " / ".join([f"{one}.length"] * many), lambda: f"1 {unit} - " * many + "1 mm",
        lambda: f"[{', '.join([one] * many)}]", lambda: f"[{one}, {two}]",
        lambda: "[" * many + one + "]" * many, lambda: f"{{{one}: {two}}}", lambda: "[]", lambda: "{}",
        lambda: f"{one}", lambda: f"{one}.{chance.choice(FIELDS)}",
        lambda: f"{one} 1 and 2", lambda: f"{one} {many}", lambda: f"{one} {two}", lambda: one * many,
        lambda: f"start of {one}", lambda: f"middle of {one}", lambda: f"where {one} will sit",
        lambda: f"meets {one}", lambda: f"1 {unit} from {chance.choice(('rear', 'left', 'tip', one))}",
        lambda: f"1 {unit} to {many} {unit} from front", lambda: "flush with " + one,
        lambda: f"1 {unit} from front and 1 {unit} from left", lambda: f"evenly for {one}",
        lambda: f"{many} {unit} ± {many} {unit}", lambda: f"± {many} {unit}",
        lambda: f"{many} {unit} x {many} {unit}", lambda: f"up to {many} {unit} or from 1 {unit}",
        lambda: f"{many} builders", lambda: f"{many}-{many - 1}", lambda: chance.choice(WORDS),
        lambda: chance.choice(ODD) * chance.choice((1, 3, many)),
        lambda: "\u202e" + one + "\u2066", lambda: "'" + "\u0301" * many + "'", lambda: '"\\0\\x85\\u2028"',
        lambda: "\U0001f680" * many, lambda: "'{" + one + "}" * many + "'", lambda: f"{{{one}.{two}}}",
    ))()  # fmt: skip


def _alias(text: str, chance: random.Random) -> str:
    pair, other = _pair(text, chance), _pair(text, chance)
    if pair is None or other is None or pair.start() >= other.start():
        return text
    name = chance.choice(("x", "y", "long_name"))
    text = text[: other.start(3)] + "*" + name + text[other.end(3) :]
    return text[: pair.start(3)] + f"&{name} " + text[pair.start(3) :]


def _tag(text: str, chance: random.Random) -> str:
    pair = _pair(text, chance)
    if pair is None:
        return text
    return f"{text[: pair.start(3)]}{chance.choice(TAGS)} {text[pair.start(3) :]}"


def _merge(text: str, chance: random.Random) -> str:
    pair = _pair(text, chance)
    what = chance.choice(("*x", "{a: b}", "[*x, *y]", "{form: rod}", "~"))
    return text if pair is None else f"{text[: pair.end()]}, <<: {what}{text[pair.end() :]}"


def _like(text: str, chance: random.Random) -> str:
    """Parts that are like one another, in a ring or each like itself."""
    ids = _ID.findall(text)
    if not ids:
        return text
    one, two = chance.choice(ids), chance.choice(ids)
    word = chance.choice(("like", "like", "mirror of", "of", "slots"))
    for first, second in ((one, two), (two, chance.choice((one, one, chance.choice(ids))))):
        text = re.sub(rf"(?m)^(  {first}: *)\{{", rf"\1{{{word}: {second}, ", text, count=1)
    return text


def _of_itself(text: str, chance: random.Random) -> str:
    """A number that is worked out from itself, by way of another or at once."""
    pair, ids = _pair(text, chance), _ID.findall(text)
    if pair is None or not ids:
        return text
    field = chance.choice((pair[2].strip(), "length", "outside", "inside", "wall", "blank"))
    more = chance.choice(("", " + 1 mm", " * 2"))
    return f"{text[: pair.start(3)]}{chance.choice(ids)}.{field}{more}{text[pair.end(3) :]}"


def _before(text: str, line: str, more: str) -> str:
    return re.sub(rf"(?m)^{line}", lambda found: more + found[0], text, count=1)


def _tower(text: str, chance: random.Random) -> str:
    """Numbers that grow at each line, and a part that is as long as the last."""
    many, sign = chance.choice((3, 30, 300)), chance.choice("+*/-")
    grown = [(i, chance.choice((f"n{i}", "3", "pi", "7/3"))) for i in range(many)]
    lines = "".join(f"  n{i + 1}: n{i} {sign} {by}\n" for i, by in grown)
    body = chance.choice((
        "{form: cord, length: nX, source: bought}", "{form: ring, outside: nX, inside: n0, length: nX}",
        "{form: strip, length: nX, width: n1, thickness: n0, source: found}",
    )).replace("nX", f"n{many}")  # fmt: skip
    text = re.sub(r"(?m)^parts:\n", lambda found: f"{found[0]}  high: {body}\n", text, count=1)
    return _before(text, "parts:", f"dimensions:\n  n0: {chance.choice(('2', '1/3', '99999'))} mm\n{lines}")


def _uses(text: str, chance: random.Random) -> str:
    many, prefixes = chance.choice((1, 2, 20, 300)), chance.choice((1, 400))
    shared = chance.choice(("coil", "roll_tube", "leave_to_cure", "nothing"))
    ids = _ID.findall(text) or ["x"]

    def use(number: int) -> str:
        bound = ", ".join(f"{each}: {chance.choice(ids)}" for each in ("tube", "dowel", "glue", "work"))
        return f"  - {{use: {shared}, as: u{number % prefixes}, with: {{{bound}}}}}\n"

    more = "".join(map(use, range(many)))
    return text.rstrip("\n") + "\n" + more if chance.random() < 0.2 else _before(text, "  - ", more)


def _chooses(text: str, chance: random.Random) -> str:
    many, options = chance.choice((1, 2, 3, 4, 12, 60)), chance.choice((1, 2, 3, 9))
    ways = [f"o{i}" for i in range(options)]
    names = "".join(f"  q{i}: {{{', '.join(f'{w}: way {w}' for w in ways)}}}\n" for i in range(many))
    nested = "[{choose: q0, " + ", ".join(f"{w}: []" for w in ways) + "}]"
    inner = nested if chance.random() < 0.2 else "[]"
    more = "".join(f"  - {{choose: q{i}, {', '.join(f'{w}: {inner}' for w in ways)}}}\n" for i in range(many))
    at = chance.choice(("parts:", "steps:", "title:"))
    return _before(_before(text, "  - ", more), at, f"choices:\n{names}")


def _copies(text: str, chance: random.Random) -> str:
    """Very many copies, coats, turns or packs of what there is one of."""
    word = chance.choice(("count", "count", "coats", "turns", "sides", "from turn", "pack"))
    number = chance.choice(("0", "1", "2", "60", "61", "400", "9999", "1000000000", "-3", "2.5"))
    if word == "count" and "count:" not in text:
        return re.sub(r"(?m)^(  [a-z]\w*: \{form: )", rf"\1x, count: {number}, form: ", text, count=1)
    return re.sub(rf"\b{word}: *\S+?(?=[,}}\n])", f"{word}: {number}", text, count=chance.choice((0, 1)))


def _repeats(lines: list[str], chance: random.Random) -> list[str]:
    """An action inside a repeat, or inside several."""
    actions = [i for i, line in enumerate(lines) if line.startswith("      - {")]
    ids = _ID.findall("\n".join(lines))
    if not actions or not ids:
        return lines
    at = chance.choice(actions)
    action = lines[at].strip()[2:]
    for _ in range(chance.choice((1, 1, 2, 3, 9, 60))):
        word = chance.choice(("", ", around: " + chance.choice(ids), ", at: [" + chance.choice(ids) + "]"))
        inner = ", ".join([action] * chance.choice((1, 1, 2)))
        action = f"{{repeat: {chance.choice(ids)}{word}, actions: [{inner}]}}"
        if len(action) > 20_000:
            break
    return [*lines[:at], "      - " + action, *lines[at + 1 :]]


def _rename(text: str, chance: random.Random) -> str:
    """One id takes the name of another, everywhere or once."""
    ids = _ID.findall(text)
    if not ids:
        return text
    one, two = chance.choice(ids), chance.choice((*ids, "deck", "front", "all", "class", "x" * 90))
    return re.sub(rf"\b{one}\b", two, text, count=chance.choice((0, 1, 1)))


CHANGES: tuple[tuple[str, Change], ...] = (
    ("cut out", _cut_out), ("put in", _put_in), ("put in", _put_in), ("flip", _flip),
    ("swap words", _swap_words), ("odd word", _odd_word), ("odd word", _odd_word), ("drop word", _drop_word),
    ("spell", _spell), ("drop line", _lines(_drop_line)), ("double line", _lines(_double_line)),
    ("move line", _lines(_move_line)), ("shift line", _lines(_shift_line)),
    ("join lines", _lines(_join_lines)),
    ("other value", _other_value), ("other value", _other_value), ("no dash", _no_dash),
    ("ends of lines", _ends_of_lines), ("stop short", _stop_short), ("twice", _twice),
    ("drop block", _lines(_drop_block)), ("double block", _lines(_double_block)),
    ("swap blocks", _lines(_swap_blocks)), ("move block", _lines(_move_block)),
    ("drop pair", _drop_pair), ("drop pair", _drop_pair), ("double pair", _double_pair),
    ("other key", _other_key), ("same key", _same_key), ("same key", _same_key),
    ("nonsense", _nonsense), ("nonsense", _nonsense), ("nonsense", _nonsense), ("nonsense", _nonsense),
    ("alias", _alias), ("tag", _tag), ("merge", _merge), ("like", _like), ("of itself", _of_itself),
    ("tower", _tower), ("uses", _uses), ("chooses", _chooses), ("copies", _copies), ("copies", _copies),
    ("repeats", _lines(_repeats)), ("repeats", _lines(_repeats)), ("rename", _rename), ("rename", _rename),
)  # fmt: skip
