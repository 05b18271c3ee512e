"""Scenes made by hand, for tests that need no guide: a motor mount, fins round a tube, bearings on a deck."""

from __future__ import annotations

from builder.drawings.patterns import fin_points
from builder.drawings.scene import (
    Band,
    Dim,
    Mark,
    Placed,
    Scene,
    beside_axis,
    flat,
    on_axis,
    radial_slab,
)
from builder.drawings.solids import Slab, Turned, rectangle, tube
from builder.drawings.vectors import pose, round_axis

IN = 25.4
MOUNT = tube(2.75 * IN, 19.78, 18.256)
RING = tube(IN / 8, 1.23 * IN, 20.55)
BODY = tube(12.5 * IN, 33.782, 31.75)
LUG = tube(1.5 * IN, 4.7625, 3.96875)
FIN = Slab(fin_points(2.25 * IN, 1.25 * IN, 2 * IN), IN / 16)


def mount(*, new: bool = True) -> tuple[Placed, ...]:
    return (
        Placed("motor_tube", "motor tube", MOUNT),
        Placed("thrust_ring", "thrust ring", tube(0.25 * IN, 18.0, 12.7), on_axis(2.5 * IN)),
        Placed("rear_ring", "rear ring", RING, on_axis(0.25 * IN)),
        Placed(
            "front_ring",
            "front ring",
            RING,
            on_axis(2.375 * IN),
            new=new,
            sits="it stands 1/4 in from the front end",
        ),
    )


def motor_mount() -> Scene:
    """A ring slid onto a tube, beside two that are there."""
    return Scene(
        "Slide the front ring on",
        mount(),
        (Band("motor_tube", "outside", 2.5 * IN, 2.6 * IN, name="white glue"),),
        (
            Mark("rear_line", "rear line", "motor_tube", ((0.25 * IN, 0, 9.89),), ring=True),
            Mark("middle_line", "middle line", "motor_tube", ((1.5 * IN, 0, 9.89),), ring=True, new=True),
        ),
        (
            Dim("1/8 in (3.2 mm)", (2.375 * IN, 0, -15), (2.5 * IN, 0, -15)),
            Dim("2 3/4 in (69.8 mm)", (0, 0, -9.89), (2.75 * IN, 0, -9.89)),
            Dim("2 3/8 in (60.3 mm)", (0, 0, -9.89), (2.375 * IN, 0, -15)),
        ),
        ("rear", "front"),
    )


def finned(count: int = 4, new: tuple[int, ...] = (0, 1)) -> Scene:
    """Fins and a lug round a tube, with the mount inside."""
    fins = tuple(
        Placed(
            f"fin {i + 1}",
            "fin",
            FIN,
            radial_slab(0.25 * IN, 16.891, 360 / count * i, IN / 16),
            new=i in new,
            whole=True,
        )
        for i in range(count)
    )
    lug = Placed("lug", "lug", LUG, beside_axis(4 * IN, 16.891 + 2.38, 45))
    return Scene(
        "Glue the fins",
        (Placed("body", "body", BODY), *mount(new=False), *fins, lug),
        dims=(
            Dim("90°", round_axis(0, 33.8, 0), round_axis(0, 33.8, 90), "angle"),
            Dim("2 in (50.8 mm)", round_axis(0, 16.9, 0), round_axis(0, 67.7, 0), "across"),
        ),
        ends=("rear", "front"),
    )


def bearing(copy: int, x: float, *, new: bool) -> Placed:
    straw: Turned = tube(120, 6, 4.5)
    return Placed(f"bearing {copy}", "bearing", straw, pose((x, 0, 6), (0, 1, 0), (1, 0, 0)), new=new)


def deck() -> Scene:
    """A straw glued across the underside of a deck that lies face down."""
    board = Placed("deck", "deck", rectangle(200, 120, 3), flat(0, 120, 3, under_up=True))
    return Scene(
        "Glue a straw on each line",
        (board, bearing(1, 30, new=False), bearing(2, 170, new=True)),
        (Band("deck", "under", 160, 180, 10, 110, name="white glue"),),
        (Mark("back_axle", "back axle line", "deck", ((150, 0, 0), (150, 120, 0)), new=True),),
        (
            Dim("30 mm (1 3/16 in)", (170, 0, 3), (200, 0, 3)),
            Dim("120 mm (4 3/4 in)", (0, 0, 3), (0, 120, 3), "across"),
        ),
    )


def mount_in_body() -> Scene:
    """A short mount in a long tube: shown between break lines."""
    new = tuple(p._replace(new=True) for p in mount(new=False))
    return Scene(
        "Push the mount home",
        (Placed("body", "body", BODY), *new),
        (Band("body", "inside", 0.4 * IN, 0.5 * IN),),
        ends=("rear", "front"),
    )
