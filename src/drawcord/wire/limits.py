"""What speaks against one tracker's strings: the controller, the battery, fuses, and hands."""

from drawcord.wire.battery import Battery
from drawcord.wire.controller import Controller
from drawcord.wire.rulesets import Touch
from drawcord.wire.tracked import Climate, Tracked
from drawcord.words.finding import Finding, Severity

NARROW, NARROW_BELOW = 1.02, -10.0
"""What one module in a hundred has beyond Voc with margin, in colder air than this [°C]: see the tests."""


def limits(
    place: str, one: Tracked, controller: Controller, battery: Battery, climate: Climate, touch: Touch
) -> list[Finding]:
    """What bars the strings (refusals) and what should be known of them (cautions)."""
    found: list[Finding] = []

    def say(severity: Severity, wrong: bool, sentence: str, source: str) -> None:
        if wrong:
            found.append(Finding(severity, place, sentence, source))

    cold, most, sheet = one.cold.with_margin, controller.highest_volts, "maker's sheet of the controller"
    refuse, caution = Severity.REFUSAL, Severity.CAUTION
    say(
        refuse,
        cold.value > most,
        f"{cold.value:.1f} V at {climate.coldest:.3g} °C is above the {most:g} V that the controller bears",
        cold.source,
    )
    say(
        caution,
        climate.coldest < NARROW_BELOW and most / NARROW < cold.value <= most,
        f"{cold.value:.1f} V at {climate.coldest:.3g} °C leaves less than 2 % to {most:g} V; in such cold one "
        "module in a hundred has that much more",
        "single-diode model over pvlib's open module table",
    )
    runs = battery.highest + controller.running_margin
    say(
        refuse,
        one.reaching.value < runs,
        f"{one.reaching.value:.1f} V are left on a hot afternoon, {runs:g} V are needed to charge",
        sheet,
    )
    starts = battery.highest + controller.starting_margin
    say(
        caution,
        one.starting.value < starts,
        f"{one.starting.value:.1f} V open circuit on a hot afternoon do not start the controller again while "
        f"the battery is at its highest: {starts:g} V are needed",
        sheet,
    )
    bears = controller.short_circuit_amperes
    say(
        refuse,
        one.imax.value > bears,
        f"{one.imax.value:.1f} A into a short circuit is above the {bears:g} A that the controller bears",
        one.imax.source,
    )
    fuse = one.fuse
    if fuse.needed and fuse.rating is None:
        sentence = (
            f"{one.strings.parallel} strings feed {fuse.feedback.value:.1f} A back into one that bears "
            f"{fuse.bears.value:g} A, and no standard fuse fits between"
        )
        say(refuse, True, sentence, fuse.feedback.source)
    if cold.value > touch.wet:
        where = "even when dry" if cold.value > touch.dry else "when wet"
        bound = touch.dry if cold.value > touch.dry else touch.wet
        say(
            caution, True, f"{cold.value:.1f} V: dangerous to touch {where} (above {bound:g} V)", touch.source
        )
    return found
