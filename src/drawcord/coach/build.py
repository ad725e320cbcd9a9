"""From rig, job and shop to a coach: every entry placed, every derived fact derived, every problem at once."""

from contextlib import suppress

from drawcord.coach import checks, moving
from drawcord.coach import shell as shells
from drawcord.coach.box import Box
from drawcord.coach.coach import Coach, Declared, Opening, Space, Terminal, Thing
from drawcord.coach.faces import Direction, direction
from drawcord.coach.job import Job
from drawcord.coach.kinds import NATURE, Standing
from drawcord.coach.place import Frame, Place, Unplaced, resolve_box, resolve_point, resolve_within
from drawcord.coach.rig import Access, Hazard, MovingPart, Obstruction, Passage, Rig, RoofObstacle
from drawcord.coach.rig import Space as WrittenSpace
from drawcord.coach.shop import Shop
from drawcord.coach.sources import Layered
from drawcord.words.faults import BadInput, Path, Problem
from drawcord.words.finding import Finding
from drawcord.words.quantity import Height

FULL = (Height("floor", 0), Height("ceiling", 0))
ON_ROOF = (Height("roof", 0), Height("roof", 150))
SOLID = ("tank", "duct", "axle", "jack", "step")  # obstructions that fill the space a cable would need


class _Builder:
    """Carries what the steps below share; thrown away once the coach stands."""

    def __init__(self, rig: Rig, job: Job | None, shop: Shop) -> None:
        self.rig, self.job, self.shop = rig, job, shop
        self.left = rig.traffic_keeps == "right"
        self.layered = Layered(rig, job)
        self.problems = self.layered.problems
        self.corners = shells.outline(rig.shell, self.problems)
        self.levels = shells.levels(rig, self.corners, self.problems)
        self.written = dict(self.layered.section("spaces", WrittenSpace))
        self.boxes: dict[str, Box] = {}
        self.underway: list[str] = []
        self.lost: set[str] = set()
        self.frame = shells.frame_of(rig, self.corners, self.levels, self.find)
        self.roof_frame = shells.frame_of(rig, self.corners, self.levels, self.find, roof=True)

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

    def place_spaces(self) -> None:
        for name in self.written:
            with suppress(Unplaced):
                self.find(name)

    def box(
        self, name: str, place: Place, frame: Frame, rise: tuple[Height, Height] = FULL, keys: Path = ()
    ) -> Box | None:
        try:
            return resolve_box(place, frame, (*self.layered.path(name), *keys), rise)
        except Unplaced as error:
            self.layered.adopt(name, error.problems)
            return None

    def things(self) -> tuple[dict[str, Thing], dict[str, Thing], dict[str, Thing]]:
        """Roof obstacles, hazards and obstructions, each with the box to be kept clear."""
        clear = self.shop.clearances
        obstacles: dict[str, Thing] = {}
        for name, obstacle in self.layered.section("roof_obstacles", RoofObstacle):
            box = self.box(name, obstacle, self.roof_frame, ON_ROOF)
            if box:
                grow = (
                    clear.roof_obstacles[obstacle.kind] if obstacle.clearance is None else obstacle.clearance
                )
                obstacles[name] = Thing(name, obstacle.kind, box, box.grow(grow, grow, 0))
        for name, entry in self.written.items():
            width = entry.cap or (entry.pipe + 2 * clear.stack_cap if entry.pipe else 0)
            space = self.boxes.get(name)
            if width and space and space.z1 >= self.levels.at("ceiling", space.x0, space.x1):
                box = _middle(space, width)._replace(z0=self.levels.roof, z1=self.levels.roof + 150)
                grow = clear.roof_obstacles["vent"]
                obstacles[name] = Thing(name, "vent", box, box.grow(grow, grow, 0))
        hazards: dict[str, Thing] = {}
        for name, hazard in self.layered.section("hazards", Hazard):
            box = self.box(name, hazard, self.frame)
            if box:
                grow = clear.hazards[hazard.kind] if hazard.clearance is None else hazard.clearance
                hazards[name] = Thing(name, hazard.kind, box, box.grow(grow))
        obstructions: dict[str, Thing] = {}
        for name, obstruction in self.layered.section("obstructions", Obstruction):
            box = self.box(name, obstruction, self.frame)
            if box:
                obstructions[name] = Thing(name, obstruction.kind, box, box.grow(clear.hole))
        return dict(sorted(obstacles.items())), hazards, obstructions

    def in_walls(self, section: str) -> dict[str, Box]:
        placed = (
            (name, self.box(name, place, self.frame)) for name, place in self.layered.section(section, Place)
        )
        return {name: box for name, box in placed if box}

    def openings(self) -> dict[str, Opening]:
        """Ways to reach in: the doors of spaces, and what the sketch lists beside them."""
        minutes = self.shop.labour.access
        found: dict[str, Opening] = {}
        for name, entry in self.written.items():
            if entry.door and name in self.boxes:
                kind = NATURE[entry.kind].opened_by
                face = self.direction(entry.door).face(self.boxes[name])
                found[f"{name}.door"] = Opening(f"{name}.door", name, kind, face, minutes[kind])
        for name, access in self.layered.section("access", Access):
            if access.into in self.lost:
                continue
            if access.into not in self.written:
                self.layered.add(name, f"{name} opens {access.into}, but there is no such space", "into")
                continue
            face = self.direction(access.face).face(self.boxes[access.into])
            try:
                face = resolve_within(access, self.frame, self.layered.path(name), face)
            except Unplaced as error:
                self.layered.adopt(name, error.problems)
            seconds = minutes[access.kind] if access.minutes is None else access.minutes
            found[name] = Opening(name, access.into, access.kind, face, seconds)
        return dict(sorted(found.items()))

    def direction(self, face: object) -> Direction:
        return direction(face, street_is_left=self.left)  # type: ignore[arg-type]

    def declared(self) -> dict[str, Declared]:
        found: dict[str, Declared] = {}
        for name, passage in self.layered.section("passages", Passage):
            missing = [end for end in passage.between if end != "roof" and end not in self.written]
            for end in missing:
                self.layered.add(name, f"{name} joins {end}, but there is no such space", "between")
            if passage.between[0] == passage.between[1]:
                self.layered.add(name, f"{name} joins {passage.between[0]} to itself", "between")
            frame = self.roof_frame if "roof" in passage.between else self.frame
            at = self.box(name, passage.at, frame, keys=("at",)) if passage.at else None
            found[name] = Declared(name, passage, at)
        return found

    def spaces(self, sweeps: dict[str, Box], things: list[Thing]) -> dict[str, Space]:
        """Every placed space with what is taken from it; the roof is added by itself."""
        found = self.known()
        excluded = set(self.job.owner.excludes) if self.job else set()
        spaces = {"roof": self.roof("the owner excludes it" if "roof" in excluded else "")}
        for name, box in self.boxes.items():
            entry = self.written[name]
            nature = NATURE[entry.kind]
            rides = moving.rides(box, sweeps) if entry.kind != "room" else ""
            standing, chance, source = found.get(name) or self.doubt(entry)
            barred = ""
            if nature.barred:
                barred = f"it is a {entry.kind}"
            elif rides:
                barred = f"it moves with {rides}, or lies in its way"
            elif name in excluded:
                barred = "the owner excludes it"
            elif standing == "blocked":
                barred = "it is blocked"
            taken = [part for part in (*sweeps.values(), *(t.box for t in things)) if part.overlap(box)]
            taken += [
                other
                for key, other in self.boxes.items()
                if checks.nested(self.written[key].kind, other, box)
            ]
            taken += self.contents(name, entry, box)
            spaces[name] = Space(
                id=name,
                kind=entry.kind,
                box=box,
                taken=tuple(sorted({clip for part in taken if (clip := part.overlap(box))})),
                zone=entry.zone or nature.zone,
                hidden=nature.hidden,
                tall=box.z0 <= self.levels.at("floor", box.x0, box.x1) + 50
                and box.z1 >= self.levels.at("ceiling", box.x0, box.x1) - 50,
                moving=rides,
                barred=barred,
                standing=standing,
                chance=chance,
                front=self.direction(entry.door) if entry.door else None,
                plain=tuple(sorted(self.direction(face) for face in entry.plain)),
                cover=nature.cover,
                source=source,
            )
        return dict(sorted(spaces.items()))

    def roof(self, barred: str) -> Space:
        xs, ys = zip(*self.corners, strict=True)
        box = Box(min(xs), max(xs), min(ys), max(ys), self.levels.roof, self.levels.roof)
        nature = NATURE["roof"]
        return Space(
            "roof",
            "roof",
            box,
            (),
            nature.zone,
            nature.hidden,
            False,
            "",
            barred,
            "proven",
            1.0,
            None,
            (),
            nature.cover,
            "sketch",
        )

    def doubt(self, entry: WrittenSpace) -> tuple[Standing, float, str]:
        standing = entry.standing or ("proven" if entry.chance is None else "unproven")
        return standing, self.chance(standing, entry.chance), entry.source or "sketch"

    def chance(self, standing: Standing, chance: float | None) -> float:
        if standing == "unproven":
            return self.shop.preferences.chance_clear if chance is None else chance
        return 1.0 if standing == "proven" else 0.0

    def known(self) -> dict[str, tuple[Standing, float, str]]:
        """What was found out about this vehicle's spaces and passages, by id."""
        known: dict[str, tuple[Standing, float, str]] = {}
        for found in self.job.differences.found if self.job else ():
            standing = found.standing or ("unproven" if found.chance is not None else "proven")
            words = ", ".join(part for part in (found.source, found.date) if part) or "job"
            known[found.what] = (standing, self.chance(standing, found.chance), words)
        return known

    def contents(self, name: str, entry: WrittenSpace, box: Box) -> list[Box]:
        """What fills a space: contents, all but a usable strip, the pipe of a stack."""
        rise = (Height("main", box.z0), Height("main", box.z1))
        parts = [
            part
            for number, place in enumerate(entry.filled)
            if (part := self.box(name, place, self.frame, rise, keys=("filled", number)))
        ]
        if entry.usable:
            strips = []
            for face, depth in entry.usable.items():
                axis, sign = self.direction(face)
                bounds = list(box)
                if sign > 0:
                    bounds[2 * axis] = max(bounds[2 * axis], bounds[2 * axis + 1] - depth)
                else:
                    bounds[2 * axis + 1] = min(bounds[2 * axis + 1], bounds[2 * axis] + depth)
                strips.append(Box(*bounds))
            parts.extend(box.minus(strips))
        if entry.pipe:
            parts.append(_middle(box, entry.pipe))
        return parts

    def terminals(self, spaces: dict[str, Space]) -> dict[str, Terminal]:
        found: dict[str, Terminal] = {}
        for name, device in sorted((self.job.equipment if self.job else {}).items()):
            base: Path = ("equipment", name)
            if device.space in self.lost:
                continue
            if device.space not in spaces:
                sentence = f"{name} sits in {device.space}, but there is no such space"
                self.problems.append(Problem((*base, "in"), sentence, file="job"))
                continue
            on_roof = device.space == "roof"
            for terminal, spot in sorted(device.terminals.items()):
                path = base if spot is None else (*base, "terminals", terminal)
                height = Height("roof", 0) if on_roof else None
                try:
                    point = resolve_point(
                        spot or device, self.roof_frame if on_roof else self.frame, path, height
                    )
                except Unplaced as error:
                    self.problems.extend(Problem(p.path, p.sentence, file="job") for p in error.problems)
                    continue
                found[f"{name}.{terminal}"] = Terminal(f"{name}.{terminal}", device.space, point, device.kind)
        return found


def _middle(box: Box, width: int) -> Box:
    """The square prism of this width that stands in the middle of a box."""
    x, y = (box.x0 + box.x1) // 2, (box.y0 + box.y1) // 2
    half = width // 2
    return Box(x - half, x - half + width, y - half, y - half + width, box.z0, box.z1)


def build(rig: Rig, job: Job | None, shop: Shop) -> Coach:
    """Place everything.

    Raises BadInput with every problem of references and geometry at once; a problem's `file` is "rig" or
    "job", for the reader of the files to turn into a name and a line.
    """
    builder = _Builder(rig, job, shop)
    builder.place_spaces()
    obstacles, hazards, obstructions = builder.things()
    parts: dict[str, tuple[MovingPart, Box]] = {}
    for name, part in builder.layered.section("moving_parts", MovingPart):
        frame = builder.roof_frame if part.kind == "hatch" else builder.frame
        box = builder.box(name, part, frame)
        if box:
            parts[name] = (part, box)
    moved = moving.place(parts, builder.direction, shop.clearances.moving)
    solid = [Thing(t.id, t.kind, t.keep, t.keep) for t in hazards.values()]
    solid += [t for t in obstructions.values() if t.kind in SOLID]
    spaces = builder.spaces({name: part.sweep for name, part in moved.items()}, solid)
    moved = moving.with_riders(moved, spaces)
    terminals = builder.terminals(spaces)
    coach = Coach(
        rig=rig,
        job=job,
        shop=shop,
        outline=builder.corners,
        levels=builder.levels,
        street_is_left=builder.left,
        spaces=spaces,
        moving_parts=moved,
        obstacles=obstacles,
        hazards=hazards,
        obstructions=obstructions,
        doors=builder.in_walls("doors"),
        windows=builder.in_walls("windows"),
        partitions=builder.in_walls("partitions"),
        openings=builder.openings(),
        declared=builder.declared(),
        terminals=terminals,
        touching=checks.pairs(rig, builder.written, builder.problems),
        found={what: known for what, known in builder.known().items() if what not in spaces},
        findings=(),
    )
    checks.geometry(coach, builder.layered)
    checks.orders(coach, builder.problems)
    if builder.problems:
        raise BadInput(builder.problems)
    findings: list[Finding] = checks.notices(coach)
    return Coach(**{**vars(coach), "findings": tuple(sorted(findings))})
