"""What each power cable of a job is for: its currents and voltages, from the makers' figures and the equipment."""

import math
import re
from typing import NamedTuple

from drawcord.verify.read import Data, number
from drawcord.verify.tables import BRIGHTER, CELLS, COLD_MARGIN, DROPS, LONGER, RULES, first, rows
from drawcord.verify.vehicle import Vehicle

FEEDS = ("shore inlet", "generator", "inverter", "distribution panel")  # kinds of equipment, each before those behind
STANDARD = 25  # [°C] of cells, to which ratings refer: IEC 60904-3
Named = tuple[str, float, str]  # a figure's name, value and unit


class Purpose(NamedTuple):
    """Currents [A], voltages [V] and the drop that is wanted (a share) of a circuit; how many poles its device opens.

    `prospective` flows into a short circuit, None if nobody knows; `way` are the cables to the controller.
    """

    circuit: str
    imax: float
    flows: float
    supply: Named
    volts: float
    prospective: float | None
    both_ends: bool
    limit: float
    readings: list[Named]
    longer: float = LONGER
    poles: int = 1
    way: tuple[str, ...] = ()
    tracker: int = 0


def value(entry: Data, key: str, otherwise: float = 0.0) -> float:
    """A quantity of an entry."""
    return float(number(entry[key])) if entry.get(key) else otherwise


def share(entry: Data, key: str, rating: float) -> float | None:
    """A maker's coefficient as a share of a rating [1/K], None where the sheet gives none."""
    if not entry.get(f"{key} coefficient"):
        return None
    size, unit = re.findall(r"([-+]?[\d.,]+) *(%|m?[VAW])", entry[f"{key} coefficient"], re.IGNORECASE)[0]
    return float(size.replace(",", ".")) * (0.01 if unit == "%" else (0.001 if unit[1:] else 1) / rating)


class System:
    """Array, controller and battery of a job, and the grouping of the modules that the plan goes by."""

    def __init__(self, vehicle: Vehicle, grouping: str) -> None:
        self.vehicle, self.job = vehicle, vehicle.job
        self.equipment, self.rules = self.job["equipment"], RULES[self.job.get("rules") or "US"]
        types = {kind: vehicle.types(kind) for kind in ("modules", "controllers", "batteries")}
        self.controller = first(name for name, its in self.equipment.items() if its["kind"] == "charge controller")
        self.battery = first(name for name, its in self.equipment.items() if its["kind"] == "battery")
        self.output = value(types["controllers"][self.equipment[self.controller]["type"]], "output")
        self.bank = types["batteries"][self.equipment[self.battery]["type"]]
        planes: dict[tuple[str, str], int] = {}
        for its in self.equipment.values():
            if its["kind"] == "solar module":
                plane = its.get("plane") or "roof", its["type"]
                planes[plane] = planes.get(plane, 0) + 1
        # By tracker: modules in a string, strings side by side, the module's figures.
        self.trackers: list[tuple[int, int, Data]] = []
        named = {f"{plane} {kind}": (plane, kind) for plane, kind in planes} | {one[0]: one for one in planes}
        for part in grouping.split(" + "):
            series, parallel, name = re.findall(r"^(\d+)s(\d+)p(?: of (.+))?$", part)[0]
            plane = named[name] if name else min(planes)
            planes[plane] -= int(series) * int(parallel)
            self.trackers.append((int(series), int(parallel), types["modules"][plane[1]]))
        self.possible = all(left >= 0 for left in planes.values())
        self.ways = self._ways()

    def ends(self, name: str) -> list[str]:
        """The equipment at both ends of a cable."""
        return [self.job["cables"][name][end].partition(".")[0] for end in ("from", "to")]

    def _ways(self) -> dict[str, tuple[str, ...]]:
        """The fewest PV cables from each device to the controller."""
        array = sorted(name for name, cable in self.job["cables"].items() if cable["class"] == "PV")
        ways: dict[str, tuple[str, ...]] = {self.controller: ()}
        further: dict[str, tuple[str, ...]] = ways
        while further:
            further = {}
            for name in array:
                for here, there in (self.ends(name), self.ends(name)[::-1]):
                    if here in ways and there not in ways:
                        further.setdefault(there, (name, *ways[here]))
            ways |= further
        return ways

    def way(self, name: str) -> tuple[str, ...]:
        """The cables from one to the controller, itself first; none where they do not lead there."""
        reached = [self.ways[end] for end in self.ends(name) if end in self.ways]
        return (name, *min(reached, key=len)) if reached else ()

    def strings(self, name: str, series: int, parallel: int) -> int:
        """How many strings a cable carries: as the cables to modules or to strings tell, all where they do not."""
        way = self.way(name)
        behind = {one: cables for one, cables in self.ways.items() if cables and cables[-1] == way[-1]}
        inner = {end for one, cables in behind.items() for end in self.ends(cables[0]) if end != one}
        modules = [cables for one, cables in behind.items() if self.equipment[one]["kind"] == "solar module"]
        outer = [cables for one, cables in behind.items() if one not in inner]
        told, each = (modules, series) if len(modules) == series * parallel else (outer, 1)
        if len(way) == 1 or len(told) != each * parallel:
            return parallel
        return min(math.ceil(sum(name in cables for cables in told) / each), parallel) or parallel

    def purpose(self, name: str) -> Purpose | None:
        """What a cable is for, None where the job does not tell."""
        cable = self.job["cables"][name]
        made = {"PV": self._array, "mains": self._mains, "battery DC": self._direct}[cable["class"]](name, cable)
        return made and made._replace(limit=value(cable, "drop limit", DROPS[made.circuit]))

    def _direct(self, name: str, cable: Data) -> Purpose | None:
        if self.battery not in self.ends(name):
            return None
        absorption, short = value(self.bank, "absorption"), value(self.bank, "short circuit") or None
        highest = max(absorption, value(self.bank, "equalise"))
        readings = [("battery at absorption", absorption, "V")]
        if self.controller in self.ends(name):
            supply = ("absorption voltage", absorption, "V")
            return Purpose("controller to battery", self.output, self.output, supply, highest, short, True, 0, readings)
        amperes, volts = value(cable, "amperes"), value(cable, "volts", value(self.bank, "nominal"))
        load = f"{cable.get('importance') or 'important'} load"
        return Purpose(load, amperes, amperes, ("supply", volts, "V"), highest, short, False, 0, readings)

    def _mains(self, name: str, cable: Data) -> Purpose | None:
        kinds = [self.equipment[end]["kind"] for end in self.ends(name)]
        feeding = min((FEEDS.index(kind) for kind in kinds if kind in FEEDS), default=None)
        if feeding is None:
            return None
        sources = [value(one, "short circuit") for one in self.equipment.values() if one["kind"] in FEEDS[:3]]
        amperes, volts = value(cable, "amperes"), value(cable, "volts")
        supply, live = ("supply", volts, "V"), int(cable["cores"]) - 1
        longer = self.rules.on_board if FEEDS[feeding] in FEEDS[1:3] else 1.0
        poles = live if self.rules.all_poles else max(1, live - 1)
        prospective = max(sources) if sources and all(sources) else None
        return Purpose("mains", amperes, amperes, supply, volts, prospective, False, 0, [supply], longer, poles)

    def _array(self, name: str, _: Data) -> Purpose | None:
        array = sorted(one for one, its in self.job["cables"].items() if its["class"] == "PV")
        way, inputs = self.way(name), [one for one in array if self.controller in self.ends(one)]
        if not way or inputs.index(way[-1]) >= len(self.trackers):
            return None
        tracker = inputs.index(way[-1])
        series, parallel, module = self.trackers[tracker]
        strings = self.strings(name, series, parallel)
        isc, voc, vmp, imp = (value(module, key) for key in ("isc", "voc", "vmp", "imp"))
        air = self.job["temperatures"]
        warmer = value(air, "cell", value(air, "hottest") + CELLS) - STANDARD
        of_vmp, of_voc = share(module, "vmp", vmp), share(module, "voc", voc)
        if of_vmp is None:
            of_vmp = (share(module, "pmp", vmp * imp) or 0.0) - (share(module, "isc", isc) or 0.0)
        hot = ("string's hot Vmp", series * vmp * (1 + of_vmp * warmer), "V")
        warm = hot if of_voc is None else ("string's hot Voc", series * voc * (1 + of_voc * warmer), "V")
        coldest = value(air, "coldest")
        tabled = (float(row["factor"]) for row in rows("cold_nec_690_7_a") if float(row["down_to_c"]) <= coldest)
        colder = 1 + of_voc * (coldest - STANDARD) if of_voc is not None else first(tabled)
        cold = series * voc * colder
        readings = [warm, ("open circuit, cells at 25 °C", series * voc, "V"), ("string's cold Voc", cold, "V")]
        readings.append(("short circuit in full sun", strings * isc, "A"))
        back, most = value(self.bank, "short circuit"), (1 + COLD_MARGIN) * cold
        imax = round(BRIGHTER * isc * max(strings, parallel - strings), 9)
        prospective = max(back, BRIGHTER * isc * parallel) if back else None
        made = Purpose("array", imax, strings * imp, hot, most, prospective, True, 0, readings)
        return made._replace(way=way, tracker=tracker)
