"""The start through a belt: how long a flywheel takes to its speed while the belt slips at its greatest pull."""

import numpy as np

from benchreckoner.units import Q, need


def start_time(*, inertia, speed, greatest_pull, pulley_radius, load):
    r"""Time from standstill to full speed while the belt still slips.

    Parameters
    ----------
    inertia : Quantity [kg*m**2], above zero
        Of the flywheel; a disc has half its mass times its radius squared.
    speed : Quantity [turn/min], above zero
        That the flywheel reaches.
    greatest_pull : Quantity [N], above zero
        Before the belt slips, tight side less slack side.
    pulley_radius : Quantity [m], above zero
        Of the flywheel's seat, up to the neutral line.
    load : Quantity [N*m], zero or more
        That the flywheel asks for all the while.

    Returns
    -------
    Quantity [s]

    Raises
    ------
    ValueError
        If the belt cannot pull what the load asks: it would never start.

    Notes
    -----
    .. math:: t = \frac{J \omega}{F R_2 - M}

    Holds while the motor is up to speed long before the flywheel, so that the belt slips nearly to the end: a heavy flywheel
    on a small motor pulley. Friction is that of sliding rubber, taken as the same throughout.

    References
    ----------
    .. [1] Newton's second law for turning, with a steady torque. RECOMPUTED.

    Examples
    --------
    >>> time = start_time(inertia=Q(4e-4, "kg*m**2"), speed=Q(280, "turn/min"), greatest_pull=Q(0.24, "N"),
    ...                   pulley_radius=Q(30.6, "mm"), load=Q(1, "mN*m"))
    >>> print(f"{time:.2f~P}")
    1.85 s
    """
    inertia, speed = need(inertia, "kg*m**2", "inertia", above=0), need(speed, "turn/min", "speed", above=0)
    torque = need(greatest_pull, "N", "greatest_pull", above=0) * need(pulley_radius, "m", "pulley_radius", above=0)
    spare = (torque - need(load, "N*m", "load", least=0)).to("N*m")
    if not np.all(spare.magnitude > 0):
        raise ValueError(f"greatest_pull: gives {torque.to('mN*m'):.3g~P}, no more than the load asks: the wheel would never start; "
                         "write a larger pull, such as Q(0.24, 'N')")
    return (inertia * speed.m_as("rad/s") / Q(1, "s") / spare).to("s")
