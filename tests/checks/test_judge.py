"""The judge: who leads, what folds beneath it, what is one finding. On findings made by hand."""

from __future__ import annotations

import pytest

from builder.checks import BENCH_RANK, ORDER
from builder.checks.judge import judge
from builder.findings import Finding, Place, Severity

ERROR, WARNING, NOTE = Severity.ERROR, Severity.WARNING, Severity.NOTE


def finding(
    check: str,
    line: int,
    suspects: str = "",
    rests_on: str = "",
    severity: Severity = ERROR,
    *,
    safety: bool = False,
    order: int = 0,
    routes: tuple[str, ...] = ("a",),
    message: str = "wrong",
) -> Finding:
    facts = frozenset(suspects.split()), frozenset(rests_on.split())
    return Finding(
        check, severity, Place("g.yml", line, 1), message, suspects=facts[0], rests_on=facts[1],
        safety=safety, order=order, routes=routes,
    )  # fmt: skip


def told(*raw: Finding, routes: int = 1) -> list[tuple[str, int, list[str]]]:
    """(check, line, what follows) of each leader."""
    return [(f.check, f.place.line, [x.check for x in f.follows]) for f in judge(raw, routes)]


def test_what_rests_on_a_suspect_follows() -> None:
    assert told(finding("held", 5, "held:ring"), finding("not-there", 9, "", "held:ring", order=3)) == [
        ("held", 5, ["not-there"])
    ]
    assert told(finding("held", 5, "held:ring"), finding("not-there", 9, "", "held:fin", order=3)) == [
        ("held", 5, []),
        ("not-there", 9, []),
    ]


def test_folding_is_directed() -> None:
    """The second suspects what the first rests on; it came later, and does not take the first with it."""
    assert told(finding("held", 5, "x", "y", order=1), finding("masked", 9, "y", "", order=2)) == [
        ("held", 5, []),
        ("masked", 9, []),
    ]


def test_a_warning_in_front_does_not_keep_an_error_from_its_leader() -> None:
    """Both suspect what the last rests on, which may not stand beneath the warning. Errors are told first."""
    raw = (
        finding("held", 5, "x", severity=WARNING, order=1),
        finding("masked", 7, "x", order=2),
        finding("recoat", 9, "", "x", order=3),
    )
    assert told(*raw) == [("masked", 7, ["recoat"]), ("held", 5, [])]


def test_the_second_leader_is_asked_too() -> None:
    raw = (
        finding("held", 5, "a", order=1),
        finding("masked", 7, "b", order=2),
        finding("recoat", 9, "", "b", order=3),
    )
    assert told(*raw) == [("held", 5, []), ("masked", 7, ["recoat"])]


def test_what_follows_from_what_follows_stands_beneath_the_leader() -> None:
    raw = (
        finding("held", 5, "a", order=1),
        finding("masked", 7, "b", "a", order=2),
        finding("recoat", 9, "c", "b", order=3),
    )
    assert told(*raw) == [("held", 5, ["masked", "recoat"])]


def test_the_first_leader_takes_it() -> None:
    raw = (
        finding("held", 5, "x", order=1),
        finding("masked", 7, "x y", "", order=2),
        finding("recoat", 9, "", "y x", order=3),
    )
    assert told(*raw) == [("held", 5, ["recoat"]), ("masked", 7, [])]


@pytest.mark.parametrize(
    ("leader", "later", "folds"),
    [
        (ERROR, ERROR, True),
        (ERROR, WARNING, True),
        (WARNING, ERROR, False),
        (WARNING, WARNING, True),
        (WARNING, NOTE, True),
        (NOTE, WARNING, False),
    ],
)
def test_an_error_never_folds_under_a_warning(leader: Severity, later: Severity, folds: bool) -> None:
    raw = (finding("held", 5, "x", severity=leader, order=1), finding("masked", 7, "", "x", later, order=2))
    assert len(told(*raw)) == (1 if folds else 2)


@pytest.mark.parametrize(
    ("leader", "later", "folds"),
    [(False, False, True), (True, False, True), (True, True, True), (False, True, False)],
)
def test_what_can_hurt_folds_only_under_what_can_hurt(leader: bool, later: bool, folds: bool) -> None:
    raw = (
        finding("held", 5, "x", safety=leader, order=1),
        finding("masked", 7, "", "x", safety=later, order=2),
    )
    assert len(told(*raw)) == (1 if folds else 2)


def test_who_leads() -> None:
    """Each group of the table before the next, wherever in the guide it stands; the bench by its frames."""
    names = [group[0] if group else "held" for group in ORDER]
    raw = [
        finding(name, 100 - i, f"f{i}", " ".join(f"f{j}" for j in range(i))) for i, name in enumerate(names)
    ]
    assert told(*reversed(raw)) == [(names[0], 100, names[1:])]
    assert names.index("held") == BENCH_RANK


def test_on_the_bench_the_earlier_frame_leads() -> None:
    raw = (finding("held", 50, "x", "y", order=1), finding("masked", 5, "y", "x", order=2))
    assert told(*raw) == [("held", 50, ["masked"])]
    raw = (finding("held", 50, "x", "y", order=2), finding("masked", 5, "y", "x", order=1))
    assert told(*raw) == [("masked", 5, ["held"])]


def test_one_place_is_one_finding_over_copies_and_routes() -> None:
    raw = (
        finding("held", 5, "held:fin1", routes=("a",), message="nothing holds fin 1"),
        finding("held", 5, "held:fin2", routes=("a",), message="nothing holds fin 2"),
        finding("held", 5, "held:fin1", routes=("b",), message="nothing holds fin 1"),
        finding("not-there", 9, "", "held:fin2", routes=("b",), order=4),
    )
    (one,) = judge(raw, 2)
    assert one.message == "nothing holds fin 1 (and so for 1 more)"
    assert one.suspects == {"held:fin1", "held:fin2"}
    assert one.routes == (), "it is told of all routes, and none need be named"
    assert [(f.check, f.routes) for f in one.follows] == [("not-there", ("b",))]
    assert judge(raw[:2], 2)[0].routes == ("a",)


def test_another_place_is_another_finding() -> None:
    assert told(finding("held", 5, "x"), finding("held", 6, "y")) == [("held", 5, []), ("held", 6, [])]


def test_leaders_are_shown_by_severity_and_then_by_line() -> None:
    raw = (
        finding("else-missing", 2, severity=WARNING),
        finding("never-used", 9),
        finding("say-same", 1, severity=NOTE),
        finding("zone-sum", 12),
    )
    assert [line for _, line, _ in told(*raw)] == [9, 12, 2, 1]


def test_nothing_is_lost() -> None:
    """However many lead and follow, every place that was told is told."""
    raw = [
        finding("held", i, f"f{i}", f"f{i * 7 % 11}", safety=i % 3 == 0, order=i,
                severity=(ERROR, WARNING)[i % 2])
        for i in range(1, 40)
    ]  # fmt: skip

    def lines(found: list[Finding] | tuple[Finding, ...]) -> list[int]:
        return [n for f in found for n in (f.place.line, *lines(f.follows))]

    assert sorted(lines(judge(raw, 1))) == list(range(1, 40))
