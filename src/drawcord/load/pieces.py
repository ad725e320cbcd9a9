"""The pieces of each run from what the van carries, and where their joints fall; bought ones where nothing else serves.

Fewest joints, then the least left over, then the least cost, over all runs of a type together.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from drawcord.coach.van import Van
from drawcord.load.at_hand import at_hand, in_store
from drawcord.load.runs import Run
from drawcord.load.share import Wanted, fitted, share
from drawcord.pieces.choose import Laid, Laying, choose, shortest_to_buy
from drawcord.routes.allowance import joint
from drawcord.routes.route import Joint
from drawcord.words.finding import Finding, Severity
from drawcord.words.units import tape_length

ACCESSIBLE = "NEC 2023 314.29 and IEC 60364-5-52:2009 526.3, from memory"
STOCK = "shop's stock.yaml"


@dataclass(frozen=True)
class Pieces:
    """What one core of a run is made of, from its start on; all cores are alike.

    `laid` is empty if neither van nor store serve. `joints` come with the `reasons` why each lies there.
    """

    run: Run
    laid: Laying
    joints: tuple[Joint, ...]
    reasons: tuple[str, ...]
    findings: tuple[Finding, ...] = ()

    @property
    def cuts(self) -> tuple[int, ...]:
        """The cuts of loose cable for all cores [mm]."""
        return tuple(one.end - one.start for one in self.laid if not one.piece.fitted for _ in range(self.run.cores))


def pieces_of(runs: Sequence[Run], van: Van) -> tuple[list[Pieces], bool]:
    """The pieces of each of some runs of one type, and whether none are better as the van is now."""
    wanted = [Wanted(run.length, run.reachable, run.cores, at_hand(van, run.type, run.cores)) for run in runs]
    counts = {name: one.count for held in (van.leads, van.extensions) for name, one in held.items()}
    laid, proved = share(wanted, counts)
    found = [
        _served(run, laying, one) if laying else _bought(run, one, van)
        for run, one, laying in zip(runs, wanted, laid, strict=True)
    ]
    return found, proved


def _served(run: Run, laid: Laying, wanted: Wanted) -> Pieces:
    own = choose(run.length, run.reachable, wanted.pieces)
    findings = []
    if own and (missed := fitted(own, 1) - fitted(laid, 1)):
        sentence = f"by itself it would take {', '.join(sorted(missed))}, which another cable needs more"
        findings.append(Finding(Severity.NOTICE, run.name, sentence, STOCK))
    return _pieces(run, laid, findings)


def _bought(run: Run, wanted: Wanted, van: Van) -> Pieces:
    """Cable from the store, and why the van does not do."""
    carried = sum(piece.length * piece.count for piece in wanted.pieces)
    shortest = shortest_to_buy(run.length, run.reachable, wanted.pieces)
    to_buy = f"the shortest to buy that would do is {run.cores} × {_said(run, shortest)} of {run.type}"
    severity, source = Severity.CAUTION, STOCK
    if choose(run.length, run.reachable, wanted.pieces):
        why = "other cables take the pieces that would serve it"
    elif carried >= run.length:
        why = "with what the van carries only a hidden joint would do, which is refused"
        severity, source = Severity.REFUSAL, f"{STOCK}; {ACCESSIBLE}"
    else:
        why = f"the van carries too little {run.type} for it" if carried else f"the van carries no {run.type}"
    laid = choose(run.length, run.reachable, in_store(van, run.type)) or ()
    if not laid:
        why, severity = f"{why}, and no reel of the store serves either", Severity.REFUSAL
    return _pieces(run, laid, [Finding(severity, run.name, f"{why}; {to_buy}", source)])


def _pieces(run: Run, laid: Laying, findings: Sequence[Finding]) -> Pieces:
    told = list(run.given)
    told += [
        (joint(run.ways_in, run.begins + before.end), _why(run, before, after)) for before, after in pairwise(laid)
    ]
    told.sort(key=lambda one: one[0].at)
    return Pieces(run, laid, tuple(at for at, _ in told), tuple(why for _, why in told), tuple(findings))


def _why(run: Run, before: Laid, after: Laid) -> str:
    """Why a joint lies where it does, by the pieces that meet there."""
    ends = f"{before.piece.id}, {_said(run, before.piece.length)} long,"
    if not before.piece.fitted:
        if after.piece.fitted and not after.left_over:
            return f"{after.piece.id}, {_said(run, after.piece.length)} long, is all used from here"
        return "both are cut to length: the first place in reach that serves"
    if not before.left_over:
        return f"{ends} ends here, within reach"
    if before.end in (far for _, far in run.reachable):
        return f"{ends} would end out of reach: the last place before that"
    return f"{ends} reaches further: here the least is left over"


def _said(run: Run, length: int) -> str:
    return tape_length(length, run.units)
