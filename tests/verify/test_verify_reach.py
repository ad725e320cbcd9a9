"""Where the checker lets a joint lie: behind an opening within an arm, and in nothing that hides it."""

import pytest
from random_plans import planned, vehicle, ways_of

import sketch
from drawcord.verify.joints import joints
from drawcord.verify.reach import reached
from drawcord.verify.route import Route

HOLLOW = ("chase", "vent stack", "appliance vent", "panel wall", "void")


def of_kind(kind):
    """A cable from the roof down a tall space with a panel over its whole curb side, in pieces of 2100 mm."""
    place = {"from front": "1000..1600", "street": 600, "up": "floor..ceiling"}
    junction = {"kind": "junction box", "in": "roof", "from front": 3000, "street": 300, "terminals": {"pv": None}}
    controller = {"in": "tall", "from front": 1300, "street": 250, "up": 500, "terminals": {"pv": None}}
    equipment = {"junction": junction, "controller": {"kind": "charge controller", **controller}}
    access = {"panel": {"into": "tall", "kind": "removable panel", "face": "curb"}}
    rig = sketch.rig_data({"tall": {"kind": kind, **place}}, access=access)
    cable = {**sketch.CABLE, "from": "junction.pv", "to": "controller.pv", "longest piece": 2100}
    return rig, sketch.job_data(equipment, {"data": cable})


@pytest.mark.parametrize("kind", ["cabinet", "bay", "underfloor", *HOLLOW])
def test_a_joint_of_a_cabinet_is_told_where_the_space_hides_it(kind):
    """The joints that the planner puts behind a cabinet's panel, with the kind of space changed after that."""
    built = vehicle(*of_kind(kind))
    (one,) = planned(ways_of(*of_kind("cabinet")))["cables"]
    said = one["candidates"][0]
    assert [joint["space"] for joint in said["joints"]] == ["tall", "tall"]
    told = joints(Route(built, "data", built.job["cables"]["data"], said))
    assert ["no hand reaches it" in fault for fault in told] == [True] * (2 * (kind in HOLLOW))
    assert reached(built, "tall", [1300, 350, 500], "panel") == (kind not in HOLLOW)


def test_a_joint_in_the_wall_of_a_room_is_told():
    """Raceway is opened in the room alone: not in the roof above it, nor in the floor below."""
    rig, job = of_kind("cabinet")
    rig["spaces"]["cabin"] = {"kind": "room", "from front": "2000..4000"}
    built = vehicle(rig, job)
    for up, told in ((2030, True), (2000, False), (900, False), (0, False), (-30, True)):
        assert reached(built, "cabin", [3000, 1200, up], "raceway cover") != told
