"""What the steps of building a coach share: the layered sketch, and the boxes placed so far."""

from contextlib import suppress

from drawcord.coach import shell as shells
from drawcord.coach.box import Box
from drawcord.coach.coach import shown_in
from drawcord.coach.faces import Direction, direction
from drawcord.coach.job import Job
from drawcord.coach.kinds import NATURE, Face
from drawcord.coach.place import Place
from drawcord.coach.resolve import Frame, Unplaced, resolve_box, resolve_point
from drawcord.coach.rig import Rig, Space
from drawcord.coach.shop import Shop
from drawcord.coach.sources import Layered
from drawcord.words.faults import Path, Problem
from drawcord.words.quantity import Height

FULL = (Height("floor", 0), Height("ceiling", 0))


class Laying:
    """Thrown away once the coach stands; `problems` collects everything that is wrong on the way."""

    def __init__(self, rig: Rig, job: Job | None, shop: Shop) -> None:
        self.rig, self.job, self.shop = rig, job, shop
        self.left = rig.traffic_keeps == "right"
        self.layered = Layered(rig, job)
        self.problems = self.layered.problems
        self.corners = shells.outline(rig.shell, self.problems)
        self.units = shown_in(rig, job)
        self.levels = shells.levels(rig, self.corners, self.units, self.problems)
        self.written = dict(self.layered.section("spaces", Space))
        self.boxes: dict[str, Box] = {}
        self.pipes: dict[str, tuple[int, int]] = {}
        self.underway: list[str] = []
        self.lost: set[str] = set()
        self.frame = shells.frame_of(rig, self.corners, self.levels, self.find, self.written)
        self.roof_frame = shells.frame_of(rig, self.corners, self.levels, self.find, self.written, roof=True)

    def find(self, name: str) -> Box:
        """The box of a space, worked out on first demand; a space measured from itself is a problem.

        Why a space cannot be placed is recorded once, with that space, however many are measured from it.
        """
        if name in self.boxes:
            return self.boxes[name]
        entry = self.written[name]
        if name in self.lost:
            raise Unplaced
        if name in self.underway:
            chain = " from ".join([*self.underway[self.underway.index(name) :], name])
            last = self.layered.path(self.underway[-1])
            raise Unplaced(Problem(last, f"{chain} are measured in a circle: measure one from a wall"))
        self.underway.append(name)
        try:
            rise = NATURE[entry.kind].rise
            default = (Height(rise[0], 0), Height(rise[1], 0)) if rise else None
            box = resolve_box(entry, self.frame, self.layered.path(name), default)
        except Unplaced as error:
            self.layered.adopt(name, error.problems)
            self.lost.add(name)
            raise Unplaced from None
        finally:
            self.underway.pop()
        self.boxes[name] = box
        return box

    def lose(self, name: str) -> None:
        """Take back the place of a space that is wrong, so that nothing measured from it is blamed too."""
        del self.boxes[name]
        self.lost.add(name)

    def place_spaces(self) -> None:
        """Place every space that can be placed."""
        for name in self.written:
            with suppress(Unplaced):
                self.find(name)

    def box(
        self, name: str, place: Place, frame: Frame, rise: tuple[Height, Height] = FULL, keys: Path = ()
    ) -> Box | None:
        """The box of an entry's place, None where it cannot be placed; `keys` lead to the place within the entry."""
        try:
            return resolve_box(place, frame, (*self.layered.path(name), *keys), rise)
        except Unplaced as error:
            self.layered.adopt(name, error.problems)
            return None

    def pipe(self, name: str, width: int) -> Box:
        """The square prism of this width around the pipe of a space, as high as the space."""
        box, at = self.boxes[name], self.written[name].pipe_at
        middle = (box.x0 + box.x1) // 2, (box.y0 + box.y1) // 2
        if at and name not in self.pipes:
            try:
                path = (*self.layered.path(name), "pipe at")
                self.pipes[name] = resolve_point(at, self.frame, path, Height("main", box.z0))[:2]
            except Unplaced as error:
                self.layered.adopt(name, error.problems)
        x, y = self.pipes.setdefault(name, middle)
        half = width // 2
        return Box(x - half, x - half + width, y - half, y - half + width, box.z0, box.z1)

    def excludes(self, name: str) -> bool:
        """Whether the owner excludes a space."""
        return self.job is not None and name in self.job.owner.excludes

    def direction(self, face: Face) -> Direction:
        """The direction of a face's name in this vehicle."""
        return direction(face, street_is_left=self.left)
