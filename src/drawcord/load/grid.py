"""All that may be asked of one type of cable, by several jobs together, and which of it stock serves."""

from collections.abc import Sequence
from itertools import product

import numpy as np
import numpy.typing as npt

from drawcord.coach.van import Fitted, Loose, Van
from drawcord.load.carried import MARK, Bought, Demand, joints, only, to_buy, with_bought

Flags = npt.NDArray[np.bool_]


class Grid:
    """An axis a job, along it the different demands of its cases; a cell is one of each job's.

    `levels`: what could be bought, the cheapest first, each serving what no cheaper one does; `served` says for each
    level and cell whether it is served, `able` for each cell whether any purchase serves it. The plans' own demand,
    where any purchase serves it, is served by every level.
    """

    def __init__(self, type_id: str, planned: Demand, axes: Sequence[Sequence[Demand]], van: Van) -> None:
        self.own, self.van = only(van, type_id), van
        self.planned = planned
        self.shape = tuple(len(axis) for axis in axes)
        self.demands = [tuple(run for part in cell for run in part) for cell in product(*axes)]
        tried = [planned, *self.demands]
        most = max(sum(run.cores for run in demand) for demand in tried)
        sold = sorted(name for name, one in van.store.items() if one.type == type_id)
        everything = Bought(tuple(name for name in sold for _ in range(most)), 0.0, 0)
        best = self._served(tried, everything)
        self.able = best[1:]
        self.levels: list[Bought] = []
        found: list[Flags] = []
        for bought in to_buy(van, type_id, most):
            flags = self._served(tried, bought)
            new = not any((flags <= earlier).all() for earlier in found)
            if new and (flags[0] or not best[0]):
                self.levels.append(bought)
                found.append(flags)
            if (flags >= best).all():
                break
        self.served = np.array(found)[:, 1:]

    def classes(self, axis: int) -> list[int]:
        """For each demand on the axis a number, the same for those that are served with just the same others."""
        cells = np.concatenate([self.served, self.able[None]]).reshape(-1, *self.shape)
        rows = np.moveaxis(cells, axis + 1, 0).reshape(self.shape[axis], -1)
        seen: dict[bytes, int] = {}
        return [seen.setdefault(row.tobytes(), len(seen)) for row in rows]

    def slice(self, flags: Flags, axis: int, at: int) -> Flags:
        """The cells in which a job asks for one of its demands."""
        cells: Flags = np.take(flags.reshape(self.shape), at, axis)
        return cells

    def least(self, demands: Sequence[Demand], bought: Bought) -> Van:
        """What of the van has to be carried beside what is bought.

        Without any one piece or reel of it, some demand that all of it serves would lack cable or take more joints. The
        longest are left behind first, so that off-cuts are used up. Where the plans are not served, all is carried.
        """
        tried = [self.planned, *demands]
        carried = with_bought(self.own, bought, self.van)
        best = joints(tried, carried)
        if best[0] is None:
            return carried

        def still(fewer: Van) -> bool:
            pairs = zip(joints(tried, fewer), best, strict=True)
            return all(most is None or (now is not None and now <= most) for now, most in pairs)

        for kind in ("extensions", "leads"):
            for name, one in sorted(getattr(carried, kind).items()):
                for count in range(one.count):
                    fewer = _with(carried, kind, name, one.model_copy(update={"count": count}) if count else None)
                    if still(fewer):
                        carried = fewer
                        break
        loose = [(kind, name, one) for kind in ("reels", "off_cuts") for name, one in getattr(carried, kind).items()]
        for kind, name, _ in sorted(loose, key=lambda held: (-held[2].length, held[1])):
            if MARK not in name and still(fewer := _with(carried, kind, name, None)):
                carried = fewer
        return carried

    def _served(self, demands: Sequence[Demand], bought: Bought) -> Flags:
        found = joints(demands, with_bought(self.own, bought, self.van))
        return np.array([one is not None for one in found])


def _with(van: Van, kind: str, name: str, one: Fitted | Loose | None) -> Van:
    """The van with this instead of what it has by that name; without it if that is None."""
    held = {other: kept for other, kept in getattr(van, kind).items() if other != name}
    return van.model_copy(update={kind: held if one is None else {**held, name: one}})
