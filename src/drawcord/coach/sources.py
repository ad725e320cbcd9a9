"""A rig with a job's differences laid over it, each entry remembering which file it stands in."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TypeVar

from drawcord.coach.closed import Closed
from drawcord.coach.job import Job
from drawcord.coach.rig import Rig
from drawcord.words.faults import Path, Problem
from drawcord.words.nearest import nearest

SECTIONS = (
    "spaces",
    "moving_parts",
    "roof_obstacles",
    "hazards",
    "obstructions",
    "doors",
    "windows",
    "partitions",
    "access",
    "passages",
)
Entry = TypeVar("Entry", bound=Closed)


@dataclass
class Layered:
    """The entries of a rig as this vehicle has them, in sorted order of their ids."""

    rig: Rig
    job: Job | None
    problems: list[Problem] = field(default_factory=list)
    _where: dict[str, tuple[str, Path]] = field(default_factory=dict)
    _entries: dict[str, dict[str, Closed]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        removed = set(self.job.differences.removed) if self.job else set()
        for section in SECTIONS:
            key = section.replace("_", " ")
            theirs: dict[str, Closed] = dict(getattr(self.rig, section))
            for name in theirs:
                self._claim(name, "rig", (key, name))
            ours: dict[str, Closed] = dict(getattr(self.job.differences, section, {})) if self.job else {}
            for name in ours:
                if name not in theirs:
                    self._claim(name, "job", ("differences", key, name))
                self._where[name] = ("job", ("differences", key, name))
            merged = {name: entry for name, entry in {**theirs, **ours}.items() if name not in removed}
            self._entries[section] = dict(sorted(merged.items()))
        for position, name in enumerate(self.job.differences.removed if self.job else ()):
            if name not in self._where:
                path: Path = ("differences", "removed", position)
                sentence = f"the rig has nothing called {name} to remove{nearest(name, self._where)}"
                self.problems.append(Problem(path, sentence, file="job"))

    def _claim(self, name: str, role: str, path: Path) -> None:
        if name in self._where or name == "roof":
            other = ".".join(str(part) for part in self._where[name][1]) if name != "roof" else "the roof itself"
            sentence = f"the id {name} is taken already, by {other}: give this one another id"
            self.problems.append(Problem(path, sentence, file=role, on_key=True))
        self._where.setdefault(name, (role, path))

    def section(self, name: str, of: type[Entry]) -> Iterator[tuple[str, Entry]]:
        """The entries of one section, in order of id."""
        for key, entry in self._entries[name].items():
            assert isinstance(entry, of)  # noqa: S101 - the models guarantee it; this tells the type checker
            yield key, entry

    @property
    def places(self) -> dict[str, tuple[str, Path]]:
        """Where each entry stands: in the "rig" or the "job", and the keys that lead to it."""
        return dict(sorted(self._where.items()))

    def path(self, name: str) -> Path:
        """Where the entry with this id stands in its file."""
        return self._where[name][1]

    def add(self, name: str, sentence: str, *keys: str | int, on_key: bool = False) -> None:
        """Record a problem with the entry `name`, at one of its keys if given."""
        role, path = self._where[name]
        self.problems.append(Problem((*path, *keys), sentence, file=role, on_key=on_key))

    def adopt(self, name: str, problems: tuple[Problem, ...]) -> None:
        """Record problems whose paths are already whole, found in the entry `name`."""
        role = self._where[name][0]
        self.problems.extend(Problem(p.path, p.sentence, file=role, on_key=p.on_key) for p in problems)
