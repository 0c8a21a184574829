"""The line at the scene: who takes which place (rules 2 to 4), who breaks off, who pulls clear with a rest (rule 5)."""

import boss
from flows import flows_now, in_turn
from ramps import TINY_GAL, TINY_GPM

INTAKE, KEPT, WAITS = "intake", "kept", "waits"


def serve_line(run):
    """Lets everyone take what is open to it; then, while the lines come first, one at a full tank may break off."""
    run.kept = []
    if boss.lines_first(run):
        while go_through(run):
            pass
        note_on_deck(run)
        break_off(run)
    elif run.plan.drop_tanks:
        note_on_deck(run)
        while run.line and take_in_order(run):
            pass
    elif run.plan.nurse:
        while run.line and boss.intake_free(run):
            take_intake(run, run.line[0])


# Rule 2


def go_through(run):
    """Goes through the line from its head until somebody takes a place; true if somebody did."""
    run.kept = []
    for tanker in list(run.line):
        place = first_open(run, tanker)
        if place is INTAKE:
            take_intake(run, tanker)
            return True
        if place is KEPT:
            run.kept.append(tanker)
        elif place is not WAITS:
            take_position(run, tanker, place)
            return True
    return False


def first_open(run, tanker):
    """Rule 2, a to f: an intake, a drop tank, kept for the lines, or nothing."""
    first = run.drop_tanks[0] if run.drop_tanks else None
    position = first is not None and first.has_free_position()
    held = first is not None and boss.restart_held(run)
    if run.pump == "waits for water" and run.pump_failed_at is None and position and not held:
        return first  # a
    if boss.intake_free(run) and not boss.on_an_intake(run):
        return INTAKE  # b
    if run.engine_here:
        slack = boss.water_needed(run) - boss.water_on_hand(run, run.kept)
        if slack > TINY_GAL:  # c
            pumped = sum(other.spec.pump_off for other in boss.on_an_intake(run))
            return INTAKE if boss.intake_free(run) and pumped < run.demand - TINY_GPM else KEPT
    if position and not held:
        return first  # d
    if held:
        tank = boss.tank_for_whole_load(run, tanker)
        if tank is not None:
            return tank  # e
    return WAITS  # f


def note_on_deck(run):
    for tanker in run.line:
        if tanker in run.kept and not tanker.on_deck:
            run.log(tanker.spec.name, "on deck")
        tanker.on_deck = tanker in run.kept


def break_off(run):
    """If an intake is free and nobody nurses or connects, whoever began first of those dumping at a full tank gives up
    its position and takes the intake, both at once; it nurses after `dump_clear` + `nurse_connect`."""
    if not boss.intake_free(run) or boss.on_an_intake(run):
        return
    stuck = [tanker for tanker in run.tankers if tanker.phase == "dumping" and tanker.drop_tank.is_full()]
    if not stuck:
        return
    tanker = in_turn(stuck)[0]
    leave_position(run, tanker)
    run.intakes_held += 1
    run.log(tanker.spec.name, "breaks off")
    minutes = run.handling_minutes(tanker, "dump_clear") + run.handling_minutes(tanker, "nurse_connect")
    tanker.phase = "nurse_connect"
    run.tanker_after(tanker, minutes, run.start_nursing)


# Rule 4


def take_in_order(run):
    """The head of the line takes the first drop tank in order that has a free position and takes its whole load; else
    the first tank if it has a free position and nobody is at it, whatever its room. True if it did."""
    tanker = run.line[0]
    tank = boss.tank_for_whole_load(run, tanker)
    if tank is None and run.drop_tanks:
        first = run.drop_tanks[0]
        if first.has_free_position() and not boss.at_tank(run, first):
            tank = first
    if tank is not None:
        take_position(run, tanker, tank)
    return tank is not None


# Places


def take_intake(run, tanker):
    run.line.remove(tanker)
    run.intakes_held += 1
    tanker.phase = "nurse_connect"
    run.tanker_after(tanker, run.handling_minutes(tanker, "nurse_connect"), run.start_nursing)


def take_position(run, tanker, tank):
    run.line.remove(tanker)
    tank.positions_held += 1
    tanker.drop_tank = tank
    tanker.phase = "dump_position"
    run.tanker_after(tanker, run.handling_minutes(tanker, "dump_position"), run.start_dumping)


def leave_position(run, tanker):
    tanker.drop_tank.positions_held -= 1
    tanker.drop_tank = None


def clear(run, tanker):
    """Rule 5: `dump_clear`; the position is held throughout."""
    tanker.phase = "dump_clear"
    run.tanker_after(tanker, run.handling_minutes(tanker, "dump_clear"), run.dump_done)


# Pulling clear with a rest


def pull_clear(run):
    """Judged in the order they began to dump, the flows worked out anew after each. True if anybody pulls clear."""
    anybody = False
    for tanker in in_turn(tanker for tanker in run.tankers if tanker.phase == "dumping"):
        if little_left(tanker) and tanker.drop_tank.is_full() and pours_nothing(run, tanker.drop_tank):
            run.log(tanker.spec.name, f"pulls clear with a rest of {tanker.load:.1f} gal")
            clear(run, tanker)
            anybody = True
    return anybody


def little_left(tanker):
    """No more than a tenth of its full load left of a load that was more than that."""
    tenth = tanker.spec.full_load() / 10
    return tanker.load <= tenth + TINY_GAL < tanker.brought


def pours_nothing(run, tank):
    dumped = flows_now(run).drop_tanks[tank.index].dumped
    return dumped.at <= TINY_GPM and dumped.slope <= 0
