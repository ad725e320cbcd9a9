"""One candidate from coordinates up: what the plan should say of it, and which rules its legs and joints break."""

import math
from itertools import pairwise
from typing import NamedTuple

import shapely

from drawcord.verify import reach, where
from drawcord.verify.boxes import HOLLOW, Box, Point, grown, instead, within
from drawcord.verify.read import Data, mm
from drawcord.verify.vehicle import Space, Vehicle

STUB = 300  # [mm] raceway goes no further along a ceiling from an entry to a wall


class Way(NamedTuple):
    """A passage as a cable meets it: what is there, what is known of it, and the hole it needs, if any."""

    opening: str
    standing: str
    chance: float
    hole: str
    at: Box | None


def apart(p: Point, q: Point) -> int:
    """How far it is from one point to another along the axes [mm]."""
    return sum(abs(u - v) for u, v in zip(p, q, strict=True))


def split(line: list[Point], at: int) -> tuple[list[Point], list[Point]]:
    """A line cut in two, so far along it [mm]; nothing is left where it is shorter."""
    for n, (p, q) in enumerate(pairwise(line), start=1):
        step = apart(p, q)
        if at < step:
            x, y, z = (u + (v - u) * at // step for u, v in zip(p, q, strict=True))
            return line[:n] + [(x, y, z)] * (at > 0), [(x, y, z), *line[n:]]
        at -= step
    return line, line[-1:] * (at == 0)


def doubt(chance: float) -> int:
    """Doubt of what is clear with this chance [micro-nats]."""
    return round(-1e6 * math.log(chance)) if 0 < chance < 1 else 0


class Route:
    """A candidate measured again: `right` is what the plan should say of it, `faults` are sentences."""

    def __init__(self, vehicle: Vehicle, name: str, cable: Data, said: Data) -> None:
        self.vehicle, self.name, self.said, self.faults = vehicle, name, said, list[str]()
        self.agreed = "raceway in sight" in vehicle.owner.get("consents", ())
        self.cable, self.unit = cable, vehicle.job.get("units", "")
        self.plug, self.longest = (mm(self.cable[key], self.unit) for key in ("largest plug", "longest piece"))
        self.names = [leg["space"] for leg in said["legs"]]
        self.lines = [[_whole(point) for point in leg["points_mm"]] for leg in said["legs"]]
        self.length = self.in_sight = self.doubt = self.doubtful = 0
        self.seconds = 2 * round(vehicle.figure("labour", "terminal"))
        self.opened: dict[str, int] = {}  # by space, the time to get at its inside [s]
        self.raceway: list[tuple[str, Point, Point]] = []  # rooms, and straight pieces in them
        # Passages, where they are crossed, and the time [s] for what others need not do again.
        self.crossed: list[tuple[str, frozenset[tuple[str, Point]], int]] = []
        self.bores: list[tuple[str, Point, Point, int, int]] = []  # of each hole its id, ends, axis and diameter
        self.heading: tuple[float, ...] = ()
        self.unproven: tuple[list[str], list[str]] = [], []
        self.right: Data = {"spaces": self.names, "longest_piece_mm": self.longest, "holes": []}
        self.right["passages"] = [leg["through"] for leg in said["legs"][1:]]
        self.right["legs"] = [self._leg(n, leg) for n, leg in enumerate(said["legs"])]
        self.right["unproven"] = [*self.unproven[0], *self.unproven[1]]
        stops = [(self.names[0], self.lines[0][0]), (self.names[-1], self.lines[-1][-1])]
        ends = [vehicle.terminal(self.cable["from"]), vehicle.terminal(self.cable["to"])]
        self._rule(stops == ends, f"it runs from {stops[0]} to {stops[1]}, not from {ends[0]} to {ends[1]}")
        self._rule(len(set(self.names)) == len(self.names), "it enters a space twice")

    def _rule(self, kept: bool, sentence: str) -> None:
        self.faults += [] if kept else [f"{self.said['id']}: {sentence}"]

    def _leg(self, n: int, leg: Data) -> Data:
        """What the plan should say of a leg."""
        vehicle, name, line, through = self.vehicle, self.names[n], self.lines[n], leg["through_mm"]
        space, called = vehicle.spaces[name], f"leg {n + 1} in {name}"
        self._rule(not space.barred, f"{called}: {space.barred}")
        self._rule(not n or self.lines[n - 1][-1] == line[0], f"{called} does not begin where the leg before ends")
        crossing, run = split(line, through)
        straight = space.kind == "roof" and vehicle.owner.get("roof run") == "straight"
        square = all(sum(u != v for u, v in zip(p, q, strict=True)) == 1 for p, q in pairwise(line))
        if through < 0 or not run or not (square or (straight and len(set(line)) == len(line))):
            self._rule(False, f"{called} is not square, or shorter than what it passes through")
            return {}
        bends = 0
        for p, q in pairwise(line):
            heading = tuple(round((v - u) / math.dist(p, q), 9) for u, v in zip(p, q, strict=True))
            self._rule(heading != self.heading or p == line[0], f"{called} has a corner at {p} that is none")
            bends += self.heading not in ((), heading)
            self.heading = heading
        self._rule(self._lies(space, run), f"{called} leaves its space, or meets what moves, fills it or is kept clear")
        length = math.ceil(sum(math.dist(p, q) for p, q in pairwise(run)) - 1e-6)
        reached = space.kind in ("roof", "room") or (space.kind == "underfloor" and space.zone == "wet and stony")
        blind = 0 if reached else round(vehicle.figure("labour", "no access"))
        self.seconds += (length * round(vehicle.figure("labour", "metre", space.kind)) + 500) // 1000
        self.opened[name] = min((seconds for _, _, seconds in reach.ways_in(vehicle, name)), default=blind)
        self.seconds += self.opened[name]
        self.raceway += [(name, p, q) for p, q in pairwise(run) if space.kind == "room"]
        self.length += length + through
        self.in_sight += length * (space.kind == "room")
        self.doubt += doubt(space.chance)
        if space.standing == "unproven":
            self.unproven[0].append(name)
            self.doubtful += length + through
        right = {"kind": space.kind, "zone": space.zone, "standing": space.standing, "in_sight": space.kind == "room"}
        right |= {"bends": bends, "length_mm": length + through}
        if not n:
            return right | {"through": None, "through_mm": 0}
        self._through(n, leg["through"], crossing)
        return right

    def _lies(self, space: Space, run: list[Point]) -> bool:
        pairs = list(pairwise(run)) or [(run[0], run[0])]
        if space.kind == "roof":
            line = shapely.LineString([point[:2] for pair in pairs for point in pair])
            return all(z == self.vehicle.roof for _, _, z in run) and where.on_roof(self.vehicle, line)
        if space.kind == "room":
            return all(where.on_walls(self.vehicle, space, p, q) for p, q in pairs)
        return all(where.in_space(space, p, q) for p, q in pairs)

    def _way(self, name: str, a: str, b: str, *, flat: bool) -> Way:
        """What a passage between two spaces is; `flat` where the cable gets through on the spot."""
        vehicle, declared = self.vehicle, self.vehicle.entries["passages"]
        kinds, entry = (vehicle.spaces[a].kind, vehicle.spaces[b].kind), declared.get(name, {})
        opening = entry.get("opening", "exists" if flat and kinds == ("room", "room") else "needs hole")
        doubtful = not {*kinds}.isdisjoint(HOLLOW) or kinds == ("bay", "bay")
        usual = "unproven" if doubtful and not (entry and opening == "exists") else "proven"
        standing, chance = vehicle.known(name, entry, usual)
        instead_of = [key for key, its in declared.items() if {*its["between"]} == {a, b} and "at" not in its]
        joins = {*entry["between"]} == {a, b} if entry else name == "~".join(sorted((a, b))) and not instead_of
        self._rule(joins, f"{name} is no passage between {a} and {b}")
        self._rule(standing != "blocked" and opening != "closed", f"{name} is blocked or closed")
        size = mm(entry.get("size", "0 mm"), entry.get("units", "")) * (opening == "exists") or self.plug
        self._rule(size >= self.plug, f"{name}, {size} mm, does not pass the {self.plug} mm plug")
        on_roof = "roof" in (a, b)
        at = vehicle.place({**entry["at"], "units": entry["units"]}, roof=on_roof) if "at" in entry else None
        return Way(opening, standing, chance, ("roof" if on_roof else "inner") if opening == "needs hole" else "", at)

    def _through(self, n: int, name: str, line: list[Point]) -> None:
        """Follow the cable from the face of one space to that of the next, and note the hole that it needs."""
        (a, b), near, far = self.names[n - 1 : n + 1], line[0], line[-1]
        way = self._way(name, a, b, flat=near == far)
        late = self.vehicle.spaces[a].kind == "room" or (a == "roof" and not way.hole)  # aside first, through then
        wide = (self.plug + self.vehicle.kept("plug")) * bool(way.hole)
        if way.hole and self.said["offered_as"] == "together":  # other cables may come through as well
            wide = max(wide, self.said["holes"][len(self.right["holes"])]["diameter_mm"])
        for axis in (2,) if "roof" in (a, b) else (0, 1, 2):
            near_face, far_face = where.moved(far, axis, near[axis]), where.moved(near, axis, far[axis])
            u, v = (near_face, far) if late else (near, far_face)
            if self._passes(way, a, b, line, u, v, axis, wide):
                break
        else:
            self._rule(False, f"no cable gets from {a} to {b} at {near}, or not with its hole and what is kept from it")
        if way.hole:
            called = f"H{len(self.bores) + 1}"
            self.bores.append((called, u, v, axis, wide))
            hole = {"id": called, "kind": way.hole, "between": [a, b], "diameter_mm": wide}
            self.right["holes"].append(hole | {"near_mm": [*u], "far_mm": [*v], "standing": way.standing})
        spent, lead = (round(self.vehicle.figure("labour", key)) for key in (f"{way.hole or 'inner'} hole", "opening"))
        self.crossed.append((name, frozenset({(a, near), (b, far)}), max(0, spent - lead) * bool(way.hole)))
        self.seconds += spent if way.hole else lead
        self.doubt += doubt(way.chance)
        self.unproven[1].extend([name] * (way.standing == "unproven"))

    def _passes(self, way: Way, a: str, b: str, line: list[Point], u: Point, v: Point, axis: int, wide: int) -> bool:
        """Whether a line goes through a bore from u to v along an axis, and may."""
        vehicle, one, two = self.vehicle, self.vehicle.spaces[a], self.vehicle.spaces[b]
        near, far, room = line[0], line[-1], vehicle.kept("working room")
        aside = (one, near, u), (two, v, far)
        least = apart(near, u) + apart(u, v) + apart(v, far)
        if not {u, v} <= {*line} or least != sum(apart(p, q) for p, q in pairwise(line)):
            return False
        if way.at is not None and not within(instead(grown(way.at, room + 1), axis, -1e6, 1e6), u):
            return False
        if "roof" in (a, b):
            room, below, ends = STUB, b if a == "roof" else a, [(u, v), (near, far)]
            (top, bottom), (cap, foot) = ends if a == "roof" else [pair[::-1] for pair in ends]
            if way.opening == "exists" and (way.at is not None or below in vehicle.caps):
                return where.led_in(vehicle, below, way.at, cap, foot)
            agreed = "roof into room" in vehicle.owner.get("consents", ())
            if vehicle.spaces[below].kind == "room" and not agreed:
                return False
            meets = not where.entered(vehicle, vehicle.spaces[below], top, bottom, wide)
        elif one.kind == two.kind == "room" and near == far:
            return True  # raceway just runs on along a wall
        else:
            meets = not where.bored(vehicle, a, b, u, v, axis, max(wide // 2, 1), new=way.opening == "needs hole")
        return not meets and all(p == q or (s.kind == "room" and apart(p, q) <= room) for s, p, q in aside)


def _whole(said: list[int]) -> Point:
    x, y, z = said
    if not all(type(at) is int for at in said):
        raise TypeError(f"{said} is no point in whole millimetres")
    return x, y, z
