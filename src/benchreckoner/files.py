"""Saving a file whole or not at all."""

import contextlib
import os
import shutil
import tempfile
from pathlib import Path


def save_whole(path, text, *, only_over=None):
    """Put a text, or bytes as they are, into a file in one step.

    Parameters
    ----------
    path : path-like
        The file, there or not; its folder must be there.
    text : str or bytes
    only_over : str, optional
        Save only if the file still holds this.

    Returns
    -------
    bool
        False if the file no longer held `only_over`; it is then left as it is.

    Raises
    ------
    OSError
        If the file cannot be saved; it is then left as it is.

    Notes
    -----
    The text goes to a temporary file in the same folder, which then takes the
    old one's place in one step: whenever the program is killed, the file is
    wholly the old or wholly the new one.
    """
    # A link would otherwise be replaced by a file, and the file it points to left behind.
    target = Path(path).resolve()
    with tempfile.NamedTemporaryFile(
            "wb", dir=target.parent, prefix=f".{target.name}.", suffix=".saving", delete=False) as temporary:
        try:
            temporary.write(text if isinstance(text, bytes) else text.encode("utf-8"))
            temporary.flush()
            os.fsync(temporary.fileno())
            temporary.close()
            _give_mode(temporary.name, target)
            held = only_over is None or target.read_bytes() == only_over.encode("utf-8")
            if held:
                os.replace(temporary.name, target)
        finally:
            temporary.close()
            Path(temporary.name).unlink(missing_ok=True)
    return held


def _give_mode(name, target):
    """The old file's permissions, or those that a new file usually gets; a temporary one is for its owner alone."""
    with contextlib.suppress(OSError):
        if target.exists():
            shutil.copymode(target, name)
        elif os.name == "posix":
            mask = os.umask(0)
            os.umask(mask)
            os.chmod(name, 0o666 & ~mask)
