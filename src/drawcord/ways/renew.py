"""The ways of a coach after a fact has become known, out of those before: nothing is measured twice."""

from itertools import compress

import numpy as np

from drawcord.coach.coach import Coach
from drawcord.ways.derive import known
from drawcord.ways.links import Links, micronats
from drawcord.ways.passage import Passage
from drawcord.ways.ways import Ways, explore


def renew(before: Ways, coach: Coach) -> Ways:
    """What `explore(coach)` gives, for a coach that differs in no more than standing of spaces and passages.

    What becomes open that was not is explored anew. Raises BadInput for findings about passages that do not exist.
    """
    if any(before.coach.spaces[name].barred and not space.barred for name, space in coach.spaces.items()):
        return explore(coach)
    passages = known(before.passages, before.coach, coach)
    rooms = {name: raceway for name, raceway in before.rooms.items() if not coach.spaces[name].barred}
    after = Ways(coach, passages, rooms, before.roof)
    after.__dict__["_paths"] = before._paths  # noqa: SLF001 - a run is where it was, whatever is known
    if any(before.passages[name].barred and not passage.barred for name, passage in passages.items()):
        return after
    usable = {name for name, passage in passages.items() if not passage.barred}
    after.__dict__["stations"] = {
        name: station for name, station in before.stations.items() if station.passage in usable
    }
    after.__dict__["runs"] = {name: before.runs[name] for name in after.runs}
    after.__dict__["links"] = _renewed(before.links, after, before.passages)
    return after


def _renewed(links: Links, after: Ways, passages: dict[str, Passage]) -> Links:
    """The links without the mouths that are gone, and with the doubts of today."""
    kept = np.array(
        [mouth.station in after.stations if mouth.passage else mouth.space in after.runs for mouth in links.mouths],
        bool,
    )
    number = np.cumsum(kept) - 1
    mouths = tuple(compress(links.mouths, kept.tolist()))
    over = links.over[kept]
    changed = {name for name, passage in after.passages.items() if passage.chance != passages[name].chance}
    for place, mouth in enumerate(mouths if changed else ()):
        if mouth.passage in changed:
            over[place, -1] = micronats(after.passages[mouth.passage].chance)
    runs = kept[links.one] & kept[links.two]
    return Links(
        mouths=mouths,
        twin=number[links.twin[kept]],
        over=over,
        one=number[links.one[runs]],
        two=number[links.two[runs]],
        length=links.length[runs],
        in_sight=links.in_sight[runs],
        seconds=links.seconds[runs],
        entering={
            name: entering._replace(doubt=micronats(after.coach.spaces[name].chance))
            for name, entering in links.entering.items()
            if name in after.runs
        },
    )
