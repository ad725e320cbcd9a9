"""Whole plans: all cables in one picture, bundles, candidates' figures as bars; and what the checker says of them.

They stand in one file so that the demo jobs are planned once for them all.
"""

import json
import math
from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise

import pytest
from matplotlib.patches import Circle
from test_sheets_layout import boxes, check_all, said

from answered import JOBS
from drawcord.app.answers import inputs
from drawcord.coach.box import Box
from drawcord.files.home import shared
from drawcord.sheets.bars import MEASURES
from drawcord.sheets.bundles import kept_apart, places
from drawcord.sheets.bundles_sheet import bundles_sheets
from drawcord.sheets.cable import APART
from drawcord.sheets.cables import Laid
from drawcord.sheets.circuit_report import circuits_document
from drawcord.sheets.figures_sheet import figures_sheets
from drawcord.sheets.joint_marks import fixtures
from drawcord.sheets.joint_sheet import joint_sheets
from drawcord.sheets.lanes import Stretch
from drawcord.sheets.lines import words
from drawcord.sheets.packing import Bore
from drawcord.sheets.render import to_svg
from drawcord.sheets.report import plan_document
from drawcord.sheets.traces import LINES, traces
from drawcord.sheets.views import owns, views
from drawcord.verify.verify import verify
from planned import plan, planned

TOLD = 1e-6  # mm of paper


@cache
def joint(job):
    """The sheets of a demo job, drawn once."""
    return joint_sheets(plan(job), plan(job).coach.units)


@cache
def tags(job):
    """The tags in the picture as pairs of a view and what it says."""
    return {tuple(gid.removeprefix("tag-").split("-", 1)) for gid, _ in boxes(joint(job)[0])[1]}


def lines(job):
    """The lines of cables as (view, cable, its points in mm of coach)."""
    for ax in joint(job)[0].axes:
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
def test_joint_it_is_legible(job):
    check_all(joint(job))


@pytest.mark.parametrize("job", JOBS)
def test_joint_every_cable_is_drawn_and_lettered_in_every_view_it_is_at_home_in(job):
    letters = {name: look.tag for name, look in traces(sorted(plan(job).chosen)).items()}
    drawn, tagged = {(view, cable) for view, cable, _ in lines(job)}, tags(job)
    for name, letter in letters.items():
        here = at_home(job, name)
        assert here
        assert {(view, name) for view in here} <= drawn
        assert {(view, letter) for view in here} <= tagged


@pytest.mark.parametrize("job", JOBS)
def test_joint_every_hole_joint_device_and_end_is_marked(job):
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
def test_joint_cables_that_run_together_are_drawn_side_by_side(job):
    # From the artists: no two cables lie on one another for longer than a corner takes.
    panels = [ax for ax in joint(job)[0].axes if ax.get_label() != "page"]
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
def test_joint_raceway_in_sight_is_drawn_under_its_cables(job):
    named = [line.get_gid() or "" for ax in joint(job)[0].axes for line in ax.get_lines()]
    drawn = {gid.rpartition("-")[2] for gid in named if "-raceway-" in gid}
    assert drawn == {name for name, one in plan(job).chosen.items() if any(leg.in_sight for leg in one.route.legs)}


@pytest.mark.parametrize("job", JOBS)
def test_joint_the_tables_say_what_is_shared(job):
    # Each cable's row, and each hole that several share with all of them.
    whole = plan(job)
    texts = {text for figure in joint(job) for text, _ in boxes(figure)[0]}
    wanted = {end for name in whole.chosen for end in (whole.coach.job.cables[name].start, name)}
    letters = {name: look.tag for name, look in traces(sorted(whole.chosen)).items()}
    wanted |= {" ".join(letters[name] for name in hole.cables) for hole in whole.together.holes}
    wanted |= {hole.id for hole in whole.together.holes}
    assert {word for text in wanted for word in words(text)} <= {word for text in texts for word in words(text)}


def test_joint_lines_differ_without_colour():
    # By dashes, width, and whether the line is hollow; and from the ninth on at least by the letter.
    assert len({look[1:] for look in LINES}) == len(LINES)
    many = traces([f"cable_{number:02}" for number in range(60)])
    assert len({look.tag for look in many.values()}) == 60


def test_joint_a_point_of_a_stretch_moves_with_its_lane():
    # A level stretch drawn 10 higher from 5 on: its start stays its start, what lies between keeps its place along it.
    laid = Laid(Stretch(1, (0, 0), (100, 0), own=True), [(5, 0), (5, 10), (100, 10)])
    assert laid.at((0, 0)) == (5, 10)
    assert laid.at((100, 0)) == (100, 10)
    assert laid.at((2, 0)) == (5, 10)
    assert laid.at((40, 0)) == (40, 10)
    assert laid.at((40, 20)) is laid.at((300, 0)) is None
    slanting = Laid(Stretch(1, (0, 0), (100, 100), own=True), [(0, 10), (100, 110)])
    assert slanting.at((50, 50)) == pytest.approx((50, 60))


def test_joint_nothing_is_drawn_where_nothing_is_planned_together():
    assert joint_sheets(replace(plan("van/job-open-cabin"), together=None)) == []


def test_joint_the_same_plan_gives_the_same_bytes():
    one, other = (
        [to_svg(figure) for figure in joint_sheets(plan("van/job-open-cabin"), "m")] for _ in range(2)
    )
    assert one == other


@cache
def bundled(job):
    """The sheets of a demo job, drawn once."""
    return bundles_sheets(plan(job), plan(job).coach.units)


def placed(whole):
    return places(whole, traces(sorted(whole.chosen)), whole.coach.units)


def drawings(figures):
    """Each drawing's bore, which says nothing for a cut, and its circles by its gid: the artists in the order drawn."""
    found, bore = {}, None
    for figure in figures:
        for patch in figure.axes[0].patches:
            gid = patch.get_gid() or ""
            if gid == "bore":
                bore = patch
            elif isinstance(patch, Circle):
                name, kind, letter = gid.rsplit("-", 2)
                here = found.setdefault(name, (bore if name not in found else None, []))
                here[1].append((kind, letter, patch))
    return found


@pytest.mark.parametrize("job", JOBS)
def test_bundles_they_are_legible(job):
    check_all(bundled(job))


@pytest.mark.parametrize("job", JOBS)
def test_bundles_circles_lie_apart_and_within_their_bore(job):
    # From the coordinates of what is drawn.
    found = drawings(bundled(job))
    rounds = {place.names[0]: isinstance(place.room, Bore) for place in placed(plan(job))}
    assert len(found) == 2 * len(rounds)
    for name, (bore, circles) in found.items():
        for (_, _, one), (_, _, other) in combinations(circles, 2):
            assert math.dist(one.center, other.center) >= one.get_radius() + other.get_radius() - TOLD
        if rounds[name.removeprefix("bundle-").rpartition("-")[0]]:
            for _, _, one in circles:
                assert math.dist(one.center, bore.center) + one.get_radius() <= bore.get_radius() + TOLD


@pytest.mark.parametrize("job", JOBS)
def test_bundles_they_are_to_scale_and_show_every_core_and_the_largest(job):
    # Circles are in the proportion of diameters that the job's cables have, written here from the job.
    whole, found = plan(job), drawings(bundled(job))
    letters = {name: look.tag for name, look in traces(sorted(whole.chosen)).items()}
    cables = whole.coach.job.cables
    for place in placed(whole):
        there = [name for name in place.cables for _ in range(cores(cables[name]))]
        (bore, lying), (_, passing) = (found[f"bundle-{place.names[0]}-{number}"] for number in (0, 1))
        assert sorted((kind, letter) for kind, letter, _ in lying) == sorted(("core", letters[name]) for name in there)
        share = lying[0][2].get_radius() * 2 / cables[there[0]].outside_diameter
        assert all(
            2 * circle.get_radius() == pytest.approx(share * cables[name].outside_diameter)
            for name, (_, _, circle) in zip(there, lying, strict=True)
        )
        plugs = [(letter, circle) for kind, letter, circle in passing if kind == "plug"]
        assert len(plugs) == 1
        if isinstance(place.room, Bore):
            assert 2 * bore.get_radius() == pytest.approx(share * place.room.diameter)
            largest = {letters[name]: cables[name].largest_plug for name in place.cables}
            assert 2 * plugs[0][1].get_radius() == pytest.approx(share * largest[plugs[0][0]])


def cores(cable):
    """Cores that lie by themselves: those of PV and battery cables."""
    return cable.cores if cable.carries in ("PV", "battery DC") else 1


@pytest.mark.parametrize("job", JOBS)
def test_bundles_every_narrow_place_is_drawn_and_the_shared_come_first(job):
    whole = plan(job)
    found = placed(whole)
    names = [name for place in found for name in place.names]
    assert len(names) == len(set(names))
    wanted = {hole.id for hole in whole.together.holes} | {bundle.where for bundle in whole.together.bundles}
    entered = {leg.space for one in whole.chosen.values() for leg in one.route.legs if leg.kind == "chase"}
    assert wanted | entered <= set(names)
    shared = [len(place.cables) > 1 for place in found]
    assert shared == sorted(shared, reverse=True)
    text = said(bundled(job))
    assert all(name in text for name in (*names, *kept_apart(whole)))
    assert all(f"{place.fill * place.area:.0f} of {place.area:.0f} mm²" in text for place in found)


@pytest.mark.parametrize("job", JOBS)
def test_bundles_all_that_the_plan_lets_through_is_found_a_packing(job):
    # The plan's rule for bores is proved to leave room; the picture has to find it.
    assert all(moment.laid for place in placed(plan(job)) for moment in place.moments)


def in_one_chase():
    """The van's data cable beside the coax through its rear pillar, in which something lies already."""
    whole = plan("van/job-garage")
    coax = whole.chosen["coax"]
    link = replace(whole.chosen["link"], route=replace(coax.route, cable="link"))
    pillar = whole.coach.spaces["pillar_d_left"]
    x0, _, y0, _, z0, z1 = pillar.box
    filled = replace(pillar, taken=(Box(x0, x0 + 70, y0, y0 + 60, z0 + 200, z1),))
    coach = replace(whole.coach, spaces={**whole.coach.spaces, "pillar_d_left": filled})
    return replace(whole, coach=coach, chosen={**whole.chosen, "link": link})


def test_bundles_a_shared_chase_is_drawn_with_what_is_in_it():
    # 120 x 80 mm less 70 x 60 mm: 5400 mm²; the plug of 12 mm and the coax, counted as 7 mm, take 144 + 49 of it.
    whole = in_one_chase()
    place = next(place for place in placed(whole) if place.names == ("pillar_d_left",))
    assert (place.cables, place.area) == (("coax", "link"), 5400)
    assert "The plan holds" in place.checked
    assert "193 of 5400 mm², 4%" in place.checked
    figures = bundles_sheets(whole, "m")
    check_all(figures)
    assert any(patch.get_gid() == "taken" for figure in figures for patch in figure.axes[0].patches)
    assert "least free 200 mm from its foot" in said(bundles_sheets(whole, "mm"))
    # Nothing is drawn into what is taken, which is the lower left of the cut.
    rounds = [one for moment in place.moments for one in moment.laid]
    assert all(x - wide / 2 >= 70 - TOLD or y - wide / 2 >= 60 - TOLD for (x, y), wide in rounds)


def test_bundles_where_no_packing_is_found_the_picture_says_so():
    # A bore of 6 mm for a plug of 9 mm: no such plan is made, and no picture makes it fit.
    whole = plan("van/job-open-cabin")
    holes = tuple(replace(hole, diameter=6) for hole in whole.together.holes)
    figures = bundles_sheets(replace(whole, together=replace(whole.together, holes=holes)), "m")
    check_all(figures)
    assert "NO PACKING FOUND" in said(figures)


def test_bundles_a_plug_that_does_not_pass_its_own_other_core_is_told_of():
    # Plug 20 mm and a core of 7 mm take 27 mm, and the hole has 22 mm: the plan counts the plug alone.
    whole = plan("van/job-garage")
    pv = next(place for place in placed(whole) if place.cables == ("pv",) and "T10" in place.names)
    assert (whole.coach.job.cables["pv"].largest_plug, pv.room.diameter) == (20, 22)
    assert "beside its own other cores" in pv.note
    wide = replace(whole.together, holes=tuple(replace(hole, diameter=27) for hole in whole.together.holes))
    assert all(not place.note for place in placed(replace(whole, together=wide)) if place.cables == ("pv",))


def test_bundles_every_tag_is_on_the_sheet():
    # Each cable's letter stands in each of its drawings, with the diameter.
    whole = plan("truck-camper/job-rear-junction")
    tags = [gid for figure in bundled("truck-camper/job-rear-junction") for gid, _ in boxes(figure)[1]]
    letters = {name: look.tag for name, look in traces(sorted(whole.chosen)).items()}
    for place in placed(whole):
        for name in place.cables:
            assert any(gid.startswith(f"tag-bundle-{place.names[0]}-0-{letters[name]} ⌀") for gid in tags)


def test_bundles_nothing_is_drawn_where_nothing_is_planned_together():
    assert bundles_sheets(replace(plan("van/job-open-cabin"), together=None)) == []


def test_bundles_the_same_plan_gives_the_same_bytes():
    one, other = ([to_svg(figure) for figure in bundles_sheets(plan("van/job-open-cabin"), "m")] for _ in range(2))
    assert one == other


@cache
def figures(job):
    """The sheets of a demo job, drawn once."""
    return figures_sheets(plan(job), plan(job).coach.units)


def drawn(job, kind):
    """The artists of a kind by what they belong to: a column and a candidate for `bar` and `best`."""
    found = {}
    for figure in figures(job):
        for artist in (*figure.axes[0].patches, *figure.axes[0].get_lines()):
            name, _, rest = (artist.get_gid() or "").partition("-")
            if name == kind:
                found[rest] = artist
    return found


def values(candidate):
    """What each column measures, written here from the route and not by the sheet's own code."""
    route = candidate.route
    drops = [figure.value for figure in route.figures if figure.name == "voltage drop"]
    names = ("length", "in sight", "roof holes", "inner holes", "work", "doubt")
    more = {"weighs": candidate.score, "cut, a core": route.cut_length[1], "joints": len(route.joints)}
    return {**dict(zip(names, route.criteria, strict=True)), **more, "drop": drops[0] if drops else None}


@pytest.mark.parametrize("job", JOBS)
def test_figures_they_are_legible_on_one_sheet(job):
    check_all(figures(job))
    assert len(figures(job)) == 1


@pytest.mark.parametrize("job", JOBS)
def test_figures_bars_are_to_the_scale_of_their_column_from_zero(job):
    # From the artists: width over value is the same for all of a cable's candidates, and what is nothing has no bar.
    bars = drawn(job, "bar")
    expected = set()
    for answer in plan(job).answers:
        by = {candidate.id: values(candidate) for candidate in answer.candidates}
        for measure in (measure.name for measure in MEASURES):
            shown = {name: value[measure] for name, value in by.items() if value[measure]}
            expected |= {f"{measure}-{name}" for name in shown}
            some = [(bars[f"{measure}-{name}"], value) for name, value in shown.items()]
            assert len({round(bar.get_x(), 6) for bar, _ in some}) <= 1
            if some:
                longest, most = max(some, key=lambda one: one[1])
                widths = [(bar.get_width(), longest.get_width() * value / most) for bar, value in some]
                assert all(width == pytest.approx(wanted) for width, wanted in widths)
    assert set(bars) == expected


@pytest.mark.parametrize("job", JOBS)
def test_figures_the_choice_is_framed_and_named(job):
    whole = plan(job)
    assert set(drawn(job, "choice")) == {one.id for one in whole.chosen.values()}
    texts = [text for figure in figures(job) for text, _ in boxes(figure)[0]]
    assert sum(text.startswith("CHOSEN") for text in texts) == len(whole.chosen)
    assert {one.id for answer in whole.answers for one in answer.candidates} <= set(texts)


@pytest.mark.parametrize("job", JOBS)
def test_figures_the_best_of_each_column_are_starred(job):
    # None where all are alike: a star would say nothing.
    wanted = set()
    for answer in plan(job).answers:
        by = {candidate.id: values(candidate) for candidate in answer.candidates}
        for measure in (measure.name for measure in MEASURES):
            column = {name: value[measure] for name, value in by.items() if value[measure] is not None}
            if column and min(column.values()) < max(column.values()):
                wanted |= {f"{measure}-{name}" for name, value in column.items() if value == min(column.values())}
    assert set(drawn(job, "best")) == wanted


def test_figures_a_cable_with_more_candidates_than_a_sheet_holds_goes_on():
    whole = plan("van/job-open-cabin")
    answer = whole.answers[0]
    many = tuple(replace(answer.candidates[0], id=f"{answer.cable}-{number}") for number in range(90))
    pages = figures_sheets(replace(whole, answers=(replace(answer, candidates=many),)))
    check_all(pages)
    texts = [text for figure in pages for text, _ in boxes(figure)[0]]
    assert {one.id for one in many} <= set(texts)


def test_figures_the_same_plan_gives_the_same_bytes():
    one, other = ([to_svg(figure) for figure in figures_sheets(plan("van/job-open-cabin"), "m")] for _ in range(2))
    assert one == other


@pytest.mark.parametrize("job", JOBS)
def test_the_checker_finds_nothing_wrong_with_the_joint_plan(job, tmp_path):
    """As `drawcord plan` writes it, circuits and all; and something with one that says its first hole 1 mm narrower."""
    loaded, found, made = planned(job)
    document = plan_document(made, [order for order, _ in found], inputs(loaded))
    document["circuits"] = made.circuits and circuits_document(loaded.coach, made.circuits, inputs(loaded))
    document |= {"job_file": str(JOBS[job]), "shop_folder": str(shared())}
    file = tmp_path / "plan.json"
    file.write_text(json.dumps(document), encoding="utf-8")
    assert verify(file) == []
    document["together"]["holes"][0]["diameter_mm"] -= 1
    file.write_text(json.dumps(document), encoding="utf-8")
    assert verify(file) != []
