"""The pieces that a van, or a store, has for a run: fitted ones, and the longest cuts that its loose cable gives."""

from collections.abc import Sequence

from drawcord.coach.van import Fitted, Loose, Van
from drawcord.load.stock import Stock
from drawcord.pieces.choose import Piece

MOST_CUTS = 4  # of loose cable in one core: a run that takes more joints than that is no way to use it


def at_hand(van: Van, type_id: str, cores: int) -> list[Piece]:
    """What the van carries of a type of cable, counted for `cores` equal runs side by side."""
    here = [(kind, name, one) for kind, name, one in van.cables if one.type == type_id]
    fitted = [
        Piece(name, one.length, one.count // cores, leads=kind == "leads", cost=one.price)
        for kind, name, one in here
        if isinstance(one, Fitted) and one.count >= cores
    ]
    loose = _cuts([one.length for _, _, one in here if isinstance(one, Loose)], cores)
    return [*fitted, *(Piece(f"cut {n}", length, fitted=False) for n, length in enumerate(loose, start=1))]


def in_store(van: Van, type_id: str) -> list[Piece]:
    """The cuts that reels of the store give, any number of them."""
    sold = [one for one in van.store.values() if one.type == type_id]
    longest = max((one.length for one in sold), default=0)
    return [Piece("cut", longest, count=MOST_CUTS, fitted=False)] if sold else []


def shelf(van: Van, type_id: str, cuts: int) -> list[Stock]:
    """What so many cuts of a type can come from: reels and off-cuts of the van, and reels of the store."""
    own = [Stock(name, one.length) for _, name, one in van.cables if isinstance(one, Loose) and one.type == type_id]
    sold = [(name, one) for name, one in sorted(van.store.items()) if one.type == type_id]
    return [*own, *(Stock(name, one.length, count=cuts, bought=True) for name, one in sold)]


def _cuts(lengths: Sequence[int], cores: int) -> list[int]:
    """The longest cut that each of the cores can have [mm], then the longest from the stock not touched by it."""
    left, found = sorted(lengths, reverse=True), list[int]()
    while len(found) < MOST_CUTS and (longest := _longest(left, cores)):
        found.append(longest)
        served = 0
        while served < cores:
            served += left.pop(0) // longest
    return found


def _longest(lengths: Sequence[int], cores: int) -> int:
    """The longest length of which `cores` can be cut, 0 if there is none: some piece of stock is used up by it."""
    tried = (length // share for length in lengths for share in range(1, cores + 1))
    return max((cut for cut in tried if cut and sum(length // cut for length in lengths) >= cores), default=0)
