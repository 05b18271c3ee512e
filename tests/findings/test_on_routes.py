"""How a finding names the routes that it is on."""

from __future__ import annotations

import pytest

from builder.findings import on_routes


@pytest.mark.parametrize(
    ("routes", "said"),
    [
        (("with the jig",), "on the route with the jig"),
        (("with the jig", "by eye"), "on the routes with the jig and by eye"),
        (("rounded and with eyes",), 'on the route "rounded and with eyes"'),
        (("round and wide", "round and thin"), 'on the routes "round and wide" and "round and thin"'),
    ],
)
def test_on_routes(routes: tuple[str, ...], said: str) -> None:
    assert on_routes(routes) == said
