import pytest
from sheet_samples import RIGS, demo

from drawcord.coach.box import Box
from drawcord.sheets.rig_sheet import rig_sheets
from drawcord.sheets.route_sheet import route_sheets
from drawcord.sheets.views import owns, shows, views

NAMES = {"roof", "overhead", "cabin", "below", "street", "curb"}


def panels(figure):
    """The axes of the views by name, in the order of the page."""
    return {ax.get_label(): ax for ax in figure.axes if ax.get_label() in NAMES}


def on_page(figure, ax, x, y):
    """Where a point of a view lies on the page, in mm."""
    return figure.transFigure.inverted().transform(ax.transData.transform((x, y))) * figure.get_size_inches() * 25.4


def view(coach, name, used=None):
    return next(view for view in views(coach, used) if view.name == name)


@pytest.mark.parametrize("name", RIGS)
def test_all_views_share_one_scale_and_one_x(name):
    # Axes that share x with equal aspect do not align; placed by hand they do, to a hundredth of a mm.
    figure = rig_sheets(demo(name))[0]
    found = panels(figure)
    assert {"roof", "cabin", "below", "street", "curb"} <= set(found)
    scales = set()
    for ax in found.values():
        (x0, y0), (x1, y1) = on_page(figure, ax, 1000, 100), on_page(figure, ax, 2000, 1100)
        scales |= {round((x1 - x0) / 1000, 7), round((y1 - y0) / 1000, 7)}
        assert x0 == pytest.approx(on_page(figure, found["roof"], 1000, 0)[0], abs=0.01)
    assert len(scales) == 1
    said = next(t.get_text() for ax in figure.axes for t in ax.texts if "scale 1:" in t.get_text())
    assert float(said.split("1:")[1].split()[0]) == pytest.approx(1 / scales.pop(), rel=1e-4)


def test_the_scale_bar_is_as_long_as_it_says(coach):
    # Four parts of 250 mm are a metre.
    figure = rig_sheets(coach)[0]
    page = next(ax for ax in figure.axes if ax.get_label() == "page")
    said = next(t.get_text() for t in page.texts if "scale 1:" in t.get_text())
    scale = float(said.split("1:")[1].split()[0])
    parts = [patch for patch in page.patches if (patch.get_gid() or "").startswith("scale-bar")]
    assert said.startswith("1 m, ")
    assert sum(part.get_width() for part in parts) * scale == pytest.approx(1000)


def test_the_cable_is_drawn_where_it_runs(coach, candidate):
    # The first leg on the roof plan, from its coordinates alone: nothing runs beside it there.
    figure = route_sheets(coach, candidate)[0]
    ax = panels(figure)["roof"]
    lines = [line for line in ax.lines if line.get_gid() == "roof-leg-1"]
    drawn = [tuple(point) for line in lines for point in line.get_xydata().tolist()]
    assert drawn == [(5700, 1350), (6200, 1350), (6200, 1350), (6200, 2200)]


def test_the_route_is_solid_on_its_own_side_and_ghosted_on_the_other(coach, candidate):
    # Legs 2 and 3 keep to the curb side.
    found = panels(route_sheets(coach, candidate)[0])
    for number in (2, 3):
        styles = {
            side: {line.get_linestyle() for line in found[side].lines if line.get_gid() == f"{side}-leg-{number}"}
            for side in ("curb", "street")
        }
        assert styles == {"curb": {"-"}, "street": {"--"}}


def test_a_coincident_stretch_is_set_apart(coach, candidate):
    # In the bay the cable goes down at x = 6600 and comes up at x = 6300; from above both lie on y = 2450.
    ax = panels(route_sheets(coach, candidate)[0])["below"]
    runs = [line.get_xydata() for line in ax.lines if line.get_gid() == "below-leg-3"]
    level = {round(run[-1][1]) for run in runs if run[-1][1] == run[-2][1] and abs(run[-1][0] - run[-2][0]) > 200}
    assert len(level) == 2


@pytest.mark.parametrize(
    ("height", "plan"),
    [(2200, "roof"), (2150, "roof"), (2100, "cabin"), (1500, "cabin"), (10, "cabin"), (-30, "below")],
)
def test_a_level_run_belongs_to_one_plan(coach, height, plan):
    # Ceiling 2100, main floor 0, nothing split; what is clipped right under the ceiling is in the cabin.
    here = [v.name for v in views(coach, frozenset()) if v.up == 1 and owns(coach, v, (1, 9, height), (9, 9, height))]
    assert here == [plan]


def test_the_floor_that_counts_is_the_one_above(request):  # noqa: ARG001
    # Under the raised front of the fifth wheel a bay reaches far above the main floor and is still below.
    coach = demo("fifth-wheel")
    bay = coach.spaces["front_bay"].box
    assert bay.z1 > 500
    assert shows(coach, view(coach, "below"), bay)
    assert not shows(coach, view(coach, "cabin"), bay)


def test_what_hangs_gets_a_plan_only_where_it_is_needed(coach):
    # The galley's overhead hangs over its base: the rig needs both plans, a route through neither does not.
    assert "overhead" in [v.name for v in views(coach)]
    assert "overhead" not in [v.name for v in views(coach, frozenset({"linen"}))]
    assert "overhead" in [v.name for v in views(coach, frozenset({"galley_overhead"}))]


def test_street_and_curb_follow_the_traffic():
    # Facing forward the left is the street side where traffic keeps right, the curb side where it keeps left.
    right, left = demo("class-a-three-slides"), demo("van")
    assert (right.street_is_left, left.street_is_left) == (True, False)
    on_left = Box(1000, 1100, 60, 160, 0, 500)
    for coach, name, other in ((right, "street", "curb"), (left, "curb", "street")):
        assert shows(coach, view(coach, name), on_left)
        assert not shows(coach, view(coach, other), on_left)


def test_a_moving_part_is_drawn_in_both_positions_within_the_view():
    # All of a slide's travel lies inside the cabin plan.
    coach = demo("class-a-three-slides")
    plan = view(coach, "cabin")
    for part in coach.moving_parts.values():
        for box in (part.drawn, part.moved):
            assert plan.low <= box.y0
            assert box.y1 <= plan.high
