"""From the trip's end to the line again: the choice of the fill site, the road, the fill (rules 6 to 8)."""

import math

import boss
from ramps import INSTANT, TINY_GAL


def serve_leaving(run):
    """Those standing by first, who has stood by longest ahead; then those just done, in the order of the scenario."""
    standing = [tanker for tanker in run.tankers if tanker.phase == "stands by"]
    for tanker in sorted(standing, key=lambda tanker: tanker.stands_by_since):
        depart(run, tanker)
    for tanker in run.tankers:
        if tanker.phase == "leaving":
            depart(run, tanker)


def depart(run, tanker):
    """Off to its fill site; with none it can go to it stands by."""
    site = choose_site(run, tanker)
    if site is None:
        if tanker.phase != "stands by":
            tanker.phase = "stands by"
            tanker.stands_by_since = run.next_turn()
            run.log(tanker.spec.name, "stands by")
        return
    run.carried_away += tanker.aboard()
    tanker.phase = "out"
    tanker.site = site
    tanker.fill_left = tanker.spec.fill_with_rest(tanker.load)
    tanker.route = lanes_near(run, "scene") + ["leg"] + lanes_near(run, site.spec.name)
    run.log(tanker.spec.name, f"leaves for {site.spec.name}")
    drive_on(run, tanker)


def choose_site(run, tanker):
    """Rule 6: the one it is assigned to, else the one from which it should be back first (ties: first site)."""
    best, best_minute = None, math.inf
    for site in run.sites:
        if tanker.spec.fill_site not in (None, site.spec.name) or not boss.can_choose(run, tanker, site):
            continue
        minute = boss.expected_back(run, tanker, site)
        if minute < best_minute - INSTANT:
            best, best_minute = site, minute
    return best


def lanes_near(run, where):
    return [lane for lane in run.lanes if lane.near == where]


def drive_on(run, tanker):
    """The next stretch of the way out or back; at its end, the arrival."""
    if not tanker.route:
        if tanker.phase == "out":
            tanker.phase = "fill queue"
            tanker.site.queue.append(tanker)
            run.log(tanker.spec.name, f"at {tanker.site.spec.name}")
        else:
            filled = tanker.spec.fill_with_rest(tanker.load) - tanker.fill_left
            run.join_line(tanker, tanker.load + filled * (1 - tanker.spec.waste))
        return
    stretch = tanker.route.pop(0)
    if stretch == "leg":
        leg = tanker.site.spec.out if tanker.phase == "out" else tanker.site.spec.back
        minutes = driving(run, tanker, leg, tanker.site.spec.name) * tanker.spec.drive_factor
        run.tanker_after(tanker, minutes, lambda t: drive_on(run, t))
    else:
        stretch.waiting.append((tanker, tanker.phase))


def driving(run, tanker, duration, where):
    return run.luck.minutes(duration, tanker.spec.name, f"{tanker.phase} {where}", tanker.trips) * run.driving_factor


def serve_lanes(run):
    """While it is taken, those going the same way follow at once; when it is free, the side that waited longest."""
    for lane in run.lanes:
        if lane.crossers == 0 and lane.waiting:
            lane.direction = lane.waiting[0][1]
        entering = [entry for entry in lane.waiting if entry[1] == lane.direction]
        lane.waiting = [entry for entry in lane.waiting if entry[1] != lane.direction]
        for tanker, _ in entering:
            lane.crossers += 1
            run.log(tanker.spec.name, f"enters {lane.name} {tanker.phase}")
            minutes = driving(run, tanker, lane.crossing, lane.name)
            run.tanker_after(tanker, minutes, lambda t, lane=lane: leave_lane(run, lane, t))


def leave_lane(run, lane, tanker):
    lane.crossers -= 1
    drive_on(run, tanker)


def serve_sites(run):
    """First-come queue for a position, once the site is `ready`; before that, of those who fill themselves."""
    for site in run.sites:
        while site.positions_held < site.spec.positions:
            tanker = next((waits for waits in site.queue if site.ready or site.fills_itself(waits)), None)
            if tanker is None:
                break
            site.queue.remove(tanker)
            site.positions_held += 1
            tanker.phase = "fill_connect"
            run.tanker_after(tanker, run.handling_minutes(tanker, "fill_connect"), lambda t: start_filling(run, t))


def start_filling(run, tanker):
    tanker.phase = "filling"
    tanker.site.filling.append(tanker)
    run.log(tanker.spec.name, "fills")


def end_fills(run):
    """At a site gone dry for good who fills leaves with what it has, who waits leaves at once."""
    for site in run.sites:
        for tanker in list(site.filling):
            if tanker.fill_left <= TINY_GAL:
                tanker.fill_left = 0.0
            elif not site.dry_for_good():
                continue
            site.filling.remove(tanker)
            run.log(tanker.spec.name, "site dry" if tanker.fill_left > 0 else "full")
            tanker.phase = "fill_disconnect"
            run.tanker_after(tanker, run.handling_minutes(tanker, "fill_disconnect"), lambda t: fill_done(run, t))
        if site.dry_for_good():
            waiting, site.queue = site.queue, []
            for tanker in waiting:
                head_back(run, tanker)


def fill_done(run, tanker):
    tanker.site.positions_held -= 1
    head_back(run, tanker)


def head_back(run, tanker):
    tanker.phase = "back"
    near_site, near_scene = lanes_near(run, tanker.site.spec.name), lanes_near(run, "scene")
    tanker.route = near_site[::-1] + ["leg"] + near_scene[::-1]
    run.log(tanker.spec.name, f"leaves {tanker.site.spec.name}")
    drive_on(run, tanker)
