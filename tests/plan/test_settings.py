"""The settings of a class: spares as typed, rounding, groups."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from builder.cli import main
from builder.guide.classfile import settings, site_address
from builder.plan.settings import MOST_BUILDERS, Class, Spares, class_of, read_spares, rounded_up


@pytest.mark.parametrize(
    ("typed", "share", "kits", "told"),
    [
        ("10%", Fraction(1, 10), 0, "10 %"),
        ("10 %", Fraction(1, 10), 0, "10 %"),
        ("7.5%", Fraction(3, 40), 0, "7.5 %"),
        ("0.125 %", Fraction(1, 800), 0, "0.125 %"),
        ("3", Fraction(0), 3, "3 kits"),
        (" 1 ", Fraction(0), 1, "1 kit"),
        ("0", Fraction(0), 0, ""),
        ("0%", Fraction(0), 0, ""),
    ],
)
def test_spares_are_a_share_or_a_number(typed: str, share: Fraction, kits: int, told: str) -> None:
    read = read_spares(typed)
    assert read == Spares(share, kits)
    assert read is not None and read.text == told


@pytest.mark.parametrize("typed", ["", "many", "-1", "10 percent", "1/2", "1001%", "5 %%", "1e3", "٣"])
def test_anything_else_is_refused(typed: str) -> None:
    assert read_spares(typed) is None


@given(st.fractions(min_value=0, max_value=1000))
def test_rounding_up_is_exact(x: Fraction) -> None:
    up = rounded_up(x)
    assert x <= up < x + 1


@given(st.integers(1, 400), st.integers(0, 100))
def test_kits_are_never_fewer_than_asked_and_never_one_too_many(builders: int, percent: int) -> None:
    kits = Class(builders, Spares(Fraction(percent, 100))).kits
    assert 100 * builders + builders * percent <= 100 * kits < 100 * builders + builders * percent + 100


# 24 is the advice of a national science teachers' association for laboratory classes: 25 is too many
@pytest.mark.parametrize(("builders", "crowded"), [(24, False), (25, True)])
def test_a_crowded_class(builders: int, crowded: bool) -> None:
    assert MOST_BUILDERS == 24
    assert Class(builders).crowded is crowded


def test_a_class_from_its_file(tmp_path: Path) -> None:
    file = tmp_path / "class.yml"
    file.write_text("builders: 28\nspares: 10 %\npaper: A4  # in the copier\n", encoding="utf-8")
    assert class_of(settings(file)) == Class(28, Spares(Fraction(1, 10)), "a4", 1)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "builders: write how many"),
        ("builders: many", "builders: write how many"),
        ("builders: 0", "from 1 to"),
        ("builders: 4\nspares: a few", "spares: write a number"),
        ("builders: 4\npaper: a5", "letter or a4"),
        ("builders: 4\nadults: some", "adults: write"),
        ("builders: 4\nbuilder: 5", "is no setting"),
        ("- builders", "key: value"),
        ("builders: [", "key: value"),
        ("builders: [1, 2]", "builders: write how many"),
    ],
)
def test_a_class_that_cannot_be_read_is_said(tmp_path: Path, text: str, words: str) -> None:
    file = tmp_path / "class.yml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(ValueError, match=words):
        class_of(settings(file))


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((), "Say --builders and --paper, or name the file of the class with --class."),
        (("--class", "none.yml"), "kitwright: none.yml cannot be read"),
        (("--class", "class.yml"), 'kitwright: class.yml: "builder" is no setting of a class'),
    ],
)
def test_a_packet_is_not_printed_for_a_class_that_nobody_knows(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...], said: str
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "cart").mkdir()
    (tmp_path / "cart" / "guide.yml").write_text("title: Cart\n", encoding="utf-8")
    (tmp_path / "class.yml").write_text("builder: 5\n", encoding="utf-8")
    ran = CliRunner().invoke(main, ["packet", "cart", *arguments])
    assert ran.exit_code == 2
    assert said in " ".join(ran.output.split())
    assert not (tmp_path / "packets").exists()


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="cannot be read"):
        settings(tmp_path / "class.yml")


@pytest.mark.parametrize(
    ("text", "address"),
    [
        ("site_url: https://example.org/kits/\n", "https://example.org/kits/"),
        ("site_name: x\n", ""),
        ("site_url: ''\n", ""),
        ("site_url: !ENV SITE\n", ""),
        ("site_url: [", ""),
        ("site_url: javascript:alert(1)\n", ""),
    ],
)
def test_where_the_site_stands(tmp_path: Path, text: str, address: str) -> None:
    file = tmp_path / "mkdocs.yml"
    file.write_text(text, encoding="utf-8")
    assert site_address(file) == address
    assert site_address(tmp_path / "none.yml") == ""
