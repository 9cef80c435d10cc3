"""Saving a text file whole or not at all."""

import contextlib
import os
import shutil
import tempfile
from pathlib import Path


def replace_text(path, *, before, after):
    """Put one text in place of another in a file, whole or not at all.

    Parameters
    ----------
    path : path-like
    before, after : str

    Returns
    -------
    bool
        False if the file no longer held `before`; it is then left as it is.

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
            temporary.write(after.encode("utf-8"))
            temporary.flush()
            os.fsync(temporary.fileno())
            temporary.close()
            with contextlib.suppress(OSError):
                shutil.copymode(target, temporary.name)
            held = target.read_bytes() == before.encode("utf-8")
            if held:
                os.replace(temporary.name, target)
        finally:
            temporary.close()
            Path(temporary.name).unlink(missing_ok=True)
    return held
