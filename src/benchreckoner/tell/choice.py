"""Which pictures or clips to make: a file beside them that its author edits, and that is never written over."""

import difflib
from pathlib import Path

import tomlkit
from tomlkit.exceptions import TOMLKitError

from benchreckoner.files import save_whole


class ChoiceError(ValueError):
    """A file of choices that cannot be followed, with what to write instead."""


def choices(path, *, names, usual, more=""):
    """The names chosen in a file, which is written with the usual ones where there is none.

    Parameters
    ----------
    path : path-like
    names : dict
        What there is to choose: a line about each by name.
    usual : sequence of str
    more : str
        Further lines of a new file.

    Returns
    -------
    wanted : list of str
        In the order of the file, each once; all that there are where it says ``"all"``.
    rest : dict
        Whatever else the file holds, as plain values.

    Raises
    ------
    ChoiceError
        For a file that is no TOML, or that asks for what there is not.
    OSError
    """
    path = Path(path)
    if not path.exists():
        save_whole(path, _new(names, usual, more))
    try:
        told = tomlkit.parse(path.read_text(encoding="utf-8")).unwrap()
    except (TOMLKitError, UnicodeDecodeError) as error:
        raise ChoiceError(f"{path.name}: cannot be read as TOML: {error}. Mend that line, or move the file away for a new one.") from error
    wanted = told.pop("wanted", None)
    wanted = ["all"] if wanted == "all" else wanted
    if not isinstance(wanted, list) or not all(isinstance(name, str) for name in wanted):
        raise ChoiceError(f'{path.name}: needs a list of names, such as wanted = ["{next(iter(names))}"]')
    if "all" in wanted:
        return list(names), told
    for name in wanted:
        if name not in names:
            near = difflib.get_close_matches(name, names, 1, 0.5)
            raise ChoiceError(f"{path.name}: there is no {name!r}" + (f"; is {near[0]!r} meant?" if near else
                                                                      "; the names stand at the end of a new file"))
    return list(dict.fromkeys(wanted)), told


def _new(names, usual, more):
    listed = "\n".join(f"#   {name}: {' '.join(line.split())}" for name, line in names.items())
    quoted = "".join(f'    "{name}",\n' for name in usual)
    return (f'# What to make. Take names from the list at the end, or write "all", save, and make it again.\n'
            f"wanted = [\n{quoted}]\n{more}\n# To choose from:\n{listed}\n")
