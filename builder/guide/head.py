"""What stands at the head of a guide: units, dimensions, choices, revision, and what the finished kit is."""

from __future__ import annotations

from fractions import Fraction

from builder.findings import Place
from builder.guide.actions import Names
from builder.guide.declared import DIMENSION, GUIDE
from builder.guide.desk import Pairs, cut
from builder.guide.fields import by_name
from builder.guide.model import Choice, Finished, Ref, Revision, Value
from builder.guide.nodes import MappingNode, is_null
from builder.guide.numbers import Numbers
from builder.guide.reading import Reading
from builder.guide.things import take
from builder.quantities.show import Units
from builder.quantities.units import Dimension
from builder.quantities.values import length

_GUIDE = by_name(GUIDE)
_UNITS, _FINISHED = by_name(_GUIDE["units"].inner), by_name(_GUIDE["finished"].inner)
_DIMENSION = by_name(DIMENSION)


def read_units(top: Pairs, desk: Reading) -> Units:
    """The two units, and the smallest step of the ruler; millimetres where nothing is said."""
    fine = length(1)  # mm
    if "units" not in top:
        return Units("mm", "in", fine)
    pairs = desk.known(desk.pairs(top["units"][1], "units"), _UNITS, "units")
    desk.required(pairs, _UNITS, top["units"][0], "units")
    first = desk.word(pairs["first"][1], _UNITS["first"]) if "first" in pairs else "mm"
    if first == "in":
        fine = length(Fraction(127, 80))  # 1/16 in
    second = desk.word(pairs["second"][1], _UNITS["second"]) if "second" in pairs else "in"
    if first == second and "second" in pairs:
        desk.fault("word", pairs["second"][1], "both units are the same",
                   "The number in brackets would say nothing new.", "Write `in` and `mm`, in either order.")
    if "finest" in pairs:
        finest = desk.number(pairs["finest"][1], "units.finest", Dimension.LENGTH).quantity
        if finest is not None and finest.base > 0:
            fine = finest
        elif finest is not None:
            desk.fault("number", pairs["finest"][1], "the smallest step of the ruler is zero",
                       "Nothing could be rounded to it.",
                       "Write `finest: 1/16 in`, or `finest: 1 mm`.")  # fmt: skip
    return Units(first or "mm", second or "in", fine)


def read_dimensions(top: Pairs, desk: Reading, numbers: Numbers, taken: dict[str, Place]) -> None:
    """Hand the named dimensions to the numbers, which work them out when they are asked for."""
    if "dimensions" not in top:
        return
    for name, (key, node) in desk.pairs(top["dimensions"][1], "the dimensions").items():
        if not take(key, "the id of a dimension", desk, taken):
            continue
        if is_null(node):
            desk.fault("missing-value", key, f'the dimension "{cut(name)}" has no value',
                       "What names it would have no value either.",
                       "Write a number with its unit.")  # fmt: skip
            numbers.memo[name] = Value(None, name, desk.place(key))
            continue
        why = ""
        if isinstance(node, MappingNode):
            pairs = desk.known(desk.pairs(node, f'"{name}"'), _DIMENSION, "a dimension")
            desk.required(pairs, _DIMENSION, node, f'the dimension "{name}"')
            if "is" not in pairs:
                numbers.memo[name] = Value(None, name, desk.place(key))
                continue
            why = desk.text(pairs["why"][1], "why") if "why" in pairs else ""
            node = pairs["is"][1]
        numbers.dimensions[name] = (node, why)


def read_choices(top: Pairs, desk: Reading) -> dict[str, Choice]:
    """The choices, each with its options."""
    out: dict[str, Choice] = {}
    if "choices" not in top:
        return out
    for name, (key, node) in desk.pairs(top["choices"][1], "the choices").items():
        desk.new_id(key, "the id of a choice")
        options = {}
        for option, (_, value) in desk.pairs(node, f'the options of "{name}"').items():
            options[option] = desk.text(value, f'"{option}"') or option.replace("_", " ")
        out[name] = Choice(name, options, desk.place(key))
    return out


def nested(top: Pairs, name: str, desk: Reading) -> Pairs:
    """The fields inside a field of the guide; none if it is not there."""
    if name not in top:
        return Pairs()
    inner = by_name(_GUIDE[name].inner)
    pairs = desk.known(desk.pairs(top[name][1], f'"{name}"'), inner, f'"{name}"')
    desk.required(pairs, inner, top[name][0], f'"{name}"')
    return pairs


def texts_of(pairs: Pairs, desk: Reading) -> dict[str, str]:
    """The fields that are plain texts, by their keys."""
    return {n.replace(" ", "_"): desk.text(p[1], f'"{n}"') for n, p in pairs.items()}


def read_revision(top: Pairs, desk: Reading) -> Revision | None:
    """Number, date, author and summary."""
    if "revision" not in top:
        return None
    pairs = nested(top, "revision", desk)
    read = texts_of(pairs, desk)
    number, dated = read.get("number", ""), read.get("dated", "")
    if number and not (number.isascii() and number.isdigit() and int(number[:9]) > 0):
        desk.fault("number", pairs["number"][1], f'"{cut(number)}" is not the number of a revision',
                   "Revisions are counted from one, so that anyone knows which is newer.",
                   "Write `number: 1`.")
    if dated and not _is_date(dated):
        desk.fault("word", pairs["dated"][1], f'"{cut(dated)}" is not a date',
                   "Day and month could be mixed up.",
                   "Write year, month and day: `dated: 2026-11-02`.")  # fmt: skip
    return Revision(number, dated, read.get("by", ""), read.get("summary", ""),
                    desk.place(top["revision"][1]))


def _is_date(text: str) -> bool:
    """`2026-11-02`: a day that there is."""
    year, dash, rest = text.partition("-")
    month, again, day = rest.partition("-")
    if not (text.isascii() and len(text) == 10 and dash and again and (year + month + day).isdigit()):
        return False
    days = (31, 29 if int(year) % 4 == 0 else 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    return 1 <= int(month) <= 12 and 1 <= int(day) <= days[int(month) - 1]


def read_finished(top: Pairs, desk: Reading, names: Names) -> Finished | None:
    """What the finished kit is, what it holds, and what is left over on purpose."""
    if "finished" not in top:
        return None
    pairs = desk.known(desk.pairs(top["finished"][1], "finished"), _FINISHED, "finished")
    desk.required(pairs, _FINISHED, top["finished"][0], "finished")
    lists: dict[str, tuple[Ref, ...]] = {}
    for word in ("holds", "left over"):
        if word in pairs:
            found = (names.checked(r, "", desk) for r in desk.refs(pairs[word][1], f'"{word}"'))
            lists[word] = tuple(r for r in found if r is not None and r.id != "all")
    ref = desk.ref(pairs["is"][1], '"is"') if "is" in pairs else None
    what = names.checked(ref, "part", desk) if ref else None
    if what is None:
        return None
    return Finished(what, lists.get("holds", ()), lists.get("left over", ()), desk.place(top["finished"][1]))
