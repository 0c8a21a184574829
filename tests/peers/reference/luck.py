"""Durations, and the draws behind them: each keyed by seed, replication, who, what for and which trip."""

import hashlib
import json
import math
import random


class ScenarioError(Exception):
    """A scenario that cannot be run; the text names the field and the limit."""


def need(condition, message):
    if not condition:
        raise ScenarioError(message)


def known_keys(where, table, keys):
    need(isinstance(table, dict), f"{where}: an object is wanted, found {table!r}")
    for key in table:
        need(key in keys, f"{where}: unknown key {key!r}; known: {', '.join(sorted(keys))}")


def lognormal(source, mean, cv):
    spread = math.log(1 + cv**2)
    return source.lognormvariate(math.log(mean) - spread / 2, math.sqrt(spread))


class Luck:
    """Every draw depends on its key and on nothing else. A planned run draws nothing: means, and no misfortune."""

    def __init__(self, seed, replication, planned=False):
        self.seed, self.replication, self.planned = seed, replication, planned

    def source(self, who, what, trip):
        key = json.dumps([self.seed, self.replication, who, what, trip])
        return random.Random(int.from_bytes(hashlib.sha256(key.encode()).digest()[:16], "big"))

    def minutes(self, duration, who, what, trip=0):
        if self.planned or duration.fixed is not None:
            return duration.mean()
        return duration.draw(self.source(who, what, trip))

    def happens(self, chance, who, what, trip=0):
        if self.planned or chance <= 0:
            return False
        return self.source(who, what, trip).random() < chance

    def comes(self, turnout, key, who):
        """Whether a unit comes at all, by a draw of its own or of its department; in the planned run every unit does."""
        return self.planned or turnout >= 1 or self.source(key, "turnout", 0).random() < turnout

    def factor(self, cv, who, what):
        """A factor shared by a whole fire (or a crew's whole fire): lognormal with mean 1."""
        if self.planned or cv <= 0:
            return 1.0
        return lognormal(self.source(who, what, 0), 1.0, cv)

    def share(self, who, what):
        """Uniform from 0 to 1."""
        return self.source(who, what, 0).random()


class GivenLuck(Luck):
    """A drawn run whose luck that a whole fire shares was drawn elsewhere, so as to run the same fire.

    `given`: factors (of the fire by what they multiply, of a crew by its tanker's name), who stays away, and what
    fails where in the watch, from 0 to 1.
    """

    def __init__(self, seed, replication, given):
        super().__init__(seed, replication)
        self.factors, self.away, self.fails = given["factors"], given["away"], given["fails"]

    def factor(self, cv, who, what):
        return self.factors.get(who if what == "crew" else what, 1.0)

    def comes(self, turnout, key, who):
        return who not in self.away

    def happens(self, chance, who, what, trip=0):
        return who in self.fails if what == "failure" else super().happens(chance, who, what, trip)

    def share(self, who, what):
        return self.fails[who]


class Duration:
    """Minutes: fixed, lognormal, exponential, triangular, uniform or sampled."""

    def __init__(self, where, value):
        self.fixed = None
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            need(value >= 0 and math.isfinite(value), f"{where}: {value} is not a length of time")
            self.fixed = float(value)
            return
        known_keys(where, value, {"mean", "cv", "shape", "low", "likely", "high", "samples"})
        self.value = value
        if "samples" in value:
            need(len(value["samples"]) > 0 and min(value["samples"]) >= 0, f"{where}: samples must be 0 or more")
        elif "low" in value:
            marks = [value["low"], value.get("likely", value["low"]), value["high"]]
            need(0 <= marks[0] <= marks[1] <= marks[2], f"{where}: wanted 0 <= low <= likely <= high")
        else:
            need("mean" in value and value["mean"] >= 0, f"{where}: a mean of 0 or more is wanted")
            need(value.get("shape", "exponential") == "exponential", f"{where}: unknown shape")
            need(value.get("cv", 0) >= 0, f"{where}: cv must be 0 or more")
            if value["mean"] == 0 or ("shape" not in value and value.get("cv", 0) == 0):
                self.fixed = float(value["mean"])

    def mean(self):
        if self.fixed is not None:
            return self.fixed
        v = self.value
        if "samples" in v:
            return sum(v["samples"]) / len(v["samples"])
        if "likely" in v:
            return (v["low"] + v["likely"] + v["high"]) / 3
        if "low" in v:
            return (v["low"] + v["high"]) / 2
        return v["mean"]

    def draw(self, source):
        v = self.value
        if "samples" in v:
            return source.choice(v["samples"])
        if "likely" in v:
            return source.triangular(v["low"], v["high"], v["likely"])
        if "low" in v:
            return source.uniform(v["low"], v["high"])
        if "shape" in v:
            return source.expovariate(1 / v["mean"])
        return lognormal(source, v["mean"], v["cv"])
