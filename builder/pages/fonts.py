"""The theme's font files, made once from the font package and kept in `theme/fonts/`.

`python -m builder.pages.fonts` writes them again. It needs fonttools, brotli and the Python package
`font-source-sans-pro`, which the site itself does not. The fonts are under the SIL Open Font
License 1.1 with a reserved name; a subset is a modified version, so it carries a name of its own.
"""

from __future__ import annotations

import shutil
from importlib.util import find_spec
from pathlib import Path

FAMILY = "Kitwright Sans"
TARGET = Path(__file__).resolve().parents[2] / "theme" / "fonts"
FACES = {"Regular": "SourceSansPro-Regular", "Bold": "SourceSansPro-Semibold", "Italic": "SourceSansPro-It"}
SIGNS = "‐‑–—‘’“”„†‡•…‰′″‹›⁄€™−×÷±≈≠≤≥∞√∂∑∏∆∫µπΩ←↑→↓↔⅓⅔⅛⅜⅝⅞½¼¾"
LETTERS = (*range(0x20, 0x7F), *range(0xA0, 0x180), *map(ord, SIGNS))
FEATURES = ["kern", "liga", "mark", "mkmk", "ccmp", "locl", "frac", "numr", "dnom", "tnum", "lnum"]


def source_folder() -> Path:
    """Where the font package keeps its files."""
    spec = find_spec("font_source_sans_pro")
    if spec is None or spec.origin is None:
        raise SystemExit("install the package font-source-sans-pro first")
    return Path(spec.origin).parent / "files"


def write_face(face: str, source: Path, target: Path) -> None:
    """Subset one face to the letters that guides use, rename it and write it as woff2."""
    from fontTools import subset
    from fontTools.ttLib import TTFont

    options = subset.Options()
    options.layout_features = FEATURES
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14, 16, 17]
    options.recalc_timestamp = False
    options.hinting = False
    font = TTFont(source, recalcTimestamp=False)
    subsetter = subset.Subsetter(options)
    subsetter.populate(unicodes=LETTERS)
    subsetter.subset(font)
    names = {1: FAMILY, 2: face, 3: f"{FAMILY} {face}", 4: f"{FAMILY} {face}",
             6: f"{FAMILY.replace(' ', '')}-{face}", 16: FAMILY, 17: face}  # fmt: skip
    for record in list(font["name"].names):
        if record.nameID in names:
            record.string = names[record.nameID]
    font.flavor = "woff2"
    font.save(target, reorderTables=False)


def main() -> None:
    """Write every face and the licence they are under."""
    source = source_folder()
    TARGET.mkdir(parents=True, exist_ok=True)
    for face, name in FACES.items():
        write_face(face, source / f"{name}.ttf", TARGET / f"kitwright-sans-{face.lower()}.woff2")
    shutil.copyfile(source / "LICENSE.txt", TARGET / "LICENSE-OFL.txt")


if __name__ == "__main__":
    main()
