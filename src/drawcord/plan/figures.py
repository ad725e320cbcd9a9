"""The figures of a circuit: the chain that leads to its cable and device, and what to read when it is switched on."""

from collections.abc import Sequence

from drawcord.plan.fitted import Fitted
from drawcord.plan.purpose import Purpose
from drawcord.plan.section import Tried
from drawcord.routes.route import Route
from drawcord.wire.fill import least_inside
from drawcord.wire.rulesets import RuleSet
from drawcord.words.figure import Figure

Company = Sequence[Sequence[float]]


def chain(wanted: Purpose, chosen: Tried | None) -> tuple[Figure, ...]:
    """From the current the circuit is built for to the drop that is wanted, as a sheet prints it."""
    limit = Figure(
        "largest drop wanted", 100 * wanted.limit.value, "%", f"{100 * wanted.limit.value:g} %", wanted.limit.source
    )
    carries = chosen.carrying if chosen else None
    lost = chosen.drop if chosen else None
    others = (one.amperes for one in carries.others) if carries else ()
    return (
        *(carries.figures if carries else (wanted.imax,)),
        *others,
        wanted.supply,
        *(lost or ()),
        limit,
    )


def inside(route: Route, apart: int, chosen: Tried | None, company: Company, rules: RuleSet) -> tuple[Figure, ...]:
    """How large a raceway has to be where the route runs in one, which is in rooms, for all that lies in it.

    `company`: the diameters [mm] of other cables beside this one's cores, stretch by stretch.
    """
    if chosen is None or not any(leg.kind == "room" for leg in route.legs):
        return ()
    own = [chosen.cable.diameter_mm] * apart
    fullest = [least_inside(rules.fill, [*own, *others]) for others in company or ((),)]
    return (max(fullest, key=lambda figure: figure.value),)


def readings(wanted: Purpose, fitted: Fitted, chosen: Tried | None) -> tuple[Figure, ...]:
    """What a meter shows at commissioning."""
    sheet = "maker's sheet, standard test conditions"
    found: list[Figure] = []
    if one := wanted.tracked:
        module, series, parallel = one.strings.plane.module, one.strings.series, wanted.strings
        at_rating = Figure(
            "open circuit, cells at 25 °C", series * module.voc, "V", f"{series} · {module.voc:g} V", sheet
        )
        full_sun = Figure(
            "short circuit in full sun", parallel * module.isc, "A", f"{parallel} · {module.isc:g} A", sheet
        )
        found += [one.starting, at_rating, one.cold.string, full_sun]
    elif wanted.mains:
        found.append(wanted.supply)
    else:
        battery = fitted.battery
        found.append(
            Figure("battery at absorption", battery.absorption, "V", f"{battery.absorption:g} V", battery.name)
        )
    if chosen and chosen.drop:
        found.append(chosen.drop.volts)
    return tuple(found)
