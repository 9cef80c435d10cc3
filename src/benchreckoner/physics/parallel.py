"""Resistors side by side, and one of them taken back out of the reading."""

import numpy as np

from benchreckoner.units import Q, need


def parallel_resistance(*, resistances):
    r"""Resistance of contacts side by side, such as the two prongs of a blade.

    Parameters
    ----------
    resistances : Quantity [ohm], shape (n,), each above zero

    Returns
    -------
    Quantity [ohm]

    Notes
    -----
    .. math:: 1/R = \sum 1/R_i

    References
    ----------
    .. [1] Parallel circuit, formula F23; check value P25, RECOMPUTED.

    Examples
    --------
    >>> ohms = parallel_resistance(resistances=Q([20, 100], "mohm"))
    >>> print(f"{ohms.to('mohm'):.3f~P}")
    16.667 mΩ
    """
    resistances = need(resistances, "ohm", "resistances", above=0)
    return (1 / (1 / np.atleast_1d(resistances)).sum()).to("ohm")


def without_parallel(*, reading, parallel):
    r"""Resistance of one part alone, from a reading in circuit and the known path across it.

    Parameters
    ----------
    reading : Quantity [ohm], above zero
        Of both side by side, any shape.
    parallel : Quantity [ohm], above zero
        Everything else that joins the same two points.

    Returns
    -------
    Quantity [ohm]

    Raises
    ------
    ValueError
        If the reading is not below the path alone: nothing in parallel raises a reading.

    Notes
    -----
    .. math:: R = \frac{1}{1/R_\mathrm{read} - 1/R_\mathrm{path}}

    The nearer the reading comes to the path, the more an error of either
    swells. For resistors only: a diode or a charged capacitor across the part
    makes another reading of it.

    References
    ----------
    .. [1] Parallel circuit, formula F23 solved for one of two; check value P25 read backwards, RECOMPUTED.

    Examples
    --------
    >>> ohms = without_parallel(reading=Q(5, "kohm"), parallel=Q(10, "kohm"))
    >>> print(f"{ohms.to('kohm'):.1f~P}")
    10.0 kΩ
    """
    reading = need(reading, "ohm", "reading", above=0)
    parallel = need(parallel, "ohm", "parallel", above=0)
    if not np.all(reading < parallel):
        raise ValueError("reading: must be below the path across it, since nothing in parallel raises a reading; "
                         "write a smaller reading or a larger path")
    return (1 / (1 / reading - 1 / parallel)).to("ohm")
