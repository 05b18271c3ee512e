"""Findings made by hand for the tests of the printers."""

from __future__ import annotations

from builder.findings import Accepted, Finding, Place, Related, Severity

FILE = "guides/a cart/guide.yml"

ALONE = Finding("zone-sum", Severity.ERROR, Place(FILE, 3, 5, 4), "the zones sum to 9, not 10", "It gapes.",
                "Mend it.")  # fmt: skip
FOLLOWING = Finding("station", Severity.ERROR, Place(FILE, 9, 2), "1 in lies past its end",
                    "Its reason.", "Its mend.", routes=("with the jig",))  # fmt: skip
LEADER = Finding(
    "working-time", Severity.WARNING, Place(FILE, 7, 12, 6), "100 % of the time, 5 min: gone\nand more",
    "Why.", "Mend.", also=(Related(Place("guides/common/glue.yml", 2, 1), "the label"),),
    routes=("one", "two"),
    follows=(FOLLOWING,),
)  # fmt: skip
NOTE = Finding("say-same", Severity.NOTE, Place(FILE, 8, 1), "drop it")
ACCEPTED = Finding("zone-sum", Severity.ERROR, Place(FILE, 5, 1), "ten", "It gapes.", "Mend it.",
                   accepted=Accepted("the gap is wanted", Place(FILE, 30, 5)))  # fmt: skip
ALL = (ALONE, LEADER, NOTE, ACCEPTED)
