"""Pictures to show elsewhere: those of the series and of a sheet, and a title, wide and upright, as PNG and SVG."""

from dataclasses import dataclass
from pathlib import Path

from tqdm import tqdm

from benchreckoner.bench.judge import judge_sheet
from benchreckoner.bench.parts import judge_parts
from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons.changes_shown import change_pictures
from benchreckoner.lessons.series import live_pictures, own_pictures
from benchreckoner.lessons.staircase import staircases
from benchreckoner.show.live import picture_at
from benchreckoner.show.still import figure
from benchreckoner.tell.choice import ChoiceError, choices
from benchreckoner.tell.framed import SHAPES, Words, card, layout, picture_pixels, pixels, png, svg
from benchreckoner.tell.place import check_places, put_pages

CHOICE = "pictures.toml"
TITLE = "title"
_OURS = "Bench Reckoner, picture to show"
_OF_THE_SERIES = ("held-volts", "reads-high", "motor-lines")  # made without being asked for, one from each of three books


@dataclass(frozen=True)
class Framed:
    """A picture, or none, with the words by it; `about` is a line for the list of names."""

    picture: object
    words: Words
    about: str


def make_pictures(sheet_path, folder, *, tell=lambda line: None):
    """Write the chosen pictures; the names that can be chosen stand in ``pictures.toml`` beside them.

    Parameters
    ----------
    sheet_path : path-like
    folder : path-like
        It is made if only it, and not its parent, is missing.
    tell : callable
        Hears what was made.

    Returns
    -------
    pathlib.Path
        The folder.

    Raises
    ------
    SheetError
    ChoiceError
    OSError
        If a file cannot be written, or if something that is no such picture stands in its place.
    """
    sheet = read_sheet(sheet_path)
    found = framed(sheet)
    folder = check_places((), folder, ours=_OURS, what="picture to show")
    own = [name for name, one in found.items() if one.words.foot and name != TITLE]
    wanted, _ = choices(folder / CHOICE, names={name: one.about for name, one in found.items()}, usual=[TITLE, *own, *_OF_THE_SERIES])
    if not wanted:
        raise ChoiceError(f'{CHOICE}: asks for no picture; write one at least, such as wanted = ["{TITLE}"]')
    files = {}
    for name in tqdm(wanted, desc="pictures", unit="picture", delay=1, leave=False, disable=None):
        files |= files_of(name, found[name])
    put_pages(files, folder, ours=_OURS, what="picture to show")
    tell(f"{len(wanted)} pictures, each wide and upright, as PNG and SVG: {', '.join(wanted)}")
    return Path(folder)


def framed(sheet):
    """All that a sheet and the series have to show, by name.

    Parameters
    ----------
    sheet : Sheet

    Returns
    -------
    dict of Framed
    """
    machine = sheet.machine.name
    found = {TITLE: Framed(None, title_words(sheet), f"a card with the name of {machine}")}
    judgements = judge_sheet(sheet), judge_parts(sheet)
    for number, (chain, picture) in enumerate(staircases(judgements[0]), 1):
        head = f"{chain.chain.stage}, {chain.chain.condition}"
        found[f"my-staircase-{number}"] = Framed(picture, Words(head, picture.sentence, machine), f"{picture.title}: {head}")
    for number, picture in enumerate(change_pictures(judgements), 1):
        found[f"my-change-{number}"] = Framed(picture, Words("before and after", picture.sentence, machine), picture.title)
    for declaration, reading, own in (*((*one, machine) for one in own_pictures(sheet)), *((one, None, "") for one in live_pictures())):
        picture = picture_at(declaration, declaration.start, reading)
        words = Words(settings(declaration, declaration.start), picture.sentence, own)
        found[declaration.key] = Framed(picture, words, picture.title)
    return found


def title_words(sheet):
    """A title: the machine, what it did, and what the words after it will rest on."""
    did = "; ".join(dict.fromkeys(symptom.what for symptom in sheet.symptoms))
    kind = f" ({sheet.machine.kind})" if sheet.machine.kind else ""
    return Words(f"{sheet.machine.name}{kind}", f"What it did: {did}." if did else "",
                 f"{len(sheet.readings)} readings behind what is said")


def settings(declaration, positions):
    """Where the sliders stand, in words."""
    return "; ".join(f"{slider.label}: {slider.text(positions[slider.name])}" for slider in declaration.sliders)


def files_of(name, one):
    """A picture's four files by name: wide and upright, as pixels and as a drawing."""
    files = {}
    for shape in SHAPES:
        place = layout(one.picture, shape) if one.picture is not None else card(shape)
        drawing = picture_pixels(place, figure(one.picture, large=True)) if one.picture is not None else None
        files[f"{name}-{shape}.png"] = png(pixels(place, drawing, one.words), _OURS)
        files[f"{name}-{shape}.svg"] = svg(place, one.picture, one.words, _OURS)
    return files


def in_book(sheet, name, shape):
    """One of these pictures for a notebook, as a film would have it.

    Parameters
    ----------
    sheet : Sheet
    name : str
        One of those that `framed` gives.
    shape : str
        ``"wide"`` or ``"upright"``.

    Returns
    -------
    IPython.display.Image
    """
    from IPython.display import Image

    one = framed(sheet)[name]
    return Image(data=files_of(name, one)[f"{name}-{shape}.png"], alt=one.picture.alt if one.picture else one.words.head)
