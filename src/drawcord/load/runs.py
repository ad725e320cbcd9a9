"""Each routed cable of a plan as runs of one type of cable, so many cores side by side, and where joints may lie."""

from dataclasses import dataclass, replace

from drawcord.coach.coach import Coach
from drawcord.coach.job import NO_CONNECTOR, Cable
from drawcord.pieces.reach import merged
from drawcord.plan.bundle import LOOSE
from drawcord.plan.plan import Plan
from drawcord.routes.allowance import WayIn, ways_in
from drawcord.routes.devices import cut_places
from drawcord.routes.route import Joint, Leg
from drawcord.words.finding import Finding, Severity

OFF_THE_ROOF = "connector on the roof: clipped up off its skin [common practice, no source]"
STOCK = "job and the shop's cables.yaml"


@dataclass(frozen=True)
class Run:
    """A cable of one type to lay: `cores` equal cuts side by side, each of `length` [mm], allowances at their high end.

    It `begins` so far along its cable [mm]: at 0 but where types are joined. `ways_in`: where along the cable a
    joint may lie, as a hand reaches it again. `given`: joints that there are whatever it is made of, with the reason.
    """

    job: str
    cable: str
    type: str
    cores: int
    begins: int
    length: int
    ways_in: tuple[WayIn, ...]
    given: tuple[tuple[Joint, str], ...]
    units: str

    @property
    def name(self) -> str:
        """The cable with its job."""
        return f"{self.job}: {self.cable}"

    @property
    def reachable(self) -> list[tuple[int, int]]:
        """The stretches [mm from where it begins] where a joint may lie."""
        along = [(max(one.near - self.begins, 0), min(one.far - self.begins, self.length)) for one in self.ways_in]
        return merged([(near, far) for near, far in along if near <= far])


def runs(plan: Plan, units: str = "") -> tuple[list[Run], list[Finding]]:
    """The runs of a plan in order of their cables, and what stands against those of its cables that are none.

    `units`: to show lengths in, those of the plan if left out.
    """
    job = plan.coach.job
    if job is None:
        raise LookupError("a coach without a job has no cables")
    found, against, taken = list[Run](), list[Finding](), dict[str, str]()
    for name, cable in sorted(job.cables.items()):
        place = f"{job.job}: {name}"
        fitting = _types(plan.coach, cable)
        if name not in plan.chosen:
            against.append(Finding(Severity.REFUSAL, place, "it has no route, so nothing is loaded for it", "the plan"))
        elif len(fitting) != 1:
            among = f"{len(fitting)} serve: {', '.join(fitting)}" if fitting else "none of the shop's serves"
            sentence = f"the job names no type for it, and {among}; write its `type` into the job"
            against.append(Finding(Severity.REFUSAL, place, sentence, STOCK))
        else:
            mine = _runs(plan, name, fitting[0])
            found += [replace(run, units=units or run.units) for run in mine]
            against += _doubts(plan, place, name, fitting[0])
            if not cable.type:
                taken[name] = fitting[0]
    if taken:
        said = ", ".join(f"{name} ({type_id})" for name, type_id in taken.items())
        sentence = f"the job names no type for {said}: the only one that serves is taken"
        against.append(Finding(Severity.NOTICE, job.job, sentence, STOCK))
    return found, against


def elsewhere(plan: Plan, run: Run, legs: tuple[Leg, ...], length: int) -> Run:
    """The same cable, of one type from end to end, on another route of it."""
    return replace(run, begins=0, length=length, ways_in=_reach(plan.coach, run.cable, legs), given=())


def _reach(coach: Coach, cable: str, legs: tuple[Leg, ...]) -> tuple[WayIn, ...]:
    return ways_in(coach, legs, cut_places(coach, cable, legs))


def _types(coach: Coach, cable: Cable) -> list[str]:
    """The type that the job names, or those that could be meant: of its class and section."""
    if cable.type:
        return [cable.type]
    return [
        name
        for name, one in sorted(coach.types.cables.items())
        if cable.carries in one.serves and cable.conductor in (None, one.section)
    ]


def _doubts(plan: Plan, place: str, name: str, taken: str) -> list[Finding]:
    """What the length and the route of a cable do not answer for."""
    coach, job = plan.coach, plan.coach.job
    if job is None:
        return []
    found = []
    made, planned = coach.types.cables[taken], job.cables[name]
    beyond = [
        f"{verb} {real:g} mm{more}, and the route was planned for {meant:g} mm"
        for verb, real, meant, more in (
            ("is", made.outside_diameter, planned.outside_diameter, " thick"),
            ("bends no tighter than", made.smallest_bend, planned.smallest_bend, ""),
        )
        if real > meant
    ]
    if beyond:
        sentence = f"{taken} {'; it '.join(beyond)}: plan again with its figures"
        found.append(Finding(Severity.CAUTION, place, sentence, STOCK))
    return found


def _runs(plan: Plan, name: str, taken: str) -> list[Run]:
    """One run, or several where no type may run all the way and the circuit joins some."""
    coach, job, route = plan.coach, plan.coach.job, plan.chosen[name].route
    if job is None:
        return []
    cable, high = job.cables[name], route.cut_length[2]
    circuits = plan.circuits.circuits if plan.circuits else ()
    joined = [piece for one in circuits if one.cable == name for piece in one.pieces]
    parts = [(piece.tried.type_id, piece.joint) for piece in joined] or [(taken, None)]
    starts = [at.at if at else 0 for _, at in parts]
    found: list[Run] = []
    for (type_id, at), begins, ends in zip(parts, starts, [*starts[1:], high], strict=True):
        given = [(at, f"{found[-1].type} may not run on from here")] if at else []
        given += _on_roof(coach, cable, type_id, {0: begins == 0, high: ends == high})
        found.append(
            Run(
                job=job.job,
                cable=name,
                type=type_id,
                cores=cable.cores if cable.carries in LOOSE else 1,
                begins=begins,
                length=ends - begins,
                ways_in=_reach(coach, name, route.legs),
                given=tuple(given),
                units=coach.units,
            )
        )
    return found


def _on_roof(coach: Coach, cable: Cable, taken: str, ends: dict[int, bool]) -> list[tuple[Joint, str]]:
    """The PV connectors at the ends of a cable on the roof; within a junction box there are none.

    `ends` says how far along the cable each of its ends lies [mm], and whether this type comes there.
    """
    if cable.carries != "PV" or coach.job is None:
        return []
    families = cable.connectors or (coach.types.cables[taken].connector,) * 2
    found = []
    for end, family, (at, here) in zip((cable.start, cable.end), families, ends.items(), strict=True):
        terminal, equipment = coach.terminals[end], coach.job.equipment[end.partition(".")[0]]
        mates = family not in (None, NO_CONNECTOR) or equipment.kind == "solar module"
        if here and terminal.space == "roof" and mates:
            found.append((Joint(at, terminal.point, terminal.space, "", reachable=True), OFF_THE_ROOF))
    return found
