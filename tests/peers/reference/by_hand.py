"""What the hand-worked tests share: a small fire to change, a run of it, a run halted at a minute, and its events."""

from scenario import read_scenario
from simulation import Run
from state import OPENINGS

FAR = [{"name": "Pond", "flow": 1000, "out": {"minutes": 1000}, "back": {"minutes": 1000}}]


def read(**parts):
    """A plan: 500 gpm for two hours from minute 0, 1,000 gal in the engine, nobody else; `parts` replace that."""
    table = {
        "incident": {"duration": 120, "attack_flow": 500},
        "attack_engine": {"name": "Engine 3", "tank": 1000},
        "tankers": [],
        "fill_sites": FAR,
    }
    table.update(parts)
    return read_scenario(table)


def run(seed=1, planned=True, **parts):
    return Run(read(**parts), seed, 0, planned).run().result()


class Halt(Exception):
    """The minute is reached."""


class HaltedRun(Run):
    def apply_events(self):
        super().apply_events()
        if self.now >= self.halt:
            raise Halt


def stand_at(minute, **parts):
    """The run as it stands when all that happens at `minute` is done."""
    run_so_far = HaltedRun(read(**parts), planned=True)
    run_so_far.halt = minute
    run_so_far.after(minute, OPENINGS, 9, lambda: None)
    try:
        run_so_far.run()
    except Halt:
        return run_so_far
    raise AssertionError(f"minute {minute} is after the watch")


def tanker(name, load, **parts):
    """A tanker whose load is all of its capacity."""
    return {"name": name, "capacity": load, "waste": 0, **parts}


def when(result, who, what):
    return [minute for minute, unit, event in result["events"] if unit == who and event == what]
