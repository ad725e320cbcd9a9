"""A load that is as sure as asked, against brute force over purchases, stock, cases and places to join."""

from functools import cache
from itertools import combinations_with_replacement, product
from random import Random

import pytest

import sketch
from drawcord.coach.van import Van
from drawcord.load.cases import Case, JobCases
from drawcord.load.runs import Run
from drawcord.load.sure import sure
from drawcord.plan.contested import apart
from drawcord.plan.knowing import Knowing
from drawcord.plan.looking import Looking
from drawcord.plan.outcomes import Outcomes, choices
from drawcord.routes.allowance import WayIn, _Stretch
from unproven_samples import followed, outcomes_of, some_cables, worked

TYPES = ("thick", "thin")


def run(cable, length, *, type_id="thin", cores=1, reach=(), job="job"):
    """A run of which a hand reaches some stretches; lengths are a few millimetres, so that all can be tried."""
    stretch = _Stretch(0, 1.0, "bay", (0, 0, 0), (length, 0, 0), 0, length)
    ways_in = tuple(WayIn(near, far, "door", stretch) for near, far in reach)
    return Run(job, cable, type_id, cores, 0, length, ways_in, (), "mm")


def job_of(name, planned, *cases):
    """A job whose cases are runs with their chance, or the cables without a way."""
    made = [
        Case(chance, tuple(what), {}) if isinstance(what[0], Run) else Case(chance, (), {}, without=tuple(what))
        for chance, what in cases
    ]
    return JobCases(name, tuple(planned), tuple(made), {}, Outcomes((), ()), {}, (), (), ())


def van(reels=(), store=(), leads=(), types=("thin",)):
    """A van: reels [mm]; what the store sells as length and price; fitted pieces as length and count. Types in turn."""

    def typed(name, each, *keys):
        return {
            f"{name}-{n}": {"type": types[n % len(types)], **dict(zip(keys, one, strict=True))}
            for n, one in enumerate(each)
        }

    held = {
        "reels": typed("reel", [(mm,) for mm in reels], "length"),
        "extensions": typed("fitted", leads, "length", "count"),
        "store": typed("sold", store, "length", "price"),
    }
    return sketch.model(Van, {"format": 1, "units": "mm", "keep": 0, **held})


@cache
def serves(reels, fitted, pieces):
    """Whether cores can be made of these reels and fitted pieces: by trying every order of cuts and places to join.

    `pieces`: for each core still to make, how much of it is left and where on from there a joint may lie.
    """
    if not pieces:
        return True
    (left, reach), *rest = pieces
    for number, mm in enumerate(reels):
        others = (*reels[:number], *reels[number + 1 :])
        for cut in range(1, min(mm, left) + 1):
            if cut == left or cut in reach:
                on = (left - cut, tuple(sorted(at - cut for at in reach if at > cut)))
                new = tuple(rest) if cut == left else (on, *rest)
                if serves(tuple(sorted((*others, mm - cut))), fitted, new):
                    return True
    for number, mm in enumerate(fitted):
        others = (*fitted[:number], *fitted[number + 1 :])
        if mm >= left and serves(reels, others, tuple(rest)):
            return True
        for cut in range(1, min(mm, left - 1) + 1):
            on = (left - cut, tuple(sorted(at - cut for at in reach if at > cut)))
            if cut in reach and serves(reels, others, (on, *rest)):
                return True
    return False


def served(stock: Van, demand, more=()):
    """The same for a van, reels bought besides, and runs of all types."""
    for type_id in TYPES:
        reels = [one.length for held in (stock.reels, stock.off_cuts) for one in held.values() if one.type == type_id]
        reels += [stock.store[name].length for name in more if stock.store[name].type == type_id]
        fitted = [one.length for one in stock.extensions.values() if one.type == type_id for _ in range(one.count)]
        cores = []
        for one in demand:
            places = tuple(at for at in range(1, one.length) if any(near <= at <= far for near, far in one.reachable))
            cores += [(one.length, places)] * one.cores * (one.type == type_id)
        if not serves(tuple(sorted(reels)), tuple(sorted(fitted)), tuple(cores)):
            return False
    return True


def together(jobs):
    """Every choice of one case a job: its chance and its runs, None where a cable has no way."""
    for each in product(*(job.cases for job in jobs)):
        chance = 1.0
        for case in each:
            chance *= case.chance
        yield chance, None if any(case.lost for case in each) else [run for case in each for run in case.runs]


def random_jobs(seed, jobs, *, reach):
    """Jobs of two cables and a few cases each, with a van that is too small for some of them."""
    rng = Random(seed)  # noqa: S311 - any will do

    def runs(name):
        return [
            run(
                f"c{n}",
                length := rng.randint(3, 9),
                type_id=rng.choice(TYPES),
                cores=rng.choice((1, 1, 2)),
                reach=[(at, min(at + 1, length)) for at in rng.sample(range(1, 3), rng.randint(0, 2))] if reach else (),
                job=name,
            )
            for n in range(rng.randint(1, 2))
        ]

    made = []
    for number in range(jobs):
        weights = [rng.randint(1, 9) for _ in range(rng.randint(1, 4))]
        chances = [weight / sum(weights) for weight in weights]
        name = f"job-{number}"
        cases = [(chance, ["c0"] if rng.random() < 0.15 else runs(name)) for chance in sorted(chances, reverse=True)]
        made.append(job_of(name, runs(name), *cases))
    stock = van(
        [rng.randint(4, 14) for _ in range(rng.randint(1, 4))],
        [(rng.randint(8, 14), rng.randint(1, 9)) for _ in range(rng.randint(0, 3))],
        [(rng.randint(3, 6), rng.randint(1, 2))] if reach else (),
        TYPES,
    )
    return made, stock


@pytest.mark.parametrize("seed", range(24))
@pytest.mark.parametrize("wanted", [0.6, 1.0])
def test_the_cheapest_purchase_that_is_as_sure_and_nothing_to_spare(seed, wanted):
    # Cables without a place to join: every purchase up to as many reels as cores, every case of both jobs together.
    jobs, stock = random_jobs(seed, 1 + seed % 2, reach=False)
    found = sure(jobs, stock, wanted)
    cases = list(together(jobs))
    all_planned = [run for job in jobs for run in job.planned]
    cores = max(sum(one.cores for one in runs) for runs in (all_planned, *(runs for _, runs in cases if runs)))

    def how_sure(more):
        return sum(chance for chance, runs in cases if runs is not None and served(stock, runs, more))

    most = [name for name in stock.store for _ in range(cores)]
    possible = how_sure(most)
    assert found.possible == pytest.approx(possible, abs=1e-9)
    assert found.chance == pytest.approx(how_sure(found.bought), abs=1e-9)
    assert found.enough == (possible >= wanted - 1e-9)
    of_type = {type_id: [one for one in all_planned if one.type == type_id] for type_id in TYPES}
    enough = [type_id for type_id, runs in of_type.items() if served(stock, runs, most)]
    planned = [one for type_id in enough for one in of_type[type_id]]
    assert served(stock, planned, found.bought)
    for count in range(cores + 1):
        for more in combinations_with_replacement(sorted(stock.store), count):
            if sum(stock.store[name].price for name in more) < found.price - 1e-9:
                falls_short = how_sure(more) < min(wanted, possible) - 1e-9
                assert falls_short or not served(stock, planned, more)
    covered = [runs for _, runs in cases if runs is not None and served(stock, runs, found.bought)]
    covered.append(planned)
    assert all(served(found.carried, runs) for runs in covered)
    for name, reel in stock.reels.items():
        if name in found.carried.reels and reel.type in enough:
            rest = {other: one for other, one in found.carried.reels.items() if other != name}
            fewer = found.carried.model_copy(update={"reels": rest})
            assert not all(served(fewer, runs) for runs in covered)


@pytest.mark.parametrize("seed", range(30))
def test_what_is_carried_serves_as_many_cases_as_it_says(seed):
    # With joints, fitted pieces and two types: brute force may lay more than `bring` does, never less.
    jobs, stock = random_jobs(seed, 1 + seed % 2, reach=True)
    found = sure(jobs, stock, 0.9)
    able = sum(chance for chance, runs in together(jobs) if runs is not None and served(found.carried, runs))
    assert found.chance <= able + 1e-9
    missing = {(one.job, id(one.case)) for one in found.short}
    for each in product(*(job.cases for job in jobs)):
        if not any((job.job, id(case)) in missing for job, case in zip(jobs, each, strict=True)):
            assert served(found.carried, [run for case in each for run in case.runs])


@pytest.mark.parametrize("seed", range(12))
def test_the_chance_is_that_of_every_outcome_played_through(seed):
    # All 2^m outcomes of two jobs' unproven places, by their cards: the routes that come of each, tried on the load.
    jobs, played = [], []
    for number in (0, 1):
        cables, unproven = some_cables(seed + 100 * number, places=3, cables=2, routes=4)
        lookings = [Looking(Knowing(group, unproven)) for group in apart(cables)]
        name = f"job-{number}"

        def runs_of(routes, name=name):
            return [run(cable, one.cut_length[2] // 1000, job=name) for cable, one in sorted(routes.items()) if one]

        cases = [
            (chance, [cable for cable, one in routes.items() if one is None] or runs_of(routes))
            for chance, routes in choices(lookings)
        ]
        jobs.append(job_of(name, [], *cases))
        played.append([])
        for outcome, chance in outcomes_of(unproven):
            routes = {}
            for looking in lookings:
                group = [cable for cable in cables if cable.cable in looking.knowing.cables]
                known = followed(looking.card, outcome)[1]
                routes |= dict(zip(looking.knowing.cables, worked(group, unproven, known, outcome)[1], strict=True))
            played[-1].append((chance, None if None in routes.values() else runs_of(routes)))
    stock = van([9, 12], [(10, 5)])
    found = sure(jobs, stock, 0.7)
    expected = sum(
        one * other
        for (one, runs), (other, more) in product(*played)
        if runs is not None and more is not None and served(found.carried, [*runs, *more])
    )
    assert found.chance == pytest.approx(expected, abs=1e-9)


def test_what_is_not_covered_says_what_it_takes():
    # Six in ten 4 long, three in ten 9, one in ten no way; a reel of 5, and one of 10 in the store for 7.
    cases = [(0.6, [run("c", 4)]), (0.3, [run("c", 9)]), (0.1, ["c"])]
    job = job_of("job", [run("c", 4)], *cases)
    stock = van([5], [(10, 7)])
    half, most, all_ = (sure([job], stock, wanted) for wanted in (0.5, 0.7, 1.0))
    assert (half.bought, half.price, half.chance, half.enough) == ((), 0, 0.6, True)
    assert [(one.chance, one.case.without, one.buy) for one in half.short] == [
        (pytest.approx(0.3), (), ("sold-0",)),
        (pytest.approx(0.1), ("c",), ()),
    ]
    assert (most.bought, most.price, most.chance, most.enough) == (("sold-0",), 7, pytest.approx(0.9), True)
    assert list(most.carried.reels) == ["sold-0 #1"]
    assert (all_.enough, all_.possible, all_.bought) == (False, pytest.approx(0.9), ("sold-0",))


def test_a_case_that_no_reel_is_long_enough_for_names_the_cable():
    # 12 in one piece, from reels of 5 and 10: nothing to buy helps.
    job = job_of("job", [run("c", 4)], (0.6, [run("c", 4)]), (0.4, [run("c", 12)]))
    found = sure([job], van([5], [(10, 7)]), 0.9)
    assert [(one.chance, one.buy, one.lacking) for one in found.short] == [(pytest.approx(0.4), (), ("thin",))]
    assert (found.enough, found.bought) == (False, ())


def test_the_plan_is_loaded_for_whatever_its_cases_are():
    # Planned with the others, a cable may go a way that is none of its own best.
    job = job_of("job", [run("c", 9)], (1.0, [run("c", 4)]))
    found = sure([job], van([5], [(10, 7)]), 0.5)
    assert found.bought == ("sold-0",)
    assert served(found.carried, job.planned)


def test_where_the_plans_have_too_little_cable_all_there_is_goes_along():
    # One of two jobs can be done with it, and somebody may still bring the rest.
    jobs = [job_of(name, [run("c", 8, job=name)], (1.0, [run("c", 8, job=name)])) for name in ("monday", "tuesday")]
    found = sure(jobs, van([10, 3]), 0.5)
    assert (found.chance, found.possible, found.enough) == (0, 0, False)
    assert list(found.carried.reels) == ["reel-0", "reel-1"]


def test_two_jobs_that_want_the_same_reel_in_some_cases_are_told_so():
    # Either may need 8 of the one reel of 10 and there is no store: not both, which is one case in four.
    jobs = [
        job_of(name, [run("c", 2, job=name)], (0.5, [run("c", 2, job=name)]), (0.5, [run("c", 8, job=name)]))
        for name in ("monday", "tuesday")
    ]
    found = sure(jobs, van([10]), 0.9)
    assert (found.chance, found.possible, found.enough) == (pytest.approx(0.75), pytest.approx(0.75), False)
    assert [(one.job, one.chance, one.buy) for one in found.short] == [
        ("monday", pytest.approx(0.25), ()),
        ("tuesday", pytest.approx(0.25), ()),
    ]
    assert [one.lacking for one in found.short] == [(), ()]


def test_past_the_bound_the_least_likely_cases_count_as_not_covered():
    # Twenty cases and a bound of six: what is left out is said, and never claimed.
    cases = [(chance / 210, [run("c", chance)]) for chance in range(20, 0, -1)]
    job = job_of("job", [run("c", 1)], *cases)
    found = sure([job], van([20]), 0.5, most=6)
    assert found.chance == pytest.approx(sum(range(15, 21)) / 210)
    assert found.chance + found.untried == pytest.approx(1)
    assert sure([job], van([20]), 0.5).untried == 0


def test_jobs_in_another_order_come_to_the_same():
    # The same purchase, the same confidence, the same stock.
    for seed in range(4):
        jobs, stock = random_jobs(seed, 2, reach=True)
        one, other = sure(jobs, stock, 0.8), sure(jobs[::-1], stock, 0.8)
        assert one.chance == pytest.approx(other.chance, abs=1e-12)
        assert (one.bought, sorted(one.carried.reels)) == (other.bought, sorted(other.carried.reels))


def test_brute_force_knows_what_a_joint_is_good_for():
    # The oracle itself: 8 of two reels of 5 needs a joint from 3 to 5, and one that is fitted is not cut.
    assert served(van([5, 5]), [run("c", 8, reach=[(4, 4)])])
    assert not served(van([5, 5]), [run("c", 8, reach=[(6, 7)])])
    assert not served(van([5, 5]), [run("c", 8)])
    assert served(van([5], leads=[(4, 1)]), [run("c", 8, reach=[(3, 4)])])
