"""Contexts that only the printed packet has."""

from __future__ import annotations

from builder.pages.class_views import ClassView
from builder.pages.printing import TeacherPacket


class TeacherPart(TeacherPacket, frozen=True, kw_only=True):
    """The teacher's part, with the tables for the class."""

    plan: ClassView
