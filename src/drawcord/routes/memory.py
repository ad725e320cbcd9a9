"""What was found out about a cable's routes, so that planning again need not find out what still holds.

Where spaces and passages only get worse, what a search found stays what it would find, as long as none of it leads
through one of them: each of its paths costs what it cost, and every other no less.
"""

from collections.abc import Callable, Hashable
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, field, replace
from typing import TypeVar

from drawcord.routes.efficient import EfficientSet
from drawcord.routes.leaning import leaned_on
from drawcord.routes.net import Found, Path
from drawcord.routes.netting import Netted
from drawcord.routes.route import Route

Some = TypeVar("Some", Found, EfficientSet)


@dataclass(frozen=True)
class _Searched:
    """What a search found, each path by the names of its mouths, since states are numbered anew in each net."""

    found: Found | EfficientSet
    mouths: tuple[tuple[str, ...], ...]
    through: frozenset[str]


@dataclass(frozen=True)
class Memory:
    """`measured`: routes by their stations. `searched`: by what was looked for what was found, if not cut short."""

    measured: dict[tuple[str, ...], Route] = field(default_factory=dict)
    searched: dict[Hashable, _Searched] = field(default_factory=dict)

    def search(self, wanted: Hashable, netted: Netted, run: Callable[[], Some]) -> Some:
        """What `run` finds in this net, unless it is remembered."""
        known = self.searched.get(wanted)
        if known is None:
            found = run()
            if found.complete:
                mouths = (tuple(netted.mouths[state].name for state in path.states) for path in found.paths)
                through = leaned_on(netted, (path.states for path in found.paths))
                self.searched[wanted] = _Searched(found, tuple(mouths), through)
            return found
        numbers = {mouth.name: number for number, mouth in enumerate(netted.mouths)}
        paths = (
            Path(path.vector, tuple(numbers[name] for name in names))
            for path, names in zip(known.found.paths, known.mouths, strict=True)
        )
        again: Some = replace(known.found, paths=tuple(paths))  # type: ignore[assignment]
        return again

    def still(self, changed: AbstractSet[str], *, worse: bool) -> "Memory":
        """What holds after these spaces and passages have changed; `worse` if none of them got better."""
        routes = {
            stations: route
            for stations, route in self.measured.items()
            if changed.isdisjoint(route.spaces) and changed.isdisjoint(route.passages)
        }
        paths = {key: one for key, one in self.searched.items() if worse and changed.isdisjoint(one.through)}
        return Memory(routes, paths)
