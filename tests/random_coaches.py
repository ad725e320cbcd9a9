"""Random coaches that are valid, from a handful of spaces to a thousand, for tests and the benchmark.

A coach is a row of sections. Each has bays with a tunnel between them below the floor, and on each side above it
cabinets, a chase or a soffit; some have a vent stack, a slide-out, a tank or a gas line. A living area spans a few
sections and ends at the next one or at a panel wall. The more spaces, the shorter the sections: a coach of a
thousand spaces still fits a road. Whole mm throughout.
"""

from itertools import count, pairwise
from random import Random
from typing import Any

import sketch
from drawcord.coach.job import Job
from drawcord.coach.rig import Rig

Data = dict[str, Any]
Span = tuple[int, int]

WALL = 50
BAY, TUNNEL = 750, 900  # depths across; together they fill the inside of the sketch's shell
SIDES = (("street", "curb"), ("curb", "street"))  # a side, and the face that looks away from its wall
DIVIDERS = (
    {"opening": "exists", "standing": "proven"},
    {"opening": "exists", "standing": "unproven", "chance": "70 %"},
    {"opening": "exists", "standing": "proven", "size": 18},
    {"opening": "needs hole", "standing": "proven"},
    {"opening": "closed", "standing": "blocked"},
)
PV = {"class": "PV", "amperes": "10 A", "volts": "40 V", "drop limit": "2 %", "conductor": "10 AWG", "metal": "tinned"}


def random_coach(spaces: int, seed: int) -> tuple[Rig, Job]:
    """A rig of this many spaces beside the roof, and a job: `pv` runs down from the roof, `link` between devices."""
    rng = Random(f"{spaces} {seed}")  # noqa: S311 - any coach will do
    sketched = _Sketch(rng, long=min(600, 120_000 // spaces))
    while len(sketched.spaces) < spaces:
        sketched.section()
    sketched.end_room(wall=False)
    spare = sorted(set(sketched.spaces) - {"bay_street_0"})  # which a cable can always end in
    for name in rng.sample(spare, len(sketched.spaces) - spaces):
        del sketched.spaces[name]
    rig = sketch.rig_data(
        sketched.spaces,
        outside={"length": sketched.end + WALL},
        moving_parts=sketched.slides,
        roof_obstacles=sketched.fans,
        hazards=sketched.pipes,
        obstructions=sketched.solids,
        passages=sketched.dividers(),
    )
    return sketch.model(Rig, rig), sketch.model(Job, _job(rng, sketched))


class _Sketch:
    """The sections so far, from the front aft; each is about `long` [mm]."""

    def __init__(self, rng: Random, long: int) -> None:
        self.rng, self.long = rng, long
        self.numbers = count()
        self.end = self.room_begins = WALL
        self.spaces: dict[str, Data] = {}
        self.slides: dict[str, Data] = {}
        self.fans: dict[str, Data] = {}
        self.pipes: dict[str, Data] = {}
        self.solids: dict[str, Data] = {}

    def section(self) -> None:
        """Add the next one."""
        number, begins = next(self.numbers), self.end
        self.end += self.rng.randint(self.long // 2, self.long * 3 // 2)
        self._below(number, (begins, self.end))
        for side, inwards in SIDES:
            self._above(f"{side}_{number}", (begins, self.end), side, inwards)
        self._on_roof(number, (begins, self.end))
        if self._chance(0.35):
            self.end_room(wall=self._chance(0.6))

    def end_room(self, *, wall: bool) -> None:
        """Add a living area from the end of the last one to here, and a panel wall behind it if asked for."""
        number = next(self.numbers)
        if self.room_begins < self.end:
            self.spaces[f"room_{number}"] = {"kind": "room", "from front": [self.room_begins, self.end]}
        if wall:
            place = [self.end, self.end + 50]
            self.spaces[f"wall_{number}"] = {"kind": "panel wall", "from front": place, **self._doubt()}
            self.end += 50
        self.room_begins = self.end

    def dividers(self) -> dict[str, Data]:
        """Declare some of the passages between bays that touch."""
        found: dict[str, Data] = {}
        for side, _ in SIDES:
            bays = [
                (name, *space["from front"]) for name, space in self.spaces.items() if name.startswith(f"bay_{side}")
            ]
            for (one, _, ends), (other, begins, _) in pairwise(bays):
                if ends == begins and self._chance(0.4):
                    found[f"divider_{one}"] = {"between": [one, other], **self.rng.choice(DIVIDERS)}
        return found

    def _chance(self, of: float) -> bool:
        return self.rng.random() < of

    def _doubt(self) -> Data:
        doubt = {"standing": "unproven", "chance": f"{self.rng.randrange(20, 95, 5)} %"}
        return doubt if self._chance(0.5) else {}

    def _below(self, number: int, along: Span) -> None:
        for side, _ in SIDES:
            bay: Data = {"kind": "bay", "from front": along, side: BAY, "door": side}
            if number and self._chance(0.2):
                bay["filled"] = [{"from front": _part(along, 0.1, 0.9), side: [100, 600], "up": "bay..bay+300"}]
            self.spaces[f"bay_{side}_{number}"] = bay
        tunnel = {"kind": "underfloor", "from front": along, "centre": TUNNEL, "up": "bay..belly"}
        self.spaces[f"tunnel_{number}"] = tunnel
        if self._chance(0.15):
            place = {"from front": _part(along, 0.1, 0.9), "centre": 700, "up": "bay+100..-250"}
            self.solids[f"tank_{number}"] = {"kind": "tank", **place}
        if self._chance(0.15):
            place = {"from front": along, "street": [300, 315], "up": "-120..-105"}
            self.pipes[f"pipe_{number}"] = {"kind": "gas line", **place}

    def _above(self, name: str, along: Span, side: str, inwards: str) -> None:
        place: Data = {"from front": along, side: self.rng.randint(450, 700)}
        what = self.rng.choice(("tall", "chase", "low", "pair", "pair"))
        if what == "tall":
            self.spaces[f"tall_{name}"] = {"kind": "cabinet", **place, "up": "floor..ceiling", "door": inwards}
        if what == "chase":
            narrow = {"from front": _part(along, 0.1, 0.4), side: self.rng.randint(60, 150), "up": "floor..ceiling"}
            self.spaces[f"chase_{name}"] = {"kind": "chase", **narrow, **self._doubt()}
        if what in ("low", "pair"):
            rise = f"floor..{self.rng.randint(400, 900)}"
            self.spaces[f"low_{name}"] = {"kind": "cabinet", **place, "up": rise, "door": inwards}
        if what == "low" and self._chance(0.5):
            soffit = {"from front": along, side: 200, "from ceiling": [0, 150]}
            self.spaces[f"soffit_{name}"] = {"kind": "void", **soffit, **self._doubt()}
        if what == "pair":
            drop = [0, self.rng.randint(300, 600)]
            high = {"from front": along, side: self.rng.randint(300, 450), "from ceiling": drop}
            self.spaces[f"high_{name}"] = {"kind": "cabinet", **high, "door": inwards}
            if self._chance(0.4):
                begins, ends = _part(along, 0.2, 0.6)
                place = {"from front": (begins, ends), side: 150, "up": "bay+200..ceiling"}
                pipe = min(50, ends - begins)
                self.spaces[f"stack_{name}"] = {"kind": "vent stack", **place, "pipe": pipe, **self._doubt()}
        if what in ("tall", "pair") and self._chance(0.15):
            sweep = {"from front": along, side: 720, "up": "floor..ceiling-20", "towards": side}
            self.slides[f"slide_{name}"] = {"kind": "slide-out", **sweep, "travel": 600, "drawn": "in"}

    def _on_roof(self, number: int, along: Span) -> None:
        if self._chance(0.25):
            place = {"from front": _part(along, 0.1, 0.9), "centre": self.rng.randint(200, 700)}
            self.fans[f"fan_{number}"] = {"kind": "vent", **place}
        if self._chance(0.15):
            place = {"from front": _part(along, 0.4, 0.5), "up": "ceiling..roof"}
            self.solids[f"rafter_{number}"] = {"kind": "framing", **place}


def _part(along: Span, low: float, high: float) -> Span:
    """Part of a stretch, from one share of it to another."""
    begins, ends = along
    return begins + round(low * (ends - begins)), begins + round(high * (ends - begins))


def _job(rng: Random, sketched: _Sketch) -> Data:
    """A junction on the street side of the roof, and two devices where nothing fills or moves their space."""
    homes = [
        name
        for name, space in sketched.spaces.items()
        if name.startswith(("bay", "tall", "low"))
        and "filled" not in space
        and (name.startswith("bay") or f"slide_{name.partition('_')[2]}" not in sketched.slides)
    ]
    roof = {"in": "roof", "from front": rng.randint(WALL + 100, sketched.end - 100), "street": rng.randint(100, 700)}
    equipment: dict[str, Data] = {"junction": {"kind": "junction box", **roof, "terminals": {"pv": None}}}
    for device, kind in (("controller", "charge controller"), ("router", "router")):
        home = rng.choice(homes)
        spot = {"in": home, **_spot(rng, sketched.spaces[home])}
        equipment[device] = {"kind": kind, **spot, "terminals": {"pv": None, "data": None}}
    cables = {
        "pv": {**PV, "from": "junction.pv", "to": "controller.pv"},
        "link": {"from": "router.data", "to": "controller.data"},
    }
    wishes = {"raceway in sight": 0.5, "roof into room": 0.2}
    consents = [wish for wish, likely in wishes.items() if rng.random() < likely]
    return sketch.job_data(
        equipment, cables, owner={"consents": consents, "roof run": rng.choice(("straight", "square"))}
    )


def _spot(rng: Random, space: Data) -> Data:
    """A spot in a bay or cabinet, well off its sides."""
    side = next(side for side, _ in SIDES if side in space)
    base = "bay" if space["kind"] == "bay" else "floor"
    along = rng.randint(*_part(space["from front"], 0.2, 0.8))
    return {"from front": along, side: rng.randint(320, space[side] - 30), "up": f"{base}+{rng.randint(30, 370)}"}
