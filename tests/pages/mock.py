"""Page contexts made by hand, so that the theme can be looked at and tested without a guide.

All of it is invented for the Tannerfield Workshop; no number here is a check value.
"""

from __future__ import annotations

import msgspec
from markupsafe import Markup

from builder.pages import class_views as v
from builder.pages import comparing as g
from builder.pages import contexts as c
from builder.pages import history as h
from builder.pages import lasting, lookup, planted
from builder.pages import reference as r

BLADE = c.Caution(
    level="warning",
    signal_word="WARNING",
    hazard=Markup("Sharp blade."),
    consequence=Markup("A craft knife cuts a finger to the bone."),
    avoidance=Markup(
        "Cut away from your hand, on the mat, along a metal rule. Put the cap on after each cut."
    ),
    source="common practice",
)
SPRAY = c.Caution(
    level="danger",
    signal_word="DANGER",
    hazard=Markup("Spray mist burns."),
    consequence=Markup("A spark sets it alight, and the burns can kill."),
    avoidance=Markup("Spray outdoors, away from any flame. An adult holds the can."),
)
GLUE = c.Caution(
    level="caution",
    signal_word="CAUTION",
    hazard=Markup("Glue in the eyes stings."),
    consequence=Markup("It reddens the eye for hours."),
    avoidance=Markup("Wear eye protection. Rinse with water and tell an adult."),
)
STAIN = c.Caution(
    level="notice",
    signal_word="NOTICE",
    hazard=Markup("Dried glue stays."),
    consequence=Markup("It spoils a table top."),
    avoidance=Markup("Work on scrap paper."),
    symbol=False,
)

SECTION = Markup(
    '<svg xmlns="http://www.w3.org/2000/svg" fill="currentColor" viewBox="0 0 160 70" '
    'width="160mm" height="70mm" '
    'font-family="Kitwright Sans, Source Sans Pro, sans-serif">'
    '<g fill="none" stroke="currentColor" stroke-width="0.5">'
    '<path d="M10 20H140M10 42H140M10 20V42M140 20V42"/><path stroke-width="1" d="M120 22h12v18h-12z"/>'
    '<path stroke-width="0.25" d="M120 28l6-6M120 34l12-12M120 40l12-12M126 40l6-6"/>'
    '<path stroke-width="0.25" stroke-dasharray="6 1.5 1.5 1.5" d="M4 31H150"/>'
    '<path stroke-width="0.25" d="M120 44V58M132 44V58M120 56H132"/></g>'
    '<text x="126" y="63" font-size="4.2" text-anchor="middle">1/4 in (6.4 mm)</text>'
    '<text x="20" y="14" font-size="4.2">motor tube</text></svg>'
)
DRAWING = c.Picture(
    alt="Half section of the motor tube. The thrust ring is in its seat at the front end, 1/4 in long.",
    svg=SECTION,
    width="160",
    caption="The thrust ring is in its seat.",
)


def waiting(anchor: str, label: str, what: str, length: str, minutes: int) -> c.WaitBlock:
    return c.WaitBlock(
        id=anchor,
        label=label,
        what=Markup(what),
        length=length,
        minutes=minutes,
        source="From the label of white PVA glue.",
        if_missed=Markup("No harm. It may stand for days."),
    )


def step(number: int, title: str, **more: object) -> c.StepView:
    fields: dict[str, object] = {"id": f"step_{number}", "anchor": f"step-{number}", "number": str(number)}
    fields |= {"title": title, "heading": f"Step {number}: {title}"} | more
    return c.StepView(**fields)  # type: ignore[arg-type]


THRUST = step(
    7,
    "Glue the thrust ring in",
    time="4 min",
    cautions=(GLUE,),
    pictures=(DRAWING,),
    parts=(c.Used(name="motor tube"), c.Used(name="thrust ring")),
    tools=(c.Used(name="glue brush"), c.Used(name="white PVA glue")),
    lines=(
        c.ActionLine(
            label="7.1",
            html=Markup(
                "Run a bead of white PVA glue, as wide as a pencil line, round the inside of the motor tube, "
                "from 2 1/2 in (63.5 mm) to 2 3/4 in (69.8 mm) from the rear end, for the thrust ring."
            ),
        ),
        c.ActionLine(
            label="7.2",
            html=Markup(
                "Push the thrust ring into the motor tube from the front end, until it fills the thrust seat "
                "(flush with the front end)."
            ),
        ),
        c.NoteLine(word="Note", html=Markup("A skewed ring shows as a gap of light at its side.")),
    ),
)
SET = step(
    8,
    "Let the mount set",
    lines=(waiting("wait-8-1", "8.1", "Wait until the motor mount is set.", "30 min", 30),),
)
CUT = step(
    9,
    "Cut the fins",
    time="12 min",
    cautions=(BLADE,),
    pictures=(DRAWING,),
    who="An adult stands by.",
    tools=(c.Used(name="craft knife"), c.Used(name="cutting mat")),
    parts=(c.Used(name="fin board", amount="1 sheet"),),
    why=Markup("Wood splits along its grain."),
    lines=(
        c.ActionLine(
            label="9.1",
            html=Markup(
                "Cut four fins from the fin board along the pattern, with the craft knife. A piece of "
                "1/2 in x 4 in (13 x 102 mm) remains."
            ),
        ),
    ),
)
JIG = step(
    10,
    "Glue the fins in the jig",
    time="12 min",
    pictures=(DRAWING, DRAWING),
    turn="Turn the body over.",
    lines=(
        c.RepeatBlock(
            label="10.1",
            heading=Markup("For each of the four fins:"),
            copies=("fin 1", "fin 2", "fin 3", "fin 4"),
            lines=(
                c.ActionLine(label="10.1.1", html=Markup("Put white PVA glue on the root edge of the fin.")),
                c.ActionLine(label="10.1.2", html=Markup("Hold it against the body at its place.")),
            ),
        ),
        c.VerifyLine(
            label="10.2",
            html=Markup("Check that each fin stands at 90 deg ± 3 deg to the body."),
            otherwise=Markup("Cut the fin off along its root and glue it on again."),
        ),
        waiting("wait-10-3", "10.3", "Wait until the fins are cured.", "24 h", 1440),
    ),
)
PAINT = step(
    11,
    "First coat",
    time="10 min",
    cautions=(SPRAY, STAIN),
    optional=True,
    lines=(c.ActionLine(label="11.1", html=Markup("Spray the body, the fins and the nose cone.")),),
)

STAGE = c.StageView(
    number="3",
    name="The motor mount",
    heading="Stage 3: The motor mount",
    route="with the jig",
    time="36 min",
    parts=(c.Used(name="motor tube"), c.Used(name="fin", amount="4")),
    tools=(c.Used(name="glue brush"),),
    opener=(DRAWING,),
    steps=(THRUST, SET, CUT, JIG, PAINT),
    holds=("the motor mount: motor tube, thrust ring and two rings",),
    holds_pictures=(DRAWING,),
)


def link(text: str, href: str = "#", *, current: bool = False, note: str = "") -> c.Link:
    return c.Link(text=text, href=href, current=current, note=note)


STAGES = tuple(
    link(name, current=number == 3, note=str(number))
    for number, name in enumerate(
        [
            "Tubes",
            "Marking",
            "The motor mount",
            "Fins",
            "Paint",
            "Recovery",
            "The mount goes in",
            "Packing",
            "Pre-flight",
            "Last checks",
        ],
        1,
    )
)
TABS = ("Overview", "Materials and tools", "Build", "Patterns", "For the teacher", "Check report")


def frame(heading: str, tab: str = "", *, stages: bool = False) -> c.Frame:
    return c.Frame(
        title=f"{heading} · Rolled-paper rocket",
        heading=heading,
        root="",
        site_name="Tannerfield Workshop",
        crumbs=(link("Tannerfield Workshop"), link("Rolled-paper rocket", current=not tab)),
        tabs=tuple(link(name, f"{name.split()[0].lower()}.html", current=name == tab) for name in TABS)
        if tab
        else (),
        stages=STAGES if stages else (),
        find="find.html",
        keep="rolled-rocket:1:jig",
        previous=link("Stage 2: Marking") if stages else None,
        next=link("Stage 4: Fins") if stages else None,
        cells=(
            c.TitleCell(label="Guide", value="Rolled-paper rocket"),
            c.TitleCell(label="Route", value="with the jig"),
            c.TitleCell(label="Revision", value="1 of 2 November 2026"),
            c.TitleCell(label="Hands-on", value="36 min"),
        ),
    )


FACTS = (
    c.Fact(label="Ages", value="12 to 15"),
    c.Fact(label="Hands-on", value="4 h 10 min"),
    c.Fact(label="Waiting", value="6 waits, 97 h in all", note="most of it overnight"),
    c.Fact(label="Steps", value="38"),
)
AUTHORITY = (
    "Where this guide and a product's label, a local rule or the responsible adult differ, follow the label, "
    "the rule or the adult.",
)


def route(name: str, ident: str) -> c.RouteView:
    rows = tuple(
        c.StageRow(
            number=item.note,
            name=item.text,
            href="build.html",
            steps="4 steps",
            time="24 min",
            makes="the motor mount" if item.note == "3" else "",
        )
        for item in STAGES
    )
    return c.RouteView(
        id=ident,
        name=name,
        summary="Fins stand in a jig until they are set.",
        start=link("Start with stage 1", "build.html"),
        stages=rows,
        facts=FACTS[1:],
    )


OVERVIEW = c.OverviewView(
    title="Rolled-paper rocket",
    facts=FACTS,
    picture=DRAWING,
    authority=AUTHORITY,
    levels=(BLADE, SPRAY),
    choice="Two ways to build it",
    routes=(route("With the jig", "jig"), route("Without a jig", "marks")),
    summary=Markup(
        "<p>Poster paper, rolled round a dowel and glued, makes a tube stiff enough to fly. "
        "You roll <strong>two tubes</strong>, build a motor mount and align four fins.</p>"
    ),
)
USES = (link("7"), link("8"), link("10"))
TOOLS = (
    c.ToolGroup(
        heading="One for each builder",
        rows=(
            c.ToolRow(name="pencil", amount="24", steps=USES),
            c.ToolRow(name="scissors", amount="24", steps=USES),
        ),
    ),
    c.ToolGroup(
        heading="One for 2 builders",
        rows=(c.ToolRow(name="craft knife", amount="12", note="an adult hands it out", steps=USES),),
    ),
)
MATERIALS = c.MaterialsView(
    scale="for 24 builders and 10 % spares",
    show_packs=True,
    total="68.50 USD",
    materials=(
        c.StockRow(
            name="poster paper",
            size="14 in x 22 in (356 x 559 mm), 0.010 in thick",
            amount="54 sheets",
            packs="2 packs of 50",
            cost="42.00 USD",
            steps=USES,
        ),
        c.StockRow(name="white PVA glue", size="", amount="540 mL", packs="", cost="", steps=USES),
    ),
    parts=(
        c.PartRow(
            name="body", count="1", size="12 1/2 in (318 mm) long", source="made in step 3", steps=USES
        ),
        c.PartRow(name="fin", count="4", size="", source="made in step 9", steps=USES),
    ),
    tools=TOOLS,
    gear=(c.ToolRow(name="eye protection", amount="25", note="one for the adult too", steps=USES),),
)
BAR = Markup(
    '<svg xmlns="http://www.w3.org/2000/svg" width="184.6mm" height="246mm" viewBox="0 0 184.6 246">'
    '<g fill="none" stroke="currentColor" stroke-width="0.35"><path d="M0.2 0.2h184.2v245.6H0.2z"/>'
    '<path d="M20 230h100M20 228v4M120 228v4M10 120v100M8 120h4M8 220h4"/>'
    '<path d="M60 60h57.15l-25.4 50.8H60z"/></g>'
    '<text x="60" y="226" font-size="4">100 mm</text></svg>'
)
PATTERNS = c.PatternsView(
    how=("Print at 100 %, never “fit to page”.", "Lay a ruler on the bars: they measure 100 mm and 4 in."),
    sheets=(
        c.PatternSheet(
            id="pattern-fin",
            name="Fin",
            sheet="sheet 1 of 2, made for letter",
            svg=BAR,
            width="184.6",
            height="246",
            alt="Outline of the fin at true size.",
            note="Cut four from the fin board.",
        ),
        c.PatternSheet(
            id="pattern-guide",
            name="Fin guide",
            sheet="sheet 2 of 2, made for letter",
            svg=BAR,
            width="184.6",
            height="246",
            alt="Strip as long as the body is round.",
        ),
    ),
)
TEACHER = c.TeacherView(
    route="with the jig",
    facts=FACTS,
    authority=AUTHORITY,
    preparation=(CUT,),
    help=(c.HelpRow(step=link("Step 9: Cut the fins"), why="craft knife: sharp blade"),),
    tools=TOOLS,
    key=(
        c.KeyRow(
            step=link("Step 10"),
            shows=Markup("each fin stands at 90 deg ± 3 deg"),
            otherwise=Markup("Cut it off and glue it on again."),
        ),
    ),
    cautions=(c.CautionGroup(caution=BLADE, steps=USES), c.CautionGroup(caution=STAIN, steps=USES[:1])),
)
CLASS = "Counted for a class of 24 builders and 1 adult, with 10 % spares: 27 kits."
MATERIALS_PAGE = v.MaterialsPage(
    one=MATERIALS,
    shopping=MATERIALS,
    settings=CLASS,
    unpriced="The guide states no price for: glue.",
)
TEACHER_PAGE = v.TeacherPage(
    teacher=TEACHER,
    plan=v.ClassView(
        advice=(GLUE,),
        spans=(v.SpanRow(name="The motor mount", hands_on="28 min", waiting="24 h", elapsed="24 h 28 min"),),
        whole=v.SpanRow(name="In all", hands_on="28 min", waiting="24 h", elapsed="24 h 28 min"),
        preparing=(
            v.PreparingRow(
                step=link("Step P1: Cut the rings"),
                makes="27 rear rings",
                how="10 min to set up and 27 times 2 min",
                time="64 min",
            ),
        ),
        preparing_time="64 min",
        lay_out=("One for 4 builders: 6 dowels",),
        waits=(
            v.ClassWait(
                step=link("Step 8: Let it set"),
                what=Markup("Let the motor mount set."),
                length="30 min",
                meanwhile="Until then, put nothing on the work.",
                first=link("step 9"),
                if_missed=Markup("No harm."),
            ),
        ),
        queues=(v.QueueRow(tool="dowel, one for 4", steps=USES[:1], turns="4 turns", time="24 min"),),
        unpriced="The guide states no price for: glue.",
    ),
    settings=CLASS,
    shopping=link("Materials to buy"),
)
FINDING = r.FindingView(
    severity="error",
    severity_word="Error",
    check="zone-sum",
    check_href="zone-sum.html",
    place="guide.yml:47:12",
    message="The zones of “body” sum to 12 7/16 in, but its length is 12 1/2 in (1/16 in short).",
    source="      inside from rear: [mount: motor_tube.length, bay: 6 15/16 in]",
    caret="                         ^",
    reason="A seat that is off by 1/16 in leaves a ring where nothing was glued.",
    mend="Make the zones sum to the length.",
    routes="on both routes",
    others=("guide.yml:44:13: the length",),
    follows=("guide.yml:171:9: the anchor is glued 1/16 in too low",),
)
REPORT = r.ReportView(
    verdict="1 error, 1 warning.",
    findings=(
        FINDING,
        r.FindingView(
            severity="warning",
            severity_word="Warning",
            check="say-same",
            check_href="say-same.html",
            place="guide.yml:90:9",
            message="The sentence is the generated one.",
        ),
    ),
    accepted=(),
    judged=(c.Fact(label="Cautions left out", value="", rows=("Cut: blade (blunt scissors only)",)),),
    checked=(
        r.CheckRow(
            id="zone-sum",
            title=Markup("Zones sum to the length"),
            href="zone-sum.html",
            severity_word="error",
            found="1 found",
        ),
    ),
    ran=(c.Fact(label="Routes", value="2"), c.Fact(label="Actions run", value="141")),
    uncovered=("Whether a picture shows what its words say.", "Whether a child of twelve can do it."),
)
CHECK = r.CheckView(
    id="zone-sum",
    title="Zones sum to the length",
    severity_word="error",
    what=Markup("<p>Zones of a part.</p>"),
    why=Markup("<p>A chain closes or it lies.</p>"),
    source="common practice",
    failing="zones:\n  a: 1 in",
    mended="zones:\n  a: 2 in",
    mend=Markup("<p>Change one of them.</p>"),
)
CHECKS = r.ChecksView(groups=(("Sums", (REPORT.checked[0],)),))
FIELD = r.FieldRow(
    name="thickness",
    type="length, or a sum",
    needed="",
    description=Markup("How thick a sheet is."),
    example="3 mm",
)
MANUAL = r.ManualView(
    sections=(
        r.ManualSection(
            id="start",
            heading="A guide by example",
            html=Markup("<p>A guide is one file.</p><pre><code>a: b</code></pre>"),
        ),
        r.ManualSection(
            id="fields",
            heading="Fields",
            html=Markup(""),
            tables=(r.FieldTable(id="fields-material", heading="A material", rows=(FIELD,)),),
            verbs=(
                r.VerbRow(
                    word="glue",
                    others="run, put",
                    says="Put white PVA glue inside the tube.",
                    needs="Adhesive is laid.",
                    demand="carry",
                    rows=(FIELD,),
                ),
            ),
        ),
    )
)
HOME = r.HomeView(
    title="Build guides",
    summary=Markup("<p>Guides of the Tannerfield Workshop.</p>"),
    more=(link("The manual"),),
    guides=(
        r.GuideCard(
            title="Rolled-paper rocket",
            href="overview.html",
            summary="A rocket from poster paper.",
            facts=FACTS,
            picture=DRAWING,
        ),
        r.GuideCard(
            title="Card telescope",
            href="overview.html",
            summary="Two tubes and two lenses.",
            facts=FACTS,
            state="1 error: its pages are the last good ones.",
        ),
    ),
)

FIND = r.FindView(
    entries=(
        r.FindEntry(text="fin", kind="part", where=link("Rolled-paper rocket")),
        r.FindEntry(text="Glue the thrust ring in", kind="step 7", where=link("Rolled-paper rocket")),
    )
)

STAMPED = c.Stamp(
    kind="superseded",
    word="Superseded",
    text=Markup("This is revision 1. Build from revision 2."),
    links=(link("Stage 3 of revision 2"), link("All revisions")),
    reasons=("The glue sets in 30 min, was 20 min",),
)
OLD = msgspec.structs.replace(
    STAGE,
    steps=tuple(
        msgspec.structs.replace(
            each,
            lasting="step.html",
            now=c.Now(text="Now this is", link=link("step 8"), stops=("wait 30 min, was 20 min",)),
        )
        for each in STAGE.steps
    ),
)


def changed(rank: str, field: str, kind: str) -> g.ChangeView:
    """A change with its filters."""
    return g.ChangeView(
        text=f"Step 7: a change of {rank}",
        mark="weakened" if rank == "safety" else "",
        under_way=field,
        kind=kind,
        classes=f"rank-{rank} field-{field} kind-{kind}",
        places=(link("Step 9 rests on it"),),
        steps=(link("in it"),),
    )


def choices(name: str, *keys: str) -> g.FilterView:
    """A filter of so many choices."""
    found = [g.Choice(id=f"{name}-{key}", text=key, count=1) for key in ("all", *keys)]
    return g.FilterView(name=name, legend=f"By {name}", choices=tuple(found))


COMPARISON = g.ComparisonView(
    old=link("Revision 1"),
    new=link("Revision 2"),
    summary="2 changes.",
    under_way="it stops.",
    ranked=(
        g.RankedView(
            rank="safety", heading="Safety", meaning="harm", changes=(changed("safety", "stop", "wait"),)
        ),
        g.RankedView(
            rank="fit", heading="Fit", meaning="places", changes=(changed("fit", "nothing", "part"),)
        ),
    ),
    filters=(
        choices("rank", "safety", "fit"),
        choices("field", "stop", "nothing"),
        choices("kind", "wait", "part"),
    ),
    pairs=(
        g.PairView(
            anchor="drawn-glue", heading="Step 7", before=DRAWING, after=None, note="The step is gone."
        ),
    ),
    weaker="1 change guards less against harm than before.",
    signed=("A. Brook, teacher: Timed in class. (for 1a2b3c4d)",),
)
HISTORY = h.HistoryView(
    current=link("Revision 2"),
    lookup=link("Look up a printed page"),
    revisions=(
        h.RevisionView(
            anchor="r2", heading="Revision 2", kind="current", word="Current", facts=FACTS, told="More play.",
            counts=(("Safety", "harm", 1), ("Fit", "places", 0)), changes="1 change", under_way="it stops.",
            signatures=("M. Tanner, head of the workshop: tried by three classes",), links=(link("Read it"),),
        ),
    ),
)  # fmt: skip
MARKS = (("abc234", "current"), ("abd567", "superseded"), ("xyz999", "stop"))
CODES = lookup.CodesView(
    codes=tuple(
        lookup.Code(mark=mark, worth=worth, told="", where=f"Card telescope, page {number}", link=link("it"),
                    reasons=("wait 30 min, was 20 min",) if worth == "stop" else ())
        for number, (mark, worth) in enumerate(MARKS)
    )
)  # fmt: skip
LASTING = lasting.LastingView(
    places=(
        lasting.PlaceView(heading="Revision 2, the current one", links=(link("Step 8: Glue the fins"),)),
        lasting.PlaceView(heading="Revision 1", links=(), gone="Revision 1 does not have this step."),
    )
)
PLANTED = planted.PlantedView(
    summary="2 faults were planted: 1 was told.",
    rows=(
        planted.PlantedRow(kind="glue lost", at="fin", checks=(link("held"),), verdict="caught", caught=True),
        planted.PlantedRow(kind="part lost", at="fin", checks=(), verdict="missed", caught=False),
    ),
    no_place="mask never put on",
    data=link("planted.json"),
)  # fmt: skip
WORDS = r.WordsView(words=(c.Fact(label="fin", value="A thin blade.", note="as this guide has it"),))

PAGES: tuple[tuple[str, str, c.Frame, object], ...] = (
    ("home", "home.html", frame("Build guides"), HOME),
    ("overview", "overview.html", frame("Rolled-paper rocket", "Overview"), OVERVIEW),
    ("materials", "materials.html", frame("Materials and tools", "Materials and tools"), MATERIALS_PAGE),
    ("build", "stage.html", frame("Stage 3: The motor mount", "Build", stages=True), STAGE),
    ("patterns", "patterns.html", frame("Patterns", "Patterns"), PATTERNS),
    ("for", "teacher.html", frame("For the teacher", "For the teacher"), TEACHER_PAGE),
    ("check", "report.html", frame("Check report", "Check report"), REPORT),
    ("zone-sum", "check.html", frame("Zones sum to the length"), CHECK),
    ("checks", "checks.html", frame("Checks"), CHECKS),
    ("find", "find.html", frame("Find"), FIND),
    ("manual", "manual.html", frame("The manual"), MANUAL),
    (
        "old",
        "stage.html",
        msgspec.structs.replace(frame("Stage 3", "Build", stages=True), stamp=STAMPED),
        OLD,
    ),
    ("comparison", "comparison.html", frame("What changed"), COMPARISON),
    ("revisions", "history.html", frame("All revisions"), HISTORY),
    ("codes", "codes.html", frame("Look up a printed page"), CODES),
    ("lasting", "lasting.html", frame("Glue the fins"), LASTING),
    ("planted", "planted.html", frame("Planted faults"), PLANTED),
    ("words", "words.html", frame("Words in this guide"), WORDS),
)
