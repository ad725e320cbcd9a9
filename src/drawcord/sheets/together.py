"""What the cables of a job share, as plain data for JSON and as text. Lengths in whole mm, times in minutes."""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from drawcord.routes.route import Candidate
from drawcord.sheets.lengths import length
from drawcord.sheets.lines import lines
from drawcord.sheets.tables import LINE
from drawcord.words.units import format_length

if TYPE_CHECKING:  # a comparison has none of it, and need not load it
    from drawcord.plan.together import Names, SharedHole, Together


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
        "holes": [_hole(hole) for hole in together.holes],
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


def _hole(hole: "SharedHole") -> dict[str, Any]:
    return {
        "id": hole.id,
        "kind": hole.kind,
        "between": list(hole.between),
        "near_mm": list(hole.near),
        "far_mm": list(hole.far),
        "diameter_mm": hole.diameter,
        "cables": list(hole.cables),
    }


def together_text(together: "Together", chosen: Mapping[str, Candidate], units: str) -> str:
    """The joint plan in words: each cable's route, what is shared and kept apart, what it saved, what is proved."""
    out = ["ALL CABLES TOGETHER", ""]
    for name, candidate in chosen.items():
        out += lines(f"{name}: {candidate.id}, {' > '.join(candidate.route.spaces)}", LINE)
    for name in together.left_out:
        sentence = f"{name}: NO ROUTE is left beside the others; {len(chosen)} cables are the most that go together"
        out += lines(sentence, LINE)
    out.append("")
    for sentence in sentences(together, units):
        out += lines(sentence, LINE)
    return "\n".join(out).rstrip() + "\n"


def sentences(together: "Together", units: str) -> Iterator[str]:
    """What is shared, what fills what, what to keep apart, what it saves, and how far it is proved."""
    for hole in together.holes:
        if len(hole.cables) > 1:
            size = format_length(hole.diameter, "in" if units == "in" else "mm")
            between = " and ".join(hole.between)
            yield f"{hole.id}, one {hole.kind} hole of {size} between {between}, for {_and(hole.cables)}."
    for part in together.raceway:
        if len(part.cables) > 1:
            yield f"{length(part.length, units)} of raceway in {part.space} shared by {_and(part.cables)}."
    for bundle in together.bundles:
        yield f"{_and(bundle.cables)} fill {bundle.filled} of {bundle.free} mm² in {bundle.where}."
    places: dict[tuple[Names, str], list[str]] = {}
    for apart in together.apart:
        places.setdefault((apart.cables, apart.rule), []).append(apart.where)
    for (cables, rule), where in sorted(places.items()):
        yield f"Keep {_and(cables)} apart in {_and(tuple(where))}: {rule}."
    saved = together.saved
    amounts = [
        f"{saved.roof_holes} roof holes",
        f"{saved.inner_holes} inner holes",
        f"{round(saved.seconds / 60)} min of work",
        f"{length(saved.raceway, units)} of raceway",
    ]
    yield f"Against each cable planned alone this saves {_and(tuple(amounts))}; what is below nothing, the rules cost."
    if together.alone_faults:
        yield f"The winners could not all be carried out as they are: {'; '.join(together.alone_faults)}."
    else:
        yield "The winners could all be carried out as they are, each with holes and raceway of its own."
    weight, least = (f"{amount / 1e6:.3f} m" for amount in (together.weight, together.least_possible))
    if together.proved:
        yield f"Proved on the graph, for the sections that the job states: no plan weighs less than {weight} of cable."
    else:
        yield (
            f"Not proved: the plan weighs {weight} of plain cable on the graph, and none can weigh less than {least}, "
            f"a gap of {together.gap_percent:.2f} %."
        )


def _and(names: "Names") -> str:
    return " and ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else names[0]
