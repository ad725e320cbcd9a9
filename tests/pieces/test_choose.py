"""Pieces of a run against trying every order of pieces and every millimetre for a joint."""

from itertools import pairwise, permutations

from hypothesis import given, settings
from hypothesis import strategies as st

from drawcord.pieces.choose import Piece, choose, shortest_to_buy


def by_trying_all(run, reachable, pieces):
    """The least (joints, left over, cost) over all orders of pieces and all whole millimetres; None without any."""
    singles = [piece for piece in pieces for _ in range(piece.count)]
    found = []
    for size in range(1, len(singles) + 1):
        for order in permutations(singles, size):
            if any(piece.leads for piece in order[1:]):
                continue
            ways = {(0, 0, 0.0)}  # where the last piece ends, left over, cost
            for number, piece in enumerate(order):
                last = number == size - 1
                places = [run] if last else [x for x in range(1, run) if any(a <= x <= b for a, b in reachable)]
                ways = {
                    (
                        place,
                        left + (piece.length - place + at if piece.fitted else 0),
                        cost + piece.cost + piece.cost_per_m * (place - at) / 1000,
                    )
                    for at, left, cost in ways
                    for place in places
                    if at < place <= at + piece.length
                }
            found += [(size - 1, left, cost) for _, left, cost in ways]
    return min(found, default=None)


def worth(laid):
    return len(laid) - 1, sum(one.left_over for one in laid), sum(one.cost for one in laid)


numbered = st.lists(
    st.builds(
        Piece,
        id=st.just(""),
        length=st.integers(1, 12),
        count=st.integers(1, 2),
        fitted=st.booleans(),
        leads=st.booleans(),
        cost=st.sampled_from([0.0, 4.0, 9.0]),
        cost_per_m=st.sampled_from([0.0, 1000.0]),
    ),
    min_size=1,
    max_size=3,
)
# A reel gives one cut to a run, so there is only one of each.
hands = numbered.map(
    lambda some: [
        Piece(f"p{n}", p.length, p.count if p.fitted else 1, p.fitted, p.leads, p.cost, p.cost_per_m)
        for n, p in enumerate(some)
    ]
)
stretches = st.lists(st.tuples(st.integers(0, 20), st.integers(0, 6)).map(lambda t: (t[0], t[0] + t[1])), max_size=3)


@settings(deadline=None, max_examples=400)
@given(st.integers(1, 20), stretches, hands)
def test_pieces_are_as_good_as_any_order_with_joints_at_any_millimetre(run, reachable, pieces):
    best = by_trying_all(run, reachable, pieces)
    found = choose(run, reachable, pieces)
    if best is None:
        assert found is None
        return
    assert worth(found) == best
    assert (found[0].start, found[-1].end) == (0, run)
    for one, other in pairwise(found):
        assert one.end == other.start
        assert any(near <= one.end <= far for near, far in reachable)
    for piece in pieces:
        assert sum(one.piece == piece for one in found) <= piece.count
    assert found == choose(run, reachable[::-1], pieces[::-1])


@settings(deadline=None, max_examples=100)
@given(st.integers(1, 14), stretches, hands)
def test_the_shortest_piece_to_buy_is_enough_and_none_shorter_is(run, reachable, pieces):
    least = shortest_to_buy(run, reachable, pieces)
    bought = [[*pieces, Piece("bought", length, fitted=False)] for length in (least, least - 1)]
    assert by_trying_all(run, reachable, bought[0]) is not None
    if least > 1:
        assert by_trying_all(run, reachable, bought[1]) is None


def test_a_lead_of_the_van_and_a_cut_meet_where_a_hand_reaches():
    # 3 m lead from the roof, a cabinet door from 2.2 to 2.9 m, 6.4 m to run: the joint goes as far as it may.
    lead = Piece("lead", 3000, leads=True)
    found = choose(6400, [(2200, 2900)], [lead, Piece("reel", 5000, fitted=False)])
    assert [(one.piece.id, one.end) for one in found] == [("lead", 2900), ("reel", 6400)]
    assert found[0].left_over == 100


def test_one_long_cut_is_better_than_two_that_leave_nothing():
    # Fewest joints come first.
    found = choose(6000, [(3000, 3000)], [Piece("half", 3000, count=2), Piece("long", 9000)])
    assert [one.piece.id for one in found] == ["long"]


def test_no_joint_is_put_where_no_hand_reaches():
    assert choose(6000, [], [Piece("half", 3000, count=2)]) is None
    assert shortest_to_buy(6000, [], [Piece("half", 3000, count=2)]) == 6000
