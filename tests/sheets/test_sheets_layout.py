from dataclasses import replace
from functools import cache, lru_cache
from itertools import pairwise

import pytest
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.text import Text
from sheet_samples import RIGS, demo

from answered import JOBS, answers
from answered import coach_of as coach_of_job
from drawcord.sheets.candidates_sheet import candidates_sheets
from drawcord.sheets.cautions import cautions
from drawcord.sheets.key import key_of
from drawcord.sheets.page import new_page
from drawcord.sheets.rig_sheet import rig_sheets
from drawcord.sheets.route_sheet import route_sheets
from drawcord.sheets.style import house_style
from drawcord.sheets.text import write
from drawcord.sheets.views import owns, views
from sketch import coach_of, rig_data

RENDERER = RendererAgg(600, 850, 72)  # one for all sheets: it remembers how large a text is
HAIR = 0.5  # points that extents may share: they are rounded outwards


@lru_cache(maxsize=16)
def boxes(figure):
    """Every text as (what it says, its extents) and every tag's box likewise, in points; and sizes of type.

    Remembered, for to ask matplotlib takes as long as to draw: what is written later is not seen.
    """
    figure.set_dpi(72)
    found = [text for text in figure.findobj(Text) if text.get_text() and text.get_visible()]
    with house_style():  # without it text would be measured with hinting, which rounds each letter's width
        texts = [(text.get_text(), text.get_window_extent(RENDERER).extents.tolist()) for text in found]
    tags = [
        (patch.get_gid(), patch.get_window_extent(RENDERER).extents.tolist())
        for ax in figure.axes
        for patch in ax.patches
        if (patch.get_gid() or "").startswith("tag-")
    ]
    return texts, tags, [text.get_fontsize() for text in found]


def overlaps(named):
    """Pairs of names whose boxes share more than a hair."""
    return [
        (a, b)
        for number, (a, one) in enumerate(named)
        for b, other in named[number + 1 :]
        if min(one[2], other[2]) - max(one[0], other[0]) > HAIR and min(one[3], other[3]) - max(one[1], other[1]) > HAIR
    ]


def check(figure, least=20):
    """Nothing overlaps, nothing is too small to read, nothing leaves the page."""
    texts, tags, sizes = boxes(figure)
    assert len(texts) > least
    assert overlaps(texts) == []
    assert overlaps(tags) == []
    untagged = [(text, box) for text, box in texts if not any(within(box, tag) for _, tag in tags)]
    assert overlaps_between(untagged, tags) == []
    assert min(sizes) >= 6
    width, height = figure.get_size_inches()
    assert sorted([width, height]) == pytest.approx([210 / 25.4, 297 / 25.4])
    off = [name for name, (x0, y0, x1, y1) in texts + tags if min(x0, y0) < 0 or x1 > width * 72 or y1 > height * 72]
    assert off == []


def check_all(sheets):
    """The same for every sheet; one that goes on may hold little more than its title and the cautions."""
    for number, figure in enumerate(sheets):
        check(figure, 5 if number else 20)


def said(sheets):
    """Everything that is written on sheets, tags apart, as one text without line breaks."""
    found = []
    for figure in sheets:
        texts, tags, _ = boxes(figure)
        found += [text for text, box in texts if not any(within(box, tag) for _, tag in tags)]
    return " ".join(found)


def within(box, tag):
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    return tag[0] <= x <= tag[2] and tag[1] <= y <= tag[3]


def overlaps_between(texts, tags):
    return [pair for tag in tags for text in texts for pair in overlaps([tag, text])]


@pytest.mark.parametrize("units", ["mm", "m", "in"])
def test_a_route_sheet_is_legible(coach, candidate, units):
    check_all(route_sheets(coach, candidate, units))


@cache
def drawn(name, units):
    """The sheets of a demo rig."""
    return rig_sheets(demo(name), units)


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("name", RIGS)
def test_every_demo_rig_is_legible(name, units):
    check_all(drawn(name, units))


def test_candidates_side_by_side_are_legible(coach, answer):
    # Nine candidates need two pages; the second has one row that takes the whole height.
    pages = candidates_sheets(coach, answer)
    assert len(pages) == 2
    for page in pages:
        check(page)


@pytest.mark.parametrize("name", RIGS)
def test_no_tag_is_lost(name):
    # A tag that found no room would be missing without a word: every number and letter stands in the drawing.
    _, tags, _ = boxes(drawn(name, "mm")[0])
    key = key_of(demo(name))
    assert {*key.spaces.values(), *key.things.values()} <= {gid.rpartition("-")[2] for gid, _ in tags}


def test_no_mark_of_a_route_is_lost(coach, candidate):
    # Legs 1 to 3 in a plan and in an elevation each, and every hole, joint and end.
    _, tags, _ = boxes(route_sheets(coach, candidate)[0])
    names = {gid.removeprefix("tag-") for gid, _ in tags}
    assert {"roof-1", "cabin-2", "below-3", "curb-1", "curb-2", "curb-3"} <= names
    assert {"below-H2", "curb-H1", "curb-H2", "curb-J1", "roof-junction.pv", "below-controller.pv"} <= names
    assert "roof-H1: 6200 mm from front, 350 mm from curb roof edge" in names


def test_a_crowded_coach_with_long_names_is_legible():
    # Sixty spaces with names as long as names may be, in a small shell.
    spaces = {
        f"{'a_cabinet_with_a_name_of_forty_letters'}{number:02}": {
            "kind": "cabinet",
            "from front": [100 + 280 * (number % 20), 370 + 280 * (number % 20)],
            ("street", "curb", "street")[number // 20]: [(0, 0, 900)[number // 20], (600, 600, 1300)[number // 20]],
            "up": "floor..ceiling",
        }
        for number in range(60)
    }
    sheets = rig_sheets(coach_of(rig_data(spaces)))
    check_all(sheets)
    text = said(sheets)
    assert all(name in text for name in spaces)


def test_a_route_of_many_legs_is_legible_and_loses_nothing(coach, candidate):
    # More than a sheet has room for goes onto further sheets, which say so; no leg, hole or finding is cut.
    route = candidate.route
    findings = tuple(replace(route.findings[0], sentence=f"finding {n} goes on and on " * 5) for n in range(40))
    holes = tuple(replace(hole, id=f"H{n}") for n, hole in enumerate(route.holes * 10, start=1))
    long = replace(route, legs=route.legs * 12, holes=holes, joints=route.joints * 6, findings=findings)
    sheets = route_sheets(coach, replace(candidate, route=long))
    check_all(sheets)
    assert len(sheets) > 2
    text = said(sheets)
    assert [n for n in range(40) if f"finding {n} goes" not in text] == []
    first_cells = [words for figure in sheets for words, _ in boxes(figure)[0]]
    assert {str(n) for n in range(1, 37)} | {f"H{n}" for n in range(1, 21)} <= set(first_cells)
    for number in range(1, len(sheets)):
        assert f"continued on sheet {number + 1}" in said([sheets[number - 1]])
        assert f"sheet {number} of {len(sheets)}" in said([sheets[number - 1]])


def test_a_row_higher_than_a_sheet_ends(coach, candidate):
    # Nobody writes such a finding; the program must not turn for ever all the same.
    finding = replace(candidate.route.findings[0], sentence="on and on " * 700)
    assert 1 < len(route_sheets(coach, replace(candidate, route=replace(candidate.route, findings=(finding,))))) < 4


def cautions_for(coach, candidate):
    return cautions([coach.job.cables[candidate.route.cable].carries], [candidate.route])


WINNERS = [(job, answer.cable) for job in JOBS for _, answer in answers(job) if answer.candidates]


@pytest.mark.parametrize(("job", "cable"), WINNERS)
def test_every_sheet_of_every_cable_of_every_demo_job_is_legible(job, cable):
    # The winner's sheets in the units of its files, with all that they have to say, and its candidates.
    answer = next(answer for _, answer in answers(job) if answer.cable == cable)
    coach, winner = coach_of_job(job), answer.candidates[0]
    sheets = route_sheets(coach, winner, coach.units)
    check_all(sheets)
    text = said(sheets).replace(" ", "")
    wanted = [*(f.sentence for f in winner.route.findings), *(c.sentence for c in cautions_for(coach, winner))]
    assert [sentence for sentence in wanted if sentence.replace(" ", "") not in text] == []
    names = {gid.removeprefix("tag-") for gid, _ in boxes(sheets[0])[1]}
    assert all(any(name.endswith(f"-{n}") for name in names) for n in range(1, len(winner.route.legs) + 1))
    for sheet in candidates_sheets(coach, answer, coach.units):
        check(sheet)


def test_every_leg_is_numbered_in_every_view_it_is_at_home_in():
    # A leg of a hand's breadth gets its number too, with a leader.
    coach, answer = coach_of_job("truck-camper/job-rear-junction"), answers("truck-camper/job-rear-junction")
    for _, found in answer:
        route = found.candidates[0].route
        names = {gid for gid, _ in boxes(route_sheets(coach, found.candidates[0])[0])[1]}
        for view in views(coach, frozenset(route.spaces)):
            for number, leg in enumerate(route.legs, start=1):
                runs = [pair for pair in pairwise(leg.points) if view.flat(pair[0]) != view.flat(pair[1])]
                if any(owns(coach, view, *run) for run in runs):
                    assert f"tag-{view.name}-{number}" in names, (found.cable, view.name, number)


def test_a_coach_with_nothing_in_it_is_drawn():
    # One room, no bays, no moving parts: three views fewer than a full sheet, and no lists of things.
    check_all(rig_sheets(coach_of(rig_data({"living": {"kind": "room", "from front": [50, 5950]}}))))


def written(*more):
    """A page of thirty lines, and more of them: x, y and text."""
    figure, page = new_page(upright=True)
    for x, y, text in (*((10, 280 - 6 * number, f"line {number}") for number in range(30)), *more):
        write(page, x, y, text)
    return figure


def test_the_checker_sees_what_overlaps():
    # The tests above pass on what the checker overlooks.
    check(written())
    with pytest.raises(AssertionError, match="over the first line"):
        check(written((12, 279, "over the first line")))


def test_the_checker_sees_what_leaves_the_page():
    with pytest.raises(AssertionError, match="off the edge"):
        check(written((205, 20, "off the edge")))
