"""Orthographic projection with hidden lines removed.

The solids are analytic, so the question is asked directly: a point of a line is visible if a ray from
it towards the viewer meets nothing.  Lines are sampled every 2 mm on paper and bisected where the
answer changes, so that what is emitted are the visible runs and nothing lies hidden in the file.

A half section takes away the quarter that is near the viewer and above the axis: what was there neither
hides nor is drawn, except things that are shown whole.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from math import atan2, ceil, cos, degrees, dist, hypot, pi, sin

from builder.drawings.bodies import Body, Camera, body_of
from builder.drawings.of_cord import cord_runs
from builder.drawings.scene import Placed, Scene
from builder.drawings.shapes import Arc, Point, Polyline, box_round
from builder.drawings.solids import Cord, Turned, lines_of, solid_at
from builder.drawings.style import LINES
from builder.drawings.vectors import Vec, add, cross, dot, sub, times, unit

SAMPLE = 2.0
"""Distance of two samples on paper, mm; 4 mm lost small visible pieces, 1 mm found no more."""

BISECTIONS = 9
"""A change within 2 mm is found to 2 / 512 mm."""

OFF_SKIN = 1e-4
"""How far a sample is moved off its own skin, mm."""

TOUCHING = 0.1
"""Hits nearer than this are the thing itself, or what it rests on, mm."""


class Viewer:
    """Answers what is visible in one scene from one camera; holds no more than the two."""

    def __init__(self, scene: Scene, camera: Camera, *, cut: bool = False) -> None:
        self.scene = scene
        self.camera = camera
        self.cut = cut
        self.bodies = [body_of(p, camera) for p in scene.parts if not isinstance(p.solid, Cord)]

    def removed(self, p: Vec) -> bool:
        """True if a world point lies in the quarter that a half section takes away."""
        return self.cut and p[1] < -1e-6 and p[2] > 1e-6

    def on_cut(self, p: Vec) -> bool:
        """True if a world point lies in the plane of the cut, above the axis."""
        return self.cut and abs(p[1]) < 1e-6 and p[2] > 1e-6

    def near(self, points: Sequence[Point], depth: float) -> list[Body]:
        """The bodies that could hide something between these points on paper at this depth."""
        box = box_round(points).grown(0.01)
        return [
            b
            for b in self.bodies
            if b.nearest > depth and b.box.meets(box) and not any(s.misses(points) for s in b.strips)
        ]

    def seen_past(self, bodies: list[Body]) -> Callable[[Vec], bool]:
        """Tells of a point whether it is seen past some bodies, where nothing is cut open."""
        # written out, since most of the time of a drawing is spent here
        (rx, ry, rz), (ux, uy, uz), (tx, ty, tz), k = self.camera
        rows = [(*b.box, b.nearest, b.strips, b.placed.pose.local, b.forth) for b in bodies]

        def seen(p: Vec) -> bool:
            px, py, pz = p
            x = (px * rx + py * ry + pz * rz) * k
            y = -(px * ux + py * uy + pz * uz) * k
            behind = px * tx + py * ty + pz * tz + TOUCHING
            for left, top, right, bottom, nearest, strips, local, forth in rows:
                if nearest <= behind or not (left <= x <= right and top <= y <= bottom):
                    continue
                for nx, ny, low, high in strips:
                    if not low <= x * nx + y * ny <= high:
                        break
                else:
                    if forth(local(p), TOUCHING, True):
                        return False
            return True

        return seen

    def hidden(self, p: Vec, bodies: list[Body]) -> bool:
        """True if some body stands between a point and the viewer."""
        camera = self.camera
        toward, cut = camera.toward, self.cut
        (rx, ry, rz), (ux, uy, uz), k = camera.right, camera.up, camera.scale
        x = (p[0] * rx + p[1] * ry + p[2] * rz) * k
        y = -(p[0] * ux + p[1] * uy + p[2] * uz) * k
        behind = p[0] * toward[0] + p[1] * toward[1] + p[2] * toward[2] + TOUCHING
        through = self.plane_hit(p, toward) if cut else None
        for body in bodies:
            left, top, right, bottom = body.box
            if body.nearest <= behind or not (left <= x <= right and top <= y <= bottom):
                continue
            if not body.in_strips(x, y):
                continue
            placed = body.placed
            frame = placed.pose
            kept = not cut or placed.whole
            found = body.forth(frame.local(p), TOUCHING, kept)
            if found and (kept or any(not self.removed(add(p, times(toward, t))) for t in found)):
                return True
            if (
                through is not None
                and not placed.whole
                and solid_at(placed.solid, frame.local(add(p, times(toward, through))))
            ):
                return True
        return False

    def plane_hit(self, o: Vec, d: Vec) -> float | None:
        """Distance along a ray to the cut plane above the axis; None if it does not pass there."""
        if not self.cut or abs(d[1]) < 1e-9:
            return None
        t = -o[1] / d[1]
        return t if t > TOUCHING and o[2] + t * d[2] > 1e-6 else None

    def first(self, at: Point, bodies: list[Body]) -> tuple[Placed, Vec] | None:
        """What the viewer sees at a point on paper: the part, and the point of its skin in the world."""
        c = self.camera
        far = 10 + max((b.nearest for b in bodies), default=0.0)
        start = add(add(times(c.right, at[0] / c.scale), times(c.up, -at[1] / c.scale)), times(c.toward, far))
        back = times(c.toward, -1)
        through = self.plane_hit(start, back) if self.cut else None
        best: tuple[float, Placed] | None = None
        for body in bodies:
            if (best is not None and far - body.nearest > best[0]) or not body.may_cover(at):
                continue
            placed = body.placed
            kept = not self.cut or placed.whole
            for t in body.back(placed.pose.local(start), 0.0, False):
                if (best is None or t < best[0]) and (kept or not self.removed(add(start, times(back, t)))):
                    best = (t, placed)
            if through is not None and (best is None or through < best[0]) and not placed.whole:
                cut = placed.pose.local(add(start, times(back, through)))
                if solid_at(placed.solid, cut):
                    best = (through, placed)
        return None if best is None else (best[1], add(start, times(back, best[0])))

    # -- runs ----------------------------------------------------------------------------------------

    def straight(
        self, placed: Placed, a: Vec, b: Vec, out: Vec, sample: float = SAMPLE
    ) -> list[tuple[Vec, Vec]]:
        """The visible runs of a straight line; world points, `out` a world direction off the skin."""
        (ax, ay, az), (dx, dy, dz), (ox, oy, oz) = a, sub(b, a), times(out, OFF_SKIN)

        def at(share: float) -> Vec:
            return (ax + dx * share, ay + dy * share, az + dz * share)

        def off_skin(share: float) -> Vec:
            return (ax + dx * share + ox, ay + dy * share + oy, az + dz * share + oz)

        pa, pb = self.camera.paper(a), self.camera.paper(b)
        length = hypot(pb[0] - pa[0], pb[1] - pa[1])
        if length < 0.05:
            return []
        depth = min(dot(a, self.camera.toward), dot(b, self.camera.toward))
        spans = self.spans(placed, off_skin, length, (pa, pb), depth, ceil(length / sample))
        return [(at(s), at(e)) for s, e in spans]

    def spans(
        self,
        placed: Placed,
        at: Callable[[float], Vec],
        length: float,
        within: Sequence[Point],
        depth: float,
        least: int = 2,
    ) -> list[tuple[float, float]]:
        """Shares (0 to 1) of a line between which it is visible, looked at in `least` pieces or more; it lies
        between the points `within` on paper."""
        bodies = self.near(within, depth)
        drawn_cut = self.cut and not placed.whole
        if not bodies and not drawn_cut:
            return [(0.0, 1.0)]
        if self.cut:

            def visible(share: float) -> bool:
                p = at(share)
                return not (drawn_cut and self.removed(p)) and not self.hidden(p, bodies)

        else:
            seen = self.seen_past(bodies)

            def visible(share: float) -> bool:
                return seen(at(share))

        return runs_of(visible, max(2, least, ceil(length / SAMPLE)), length)


def runs_of(visible: Callable[[float], bool], samples: int, length: float) -> list[tuple[float, float]]:
    """Shares between which `visible` holds, found at so many steps and bisected where it changes."""
    edge = min(1e-3, 0.02 / max(length, 0.02))
    shares = [edge, *(i / samples for i in range(1, samples)), 1 - edge]
    seen = [visible(s) for s in shares]
    found: list[tuple[float, float]] = []
    start = 0.0 if seen[0] else None
    for i in range(len(shares) - 1):
        if seen[i] == seen[i + 1]:
            continue
        low, high = shares[i], shares[i + 1]
        for _ in range(BISECTIONS):
            middle = (low + high) / 2
            if visible(middle) == seen[i]:
                low = middle
            else:
                high = middle
        if seen[i]:
            if start is not None:
                found.append((start, low))
            start = None
        else:
            start = high
    if start is not None:
        found.append((start, 1.0))
    joined: list[tuple[float, float]] = []
    for s, e in found:
        if joined and (s - joined[-1][1]) * length < 0.3:
            joined[-1] = (joined[-1][0], e)
        elif (e - s) * length > 0.1:
            joined.append((s, e))
    return joined


THICK = 3 * LINES["new"].width
"""What is drawn thinner than this, mm on paper, has new edges no wider than a third of it: two heavy edges
would run together and hide what lies between them."""


def new_line(thickness: float) -> str:
    """The class of the edges of something new that is so thick on paper, mm."""
    return "new" if thickness >= THICK else "new_thin"


WHITE = 0.4
"""White between two lines is seen if it is at least so wide, mm on paper."""


def old_line(thickness: float) -> str:
    """The class of the edges of what is there already and so thick on paper, mm: thin where two edges of the
    usual width would run together, unless even thin ones do."""
    least = LINES["thin"].width + WHITE
    return "thin" if least <= thickness < 3 * LINES["outline"].width else "outline"


def visible_lines(view: Viewer) -> list[Polyline | Arc]:
    """Every visible line of the scene's solids, on paper, parts in the scene's order."""
    found: list[Polyline | Arc] = []
    c = view.camera
    for placed in view.scene.parts:
        if isinstance(placed.solid, Cord):
            found += _cord_lines(view, placed, placed.solid)
            continue
        frame = placed.pose
        edges, rims = lines_of(placed.solid, frame.local_direction(c.toward))
        box = body_of(placed, c).box
        thick, long = sorted((box.width, box.height))
        line = (new_line if placed.new else old_line)(thick)
        shortest = thick + OFF_SKIN if thick < LINES[line].width < long else 0.0
        for edge in edges:
            a0, b0 = frame.world(edge.a), frame.world(edge.b)
            if dist(c.paper(a0), c.paper(b0)) < shortest:
                continue  # across what is no thicker than its line it would stand out as a stub
            runs = view.straight(placed, a0, b0, frame.turned(edge.out))
            found += [Polyline((c.paper(a), c.paper(b)), line, placed.id) for a, b in runs]
            if dashed(view, placed):
                found += [Polyline(gap, "hidden", placed.id) for gap in gaps(c, a0, b0, runs)]
        for rim in rims:
            if 2 * rim.radius * c.scale < shortest:
                continue
            off = (rim.out, -1.0 if rim.bore else 1.0)
            # where the skin only bends, a heavy line would be taken for an outline
            own = line if rim.out or not placed.new else "thin"
            found += rim_runs(view, placed, rim.x, rim.radius, off, own)
    return found


def _cord_lines(view: Viewer, placed: Placed, cord: Cord) -> list[Polyline | Arc]:
    """The lines of a cord; what the view shows dashed of it, too."""
    points = [placed.pose.world(p) for p in cord.points]
    seen, unseen = cord_runs(points, view.camera, partial(view.spans, placed), SHORTEST_GAP)
    kinds = [("new" if placed.new else "outline", run) for run in seen]
    kinds += [("hidden", run) for run in unseen if dashed(view, placed)]
    return [Polyline(run, line, placed.id) for line, run in kinds]


SHORTEST_GAP = 3.0
"""A hidden stretch that is shorter than this on paper is not drawn, mm."""


def dashed(view: Viewer, placed: Placed) -> bool:
    """True if what lies behind something is drawn dashed: a new round part, seen square to its axis.

    At an angle, and for what is there already, dashes would only fill the picture.  A cord from above is
    dashed where it is folded in.
    """
    if isinstance(placed.solid, Cord):
        return not view.cut and view.camera.toward[2] > 1 - 1e-6
    if not placed.new or view.cut or not isinstance(placed.solid, Turned):
        return False
    square = abs(dot(placed.pose.ex, view.camera.toward)) < 1e-6
    return square and any(abs(abs(t) - 1) < 1e-6 for t in view.camera.toward)


def gaps(c: Camera, a: Vec, b: Vec, runs: list[tuple[Vec, Vec]]) -> list[tuple[Point, Point]]:
    """What of a straight line on paper its visible runs leave out, in order."""
    start, end = c.paper(a), c.paper(b)
    points = [start, *(c.paper(p) for run in runs for p in run), end]
    pairs = zip(points[::2], points[1::2], strict=True)
    return [(p, q) for p, q in pairs if hypot(q[0] - p[0], q[1] - p[1]) >= SHORTEST_GAP]


def rim_runs(
    view: Viewer, placed: Placed, x: float, radius: float, off: tuple[float, float], line: str
) -> list[Polyline | Arc]:
    """The visible runs of a circle across a turned part's axis; `off` leads off the skin (axial, radial)."""
    c = view.camera
    frame = placed.pose
    centre = frame.world((x, 0.0, 0.0))
    facing = dot(frame.ex, c.toward)
    e1 = frame.ey if abs(facing) > 1 - 1e-9 else unit(cross(frame.ex, c.toward))
    e2 = cross(frame.ex, e1)

    def point(angle: float, r: float) -> Vec:
        return add(centre, add(times(e1, r * cos(angle)), times(e2, r * sin(angle))))

    # an end seen edge on counts as seen only if what is just behind it is: an end that is flush with
    # its host's end has no line of its own
    axial = -off[0] if abs(facing) < 1e-6 else off[0]

    outer = radius + off[1] * OFF_SKIN
    (mx, my, mz), (ix, iy, iz), (jx, jy, jz) = centre, e1, e2
    kx, ky, kz = times(frame.ex, axial * OFF_SKIN)

    def sample(angle: float) -> Vec:
        u, v = outer * cos(angle), outer * sin(angle)
        return (mx + (ix * u + jx * v) + kx, my + (iy * u + jy * v) + ky, mz + (iz * u + jz * v) + kz)

    r = radius * c.scale
    if abs(facing) < 1e-6:
        # edge on: the two halves lie on one straight line, the nearer one hides the other; where a section
        # takes a quarter away, the far half is seen there
        if view.cut and not placed.whole:
            quarters = [(i * pi / 2, pi / 2) for i in range(4)]
            parts = [q for q in quarters if _kept(point(q[0] + pi / 4, radius))]
        else:
            parts = [(0.0 if dot(e2, c.toward) > 0 else pi, pi)]
        found: list[Polyline | Arc] = []
        for start, sweep in parts:
            for s, e in _circle_spans(view, placed, sample, start, sweep, centre, radius):
                a, b = (c.paper(point(start + sweep * share, radius)) for share in (s, e))
                found.append(Polyline((a, b), line, placed.id))
        return found
    at, p1, p2 = c.paper(centre), c.paper(add(centre, e1)), c.paper(add(centre, e2))
    major = (p1[0] - at[0], p1[1] - at[1])
    minor = (p2[0] - at[0], p2[1] - at[1])
    way = 1.0 if major[0] * minor[1] - major[1] * minor[0] > 0 else -1.0
    turn = degrees(atan2(major[1], major[0]))
    return [
        Arc(at, r, r * abs(facing), line, placed.id, turn, way * 360 * s, way * 360 * (e - s))
        for s, e in _joined_round(_circle_spans(view, placed, sample, 0.0, 2 * pi, centre, radius))
    ]


def _kept(p: Vec) -> bool:
    """True if a half section shows a point of a skin: far above the axis, near below it."""
    return (p[1] > 0) == (p[2] > 0)


def _circle_spans(
    view: Viewer,
    placed: Placed,
    sample: Callable[[float], Vec],
    start: float,
    sweep: float,
    centre: Vec,
    radius: float,
) -> list[tuple[float, float]]:
    c = view.camera
    at = c.paper(centre)
    r = radius * c.scale
    box = [(at[0] + x, at[1] + y) for x in (-r, r) for y in (-r, r)]
    depth = dot(centre, c.toward) - radius
    # a small circle too may be seen in part
    return view.spans(placed, lambda s: sample(start + sweep * s), r * sweep, box, depth, 12)


def _joined_round(spans: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Join a run that ends where the circle closes with the one that begins there."""
    if len(spans) > 1 and spans[0][0] == 0.0 and spans[-1][1] == 1.0:
        return [*spans[1:-1], (spans[-1][0], 1.0 + spans[0][1])]
    return spans
