"""What the cables of a job share, as plain data for JSON and as text. Lengths in whole mm, times in minutes."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from drawcord.routes.route import Bore
from drawcord.sheets.lengths import length
from drawcord.sheets.lines import lines
from drawcord.sheets.tables import LINE
from drawcord.words.units import format_width

if TYPE_CHECKING:  # a comparison has none of it, and need not load it
    from drawcord.plan.together import Names, Saved, Together


def together_document(together: "Together | None") -> dict[str, Any] | None:
    """The joint plan as plain data; null where there are fewer than two cables to plan."""
    if together is None:
        return None
    saved = together.saved
    return {
        "proved": together.proved,
        "gap_percent": round(together.gap_percent, 4),
        "weight_m": round(together.weight / 1e6, 6),
        "least_possible_m": round(together.least_possible / 1e6, 6),
        "left_out": list(together.left_out),
        "holes": [hole_document(hole) | {"cables": list(hole.cables)} for hole in together.holes],
        "raceway": [
            {"space": part.space, "length_mm": part.length, "cables": list(part.cables)} for part in together.raceway
        ],
        "bundles": [
            {"where": b.where, "cables": list(b.cables), "filled_mm2": b.filled, "free_mm2": b.free}
            for b in together.bundles
        ],
        "apart": [{"where": a.where, "cables": list(a.cables), "rule": a.rule} for a in together.apart],
        "saved": {
            "roof_holes": saved.roof_holes,
            "inner_holes": saved.inner_holes,
            "minutes": round(saved.seconds / 60, 1),
            "raceway_mm": saved.raceway,
        },
        "alone": {"legal": not together.alone_faults, "faults": list(together.alone_faults)},
    }


def hole_document(hole: Bore) -> dict[str, Any]:
    """A hole as plain data, without what tells one of a route from one of several cables."""
    return {
        "id": hole.id,
        "kind": hole.kind,
        "between": list(hole.between),
        "near_mm": list(hole.near),
        "far_mm": list(hole.far),
        "diameter_mm": hole.diameter,
    }


def together_text(together: "Together", count: int, units: str) -> str:
    """The joint plan of `count` cables in words: what is shared and kept apart, what it saved, what is proved."""
    out = ["ALL CABLES TOGETHER", ""]
    for name in together.left_out:
        sentence = f"{name}: NO ROUTE is left beside the others; {count} cables are the most that go together"
        out += lines(sentence, LINE)
    for sentence in sentences(together, units):
        out += lines(sentence, LINE)
    return "\n".join(out).rstrip() + "\n"


def sentences(together: "Together", units: str) -> Iterator[str]:
    """What is shared, what fills what, what to keep apart, what it saves, and how far it is proved."""
    for hole in together.holes:
        if len(hole.cables) > 1:
            size = format_width(hole.diameter, units)
            between = " and ".join(hole.between)
            yield f"{hole.id}, one {hole.kind} hole of {size} between {between}, for {_and(hole.cables)}."
    for part in together.raceway:
        if len(part.cables) > 1:
            yield f"{length(part.length, units)} of raceway in {part.space} shared by {_and(part.cables)}."
    for bundle in together.bundles:
        yield f"{_and(bundle.cables)} fill {bundle.filled} of {bundle.free} mm² in {bundle.where}."
    places: dict[str, dict[Names, list[str]]] = {}
    for apart in together.apart:
        places.setdefault(apart.rule, {}).setdefault(apart.cables, []).append(apart.where)
    for rule, pairs in sorted(places.items()):
        where = [f"{_and(cables)} in {_and(tuple(here))}" for cables, here in sorted(pairs.items())]
        yield f"Keep apart {'; '.join(where)}: {rule}."
    yield saved_text(together.saved, units)
    if together.alone_faults:
        yield f"The winners could not all be carried out as they are: {'; '.join(together.alone_faults)}."
    else:
        yield "The winners could all be carried out as they are, each with holes and raceway of its own."
    unit = "in" if units == "in" else "m"
    weight, least = (length(round(amount / 1e3), unit) for amount in (together.weight, together.least_possible))
    counted = "counted as cable on the graph, for the sections that the job states"
    if together.proved:
        yield f"Proved: {counted}, no plan comes to less than its {weight}."
    else:
        gap = f"a gap of {together.gap_percent:.2f} %"
        yield f"Not proved: {counted}, the plan comes to {weight}, and none can come to less than {least}, {gap}."


def saved_text(saved: "Saved", units: str) -> str:
    """What the joint plan saves, and what the rules of sharing cost, against each cable planned alone."""
    minutes = round(saved.seconds / 60)
    amounts = (
        (saved.roof_holes, _holes("roof", saved.roof_holes)),
        (saved.inner_holes, _holes("inner", saved.inner_holes)),
        (minutes, f"{abs(minutes)} min of work"),
        (saved.raceway, f"{length(abs(saved.raceway), units)} of raceway"),
    )
    less = _and(tuple(said for amount, said in amounts if amount > 0) or ("nothing",))
    more = tuple(said for amount, said in amounts if amount < 0)
    cost = f"; the rules of sharing cost {_and(more)}" if more else ""
    return f"Against each cable planned alone this saves {less}{cost}."


def _holes(kind: str, number: int) -> str:
    return f"{abs(number)} {kind} hole{'s' * (abs(number) != 1)}"


def _and(names: "Names") -> str:
    return " and ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else names[0]
