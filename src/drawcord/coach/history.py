"""What a job can take from the log of its rig: counts of what was found, and how much cable jobs really took."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from statistics import median

from drawcord.coach.log import Log, Record

FEWEST = 3  # jobs with measured lengths before allowances are corrected; fewer may all be flukes
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
    """`ratio` is cable used over cable planned, from so many `jobs`; 1 where these are too few to say."""

    jobs: int = 0
    ratio: float = 1.0
    found: dict[str, Seen] = field(default_factory=dict)

    @property
    def corrects(self) -> bool:
        """Whether cut lengths are corrected."""
        return self.ratio != 1

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
    many cables, moves it little.
    """
    others = sorted(((one.date or "", name, one) for name, one in log.jobs.items() if name != job), key=lambda o: o[:2])
    ratios = [median(each) for *_, one in others if (each := _ratios(one))]
    ratio = median(ratios) if len(ratios) >= FEWEST else 1.0
    return History(len(ratios), ratio, _found(others))


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
