"""The vehicle, from the raw rig, job and shop files to boxes: spaces and what is taken of them, sweeps, clearances."""

import re
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

import numpy as np

from drawcord.verify.boxes import FACES, Box, Face, Point, boxes, common, grown, instead, meeting, nested, prism
from drawcord.verify.log import Log
from drawcord.verify.read import Data, ends, mm, number

NO_BORE = ("framing", "tank", "duct", "water line", "gas line", "wiring")
FILLS = ("tank", "duct", "axle", "jack", "step")
THINGS = ("roof obstacles", "hazards", "obstructions", "doors", "windows", "partitions")


@dataclass
class Space:
    """A space: `taken` is what a cable cannot use of it, `barred` why it may not be there at all, or empty."""

    kind: str
    box: Box
    zone: str
    standing: str
    chance: float
    moving: bool = False
    barred: str = ""
    front: Face | None = None
    plain: tuple[Face, ...] = ()
    taken: Box = field(default_factory=lambda: boxes(()))


class Vehicle:
    """Everything that a plan is held against; the shop's files by name, with the rig's log if there is one."""

    def __init__(self, rig: Data, job: Data, shop: Data) -> None:
        self.rig, self.job, self.shop, self.owner = rig, job, shop, job.get("owner") or {}
        self.log = Log(shop.get("log", {}), job["job"])
        changed = job.get("differences") or {}
        self.entries: Data = {
            section: {
                name: {**entry, "units": file.get("units", "")}
                for file, part in ((rig, rig), (job, changed))
                for name, entry in (part.get(section) or {}).items()
                if name not in changed.get("removed", ())
            }
            for section in ("spaces", "moving parts", "access", "passages", *THINGS)
        }
        self.found = {"~".join(sorted(re.split(" *~ *", one["what"]))): one for one in changed.get("found", ())}
        gaps = rig.get("touching", {}).items()
        self.touching = {frozenset(re.split(" *~ *", key)): mm(gap, rig.get("units", "")) for key, gap in gaps}
        self._placed: dict[str, Box] = {}
        self._shell(rig["shell"], rig.get("units", ""))
        self._things()
        self._spaces()

    def figure(self, file: str, *keys: str | int) -> Fraction:
        """What a file of the shop says at the end of some keys."""
        value: Any = self.shop[file]
        for key in keys:
            value = value[key]
        return number(value, self.shop[file].get("units", ""))

    def kept(self, *keys: str) -> int:
        """A clearance of the shop [mm]."""
        return round(self.figure("clearances", *keys))

    def types(self, kind: str) -> Data:
        """What the shop's sheets and over them the job's say of the types of a kind, by id."""
        stock = self.shop.get(kind, {})
        return {
            name: {**entry, "units": file.get("units", "")}
            for file, part in ((stock, stock), (self.job, self.job.get("types") or {}))
            for name, entry in (part.get(kind) or {}).items()
        }

    def face(self, word: str) -> Face:
        """The face that a word stands for."""
        street = "left" if self.rig["traffic keeps"] == "right" else "right"
        return FACES[{"street": street, "curb": "right" if street == "left" else "left"}.get(word, word)]

    def known(self, name: str, entry: Data, usual: str) -> tuple[str, float]:
        """Standing of a space or passage, and the chance that it is clear.

        As found in this vehicle; else as written or usual, weighed against what the log found in others.
        """
        said, usual = (self.found[name], "proven") if name in self.found else (entry, usual)
        standing = said.get("standing") or ("unproven" if "chance" in said else usual)
        likely = number(said["chance"]) if "chance" in said else self.figure("preferences", "chance clear")
        chance = {"proven": 1.0, "blocked": 0.0}.get(standing, float(likely))
        logged = None if name in self.found else self.log.chance(name, chance)
        return (standing, chance) if logged is None else ("unproven", logged)

    def _shell(self, shell: Data, unit: str) -> None:
        size = {key: mm(text, unit) for key, text in shell.items() if key not in ("outline", "steps", "roof skin")}
        self.outline = [(mm(x, unit), mm(y, unit)) for x, y in shell.get("outline", ())]
        if not self.outline:
            self.outline = [(0, 0), (size["length"], 0), (size["length"], size["width"]), (0, size["width"])]
        self.frame = [(min(row), max(row)) for row in zip(*self.outline, strict=True)]
        self.wall, self.roof = size["wall"], size["roof"]
        self._levels = [(-1e6, 1e6, {"": 0, "bay": size["ground"], **size, "floor": 0})]
        for step in shell.get("steps", ()):
            low, high = sorted(self.measured({**step, "units": unit}, "", 0, np.zeros((3, 2)))[0])
            changed = {key: mm(step[key], unit) for key in ("floor", "ceiling") if key in step}
            self._levels.insert(0, (low, high, self._levels[-1][2] | changed))

    def level(self, word: str, low: float, high: float) -> int:
        """The height of a word such as floor, over the middle of a stretch along the vehicle."""
        here = next(heights for start, end, heights in self._levels if start <= (low + high) / 2 < end)
        return here["floor"] - here["floor thickness"] if word == "belly" else here[word]

    def measured(self, entry: Data, rise: str, inset: int, within: Box | None) -> list[tuple[float, float]]:
        """A place as a tape gives it: for each axis where the tape is hooked on, or a first end, and where it ends."""
        unit, (front, rear), (left, right) = entry["units"], *self.frame
        left, right = left + inset, right - inset
        # By key: the axis, where the tape is hooked on and which way it goes.
        tapes = {"from front": (0, front, 1), "from rear": (0, rear, -1), "left": (1, left, 1), "right": (1, right, -1)}
        tapes |= {word: tapes["left" if self.face(word) == FACES["left"] else "right"] for word in ("street", "curb")}

        def reach(value: str, axis: int, start: float, sign: int) -> tuple[float, float]:
            if isinstance(value, str) and value.startswith("to "):
                return start, self.box_of(value[3:].strip())[axis, int(sign < 0)]
            low, high, last = ends(value, unit)
            return start + sign * mm(low or "0 mm", last), start + sign * mm(high, unit)

        spans = [(front, rear), (left, right), (0, 0)] if within is None else [(low, high) for low, high in within]
        for key, value in entry.items():
            if key in tapes:
                spans[tapes[key][0]] = reach(value, *tapes[key])
            elif key in ("after", "before"):
                start = self.box_of(value)[0, int(key == "after")]
                spans[0] = reach(entry["long"], 0, start, 1 if key == "after" else -1)
            elif key == "between":
                one, two = (self.box_of(name)[0] for name in value)
                spans[0] = min(one[1], two[1]), max(one[0], two[0])
            elif key == "centre":
                spans[1] = reach(value, 1, (left + right) // 2 - mm(value, unit) // 2, 1)
        along = spans[0] if rise else (spans[0][1],) * 2
        said = next((key for key in ("from floor", "from ceiling", "up") if key in entry), "")
        if said == "up" or (within is None and not said):
            low, high, last = ends(entry.get("up", rise or "roof"), unit)
            spans[2] = self._height(low or high, last, *along), self._height(high, unit, *along)
        elif said:
            spans[2] = reach(entry[said], 2, self.level(said[5:], *along), 1 if said == "from floor" else -1)
        return spans

    def _height(self, text: str, unit: str, low: float, high: float) -> int:
        word, sign, rest = re.findall(r"([a-z]*) *([+-]?) *(.*)", text)[0]
        return self.level(word, low, high) + (-1 if sign == "-" else 1) * mm(rest or "0 mm", unit)

    def place(self, entry: Data, rise: str = "floor..ceiling", *, roof: bool = False, within: Box | None = None) -> Box:
        """The box of a place; what it leaves unsaid is as in `within`, of which it is a part."""
        box = np.sort(np.array(self.measured(entry, rise, 0 if roof else self.wall, within), float))
        return box if within is None else common(box, within)

    def box_of(self, name: str) -> Box:
        """The box of a space."""
        if name not in self._placed:
            entry = self.entries["spaces"][name]
            below = entry["kind"] in ("bay", "gas locker")
            self._placed[name] = self.place(entry, "bay..belly" if below else "floor..ceiling")
        return self._placed[name]

    def terminal(self, name: str) -> tuple[str, Point]:
        """The space of a terminal and its point, at the tape's end along each axis."""
        device, _, which = name.partition(".")
        entry = self.job["equipment"][device]
        spot = {**(entry["terminals"][which] or entry), "units": self.job.get("units", "")}
        x, y, z = (round(end) for _, end in self.measured(spot, "", 0 if entry["in"] == "roof" else self.wall, None))
        return entry["in"], (x, y, z)

    def _things(self) -> None:
        def kept(section: str, its: Data) -> int:
            return mm(its["clearance"], its["units"]) if "clearance" in its else self.kept(section, its["kind"])

        placed = {
            section: [(its, self.place(its, roof=section == THINGS[0])) for its in self.entries[section].values()]
            for section in THINGS
        }
        lines = placed["obstructions"]
        self.things = [box for _, box in (*lines, *placed["hazards"])]
        self.hazards = boxes(grown(box, kept("hazards", its)) for its, box in placed["hazards"])
        self.partitions = boxes(box for _, box in placed["partitions"])
        self.openings = boxes(box for section in ("doors", "windows") for _, box in placed[section])
        self.solids = boxes(box for its, box in lines if its["kind"] in FILLS)
        sweeps = []
        for its in self.entries["moving parts"].values():
            box, (axis, end) = self.place(its, roof=its["kind"] == "hatch"), self.face(its["towards"])
            by = mm(its["travel"], its["units"]) * (1 if bool(end) == (its["drawn"] == "in") else -1)
            sweeps.append(instead(box, axis, box[axis, 0] + min(by, 0), box[axis, 1] + max(by, 0)))
        self.sweeps = grown(boxes(sweeps), self.kept("moving"))
        bores = grown(boxes(box for its, box in lines if its["kind"] in NO_BORE), self.kept("hole"))
        self.no_bore = np.concatenate((bores, self.hazards, self.sweeps, grown(self.openings, 10)))
        self.on_roof = [box for box in self.hazards if box[2, 0] < self.roof < box[2, 1]]
        self.on_roof += [box for box in self.sweeps if box[2, 0] <= self.roof < box[2, 1]]
        self.on_roof += [grown(box, kept(THINGS[0], its)) for its, box in placed[THINGS[0]]]

    def _spaces(self) -> None:
        excluded = self.owner.get("excludes", ())
        self.spaces = {"roof": Space("roof", np.array([*self.frame, (self.roof,) * 2], float), "sun", "proven", 1.0)}
        self.spaces["roof"].barred = "the owner excludes it" * ("roof" in excluded)
        self.caps: dict[str, Box] = {}
        placed = [(entry["kind"], self.box_of(name)) for name, entry in self.entries["spaces"].items()]
        every = boxes(box for _, box in placed)
        for name, entry in self.entries["spaces"].items():
            kind, box, unit = entry["kind"], self.box_of(name), entry["units"]
            zone = entry.get("zone", "wet and stony" if kind == "underfloor" else "indoors")
            space = self.spaces[name] = Space(kind, box, zone, *self.known(name, entry, "proven"))
            space.front = self.face(entry["door"]) if "door" in entry else None
            space.plain = tuple(self.face(side) for side in entry.get("plain", ()))
            shares = [np.diff(common(box, sweep)).prod() for sweep in self.sweeps[meeting(self.sweeps, box)]]
            space.moving = kind != "room" and bool(2 * max(shares, default=0) >= np.diff(box).prod())
            barred = {
                "it is a gas locker": kind == "gas locker",
                "it moves, or lies in the way of what moves": space.moving,
                "the owner excludes it": name in excluded,
                "it is blocked": space.standing == "blocked",
            }
            space.barred = next((why for why, holds in barred.items() if holds), "")
            others = (placed[number] for number in np.flatnonzero(meeting(every, box)))
            own = [inner for its, inner in others if nested(its, inner, box)]
            own += [self.place({**part, "units": unit}, within=box) for part in entry.get("filled", ())]
            useless = box
            for word, depth in entry.get("usable", {}).items():
                (axis, end), deep = self.face(word), mm(depth, unit)
                useless = useless - deep * np.outer(np.arange(3) == axis, (end - 1, end))
            pipe, cap = (mm(entry.get(key, "0 mm"), unit) for key in ("pipe", "cap"))
            at = box[:2].sum(axis=1) // 2
            if "pipe at" in entry:
                at = [end for _, end in self.measured({**entry["pipe at"], "units": unit}, "", self.wall, None)[:2]]
            own += [prism(at, pipe, box)] * (pipe > 0) + [useless] * ("usable" in entry)
            space.taken = np.concatenate((self.sweeps, self.hazards, self.solids, boxes(own)))
            if (pipe or cap) and box[2, 1] >= self.level("ceiling", *box[0]):
                over = prism(at, cap or pipe + 2 * self.kept("stack cap"), box)
                clear = self.kept("roof obstacles", "vent")
                self.caps[name] = grown(over, (clear, clear, 0))
        self.on_roof += self.caps.values()
