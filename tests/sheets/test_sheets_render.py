import os
import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree as ET

import matplotlib as mpl
import pytest

from drawcord.sheets.candidates_sheet import candidates_sheets
from drawcord.sheets.page import new_page
from drawcord.sheets.render import pictures, to_png, to_svg
from drawcord.sheets.rig_sheet import rig_sheets
from drawcord.sheets.route_sheet import route_sheets
from drawcord.sheets.style import house_style

HERE = Path(__file__).parent
PROGRAM = """
import hashlib, sys
sys.path.insert(0, sys.argv[1])
from sheet_samples import demo
from drawcord.sheets.render import to_png, to_svg
from drawcord.sheets.rig_sheet import rig_sheets
coach = demo("truck-camper")
for make in (to_svg, to_png):
    print(hashlib.sha256(make(rig_sheets(coach)[0])).hexdigest())
"""


@pytest.fixture(scope="module")
def rig_svg(coach):
    return to_svg(rig_sheets(coach)[0])


@pytest.fixture(scope="module")
def route_figure(coach, candidate):
    return route_sheets(coach, candidate)[0]


@pytest.fixture(scope="module")
def route_svg(route_figure):
    return to_svg(route_figure)


def test_the_same_sheet_gives_the_same_bytes_under_any_hash_seed():
    # In processes of their own, for the seed is fixed when an interpreter starts.
    digests = set()
    for seed in ("0", "4242"):
        run = subprocess.run(
            [sys.executable, "-c", PROGRAM, str(HERE)],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        )
        digests.add(run.stdout)
    assert len(digests) == 1


def test_rendering_twice_gives_the_same_bytes(coach, candidate, route_figure, route_svg):
    again = route_sheets(coach, candidate)[0]
    assert to_svg(route_figure) == route_svg == to_svg(again)
    assert to_png(route_figure) == to_png(again)


def test_the_users_settings_change_nothing(coach, rig_svg):
    # A dark theme, another font and another hash salt are the user's, not the sheet's.
    theirs = {"font.size": 31, "lines.linewidth": 9, "axes.facecolor": "black", "svg.hashsalt": "mine"}
    with mpl.rc_context(theirs):
        before = dict(mpl.rcParams)
        assert to_svg(rig_sheets(coach)[0]) == rig_svg
        assert dict(mpl.rcParams) == before  # and the sheet leaves theirs alone


def test_house_style_is_undone_after_an_error():
    size = mpl.rcParams["hatch.linewidth"]
    with pytest.raises(KeyError), house_style():
        raise KeyError
    assert mpl.rcParams["hatch.linewidth"] == size


def test_elements_carry_their_ids(route_svg):
    # So that a page or a test finds a space, a leg, a hole or a joint in the drawing.
    ids = {node.get("id") for node in ET.fromstring(route_svg).iter()}  # noqa: S314 - our own bytes
    assert {"cabin-space-linen", "curb-space-linen", "below-space-bay_c3", "roof-leg-1", "curb-leg-2"} <= ids
    assert {"roof-hole-H1", "below-hole-H2", "curb-joint-J1", "roof-start", "below-end"} <= ids
    assert {"cabin-sweep-slide_galley", "roof-thing-shower_dome", "curb-thing-fridge_flue"} <= ids


def test_svg_bears_no_date_and_its_text_is_text(rig_svg):
    # A search finds it, bold is bold, and a browser that lacks the font takes another.
    assert b"dc:date" not in rig_svg
    texts = [node for node in ET.fromstring(rig_svg).iter() if node.tag.endswith("}text")]  # noqa: S314 - our own bytes
    said = {node.text: node.get("style") for node in texts}
    assert "Class A coach, 11 m, three slides" in said
    assert "font-weight: 700" in said["Signs"]
    assert "font-weight" not in said["linen"]
    assert all("sans-serif" in style for style in said.values())


def test_shorter_numbers_leave_the_text_alone(coach, candidate):
    # Digits are dropped from paths only: a length keeps its last one.
    svg = to_svg(route_sheets(coach, candidate, "m")[0]).decode()
    assert "Measured 5.695 m" in svg
    assert re.search(r'd="[^"]*\.\d{3}', svg) is None


def test_svg_is_small(route_svg):
    # A sheet was 1.4 MB, most of it thousands of little circles and letters as outlines.
    assert len(route_svg) < 600_000


def test_pictures_are_numbered_if_there_are_several():
    one = [new_page(upright=True)[0]]
    assert sorted(pictures("rig", one)) == ["rig.png", "rig.svg"]
    assert sorted(pictures("rig", one * 2)) == ["rig-1.png", "rig-1.svg", "rig-2.png", "rig-2.svg"]


def test_png_has_the_size_of_the_paper(coach, answer):
    # A4 lying, at 100 dots per inch: 297 mm are 1169 dots. Width and height stand in bytes 16 to 24 (PNG, IHDR).
    png = to_png(candidates_sheets(coach, answer)[0], dpi=100)
    assert png[:8] == b"\x89PNG\r\n\x1a\n"
    assert (int.from_bytes(png[16:20]), int.from_bytes(png[20:24])) == (1169, 826)


def test_pictures_differ_where_coaches_differ(coach):
    # The tests above would pass on an empty page too.
    metric, imperial = (to_png(rig_sheets(coach, units)[0]) for units in ("mm", "in"))
    assert len(metric) > 100_000
    assert metric != imperial
