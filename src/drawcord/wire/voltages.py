"""What a string of modules reads on a cold morning and on a hot afternoon."""

from collections.abc import Iterable
from typing import NamedTuple

from drawcord.wire.coefficient import STANDARD_CELSIUS
from drawcord.wire.module import Module
from drawcord.wire.possible import one_or_more
from drawcord.wire.published import ColdFactor, Factor
from drawcord.words.figure import Figure

COLDEST, HOTTEST_CELL = -40.0, 100.0
"""Where the linear change with temperature is used [°C]; the tests hold it against the single-diode model."""


class ColdVoc(NamedTuple):
    """Open-circuit voltage at the coldest; limits are held against the last."""

    module: Figure
    string: Figure
    with_margin: Figure


def cold_voc(
    module: Module, series: int, coldest: float, table: Iterable[ColdFactor], margin: Factor
) -> ColdVoc:
    """Open-circuit voltage of `series` modules at `coldest` [°C], by the maker's coefficient if there is one.

    Without one the table serves, which stands for crystalline silicon. The margin is for the linear method,
    which reads low in the cold, and goes on the table as well.

    Raises:
        ValueError: no module, a temperature outside COLDEST to standard test conditions or the table.

    """
    one_or_more("the modules in series", series)
    if not COLDEST <= coldest < STANDARD_CELSIUS:
        raise ValueError(
            f"cold Voc is worked out from {COLDEST:g} °C to below {STANDARD_CELSIUS:g} °C, not at {coldest}"
        )
    one = _by_coefficient(module, coldest) or _by_table(module, coldest, table)
    string = Figure(
        "string's cold Voc",
        series * one.value,
        "V",
        f"{series} · {one.value:.6g} V",
        "modules in series add their voltages",
    )
    return ColdVoc(
        one,
        string,
        Figure(
            "string's cold Voc with margin",
            (1 + margin.value) * string.value,
            "V",
            f"(1 + {margin.value:g}) · {string.value:.6g} V",
            margin.source,
        ),
    )


def hot_vmp(module: Module, series: int, cell: float) -> Figure:
    """Voltage at the maximum power point of `series` modules whose cells have `cell` [°C].

    Raises:
        ValueError: no module, or a temperature below standard test conditions or above HOTTEST_CELL.

    """
    one_or_more("the modules in series", series)
    share, source = _vmp_share(module)
    return _hot("string's hot Vmp", module.vmp, share, source, series, cell)


def hot_voc(module: Module, series: int, cell: float) -> Figure:
    """Open-circuit voltage of `series` modules whose cells have `cell` [°C]; if unknown, Vmp, which is lower.

    Raises:
        ValueError: as `hot_vmp`.

    """
    if module.of_voc is None:
        return hot_vmp(module, series, cell)
    one_or_more("the modules in series", series)
    share = module.of_voc.relative(module.voc)
    return _hot("string's hot Voc", module.voc, share, f"maker's coefficient {module.of_voc}", series, cell)


def _hot(name: str, rated: float, share: float, source: str, series: int, cell: float) -> Figure:
    if not STANDARD_CELSIUS <= cell <= HOTTEST_CELL:
        raise ValueError(f"a hot cell has {STANDARD_CELSIUS:g} to {HOTTEST_CELL:g} °C, not {cell}")
    warmer = f"({cell:g} - {STANDARD_CELSIUS:g}) K"
    value = series * rated * (1 + share * (cell - STANDARD_CELSIUS))
    return Figure(name, value, "V", f"{series} · {rated:g} V · (1 + {share:.6g}/K · {warmer})", source)


def _vmp_share(module: Module) -> tuple[float, str]:
    """Change of Vmp as a share [1/K]: the maker's, or that of Pmp less the gain in Isc, which errs low."""
    if module.of_vmp is not None:
        return module.of_vmp.relative(module.vmp), f"maker's coefficient of Vmp {module.of_vmp}"
    if module.of_pmp is None:
        raise ValueError(f"{module.name} has no coefficient of Vmp or Pmp")
    share, source = module.of_pmp.relative(module.watts), f"maker's coefficient of Pmp {module.of_pmp}"
    if module.of_isc is None:
        return share, source
    return share - module.of_isc.relative(module.isc), f"{source} less that of Isc {module.of_isc}: P = V · I"


def _by_coefficient(module: Module, coldest: float) -> Figure | None:
    if module.of_voc is None:
        return None
    change = module.of_voc.per_kelvin(module.voc)
    return Figure(
        "module's cold Voc",
        module.voc + change * (coldest - STANDARD_CELSIUS),
        "V",
        f"{module.voc:g} V + {change:.6g} V/K · ({coldest:g} - {STANDARD_CELSIUS:g}) K",
        f"maker's coefficient {module.of_voc}; NEC 690.7(A)(1)",
    )


def _by_table(module: Module, coldest: float, table: Iterable[ColdFactor]) -> Figure:
    rows = sorted(table, key=lambda row: -row.down_to)
    row = next((row for row in rows if row.down_to <= coldest), None)
    if row is None:
        ends = f"{rows[-1].down_to:g} °C" if rows else "nowhere"
        raise ValueError(f"the table of cold factors ends at {ends}, not at {coldest}")
    return Figure(
        "module's cold Voc", row.factor * module.voc, "V", f"{row.factor:g} · {module.voc:g} V", row.source
    )
