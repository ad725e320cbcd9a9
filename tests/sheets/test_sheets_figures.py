"""The candidates' figures as bars: legible, to scale from zero, the choice and the best of each column marked."""

from dataclasses import replace
from functools import cache

import pytest
from test_sheets_layout import boxes, check_all

from answered import JOBS
from drawcord.sheets.bars import MEASURES
from drawcord.sheets.figures_sheet import figures_sheets
from drawcord.sheets.render import to_svg
from planned import plan


@cache
def sheets(job):
    """The sheets of a demo job, drawn once."""
    return figures_sheets(plan(job), plan(job).coach.units)


def drawn(job, kind):
    """The artists of a kind by what they belong to: a column and a candidate for `bar` and `best`."""
    found = {}
    for figure in sheets(job):
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
def test_they_are_legible(job):
    check_all(sheets(job))


@pytest.mark.parametrize("job", JOBS)
def test_bars_are_to_the_scale_of_their_column_from_zero(job):
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
def test_the_choice_is_framed_and_named(job):
    whole = plan(job)
    assert set(drawn(job, "choice")) == {one.id for one in whole.chosen.values()}
    texts = [text for figure in sheets(job) for text, _ in boxes(figure)[0]]
    assert sum(text.startswith("CHOSEN") for text in texts) == len(whole.chosen)
    assert {one.id for answer in whole.answers for one in answer.candidates} <= set(texts)


@pytest.mark.parametrize("job", JOBS)
def test_the_best_of_each_column_are_starred(job):
    # None where all are alike: a star would say nothing.
    wanted = set()
    for answer in plan(job).answers:
        by = {candidate.id: values(candidate) for candidate in answer.candidates}
        for measure in (measure.name for measure in MEASURES):
            column = {name: value[measure] for name, value in by.items() if value[measure] is not None}
            if column and min(column.values()) < max(column.values()):
                wanted |= {f"{measure}-{name}" for name, value in column.items() if value == min(column.values())}
    assert set(drawn(job, "best")) == wanted


def test_a_cable_with_more_candidates_than_a_sheet_holds_goes_on():
    whole = plan("van/job-open-cabin")
    answer = whole.answers[0]
    many = tuple(replace(answer.candidates[0], id=f"{answer.cable}-{number}") for number in range(90))
    pages = figures_sheets(replace(whole, answers=(replace(answer, candidates=many),)))
    check_all(pages)
    texts = [text for figure in pages for text, _ in boxes(figure)[0]]
    assert {one.id for one in many} <= set(texts)


def test_the_same_plan_gives_the_same_bytes():
    one, other = ([to_svg(figure) for figure in figures_sheets(plan("van/job-open-cabin"), "m")] for _ in range(2))
    assert one == other
