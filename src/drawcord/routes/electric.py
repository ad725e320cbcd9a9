"""What a route's actual length does to the voltage, and which conductor would keep the limit."""

from drawcord.routes.order import Order
from drawcord.wire.conductor import Conductor
from drawcord.wire.drop import Drop, drop, smallest
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding, Severity

POWER = ("PV", "battery DC", "mains")
Fall = tuple[Drop | None, Conductor | None]


def named(order: Order) -> Conductor | None:
    """The conductor that the job names for the cable, None where it names none or the cable is no power cable."""
    cable = order.cable
    if cable.carries not in POWER:
        return None
    return next((c for c in order.conductors if c.label == cable.conductor and c.metal == cable.metal), None)


def fall(order: Order, one_way: int) -> Fall:
    """The drop of the cable as ordered over `one_way` [mm], and the smallest conductor that keeps its limit.

    Where the job names no conductor, the drop is that of the smallest one. Both are None for data and coax.
    """
    cable = order.cable
    if cable.carries not in POWER or cable.amperes is None or cable.volts is None:
        return None, None
    celsius = order.coach.job.temperatures.conductor if order.coach.job else 75.0
    chosen = named(order)
    least = None
    if cable.drop_limit:
        standard = chosen.standard if chosen else "AWG"
        least = smallest(
            order.conductors,
            cable.amperes,
            cable.volts,
            one_way,
            celsius,
            limit_percent=100 * cable.drop_limit,
            standard=standard,
            metal=cable.metal,
        ).conductor
    used = chosen or least
    return (drop(cable.amperes, cable.volts, one_way, used, celsius) if used else None), least


def figures(order: Order, fallen: Fall) -> tuple[Figure, ...]:
    """The drop's figures with their working."""
    lost, least = fallen
    found = tuple(lost) if lost else ()
    if least:
        found += (
            Figure(
                f"smallest conductor within {100 * (order.cable.drop_limit or 0):g} % of the supply",
                round(least.area_mm2, 3),
                "mm²",
                f"{least.label}, the first of its table to keep the limit; ampacity is a separate question",
                least.source,
            ),
        )
    return found


def _unknown(order: Order) -> list[Finding]:
    """Why no drop of a power cable is worked out."""
    name, limit = order.name, order.cable.drop_limit
    if limit:
        sentence = f"no conductor of the table keeps {name} within {100 * limit:g} %, and the job names none"
        return [Finding(Severity.CAUTION, name, sentence, "published resistance tables")]
    sentence = f"the voltage drop of {name} is not worked out: give its `conductor` or a `drop limit`"
    return [Finding(Severity.NOTICE, name, sentence, "job")]


def judge(order: Order, fallen: Fall) -> list[Finding]:
    """Findings about the drop."""
    lost, least = fallen
    cable = order.cable
    if lost is None:
        return _unknown(order) if cable.carries in POWER else []
    if not cable.drop_limit or lost.percent.value <= 100 * cable.drop_limit:
        return []
    instead = f"{least.label} would keep it" if least else "no conductor of the table keeps it"
    sentence = (
        f"{order.name} loses {lost.volts.value:.2f} V, {lost.percent.value:.1f} % of {cable.volts:g} V, "
        f"over the limit of {100 * cable.drop_limit:g} %: {instead}"
    )
    return [Finding(Severity.CAUTION, order.name, sentence, lost.ohms.source)]
