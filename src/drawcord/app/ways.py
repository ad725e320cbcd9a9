"""`drawcord ways`: the passages and the graph that every search runs on."""

from drawcord.app.arguments import AsJson, RigOrJobFile, ShopFolder

NAME = "ways"


def command(file: RigOrJobFile, *, shop: ShopFolder = None, json: AsJson = False) -> None:
    """List the passages of a coach.

    With --json the whole graph, as networkx node-link data.

    Example: drawcord ways layouts/van/job-garage.yaml --json > graph.json
    """
    from drawcord.app.printing import say, say_json  # noqa: PLC0415 - keeps --help quick
    from drawcord.files.load import load_ways  # noqa: PLC0415
    from drawcord.sheets.tables import text_table  # noqa: PLC0415

    _, ways = load_ways(file, shop)
    if json:
        from networkx.readwrite import json_graph  # noqa: PLC0415

        from drawcord.ways.graph import build_graph  # noqa: PLC0415

        graph = build_graph(ways.coach, ways.passages, ways.links)
        say_json(json_graph.node_link_data(graph, edges="edges"))
        return
    rows = [["passage", "from", "to", "today", "standing", "chance", "on whose word"]]
    for passage in ways.passages.values():
        today = passage.barred or passage.opening
        chance = f"{passage.chance:.0%}" if passage.standing == "unproven" else ""
        # What geometry alone calls proven is merely not hidden: nobody has been there.
        plain = passage.source == "geometry" and passage.standing == "proven"
        standing = "nothing hidden" if plain else passage.standing
        rows.append([passage.id, passage.a, passage.b, today, standing, chance, passage.source])
    say(text_table(rows))
