"""A plain reference of the shuttle model, to check another implementation against.

python shuttle_reference.py FILE [--run K] [--seed S] [--planned]     one run, as JSON
python shuttle_reference.py FILE --shared-luck JSON                   one run of a fire drawn elsewhere, as JSON
python shuttle_reference.py FILE --runs N [--seed S] [--planned]      means over runs 0 to N - 1, as JSON

--planned replaces every duration by its mean and turns breakdowns, failures and stay-aways off.
"""

import argparse
import json
import sys

from luck import GivenLuck, ScenarioError
from scenario import load
from simulation import Run


def means(plan, seed, runs, planned):
    results = [Run(plan, seed, k, planned).run().result() for k in range(runs)]

    def share(test):
        return sum(1 for result in results if test(result)) / runs

    def mean(key):
        return sum(result[key] for result in results) / runs

    def interrupted(result, when):
        return any(interruption["when"] == when for interruption in result["interruptions"])

    established = [result["established"] for result in results if result["established"] is not None]
    first_causes = [result["interruptions"][0]["cause"] for result in results if result["interruptions"]]
    return {
        "replications": runs,
        "seed": seed,
        "interruption_probability": share(lambda result: result["interruptions"]),
        "before_supply": share(lambda result: interrupted(result, "before")),
        "after_supply": share(lambda result: interrupted(result, "after")),
        "reserve_touched": share(lambda result: result["reserve_touched"]),
        "interrupted_minutes_mean": mean("minutes_short"),
        "unmet_gal_mean": mean("unmet_gal"),
        "delivered_gal_mean": mean("delivered_gal"),
        "established_min_mean": sum(established) / len(established) if established else None,
        "established_share": len(established) / runs,
        "causes": {cause: first_causes.count(cause) / len(first_causes) for cause in sorted(set(first_causes))},
    }


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("file")
    parser.add_argument("--run", type=int, default=0, help="which replication (default 0)")
    parser.add_argument("--seed", type=int, default=1, help="default 1")
    parser.add_argument("--runs", type=int, help="print means over this many replications")
    parser.add_argument("--planned", action="store_true")
    parser.add_argument("--shared-luck", type=json.loads, help="see GivenLuck")
    arguments = parser.parse_args()
    try:
        plan = load(arguments.file)
    except (ScenarioError, OSError, KeyError, ValueError) as error:
        sys.exit(f"{arguments.file}: {type(error).__name__}: {error}")
    if arguments.runs:
        print(json.dumps(means(plan, arguments.seed, arguments.runs, arguments.planned), indent=1))
    else:
        run = Run(plan, arguments.seed, arguments.run, arguments.planned)
        if arguments.shared_luck is not None:
            run.luck = GivenLuck(arguments.seed, arguments.run, arguments.shared_luck)
        print(json.dumps(run.run().result()))


if __name__ == "__main__":
    main()
