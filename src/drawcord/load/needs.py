"""What is needed of one part, with the arithmetic that led to it; like needs of a job, and of several, as one."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import ceil

from drawcord.coach.parts import PartKind


@dataclass(frozen=True)
class PartNeed:
    """`count` of the part `id`, in `unit`; `why` is the arithmetic with the numbers put in, `source` on whose word."""

    id: str
    kind: PartKind
    count: int
    unit: str
    why: str
    source: str


@dataclass
class Tally:
    """Terms of one part, as they come, and what turns their sum into the count."""

    kind: PartKind
    unit: str
    source: str
    terms: list[tuple[str, float]] = field(default_factory=list)


def part_id(kind: PartKind, size: str = "") -> str:
    """The id of a kind in a size: `ferrule` of `2/0 AWG` is `ferrule-2-0-awg`."""
    words = f"{kind} {size}".lower().replace("/", " ").replace(".", " ").split()
    return "-".join(words)


class Needs:
    """Collects what each cable needs, and gives one need a part."""

    def __init__(self) -> None:
        self._tallies: dict[str, Tally] = {}

    def add(self, kind: PartKind, amount: float, why: str, *, size: str = "", unit: str = "", source: str = "") -> None:
        """Add a term to a part; nothing is no term. `why` says it in words and numbers."""
        if amount <= 0:
            return
        tally = self._tallies.setdefault(part_id(kind, size), Tally(kind, unit or "pieces", source))
        tally.terms.append((why, amount))
        if source and source not in tally.source.split("; "):
            tally.source = f"{tally.source}; {source}"

    def all(self) -> tuple[PartNeed, ...]:
        """One need a part, by id; counts are rounded up to whole units."""
        return tuple(_need(name, tally) for name, tally in sorted(self._tallies.items()))

    def amount(self, kinds: Iterable[PartKind]) -> float:
        """How much of some kinds has been added so far."""
        wanted = set(kinds)
        tallies = [tally for tally in self._tallies.values() if tally.kind in wanted]
        return sum(amount for tally in tallies for _, amount in tally.terms)


def _need(name: str, tally: Tally) -> PartNeed:
    total = round(sum(amount for _, amount in tally.terms), 6)
    why = " + ".join(f"{amount:.4g} ({said})" for said, amount in tally.terms)
    return PartNeed(name, tally.kind, ceil(total), tally.unit, f"{why} = {total:.4g}", tally.source)


def merged(by_job: Mapping[str, Sequence[PartNeed]]) -> tuple[PartNeed, ...]:
    """What several jobs need together, by part id; each job's count is whole, as what is opened stays there."""
    alike: dict[str, list[tuple[str, PartNeed]]] = {}
    for job, needs in by_job.items():
        for need in needs:
            alike.setdefault(need.id, []).append((job, need))
    return tuple(_together(each) for _, each in sorted(alike.items()))


def _together(each: Sequence[tuple[str, PartNeed]]) -> PartNeed:
    if len(each) == 1:
        return each[0][1]
    sources = dict.fromkeys(need.source for _, need in each)
    return replace(
        each[0][1],
        count=sum(need.count for _, need in each),
        why=" + ".join(f"{need.count} ({job})" for job, need in each),
        source="; ".join(sources),
    )
