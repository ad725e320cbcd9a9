"""Parts against a slow recount leg by leg, published sizes and spacings, and longer routes."""

import csv
import re
from collections import Counter
from dataclasses import dataclass, replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import sketch
from drawcord.app.needed import needed
from drawcord.coach.van import Van
from drawcord.files.home import shared
from drawcord.files.load import load_shop
from drawcord.files.tables import conductors
from drawcord.load.against_van import against, correction, costs, work
from drawcord.load.bits import found as bits_found
from drawcord.load.bring import bring
from drawcord.load.holes import register
from drawcord.load.needs import merged
from drawcord.load.parts import clips, parts
from drawcord.load.tools import ToolNeed, tools
from drawcord.plan.abreast import Abreast
from drawcord.routes.order import Order
from drawcord.sheets.holes import from_edges
from drawcord.ways.ways import explore
from drawcord.wire.glands import GLANDS, gland_for
from planned import plan as plan_of

JOBS = ("van/job-garage", "truck-camper/job-rear-junction")


@pytest.fixture(scope="module", params=JOBS)
def planned(request):
    plan = plan_of(request.param)
    return plan, plan.coach.shop.parts


def test_gland_threads_have_the_published_clearance_holes():
    # EN 60423, seen in check-values section 6: M12 12.5, M16 16.5, M20 20.5, M25 25.5, M32 32.5, M40 40.5.
    published = {"M12": 12.5, "M16": 16.5, "M20": 20.5, "M25": 25.5, "M32": 32.5, "M40": 40.5}
    assert dict(GLANDS) == published


# A hole bored at the lower end of its tolerance, 0.4 mm less, still has to pass the plug.
@pytest.mark.parametrize(
    ("plug", "thread"), [(12.1, "M12"), (12.2, "M16"), (16.2, "M20"), (22, "M25"), (40.1, "M40"), (40.2, None)]
)
def test_a_gland_hole_passes_the_plug_even_at_the_lower_end_of_its_tolerance(plug, thread):
    found = gland_for(plug)
    assert (found and found.thread) == thread


def test_a_gland_passes_the_cores_that_it_holds_not_only_the_hole_its_plug():
    # Two cores of 15 mm lie 30 mm wide: an M32 thread's hole would pass them, its body of 32 mm less walls would not.
    assert gland_for(30, 30, 2).thread == "M40"
    assert gland_for(30, 0, 2).thread == "M32"
    assert gland_for(30, 36, 2) is None


def test_the_shops_spacings_are_the_published_ones():
    # NEC 690.31 and AC 43.13-1B: 24 in, as 46 CFR 183.340's 610 mm; ABYC E-11: 18 in, battery cable exempt for 36 in.
    rules = load_shop(shared())[0].parts
    assert {kind: one.every for kind, one in rules.clips.items()} == {
        "PV": 610,
        "battery DC": 457,
        "mains": 457,
        "data": 610,
        "coax": 610,
    }
    assert rules.thick_pv.every == 457
    assert rules.free_of_battery == 914


@given(st.integers(1, 30_000), st.integers(0, 5000), st.integers(50, 2000))
def test_clips_are_never_too_far_apart_nor_one_too_many_nor_fewer_on_a_longer_run(length, more, every):
    count = clips(length, every)
    assert length / (count - 1) <= every
    assert count == 2 or length / (count - 2) > every
    assert clips(length + more, every) >= count


def device(job, end):
    return job.equipment[end.split(".")[0]].kind


def counted(plan):
    """Everything counted by walking along each cable, one clip, label and end at a time."""
    found = Counter()
    job = plan.coach.job
    for name, taken in plan.chosen.items():
        cable = job.cables[name]
        last = len(taken.route.legs) - 1
        for number, leg in enumerate(taken.route.legs):
            found["label"] += 2  # where it comes into sight of a space, or starts, and where it leaves or ends
            kind = plan.coach.spaces[leg.space].kind
            start, end = 0, leg.length - leg.through_length
            if cable.carries == "battery DC":
                start += 914 if number == 0 and device(job, cable.start) == "battery" else 0
                end -= 914 if number == last and device(job, cable.end) == "battery" else 0
            if kind in ("room", "chase", "vent stack", "panel wall", "void", "gas locker") or end <= start:
                continue
            section = plan.coach.types.cables[cable.type].section if cable.type else None
            thick = cable.carries == "PV" and section in ("6 AWG", "4 AWG", "10 mm2", "16 mm2", "25 mm2")
            step = 457 if thick or cable.carries in ("battery DC", "mains") else 610
            part = "roof-clip" if kind == "roof" else "clip"
            at = start
            found[part] += 1
            while at < end:
                at = min(end, at + step)
                found[part] += 1
    found["holes"] = len(plan.together.holes)  # the joint plan lists every bore once
    found["sealed"] = sum(hole.kind == "roof" for hole in plan.together.holes)
    return found


def test_a_slow_recount_finds_the_same(planned):
    plan, rules = planned
    slow = counted(plan)
    needs = {need.id: need for need in parts(plan, rules)}
    for part in ("label", "clip", "roof-clip"):
        assert (needs[part].count if part in needs else 0) == slow[part], part
    fitted = [need for need in needs.values() if need.kind in ("roof entry", "gland", "grommet")]
    assert sum(need.count for need in fitted) == slow["holes"]
    assert sum(need.count for need in fitted if need.kind == "roof entry") == slow["sealed"]


def test_every_core_end_is_made_up_once_and_every_opened_pole_twice(planned):
    plan, rules = planned
    expected = 0
    for name, taken in plan.chosen.items():
        cable = plan.coach.job.cables[name]
        if cable.carries in ("PV", "battery DC", "mains"):
            joined = 2 if cable.carries == "PV" else 1  # a pair of connectors, or one splice
            expected += cable.cores * (2 + joined * len(taken.route.joints))
    for one in plan.circuits.circuits:
        if one.device:
            expected += 2 * min(one.device.poles, plan.coach.job.cables[one.cable].cores)
    expected += 2 * 3 if plan.circuits.bonds else 0
    made = ("ferrule", "lug", "PV connector", "splice")
    assert sum(need.count for need in parts(plan, rules) if need.kind in made) == expected


def test_every_need_says_why_and_on_whose_word(planned):
    plan, rules = planned
    for need in parts(plan, rules):
        assert need.count > 0
        assert need.why
        assert need.source


def test_a_longer_leg_never_needs_less(planned):
    plan, rules = planned
    before = {need.id: need.count for need in parts(plan, rules)}
    for name, taken in plan.chosen.items():
        longer = tuple(replace(leg, length=leg.length + 700) for leg in taken.route.legs)
        moved = replace(taken, route=replace(taken.route, legs=longer))
        after = {need.id: need.count for need in parts(replace(plan, chosen={**plan.chosen, name: moved}), rules)}
        assert all(after.get(part, 0) >= count for part, count in before.items())


def test_every_hole_has_a_tool_and_passes_its_plug(planned):
    plan, rules = planned
    holes = register(plan, rules)
    # Each hole of each route once, a shared bore by its name in the joint plan; and cables share holes in both jobs.
    own = sorted(one for hole in holes for one in hole.own)
    assert own == sorted((n, h.id) for n, t in plan.chosen.items() for h in t.route.holes)
    assert {hole.id: hole.cables for hole in holes} == {hole.id: hole.cables for hole in plan.together.holes}
    assert any(len(hole.cables) > 1 for hole in holes)
    for hole in holes:
        assert hole.bore >= hole.hole.diameter
        assert hole.seal
        assert hole.consent
        fits = [one for one in tools(holes, rules) if one.diameter == hole.bore and hole.id in one.holes]
        assert len(fits) == 1
        assert (fits[0].kind == "drill bit") == (hole.bore <= rules.largest_bit)


def test_the_owner_is_asked_for_what_goes_through_roof_or_shell_and_for_what_shows(planned):
    # Our own rule, in README's words; the page to sign (the route's consents) and the register follow the same one.
    plan, rules = planned
    agreed = "raceway in sight" in plan.coach.job.owner.consents
    signed = {}
    for name, taken in plan.chosen.items():
        for consent in taken.route.consents:
            signed |= {(name, hole): consent for hole in re.findall(r"H\d+", consent)}
    for entry in register(plan, rules):
        spaces = [plan.coach.spaces[name] for name in entry.hole.between]
        kinds, zones = {space.kind for space in spaces}, {space.zone for space in spaces}
        if "roof" in kinds:
            why = "through the roof"
        elif len(zones) > 1:
            why = "through the shell"
        else:
            why = "in sight" if "room" in kinds and not agreed else ""
        assert entry.consent.startswith(f"owner to sign: {why}") == bool(why)
        for one in entry.own:
            assert (one in signed) == bool(why)
            assert not why or why in signed[one]
    assert signed


def test_what_nobody_has_looked_into_is_said_at_its_hole(planned):
    plan, rules = planned
    for entry in register(plan, rules):
        unseen = [name for name in entry.hole.between if plan.coach.spaces[name].standing != "proven"]
        assert all(any(name in said for said in entry.behind) for name in unseen)


def test_what_the_van_carries_is_not_bought_and_what_it_lacks_is(planned):
    plan, rules = planned
    needs = parts(plan, rules)
    first = needs[0]
    lines = against(needs, {first.id: first.count - 1, "no-such-part": 5, needs[1].id: 10_000}, rules)
    assert (lines[0].carry, lines[0].buy) == (first.count - 1, 1)
    assert (lines[1].carry, lines[1].buy) == (needs[1].count, 0)
    assert all(line.carry == 0 for line in lines[2:])


def test_work_is_corrected_by_the_shops_own_jobs_with_their_number_in_the_working(planned):
    # Four jobs that took a quarter longer: the routes' minutes times 1.25, and the price of an hour follows.
    plan, rules = planned
    past = replace(plan.coach.shop.history, work_jobs=4, work_ratio=1.25)
    longer = replace(plan, coach=replace(plan.coach, shop=replace(plan.coach.shop, history=past)))
    (plain, _, now, paid) = (*_costs(plan, rules), *_costs(longer, rules))
    assert now.value == pytest.approx(plain.value + work(plan) / 240, abs=0.11)
    assert "4 jobs on this rig took 1.250 ×" in now.formula
    assert paid.value == pytest.approx(now.value / 60 * rules.hour, abs=0.1)
    assert "jobs" not in plain.formula


def _costs(plan, rules):
    """The figures of work and its cost, as `drawcord plan` writes them."""
    lines = against(parts(plan, rules), {}, rules)
    found = {one.name: one for one in costs(lines, work(plan), rules, [correction(plan)])}
    return found["work"], found["cost of work"]


def test_a_second_trip_costs_its_time_and_the_way():
    rules = load_shop(shared())[0].parts.model_copy(update={"hour": 60.0, "trip": 5400, "trip_price": 25.0})
    found = {one.name: one.value for one in costs((), 3600, rules)}
    # An hour and a half at 60 an hour, and 25 besides; an hour of work.
    assert found == {"parts": 0, "work": 60, "cost of work": 60, "cost of a second trip": 115}


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("bead: 6 mm", "bead: -6 mm", "more than nothing"),
        ("hour: 90", "hour: -1", "hour"),
        ("  label: {price: 0.5, minutes: 1 min}\n", "", "the table lacks label"),
        ("spare: 10 %", "spares: 10 %", "spare"),
    ],
)
def test_bad_rules_are_refused_where_they_stand(tmp_path: Path, old, new, said):
    from drawcord.words.faults import BadInput  # noqa: PLC0415 - only here

    for file in shared().glob("*.yaml"):
        (tmp_path / file.name).write_bytes(file.read_bytes())
    text = (tmp_path / "parts.yaml").read_text("utf-8")
    assert old in text
    (tmp_path / "parts.yaml").write_text(text.replace(old, new), "utf-8")
    with pytest.raises(BadInput) as caught:
        load_shop(tmp_path)
    assert any(said in one.sentence and one.file.endswith("parts.yaml") for one in caught.value.problems)


@dataclass(frozen=True)
class Bit:
    diameter: float
    shank: str
    across: int


@dataclass(frozen=True)
class Chuck:
    takes: tuple[str, ...]
    widest: int


# An M25 gland's hole is 25.5 mm, +0.2/-0.4 (EN 60423).
M25 = ToolNeed("hole saw", 25.5, 25.1, 25.7, 11, ("pv H1",), "")


@pytest.mark.parametrize(
    ("bits", "chucks", "answer"),
    [
        ({"saw-25": Bit(25.0, "hex", 10)}, {"drill": Chuck(("hex",), 13)}, ("", "", "no bit from 25.1 to 25.7 mm")),
        ({"saw": Bit(25.4, "hex", 10)}, {"drill": Chuck(("hex",), 13)}, ("saw", "drill", "")),
        ({"saw": Bit(25.4, "hex", 10)}, {"driver": Chuck(("hex",), 7)}, ("", "", "no chuck takes the shank of saw")),
        ({"saw": Bit(25.4, "hex", 7)}, {"driver": Chuck(("round",), 7)}, ("", "", "no chuck takes the shank of saw")),
        # The thinner of two is no use where only the thicker one fits a chuck.
        (
            {"a": Bit(25.2, "slotted", 10), "b": Bit(25.7, "round", 13)},
            {"drill": Chuck(("round", "hex"), 13)},
            ("b", "drill", ""),
        ),
        ({}, {}, ("", "", "no bit from 25.1 to 25.7 mm")),
    ],
)
def test_a_bit_has_to_make_the_hole_and_to_fit_a_chuck(bits, chucks, answer):
    (found,) = bits_found([M25], bits, chucks)
    assert (found.bit, found.chuck, found.lacking) == answer


def test_a_hole_bored_with_any_bit_that_serves_passes_its_plug(planned):
    plan, rules = planned
    planned_mm = {hole.id: hole.hole.diameter for hole in register(plan, rules)}
    for need in tools(register(plan, rules), rules):
        if need.why != "pilot hole before each saw":
            assert all(need.least >= planned_mm[name] for name in need.holes)


def test_the_files_hold_every_hole_and_part_and_a_shop_without_rules_gets_none(planned):
    plan, rules = planned
    files = needed(plan)
    assert sorted(files) == ["cost.csv", "holes.csv", "parts.csv", "tools.csv"]
    rows = {name: list(csv.DictReader(data.decode().splitlines())) for name, data in files.items()}
    assert [row["hole"] for row in rows["holes.csv"]] == [hole.id for hole in register(plan, rules)]
    assert [(row["part"], int(row["count"])) for row in rows["parts.csv"]] == [
        (need.id, need.count) for need in parts(plan, rules)
    ]
    bare = replace(plan.coach, shop=replace(plan.coach.shop, parts=None))
    assert needed(replace(plan, coach=bare)) == {}


def test_both_faces_are_measured_from_two_edges(planned):
    # By hand: the distances told of a face, taken from the named faces of its space, lead back to the bore's middle.
    plan, rules = planned
    for entry in register(plan, rules):
        for name, point, face in zip(entry.hole.between, (entry.hole.near, entry.hole.far), (0, 1), strict=True):
            space = plan.coach.spaces[name]
            if space.kind == "roof":
                continue
            said = from_edges(plan.coach, entry.hole, face, None)
            assert said.startswith(f"{name}: ")
            edges = said.removeprefix(f"{name}: ").split(", ")
            assert len(edges) == 2
            street, curb = ("y0", "y1") if plan.coach.street_is_left else ("y1", "y0")
            where = {"forward": "x0", "aft": "x1", "street": street, "curb": curb, "lower": "z0", "upper": "z1"}
            for edge in edges:
                far, word = edge.split()
                side = where[word]
                assert abs(point["xyz".index(side[0])] - getattr(space.box, side)) == int(far)


def raceways(*runs):
    """The raceway parts of the van's job whose cables run so in the cabin, in turn; each starts in the room."""
    plan = plan_of("van/job-garage")
    taken = plan.chosen["pv"]
    leg = next(one for one in taken.route.legs if one.space == "cabin")
    names = ("coax", "link", "pv")
    chosen = {
        name: replace(taken, route=replace(taken.route, legs=(replace(leg, points=points, through_length=0),)))
        for name, points in zip(names, runs, strict=False)
    }
    rules = plan.coach.shop.parts.model_copy(update={"spare": 0.0, "raceway_piece": 10, "raceway_screws": 10_000})
    needs = {need.id: need.count for need in parts(replace(plan, chosen=chosen, circuits=None), rules)}
    return needs["raceway"] * 10, needs["raceway-corner"], needs["raceway-end"]


def test_raceway_that_cables_share_is_put_up_once():
    # Down a wall and along it; the second the same way, the third on from the corner, branching off. By hand.
    wall = ((0, 0, 1000), (0, 0, 200), (600, 0, 200))
    assert raceways(wall) == (1400, 1, 2)
    assert raceways(wall, wall[::-1]) == (1400, 1, 2)
    further = ((600, 0, 200), (0, 0, 200), (0, 0, 100), (300, 0, 100))
    assert raceways(wall, further) == (1800, 2, 3)


def test_what_cables_share_is_done_once(planned):
    # The time of all work, against each hole and opened space counted once along the measured routes.
    plan, _ = planned
    orders = [Order(explore(plan.coach), name, conductors()) for name in plan.chosen]
    assert work(plan) == Abreast(orders, [one.route for one in plan.chosen.values()]).seconds()


def test_ends_that_come_fitted_are_not_made_up_again():
    # A lead of 3 m and a cut, or two cuts, for the van's two cores of PV: a connector a core less at the joint, and the
    # terminal's ferrule all the same.
    plan = plan_of("van/job-garage")
    cut = plan.chosen["pv"].route.cut_length[2]

    def connectors(stock):
        van = sketch.model(Van, {"format": 1, "units": "mm", "keep": 0, **stock})
        mine = [one for one in bring([plan], van).pieces if one.run.cable == "pv"]
        assert all(len(one.laid) == 2 for one in mine)
        needs = {need.id: need.count for need in parts(plan, plan.coach.shop.parts, mine)}
        return needs["pv-connector-6-mm2"], needs["ferrule-6-mm2"]

    six = {"type": "pv-6-mm2"}
    leads = {"leads": {"lead": {**six, "length": 3000, "count": 2}}, "reels": {"reel": {**six, "length": 2 * cut - 1}}}
    cuts = {"reels": {f"reel-{n}": {**six, "length": 4000} for n in range(4)}}
    fitted, bare = connectors(leads), connectors(cuts)
    assert bare == (4, fitted[1])
    assert fitted[0] == 2


def test_a_week_needs_the_sum_of_its_jobs_whatever_is_alike(planned):
    plan, rules = planned
    one = parts(plan, rules)
    week = merged({"monday": one, "tuesday": one[1:]})
    assert [need.id for need in week] == [need.id for need in one]
    assert week[0] == one[0]
    assert [need.count for need in week[1:]] == [2 * need.count for need in one[1:]]
    assert "monday" in week[1].why and "tuesday" in week[1].why  # noqa: PT018 - one thought


def test_the_shops_cables_bend_no_tighter_than_published():
    # PV cable 4 x its outside diameter where fixed (datasheets after EN 50618 / IEC 62930, seen); sheathed cable in
    # recreational vehicles 5 x (NEC 551.47, 334.24, seen; for sizes in AWG).
    for name, kind in load_shop(shared())[0].types.cables.items():
        american = (kind.section or "").endswith("AWG")
        times = 4 if "PV" in kind.serves else 5 if "mains" in kind.serves and american else 0
        assert kind.smallest_bend >= times * kind.outside_diameter, name
