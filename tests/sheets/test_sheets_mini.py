import pytest
from sheet_samples import demo

from answered import JOBS, answers, coach_of
from drawcord.sheets.candidates_sheet import candidates_sheets
from drawcord.sheets.mini import small_views, stretch_x
from drawcord.sheets.views import span_x


@pytest.mark.parametrize("job", JOBS)
def test_a_small_picture_shows_the_whole_route(job):
    # Cut to the stretch that a route uses, no point of it may lie outside.
    for _, answer in answers(job):
        for candidate in answer.candidates:
            low, high = stretch_x(coach_of(job), candidate.route)
            plan, section = small_views(coach_of(job), candidate.route)
            for leg in candidate.route.legs:
                for x, y, z in leg.points:
                    assert low <= x <= high
                    assert plan.low <= y <= plan.high
                    assert section.low <= z <= section.high


@pytest.mark.parametrize("least", range(0, 20_000, 777))
def test_as_much_of_the_vehicle_is_shown_as_asked_for(route, least):
    coach = demo("class-a-three-slides", "job-mid-roof")
    first, last = span_x(coach)
    low, high = stretch_x(coach, route, least)
    assert first <= low < high <= last
    assert high - low >= min(least, last - first) - 1


def test_the_sheet_of_candidates_has_a_key_and_distances(coach, answer):
    # Signs without their meaning, and a piece of a coach without where it lies, say little.
    page = next(ax for ax in candidates_sheets(coach, answer)[0].axes if ax.get_label() == "page")
    said = {text.get_text() for text in page.texts}
    assert {"start", "end", "hole through the roof", "hole inside", "joint", "cabinet", "bay", "6 m"} <= said
