"""What a run keeps of each tanker, drop tank, fill site and one-lane stretch."""

from flows import DumpCurve
from ramps import TINY_GAL

OPENINGS, TANKERS = 0, 1  # which of the things due at one instant come first

AT_A_DROP_TANK = ("dump_position", "dumping")
ON_AN_INTAKE = ("nurse_connect", "nursing")  # disconnecting holds the intake too, but does not count as nursing
UNTIL_FILLING = ("out", "fill queue", "fill_connect")
ON_THE_ROAD_OR_FILLING = UNTIL_FILLING + ("filling", "fill_disconnect", "back")


class TankerState:
    def __init__(self, spec, index):
        self.spec, self.index = spec, index
        self.curve = DumpCurve(spec)
        self.phase = "coming"
        self.arrived = False
        self.trips = 0
        self.load = 0.0  # the rest: gallons it still has to deliver
        self.brought = 0.0  # the load it joined the line with
        self.dump_left = 0.0  # minutes of free dumping
        self.fill_left = 0.0  # gallons it still has to take
        self.began = 0  # its turn among those nursing, or dumping
        self.on_deck = False
        self.stands_by_since = None  # its turn among those standing by
        self.handling_factor = 1.0
        self.drop_tank = None
        self.site = None
        self.route = []

    def aboard(self):
        """The rest with the waste that goes with it."""
        return self.load / (1 - self.spec.waste)

    def still_on_scene(self):
        return self.arrived and self.phase not in ON_THE_ROAD_OR_FILLING


class DropTankState:
    def __init__(self, spec, index):
        self.spec, self.index = spec, index
        self.came_at = None
        self.ready = False
        self.given_up = False  # it does not come, and that is known
        self.level = 0.0
        self.positions_held = 0
        self.counts_from = spec.holds_water_at()  # its lowest level is kept from when it first held this
        self.lowest = None

    def is_full(self):
        return self.level >= self.spec.capacity - TINY_GAL

    def room(self):
        return self.spec.capacity - self.level

    def has_free_position(self):
        return self.ready and self.positions_held < self.spec.dump_positions


class SiteState:
    def __init__(self, spec):
        self.spec = spec
        self.ready = False
        self.volume = spec.volume
        self.pump_came_at = None
        self.pump_given_up = False  # it does not come, and that is known
        self.failed_at = None  # while it has failed
        self.positions_held = 0
        self.queue = []
        self.filling = []  # in the order they began

    def dry(self):
        return self.volume is not None and self.volume <= TINY_GAL

    def dry_for_good(self):
        return self.dry() and self.spec.recharge <= 0

    def failed_for_good(self):
        return self.failed_at is not None and self.spec.failure.repair is None

    def fills_itself(self, tanker):
        """Whether the tanker fills itself here, without what stands at the site."""
        return self.spec.self_fill and tanker.spec.self_fill is not None

    def rate_for(self, tanker):
        """What it would take here with nobody else: by itself, or at the lesser of its limit and the site's flow."""
        return tanker.spec.self_fill if self.fills_itself(tanker) else min(tanker.spec.fill_limit, self.spec.flow)

    def is_closed_to(self, tanker):
        """Failed for good, or its pump is known not to come; but open to who fills himself."""
        return (self.failed_for_good() or self.pump_given_up) and not self.fills_itself(tanker)

    def flow(self):
        """What it gives now: a failed site nothing, one that ran out what recharges."""
        if self.failed_at is not None:
            return 0.0
        return min(self.spec.flow, self.spec.recharge) if self.dry() else self.spec.flow


class Lane:
    """A stretch of road that carries one direction at a time."""

    def __init__(self, near, crossing, name):
        self.near, self.crossing, self.name = near, crossing, name
        self.direction = None
        self.crossers = 0
        self.waiting = []  # of (tanker, direction), those waiting longest first
