"""What to bring for one or several jobs: all pieces and all cuts of each type of cable, worked out together."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from drawcord.coach.van import Van
from drawcord.load.carried import MARK
from drawcord.load.cuts import cut, cuts_of
from drawcord.load.cutting import Cutting
from drawcord.load.pieces import STOCK, Pieces
from drawcord.load.runs import runs
from drawcord.load.share import fitted
from drawcord.load.sure import Sure
from drawcord.plan.plan import Plan
from drawcord.words.finding import Finding, Severity
from drawcord.words.units import tape_length


@dataclass(frozen=True)
class Cut:
    """A cut of so much [mm], and the cable it is for: `job: cable`."""

    length: int
    run: str


@dataclass(frozen=True)
class From:
    """A reel or off-cut with its cuts in the order to make them.

    `bought` if it is still in the store; `kept` if what remains is worth keeping.
    """

    stock: str
    type: str
    length: int
    cuts: tuple[Cut, ...]
    bought: bool
    kept: bool

    @property
    def left(self) -> int:
        """What remains of it [mm]."""
        return self.length - sum(cut.length for cut in self.cuts)


@dataclass(frozen=True)
class Load:
    """What to bring: the pieces of each run, fitted ones to carry, and the cuts.

    `short`: cuts that neither van nor store has cable for. `cost`: of what is bought. `proved`: no better pieces
    are possible with these routes, and no better cuts with these pieces; if not, `gaps` says in words how far off.
    `unproven`: what nobody has looked at on these routes, as `job: place`.
    """

    jobs: tuple[str, ...]
    pieces: tuple[Pieces, ...]
    carry: tuple[tuple[str, int], ...]
    cuts: tuple[From, ...]
    short: tuple[Cut, ...]
    cost: float
    proved: bool
    gaps: tuple[str, ...]
    unproven: tuple[str, ...]
    findings: tuple[Finding, ...]

    @property
    def units(self) -> str:
        """The unit that its lengths are shown in, as all of its runs have it."""
        return next((one.run.units for one in self.pieces), "m")

    @property
    def enough(self) -> bool:
        """Whether nothing is missing and nothing refused."""
        return not any(one.severity is Severity.REFUSAL for one in self.findings)

    @property
    def bought(self) -> tuple[tuple[str, int], ...]:
        """Each reel to buy, and how many."""
        return tuple(sorted(Counter(one.stock for one in self.cuts if one.bought).items()))


def bring(plans: Sequence[Plan], van: Van) -> Load:
    """The load for the chosen routes of all plans together; the plans are of different jobs.

    Its lengths are shown in the unit of the jobs; where these differ, in metres, as cable is sold.
    """
    wanted, findings = [], list[Finding]()
    used = {plan.coach.units for plan in plans}
    units = used.pop() if len(used) == 1 else "m"
    for plan in plans:
        mine, against = runs(plan, units)
        wanted += mine
        findings += against
    pieces, sources, short, gaps = list[Pieces](), list[From](), list[Cut](), list[str]()
    proved = True
    for type_id in sorted({run.type for run in wanted}):
        found = cuts_of([run for run in wanted if run.type == type_id], van)
        taken, missing = _named(type_id, found.pieces, found.cutting, van)
        pieces += found.pieces
        sources += taken
        short += missing
        proved = proved and found.proved
        gaps += [f"{type_id}: {what} {reached}, no less than {least}" for what, reached, least in found.cutting.gaps]
        findings += _rivals(type_id, found.pieces, taken, van)
    pieces.sort(key=lambda one: wanted.index(one.run))
    findings += [finding for one in pieces for finding in one.findings]
    for run, lengths in _by_run(short).items():
        each = ", ".join(tape_length(length, units) for length in lengths)
        sentence = f"neither van nor store has the cable for its cuts of {each}"
        findings.append(Finding(Severity.REFUSAL, run, sentence, STOCK))
    carry = sum((fitted(one.laid, one.run.cores) for one in pieces), Counter[str]())
    return Load(
        jobs=tuple(plan.coach.job.job for plan in plans if plan.coach.job),
        pieces=tuple(pieces),
        carry=tuple(sorted(carry.items())),
        cuts=tuple(sources),
        short=tuple(short),
        cost=sum(van.store[one.stock].price for one in sources if one.bought),
        proved=proved and not gaps,
        gaps=tuple(gaps),
        unproven=tuple(dict.fromkeys(name for plan in plans for name in _unproven(plan))),
        findings=tuple(sorted(findings, key=lambda one: (-one.severity, one))),
    )


def loaded(plans: Sequence[Plan], van: Van, sure: Sure) -> Load:
    """The same with the stock that is enough with a confidence: all of it is carried, whether the plans take it or not.

    Bought reels that no plan takes have no cuts.
    """
    load = bring(plans, sure.carried)
    cut_from = {one.stock: one for one in load.cuts}
    spare = [
        From(name, one.type, one.length, (), bought=False, kept=True)
        for held in (sure.carried.reels, sure.carried.off_cuts)
        for name, one in held.items()
        if name not in cut_from
    ]
    fitted_ones = {**sure.carried.leads, **sure.carried.extensions}
    return replace(
        load,
        carry=tuple(sorted((name, one.count) for name, one in fitted_ones.items())),
        cuts=tuple(_as_sold(one) for one in (*load.cuts, *spare)),
        cost=sure.price,
        findings=tuple(one for one in load.findings if one.place.rpartition(MARK)[0] not in van.store),
    )


def _as_sold(one: From) -> From:
    """A reel of the store under the name that the store has for it."""
    name, mark, _ = one.stock.rpartition(MARK)
    return replace(one, stock=name, bought=True) if mark else one


def _unproven(plan: Plan) -> list[str]:
    job = plan.coach.job.job if plan.coach.job else ""
    return sorted(f"{job}: {place}" for taken in plan.chosen.values() for place in taken.route.unproven)


def _named(type_id: str, pieces: Sequence[Pieces], found: Cutting, van: Van) -> tuple[list[From], list[Cut]]:
    """Each cut with the cable it is for: among equal lengths in the order of the jobs."""
    waiting: dict[int, list[str]] = {}
    for one in pieces:
        for length in one.cuts:
            waiting.setdefault(length, []).append(one.run.name)

    def cuts(lengths: Sequence[int]) -> tuple[Cut, ...]:
        return tuple(Cut(length, waiting[length].pop(0)) for length in lengths)

    taken = [
        From(one.stock, type_id, one.length, cuts(one.cuts), one.stock in van.store, one.left >= van.keep)
        for one in found.opened
    ]
    return taken, list(cuts(found.unserved))


def _rivals(type_id: str, pieces: Sequence[Pieces], taken: Sequence[From], van: Van) -> list[Finding]:
    """Stock of the van that several jobs would take, each by itself, and that has not enough for all of them."""
    jobs = list(dict.fromkeys(one.run.job for one in pieces))
    wanted: dict[str, dict[str, int]] = {}  # by stock and job: how much of it [mm]
    for job in jobs:
        for one in cut([one for one in pieces if one.run.job == job], van).opened:
            wanted.setdefault(one.stock, {})[job] = sum(one.cuts)
    own = {name: one.length for held in (van.reels, van.off_cuts) for name, one in held.items()}
    found = []
    for name, by_job in sorted(wanted.items()):
        if len(by_job) > 1 and name in own and sum(by_job.values()) > own[name]:
            gets = sorted({cut.run for one in taken if one.stock == name for cut in one.cuts})
            goes = f"it goes to {', '.join(gets)}" if gets else "theirs comes from elsewhere"
            sentence = f"{' and '.join(sorted(by_job))} each want it, and it has not enough {type_id} for all: {goes}"
            found.append(Finding(Severity.CAUTION, name, sentence, STOCK))
    return found


def _by_run(cuts: Sequence[Cut]) -> dict[str, list[int]]:
    found: dict[str, list[int]] = {}
    for one in cuts:
        found.setdefault(one.run, []).append(one.length)
    return found
