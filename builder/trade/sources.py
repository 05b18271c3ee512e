"""Where the trade's rows come from.

`read` tells whether the document, or an excerpt of it, was read when the row was written. A row without it
repeats what is widely known; look its clause up before quoting it.
"""

from __future__ import annotations

from typing import Literal

import msgspec

SourceKind = Literal["regulation", "standard", "handbook", "guidance", "common practice", "from memory"]


class Source(msgspec.Struct, frozen=True):
    """One document, or one admission that there is none."""

    key: str
    title: str
    kind: SourceKind
    read: bool = True


SOURCES = (
    # Nothing published
    Source(
        "common_practice",
        "Common practice in workshops and classrooms; no published source",
        "common practice",
    ),
    Source("memory", "Widely known; not looked up", "from memory", False),
    # Units and sheets
    Source("cfr16_500_19", "16 CFR 500.19, conversion of units of measure", "regulation"),
    Source(
        "iso_216", "ISO 216, trimmed sizes of writing paper, A series (as tabled by paper makers)", "standard"
    ),
    Source(
        "ansi_y14_1",
        "ANSI/ASME Y14.1, drawing sheet sizes A to E, and North American office sizes",
        "standard",
    ),
    # Cautions
    Source("z535_4", "ANSI Z535.4-2007, definitions of the signal words", "standard"),
    Source(
        "z535_6",
        "ANSI Z535.6, product safety information in manuals (three-part messages)",
        "standard",
        False,
    ),
    Source("procedure_writing", "Human factors procedure writing, part C: warnings and cautions", "guidance"),
    # Children and classroom materials
    Source("cfr16_1501", "16 CFR 1501, small parts", "regulation"),
    Source("cfr16_1500_19", "16 CFR 1500.19, labelling of small balls, marbles and balloons", "regulation"),
    Source("cfr16_1262", "16 CFR 1262, magnets", "regulation", False),
    Source("cfr16_1263", "16 CFR 1263, button cells and coin cells", "regulation", False),
    Source(
        "lhama", "Labeling of Hazardous Art Materials Act; ASTM D4236; 16 CFR 1500.14(b)(8)", "regulation"
    ),
    Source(
        "school_art_guidelines",
        "California guidelines for art and craft materials in schools, 2019",
        "guidance",
    ),
    Source(
        "school_eye_protection",
        "Science teachers' guidance on protective gear (ANSI/ISEA Z87.1, data sheet section 8)",
        "guidance",
    ),
    Source("z87_1", "ANSI/ISEA Z87.1, eye and face protection", "standard", False),
    Source(
        "school_hot_glue",
        "School hot-glue-gun sheet, 2018: about 195 C, cold water at hand, spreaders, not fingers",
        "guidance",
    ),
    Source("school_instant_glue", "University outreach risk sheet on cyanoacrylate", "guidance"),
    # Words
    Source(
        "flesch_kincaid",
        "Flesch-Kincaid grade level, as a research page of the US Department of Veterans Affairs gives it",
        "guidance",
    ),
    # Adhesives and finishes
    Source("wood_gluing_guide", "Trade gluing guide for wood, PVA emulsion data", "guidance"),
    Source("adhesives_handbook", "Handbook of Adhesives and Sealants, table 8.3", "handbook"),
    Source(
        "glue_table",
        "Home-improvement table of synthetic glues: white PVA works 5 to 30 min, clamped 20 to 90 min",
        "guidance",
    ),
    Source(
        "card_glue_advice",
        "Advice on PVA on cardboard (weak): tack-free in 15 to 30 min, cured in 18 to 72 h",
        "guidance",
    ),
    Source("gummed_tape_handbook", "Handbook of Adhesive Technology, chapter on gummed tape", "handbook"),
    Source("epoxy_gel_article", "Adhesives trade article: five minutes is gel, not cure", "guidance"),
    Source("epoxy_cure_article", "Epoxy trade article, 2018: 24 h minimum, some up to 72 h", "guidance"),
    Source("cure_glossary", "Adhesives glossary, cure time: about half for each 10 C warmer", "guidance"),
    Source("aerosol_paint_advice", "Retail advice on aerosol paints (weak)", "guidance"),
    # Model rockets
    Source("motor_classes", "Encyclopedia tables of model rocket motor classes", "guidance"),
    Source(
        "nfpa_1125",
        "NFPA 1125, manufacture of model rocket motors (holds the official table of classes)",
        "standard",
        False,
    ),
    Source("nfpa_1122", "NFPA 1122-2018, Code for Model Rocketry", "standard"),
    Source("cfr14_101_22", "14 CFR 101.22, classes of amateur rockets", "regulation"),
    Source("national_code", "National model rocket safety code", "guidance"),
    Source("national_code_2012", "National model rocket safety code, text effective August 2012", "guidance"),
    Source(
        "site_table",
        "Site dimension table of the national model rocket safety code, as printed by two clubs",
        "guidance",
    ),
    # Bodies and hands
    Source(
        "child_fingers",
        "Lengths, girths, and diameters of children's fingers from 3 to 10 years of age, Annals of"
        " Anatomy, 2010",
        "handbook",
    ),
)

_BY_KEY = {row.key: row for row in SOURCES}


def source(key: str) -> Source | None:
    """The source with this key, or None."""
    return _BY_KEY.get(key)
