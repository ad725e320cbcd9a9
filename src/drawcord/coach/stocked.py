"""The shop's files of types, one a kind; a shop that has none plans routes all the same."""

from pydantic import Field

from drawcord.coach.catalogue import BatteryType, CableType, ControllerType, DeviceType, ModuleType
from drawcord.coach.closed import Closed, Id
from drawcord.coach.rig import Format, Unit


class Modules(Closed):
    """Types of solar modules that a shop knows."""

    format: Format
    units: Unit = None
    modules: dict[Id, ModuleType] = Field(description="The types, each by an id.")


class Controllers(Closed):
    """Types of charge controllers that a shop knows."""

    format: Format
    units: Unit = None
    controllers: dict[Id, ControllerType] = Field(description="The types, each by an id.")


class Batteries(Closed):
    """Types of battery banks that a shop knows."""

    format: Format
    units: Unit = None
    batteries: dict[Id, BatteryType] = Field(description="The types, each by an id.")


class Cables(Closed):
    """Types of cables that a shop stocks."""

    format: Format
    units: Unit = None
    cables: dict[Id, CableType] = Field(description="The types, each by an id.")


class Devices(Closed):
    """Types of breakers, fuses and switches that a shop stocks."""

    format: Format
    units: Unit = None
    devices: dict[Id, DeviceType] = Field(description="The types, each by an id.")


STOCKED: dict[str, type[Closed]] = {
    "modules": Modules,
    "controllers": Controllers,
    "batteries": Batteries,
    "cables": Cables,
    "devices": Devices,
}
