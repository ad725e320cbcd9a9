"""The load for several jobs: what is cut from what, who competes, what is bought or missing, and that it is proved."""

import re
from functools import cache

import pytest

import answered
import sketch
from drawcord.coach.kinds import NATURE
from drawcord.coach.van import Van
from drawcord.files.home import shared
from drawcord.files.load import load_shop
from drawcord.files.stock import load_van
from drawcord.files.tables import conductors
from drawcord.load.bring import bring, loaded
from drawcord.load.carried import MARK
from drawcord.load.cases import job_cases
from drawcord.load.gear import gear
from drawcord.load.jointed import jointed
from drawcord.load.sure import sure
from drawcord.plan.card import card
from drawcord.routes.order import Order
from drawcord.sheets.load_spoken import load_text
from drawcord.ways.ways import explore
from drawcord.words.finding import Severity
from planned import plan

WEEK = (
    "class-a-three-slides/job-mid-roof",
    "fifth-wheel/job-front-bay",
    "truck-camper/job-rear-junction",
    "van/job-garage",
)


@cache
def shop_van():
    return load_van(None, load_shop()[0].types)[0]


@cache
def week():
    return bring([plan(job) for job in WEEK], shop_van())


def reels(**lengths):
    """A van with these reels [mm] of PV cable 8 AWG, those whose name begins with `store` still in the store."""
    kinds = {"reels": {}, "store": {}}
    for name, length in lengths.items():
        one = {"type": "pv-8-awg", "length": length}
        if name.startswith("store"):
            kinds["store"][name] = {**one, "price": 50}
        else:
            kinds["reels"][name] = one
    return sketch.model(Van, {"format": 1, "units": "mm", "keep": 500, **kinds})


def test_the_week_of_the_four_demo_jobs_is_proved_smallest():
    # Every cable of every job is served; nothing is refused, nothing missing, and no better load is possible.
    load = week()
    assert load.enough
    assert load.proved
    assert load.gaps == load.short == ()
    cables = {(plan(job).coach.job.job, name) for job in WEEK for name in plan(job).coach.job.cables}
    assert {(one.run.job, one.run.cable) for one in load.pieces} == cables


def test_a_load_speaks_in_one_unit():
    # Jobs in inches, centimetres and millimetres: one printed load is in metres; that of a single job in its own unit.
    text = load_text(week())
    assert re.search(r"\d m\b", text)
    assert re.findall(r"\d ?(?:cm|\")", text) == []
    assert {one.run.units for one in week().pieces} == {"m"}
    for job, unit in ((WEEK[0], "mm"), (WEEK[1], "in"), (WEEK[3], "cm")):
        assert bring([plan(job)], shop_van()).units == unit


def test_the_demo_van_lacks_little_of_what_the_week_bores():
    # A shop that has fitted glands for years owns their saws; something is left to buy, so that a reader sees that too.
    tools = gear([plan(job) for job in WEEK], week(), shop_van()).tools
    lacking = [one for one in tools if not one.bit]
    assert 1 <= len(lacking) <= 2 < len(tools)


def test_every_cut_of_the_week_comes_from_stock_of_its_type_that_is_long_enough():
    # Counted again from the stock file: no millimetre is cut twice, and each core of each run has its cuts.
    load, van = week(), shop_van()
    known = {name: one for _, name, one in van.cables}
    own = [one.stock for one in load.cuts if not one.bought]
    assert len(own) == len(set(own))
    for one in load.cuts:
        assert (one.type, one.length) == (known[one.stock].type, known[one.stock].length)
        assert one.left == one.length - sum(cut.length for cut in one.cuts) >= 0
        assert one.kept == (one.left >= van.keep)
        assert one.bought == (one.stock in van.store)
    cut = sorted((source.type, cut.run, cut.length) for source in load.cuts for cut in source.cuts)
    assert cut == sorted((one.run.type, one.run.name, length) for one in load.pieces for length in one.cuts)
    for name, number in load.carry:
        assert number <= known[name].count
    assert load.cost == sum(van.store[name].price * number for name, number in load.bought)


@pytest.mark.parametrize("job", answered.JOBS)
def test_pieces_cover_each_run_and_each_joint_is_within_an_arm_of_its_opening(job):
    # The joint's point in the coach, not its place along the cable: what a hand on site has to reach.
    load = bring([plan(job)], shop_van())
    coach = plan(job).coach
    for one in load.pieces:
        assert one.run.length == plan(job).chosen[one.run.cable].route.cut_length[2]
        assert sum(laid.end - laid.start for laid in one.laid) == one.run.length
        assert len(one.joints) == len(one.laid) - 1 + len(one.run.given)
        for joint in one.joints:
            space = coach.spaces[joint.space]
            if joint in [given for given, _ in one.run.given]:
                continue
            assert not NATURE[space.kind].hidden
            assert space.kind != "roof"
            if space.kind != "room":
                box = coach.openings[joint.opening].box
                apart = [max(box.span(a)[0] - joint.point[a], 0, joint.point[a] - box.span(a)[1]) for a in (0, 1, 2)]
                assert sum(d * d for d in apart) <= (coach.shop.clearances.arm + 2) ** 2  # a point in whole mm


@pytest.mark.parametrize("job", WEEK)
def test_a_device_that_cuts_its_cable_makes_the_cut_longer_whether_the_job_places_it_or_the_plan(job):
    # The core is cut there and made up twice, with 400 mm at the most an end; one at the cable's very end cuts nothing.
    length = {one.run.cable: one.run.length for one in bring([plan(job)], shop_van()).pieces}
    for one in plan(job).circuits.circuits:
        inside = [each for each in one.placed if each.at.along]
        value = {figure.name: figure.value for figure in one.candidate.route.figures}
        assert value["make-up at devices, high"] == 2 * 400 * len(inside)
        lines = ("measured length", "measuring error", "make-up", "drip loop", "service loop", "slack")
        assert length[one.cable] == sum(v for name, v in value.items() if name.startswith(lines) and "high" in name)


def test_the_picture_of_a_route_marks_the_joints_of_its_pieces():
    # The joints that a plan counts stand for a longest piece; those on the sheet for what is in the van.
    load = bring([plan(WEEK[1])], shop_van())
    chosen = jointed(plan(WEEK[1]), load, shop_van()).chosen
    for one in load.pieces:
        assert chosen[one.run.cable].route.joints == one.joints
    assert any(one.joints for one in load.pieces)
    assert chosen["pv"].route.legs == plan(WEEK[1]).chosen["pv"].route.legs


def test_two_jobs_that_want_the_same_reel_are_told_who_gets_it():
    # 18 m do for either PV cable of two cores, 8.7 m or 6.8 m long; not for both.
    jobs = [plan(WEEK[1]), plan(WEEK[2])]
    load = bring(jobs, reels(reel=18_000, store_reel=50_000))
    (said,) = [one for one in load.findings if one.place == "reel"]
    assert "fifth-wheel-front-bay and truck-camper-rear-junction each want it" in said.sentence
    gets = {cut.run for one in load.cuts if one.stock == "reel" for cut in one.cuts}
    assert all(run in said.sentence for run in gets)
    assert load.bought == (("store_reel", 1),)
    enough = bring(jobs, reels(reel=40_000))
    assert [one for one in enough.findings if one.place == "reel"] == []


def test_a_reel_that_has_to_be_bought_anyway_saves_a_joint():
    # By itself the van gives each core 7 m, and 8.7 m would be joined; with the 30 m for the other job it is not.
    stock = reels(reel=14_000, off_cut=4200, store_reel=30_000)
    alone = bring([plan(WEEK[1])], stock)
    assert [len(one.laid) for one in alone.pieces if one.run.cable == "pv"] == [2]
    assert alone.bought == ()
    both = bring([plan(WEEK[1]), plan(WEEK[2])], stock)
    assert [len(one.laid) for one in both.pieces if one.run.cable == "pv"] == [1, 1]
    assert both.bought == (("store_reel", 1),)


def test_stock_that_serves_neither_is_named_with_what_is_missing():
    # One reel of two that would be needed, and no store: the cuts without cable are refused with their lengths.
    load = bring([plan(WEEK[1]), plan(WEEK[2])], reels(reel=18_000))
    assert not load.enough
    assert load.short
    for cut in load.short:
        said = [one for one in load.findings if one.place == cut.run and one.severity is Severity.REFUSAL]
        assert any("neither van nor store" in one.sentence for one in said)


def test_the_order_of_the_jobs_changes_nothing_but_the_order_of_their_cables():
    # The same reels, the same cuts, the same to buy.
    other = bring([plan(job) for job in reversed(WEEK)], shop_van())
    assert {(one.stock, one.left) for one in other.cuts} == {(one.stock, one.left) for one in week().cuts}
    assert (other.carry, other.bought, other.findings) == (week().carry, week().bought, week().findings)


def test_a_load_that_is_sure_carries_all_its_stock_and_buys_all_its_reels():
    # What no plan cuts from is carried all the same, for what may turn out, and told as such.
    planned = plan(WEEK[3])
    ways = explore(planned.coach)
    jobs = [job_cases(planned, card(planned, [Order(ways, name, conductors()) for name in planned.coach.job.cables]))]
    for wanted in (0.5, 0.75):
        found = sure(jobs, shop_van(), wanted)
        load = loaded([planned], shop_van(), found)
        assert load.enough
        assert load.cost == found.price
        assert sorted(name for name, count in load.bought for _ in range(count)) == sorted(found.bought)
        own = {*found.carried.reels, *found.carried.off_cuts}
        assert {one.stock for one in load.cuts if not one.bought} == {name for name in own if MARK not in name}
        assert load.carry == tuple((name, one.count) for name, one in sorted(found.carried.leads.items()))
        cut = sorted((source.type, cut.run, cut.length) for source in load.cuts for cut in source.cuts)
        assert cut == sorted((one.run.type, one.run.name, length) for one in load.pieces for length in one.cuts)
    assert load.bought == (("store-dc-25-mm2", 1), ("store-dc-70-mm2", 1))


def test_the_stock_of_the_shop_comes_with_every_kind_of_cable():
    # What the demo needs is in the file that people are told to edit.
    held = {kind for kind, _, _ in shop_van().cables}
    assert held == {"leads", "extensions", "reels", "off cuts", "store"}
    assert (shared() / "stock.yaml").is_file()
