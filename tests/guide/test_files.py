"""Which files a guide is made of."""

from __future__ import annotations

from pathlib import Path

import pytest

from builder.guide.files import load

# (a file beside a lone guide, whether it is shared with it)
BESIDE = [
    ("# Roll a tube.\nshared: roll_tube\nsteps: []\n", True),
    ("cautions:\n  sun: {level: warning}\n", True),
    ("verbs:\n  press on: {stands for: attach}\n", True),
    ("title: Another guide\ncautions:\n  sun: {level: warning}\n", False),
    ("# Another guide\ntitle: Another guide\nverbs: {}\n", False),
    ("notes: nothing of ours\n", False),
]


@pytest.mark.parametrize(("text", "shared"), BESIDE)
def test_what_lies_beside_a_lone_guide(text: str, shared: bool, tmp_path: Path) -> None:
    guide = tmp_path / "kit.yml"
    guide.write_text("title: A kit\n", "utf-8")
    (tmp_path / "other.yml").write_text(text, "utf-8")
    texts, main, findings = load(guide)
    assert findings == []
    assert main.endswith("kit.yml")
    assert {Path(name).name for name in texts} == {"kit.yml", *(["other.yml"] if shared else [])}
