"""Putting pages into a folder, without ever replacing what is not ours."""

from pathlib import Path

from benchreckoner.files import save_whole

_STARTS_WITHIN = 1000  # bytes of a page within which its mark stands


def put_pages(pages, folder, *, ours, what):
    """Put pages into a folder, each in one step, over earlier ones of the same kind only.

    Parameters
    ----------
    pages : dict
        Text or bytes by file name, written in this order.
    folder : path-like
        It is made if only it, and not its parent, is missing.
    ours : str
        The mark near a page's start by which an earlier one is known again.
    what : str
        What such a page is, for messages.

    Raises
    ------
    OSError
        If a page cannot be written, or if something else stands in its place. What stands
        in a place is looked at before the first page is written.
    """
    folder = check_places(pages, folder, ours=ours, what=what)
    for name, page in pages.items():
        save_whole(folder / name, page)


def check_places(names, folder, *, ours, what, within=_STARTS_WITHIN):
    """Make the folder ready, or say what stands in the way; see `put_pages`.

    Parameters
    ----------
    names : iterable of str
    folder : path-like
    ours, what : str
    within : int or None
        How many bytes of a file to look through for the mark; None for all.

    Returns
    -------
    pathlib.Path

    Raises
    ------
    OSError
    """
    folder = Path(folder)
    if folder.exists() and not folder.is_dir():
        raise NotADirectoryError(f"{folder} is a file; name a folder for the {what}")
    if not folder.absolute().parent.is_dir():
        raise FileNotFoundError(f"there is no folder {folder.absolute().parent}; make it first, or name another one")
    folder.mkdir(exist_ok=True)
    for name in names:
        target = folder / name
        if target.is_dir() or (target.exists() and not _carries(target, ours, within)):
            raise FileExistsError(f"{target} is no {what} and was left as it is; move it, or name another folder")
    return folder


def _carries(path, ours, within):
    with open(path, "rb") as file:
        return ours.encode("utf-8") in file.read(within)
