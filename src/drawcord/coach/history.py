"""What a job can take from the log of its rig: what was found, and how much cable and time jobs really took."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from statistics import median

from drawcord.coach.log import Log, Record

FEWEST = 3  # jobs with measured lengths, or times, before anything is corrected by them; fewer may all be flukes
SOURCE = "log of this rig"


@dataclass(frozen=True)
class Seen:
    """How often jobs found a space or passage clear and blocked, and which was last, as `2026-05-04, van-one`."""

    clear: int = 0
    blocked: int = 0
    last: str = ""

    def __str__(self) -> str:
        return f"found clear {self.clear} ×, blocked {self.blocked} ×, last {self.last}"


@dataclass(frozen=True)
class History:
    """`ratio` is cable used over cable planned, from so many `jobs`; 1 where these are too few to say.

    `work_ratio` is the same of the minutes, from `work_jobs`. It says how long a job takes, not which route is
    best: it would change all of them alike.
    """

    jobs: int = 0
    ratio: float = 1.0
    work_jobs: int = 0
    work_ratio: float = 1.0
    found: dict[str, Seen] = field(default_factory=dict)

    @property
    def corrects(self) -> bool:
        """Whether cut lengths are corrected."""
        return self.ratio != 1

    @property
    def corrects_work(self) -> bool:
        """Whether the time for a job is corrected."""
        return self.work_ratio != 1

    @property
    def corrections(self) -> tuple[float, float, float]:
        """The share by which low, likely and high cut lengths change: the ends move outwards only."""
        share = self.ratio - 1
        return min(0.0, share), share, max(0.0, share)

    @property
    def grown(self) -> float:
        """The high cut length over the uncorrected one; spread evenly, as nobody knows where it went."""
        return 1 + self.corrections[2]


def history(log: Log, job: str | None) -> History:
    """The history for a job, without that job's own record: recording it again changes nothing of its plan.

    The ratio is the median over jobs of the median over each job's cables: one mistyped length, or one odd job of
    many cables, moves it little. That of the work is the median over jobs.
    """
    others = sorted(((one.date or "", name, one) for name, one in log.jobs.items() if name != job), key=lambda o: o[:2])
    ratios = [median(each) for *_, one in others if (each := _ratios(one))]
    times = [one.minutes for *_, one in others if one.minutes]
    shares = [time.used / time.planned for time in times if time.used and time.planned]
    return History(len(ratios), _median(ratios), len(shares), _median(shares), _found(others))


def _median(ratios: Sequence[float]) -> float:
    return median(ratios) if len(ratios) >= FEWEST else 1.0


def _ratios(record: Record) -> list[float]:
    return [cable.used / cable.planned for cable in record.cables.values() if cable.used]


def _found(records: Iterable[tuple[str, str, Record]]) -> dict[str, Seen]:
    found: dict[str, Seen] = {}
    for date, job, record in records:
        for what, word in record.found.items():
            if word:
                seen = found.get(what, Seen())
                last = ", ".join(part for part in (date, job) if part)
                found[what] = Seen(seen.clear + (word == "clear"), seen.blocked + (word == "blocked"), last)
    return dict(sorted(found.items()))
