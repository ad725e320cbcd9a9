"""The joint plan as a picture: legible, every cable and mark in it, cables side by side and told apart in grey."""

from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise

import pytest
from test_sheets_layout import boxes, check_all

from answered import JOBS
from drawcord.sheets.cable import APART
from drawcord.sheets.cables import Laid
from drawcord.sheets.joint_marks import fixtures
from drawcord.sheets.joint_sheet import joint_sheets
from drawcord.sheets.lanes import Stretch
from drawcord.sheets.lines import words
from drawcord.sheets.render import to_svg
from drawcord.sheets.traces import LINES, traces
from drawcord.sheets.views import owns, views
from planned import plan


@cache
def sheets(job):
    """The sheets of a demo job, drawn once."""
    return joint_sheets(plan(job), plan(job).coach.units)


@cache
def tags(job):
    """The tags in the picture as pairs of a view and what it says."""
    return {tuple(gid.removeprefix("tag-").split("-", 1)) for gid, _ in boxes(sheets(job)[0])[1]}


def lines(job):
    """The lines of cables as (view, cable, its points in mm of coach)."""
    for ax in sheets(job)[0].axes:
        for line in ax.get_lines():
            view, _, cable = (line.get_gid() or "").partition("-cable-")
            if cable and "-turn-" not in cable:
                yield view, cable, list(zip(*(list(map(float, data)) for data in line.get_data()), strict=True))


def at_home(job, name):
    """The views that have some of a cable that is not seen end on."""
    coach, route = plan(job).coach, plan(job).chosen[name].route
    used = frozenset(space for one in plan(job).chosen.values() for space in one.route.spaces)
    stretches = [pair for leg in route.legs for pair in pairwise(leg.points)]
    return {
        view.name
        for view in views(coach, used)
        if any(view.flat(p) != view.flat(q) and owns(coach, view, p, q) for p, q in stretches)
    }


@pytest.mark.parametrize("job", JOBS)
def test_it_is_legible(job):
    check_all(sheets(job))


@pytest.mark.parametrize("job", JOBS)
def test_every_cable_is_drawn_and_lettered_in_every_view_it_is_at_home_in(job):
    letters = {name: look.tag for name, look in traces(sorted(plan(job).chosen)).items()}
    drawn, said = {(view, cable) for view, cable, _ in lines(job)}, tags(job)
    for name, letter in letters.items():
        here = at_home(job, name)
        assert here
        assert {(view, name) for view in here} <= drawn
        assert {(view, letter) for view in here} <= said


@pytest.mark.parametrize("job", JOBS)
def test_every_hole_joint_device_and_end_is_marked(job):
    # Each with the letters of its cables: nobody has to guess whose hole it is.
    whole = plan(job)
    letters = {name: look.tag for name, look in traces(sorted(whole.chosen)).items()}
    wanted = {f"{hole.id} {''.join(letters[name] for name in hole.cables)}" for hole in whole.together.holes}
    wanted |= {f"{one.tag} {letters[one.cable]}" for one in fixtures(whole)}
    cables = [whole.coach.job.cables[name] for name in whole.chosen]
    wanted |= {end.partition(".")[0] for cable in cables for end in (cable.start, cable.end)}
    assert wanted - {tag for _, tag in tags(job)} == set()
    assert len(fixtures(whole)) == sum(len(one.route.joints) for one in whole.chosen.values()) + sum(
        len(circuit.placed) for circuit in (whole.circuits.circuits if whole.circuits else ())
    )


@pytest.mark.parametrize("job", JOBS)
def test_cables_that_run_together_are_drawn_side_by_side(job):
    # From the artists: no two cables lie on one another for longer than a corner takes.
    panels = [ax for ax in sheets(job)[0].axes if ax.get_label() != "page"]
    scale = {ax.get_label(): (ax.get_xlim()[1] - ax.get_xlim()[0]) / (ax.get_position().width * 210) for ax in panels}
    parts = [
        (view, cable, axis, start, end)
        for view, cable, points in lines(job)
        for start, end in pairwise(points)
        for axis in (0, 1)
        if start[1 - axis] == end[1 - axis] and start != end
    ]
    together = []
    for (view, one, axis, a, b), (other_view, other, other_axis, c, d) in combinations(parts, 2):
        if one == other or view != other_view or axis != other_axis:
            continue
        gap = APART * scale[view]
        shared = min(max(a[axis], b[axis]), max(c[axis], d[axis])) - max(min(a[axis], b[axis]), min(c[axis], d[axis]))
        if shared > 3 * gap and abs(a[1 - axis] - c[1 - axis]) < 0.85 * gap:
            together.append((view, one, other, a, b, c, d))
    assert together == []


@pytest.mark.parametrize("job", JOBS)
def test_raceway_in_sight_is_drawn_under_its_cables(job):
    named = [line.get_gid() or "" for ax in sheets(job)[0].axes for line in ax.get_lines()]
    drawn = {gid.rpartition("-")[2] for gid in named if "-raceway-" in gid}
    assert drawn == {name for name, one in plan(job).chosen.items() if any(leg.in_sight for leg in one.route.legs)}


@pytest.mark.parametrize("job", JOBS)
def test_the_tables_say_what_is_shared(job):
    # Each cable's row, and each hole that several share with all of them.
    whole = plan(job)
    said = {text for figure in sheets(job) for text, _ in boxes(figure)[0]}
    wanted = {end for name in whole.chosen for end in (whole.coach.job.cables[name].start, name)}
    letters = {name: look.tag for name, look in traces(sorted(whole.chosen)).items()}
    wanted |= {" ".join(letters[name] for name in hole.cables) for hole in whole.together.holes}
    wanted |= {hole.id for hole in whole.together.holes}
    assert {word for text in wanted for word in words(text)} <= {word for text in said for word in words(text)}


def test_lines_differ_without_colour():
    # By dashes, width, and whether the line is hollow; and from the ninth on at least by the letter.
    assert len({look[1:] for look in LINES}) == len(LINES)
    many = traces([f"cable_{number:02}" for number in range(60)])
    assert len({look.tag for look in many.values()}) == 60


def test_a_point_of_a_stretch_moves_with_its_lane():
    # A level stretch drawn 10 higher from 5 on: its start stays its start, what lies between keeps its place along it.
    laid = Laid(Stretch(1, (0, 0), (100, 0), own=True), [(5, 0), (5, 10), (100, 10)])
    assert laid.at((0, 0)) == (5, 10)
    assert laid.at((100, 0)) == (100, 10)
    assert laid.at((2, 0)) == (5, 10)
    assert laid.at((40, 0)) == (40, 10)
    assert laid.at((40, 20)) is laid.at((300, 0)) is None
    slanting = Laid(Stretch(1, (0, 0), (100, 100), own=True), [(0, 10), (100, 110)])
    assert slanting.at((50, 50)) == pytest.approx((50, 60))


def test_nothing_is_drawn_where_nothing_is_planned_together():
    assert joint_sheets(replace(plan("van/job-open-cabin"), together=None)) == []


def test_the_same_plan_gives_the_same_bytes():
    one, other = (
        [to_svg(figure) for figure in joint_sheets(plan("van/job-open-cabin"), "m")] for _ in range(2)
    )
    assert one == other
