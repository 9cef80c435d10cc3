"""The workshop pack: pages for a host with a room, made from a small file that the host edits."""

from benchreckoner.bench.entries import suggest
from benchreckoner.bench.page import Page, Wording, load_text
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.files import save_whole
from benchreckoner.lessons.workshop_plan import least_minutes
from benchreckoner.lessons.workshop_stations import MOST_TABLES, STATIONS, in_order_for
from benchreckoner.lessons.workshop_tins import SETTINGS, TinError, usual_words
from benchreckoner.tell.handouts import OURS, Workshop, file_names, pack
from benchreckoner.tell.place import check_places, put_pages

SETTINGS_FILE = "workshop.toml"
_WHAT = "page of a workshop pack"
_LONGEST = 80  # characters of an entry
_WHOLE = {"tables": (1, MOST_TABLES), "minutes": (least_minutes(rounds=1), 480), "seed": (0, 999_999)}
_WORDING = Wording(
    kind="settings", entry='supply = "9 V"', header="[machine]", table="[machine]", signs='values such as "10 kΩ" can be read',
    missing="there is no such file; make one with: python3 reckon.py make handouts",
    folder="is a folder and was left as it is; move it, or name another folder for the pack",
    large="keep the entries alone, and notes in a file of their own")
_HEAD = f"""# A workshop: what its pack is made from. This file is yours: change it, save it, and make the pack again. It is never
# written over. Delete it, and a new one is made.

tables = 4  # 1 to {MOST_TABLES}; each gets its own numbers
minutes = 90  # from the first word to the last
seed = 1  # another one gives every table new numbers, and keys to match

# Which stations, in the order in which the first table visits them: those first that teach what your sheet found.
stations = [
{{stations}}]
"""
_TABLES = {
    "machine": "# The machine that the tins of faults go into. What does not come from your sheet is an invented machine's:\n"
               "# write your own. Leave \"\" for what you have not read; a tin that needs it is then left out, and told.\n"
               "# Read the held current from cells or from a supply that does not limit it, or you write down the limit.",
    "meter": "# The meters on the tables, invented: write your own. An accuracy limit is written as in a sheet, such as \"0.5 % + 10 mV\".",
    "tin": "# What the faults in the tins are to do.",
}


def make_handouts(sheet_path, folder):
    """Write the workshop pack as pages that need no network, no script and no program but a browser.

    Parameters
    ----------
    sheet_path : path-like
        What it says of the host's machine goes into a new settings file.
    folder : path-like
        Where to put the pack. It is made if only it, and not its parent, is missing. The settings stand in it as
        ``workshop.toml``: written on the first make with comments, and only read afterwards.

    Returns
    -------
    pathlib.Path
        The page that lists the others.

    Raises
    ------
    SheetError
        If the sheet or the settings cannot be read: which file and line, and what to write.
    OSError
        If a page cannot be written, or if something that is no such page stands in its place.

    Notes
    -----
    The same sheet and settings give the same bytes.
    """
    sheet = read_sheet(sheet_path)
    folder = check_places(file_names(), folder, ours=OURS, what=_WHAT)
    settings = folder / SETTINGS_FILE
    if not settings.exists():
        save_whole(settings, new_settings(sheet))
    put_pages(pages(sheet, load_text(settings, _WORDING)), folder, ours=OURS, what=_WHAT)
    return folder / "workshop.html"


def pages(sheet, text):
    """The pages of a pack by file name.

    Parameters
    ----------
    sheet : Sheet
    text : str
        Of the settings.

    Returns
    -------
    dict of str to str

    Raises
    ------
    SheetError
    """
    page = Page(text, SETTINGS_FILE, _WORDING)
    usual, read = usual_words(sheet)
    try:
        return pack(_read(page, usual, read), machine=sheet.machine.name, settings=SETTINGS_FILE)
    except TinError as error:
        raise page.fail((error.setting.table, error.setting.key), str(error)) from error


def new_settings(sheet):
    """The text of a new settings file, with comments.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    str
    """
    words, read = usual_words(sheet)
    text = _HEAD.format(stations="".join(f'    "{name}",\n' for name in (one.name for one in in_order_for(sheet))))
    for table, comment in _TABLES.items():
        lines = (f'{one.key} = "{words[one.table, one.key]}"  # {one.words}{"; from your sheet" if one.key in read else ""}\n'
                 for one in SETTINGS if one.table == table)
        text += f"\n{comment}\n[{table}]\n{''.join(lines)}"
    return text


def _read(page, usual, read):
    _known(page, (), page.data, (*_WHOLE, "stations", *_TABLES))
    numbers = {key: _whole(page, key, *ends) for key, ends in _WHOLE.items()}
    for table in _TABLES:
        _known(page, (table,), _table(page, table), [one.key for one in SETTINGS if one.table == table])
    words = {place: _word(page, *place, like) for place, like in usual.items()}
    invented = {(table, key) for (table, key), word in words.items()
                if table != "tin" and key not in read and word == usual[table, key]}
    return Workshop(**numbers, stations=_stations(page), words=words, invented=frozenset(invented))


def _table(page, name):
    table = page.data.get(name, {})
    if not isinstance(table, dict):
        raise page.fail((name,), f"must be a table, write its entries under [{name}]")
    return table


def _known(page, path, table, allowed):
    for key in table:
        if key not in allowed:
            raise page.fail((*path, key), f"nothing here is named {key[:_LONGEST]!r}{suggest(key, allowed)}")


def _whole(page, key, least, most):
    value = page.data.get(key)
    if not isinstance(value, int) or isinstance(value, bool) or not least <= value <= most:
        raise page.fail((key,), f"must be a whole number from {least} to {most} without quotation marks, write for example {key} = {least}")
    return value


def _stations(page):
    names = page.data.get("stations")
    if not isinstance(names, list) or not names or not all(isinstance(name, str) for name in names):
        raise page.fail(("stations",), f'must be a list of at least one station, write for example stations = ["{next(iter(STATIONS))}"]')
    for name in names:
        if name not in STATIONS:
            raise page.fail(("stations",), f"there is no station {name[:_LONGEST]!r}{suggest(name, STATIONS)}")
    if len(set(names)) < len(names):
        raise page.fail(("stations",), "a station stands twice; write each once, and let `tables` say how many work at a time")
    return tuple(STATIONS[name] for name in names)


def _word(page, table, key, like):
    word = _table(page, table).get(key, "")
    if not isinstance(word, str) or len(word) > _LONGEST:
        raise page.fail((table, key), f'must be at most {_LONGEST} characters in quotation marks, write for example {key} = "{like}"')
    return " ".join(word.split())
