"""What the joint plan marks on the cables of a job: holes, joints, devices and what the cables end at."""

from collections.abc import Iterator
from typing import NamedTuple

from drawcord.coach.box import Point
from drawcord.plan.plan import Plan
from drawcord.plan.together import Names
from drawcord.sheets.cables import Cables, place
from drawcord.sheets.marks import JOINED, Mark, Symbol, draw_symbol, hole_mark
from drawcord.sheets.panel import Panel
from drawcord.sheets.segments import Flat
from drawcord.sheets.style import CABLE
from drawcord.sheets.tags import END_TAG, HOLE_TAG, put_tag
from drawcord.sheets.traces import Trace
from drawcord.sheets.views import owns

END_POINT = (Symbol("o", 4.2, CABLE, 0.8),)
DEVICE = (Symbol("h", 5.6, "white", 1.1),)


class Fixture(NamedTuple):
    """A joint or device on a cable: its tag, the cable, what it is, where, and the way a hand gets there."""

    tag: str
    cable: str
    what: str
    space: str
    point: Point
    opening: str


class Marked(NamedTuple):
    """A mark and the cables that it is on."""

    mark: Mark
    cables: Names


def fixtures(plan: Plan) -> list[Fixture]:
    """Joints, numbered along each cable as on its own sheet; devices, numbered through."""
    found = [
        Fixture(f"J{n}", name, "joint", joint.space, joint.point, joint.opening)
        for name, one in plan.chosen.items()
        for n, joint in enumerate(one.route.joints, start=1)
    ]
    circuits = plan.circuits.circuits if plan.circuits else ()
    devices = [(one, placed) for one in circuits if one.cable in plan.chosen for placed in one.placed]
    for n, (one, placed) in enumerate(devices, start=1):
        proposed = f"{one.device.name if one.device else 'device'}, place proposed"
        found.append(
            Fixture(f"P{n}", one.cable, placed.name or proposed, placed.at.space, placed.at.point, placed.at.opening)
        )
    return found


def marked(plan: Plan, looks: dict[str, Trace]) -> list[Marked]:
    """Every mark of the joint plan; its tag ends in the letters of its cables."""

    def lettered(tag: str, names: Names) -> str:
        return f"{tag} {''.join(looks[name].tag for name in names)}"

    holes = plan.together.holes if plan.together else ()
    found = [Marked(hole_mark(hole, lettered(hole.id, hole.cables)), hole.cables) for hole in holes]
    for one in fixtures(plan):
        symbols = JOINED if one.what == "joint" else DEVICE
        tag = lettered(one.tag, (one.cable,))
        found.append(Marked(Mark(tag.replace(" ", "-"), tag, HOLE_TAG, symbols, one.point, (one.point,)), (one.cable,)))
    return [*found, *_ends(plan)]


def _ends(plan: Plan) -> Iterator[Marked]:
    """Every terminal that cables end at, called by its equipment, those at one point together."""
    ends: dict[tuple[str, Point], list[str]] = {}
    for name, one in plan.chosen.items():
        cable = plan.coach.job.cables[name] if plan.coach.job else None
        if cable:
            legs = one.route.legs
            for terminal, point in ((cable.start, legs[0].points[0]), (cable.end, legs[-1].points[-1])):
                ends.setdefault((terminal.partition(".")[0], point), []).append(name)
    for (equipment, point), names in sorted(ends.items()):
        mark = Mark(f"end-{equipment}", equipment, END_TAG, END_POINT, point, (point,))
        yield Marked(mark, tuple(dict.fromkeys(names)))


def at_home(panel: Panel, plan: Plan, found: list[Marked], laid: Cables) -> list[tuple[Marked, Flat]]:
    """The marks that a view is at home to, and where it shows them: on the lines as they are drawn."""
    return [
        (one, place(panel, laid, one.cables, panel.view.flat(one.mark.at)))
        for one in found
        if any(owns(plan.coach, panel.view, home, home) for home in one.mark.homes)
    ]


def draw_marked(panel: Panel, shown: list[tuple[Marked, Flat]]) -> None:
    """Draw the marks of a view."""
    for one, at in shown:
        for symbol in one.mark.symbols:
            draw_symbol(panel, at, symbol, one.mark.gid)


def tag_marked(panel: Panel, shown: list[tuple[Marked, Flat]]) -> None:
    """Name the marks of a view; equipment is named once, however many of its terminals stand side by side."""
    said: set[str] = set()
    for one, at in shown:
        if one.mark.tag not in said:
            put_tag(panel.page, panel.board, one.mark.tag, one.mark.look, (), panel.at(at))
            said.add(one.mark.tag)
