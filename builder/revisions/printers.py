"""Changes for people and for machines: text, Markdown for a pull request, JSON."""

from __future__ import annotations

import re
from collections.abc import Sequence

import msgspec

from builder.revisions.change import RANKS, Change, Field, Rank, counts

MOST_PLACES = 12  # places that are printed of one change; JSON has them all

MEANING = {
    Rank.SAFETY: "what guards against harm",
    Rank.FIT: "what fits and where it goes",
    Rank.SHOPPING: "what is bought and shared",
    Rank.TIMING: "when and how long",
    Rank.WORDING: "how it is said",
}

UNDER_WAY = {
    Field.STOP: "stop: tell the class before it goes on",
    Field.SWAP: "swap a part",
    Field.NOTHING: "nothing",
}


def summary(changes: Sequence[Change]) -> str:
    """`7 changes: 2 safety (1 weakened), 3 fit, 2 wording`, or `no change`."""
    if not changes:
        return "no change"
    told = []
    for rank, number in counts(changes).items():
        if number:
            weak = sum(1 for each in changes if each.rank is rank and each.weakened)
            told.append(f"{number} {rank.value}" + (f" ({weak} weakened)" if weak else ""))
    return f"{len(changes)} change{'s' if len(changes) != 1 else ''}: {', '.join(told)}"


def as_text(changes: Sequence[Change], title: str, old: str, new: str) -> str:
    """For people at a terminal."""
    out = [f"{title}: {new} compared with {old}", summary(changes)]
    for rank in RANKS:
        mine = [each for each in changes if each.rank is rank]
        if not mine:
            continue
        out += ["", f"{rank.value.upper()}: {MEANING[rank]}"]
        for each in mine:
            out.append(f"  {each.line}")
            if each.field is not Field.NOTHING:
                out.append(f"      a class under way: {UNDER_WAY[each.field]}")
            out += [f"      {place.text}" for place in each.places[:MOST_PLACES]]
            more = len(each.places) - MOST_PLACES
            if more > 0:
                out.append(f"      and {more} places more")
    return "\n".join(out)


_SIGNS = re.compile(r"([\\`*_{}\[\]<>#|])")


def escaped(text: str) -> str:
    """Text that Markdown shows as it is."""
    return _SIGNS.sub(r"\\\1", text).replace("\n", " ")


def as_markdown(changes: Sequence[Change], title: str, old: str, new: str) -> str:
    """For the discussion of a proposed change."""
    out = [f"## {escaped(title)}: {escaped(new)} compared with {escaped(old)}", "", f"{summary(changes)}."]
    for rank in RANKS:
        mine = [each for each in changes if each.rank is rank]
        if not mine:
            continue
        out += ["", f"### {rank.value.capitalize()}: {MEANING[rank]}", ""]
        for each in mine:
            mark = f" **({each.mark})**" if each.mark else ""
            out.append(f"- {escaped(each.text)}{mark}")
            if each.field is not Field.NOTHING:
                out.append(f"  - A class under way: **{UNDER_WAY[each.field]}**")
            out += [f"  - {escaped(place.text)}" for place in each.places[:MOST_PLACES]]
            more = len(each.places) - MOST_PLACES
            if more > 0:
                out.append(f"  - and {more} places more")
    return "\n".join(out) + "\n"


def as_data(change: Change) -> dict[str, object]:
    """A change as plain data."""
    return {
        "rank": change.rank.value,
        "kind": change.kind.value,
        "mark": change.mark,
        "text": change.text,
        "field": change.field.value,
        "about": change.about,
        "before": change.before,
        "after": change.after,
        "places": [{"text": place.text, "step": place.step} for place in change.places],
    }


def as_json(changes: Sequence[Change], title: str, old: str, new: str) -> str:
    """One JSON document: the title, both labels, the counts, the changes in their order."""
    body = {
        "guide": title,
        "old": old,
        "new": new,
        "counts": {rank.value: number for rank, number in counts(changes).items()},
        "weakened": sum(1 for each in changes if each.weakened),
        "changes": [as_data(each) for each in changes],
    }
    return msgspec.json.format(msgspec.json.encode(body), indent=2).decode()
