"""Which hot, solid or moving thing a bar comes from, and by how much its clearance is too wide for the cable."""

from collections.abc import Sequence

from drawcord.coach.box import Box, between
from drawcord.coach.build import SOLID
from drawcord.routes.bars import Bar, chart
from drawcord.routes.change import changed, smallest
from drawcord.routes.facts import facts
from drawcord.routes.order import Order
from drawcord.routes.said import said
from drawcord.ways.contact import BORE_KEEPS_OFF

MOST_TOGETHER = 4  # things in the way together that are worth naming


def in_the_way(order: Order, bar: Bar) -> str:
    """What bars the face of a passage, or the way through a space: each thing that does so alone, by how much.

    Where none does alone, all of them together, unless they are many; empty if nothing is known.
    """
    coach = order.coach
    ends = [bar.place] if bar.place in coach.spaces else _ends(order, bar.place)
    boxes = [coach.spaces[name].box for name in ends]
    face = (boxes[0] if len(boxes) == 1 else between(*boxes)).grow(1)
    near = [name for name, box in _things(order, ends) if box.overlap(face)]
    found = []
    for name in near:
        if _opens(order, bar, name):
            lessened = [fact for fact in facts(order, ends) if (fact.place, fact.effort) == (name, 6)]
            less = smallest(order, lessened, lambda other: not _bars(other, bar.place))
            by = f", its clearance short by {said(coach, less.amount)}" if less else ""
            found.append(f"{_called(order, name)} is in the way{by}")
    if found or len(near) > MOST_TOGETHER:
        return "; or ".join(found)
    return " and ".join(_called(order, name) for name in near) + " are in the way" if len(near) > 1 else ""


def _ends(order: Order, passage: str) -> list[str]:
    declared = order.coach.declared.get(passage)
    return list(declared.passage.between) if declared else passage.split("~")


def _things(order: Order, ends: Sequence[str]) -> list[tuple[str, Box]]:
    """Everything that could be in the way between or within spaces, by id, with the box that it covers."""
    coach = order.coach
    hot = {name: thing.keep for name, thing in coach.hazards.items()}
    moving = {name: part.sweep for name, part in coach.moving_parts.items()}
    if [*ends] == ["roof"]:
        return [*((name, thing.keep) for name, thing in coach.obstacles.items()), *hot.items(), *moving.items()]
    if len(ends) == 1:
        solid = {name: thing.box for name, thing in coach.obstructions.items() if thing.kind in SOLID}
        return [*hot.items(), *solid.items(), *moving.items()]
    bored = {name: thing.keep for name, thing in coach.obstructions.items() if thing.kind in BORE_KEEPS_OFF}
    return [*hot.items(), *bored.items(), *coach.doors.items(), *coach.windows.items(), *moving.items()]


def _called(order: Order, name: str) -> str:
    coach = order.coach
    if thing := {**coach.hazards, **coach.obstructions, **coach.obstacles}.get(name):
        return f"{name} ({thing.kind})"
    return f"{name} ({'sweep' if name in coach.moving_parts else 'door' if name in coach.doors else 'window'})"


def _opens(order: Order, bar: Bar, without: str) -> bool:
    """Whether a bar would be gone without one thing."""
    job = order.coach.job
    assert job is not None  # noqa: S101 - an order's coach has one; this tells the type checker
    removed = job.differences.model_copy(update={"removed": [*job.differences.removed, without]})
    other = changed(order, job.model_copy(update={"differences": removed}))
    return other is not None and not _bars(other, bar.place)


def _bars(order: Order, place: str) -> bool:
    return any(bar.place == place for steps in chart(order).steps.values() for step in steps for bar in step.bars)
