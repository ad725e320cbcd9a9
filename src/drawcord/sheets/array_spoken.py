"""The comparison of an array's groupings as plain text for a terminal."""

from collections.abc import Sequence

from drawcord.coach.coach import Coach
from drawcord.plan.array import ORDER, Array, Offered
from drawcord.plan.inherited import Reuse
from drawcord.sheets.array_report import CAUTIONS, figures_of, findings_of, margin
from drawcord.sheets.basis import CHECKED, basis_lists
from drawcord.sheets.inherited import figures_along, findings_along
from drawcord.sheets.lines import lines
from drawcord.sheets.spoken import cautions_text
from drawcord.sheets.tables import LINE, Rows, text_table
from drawcord.wire.strings import shade
from drawcord.wire.tracked import Tracked
from drawcord.words.figure import Figure
from drawcord.words.finding import Finding

MOST_TOLD = 20  # of the groupings that fell out, and of those held against an inherited cable; `--json` has all


def array_text(coach: Coach, array: Array, runs: Sequence[Reuse]) -> str:
    """The winner at a glance, the efficient set, why the others fell out, inherited cables, the chain of figures."""
    fitted = array.fitted
    modules = ", ".join(f"{len(plane.places)} of {plane.module.name} ({plane.name})" for plane in fitted.planes)
    out = [f"{coach.rig.name}: {modules} on {fitted.controller.name}, {fitted.battery.name}", ""]
    if not array.offered:
        out += lines("NO GROUPING FITS.", LINE)
    else:
        out += [*_glance(array), "", text_table(_table(array)).rstrip(), "", *lines(ORDER, LINE), ""]
        for one in array.offered:
            out += [*_offered(one), ""]
    out += [line for one in array.findings for line in finding_lines(one)]
    out += ["Fell out:"] if array.fell_out else []
    for fallen in array.fell_out[:MOST_TOLD]:
        left = fallen.judged.grouping.left_out
        out += lines(f"{fallen.name}{f', {left} left out' if left else ''}: {fallen.reason}", LINE, "  ")
    if len(array.fell_out) > MOST_TOLD:
        out.append(f"  and {len(array.fell_out) - MOST_TOLD} more: --json lists them")
    out.append("")
    for run in runs:
        out += [*_inherited(run), ""]
    if array.offered:
        out += [f"The figures of {array.offered[0].name}:", *figure_lines(figures_of([array.offered[0].judged])), ""]
    judged = [one.judged for one in array.offered]
    figures = [*figures_of(judged), *figures_along(runs)]
    findings = [*findings_of(judged), *findings_along(runs)]
    for heading, sentences in basis_lists(fitted.rules, figures, findings):
        out += list_lines(heading, sentences)
    return "\n".join([*out, *lines(CHECKED, LINE), "", cautions_text(CAUTIONS)])


def figure_lines(figures: list[Figure]) -> list[str]:
    """Figures with their working, one after the other, each once."""
    said = (f"{f.name}: {f.value:.4g} {f.unit} = {f.formula} [{f.source}]" for f in dict.fromkeys(figures))
    return [line for text in said for line in lines(text, LINE, "  ")]


def finding_lines(finding: Finding) -> list[str]:
    """A finding with its source."""
    text = f"{finding.severity.name.capitalize()}, {finding.place}: {finding.sentence} [{finding.source}]"
    return lines(text, LINE, "  ")


def list_lines(heading: str, sentences: list[str]) -> list[str]:
    """A heading and what stands under it, nothing if nothing does."""
    return [heading, *(line for one in sentences for line in lines(one, LINE, "  - "))] if sentences else []


def _glance(array: Array) -> list[str]:
    winner = array.offered[0]
    out = lines(f"At a glance, {winner.name}:", LINE)
    for one in winner.judged.trackers:
        for sentence in _sentences(one, array):
            out += lines(sentence, LINE, "  ")
    return out


def _sentences(one: Tracked, array: Array) -> list[str]:
    fitted, touch = array.fitted, array.fitted.rules.touch
    cold, left = one.cold.with_margin.value, margin(one, array).value
    most = max((bound for bound in (touch.wet, touch.dry) if cold > bound), default=None)
    danger = {touch.wet: "dangerous to touch when wet", touch.dry: "dangerous to touch even when dry", None: "below"}
    needed = fitted.battery.highest + fitted.controller.running_margin
    starts = fitted.battery.highest + fitted.controller.starting_margin
    margin_share, lost = 100 * fitted.rules.cold_margin.value, 100 * array.drop_share
    cold_said = (
        f"cold Voc {cold:.1f} V at {fitted.climate.coldest:.3g} °C, with {margin_share:g} % margin; the controller "
        f"bears {fitted.controller.highest_volts:g} V: {left:.1f} V to spare"
    )
    hot_said = (
        f"hot Vmp {one.reaching.value:.1f} V at the controller with cells of {fitted.climate.hottest_cell:.3g} °C and "
        f"{lost:g} % lost on the way; {needed:g} V are needed to charge to the highest voltage"
    )
    start_said = f"to start, {starts:g} V open circuit are needed; with hot cells there are {one.starting.value:.1f} V"
    return [
        cold_said,
        f"touch: {danger[most]} ({touch.wet:g} V wet, {touch.dry:g} V dry)",
        hot_said,
        start_said,
        f"Imax {one.imax.value:.1f} A; the controller bears {fitted.controller.short_circuit_amperes:g} A",
        f"string fuses: {_fuses(one)}",
        shade(one.strings),
    ]


def _fuses(one: Tracked) -> str:
    back, bears = one.fuse.feedback.value, one.fuse.bears.value
    if not one.fuse.needed:
        return f"none needed: {back:.1f} A can be fed back into a string that bears {bears:g} A"
    rating = f"{one.fuse.rating.value:g} A each" if one.fuse.rating else "needed, and none fits"
    return f"{rating}: {back:.1f} A can be fed back into a string that bears {bears:g} A"


def _table(array: Array) -> Rows:
    header = ["grouping", "power [W]", "charge [A]", "clipped [A]", "cold Voc [V]", "hot Vmp [V]", "Imax [A]", "fuses"]
    rows = [header]
    for one in array.offered:
        each, judged = one.judged.trackers, one.judged
        rows.append(
            [
                one.name,
                f"{judged.watts.value:.0f}",
                f"{judged.offered.value - judged.clipped.value:.1f}",
                f"{judged.clipped.value:.1f}",
                " + ".join(f"{t.cold.with_margin.value:.1f}" for t in each),
                " + ".join(f"{t.reaching.value:.1f}" for t in each),
                " + ".join(f"{t.imax.value:.1f}" for t in each),
                f"{one.merits.fuses}",
            ]
        )
    return rows


def _offered(one: Offered) -> list[str]:
    best = f"best at {', '.join(one.best_at)}" if one.best_at else "best at nothing alone, beaten by none in everything"
    out = lines(f"{one.name}: {best}.", LINE)
    for sentence in dict.fromkeys(shade(each.strings) for each in one.judged.trackers):
        out += lines(sentence, LINE, "  ")
    return out + [line for finding in one.judged.findings for line in finding_lines(finding)]


def _inherited(one: Reuse) -> list[str]:
    """The verdict on a cable that was there before, which groupings it carries, and the chain of figures."""
    run = one.run
    out = [f"Inherited cable {one.name}, {run.section}, insulation for {run.insulation:g} °C:"]
    for sentence in one.verdict:
        out += lines(f"{sentence}.", LINE, "  ")
    out += [line for finding in one.findings for line in finding_lines(finding)]
    told = [
        f"{each.name}: {'; '.join(each.against) or 'carried'}; drop {each.drop.percent.value:.2f} %"
        for each in one.groupings[:MOST_TOLD]
    ]
    if len(one.groupings) > MOST_TOLD:
        told.append(f"and {len(one.groupings) - MOST_TOLD} more: --json lists them")
    out += list_lines("  Groupings on one pair of conductors, the one that charges most first:", told)
    beyond = one.capacity.bearing.beyond if one.capacity else ()
    out += list_lines("  Added practice that cannot answer:", list(beyond))
    return [*out, *(["  The chain of figures:", *figure_lines(list(one.figures))] if one.figures else [])]
