"""What a run keeps of each tanker, drop tank, fill site and one-lane stretch."""

from flows import DumpCurve
from ramps import TINY_GAL


class TankerState:
    def __init__(self, spec, index):
        self.spec, self.index = spec, index
        self.curve = DumpCurve(spec)
        self.phase = "coming"
        self.arrived = False
        self.trips = 0
        self.load = 0.0  # gallons it will still deliver
        self.dump_left = 0.0  # minutes of free dumping
        self.fill_left = 0.0  # gallons it still has to take
        self.drop_tank = None
        self.site = None
        self.route = []

    def waste_aboard(self):
        return self.load * self.spec.waste / (1 - self.spec.waste)


class DropTankState:
    def __init__(self, spec, counts_from):
        self.spec = spec
        self.arrived = False
        self.ready = False
        self.level = 0.0
        self.positions_held = 0
        self.counts_from = counts_from  # its lowest level is kept from when it first held this
        self.lowest = None

    def is_full(self):
        return self.level >= self.spec.capacity - TINY_GAL

    def room(self):
        return self.spec.capacity - self.level


class SiteState:
    def __init__(self, spec):
        self.spec = spec
        self.ready = False
        self.volume = spec.volume
        self.positions_held = 0
        self.queue = []
        self.filling = []  # in the order they began

    def dry(self):
        return self.volume is not None and self.volume <= TINY_GAL


class Lane:
    """A stretch of road that carries one direction at a time."""

    def __init__(self, near, crossing, name):
        self.near, self.crossing, self.name = near, crossing, name
        self.direction = None
        self.crossers = 0
        self.waiting = []  # of (tanker, direction), those waiting longest first
