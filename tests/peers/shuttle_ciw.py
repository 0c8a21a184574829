"""The tankers' round as a closed network of queues in ciw.

ciw's networks are open, so this one is closed by hand: one batch of customers, the tankers, comes
at minute 0 and none later, and the routing is a loop that nobody leaves. Node by node: the
response, the dump position, the road out, the fill position, the road back. Roads have a server
for everybody. What is held through at a position is one service, the sum of its parts.
"""

import math

import ciw
from ciw.dists import Deterministic, Exponential, Lognormal, Sequential

from durations import log_of

RESPONSE, SCENE, OUT, FILL, BACK = range(1, 6)


def law(spec):
    if not isinstance(spec, dict):
        return Deterministic(float(spec))
    if spec.get("shape") == "exponential":
        return Exponential(1 / spec["mean"])
    return Lognormal(*log_of(spec))


def network(scenario):
    """The network. The site's flow must let every position fill at the tankers' limit."""
    tanker, site = scenario["tankers"][0], scenario["fill_sites"][0]
    tank, handling = scenario["drop_tanks"][0], scenario["handling"]
    if site["flow"] < site["positions"] * tanker["fill_limit"]:
        raise ValueError("a shared flow is no service time of its own")
    dump = tanker["capacity"] * (1 - tanker["waste"]) / tanker["dump_rate"]
    fill = tanker["capacity"] / tanker["fill_limit"]
    at_scene = law(handling["dump_position"]) + law(dump) + law(handling["dump_clear"])
    at_site = law(handling["fill_connect"]) + law(fill) + law(handling["fill_disconnect"])
    after = {RESPONSE: SCENE, SCENE: OUT, OUT: FILL, FILL: BACK, BACK: SCENE}
    return ciw.create_network(
        arrival_distributions=[Sequential([0.0, math.inf]), None, None, None, None],
        batching_distributions=[Deterministic(tanker["count"])] + [Deterministic(1)] * 4,
        service_distributions=[law(tanker["response"]), at_scene, law(site["out"]["minutes"]),
                               at_site, law(site["back"]["minutes"])],
        number_of_servers=[math.inf, tank["dump_positions"], math.inf, site["positions"],
                           math.inf],
        routing=[[float(after[here] == there) for there in after] for here in after])


def replication(scenario, plan, seed):
    """One run; a cycle is what one tanker records between two departures from the scene."""
    ciw.seed(seed)
    run = ciw.Simulation(plan)
    run.simulate_until_max_time(scenario["incident"]["duration"])
    got = {"trips": 0, "cycles": 0, "cycle": 0.0, "fill_wait": 0.0, "scene_wait": 0.0}
    left, fill_wait = {}, {}
    for record in sorted(run.get_all_records(), key=lambda one: one.exit_date):
        who = record.id_number
        if record.node == FILL:
            fill_wait[who] = record.waiting_time
        if record.node != SCENE:
            continue
        got["trips"] += 1
        if who in left:
            got["cycles"] += 1
            got["cycle"] += record.exit_date - left[who]
            got["fill_wait"] += fill_wait[who]
            got["scene_wait"] += record.waiting_time
        left[who] = record.exit_date
    return got
