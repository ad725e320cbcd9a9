"""The demo coaches, and a route written by hand, so that these tests stand on no search."""

from functools import cache
from itertools import pairwise
from pathlib import Path

from drawcord.files.load import load
from drawcord.routes.route import Candidate, Leg

LAYOUTS = Path(__file__).parents[2] / "layouts"
RIGS = sorted(path.parent.name for path in LAYOUTS.glob("*/rig.yaml"))


@cache
def demo(name, job="rig"):
    return load(LAYOUTS / name / f"{job}.yaml").coach


def leg(space, kind, points, **more):
    length = sum(abs(a - b) for p, q in pairwise(points) for a, b in zip(p, q, strict=True))
    facts = {"zone": "indoors", "through": "", "through_length": 0, "in_sight": False, "standing": "proven"}
    facts |= {"cover": f"clipped inside the {kind}", "bends": max(0, len(points) - 2)} | more
    return Leg(space=space, kind=kind, points=tuple(points), length=length, **facts)


def candidate_of(route, rank=1, offered="winner"):
    reason = "Weighs 9.8 m of cable, 1.2 m less than the next, which has one hole more."
    return Candidate(f"pv-{rank}", rank, route, 9_800_000, ("length", "minutes"), offered, reason, ())
