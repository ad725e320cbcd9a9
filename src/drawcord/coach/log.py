"""What was really used and found, as a person fills it in for one job, and as a rig's log keeps it for all."""

from typing import Literal

from pydantic import Field

from drawcord.coach.closed import Closed, Id
from drawcord.coach.rig import Date, Format
from drawcord.words.quantity import CableLength, Minutes


class UsedLength(Closed):
    """A cable's length per core, planned and used."""

    planned: CableLength = Field(description="Likely cut length, before any correction from the log.")
    used: CableLength | None = Field(None, description="What was really used; empty if nobody measured.")


class UsedTime(Closed):
    """The work of a job, planned and used."""

    planned: Minutes = Field(description="The work that the routes were planned to take.")
    used: Minutes | None = Field(None, description="What it really took; empty if nobody looked at the clock.")


class Record(Closed):
    """What was really used on one job, and what was found there; all may be left out."""

    date: Date | None = Field(None, description="When the work was done, as YYYY-MM-DD; today if left empty.")
    source: str | None = Field(None, description="On whose word.")
    minutes: UsedTime | None = Field(None, description="The work of the whole job.")
    cables: dict[Id, UsedLength] = Field(default={}, description="Each cable that was run, by its id.")
    found: dict[str, Literal["clear", "blocked"] | None] = Field(
        default={}, description="Spaces and passages, by id: `clear`, `blocked`, or empty if nobody looked."
    )


class Used(Record):
    """The form that `drawcord record JOB --form` writes beside a job, to be filled in."""

    format: Format
    job: Id = Field(description="The id of the job.")


class Log(Closed):
    """What the shop's jobs on one rig model have used and found; `drawcord record` writes it."""

    format: Format
    rig: Id = Field(description="The id of the rig beside which it lies.")
    jobs: dict[Id, Record] = Field(default={}, description="One record for each job, by its id.")
