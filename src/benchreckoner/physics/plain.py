"""Arguments that several laws share: plain shares and counts, and the volts behind the brushes, each checked."""

import numpy as np

from benchreckoner.units import Q, need


def share(value, name, *, ends=False):
    """Hand back a plain number between 0 and 1, or numbers, or say what to write; with `ends`, 0 and 1 may be."""
    numbers = np.asarray(value)
    if isinstance(value, bool) or numbers.dtype.kind not in "iuf":
        raise TypeError(f"{name}: must be a plain number, got {value!r}; write for example {name}=0.05")
    inside = (numbers >= 0) & (numbers <= 1) if ends else (numbers > 0) & (numbers < 1)
    if not np.all(inside):
        raise ValueError(f"{name}: must lie between 0 and 1, got {value!r}; write for example {name}=0.05")
    return numbers.astype(float)[()]


def count(value, name):
    """Hand back a whole number from zero on, or say what to write."""
    if isinstance(value, bool) or not isinstance(value, int):
        raise TypeError(f"{name}: must be a whole number, got {value!r}; write for example {name}=10")
    if value < 0:
        raise ValueError(f"{name}: must be zero or more, got {value}; write for example {name}=10")
    return value


def useful_volts(voltage, brush_drop):
    """Volts behind the brushes."""
    voltage, drop = need(voltage, "V", "voltage", above=0), need(brush_drop, "V", "brush_drop", least=0)
    if not np.all(drop < voltage):
        raise ValueError(f"brush_drop: takes all the {voltage:~P} there are, got {drop:~P}; write Q(0, 'V') for a small motor")
    return voltage - drop


def number(value, name, *, above=None, least=None, example=1):
    """Hand back a plain number, or numbers, within its bounds, or say what to write."""
    numbers = np.asarray(value)
    if isinstance(value, bool | Q) or numbers.dtype.kind not in "iuf":
        raise TypeError(f"{name}: must be a plain number, got {value!r}; write for example {name}={example}")
    if not np.all(np.isfinite(numbers)):
        raise ValueError(f"{name}: must be a finite number, got {value!r}; write for example {name}={example}")
    if above is not None and not np.all(numbers > above):
        raise ValueError(f"{name}: must be above {above}, got {value!r}; write for example {name}={example}")
    if least is not None and not np.all(numbers >= least):
        raise ValueError(f"{name}: must be at least {least}, got {value!r}; write for example {name}={example}")
    return numbers.astype(float)[()]
