"""The plain loop of scenarios/plain_loop_six_tankers.json on simpy, a general-purpose simulator:
six tankers, one fill and one dump position, four drawn times a cycle, the drop tank's level looked
at whenever a load comes. Prints the CPU seconds of the given number of runs."""

import math
import random
import sys
import time

import simpy

TANKERS = 6
WATCHED = 120.0
LOAD = 1800.0  # 2,000 gal less 10%
ATTACK_FLOW = 400.0
FILL = 2.0  # 2,000 gal at 1,000 gpm
DUMP = 1.8  # 1,800 gal at 1,000 gpm


def lognormal(mean, cv):
    variance = math.log1p(cv * cv)
    return math.log(mean) - variance / 2, math.sqrt(variance)


OUT, BACK = lognormal(5.0, 0.2), lognormal(6.0, 0.2)
CONNECT, POSITION = lognormal(1.5, 0.3), lognormal(1.0, 0.3)


class Tank:
    def __init__(self):
        self.level, self.at, self.ran_dry = 0.0, 0.0, False

    def dump(self, now):
        self.level -= ATTACK_FLOW * (now - self.at)
        self.at = now
        if self.level < 0.0:
            self.ran_dry, self.level = True, 0.0
        self.level += LOAD


def tanker(env, draw, fill, dump, tank):
    while True:
        with dump.request() as place:
            yield place
            yield env.timeout(draw(*POSITION) + DUMP)
            tank.dump(env.now)
        yield env.timeout(draw(*OUT))
        with fill.request() as place:
            yield place
            yield env.timeout(draw(*CONNECT) + FILL)
        yield env.timeout(draw(*BACK))


def run(seed):
    env = simpy.Environment()
    fill, dump, tank = simpy.Resource(env), simpy.Resource(env), Tank()
    draw = random.Random(seed).lognormvariate
    for _ in range(TANKERS):
        env.process(tanker(env, draw, fill, dump, tank))
    env.run(until=WATCHED)
    return tank.ran_dry


def main():
    runs = int(sys.argv[1])
    began = time.process_time()
    for seed in range(runs):
        run(seed)
    print(time.process_time() - began)


if __name__ == "__main__":
    main()
