"""The pieces of all runs of one type of cable, and the cuts that they take."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drawcord.coach.van import Loose, Van
from drawcord.load.at_hand import shelf
from drawcord.load.cutting import Cutting, cutting
from drawcord.load.pieces import Pieces, pieces_of
from drawcord.load.runs import Run
from drawcord.words.finding import Severity


@dataclass(frozen=True)
class Cuts:
    """The pieces of each run, their cuts, and whether the van makes no better pieces."""

    pieces: list[Pieces]
    cutting: Cutting
    proved: bool

    @property
    def joints(self) -> int:
        """How many joints there are, in all cores."""
        return sum(one.run.cores * len(one.joints) for one in self.pieces)


def cuts_of(runs: Sequence[Run], van: Van) -> Cuts:
    """Pieces and cuts of runs of one type.

    What has to be bought anyway is then as good as in the van: where it saves joints and nothing more is bought for
    it, the pieces are chosen again with it.
    """
    first = _cuts(runs, van, van)
    bought = [one for one in first.cutting.opened if one.stock in van.store]
    if not bought or not first.joints:
        return first
    loose = {
        f"{one.stock} {n}": Loose.model_construct(type=runs[0].type, length=one.length) for n, one in enumerate(bought)
    }
    again = _cuts(runs, van, van.model_copy(update={"reels": {**van.reels, **loose}}))
    if again.joints >= first.joints or again.cutting.unserved or _to_buy(again, van) > _to_buy(first, van):
        return first
    told = [[one for one in each.findings if one.severity is not Severity.NOTICE] for each in first.pieces]
    pieces = [replace(one, findings=(*why, *one.findings)) for one, why in zip(again.pieces, told, strict=True)]
    return replace(again, pieces=pieces)


def cut(pieces: Sequence[Pieces], van: Van) -> Cutting:
    """The cuts of pieces of one type from what van and store have."""
    lengths = [length for one in pieces for length in one.cuts]
    return cutting(lengths, shelf(van, pieces[0].run.type, len(lengths)), van.keep)


def _cuts(runs: Sequence[Run], van: Van, carrying: Van) -> Cuts:
    """With the pieces that a van carrying this gives, cut from what there really is."""
    pieces, proved = pieces_of(runs, carrying)
    return Cuts(pieces, cut(pieces, van), proved)


def _to_buy(cuts: Cuts, van: Van) -> int:
    return sum(one.length for one in cuts.cutting.opened if one.stock in van.store)
