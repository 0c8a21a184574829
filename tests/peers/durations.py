"""Durations of a scenario as draws of scipy.stats, made in blocks because single draws are slow."""

import math

from scipy import stats

BLOCK = 4096


def log_of(spec):
    """Mean and standard deviation of the logarithm of a lognormal with this mean and cv."""
    variance = math.log(1 + spec["cv"] ** 2)
    return math.log(spec["mean"]) - variance / 2, math.sqrt(variance)


def distribution(spec):
    """The scipy distribution of a duration that is not fixed."""
    if spec.get("shape") == "exponential":
        return stats.expon(scale=spec["mean"])
    if "cv" in spec:
        mean, deviation = log_of(spec)
        return stats.lognorm(s=deviation, scale=math.exp(mean))
    raise ValueError(f"no draw for {spec}")


def sampler(spec, generator):
    """A function without arguments that gives the next duration, in minutes."""
    if not isinstance(spec, dict):
        return lambda: spec
    law = distribution(spec)

    def draws():
        while True:
            yield from law.rvs(size=BLOCK, random_state=generator).tolist()

    return draws().__next__


class Times:
    """Every duration that the tankers of a scenario draw, each with its own stream of draws."""

    def __init__(self, scenario, generator):
        site = scenario["fill_sites"][0]
        handling = scenario["handling"]
        self.response = sampler(scenario["tankers"][0]["response"], generator)
        self.out = sampler(site["out"]["minutes"], generator)
        self.back = sampler(site["back"]["minutes"], generator)
        self.dump_position = sampler(handling["dump_position"], generator)
        self.dump_clear = sampler(handling["dump_clear"], generator)
        self.fill_connect = sampler(handling["fill_connect"], generator)
        self.fill_disconnect = sampler(handling["fill_disconnect"], generator)
