"""Where each table and key of a TOML text stands, so that an error can name its line."""

import re
import tomllib

_TOKEN = re.compile(
    r'"""(?:\\.|[^\\])*?"{3,5}'
    r"|'''.*?'{3,5}"
    r'|"(?:\\.|[^"\\\n])*"'
    r"|'[^'\n]*'"
    r"|#[^\n]*|[\[\]{}=\n]|[^\[\]{}=\n\"'#]+|.",
    re.DOTALL,
)
_BARE = re.compile(r"[A-Za-z0-9_-]+")


def find_places(text):
    """Find the line of every table, key and table in a list.

    Parameters
    ----------
    text : str
        TOML; a faulty text gives the places up to its fault, and never an error.

    Returns
    -------
    dict of tuple to int
        Such as ``("reading", 2, "value")`` to its line; places in a list count from 0.

    Notes
    -----
    The standard library's reader tells a line only for faulty TOML, not for
    the entries of a sound text, hence this walk over brackets and quotation marks.

    Examples
    --------
    >>> find_places('version = 1\\n[[part]]\\nname = "lead"')[("part", 0, "name")]
    3
    """
    places, counts = {(): 1}, {}
    here, path, open_brackets = (), (), []
    mode, start, words, items = "start", 1, "", 0
    line = 1
    for match in _TOKEN.finditer(text + "\n"):
        token = match[0]
        if mode == "start" and token.strip():
            mode, start, words = ("header" if token == "[" else "key"), line, ""
        if token == "\n" and mode == "header":
            here = _header_path(words, counts)
            places.setdefault(here, start)
        elif token == "=" and mode == "key":
            mode, path, items = "value", here + _names(words, "{} = 0"), 0
            places.setdefault(path, start)
        elif mode in ("header", "key") and not token.startswith("#"):
            words += token
        elif mode == "value" and token in "[{":
            if token == "{" and open_brackets == ["["]:
                places.setdefault((*path, items), line)
                items += 1
            open_brackets.append(token)
        elif mode == "value" and token in "]}" and open_brackets:
            open_brackets.pop()
        if token == "\n" and not open_brackets:
            mode = "start"
        line += token.count("\n")
    return places


def line_of(places, path):
    """Line of an entry, else of the first thing in it, else of the thing round it."""
    if path in places:
        return places[path]
    within = [line for other, line in places.items() if other[:len(path)] == path]
    return min(within) if within else line_of(places, path[:-1])


def path_at(places, line):
    """The table or key that a line belongs to."""
    before = [path for path, at in places.items() if at <= max(line, 1)]
    return max(before, key=lambda path: (places[path], len(path)))


def say_path(path):
    """Name an entry for a person.

    >>> say_path(("reading", 2, "value"))
    'reading 3, value'
    """
    words = ""
    for step in path:
        words += f" {step + 1}" if isinstance(step, int) else f", {step}"
    return words.removeprefix(", ") or "top of the sheet"


def _header_path(words, counts):
    """Path of a header, its lists counted; `counts` holds the last place used in each."""
    # A header without its last bracket still names what follows it.
    names = _names(words, "{}") or (words.strip("[] \t\r"),)
    path = ()
    for name in names[:-1]:
        path += (name,)
        if path in counts:
            path += (counts[path],)
    path += names[-1:]
    if words.startswith("[["):
        counts[path] = counts.get(path, -1) + 1
        path += (counts[path],)
    return path


def _names(words, template):
    """Names in a key or header, whichever way they are quoted."""
    words = words.strip()
    if _BARE.fullmatch(words):
        return (words,)
    try:
        node = tomllib.loads(template.format(words))
    except ValueError:
        return ()
    names = ()
    while isinstance(node, dict) and node:
        name, node = next(iter(node.items()))
        names += (name,)
        node = node[0] if isinstance(node, list) else node
    return names
