"""What meters should read when a circuit is switched on, and the blanks to write what they did."""

from drawcord.plan.circuit import Circuit
from drawcord.plan.of_the_day import open_circuit, short_circuit
from drawcord.plan.plan import Plan
from drawcord.sheets.day_parts import Blanks, Block, Grid, Section, Steps
from drawcord.wire.tracked import Tracked

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
    names = sorted(plan.chosen)
    header = ["cable", "continuity, Ω", "polarity", "insulation, MΩ", "tested with, V", "torque", "label"]
    rows = [[name, "", "☐", "", "", "☐", "☐"] for name in names]
    blocks: list[Block] = [
        Blanks("On the day", ("date and time", "air, °C", "back of a module, °C", "sun, W/m²", "meter", "by")),
        Steps("Before anything is switched on", BEFORE, tick=True),
        Grid("Each cable", [header, *rows]),
    ]
    if plan.circuits:
        for one in plan.circuits.circuits:
            said = [[each.name, f"{each.value:.4g} {each.unit}", each.formula, ""] for each in one.readings]
            blocks.append(Grid(f"{one.cable}, {one.purpose.circuit}", [["reading", "expect", "as", "read"], *said]))
            if one.purpose.tracked:
                blocks += _by_weather(one, one.purpose.tracked)
    return Section("Readings", tuple(blocks) if names else (), fresh=True)


def _by_weather(one: Circuit, tracked: Tracked) -> list[Block]:
    module, series = tracked.strings.plane.module, tracked.strings.series
    volts = [open_circuit(module, series, cell) for cell in CELLS]
    amperes = [short_circuit(module, one.purpose.strings, sun) for sun in SUNS]
    by_cells = [["cells, °C", *map(str, CELLS)], ["Voc, V", *(f"{each.value:.1f}" for each in volts)]]
    by_sun = [["sun, W/m²", *map(str, SUNS)], ["Isc, A", *(f"{each.value:.1f}" for each in amperes)]]
    return [
        Grid(f"{one.cable}: string Voc by the temperature of the cells [{volts[0].source}]", by_cells),
        Grid(f"{one.cable}: Isc by the sun in the plane of the modules [{amperes[0].source}]", by_sun),
    ]
