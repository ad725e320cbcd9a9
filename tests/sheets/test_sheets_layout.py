from dataclasses import replace

import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text
from sheet_samples import RIGS, demo

from drawcord.sheets.candidates_sheet import candidates_sheets
from drawcord.sheets.key import key_of
from drawcord.sheets.page import new_page
from drawcord.sheets.rig_sheet import rig_sheet
from drawcord.sheets.route_sheet import route_sheet
from drawcord.sheets.text import write
from sketch import coach_of, rig_data

HAIR = 0.5  # points that extents may share: they are rounded outwards


def boxes(figure):
    """Every text as (what it says, its extents) and every tag's box likewise, in points; and sizes of type."""
    figure.set_dpi(72)
    renderer = FigureCanvasAgg(figure).get_renderer()
    found = [text for text in figure.findobj(Text) if text.get_text() and text.get_visible()]
    texts = [(text.get_text(), text.get_window_extent(renderer).extents.tolist()) for text in found]
    tags = [
        (patch.get_gid(), patch.get_window_extent(renderer).extents.tolist())
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
        if min(one[2], other[2]) - max(one[0], other[0]) > HAIR
        and min(one[3], other[3]) - max(one[1], other[1]) > HAIR
    ]


def check(figure):
    """Nothing overlaps, nothing is too small to read, nothing leaves the page."""
    texts, tags, sizes = boxes(figure)
    assert len(texts) > 20
    assert overlaps(texts) == []
    assert overlaps(tags) == []
    untagged = [(text, box) for text, box in texts if not any(within(box, tag) for _, tag in tags)]
    assert overlaps_between(untagged, tags) == []
    assert min(sizes) >= 6
    width, height = figure.get_size_inches()
    assert sorted([width, height]) == pytest.approx([210 / 25.4, 297 / 25.4])
    off = [name for name, (x0, y0, x1, y1) in texts + tags if min(x0, y0) < 0 or x1 > width * 72 or y1 > height * 72]
    assert off == []


def within(box, tag):
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    return tag[0] <= x <= tag[2] and tag[1] <= y <= tag[3]


def overlaps_between(texts, tags):
    return [pair for tag in tags for text in texts for pair in overlaps([tag, text])]


@pytest.mark.parametrize("units", ["mm", "m", "in"])
def test_a_route_sheet_is_legible(coach, candidate, units):
    check(route_sheet(coach, candidate, units))


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("name", RIGS)
def test_every_demo_rig_is_legible(name, units):
    check(rig_sheet(demo(name), units))


def test_candidates_side_by_side_are_legible(coach, answer):
    # Nine candidates need two pages; the second has one row that takes the whole height.
    pages = candidates_sheets(coach, answer)
    assert len(pages) == 2
    for page in pages:
        check(page)


@pytest.mark.parametrize("name", RIGS)
def test_no_tag_is_lost(name):
    # A tag that found no room would be missing without a word: every number and letter stands in the drawing.
    coach = demo(name)
    _, tags, _ = boxes(rig_sheet(coach))
    key = key_of(coach)
    assert {*key.spaces.values(), *key.things.values()} <= {gid.rpartition("-")[2] for gid, _ in tags}


def test_no_mark_of_a_route_is_lost(coach, candidate):
    # Legs 1 to 3 in a plan and in an elevation each, and every hole, joint and end.
    _, tags, _ = boxes(route_sheet(coach, candidate))
    names = {gid.removeprefix("tag-") for gid, _ in tags}
    assert {"roof-1", "cabin-2", "below-3", "curb-1", "curb-2", "curb-3"} <= names
    assert {"below-H2", "curb-H1", "curb-H2", "curb-J1", "roof-junction.pv", "below-controller.pv"} <= names
    assert "roof-H1: 6200 mm from front, 350 mm from curb edge" in names


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
    check(rig_sheet(coach_of(rig_data(spaces))))


def test_a_route_of_many_legs_is_legible(coach, candidate):
    # More legs, holes and findings than the sheet has rows for: it says how many it leaves out.
    route = candidate.route
    finding = replace(route.findings[0], sentence="a sentence that goes on and on " * 5)
    long = replace(
        route, legs=route.legs * 12, holes=route.holes * 10, joints=route.joints * 6, findings=(finding,) * 20
    )
    figure = route_sheet(coach, replace(candidate, route=long))
    check(figure)
    said = {text for text, _ in boxes(figure)[0]}
    assert {"… and 24 more", "… and 8 more", "… and 16 more"} <= said


def test_a_coach_with_nothing_in_it_is_drawn():
    # One room, no bays, no moving parts: three views fewer than a full sheet, and no lists of things.
    check(rig_sheet(coach_of(rig_data({"living": {"kind": "room", "from front": [50, 5950]}}))))


def test_the_checker_sees_what_overlaps():
    # The tests above pass on what the checker overlooks.
    figure, page = new_page(upright=True)
    for number in range(30):
        write(page, 10, 280 - 6 * number, f"line {number}")
    check(figure)
    write(page, 12, 279, "over the first line")
    with pytest.raises(AssertionError, match="over the first line"):
        check(figure)


def test_the_checker_sees_what_leaves_the_page():
    figure, page = new_page(upright=True)
    for number in range(30):
        write(page, 10, 280 - 6 * number, f"line {number}")
    write(page, 205, 20, "off the edge")
    with pytest.raises(AssertionError, match="off the edge"):
        check(figure)
