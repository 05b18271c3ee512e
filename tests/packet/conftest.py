"""Packets that several tests read: each is built once."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from builder.packet.build import Sheaf, laid_out
from builder.packet.proofs.base import Known
from builder.pages.book import Book, open_book
from builder.plan.settings import Class, Spares
from tests.plan.guides import HEAD, KIT

ROOT = Path(__file__).resolve().parents[2]
Laid = tuple[tuple[Sheaf, Sheaf], tuple[Known, Known]]
TEN_PERCENT = Spares(Fraction(1, 10))


@pytest.fixture(scope="session")
def rocket() -> Book:
    """The demonstration rocket, with two routes."""
    return open_book(ROOT / "guides" / "rolled-rocket")


@pytest.fixture(scope="session")
def rocket_laid(rocket: Book) -> Laid:
    """Its first route on letter paper, for a class of 28, with what ought to be in it."""
    folder = (ROOT / "guides" / "rolled-rocket").as_uri() + "/"
    return laid_out(rocket.guide, rocket.runs[0], Class(28, TEN_PERCENT, "letter"), folder=folder)


@pytest.fixture(scope="session")
def rocket_packet(rocket_laid: Laid) -> tuple[Sheaf, Sheaf]:
    """The same, its two parts alone."""
    return rocket_laid[0]


@pytest.fixture(scope="session")
def small_guide(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a small guide, in which something is cut along a pattern."""
    folder = tmp_path_factory.mktemp("guides") / "small-kit"
    folder.mkdir()
    (folder / "guide.yml").write_text(HEAD + KIT, encoding="utf-8")
    return folder


@pytest.fixture(scope="session")
def small_laid(small_guide: Path) -> Laid:
    """The small guide on A4, with an address, and what ought to be in it."""
    book = open_book(small_guide)
    return laid_out(book.guide, book.runs[1], Class(12, paper="a4"), site="https://example.org/kits/")


@pytest.fixture(scope="session")
def small_packet(small_laid: Laid) -> tuple[Sheaf, Sheaf]:
    """The same, its two parts alone."""
    return small_laid[0]
