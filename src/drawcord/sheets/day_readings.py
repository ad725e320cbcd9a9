"""What meters should read when a circuit is switched on, and the blanks to write what they did."""

from collections.abc import Sequence

from drawcord.plan.circuit import Circuit
from drawcord.plan.of_the_day import open_circuit, short_circuit
from drawcord.plan.plan import Plan
from drawcord.sheets.day_parts import Blanks, Block, Grid, Section, Steps
from drawcord.sheets.lengths import degrees, fahrenheit
from drawcord.sheets.tables import Rows

CELLS = (-10, 0, 10, 20, 30, 40, 50, 60, 70)  # °C
SUNS = (100, 200, 300, 400, 600, 800, 900, 1000)  # W/m²
# IEC 62446-1:2016 table 2 (from memory).
INSULATION = (
    "Insulation, array isolated, electronics off: at least 0.5 MΩ tested with 250 V below 120 V, at least 1 MΩ with "
    "500 V up to 500 V [IEC 62446-1:2016 table 2, from memory]"
)
BEFORE = (
    "Continuity of each core and of each bond",
    "Polarity at both ends, marked",
    INSULATION,
    "Every screw and lug to its maker's torque: ______ N·m, marked with paint",
    "Every connector locked; both halves of one maker and family",
)


def readings(plan: Plan) -> Section:
    """Per power circuit what to expect, and room for what was read; checks for every cable."""
    names, units = sorted(plan.chosen), plan.coach.units
    warm = "°F" if units == "in" else "°C"
    header = ["cable", "continuity, Ω", "polarity", "insulation, MΩ", "tested with, V", "torque", "label"]
    rows = [[name, "", "☐", "", "", "☐", "☐"] for name in names]
    day = ("date and time", f"air, {warm}", f"back of a module, {warm}", "sun, W/m²", "meter", "by")
    blocks: list[Block] = [
        Blanks("On the day", day),
        Steps("Before anything is switched on", BEFORE, tick=True),
        Grid("Each cable", [header, *rows]),
    ]
    if plan.circuits:
        expected = [row for one in plan.circuits.circuits for row in _expected(one, units)]
        if expected:
            blocks.append(Grid("Each circuit", [["circuit", "reading", "expect", "as", "read"], *expected]))
        arrays: dict[tuple[int, int], list[Circuit]] = {}  # those that bring the same current, together
        for one in plan.circuits.circuits:
            if one.purpose.tracked:
                arrays.setdefault((one.purpose.number, one.purpose.strings), []).append(one)
        for some in arrays.values():
            blocks += _by_weather(some, units)
    return Section("Readings", tuple(blocks) if names else ())


def _expected(one: Circuit, units: str) -> Rows:
    """What to read on a circuit, each with room to write it."""
    circuit = f"{one.cable}, {one.purpose.circuit}"
    return [
        [circuit, degrees(each.name, units), f"{each.value:.4g} {each.unit}", each.formula, ""] for each in one.readings
    ]


def _by_weather(some: Sequence[Circuit], units: str) -> list[Block]:
    """What the strings give on the day whose current these cables carry."""
    purpose, names = some[0].purpose, ", ".join(one.cable for one in some)
    if purpose.tracked is None:
        return []
    module, series = purpose.tracked.strings.plane.module, purpose.tracked.strings.series
    volts = [open_circuit(module, series, cell) for cell in CELLS]
    amperes = [short_circuit(module, purpose.strings, sun) for sun in SUNS]
    by_cells = [["cells, °C", *map(str, CELLS)], ["Voc, V", *(f"{each.value:.1f}" for each in volts)]]
    if units == "in":
        by_cells.insert(1, ["cells, °F", *map(fahrenheit, CELLS)])
    by_sun = [["sun, W/m²", *map(str, SUNS)], ["Isc, A", *(f"{each.value:.1f}" for each in amperes)]]
    return [
        Grid(f"{names}: string Voc by the temperature of the cells [{volts[0].source}]", by_cells),
        Grid(f"{names}: Isc by the sun in the plane of the modules [{amperes[0].source}]", by_sun),
    ]
