"""Holds the program against the independent reference in `reference/`, scenario by scenario.

Random scenarios with fixed times over all features are run by both, as planned and drawn; every
instant, cause, volume and trip must agree, in every one of them. What a whole fire shares is drawn
by the program, which tells it to the reference. The reference was written from the model's
description alone, in another language, without sight of the program's code.

    python differential.py PROGRAM SEED COUNT

PROGRAM is `one_run` (`one_run.rs` beside this file).
"""

import json
import pathlib
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).parent
# The program keeps time in whole ticks of 10 nanoseconds, so long plans agree to about 1e-5.
MINUTES = 1e-5
GALLONS = 1e-3


def run(command):
    try:
        done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=20)
    except subprocess.TimeoutExpired as error:
        raise RuntimeError(f"{' '.join(map(str, command))}\n  no end after 20 s") from error
    if done.returncode != 0:
        raise RuntimeError(f"{' '.join(map(str, command))}\n{done.stderr}")
    return json.loads(done.stdout)


def differences(ours, theirs):
    """What differs between one run of the program and of the reference, in words."""
    found = []

    def compare(name, a, b, tolerance):
        if (a is None) != (b is None) or (a is not None and abs(a - b) > tolerance):
            found.append(f"{name}: program {a}, reference {b}")

    compare("first water", ours["first_water_min"], theirs["first_water"], MINUTES)
    compare("established", ours["established_min"], theirs["established"], MINUTES)
    compare("minutes short", ours["minutes_short"], theirs["minutes_short"], 1e-4)
    compare("unmet", ours["unmet_gal"], theirs["unmet_gal"], 0.1)
    compare("delivered", ours["delivered_gal"], theirs["delivered_gal"], 0.1)
    compare("lowest engine", ours["lowest_engine_gal"], theirs["lowest_engine_tank"], GALLONS)
    if ours["reserve_touched"] != theirs["reserve_touched"]:
        found.append(f"reserve touched: program {ours['reserve_touched']}")
    mine = [(one["start_min"], one["start_min"] + one["minutes"], one["cause"])
            for one in ours["interruptions"]]
    yours = [(one["start"], one["end"], one["cause"]) for one in theirs["interruptions"]]
    if len(mine) != len(yours):
        found.append(f"interruptions: program {mine}, reference {yours}")
    for a, b in zip(mine, yours):
        if abs(a[0] - b[0]) > MINUTES or abs(a[1] - b[1]) > MINUTES or a[2] != b[2]:
            found.append(f"interruption: program {a}, reference {b}")
    for a, b in zip(ours["tankers"], theirs["tankers"]):
        if a["name"] != b["name"] or a["trips"] != b["trips"]:
            found.append(f"trips: program {a['name']} {a['trips']}, reference {b['trips']}")
    return found


def both_ways(program, path, seed, number):
    """What differs between the planned runs, and between the runs drawn with this seed and number."""
    reference = [sys.executable, HERE / "reference" / "shuttle_reference.py", path]
    planned = differences(run([program, path]), run([*reference, "--planned"]))
    ours = run([program, path, str(seed), str(number)])
    told = json.dumps(ours["shared_luck"])
    drawn = differences(ours, run([*reference, "--shared-luck", told]))
    return [f"planned: {one}" for one in planned] + [f"drawn: {one}" for one in drawn]


def main(program, seed, count):
    failed = 0
    with tempfile.TemporaryDirectory() as folder:
        generator = [sys.executable, HERE / "reference" / "random_scenarios.py"]
        subprocess.run([*generator, str(seed), str(count), folder], check=True,
                       stdout=subprocess.DEVNULL)
        for path in sorted(pathlib.Path(folder).iterdir()):
            number = int(path.stem.rsplit("_", 1)[1])
            try:
                found = both_ways(program, path, seed, number)
            except RuntimeError as error:
                found = [str(error)]
            if found:
                failed += 1
                print(f"{path.name} (seed {seed}):\n  " + "\n  ".join(found))
    print(f"{count - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3])))
