import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text
from sheet_samples import RIGS, demo

from drawcord.sheets.candidates_sheet import candidates_sheets
from drawcord.sheets.page import new_page
from drawcord.sheets.rig_sheet import rig_sheet
from drawcord.sheets.route_sheet import route_sheet
from drawcord.sheets.text import write

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
