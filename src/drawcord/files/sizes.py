"""Whether the conductors that a job names are in the published tables, without which no drop can be worked out."""

from collections.abc import Iterator

from drawcord.coach.job import Job
from drawcord.files.tables import conductors
from drawcord.words.amount import shown
from drawcord.words.faults import Problem


def unpublished(job: Job) -> Iterator[Problem]:
    """A problem for each cable whose conductor no table has, with the sizes that they have."""
    sizes = list(dict.fromkeys(conductor.label for conductor in conductors()))
    for name, cable in job.cables.items():
        if cable.conductor is not None and cable.conductor not in sizes:
            sentence = f"{name}: no table has a conductor of {shown(cable.conductor)}: take one of {', '.join(sizes)}"
            yield Problem(("cables", name, "conductor"), sentence, file="job")
