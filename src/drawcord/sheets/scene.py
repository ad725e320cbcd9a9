"""What a column of views shows: a coach, and one route in it or nothing; with the signs for the key."""

from collections.abc import Callable
from itertools import pairwise
from typing import NamedTuple

from drawcord.coach.coach import Coach
from drawcord.routes.route import Route
from drawcord.sheets import marks, style
from drawcord.sheets.cable import UPRIGHT, draw_cable
from drawcord.sheets.listing import Draw, stroke, symbols
from drawcord.sheets.panel import Panel
from drawcord.sheets.views import View, owns, views

Sign = tuple[Draw, str]  # what draws it, and what it means


class Scene(NamedTuple):
    """The `coach` as far as it is drawn, and its `views`; `draw` adds to each what lies over it.

    `used`: the spaces that cables run in, None if that is no question.
    """

    coach: Coach
    views: tuple[View, ...]
    used: frozenset[str] | None = None
    signs: tuple[Sign, ...] = ()
    draw: Callable[[Panel], object] = lambda _: None


def rig_scene(coach: Coach) -> Scene:
    """A coach alone."""
    return Scene(coach, views(coach))


def crosses(coach: Coach, view: View, route: Route) -> bool:
    """Whether some of a route is at home in a view, and not only seen through from another."""
    stretches = (pair for leg in route.legs for pair in pairwise(leg.points))
    return any(view.flat(p) != view.flat(q) and owns(coach, view, p, q) for p, q in stretches)


def route_scene(coach: Coach, route: Route, units: str) -> Scene:
    """The cable of a route with the numbers of its legs, its holes, joints and ends."""
    roof, inner = ([hole for hole in route.holes if hole.kind == kind] for kind in ("roof", "inner"))
    called = route.holes[0].id if route.holes else ""
    signs: list[tuple[object, Draw, str]] = [
        (True, stroke(style.CABLE_WIDTH, "-"), "cable, with the number of its leg"),
        (True, stroke(0.8, style.SEEN_THROUGH), "cable on another level or side"),
        (True, symbols(UPRIGHT), "cable going straight up or down"),
        (roof, symbols(*marks.ROOF_HOLE), f"{called}: hole through the roof"),
        (inner, symbols(*marks.INNER_HOLE), f"{called}: hole inside"),
        (route.joints, symbols(*marks.JOINED), "J1: joint between two pieces"),
        (True, symbols(*marks.START), "where the cable starts"),
        (True, symbols(*marks.END), "where it ends"),
    ]

    def draw(panel: Panel) -> None:
        drawn = marks.draw_marks(panel, coach, route)
        draw_cable(panel, coach, route, drawn)
        marks.tag_marks(panel, coach, drawn, units)

    used = frozenset(route.spaces)
    return Scene(coach, views(coach, used), used, tuple((sign, said) for shown, sign, said in signs if shown), draw)
