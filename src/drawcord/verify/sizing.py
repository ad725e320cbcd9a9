"""A circuit's cable and device, worked out again from the published tables: what the plan should say of both."""

import math
import re
from itertools import permutations

from drawcord.verify.purpose import Named, Purpose, System, value
from drawcord.verify.read import Data, number, thick
from drawcord.verify.route import Route
from drawcord.verify.tables import ROOF, Method, ampacity, area, carried, conductors, first, rated, rows, up_to

APART = ("PV", "battery DC")  # what these carry lies in cores with a sheath each, side by side
TOGETHER = "conductors together in "
CROWD = 60  # more conductors than lie together anywhere


class Sizing:
    """One circuit on its route."""

    def __init__(self, system: System, purpose: Purpose, route: Route, said: Data, company: list[list[int]]) -> None:
        self.system, self.rules, self.purpose, self.route, self.said = system, system.rules, purpose, route, said
        self.company = company or [[]]
        mains = purpose.circuit == "mains"
        self.ratings = self.rules.mains_ratings if mains else self.rules.ratings
        self.own = int(route.cable["cores"]) - mains  # a protective conductor carries nothing
        self.air = value(system.job["temperatures"], "hottest")
        self.continuous = round(purpose.longer * purpose.imax, 9)
        self.types = system.vehicle.types("cables")
        pieces = [piece["spaces"] for piece in said["pieces"] if piece["type"] == said["type"]]
        self.names = [name for spaces in pieces for name in spaces] or route.names  # where the type of the figures lies

    def _carries(
        self, method: Method, kind: Data, name: str, count: int, long: int
    ) -> tuple[int, float, float, float]:
        """What a type carries in a leg with so many conductors together so far, as `carried`. Raises LookupError."""
        space = self.system.vehicle.spaces[name]
        hot = self.air + ROOF * (space.kind == "roof" and space.zone == "sun")
        bears, roof = value(kind, "insulation"), space.kind == "roof"
        return carried(method, kind["section"], bears, hot, count, long, free=roof)

    def _amperes(self, method: Method, kind: Data, name: str, count: int, long: int | None = None) -> float:
        try:
            return math.prod(self._carries(method, kind, name, count, self.route.length if long is None else long)[1:])
        except LookupError:
            return 0.0

    def legs(self, kind: Data, said: list[tuple[str, float]], names: list[str]) -> bool:
        """Whether a type may carry what is said of legs among some, least first, each by a method of its own.

        Cables beside it may make it less than its own conductors alone do, but not more.
        """
        alone = {m: min(self._amperes(m, kind, leg, self.own) for leg in names) for m in self.rules.methods}
        able = [method for method, amperes in alone.items() if amperes]

        def may(method: Method, name: str, amperes: float) -> bool:
            each = (self._amperes(method, kind, name, count) for count in range(self.own, CROWD))
            return amperes <= alone[method] * 1.00001 and any(math.isclose(amperes, one, rel_tol=1e-5) for one in each)

        known = all(name in names for name, _ in said) and [one for _, one in said] == sorted(one for _, one in said)
        ways = permutations(able, len(said)) if known and len(said) == len(able) else ()
        return any(all(may(method, *one) for method, one in zip(way, said, strict=True)) for way in ways)

    def terminals(self, kind: Data) -> tuple[int, float]:
        """The column [°C] for a type at its terminals, and what it carries there [A]. Raises LookupError."""
        bears = min(self.rules.terminals, value(kind, "insulation"))
        return ampacity(self.rules.methods[0].enclosed, kind["section"], bears)

    def ceiling(self, kind: Data, amperes: float) -> float:
        """The largest device for a type that carries so much [A]."""
        most = min(amperes, self.terminals(kind)[1])
        if self.rules.next_size_up and self.purpose.circuit != "mains":
            ratings = [float(row["rating_a"]) for row in rows(self.ratings)]
            most = min((one for one in ratings if one >= most), default=most)
        small = {f"{row['size_awg']} AWG": float(row["device_a"]) for row in rows("small_nec_240_4_d")}
        return min(most, small.get(kind["section"], most)) if self.rules.next_size_up else most

    def drop(self, kind: Data) -> list[Named]:
        """Loop resistance, and what is lost over the cut length there and back."""
        celsius = float(number(self.system.job["temperatures"].get("conductor", "75 °C")))
        table = conductors(kind["metal"], celsius)
        ohms = {label: ohm for some in table.values() for _, label, ohm in some}[kind["section"]]
        loop = 2 * self.route.said["cut_length_mm"]["likely"] / 1e6 * ohms
        amperes, lost, supply = self.purpose.flows, self.purpose.flows * loop, self.purpose.supply[1]
        found = [("loop resistance", loop, "Ω"), ("voltage drop", lost, "V")]
        return [*found, ("voltage drop of supply", 100 * lost / supply, "%"), ("power lost", amperes * lost, "W")]

    def short(self, kind: Data, amperes: float) -> bool:
        """Whether a type that carries so much [A] is too thin for the current or its device."""
        try:
            device = rated(self.ratings, self.continuous)
            over = self.terminals(kind)[1] < self.continuous or amperes < self.purpose.imax
            return over or device > self.ceiling(kind, amperes)
        except LookupError:
            return True

    def serves(self, kind: Data, amperes: float, names: list[str]) -> bool:
        """Whether a type may run in all of some spaces, carries the current and keeps the drop."""
        zones = {self.system.vehicle.spaces[name].zone for name in names}
        may = zones <= {*kind["zones"]} and ("sun" not in zones or kind["sunlight resistant"] == "true")
        return may and not self.short(kind, amperes) and self.drop(kind)[2][1] <= 100 * self.purpose.limit

    def figures(self) -> list[Named]:
        """The chain of figures as the plan should have it; legs and neighbours are taken from it."""
        purpose, kind = self.purpose, self.types.get(self.said["type"])
        chain = [("Imax", purpose.imax, "A")]
        if kind is None:
            return [*chain, purpose.supply, ("largest drop wanted", 100 * purpose.limit, "%")]
        section, least = kind["section"], self.stated()[0][1]
        together = first(one for one in self.said["figures"] if one["name"].startswith(TOGETHER))
        leg, count = together["name"].removeprefix(TOGETHER), int(together["value"])
        long = int(re.findall(r"over (\d+) mm", together["source"])[0])
        whole = self.route.length  # which a cable's own conductors keep together
        if not self.own <= count < CROWD or long > whole or (count == self.own and long < whole):
            raise ValueError(f"{count} conductors do not lie together over {long} mm")
        off = {abs(self._amperes(method, kind, leg, count, long) - least): method for method in self.rules.methods}
        column, amperes, heat, crowd = self._carries(off[min(off)], kind, leg, count, long)
        celsius, least = self.terminals(kind)
        space = self.system.vehicle.spaces[leg]
        hot = f"{self.air:g} °C" + f" + {ROOF} K" * (space.kind == "roof" and space.zone == "sun")
        chain += [("continuous current", self.continuous, "A")]
        chain += [(f"ampacity of {section} at terminals of {celsius} °C", least, "A")]
        chain += [(f"ampacity of {section} at {column} °C", amperes, "A"), (f"correction for {hot} in {leg}", heat, "")]
        chain += [(f"{TOGETHER}{leg}", count, "")]
        chain += [(f"adjustment for {count} conductors together in {leg}", crowd, "")]
        chain += [(f"ampacity of {section} in {leg}", amperes * heat * crowd, "A")]
        chain += [("overcurrent device", rated(self.ratings, self.continuous), "A")]
        chain += [("largest device the conductor allows", self.ceiling(kind, amperes * heat * crowd), "A")]
        chain += [(f"ampacity of {section} in {name}", more, "A") for name, more in self.stated()[1:]]
        chain += [purpose.supply, *self.drop(kind), ("largest drop wanted", 100 * purpose.limit, "%")]
        return [*chain, *self._protective(kind), *self._inside(kind)]

    def stated(self) -> list[tuple[str, float]]:
        """What the figures say that the cable carries, leg by leg."""
        section = self.types[self.said["type"]]["section"]
        start, figures = f"ampacity of {section} in ", self.said["figures"]
        return [(one["name"].removeprefix(start), one["value"]) for one in figures if one["name"].startswith(start)]

    def _protective(self, kind: Data) -> list[Named]:
        if self.purpose.circuit != "mains" or not self.said["device"] or int(self.route.cable["cores"]) < 3:
            return []
        section = area(kind["section"])
        if self.rules.wires == "mm2":  # IEC 60364-5-54
            least = section if section <= 16 else max(16.0, section / 2 * (section > 35))
        else:  # NEC 250.122(A) and (B)
            tried = [(self.types[one["type"]], one["worst_legs"]) for one in self.said["tried"]]
            needed = min(area(its["section"]) for its, legs in tried if legs and not self.short(its, legs[0]["value"]))
            behind = area(f"{up_to('grounding_nec_250_122', self.said['device']['amperes'])[1]} AWG")
            least = min(section, behind * max(1.0, section / needed))
        core = ("protective conductor, as a core of the cable", section, "mm²")
        return [("protective conductor, at least", least, "mm²"), core]

    def _inside(self, kind: Data) -> list[Named]:
        if not any(self.system.vehicle.spaces[name].kind == "room" for name in self.route.names):
            return []
        count = int(self.route.cable["cores"]) if self.route.cable["class"] in APART else 1
        fills = [row for row in rows("fill") if row["rule_set"] == (self.system.job.get("rules") or "US")]
        own = [thick(kind["outside diameter"], kind["units"])] * count
        return [("least section inside a raceway", max(_section(fills, [*own, *row]) for row in self.company), "mm²")]

    def readings(self) -> list[Named]:
        """What a meter shows when it is switched on."""
        kind = self.types.get(self.said["type"])
        return [*self.purpose.readings, *(self.drop(kind)[1:2] if kind else ())]


def _section(fills: list[dict[str, str]], wide: list[int]) -> float:
    """The section of a raceway that cables so wide may fill as far as they do [mm²]."""
    most = first(float(row["percent"]) for row in fills if len(wide) <= float(row["cables_up_to"] or math.inf))
    return math.pi / 4 * sum(d * d for d in wide) / most * 100
