"""A solar module, as its maker's sheet has it."""

from dataclasses import dataclass

from drawcord.wire.coefficient import LEAST, MOST, TemperatureCoefficient
from drawcord.wire.possible import above_zero, named


@dataclass(frozen=True)
class Module:
    """Ratings at standard test conditions: `voc`, `vmp` [V], `isc`, `imp` [A].

    `series_fuse` is the largest series fuse [A]; `long_mm`, `wide_mm` its size and `lead_mm` the length of
    each lead [mm]; `connector` the shop's code for its family of PV connectors (IEC 62852). Of the
    coefficients that of Voc may be missing, since a published table stands in for it, and that of Isc; of
    Vmp and Pmp one is needed.

    Raises:
        ValueError: a number that no module can have, with the reason.

    """

    name: str
    voc: float
    isc: float
    vmp: float
    imp: float
    series_fuse: float
    long_mm: int
    wide_mm: int
    lead_mm: int
    connector: str
    of_voc: TemperatureCoefficient | None = None
    of_vmp: TemperatureCoefficient | None = None
    of_pmp: TemperatureCoefficient | None = None
    of_isc: TemperatureCoefficient | None = None

    def __post_init__(self) -> None:
        named("a module's name", self.name)
        named(f"the connector family of {self.name}", self.connector)
        for what, value, unit in (
            ("Voc", self.voc, "V"),
            ("Isc", self.isc, "A"),
            ("Vmp", self.vmp, "V"),
            ("Imp", self.imp, "A"),
            ("series fuse", self.series_fuse, "A"),
            ("length", self.long_mm, "mm"),
            ("width", self.wide_mm, "mm"),
            ("lead length", self.lead_mm, "mm"),
        ):
            above_zero(f"the {what} of {self.name}", value, unit)
        self._order("Vmp", self.vmp, "Voc", self.voc, "V", "a load only lowers the open-circuit voltage")
        self._order("Imp", self.imp, "Isc", self.isc, "A", "no load draws more than a short circuit")
        self._order("Isc", self.isc, "series fuse", self.series_fuse, "A", "its fuse would blow in full sun")
        self._coefficients()

    @property
    def watts(self) -> float:
        """Power at the maximum power point [W]."""
        return self.vmp * self.imp

    def _order(self, low: str, less: float, high: str, more: float, unit: str, why: str) -> None:
        if less >= more:
            raise ValueError(
                f"{self.name}: {low} of {less:g} {unit} is not below {high} of {more:g} {unit}: {why}"
            )

    def _coefficients(self) -> None:
        if self.of_vmp is None and self.of_pmp is None:
            raise ValueError(
                f"{self.name} needs a coefficient of Vmp or Pmp: no table says what heat leaves of its Vmp"
            )
        for of, coefficient, rated in (
            ("Voc", self.of_voc, self.voc),
            ("Vmp", self.of_vmp, self.vmp),
            ("Pmp", self.of_pmp, self.watts),
            ("Isc", self.of_isc, self.isc),
        ):
            if coefficient is None:
                continue
            if coefficient.of != of:
                raise ValueError(
                    f"{self.name}: {coefficient} is a coefficient of {coefficient.of}, not of {of}"
                )
            share = abs(coefficient.relative(rated))
            if not (0 if of == "Isc" else LEAST) <= share <= MOST:
                raise ValueError(
                    f"{self.name}: {coefficient} is {100 * share:.3g} % of its {of} a kelvin; modules lie "
                    f"between {100 * LEAST:g} and {100 * MOST:g} %: is it another unit?"
                )
