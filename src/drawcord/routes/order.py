"""One cable to be run, with everything its routes are measured against."""

from dataclasses import dataclass

from drawcord.coach.coach import Coach
from drawcord.coach.job import Cable
from drawcord.coach.limits import Limits
from drawcord.ways.passage import Passage
from drawcord.ways.ways import Ways
from drawcord.wire.conductor import Conductor


@dataclass(frozen=True)
class Order:
    """The cable `name` of the ways' job; `conductors` are the published tables."""

    ways: Ways
    name: str
    conductors: tuple[Conductor, ...]

    @property
    def coach(self) -> Coach:
        """The coach it runs in."""
        return self.ways.coach

    @property
    def cable(self) -> Cable:
        """What the job says of it."""
        job = self.coach.job
        if job is None:
            raise LookupError("a coach without a job has no cables")
        return job.cables[self.name]

    @property
    def limits(self) -> Limits:
        """What its way may not exceed: its own limits over the job's."""
        return self.cable.limits.over(self.coach.job.limits) if self.coach.job else self.cable.limits

    def refused(self, passage: Passage) -> str:
        """Why this cable cannot pass here, or nothing."""
        plug = self.cable.largest_plug
        if passage.barred:
            return passage.barred
        if passage.opening == "exists" and 0 < passage.size < plug:
            return f"its opening of {passage.size} mm does not pass the {plug} mm plug"
        largest = max(gate.largest for gate in passage.gates)
        if passage.hole and largest < self.hole:
            return f"a hole of {self.hole} mm does not fit, only one of {largest} mm"
        return ""

    @property
    def hole(self) -> int:
        """The hole that the cable's largest plug needs [mm]."""
        return self.cable.largest_plug + self.coach.shop.clearances.plug
