"""Where every way needs a joint that no hand reaches again: what is said, and the shortest piece that would do."""

import pytest
from random_nets import all_paths
from wishes import order_of

import sketch
from drawcord.coach.job import Job
from drawcord.coach.rig import Rig
from drawcord.files.tables import conductors
from drawcord.routes.compare import compare
from drawcord.routes.measure import measure
from drawcord.routes.netting import Netted
from drawcord.routes.order import Order
from drawcord.routes.weighing import score, weights
from drawcord.routes.why import why
from drawcord.routes.wished import wish_of
from drawcord.ways.ways import explore
from random_coaches import random_coach

# From the roof 1421 mm from an entry, and 1500 mm down from it: 400 mm made up, 1421 mm on the roof, 150 mm of drip
# loop, 60 mm through the roof and 10 mm by which each of two legs may be longer come before the space, at 2051 mm; with
# 279 mm aft, 1500 mm down, 500 mm of service loop and 400 mm made up it is 4730 mm in all.
BEFORE, WHOLE = 2051, 4730


def order(longest, kind, **panel):
    """A cable from a junction on the roof to a controller in a tall space with a panel on its curb side."""
    place = {"from front": "1000..1600", "street": 600, "up": "floor..ceiling"}
    junction = {"kind": "junction box", "in": "roof", "from front": 3000, "street": 300, "terminals": {"pv": None}}
    controller = {"in": "tall", "from front": 1300, "street": 250, "up": 500, "terminals": {"pv": None}}
    equipment = {"junction": junction, "controller": {"kind": "charge controller", **controller}}
    cable = {**sketch.CABLE, "from": "junction.pv", "to": "controller.pv", "longest piece": longest}
    access = {"panel": {"into": "tall", "kind": "removable panel", "face": "curb", **panel}}
    rig = sketch.rig_data({"tall": {"kind": kind, **place}}, access=access)
    return Order(explore(sketch.coach_of(rig, sketch.job_data(equipment, {"data": cable}))), "data", conductors())


def said(one):
    none = compare(one).unroutable
    return none.sentence.removeprefix("every way from junction.pv to controller.pv that was found needs a joint "), *(
        none.smallest_change
    )


def test_a_cabinet_takes_the_joint_that_a_chase_may_not_hide():
    """With pieces of 2100 mm two joints fall behind the panel: good in a cabinet, and in a chase refused by `why`."""
    assert compare(order(2100, "cabinet")).candidates[0].route.reachable
    one = order(2100, "chase")
    assert compare(one).candidates == ()
    answer = why(one, wish_of(one, ["roof", "tall"], (), ()))
    assert (answer.verdict, answer.breaches[-1].place) == ("broken", "tall")
    assert answer.breaches[-1].sentence.endswith("a joint would fall in tall, 4200 mm along, and no chase may hide one")
    # A panel more would help nothing: what makes it win is a piece that needs no joint.
    assert answer.change.sentence == f"a piece of {WHOLE} mm instead of 2100 mm"


@pytest.mark.parametrize("kind", ["chase", "vent stack", "appliance vent", "panel wall", "void"])
def test_where_only_a_hidden_joint_would_do_the_whole_cable_is_to_buy(kind):
    assert said(order(WHOLE - 1, kind)) == (
        f"hidden in tall, with pieces of {WHOLE - 1} mm",
        f"bring a piece of {WHOLE} mm",
    )
    assert compare(order(WHOLE, kind)).candidates[0].route.joints == ()


def test_the_shortest_piece_reaches_from_the_roof_into_the_cabinet():
    """The panel covers all of the run inside. On the roof another way in would be no help, so none is proposed."""
    assert said(order(BEFORE - 1, "cabinet")) == (
        "where no hand reaches, with pieces of 2050 mm",
        "bring a piece of 2051 mm",
    )
    assert compare(order(BEFORE, "cabinet")).candidates


def test_another_way_in_is_proposed_where_a_cabinet_has_none_in_reach():
    """A panel 100 mm high at the controller's height: 2310 mm into the cabinet, 1110 mm down, within an arm below."""
    sentence, change = said(order(2400, "cabinet", **{"from floor": [450, 550]}))
    assert sentence == "where no hand reaches, with pieces of 2400 mm"
    assert change.endswith(", or add a way to reach in")


def test_the_piece_named_opens_a_way_on_random_coaches():
    """With the piece that it says there is a way, and with one a millimetre shorter there is none."""
    named = 0
    for seed in range(12):
        rig, job = random_coach(9, seed)
        for name in job.cables:
            for longest in (1500, 2500):
                one = of_pieces(rig, job, name, longest)
                none = compare(one).unroutable
                if none is None or not none.smallest_change[0].startswith("bring"):
                    continue
                least = int(none.smallest_change[0].split(" of ")[1].split(" mm")[0])
                assert compare(of_pieces(rig, job, name, least)).candidates
                assert not compare(of_pieces(rig, job, name, least - 1)).candidates
                named += 1
    assert named > 5


def of_pieces(rig: Rig, job: Job, name: str, longest: int) -> Order:
    cable = job.cables[name].model_copy(update={"longest_piece": longest})
    return order_of(rig, job.model_copy(update={"cables": {name: cable}}), name)


def test_a_route_is_not_pulled_tight_out_of_reach():
    """3.5 m straight on through three cabinets, or along the floor, below a panel low in the middle one: 600 mm from
    that a hand reaches, and the straight line lies 350 mm aside and 500 mm above it."""
    tall = {"kind": "cabinet", "left": 500, "up": "floor..ceiling"}
    spaces = {
        "fore": {**tall, "from front": "1000..1500", "door": "right"},
        "blind": {**tall, "from front": "1500..4500"},
        "aft": {**tall, "from front": "4500..5000", "door": "right"},
    }
    panel = {"into": "blind", "face": "right", "from front": "2850..3150", "up": "floor..floor+100"}
    box = {"kind": "junction box", "left": 150, "up": "floor+600", "terminals": {"t": None}}
    equipment = {"one": {**box, "in": "fore", "from front": 1250}, "two": {**box, "in": "aft", "from front": 4750}}
    rig = sketch.rig_data(spaces, access={"panel": {"kind": "removable panel", **panel}})
    lengths = {}
    for longest in (3500, 2600):
        cable = {**sketch.CABLE, "from": "one.t", "to": "two.t", "longest piece": longest}
        ways = explore(sketch.coach_of(rig, sketch.job_data(equipment, {"link": cable})))
        answer = compare(Order(ways, "link", ()))
        winner = answer.candidates[0].route
        assert winner.spaces == ("fore", "blind", "aft")
        assert winner.reachable
        assert not any(sentence.startswith("fore > blind > aft") for sentence in answer.left_out)
        lengths[longest] = winner.criteria.length
    down_and_aside = 2 * (600 - 20 + 150 - 20)  # a hole's middle stays 20 mm off each side
    assert lengths == {3500: 3500, 2600: 3500 + down_and_aside}


# Coaches by size, seed, cable and longest piece [mm]: all ways up to half as long again as the shortest, and all of the
# lightest different descents, need a joint where no hand reaches.
FAR_ROUND = [(5, 6, "link", 1500), (5, 37, "link", 1200), (6, 28, "link", 1500)]


@pytest.mark.parametrize(("size", "seed", "name", "longest"), FAR_ROUND)
def test_a_way_in_reach_is_found_however_far_round(size, seed, name, longest):
    """Against every path there is, each measured."""
    one = of_pieces(*random_coach(size, seed), name, longest)
    netted, by = Netted(one), weights(one.coach)
    every = (measure(one, netted.stations(path.states)) for path in all_paths(netted.net))
    least = min(score(route.criteria, by) for route in every if route.reachable)
    assert min(candidate.score for candidate in compare(one).candidates) == least
