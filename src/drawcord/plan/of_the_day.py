"""What a string reads on the day: open circuit at its cells' temperature, short circuit in the sun there is."""

from drawcord.wire.coefficient import STANDARD_CELSIUS
from drawcord.wire.module import Module
from drawcord.words.figure import Figure

FULL_SUN = 1000  # W/m², standard test conditions


def open_circuit(module: Module, series: int, cell: float) -> Figure:
    """The open-circuit voltage of `series` modules whose cells have `cell` [°C]; as rated without a coefficient."""
    share = module.of_voc.relative(module.voc) if module.of_voc else 0.0
    value = series * module.voc * (1 + share * (cell - STANDARD_CELSIUS))
    known = f"maker's coefficient {module.of_voc}"
    source = known if module.of_voc else "maker's sheet, which has no coefficient of Voc: as rated"
    formula = f"{series} · {module.voc:g} V · (1 + {share:.6g}/K · ({cell:g} - {STANDARD_CELSIUS:g}) K)"
    return Figure(f"open circuit, cells at {cell:g} °C", value, "V", formula, source)


def short_circuit(module: Module, parallel: int, sun: float) -> Figure:
    """The short-circuit current of `parallel` strings in `sun` [W/m²], which it follows."""
    value = parallel * module.isc * sun / FULL_SUN
    formula = f"{parallel} · {module.isc:g} A · {sun:g} / {FULL_SUN}"
    return Figure(f"short circuit at {sun:g} W/m²", value, "A", formula, "Isc follows the sun: IEC 60891 (from memory)")
