"""The pages of the checks: each check has words of its own, also where several share a file."""

from __future__ import annotations

import inspect

from builder.guide.slips import SLIPS
from builder.pages.checks import EVERY, check_page, named, slip_page, title_of
from builder.pages.checks_also import ALSO
from builder.pages.the_site import check_pages
from builder.pages.website import CHECKS_INDEX


def test_no_two_checks_have_one_title() -> None:
    titles = [title_of(check) for check in EVERY]
    assert all(titles) and len(set(titles)) == len(titles)


def test_a_check_that_shares_its_file_is_not_told_by_the_example_of_another() -> None:
    """The head of a file is about one check."""
    told = [inspect.getmodule(check.find) for check in EVERY if check.name not in ALSO]
    assert len(set(told)) == len(told)
    assert set(ALSO) <= {check.name for check in EVERY}


def test_examples_before_and_after_differ() -> None:
    for name, also in ALSO.items():
        assert bool(also.bad) == bool(also.good), name
        assert not also.bad or also.bad != also.good, name


def test_every_page_of_a_check_says_why_and_how_to_mend() -> None:
    for check in EVERY:
        page = check_page(check)
        assert page.why and page.mend and (page.what or check.name in ALSO), check.name


def test_whatever_a_report_names_has_a_page_and_a_title_of_its_own() -> None:
    pages = [page.path for page in check_pages()]
    assert pages == [CHECKS_INDEX, *(f"checks/{name}.html" for name, _, _ in named())]
    titles = [title for _, title, _ in named()]
    assert len(set(titles)) == len(titles)


def test_the_page_of_a_slip_shows_it_and_its_mend() -> None:
    for slip in SLIPS:
        page = slip_page(slip)
        assert (page.failing, page.mended) == (slip.example, slip.mend)
        assert slip.why[:20] in str(page.why), slip.name
