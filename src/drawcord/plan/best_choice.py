"""The best choice of routes for some cables: a way for most of them, none beside another that it may not lie beside."""

from collections.abc import Sequence
from math import inf

from drawcord.plan.alternatives import Alternative
from drawcord.plan.contested import Ban

NO_WAY, TO_DO = -1, -2
Left = tuple[tuple[int, int], ...]
Lefts = tuple[Left, ...]  # one a cable
Done = tuple[int, ...]  # of each cable the number of the route that it lies on, `NO_WAY`, or `TO_DO`
Chosen = tuple[tuple[int, int] | None, ...]  # one a cable


class BestChoice:
    """Of what is left to each cable (`Left`) the choice with the fewest cables without a way, then the lightest.

    It weighs what its routes weigh, and the doubt about each place unknown on them once. Ties go to the first routes of
    the first cables. Branch and bound, cable by cable. `used`: for each cable and route the bits of what it uses that
    some of the cables may not use together.
    """

    def __init__(
        self,
        cables: Sequence[str],
        routes: Sequence[Sequence[Alternative]],
        doubt: Sequence[int],
        bans: Sequence[Ban],
    ) -> None:
        """`doubt`: the weight of the doubt about each place, in order of the bits."""
        self._weights = [[route.weight for route in some] for some in routes]
        self._doubt = doubt
        things = sorted({thing for thing, _ in bans})
        self.used = [
            [sum(1 << n for n, thing in enumerate(things) if thing in route.through) for route in some]
            for some in routes
        ]
        self._banned = [any(cable in names for _, names in bans) for cable in cables]
        groups: dict[tuple[int, ...], int] = {}
        for thing, names in bans:
            group = tuple(sorted(cables.index(name) for name in names))
            groups[group] = groups.get(group, 0) | 1 << things.index(thing)
        # Of each cable the bans of which it comes last: the bits of what is banned, and the others.
        self._last_of: list[list[tuple[int, tuple[int, ...]]]] = [[] for _ in cables]
        for (*others, last), bits in groups.items():
            self._last_of[last].append((bits, tuple(others)))
        met = [{name for route in some for name, _ in route.meets} for some in routes]
        ids = sorted(set().union(*met))
        self._alone = sum(1 << n for n, name in enumerate(ids) if sum(name in some for some in met) == 1)
        self._alike: dict[tuple[int, Left], list[tuple[int, int, int]]] = {}
        self._weighed: dict[int, int] = {0: 0}

    def best(self, lefts: Lefts, done: Done) -> Chosen:
        """The number of the route of each cable, and what is unknown on it; None for no way. What is done stays."""
        stays = [n >= 0 for n in done]
        pairs = zip(lefts, stays, strict=True)
        offered = [self._offered(cable, ((done[cable], 0),) if s else left) for cable, (left, s) in enumerate(pairs)]
        without, rest = [0], [0]  # at the least, of the cables from the last one back
        for some in reversed(offered):
            without.append(without[-1] + (not some))
            rest.append(rest[-1] + (some[0][0] if some else 0))
        without, rest = without[::-1], rest[::-1]
        best: tuple[tuple[int, float], list[float], Chosen] = (len(lefts) + 1, inf), [], ()
        chosen: list[tuple[int, int] | None] = []

        def go_on(lacking: int, weight: int, unknown: int) -> None:
            nonlocal best
            cable = len(chosen)
            bound = lacking + without[cable], weight + self._doubted(unknown) + rest[cable]
            if bound > best[0]:
                return
            if cable == len(offered):
                numbers = [one[0] if one else inf for one in chosen]
                if (bound, numbers) < best[:2]:
                    best = bound, numbers, tuple(chosen)
                return
            for least, number, more in offered[cable]:
                if (bound[0], bound[1] - rest[cable] + least + rest[cable + 1]) > best[0]:
                    break  # so is all that follows, as it is heavier
                if not self._refused(cable, number, chosen, stays):
                    chosen.append((number, more))
                    go_on(lacking, weight + self._weights[cable][number], unknown | more)
                    chosen.pop()
            if not offered[cable] or (self._banned[cable] and not stays[cable]):
                chosen.append(None)
                go_on(lacking + 1, weight, unknown)
                chosen.pop()

        go_on(0, 0, 0)
        return best[2]

    def weight(self, chosen: Chosen) -> int:
        """What a choice weighs."""
        unknown = 0
        for one in chosen:
            unknown |= one[1] if one else 0
        pairs = zip(self._weights, chosen, strict=True)
        return sum(weights[one[0]] for weights, one in pairs if one) + self._doubted(unknown)

    def _offered(self, cable: int, left: Left) -> list[tuple[int, int, int]]:
        """What is left, the lightest first: by weight with the doubt that no other cable could share."""
        key = cable, left
        if key not in self._alike:
            self._alike[key] = sorted(
                (self._weights[cable][number] + self._doubted(unknown & self._alone), number, unknown)
                for number, unknown in left
            )
        return self._alike[key]

    def _refused(
        self, cable: int, number: int, chosen: Sequence[tuple[int, int] | None], stays: Sequence[bool]
    ) -> bool:
        """Whether a route uses what all cables of some ban would then use; of the cables before it routes are chosen.

        What is done has been found to go together.
        """
        mine = self.used[cable][number]
        for bits, group in self._last_of[cable] if mine else ():
            shared = 0 if stays[cable] and all(stays[other] for other in group) else mine & bits
            for other in group:
                one = chosen[other]
                shared &= self.used[other][one[0]] if one else 0
            if shared:
                return True
        return False

    def _doubted(self, unknown: int) -> int:
        if unknown not in self._weighed:
            self._weighed[unknown] = sum(weight for n, weight in enumerate(self._doubt) if unknown >> n & 1)
        return self._weighed[unknown]
