"""The pieces of real runs, joints where a hand reaches them, against trying everything; who gets fitted pieces."""

from collections import Counter
from dataclasses import replace
from functools import cache
from itertools import count, product
from math import ceil, floor
from random import Random
from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import sketch
from drawcord.coach.build import build
from drawcord.coach.catalogue import Types
from drawcord.coach.job import Job
from drawcord.coach.kinds import NATURE
from drawcord.coach.rig import Rig
from drawcord.coach.van import Van
from drawcord.files.tables import conductors
from drawcord.load.at_hand import at_hand
from drawcord.load.cutting import cutting
from drawcord.load.pieces import pieces_of
from drawcord.load.runs import _on_roof, runs
from drawcord.load.share import Wanted, fitted, share
from drawcord.load.stock import Stock
from drawcord.pieces.choose import Piece, layings, shortest_to_buy
from drawcord.plan.plan import Plan
from drawcord.routes.allowance import ways_in
from drawcord.routes.compare import compare
from drawcord.routes.order import Order
from drawcord.ways.ways import explore
from drawcord.words.finding import Severity
from random_coaches import random_coach

TYPE = {
    "name": "A cable",
    "serves": ["PV", "data"],
    "insulation": "90 °C",
    "outside diameter": 6,
    "smallest bend": 30,
    "sunlight resistant": True,
    "zones": ["sun", "indoors"],
}
HUGE = 1 << 50


def van(**held):
    """A van that carries this of one type of cable: `leads=[(length, count, price)]`, `reels=[length]` and so on."""
    numbers = count(1)
    kinds = {
        "leads": lambda one: {"length": one[0], "count": one[1], "price": one[2]},
        "extensions": lambda one: {"length": one[0], "count": one[1], "price": one[2]},
        "reels": lambda one: {"length": one},
        "off cuts": lambda one: {"length": one},
        "store": lambda one: {"length": one, "price": 30},
    }
    data = {
        kind: {f"{kind[:3]}{next(numbers)}": {"type": "wire", **as_data(one)} for one in held[kind]}
        for kind, as_data in kinds.items()
        if kind in held
    }
    return sketch.model(Van, {"format": 1, "units": "mm", "keep": 500, **data})


def compared(rig, job):
    """A coach that knows one type of cable, and the candidates of each of its cables."""
    types = sketch.model(Types, {"cables": {"wire": TYPE}})
    ways = explore(build(rig, job.model_copy(update={"types": types}), sketch.shop()))
    return ways.coach, [compare(Order(ways, name, conductors())) for name in sorted(job.cables)]


@cache
def random_runs():
    """The runs of hundreds of routes through random coaches, each with its coach."""
    found = []
    for seed in range(50):
        coach, answers = compared(*random_coach(20, seed))
        for answer in answers:
            for candidate in answer.candidates:
                mine, _ = runs(Plan(coach, (answer,), {answer.cable: candidate}))
                found += [(coach, run) for run in mine if run.cable == answer.cable]
    return found


def by_trying_all(length, reachable, pieces):
    """The least (joints, left over, cost in cents) over all orders of pieces and all millimetres; None without."""
    allowed = np.zeros(length + 1, bool)
    for near, far in reachable:
        allowed[max(near, 1) : max(far + 1, 0)] = True
    allowed[length:] = False
    lengths = {(): np.where(np.arange(length + 1) == 0, 0, HUGE)}  # by order of pieces: the least at each millimetre
    for size in range(1, sum(piece.count for piece in pieces) + 1):
        lengths = {
            (*order, piece): _with_another(best, piece)
            for order, best in lengths.items()
            for piece in pieces
            if order.count(piece) < piece.count and not (piece.leads and order)
        }
        if (least := min((best[length] for best in lengths.values()), default=HUGE)) < HUGE:
            return size - 1, *divmod(int(least), 10**6)
        for best in lengths.values():
            best[~allowed] = HUGE
    return None


def _with_another(best, piece):
    """The least left over [mm] · 10⁶ + cost for each millimetre where one more piece can end."""
    slope = 10**6 if piece.fitted else 0  # a millimetre more of a fitted piece is one less left over
    at = np.arange(len(best))
    before = _least_in_window(np.where(best < HUGE, best + slope * at, HUGE), piece.length)
    return np.where(before < HUGE, before + slope * (piece.length - at) + round(100 * piece.cost), HUGE)


def _least_in_window(values, wide):
    """For each place the least of the `wide` values before it."""
    shifted, width = np.concatenate(([HUGE], values[:-1])), 1
    wide = min(wide, len(values))
    while width < wide:
        step = min(width, wide - width)
        shifted = np.minimum(shifted, np.concatenate((np.full(step, HUGE), shifted[:-step])))
        width += step
    return shifted


def test_pieces_of_hundreds_of_random_routes_are_as_good_as_any():
    # A van of every kind of stock for each; the oracle looks at every millimetre and every order of pieces.
    rng = Random(5)  # noqa: S311 - any stock will do
    served = Counter()
    for coach, run in random_runs() * 2:
        some = van(
            leads=[(2000, rng.randint(0, 2), 20)],
            extensions=[(rng.choice([1200, 2500, 3500]), rng.randint(0, 2), 30)],
            reels=[rng.randint(500, 3000)],
            **{"off cuts": [rng.randint(500, 2500)] * rng.randint(0, 1)},
        )
        cores = run.cores if rng.random() < 0.5 else 1
        pieces = at_hand(some, "wire", cores)
        best = by_trying_all(run.length, run.reachable, pieces)
        (found,), proved = pieces_of([replace(run, cores=cores)], some)
        assert proved
        if best is None:
            assert found.laid == ()
            assert [one.severity for one in found.findings] == [Severity.REFUSAL]
            served["not"] += 1
            continue
        cost = sum(round(100 * one.cost) for one in found.laid)
        assert (len(found.laid) - 1, sum(one.left_over for one in found.laid), cost) == best
        served[len(found.laid) - 1] += 1
        for joint in found.joints:
            assert not NATURE[coach.spaces[joint.space].kind].hidden
            assert coach.spaces[joint.space].kind != "roof"
    assert sum(served.values()) > 300, served
    assert min(served["not"], served[0], served[1], served[2]) > 9, served


@settings(deadline=None, max_examples=300)
@given(st.lists(st.integers(1, 30), max_size=4), st.integers(1, 4))
def test_the_longest_cut_for_each_core_is_the_longest_and_all_cuts_can_be_made_at_once(lengths, cores):
    cuts = [piece.length for piece in at_hand(van(reels=lengths), "wire", cores)]
    longest = max((c for c in range(1, 31) if sum(length // c for length in lengths) >= cores), default=0)
    assert max(cuts, default=0) == longest
    stock = [Stock(f"{n}", length) for n, length in enumerate(lengths)]
    assert cutting([cut for cut in cuts for _ in range(cores)], stock, 0).unserved == ()


def best_shared(wanted, counts):
    """The least (runs without, joints, left over, cost) over every way to give each run a laying or none."""
    options = []
    for one in wanted:
        most = sum(piece.count for piece in one.pieces)
        all_of_it = [laid for joints in range(most) for laid in layings(joints, one.length, one.reachable, one.pieces)]
        options.append([*all_of_it, None])
    found = []
    for choice in product(*options):
        used = Counter()
        for one, laid in zip(wanted, choice, strict=True):
            used += fitted(laid, one.cores) if laid else Counter()
        if all(number <= counts[name] for name, number in used.items()):
            found.append(aims(wanted, choice))
    return min(found)


def aims(wanted, choice):
    had = [(one.cores, laid) for one, laid in zip(wanted, choice, strict=True) if laid]
    return (
        sum(laid is None for laid in choice),
        sum(cores * (len(laid) - 1) for cores, laid in had),
        sum(cores * sum(one.left_over for one in laid) for cores, laid in had),
        sum(cores * sum(one.cost for one in laid) for cores, laid in had),
    )


@settings(deadline=None, max_examples=60)
@given(
    st.lists(st.tuples(st.integers(5, 16), st.integers(1, 2)), min_size=1, max_size=3),
    st.tuples(st.integers(0, 2), st.integers(0, 3)),
    st.integers(1, 9),
)
def test_sharing_fitted_pieces_is_as_good_as_any_way_of_sharing(asked, counts, reel):
    # At most three pieces to a run here, so that none can have more than two joints beyond its fewest.
    kinds = (("lead", 8, counts[0], True, 3.0), ("extension", 6, counts[1], False, 2.0))
    wanted = []
    for length, cores in asked:
        some = [Piece(n, long, min(1, c // cores), leads=first, cost=k) for n, long, c, first, k in kinds]
        wanted.append(Wanted(length, [(4, 5), (7, 9)], cores, [*some, Piece("cut 1", reel, fitted=False)]))
    stock = {"lead": counts[0], "extension": counts[1]}
    found, proved = share(wanted, stock)
    assert proved
    assert aims(wanted, found) == best_shared(wanted, stock)
    used = Counter()
    for one, laid in zip(wanted, found, strict=True):
        used += fitted(laid, one.cores) if laid else Counter()
    assert all(number <= stock[name] for name, number in used.items())


LOCKER = {"kind": "cabinet", "from front": [1000, 2000], "street": 600, "up": "floor..ceiling", "door": "curb"}
CHASE = {"kind": "chase", "from front": [1000, 1200], "street": 100, "up": "floor..ceiling", "standing": "proven"}
BAY = {"kind": "bay", "from front": [500, 3000], "street": 900}


def run_down(through, **sections):
    """A PV cable of two cores from the roof to a bay that nobody reaches into, down through the given space."""
    rig = sketch.rig_data({"down": through, "bay": BAY}, **sections)
    spot = {"from front": 1500, "street": 300, "terminals": {"pv": None}}
    equipment = {
        "junction": {"kind": "junction box", "in": "roof", **spot},
        "store": {"kind": "charge controller", "in": "bay", "up": -400, **spot},
    }
    cable = {"from": "junction.pv", "to": "store.pv", "class": "PV", "cores": 2, "amperes": "5 A", "volts": "20 V"}
    job = sketch.job_data(equipment, {"pv": cable})
    coach, (answer,) = compared(sketch.model(Rig, rig), sketch.model(Job, job))
    (run,), _ = runs(Plan(coach, (answer,), {"pv": answer.candidates[0]}))
    return coach, run


def test_a_joint_falls_in_the_locker_where_a_hand_reaches_it():
    # A lead that is too short alone, and a cut behind it: they meet as far down as the lead reaches.
    _, run = run_down(LOCKER)
    assert run.cores == 2
    (found,), _ = pieces_of([run], van(leads=[(2000, 2, 20)], reels=[2 * run.length - 2]))
    assert [one.piece.id for one in found.laid] == ["lea1", "cut 1"]
    ((joint, why),) = zip(found.joints, found.reasons, strict=True)
    assert (joint.at, joint.space, joint.opening) == (2000, "down", "down.door")
    assert why == "lea1, 2000 mm long, ends here, within reach"
    assert found.cuts == (run.length - 2000,) * 2


def test_a_chase_with_a_panel_holds_no_joint_and_the_hidden_one_is_refused():
    # A hand gets in through the panel once, and then it is closed for good: joints stay out of hidden spaces.
    panel = {"into": "down", "kind": "removable panel", "face": "curb"}
    _, run = run_down(CHASE, access={"panel": panel})
    assert run.reachable == []
    short = van(leads=[(2000, 2, 20)], extensions=[(2500, 4, 30)], store=[20_000])
    (found,), _ = pieces_of([run], short)
    (said,) = found.findings
    assert said.severity is Severity.REFUSAL
    assert "hidden joint" in said.sentence
    least = shortest_to_buy(run.length, [], at_hand(short, "wire", 2))
    assert least == run.length
    assert f"2 × {run.length} mm of wire" in said.sentence
    assert [one.piece.id for one in found.laid] == ["cut"]
    assert found.joints == ()


@pytest.mark.parametrize(("families", "joints"), [(["family-a", "none"], 1), (["none", "none"], 0), (None, 0)])
def test_a_connector_on_the_roof_is_a_joint_and_one_within_a_junction_box_is_none(families, joints):
    coach, _ = run_down(LOCKER)
    cable = coach.job.cables["pv"].model_copy(update={"connectors": families and tuple(families)})
    assert len(_on_roof(coach, cable, "wire", {0: True, 5000: True})) == joints


def test_where_the_circuit_joins_two_types_each_is_a_run_of_its_own():
    # No type may run all the way, so the plan joins two in the locker; the cuts of both make up the whole cable.
    coach, whole = run_down(LOCKER)
    candidate = compare(Order(explore(coach), "pv", conductors())).candidates[0]
    at = next(one.joint(one.near) for one in whole.ways_in)
    parts = [SimpleNamespace(tried=SimpleNamespace(type_id="wire"), joint=joint) for joint in (None, at)]
    circuits = SimpleNamespace(circuits=[SimpleNamespace(cable="pv", pieces=parts, placed=())])
    found, _ = runs(Plan(coach, (), {"pv": candidate}, circuits))
    assert [(one.begins, one.length) for one in found] == [(0, at.at), (at.at, whole.length - at.at)]
    pieces, _ = pieces_of(found, van(reels=[20_000]))
    assert [one.joints for one in pieces] == [(), (at,)]
    assert [one.length for one in found] == [one.cuts[0] for one in pieces]
    last = found[1].reachable[-1]
    assert (last[0] >= 0, last[1] + at.at) == (True, whole.reachable[-1][1])


def test_a_type_that_is_thicker_or_stiffer_than_planned_is_told():
    # Its gland would clamp another cable, and its bends would be too tight: nobody planned for it.
    coach, _ = run_down(LOCKER)
    candidate = compare(Order(explore(coach), "pv", conductors())).candidates[0]
    for more, said in (
        ({}, []),
        ({"outside_diameter": 30}, ["wire is 30 mm thick"]),
        ({"smallest_bend": 90}, ["wire bends no tighter than 90 mm"]),
    ):
        wire = coach.types.cables["wire"].model_copy(update=more)
        types = coach.types.model_copy(update={"cables": {**coach.types.cables, "wire": wire}})
        job = coach.job.model_copy(update={"types": types})
        against = runs(Plan(replace(coach, job=job), (), {"pv": candidate}))[1]
        assert [one.sentence.partition(",")[0] for one in against if "plan again" in one.sentence] == said


def test_without_any_stock_the_whole_length_is_to_be_bought_and_without_a_store_it_is_missing():
    _, run = run_down(LOCKER)
    (bought,), _ = pieces_of([run], van(store=[20_000]))
    assert bought.cuts == (run.length, run.length)
    assert [one.severity for one in bought.findings] == [Severity.CAUTION]
    (none,), _ = pieces_of([run], van())
    assert none.laid == ()
    assert "no reel of the store serves either" in none.findings[0].sentence
    assert none.findings[0].severity is Severity.REFUSAL


def test_where_two_runs_want_one_lead_the_one_that_needs_it_more_gets_it():
    # Each could take the lead; only the longer one has nothing else that reaches.
    places = [(1500, 2900)]
    shared = [Piece("lead", 3000, 1, leads=True), Piece("spare", 2000, 1)]
    long = Wanted(6500, places, 1, [*shared, Piece("cut 1", 4000, fitted=False)])
    short = Wanted(2900, places, 1, [*shared, Piece("cut 1", 2000, fitted=False)])
    found, proved = share([short, long], {"lead": 1, "spare": 1})
    assert proved
    assert [[one.piece.id for one in laid] for laid in found] == [["spare", "cut 1"], ["lead", "cut 1"]]


def test_where_jobs_took_more_cable_than_planned_a_joint_moves_along_with_all_of_it():
    # A tenth more cable for the same way: the same point of the coach lies a tenth further along.
    coach, run = run_down(LOCKER)
    route = compare(Order(explore(coach), "pv", conductors())).candidates[0].route
    past = SimpleNamespace(grown=1.1)
    more = ways_in(replace(coach, shop=replace(coach.shop, history=past)), route.legs, [1000])
    for one, other in zip(ways_in(coach, route.legs, [1000]), more, strict=True):
        assert (other.near, other.far) == (ceil(one.near * 1.1), floor(one.far * 1.1))
        there = zip(one.joint(one.near).point, other.joint(other.near).point, strict=True)
        assert max(abs(u - v) for u, v in there) <= 1
    assert run.ways_in
