"""The tables beside the joint plan: each cable and what it shares, holes, joints and devices, what to keep apart."""

from collections.abc import Iterator, Mapping

from drawcord.plan.named import place
from drawcord.plan.plan import Plan
from drawcord.plan.together import Names, Together
from drawcord.sheets.flow import Table
from drawcord.sheets.holes import from_edge
from drawcord.sheets.joint_marks import fixtures
from drawcord.sheets.lengths import bore, length
from drawcord.sheets.tables import Rows
from drawcord.sheets.traces import Trace


def joint_tables(plan: Plan, looks: Mapping[str, Trace], units: str) -> list[Table]:
    """Cables first, then what there is of the rest."""
    together = plan.together
    if together is None:
        return []
    cells = None if units == "mm" else units
    tables = [
        Table("Cables", _cables(plan, together, looks, cells)),
        Table("Holes", _holes(plan, together, looks, cells)),
        Table("Joints and devices", _fixtures(plan, looks)),
        Table("Raceway in sight", _raceway(together, looks, cells)),
        Table("In narrow places", _bundles(together, looks)),
        Table("Keep apart", _apart(together, looks)),
    ]
    return [table for table in tables if len(table.rows) > 1]


def letters(names: Names, looks: Mapping[str, Trace]) -> str:
    """The letters of some cables."""
    return " ".join(looks[name].tag for name in names)


def _headed(name: str, cells: str | None) -> str:
    return name if cells else f"{name} mm"


def _cables(plan: Plan, together: Together, looks: Mapping[str, Trace], cells: str | None) -> Rows:
    rows = [["", "cable", "from", "to", _headed("length", cells), "shares", "in one space with"]]
    for name, one in plan.chosen.items():
        cable = plan.coach.job.cables[name] if plan.coach.job else None
        ends = [cable.start, cable.end] if cable else ["start", "end"]
        shared = "; ".join(_shared(name, together, looks)) or "nothing"
        far, beside = length(one.route.criteria.length, cells), _beside(plan, name, looks)
        rows.append([looks[name].tag, name, *ends, far, shared, beside])
    return rows


def _shared(name: str, together: Together, looks: Mapping[str, Trace]) -> Iterator[str]:
    """What a cable shares, each place with the letters of those that it shares it with."""
    places = [(hole.id, hole.cables) for hole in together.holes]
    places += [(f"raceway in {part.space}", part.cables) for part in together.raceway]
    places += [(bundle.where, bundle.cables) for bundle in together.bundles]
    beside: dict[Names, list[str]] = {}
    for where, cables in places:
        if name in cables and len(cables) > 1:
            beside.setdefault(tuple(other for other in cables if other != name), []).append(where)
    for others, wheres in beside.items():
        yield f"{', '.join(wheres)} with {letters(others, looks)}"


def _beside(plan: Plan, name: str, looks: Mapping[str, Trace]) -> str:
    """The letters of the cables that run in one space with it, the roof and the rooms apart."""
    inside = {
        one: {leg.space for leg in candidate.route.legs if leg.kind not in ("roof", "room")}
        for one, candidate in plan.chosen.items()
    }
    return letters(tuple(one for one in inside if one != name and inside[one] & inside[name]), looks) or "none"


def _holes(plan: Plan, together: Together, looks: Mapping[str, Trace], cells: str | None) -> Rows:
    rows = [["hole", "for", "from > to", _headed("⌀", cells), _headed("from front", cells), _headed("across", cells)]]
    own = {(name, place(hole)): hole.id for name, one in plan.chosen.items() for hole in one.route.holes}
    for hole in together.holes:
        edge, across = from_edge(plan.coach, hole.near[1], on_roof=hole.kind == "roof")
        front = length(hole.near[0] - plan.coach.bounds[0], cells)
        at = [front, f"{length(across, cells)} from {edge}"]
        between = " > ".join(hole.between)
        users = ", ".join(f"{looks[name].tag} {own[name, place(hole)]}" for name in hole.cables)
        rows.append([hole.id, users, between, bore(hole.diameter, cells), *at])
    return rows


def _fixtures(plan: Plan, looks: Mapping[str, Trace]) -> Rows:
    header = ["", "on", "what", "in", "reached by"]
    return [
        header,
        *([f.tag, looks[f.cable].tag, f.what, f.space, f.opening or "OUT OF REACH"] for f in fixtures(plan)),
    ]


def _raceway(together: Together, looks: Mapping[str, Trace], cells: str | None) -> Rows:
    rows = [[part.space, letters(part.cables, looks), length(part.length, cells)] for part in together.raceway]
    return [["in", "for", _headed("length", cells)], *rows]


def _bundles(together: Together, looks: Mapping[str, Trace]) -> Rows:
    header = ["where", "cables", "filled mm²", "free mm²"]
    return [header, *([b.where, letters(b.cables, looks), str(b.filled), str(b.free)] for b in together.bundles)]


def _apart(together: Together, looks: Mapping[str, Trace]) -> Rows:
    """One row a pair of cables; a rule is told once and stands for the rows below it too."""
    places: dict[tuple[str, Names], list[str]] = {}
    for one in together.apart:
        places.setdefault((one.rule, one.cables), []).append(one.where)
    rows, told = [["cables", "where", "rule"]], ""
    for (rule, cables), where in sorted(places.items()):
        rows.append([letters(cables, looks), ", ".join(where), "as above" if rule == told else rule])
        told = rule
    return rows
