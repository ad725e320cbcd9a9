import ast
import subprocess
import sys
from functools import cache
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

PACKAGE = Path(__file__).parents[1] / "src" / "drawcord"
LAYERS = ["words", "wire", "coach", "ways", "pieces", "routes", "plan", "load", "sheets", "files", "verify", "app"]
HEAVY = {"matplotlib", "networkx", "numpy", "pydantic", "ruamel", "shapely"}

# What reaches the disk, the clock, the network, chance or the process; none of it below `files`.
OUTSIDE = {
    *("asyncio", "ctypes", "fileinput", "ftplib", "getpass", "glob", "http", "locale", "logging", "mmap"),
    *("multiprocessing", "os", "pathlib", "pickle", "platform", "random", "secrets", "select", "shelve"),
    *("shutil", "signal", "socket", "sqlite3", "subprocess", "tempfile", "threading", "time"),
    *("datetime", "urllib", "uuid", "warnings", "zipfile", "matplotlib.pyplot", "importlib.resources"),
    *("numpy.random", "ruamel.yaml", "concurrent.futures", "zoneinfo"),
}
CALLS = {"open", "print", "input", "exec", "eval", "breakpoint", "exit", "quit", "__import__"}
METHODS = {"read_text", "write_text", "read_bytes", "write_bytes", "tofile", "fromfile"}
METHODS |= {"savetxt", "loadtxt", "now", "today", "random"}
# The one asks whether a written day exists; the paths of the other name fonts that matplotlib ships and reads itself.
EXCUSED = {"drawcord.coach.rig": ["datetime.date"], "drawcord.sheets.style": ["pathlib.Path"]}
SPEAKS = {"print", "input", "stdin", "stdout", "stderr", "argv", "exit"}  # what `app` alone may do


@cache
def modules():
    """The tree of every module by its name."""
    found = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
        found[".".join(parts).removesuffix(".__init__")] = ast.parse(path.read_text(encoding="utf-8"))
    return found


def imports(tree, *, everywhere=True):
    """Every dotted name that a module imports; names taken from a package as if they were modules."""
    body = ast.walk(tree) if everywhere else at_module_level(tree)
    for node in body:
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are absolute here"
            yield from (f"{node.module}.{name.name}" for name in node.names)


def at_module_level(tree):
    """Every node that runs when the module is imported."""
    for node in ast.iter_child_nodes(tree):
        if not isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            yield node
            yield from at_module_level(node)


OURS = [name for name in modules() if name != "drawcord"]


def within(name, known):
    """The longest of the known modules that a dotted name lies in, or nothing."""
    while name and name not in known:
        name = name.rpartition(".")[0]
    return name


def needed(name, *, everywhere=True):
    """The modules of ours that one of ours imports."""
    found = {within(one, modules()) for one in imports(modules()[name], everywhere=everywhere)}
    return sorted(found - {"", "drawcord", name})


def layer(name):
    return name.split(".")[1]


def reached_outside(tree):
    """What a tree uses that only `files` and `app` may use, as written."""
    for name in imports(tree):
        if within(name, OUTSIDE):
            yield name
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in CALLS:
            yield node.func.id
        elif isinstance(node, ast.Attribute) and node.attr in METHODS:
            yield ast.unparse(node)


def spoken(tree):
    """What a tree uses that only `app` may use, as written."""
    for node in ast.walk(tree):
        name = node.attr if isinstance(node, ast.Attribute) else node.id if isinstance(node, ast.Name) else ""
        if name in SPEAKS and (isinstance(node, ast.Name) or ast.unparse(node).startswith("sys.")):
            yield ast.unparse(node)


def test_every_folder_is_a_layer():
    # A folder without a place in the order would escape every test below.
    folders = {path.parent.name for path in PACKAGE.glob("*/__init__.py")}
    assert folders <= set(LAYERS)
    assert {layer(name) for name in OURS} == folders


def test_imports_go_down_only():
    # A layer knows nothing of those above it, within functions as little as at the top of a file.
    pairs = [(name, other) for name in OURS for other in needed(name)]
    assert len(pairs) > len(OURS)  # the imports were read
    upwards = [pair for pair in pairs if LAYERS.index(layer(pair[0])) < LAYERS.index(layer(pair[1]))]
    assert upwards == []


def test_no_modules_import_each_other_in_a_circle():
    # Imports inside functions count: they are where circles hide.
    circle: list[str] = []
    try:
        TopologicalSorter({name: needed(name) for name in modules()}).prepare()
    except CycleError as error:
        circle = error.args[1]
    assert circle == [], " imports ".join(reversed(circle))


def test_below_files_nothing_touches_disk_clock_network_or_chance():
    # Everything below is a pure function of its arguments: the same input gives the same bytes.
    below = [name for name in OURS if layer(name) not in ("files", "verify", "app")]
    found = {name: sorted(reached_outside(modules()[name])) for name in below}
    assert {name: used for name, used in found.items() if used} == EXCUSED


def test_the_checker_shares_nothing_with_what_it_checks():
    # It would share the mistakes too: a plan is held against the files by code that has nothing of the planner's.
    ours = [name for name in OURS if layer(name) == "verify"]
    assert len(ours) > 3
    assert [(name, other) for name in ours for other in needed(name) if layer(other) != "verify"] == []
    users = {layer(name) for name in OURS if any(layer(other) == "verify" for other in needed(name))}
    assert users == {"app", "verify"}


def test_app_alone_prints_and_exits():
    # What a caller gets are values and faults; words on a terminal are the command line's business.
    found = {name: sorted(spoken(modules()[name])) for name in OURS if layer(name) != "app"}
    assert {name: used for name, used in found.items() if used} == {}


def test_help_needs_nothing_heavy():
    # Followed from the command line through everything that runs on import; the chain is named.
    chains = {"drawcord.app.cli": ["drawcord.app.cli"]}
    waiting = ["drawcord.app.cli"]
    heavy = []
    while waiting:
        name = waiting.pop()
        early = imports(modules()[name], everywhere=False)
        heavy += [" imports ".join([*chains[name], one]) for one in early if one.split(".")[0] in HEAVY]
        for other in needed(name, everywhere=False):
            if other not in chains:
                chains[other] = [*chains[name], other]
                waiting.append(other)
    assert len(chains) > 5  # the commands were followed
    assert heavy == []


def test_help_loads_nothing_heavy():
    # The same asked of the interpreter itself, which sees what a library drags in as well.
    program = "import sys, drawcord.app.cli; print(*sorted({name.split('.')[0] for name in sys.modules}))"
    loaded = subprocess.run([sys.executable, "-c", program], check=True, capture_output=True, text=True)
    assert {"drawcord", "typer"} <= set(loaded.stdout.split())
    assert HEAVY & set(loaded.stdout.split()) == set()


SAMPLE = """
import time
from os import path
import numpy as np
from matplotlib import pyplot

class Held:
    import shapely

def late():
    import networkx
    from drawcord.words import faults
    print(open("x"), Held().read_text(), np.random.default_rng())
    sys.exit()
"""


def test_the_reader_of_imports_sees_what_it_should():
    # The tests above pass on what they overlook, so here is one of everything they look for.
    tree = ast.parse(SAMPLE)
    early = ["matplotlib.pyplot", "numpy", "os.path", "shapely", "time"]
    assert sorted(imports(tree, everywhere=False)) == early
    assert sorted(imports(tree)) == sorted([*early, "drawcord.words.faults", "networkx"])
    assert within("drawcord.words.faults.Problem", modules()) == "drawcord.words.faults"
    outside = ["Held().read_text", "matplotlib.pyplot", "np.random", "open", "os.path", "print", "time"]
    assert sorted(reached_outside(tree)) == outside
    assert sorted(spoken(tree)) == ["print", "sys.exit"]
