"""Every way to wire modules to a controller's trackers, up to equivalence."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drawcord.wire.module import Module
from drawcord.wire.possible import one_or_more

MOST_GROUPINGS = 20_000
"""Above so many nobody compares; a roof of 16 like modules and three trackers has 1683."""


@dataclass(frozen=True)
class Plane:
    """Like modules in one plane and one kind of shade, so that any of them serves for any other.

    `places` are their ids. Raises ValueError if there is none, or one twice.
    """

    name: str
    module: Module
    places: tuple[str, ...]

    def __post_init__(self) -> None:
        one_or_more(f"the modules of {self.name}", len(self.places))
        if len(set(self.places)) < len(self.places):
            raise ValueError(f"{self.name} names a module twice: {', '.join(self.places)}")


@dataclass(frozen=True)
class Strings:
    """What one tracker gets: `parallel` strings of `series` modules each, all from one plane."""

    plane: Plane
    series: int
    parallel: int

    @property
    def modules(self) -> int:
        """How many modules it takes."""
        return self.series * self.parallel


@dataclass(frozen=True)
class Grouping:
    """One tracker's strings each, trackers without strings not named, and how many modules are left out."""

    trackers: tuple[Strings, ...]
    left_out: int


def groupings(planes: Sequence[Plane], trackers: int) -> tuple[Grouping, ...]:
    """Every grouping of `planes` on at most `trackers` like trackers, the ones that leave least out first.

    Equal counts of like modules of one plane on a tracker; which module is which and which tracker is which
    makes no difference. No voltage is looked at: a grouping that is barred is listed all the same.

    Raises:
        ValueError: no tracker, no plane, a module in two planes, or more than MOST_GROUPINGS.

    """
    one_or_more("the trackers", trackers)
    one_or_more("the planes", len(planes))
    places = [place for plane in planes for place in plane.places]
    if len(set(places)) < len(places):
        raise ValueError("a module lies in two planes")
    found: list[Grouping] = []
    for chosen in _chosen(planes, trackers):
        if len(found) == MOST_GROUPINGS:
            raise ValueError(
                f"{len(places)} modules on {trackers} trackers make more than {MOST_GROUPINGS} groupings: "
                "plan fewer at a time"
            )
        found.append(Grouping(chosen, len(places) - sum(one.modules for one in chosen)))
    return tuple(sorted(found, key=lambda one: one.left_out))  # stable: otherwise as found


def _chosen(planes: Sequence[Plane], trackers: int) -> Iterator[tuple[Strings, ...]]:
    """Every non-empty choice for at most so many trackers, each in one order only: that of the options."""
    options = [
        (index, Strings(plane, series, parallel))
        for index, plane in enumerate(planes)
        for series in range(len(plane.places), 0, -1)
        for parallel in range(len(plane.places) // series, 0, -1)
    ]

    def extend(first: int, left: tuple[int, ...], room: int) -> Iterator[tuple[Strings, ...]]:
        for position in range(first, len(options)):
            index, option = options[position]
            if option.modules > left[index]:
                continue
            yield (option,)
            if room > 1:
                rest = (*left[:index], left[index] - option.modules, *left[index + 1 :])
                for more in extend(position, rest, room - 1):
                    yield (option, *more)

    yield from extend(0, tuple(len(plane.places) for plane in planes), trackers)
