"""Cables of more than one type, against the slow way and on a small job whose zones no type may all run in."""

from dataclasses import dataclass
from itertools import product

from hypothesis import given
from hypothesis import strategies as st
from small_jobs import BELOW, INDOORS, SUN, TYPES, cable_type, job, rig, sized_of

import sketch
from drawcord.coach.catalogue import CableType
from drawcord.plan.pieced import _fewest
from drawcord.sheets.circuit_report import circuits_document
from drawcord.sheets.circuit_spoken import circuits_text

ZONES = (SUN, INDOORS, BELOW)
DC = {name: kind for name, kind in TYPES["cables"].items() if name.startswith("dc")}


@dataclass
class Leg:
    """As much of a leg as the choice looks at."""

    space: str
    zone: str


@dataclass
class Stocked:
    """A coach as far as its types of cables."""

    cables: dict

    @property
    def types(self):
        return self


kinds = st.lists(st.sets(st.sampled_from(ZONES), min_size=1), min_size=1, max_size=3)
ways = st.lists(st.tuples(st.sampled_from(ZONES), st.booleans()), min_size=1, max_size=4)


@given(kinds, ways)
def test_no_way_needs_fewer_joints(zones, way):
    # The slow way: each leg is entered and left with any type; where they differ there is a joint in it.
    made = {
        f"t{at}": sketch.model(CableType, cable_type("PV", "6 mm2", 7, 30, zones=tuple(sorted(one))))
        for at, one in enumerate(zones)
    }
    legs = [Leg(f"s{at}", zone) for at, (zone, _) in enumerate(way)]
    places = {leg.space: None for leg, (_, reached) in zip(legs, way, strict=True) if reached}
    fewest = []
    for sequence in product(made, repeat=len(legs) + 1):
        joints = [at for at in range(len(legs)) if sequence[at] != sequence[at + 1]]
        allowed = all(leg.zone in made[name].zones for at, leg in enumerate(legs) for name in sequence[at : at + 2])
        if allowed and all(at and legs[at].space in places for at in joints):
            fewest.append(len(joints))
    found = _fewest(Stocked(made), tuple(made), legs, places)
    assert (found and found[0]) == (min(fewest) if fewest else None)


def wet_rig(linen="cabinet"):
    """The array comes down through a space indoors into bays that are wet."""
    rigged = rig(60)
    for bay in ("bay_a", "bay_b"):
        rigged["spaces"][bay]["zone"] = BELOW
    if linen != "cabinet":
        rigged["spaces"]["linen"] = {
            key: value for key, value in rigged["spaces"]["linen"].items() if key != "door"
        } | {"kind": linen}
    return rigged


def stock(**more):
    return {
        **DC,
        "pv-sun": cable_type("PV", "6 mm2", 7, 33, zones=(SUN, INDOORS)),
        "pv-wet": cable_type("PV", "6 mm2", 7, 33, zones=(INDOORS, BELOW)),
        **more,
    }


def pv_of(rigged, types):
    found = sized_of(rigged, job({"amperes": "30 A"}, types=types))
    return next(one for one in found.circuits.circuits if one.cable == "pv")


def test_two_types_are_joined_where_both_may_run_and_a_hand_reaches():
    # Down from the sun through a cabinet with a door into a wet bay: the joint lies in the cabinet, in one sentence.
    one = pv_of(wet_rig(), stock())
    first, second = one.pieces
    assert (first.tried.type_id, second.tried.type_id) == ("pv-sun", "pv-wet")
    assert (first.spaces, second.spaces) == (("roof", "linen"), ("linen", "bay_a"))
    assert second.joint.space == "linen"
    assert second.joint.reachable
    assert one.chosen.cable.section == "6 mm2"
    assert one.device
    (said,) = [f.sentence for f in one.findings if "no type may run all the way" in f.sentence]
    assert said.startswith("no type may run all the way: pv-sun, which may not run in wet and stony, is joined ")
    assert said.endswith(f"in linen, reached through {second.joint.opening}, to pv-wet")


def test_the_document_tells_each_piece_and_the_joint_before_it():
    # With the keys that DEVELOPERS.md lists; before the first piece there is no joint.
    found = sized_of(wet_rig(), job({"amperes": "30 A"}, types=stock()))
    one = next(one for one in circuits_document(found.coach, found.circuits, [])["circuits"] if one["cable"] == "pv")
    first, second = one["pieces"]
    assert set(first) == set(second) == {"type", "spaces", "joined_before"}
    assert first["joined_before"] is None
    assert set(second["joined_before"]) == {"at_mm", "space", "through"}
    assert (second["type"], second["joined_before"]["space"]) == ("pv-wet", "linen")
    assert "section 6 mm2, pv-sun, then pv-wet device:" in " ".join(circuits_text(found.coach, found.circuits).split())


def test_a_type_that_may_run_all_the_way_is_taken_before_a_joint():
    # Thicker, but in one piece: the finding of the type that the job names says why.
    every = cable_type("PV", "10 mm2", 8, 40, zones=ZONES)
    found = sized_of(wet_rig(), job({"amperes": "30 A"}, pv={"type": "pv-sun"}, types=stock(every=every)))
    one = next(one for one in found.circuits.circuits if one.cable == "pv")
    assert one.pieces == ()
    assert one.chosen.type_id == "every"
    sentences = [f.sentence for f in one.findings]
    assert (
        "pv-sun, which the job names, does not serve: it may not run in the zone wet and stony; every does, and the "
        "route is planned for it"
    ) in sentences


def test_no_joint_lies_in_a_chase_whatever_opens_it():
    # A panel opens the chase, but a joint must not lie in it: nothing serves, and why is told of each type.
    rigged = wet_rig("chase")
    rigged["access"] = {"panel": {"into": "linen", "kind": "removable panel", "face": "curb"}}
    one = pv_of(rigged, stock())
    assert (one.pieces, one.chosen) == ((), None)
    assert {t.type_id for t in one.tried if any("may not run" in why for why in t.against)} == {"pv-sun", "pv-wet"}


def test_pieces_are_of_one_section_that_serves():
    # The wet type is there in 10 mm² alone: a joint needs the other in 10 mm² as well.
    types = {**stock(), "pv-wet": cable_type("PV", "10 mm2", 8, 40, zones=(INDOORS, BELOW))}
    assert pv_of(wet_rig(), types).chosen is None
    types["pv-sun-10"] = cable_type("PV", "10 mm2", 8, 40, zones=(SUN, INDOORS))
    assert [piece.tried.type_id for piece in pv_of(wet_rig(), types).pieces] == ["pv-sun-10", "pv-wet"]


def test_pieces_too_wide_for_the_holes_are_refused_with_the_remedy():
    # Two cores of 12 mm are 24 mm wide together; the job's holes are for a plug of 20 mm.
    types = {
        **DC,
        "pv-sun": cable_type("PV", "6 mm2", 12, 33, zones=(SUN, INDOORS)),
        "pv-wet": cable_type("PV", "6 mm2", 12, 33, zones=(INDOORS, BELOW)),
    }
    one = pv_of(wet_rig(), types)
    assert one.pieces
    assert any("write `largest plug: 24 mm`" in f.sentence for f in one.findings if f.severity.name == "REFUSAL")
