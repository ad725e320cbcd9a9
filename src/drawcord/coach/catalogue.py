"""Types of solar modules, controllers, batteries, cables and devices, as their makers' sheets have them."""

import math
import re
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, BeforeValidator, Field, PlainValidator, ValidationInfo, WithJsonSchema
from pydantic import model_validator as validator

from drawcord.coach.closed import Closed, Id
from drawcord.coach.kinds import Zone
from drawcord.wire import battery, cable, controller, device, module
from drawcord.wire.coefficient import Quantity, TemperatureCoefficient, parse_coefficient
from drawcord.wire.conductor import Metal
from drawcord.words.amount import NUMBER, number, shown, typed
from drawcord.words.quantity import Amperes, Celsius, Positive, Thickness, Volts, Whole

Carries = Literal["PV", "battery DC", "mains", "data", "coax"]

_LOSS = re.compile(rf"({NUMBER}) *dB ?/ ?m", re.IGNORECASE)


def _coefficient(of: Quantity) -> PlainValidator:
    """Reads a coefficient with the rating that it changes; 1 stands in where that is wrong itself."""

    def read(value: object, info: ValidationInfo) -> TemperatureCoefficient:
        known = info.data or {}
        names = ("vmp", "imp") if of == "Pmp" else (of.lower(),)
        return parse_coefficient(value, of, math.prod(known.get(name, 1.0) for name in names))

    return PlainValidator(read)


def _text(*examples: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "examples": list(examples)})


def _section(value: str) -> str:
    cable.area_mm2(value)
    return value


def _loss(value: object) -> float:
    found = _LOSS.fullmatch(typed(value))
    if not found:
        raise ValueError(f"{shown(value)} is no loss: write 0.22 dB/m")
    return float(number(found[1], value))


_OF_VOLTS = _text("-0.27 %/°C", "-0.13 V/°C", "-134 mV/°C")
OfVoc = Annotated[TemperatureCoefficient, _coefficient("Voc"), _OF_VOLTS]
OfVmp = Annotated[TemperatureCoefficient, _coefficient("Vmp"), _OF_VOLTS]
OfPmp = Annotated[TemperatureCoefficient, _coefficient("Pmp"), _text("-0.35 %/°C", "-0.7 W/°C")]
OfIsc = Annotated[TemperatureCoefficient, _coefficient("Isc"), _text("0.05 %/°C", "5 mA/°C")]
Section = Annotated[str, AfterValidator(_section), _text("10 AWG", "6 mm2")]
Loss = Annotated[float, BeforeValidator(_loss), _text("0.22 dB/m")]  # [dB/m]


class ModuleType(Closed):
    """A solar module; its ratings stand for standard test conditions."""

    name: str = Field(description="What people call it.")
    voc: Volts = Field(description="Open-circuit voltage.")
    isc: Amperes = Field(description="Short-circuit current.")
    vmp: Volts = Field(description="Voltage at the maximum power point.")
    imp: Amperes = Field(description="Current at the maximum power point.")
    voc_coefficient: OfVoc | None = Field(
        None, description="Change of Voc with each degree; without it a published table stands in."
    )
    vmp_coefficient: OfVmp | None = Field(
        None, description="Change of Vmp with each degree; it or that of Pmp is needed."
    )
    pmp_coefficient: OfPmp | None = Field(None, description="Change of the power with each degree.")
    isc_coefficient: OfIsc | None = Field(None, description="Change of Isc with each degree.")
    series_fuse: Amperes = Field(description="The largest series fuse it bears.")
    long: Positive = Field(description="Its length.")
    wide: Positive = Field(description="Its width.")
    lead: Positive = Field(description="The length of each lead.")
    connector: str = Field(description="The shop's code for its family of PV connectors (IEC 62852).")

    def made(self) -> module.Module:
        """The module as circuits are worked out with it. Raises ValueError."""
        return module.Module(
            name=self.name,
            voc=self.voc,
            isc=self.isc,
            vmp=self.vmp,
            imp=self.imp,
            series_fuse=self.series_fuse,
            long_mm=self.long,
            wide_mm=self.wide,
            lead_mm=self.lead,
            connector=self.connector,
            of_voc=self.voc_coefficient,
            of_vmp=self.vmp_coefficient,
            of_pmp=self.pmp_coefficient,
            of_isc=self.isc_coefficient,
        )

    @validator(mode="after")
    def _possible(self) -> Self:
        self.made()
        return self


class ControllerType(Closed):
    """A charge controller; its input limits hold for each tracker."""

    name: str = Field(description="What people call it.")
    highest_volts: Volts = Field(description="The highest input voltage.")
    short_circuit: Amperes = Field(description="The largest short-circuit current of an array at its input.")
    running_margin: Volts = Field(description="How far above the battery the array has to be to charge.")
    starting_margin: Volts = Field(description="How far above the battery it has to be to start charging.")
    output: Amperes = Field(description="The output current.")
    trackers: Whole = Field(1, ge=1, le=8, description="How many trackers it has, each with an input of its own.")
    terminals: tuple[Section, Section] = Field(description="The thinnest and thickest conductor of its terminals.")
    grounding: controller.Grounding = Field(description="The pole that array and battery share, if any.")

    def made(self) -> controller.Controller:
        """The controller as circuits are worked out with it. Raises ValueError."""
        thin, thick = self.terminals
        return controller.Controller(
            name=self.name,
            highest_volts=self.highest_volts,
            short_circuit_amperes=self.short_circuit,
            running_margin=self.running_margin,
            starting_margin=self.starting_margin,
            output_amperes=self.output,
            trackers=self.trackers,
            terminal_mm2=(cable.area_mm2(thin), cable.area_mm2(thick)),
            grounding=self.grounding,
        )

    @validator(mode="after")
    def _possible(self) -> Self:
        self.made()
        return self


class BatteryType(Closed):
    """A battery bank."""

    name: str = Field(description="What people call it.")
    nominal: Volts = Field(description="Nominal voltage.")
    absorption: Volts = Field(description="Absorption voltage.")
    equalise: Volts | None = Field(None, description="Equalising voltage, if it is equalised.")
    short_circuit: Amperes | None = Field(
        None, description="Prospective short-circuit current; left out if nobody knows it."
    )

    def made(self) -> battery.Battery:
        """The battery as circuits are worked out with it. Raises ValueError."""
        return battery.Battery(self.name, self.nominal, self.absorption, self.equalise, self.short_circuit)

    @validator(mode="after")
    def _possible(self) -> Self:
        self.made()
        return self


class CableType(Closed):
    """A cable that a shop stocks, one entry a section."""

    name: str = Field(description="What people call it.")
    serves: list[Carries] = Field(description="What it may carry.")
    section: Section | None = Field(None, description="The section of one core; left out for coax and data.")
    metal: Metal | None = Field(None, description="Plain or tinned copper; left out for coax and data.")
    insulation: Celsius = Field(description="What its insulation bears.")
    outside_diameter: Thickness = Field(
        description="Over one core's sheath, or the whole cable if it has one; counted up to the next whole millimetre."
    )
    smallest_bend: Positive = Field(description="Smallest bend radius.")
    sunlight_resistant: bool = Field(description="Whether it may lie in the sun.")
    zones: list[Zone] = Field(description="Where it may run.")
    loss: Loss | None = Field(None, description="Loss, if it is coax.")
    connector: str | None = Field(None, description="The family of PV connectors on its ends, if it comes with any.")

    def made(self) -> cable.CableType:
        """The cable as circuits are worked out with it. Raises ValueError."""
        return cable.CableType(
            name=self.name,
            section=self.section,
            metal=self.metal,
            insulation_celsius=self.insulation,
            diameter_mm=self.outside_diameter,
            sunlight_resistant=self.sunlight_resistant,
            zones=tuple(self.zones),
            bend_mm=self.smallest_bend,
            loss_db_per_m=self.loss,
        )

    @validator(mode="after")
    def _possible(self) -> Self:
        self.made()
        return self


class DeviceType(Closed):
    """A breaker, fuse or switch."""

    name: str = Field(description="What people call it.")
    kind: device.Kind = Field(description="What it is.")
    current: device.Current = Field("DC", description="The kind of current that its ratings are for.")
    volts: Volts = Field(description="Rated voltage, for that current.")
    amperes: Amperes = Field(description="Rated current.")
    interrupting: Amperes | None = Field(
        None, description="What it interrupts at that voltage; a breaker or fuse without it is refused."
    )
    polarised: bool = Field(False, description="Whether it opens in one direction of the current only.")
    switch_rated: bool = Field(False, description="Whether it may be opened under load.")
    poles: Whole = Field(1, ge=1, le=4, description="How many conductors it opens.")
    connector: str | None = Field(None, description="The family of its PV connectors, if cables plug into it.")

    def made(self) -> device.Device:
        """The device as circuits are worked out with it. Raises ValueError."""
        ratings = (self.volts, self.amperes, self.interrupting)
        return device.Device(
            self.name, self.kind, *ratings, self.polarised, self.switch_rated, self.poles, self.current
        )

    @validator(mode="after")
    def _possible(self) -> Self:
        self.made()
        if self.kind != "switch" and self.interrupting is None:
            raise ValueError(
                f"{self.name} has no interrupting rating at {self.volts:g} V {self.current}: write what its sheet "
                "says, such as `interrupting: 10 kA`; a device without one must not be relied on"
            )
        return self


class Types(Closed):
    """Types by id; an entry of a job replaces the shop's of the same id."""

    modules: dict[Id, ModuleType] = Field(default={}, description="Types of solar modules.")
    controllers: dict[Id, ControllerType] = Field(default={}, description="Types of charge controllers.")
    batteries: dict[Id, BatteryType] = Field(default={}, description="Types of battery banks.")
    cables: dict[Id, CableType] = Field(default={}, description="Types of cables.")
    devices: dict[Id, DeviceType] = Field(default={}, description="Types of breakers, fuses and switches.")

    def under(self, job: "Types") -> "Types":
        """These types with a job's laid over them, in order of their ids."""
        kinds = Types.model_fields
        return self.model_copy(
            update={kind: dict(sorted({**getattr(self, kind), **getattr(job, kind)}.items())) for kind in kinds}
        )
