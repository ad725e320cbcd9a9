"""How sure a load is: what the chances rest on, what is covered and what is not, as text and as plain data."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Any

from drawcord.load.cases import HIGH, Case, JobCases
from drawcord.load.sure import Short, Sure
from drawcord.sheets.lines import lines
from drawcord.sheets.tables import LINE, Rows, text_table
from drawcord.words.units import tape_length

SHOWN = 8  # cases not covered: past these only how many there are, and what they add up to
INDEPENDENT = (
    "Places are taken to be clear or blocked whatever the others are, and jobs to turn out whatever the others do."
)
BY_ITSELF = (
    "Each case is what the card of `drawcord look` comes to: no cable where it may not lie beside another, each in the "
    "type of the plan. What cables share then, and whether a longer one wants a thicker type, is worked out once it is "
    "known: `drawcord found`. Small parts are those of the plans."
)
NOTES = (INDEPENDENT, BY_ITSELF)


def percent(share: float) -> str:
    """A chance as people read it; what is not certain never reads as if it were."""
    shown = f"{100 * share:.1f}"
    if shown == "100.0" and share < 1 - 1e-9:
        return "over 99.9 %"
    return "under 0.1 %" if shown == "0.0" and share > 0 else f"{shown.removesuffix('.0')} %"


def sure_glance(sure: Sure) -> list[str]:
    """The confidence, and what is proved of the load."""
    reached = f"enough with {percent(sure.chance)}, asked for {percent(sure.wanted)}"
    if not sure.enough:
        reached = f"NOT SURE ENOUGH: {reached}; {_why_not(sure)}"
    tried = "tried on each case, as bring lays pieces: no cheaper purchase is as sure, no reel or piece can stay behind"
    return [f"{reached}; see HOW SURE", tried]


def sure_text(sure: Sure, jobs: Sequence[JobCases], units: str) -> list[str]:
    """The section: what the chances rest on, the cable needed, what is not covered."""
    out = ["HOW SURE"]
    for sentence in _sentences(sure, jobs):
        out += lines(sentence, LINE, "  ")
    out += ["", "CABLE NEEDED, of all cores", text_table(_needed(sure, jobs, units))]
    if sure.short:
        out += ["NOT COVERED", text_table(_short(sure, jobs, units))]
    return out


def sure_document(asked: tuple[Sure, Sequence[JobCases]] | None) -> dict[str, Any] | None:
    """The same as plain data; chances from 0 to 1; null where no confidence was asked for."""
    if asked is None:
        return None
    sure, jobs = asked
    return {
        "wanted": sure.wanted,
        "chance": round(sure.chance, 9),
        "possible": round(sure.possible, 9),
        "untried": round(sure.untried, 9),
        "enough": sure.enough,
        "jobs": [_job(sure, job) for job in jobs],
        "not_covered": [_not_covered(one) for one in sure.short],
        "assumed": list(NOTES),
    }


def _why_not(sure: Sure) -> str:
    if sure.untried:
        return f"no load is proved to be surer: {percent(sure.untried)} are cases too many to try"
    return f"no load is surer than {percent(sure.possible)}"


def _sentences(sure: Sure, jobs: Sequence[JobCases]) -> Iterator[str]:
    for job in jobs:
        count = len(job.places)
        if not count:
            yield f"{job.job}: nothing is unproven on its ways."
            continue
        what = "1 place" if count == 1 else f"{count} places"
        logged = len(job.logged)
        rest = "what its sketch says, else what the shop's preferences assume"
        if logged:
            by = f"For {logged} of them, what other jobs on the rig found counts as well; for the others it is {rest}."
        else:
            by = f"No job on its rig has found any of it yet, so how likely each is clear is an assumption: {rest}."
        yield f"{job.job}: {what} unproven on its ways. {by}"
    for job in jobs:
        named = [f"{cable} {percent(job.outcomes.no_way_for(cable))}" for cable in _may_have_none(job)]
        if named:
            whole = percent(job.outcomes.no_way)
            yield f"{job.job}: in {whole} some cable has no way at all, whatever is brought: {', '.join(named)}."
    if len(jobs) > 1:
        each = ", ".join(f"{job.job} {percent(1 - _missing(sure, job))}" for job in jobs)
        yield f"One by one: {each}; all of them together {percent(sure.chance)}."
    for job in jobs:
        if job.cut_short:
            yield f"{job.job}: the search for ways of {', '.join(job.cut_short)} was cut short, so there may be more."
    if sure.untried:
        yield f"Cases of {percent(sure.untried)} together are too many to try and count as not covered."
    yield from NOTES


def _may_have_none(job: JobCases) -> list[str]:
    return sorted({name for case in job.cases for name in case.without})


def _missing(sure: Sure, job: JobCases) -> float:
    return sum(one.chance for one in sure.short if one.job == job.job)


def _needed(sure: Sure, jobs: Sequence[JobCases], units: str) -> Rows:
    """By job and type: the plan with its bounds of measuring, and the most that a covered case takes."""
    rows = [["job", "type", "planned, low", "likely", "high", "most loaded for"]]
    for job in jobs:
        short = {id(one.case) for one in sure.short}
        covered = [_lengths(case) for case in job.cases if id(case) not in short]
        for type_id, bounds in sorted(job.needed.items()):
            most = max([bounds[HIGH], *(lengths[type_id] for lengths in covered)])
            rows.append([job.job, type_id, *(tape_length(mm, units) for mm in (*bounds, most))])
    return rows


def _lengths(case: Case) -> Counter[str]:
    """The cable of a case by type, at its high end [mm]."""
    found = Counter[str]()
    for run in case.runs:
        found[run.type] += run.cores * run.length
    return found


def _short(sure: Sure, jobs: Sequence[JobCases], units: str) -> Rows:
    by_id = {job.job: job for job in jobs}
    rows = [["chance", "job", "what turns out", "covering it takes"]]
    rows += [
        [percent(one.chance), one.job, _turns_out(one.case, by_id[one.job], units), _takes(one, units)]
        for one in sure.short[:SHOWN]
    ]
    if rest := sure.short[SHOWN:]:
        chance = percent(sum(one.chance for one in rest))
        rows.append([chance, "", f"{len(rest)} more cases together: --json has them", ""])
    return rows


def _turns_out(case: Case, job: JobCases, units: str) -> str:
    """The cables that go another way than planned."""
    said = [f"no way for {cable}" for cable in case.without]
    for cable, route in case.routes.items():
        if route and route.spaces != job.ways.get(cable):
            length = tape_length(route.cut_length[HIGH], units)
            said.append(f"{cable} by {' > '.join(route.spaces)}, {length}")
    return "; ".join(said) or "the ways of the plan"


def _takes(one: Short, units: str) -> str:
    if one.case.without:
        return "another way: no load does"
    if one.case.unsized:
        return f"a plan of its own: {', '.join(one.case.unsized)} is joined of several types"
    if one.buy:
        return "to buy besides: " + ", ".join(f"{number} × {name}" for name, number in Counter(one.buy).items())
    if not one.lacking:
        return "more cable than van and store have for all jobs at once"
    runs = [run for run in one.case.runs if run.type in one.lacking]
    each = ", ".join(f"{run.cores} × {tape_length(run.length, units)} of {run.type}" for run in runs)
    return f"{each}, each in one piece: no reel does, and no joint in reach"


def _job(sure: Sure, job: JobCases) -> dict[str, Any]:
    return {
        "job": job.job,
        "chance": round(1 - _missing(sure, job), 9),
        "unproven": list(job.places),
        "from_the_log": list(job.logged),
        "cut_short": list(job.cut_short),
        "no_way": round(job.outcomes.no_way, 9),
        "no_way_for": {cable: round(job.outcomes.no_way_for(cable), 9) for cable in _may_have_none(job)},
        "cable_needed": [
            {"type": kind, "chance": round(chance, 9), "low_mm": low, "likely_mm": likely, "high_mm": high}
            for kind in job.outcomes.types
            for (low, likely, high), chance in job.outcomes.of(kind)
        ],
    }


def _not_covered(one: Short) -> dict[str, Any]:
    return {
        "job": one.job,
        "chance": round(one.chance, 9),
        "without": list(one.case.without),
        "unsized": list(one.case.unsized),
        "routes": {cable: list(route.spaces) if route else None for cable, route in one.case.routes.items()},
        "cable_mm": dict(sorted(_lengths(one.case).items())),
        "buy": dict(sorted(Counter(one.buy).items())),
        "lacking": list(one.lacking),
    }
