"""The published tables, read as data, and the figures of the two rule sets that a job chooses from."""

import csv
import math
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import NamedTuple, TypeVar

TABLES = Path(__file__).parents[1] / "tables"
PER_KELVIN = {75: 0.00323, 20: 0.00393}  # what copper's resistance gains, by its table: NEC chapter 9, NBS handbook 100
Value = TypeVar("Value")


class Method(NamedTuple):
    """How to say what a conductor carries: tables in an enclosure and in free air, of heat and of neighbours.

    Neighbours count where they are together for more than `bundle_mm`; so many `together` count as one.
    """

    enclosed: str
    free_air: str
    heat: tuple[str, ...]
    bundle: str
    bundle_mm: float
    together: int


class Rules(NamedTuple):
    """A rule set: what terminals bear [°C], ratings of devices, what a source on board makes of its current, bonds."""

    methods: tuple[Method, ...]
    terminals: int
    ratings: str
    mains_ratings: str
    on_board: float
    next_size_up: bool
    wires: str
    bond: str
    all_poles: bool  # whether mains devices open the neutral as well


LONGER = BRIGHTER = 1.25  # NEC 690.8; Europe takes the first over, and has the second in IEC 62548
COLD_MARGIN, CELLS, ROOF = 0.03, 35, 33  # a share; how much hotter than the air cells and a sunlit roof are [K]
DROPS = {"array": 0.02, "controller to battery": 0.01, "important load": 0.03, "other load": 0.1, "mains": 0.03}
FREE, HOT = "ampacity_nec_310_17", ("ambient_nec_310_15_b_1",)
NEC = Method("ampacity_nec_310_16", FREE, HOT, "bundle_nec_310_15_c_1", 609.6, 1)
CFR = Method("ampacity_cfr_183_425", "", ("ambient_cfr_183_425",), "bundle_cfr_183_425", 0, 1)
HEAT = ("ambient_iec_60364_5_52", "ambient_en_50618")
IEC = Method("ampacity_iec_60364_5_52", "ampacity_en_50618", HEAT, "bundle_iec_60364_5_52", 0, 2)
NEC_RATINGS = "ratings_nec_240_6_a"
RULES = {
    "US": Rules((NEC, CFR), 60, NEC_RATINGS, NEC_RATINGS, 1.25, True, "AWG", "8 AWG", False),
    "Europe": Rules((IEC,), 70, "ratings_iec_60269", "ratings_iec_60898", 1.0, False, "mm2", "6 mm2", True),
}


@cache
def rows(name: str) -> list[dict[str, str]]:
    """The rows of a table."""
    with (TABLES / f"{name}.csv").open(encoding="utf-8") as file:
        return list(csv.DictReader(file))


def first(some: Iterable[Value]) -> Value:
    """The first of some. Raises LookupError where there is none: beyond the tables."""
    for one in some:
        return one
    raise LookupError("beyond the published tables")


def up_to(name: str, at: float) -> list[str]:
    """The cells of the first row whose bound, in its first column, is not below `at`. Raises LookupError."""
    cells = ([*row.values()] for row in rows(name))
    return first(row for row in cells if at <= float(row[0] or math.inf))


def by_celsius(row: dict[str, str]) -> dict[int, float]:
    """The cells of a row by the temperature in their header."""
    columns = (key.split("_at_") for key in row)
    return {int(key[1][:-2]): float(row["_at_".join(key)]) for key in columns if key[1:] and row["_at_".join(key)]}


def label(row: dict[str, str]) -> str:
    """The section of a row as a job says it."""
    return f"{row['size_awg']} AWG" if "size_awg" in row else f"{row['area_mm2']} mm2"


def area(section: str) -> float:
    """The section of a conductor as a job says it [mm²]; of a gauge by ASTM B258."""
    size, _, unit = section.partition(" ")
    gauge = 1 - int(size[0]) if "/" in size else float(size)
    return math.pi / 4 * (0.127 * 92 ** ((36 - gauge) / 39)) ** 2 if unit == "AWG" else gauge


@cache
def conductors(metal: str, celsius: float) -> dict[str, list[tuple[float, str, float]]]:
    """By standard, the conductors from thin to thick: mm², label, Ω/km at a temperature."""
    found: dict[str, list[tuple[float, str, float]]] = {}
    for unit, at, per, metres in (("AWG", 75, "kft", 304.8), ("mm2", 20, "km", 1000)):
        for row in rows(f"resistance_{unit.lower()}"):
            ohm = float(row[f"{metal}_ohm_per_{per}_at_{at}_c"]) * 1000 / metres * (1 + PER_KELVIN[at] * (celsius - at))
            found.setdefault(unit, []).append((area(label(row)), label(row), ohm))
    return {unit: sorted(some) for unit, some in found.items()}


@cache
def ampacity(name: str, section: str, bears: float) -> tuple[int, float]:
    """The hottest column that insulation bears, and what a section carries in it [A]. Raises LookupError."""
    columns = first(by_celsius(row) for row in rows(name) if label(row) == section)
    return first((column, amperes) for column, amperes in sorted(columns.items(), reverse=True) if column <= bears)


@cache
def carried(
    method: Method, section: str, bears: float, celsius: float, count: int, long: int, *, free: bool
) -> tuple[int, float, float, float]:
    """Column [°C], amperes in it, and the factors of heat and neighbours. Raises LookupError beyond the tables."""
    if free and method.free_air:
        try:
            column, amperes = ampacity(method.free_air, section, bears)
        except LookupError:
            free = False
    if not (free and method.free_air):
        free, (column, amperes) = False, ampacity(method.enclosed, section, bears)
    hot = (row for name in method.heat for row in rows(name) if celsius <= float(row["up_to_c"]))
    heat = first(factors[column] for factors in map(by_celsius, hot) if column in factors)
    together = math.ceil(count / (1 if free else method.together))
    crowd = float(up_to(method.bundle, together)[1]) / 100 if long > method.bundle_mm else 1.0
    return column, amperes, heat, crowd


def rated(name: str, amperes: float) -> float:
    """The next standard rating at or above a current that is no rating of fuses alone [A]. Raises LookupError."""
    ratings = (float(row["rating_a"]) for row in rows(name) if row["fuse_only"] == "no")
    return first(one for one in ratings if amperes <= one)
