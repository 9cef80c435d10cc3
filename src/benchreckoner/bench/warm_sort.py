"""What changed a motor's speed between a cold and a warm run: volts, copper, load, magnet, and what is left."""

from dataclasses import dataclass

from benchreckoner.bench.uncertain import Known, propagate
from benchreckoner.physics.copper import rise_by_resistance, stopped_resistance
from benchreckoner.physics.warm_motor import drift_parts

_PARTS = ("volts at the motor", "copper", "current of the load")


@dataclass(frozen=True)
class Run:
    """One run of a motor: speed, volts at its terminals, current, each a `Known`."""

    speed: Known
    volts: Known
    amps: Known


@dataclass(frozen=True)
class WarmSorted:
    """How warm it got and what that did; rises in kelvin, the rest in per cent, each a `Known`.

    ``parts`` : what the volts, the copper, the load's current and the magnet did to the speed, by name.
    ``left`` : the measured change less all of them.
    ``torque`` : how much more torque the motor gives warm.
    """

    winding_rise: Known
    shell_rise: Known
    change: Known
    parts: dict
    left: Known
    torque: Known

    @property
    def sentences(self):
        """What to tell, plain text."""
        listed = ", ".join(f"{name} {_told(part)}" for name, part in self.parts.items())
        return (f"When it stopped, the winding was {_kelvin(self.winding_rise)} warmer than cold, the shell {_kelvin(self.shell_rise)}.",
                f"The speed changed by {_told(self.change)}. Of that: {listed}.", self._left(), self._torque())

    def _left(self):
        if not self.left.differs():
            return f"Left over: {_told(self.left)}, no more than the readings explain."
        return (f"Left over: {_told(self.left)}, more than the readings explain. Was the speed read past a belt that slips? Is the "
                "magnet of the kind you chose? Were cold and warm ohms read at the same mark on the pulley?")

    def _torque(self):
        if not self.torque.differs():
            return f"Load and friction take the same torque as cold ({_told(self.torque)})."
        size = f"{abs(self.torque.plain):.1f} ± {self.torque.expanded.magnitude:.1f} %"
        if self.torque.plain < 0:
            return (f"Load and friction take {size} less torque than cold: grease or oil has thinned. If it drags when cold, look there "
                    "first.")
        return (f"Load and friction take {size} more torque than cold: something binds as it warms. Run it with the belt off and see "
                "whether that goes away.")


def sort_warm(*, cold, warm, cold_ohms, first_ohms, late_ohms, waited, time_constant, temperature, magnet_loss):
    """Split the change of speed between two runs of one motor.

    Parameters
    ----------
    cold, warm : Run
    cold_ohms : Known [ohm]
        Of the winding alone, before the first run.
    first_ohms, late_ohms : Known [ohm]
        Some seconds and a minute or two after stopping.
    waited, time_constant : Known [s]
    temperature : Known [degC]
        Of the motor at the cold reading.
    magnet_loss : Known [1/delta_degC]

    Returns
    -------
    WarmSorted

    Raises
    ------
    ValueError
        From the laws, by their argument's name.
    """
    stopped = propagate(stopped_resistance, "ohm", first=first_ohms, late=late_ohms, waited=waited, time_constant=time_constant)
    winding, shell = (propagate(rise_by_resistance, "delta_degC", cold_resistance=cold_ohms, warm_resistance=ohms, cold=temperature)
                      for ohms in (stopped, late_ohms))
    readings = dict(cold_voltage=cold.volts, warm_voltage=warm.volts, cold_current=cold.amps, warm_current=warm.amps,
                    cold_resistance=cold_ohms, warm_resistance=stopped)
    parts = {name: propagate(lambda place=place, **values: drift_parts(**values)[place], "percent", **readings)
             for place, name in enumerate(_PARTS)}
    loss, start = magnet_loss.number, temperature.number - 20
    strength = (1 + loss * (start + shell.number)) / (1 + loss * start)
    parts["magnet"] = Known(_change(strength, 1), "percent")  # a weaker magnet has to turn faster
    change = Known(_change(cold.speed.number, warm.speed.number), "percent")
    left = Known(change.number - sum(part.number for part in parts.values()), "percent")
    torque = Known(100 * (strength * warm.amps.number / cold.amps.number - 1), "percent")
    return WarmSorted(winding, shell, change, parts, left, torque)


def _change(before, after):
    """Per cent of the mean of both, as `drift_parts` reckons, so that parts add up."""
    return 200 * (after - before) / (after + before)


def _told(known):
    return f"{known.plain:+.2f} ± {known.expanded.magnitude:.2f} %".replace("-", "−")


def _kelvin(known):
    return f"{known.plain:.1f} ± {known.expanded.magnitude:.1f} K".replace("-", "−")
