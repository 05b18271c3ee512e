"""The teacher's page of a route: times, preparation, tools by sharing, where an adult helps, the key."""

from __future__ import annotations

from collections.abc import Collection

from builder.pages.book import Chapter
from builder.pages.chapter import AUTHORITY, caution_groups, help_rows, packet_links, step_link, time_facts
from builder.pages.class_rows import class_gear, class_tools, class_view, settings_text, uses_of_plan
from builder.pages.class_views import TeacherPage
from builder.pages.contexts import KeyRow, Link, TeacherView
from builder.pages.stage import Pictures, no_pictures
from builder.pages.website import route_path, way


def teacher_view(chapter: Chapter, page: str, pictures: Pictures = no_pictures) -> TeacherView:
    """What the teacher's page and the teacher's part of a packet share."""
    used = uses_of_plan(chapter, chapter.plan)
    return TeacherView(
        route=chapter.name,
        facts=time_facts(chapter),
        authority=AUTHORITY,
        preparation=tuple(chapter.writer.view(each, pictures(each.step)) for each in chapter.preparation),
        help=help_rows(chapter, page),
        tools=class_tools(chapter.guide, chapter.plan, used, page),
        key=tuple(
            KeyRow(
                step=step_link(chapter, numbered, page),
                shows=chapter.telling.action(action),
                otherwise=chapter.telling.otherwise(action),
            )
            for numbered in chapter.builder_steps
            for action in numbered.step.each_action()
            if action.verb.kind == "verify"
        ),
        cautions=caution_groups(chapter, page),
    )


def teacher_page(
    chapter: Chapter, page: str, pictures: Pictures = no_pictures, packets: Collection[str] = ()
) -> TeacherPage:
    """The teacher's page in the site, counted for the class that the site is counted for."""
    shopping = route_path(chapter.guide, chapter.route, "materials") + "#to-buy"
    return TeacherPage(
        teacher=teacher_view(chapter, page, pictures),
        plan=class_view(chapter, chapter.plan, page),
        settings=settings_text(chapter.plan.group),
        shopping=Link(text="Materials to buy", href=way(shopping, page)),
        packets=packet_links(chapter, page, packets),
        gear=class_gear(chapter.guide, chapter.plan, uses_of_plan(chapter, chapter.plan), page),
    )
