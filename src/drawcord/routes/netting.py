"""From the graph that people see to the searches' own arrays, for one cable."""

from typing import Any

from drawcord.routes.net import Net
from drawcord.routes.order import Order
from drawcord.routes.route import Criteria

GOAL = -1


class Netted:
    """A net, and the way back from its states to mouths and spaces.

    A state is a mouth just entered; state 0 is the start terminal, state 1 the goal.
    """

    def __init__(self, order: Order) -> None:
        graph = order.ways.graph
        self.spaces: list[str] = sorted(graph.graph["spaces"])
        index = {name: number for number, name in enumerate(self.spaces)}
        entering = graph.graph["spaces"]
        refused = {p.id for p in order.ways.passages.values() if order.refused(p)}
        start, goal = order.cable.start, order.cable.end
        nodes: Any = graph.nodes
        self.mouths = [start, goal] + sorted(
            node
            for node, data in nodes(data=True)
            if data["kind"] == "mouth" and data["passage"] not in refused
        )
        state = {node: number for number, node in enumerate(self.mouths)}
        over: dict[str, tuple[int, tuple[int, ...]]] = {}
        for one, two, data in graph.edges(data=True):
            if data["kind"] == "crossing" and one in state:
                for here, there in ((one, two), (two, one)):
                    cost = entering[nodes[there]["space"]]
                    over[here] = (
                        state[there],
                        (
                            data["length_mm"],
                            0,
                            data["roof_holes"],
                            data["inner_holes"],
                            data["seconds"] + cost["seconds"],
                            data["doubt_micronats"] + cost["doubt_micronats"],
                        ),
                    )
        over[goal] = (1, (0,) * len(Criteria._fields))
        tails: list[int] = []
        heads: list[int] = []
        costs: list[tuple[int, ...]] = []
        for one, two, data in graph.edges(data=True):
            if data["kind"] != "run" or one not in state or two not in state:
                continue
            length, seen, seconds = data["length_mm"], data["in_sight_mm"], data["seconds"]
            for here, there in ((one, two), (two, one)):
                if here != goal and there != start:
                    head, (thick, _, roof, inner, minutes, doubt) = over[there]
                    tails.append(state[here])
                    heads.append(head)
                    costs.append((length + thick, seen, roof, inner, seconds + minutes, doubt))
        first = nodes[start]["space"]
        self.base = Criteria(
            0,
            0,
            0,
            0,
            entering[first]["seconds"] + 2 * order.coach.shop.labour.terminal,
            entering[first]["doubt_micronats"],
        )
        self.net = Net.of(
            [index[nodes[mouth]["space"]] if mouth != goal else GOAL for mouth in self.mouths],
            tails,
            heads,
            costs,
            start=0,
            goal=1,
        )

    def stations(self, states: tuple[int, ...]) -> tuple[str, ...]:
        """The stations that a path of states crosses, in order."""
        return tuple(self.mouths[state].rpartition("@")[0] for state in states if state > 1)
