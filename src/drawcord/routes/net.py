from dataclasses import dataclass
@dataclass(frozen=True, slots=True)
class Net:
    space: tuple
    out: tuple
    start: int
    goal: int
    criteria: int
    revisit: int
    @classmethod
    def of(cls, space, out, start, goal, criteria, revisit):
        return cls(tuple(space), tuple(tuple(a) for a in out), start, goal, criteria, revisit)
