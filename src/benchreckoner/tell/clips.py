"""Short clips: a slider that sweeps and stops to be read, and a reading over the minutes to lay over a film."""

import os
import tempfile
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import numpy as np
from tqdm import tqdm

from benchreckoner.bench.sheet import read_sheet
from benchreckoner.lessons.series import live_pictures, own_pictures
from benchreckoner.physics.reading import standing_time
from benchreckoner.show.live import picture_at
from benchreckoner.show.still import Figures
from benchreckoner.tell.choice import choices
from benchreckoner.tell.framed import SHAPES, Words, layout, picture_pixels, pixels
from benchreckoner.tell.overlay import overlay_words, overlays
from benchreckoner.tell.pictures import settings
from benchreckoner.tell.place import check_places

CHOICE = "clips.toml"
RATE = 25  # pictures in a second
_OURS = "Bench Reckoner, clip to show"
_OF_THE_SERIES = ("held-volts",)
_STEPS = 31  # of a slider at most: each is a drawing of its own
_STEP = 0.16  # s that one stays while the slider moves
_WHAT = "clip to show"


@dataclass(frozen=True)
class Shot:
    """One drawing, for how long, and which words stand by it: the goal, the sentence, or none while it moves."""

    positions: dict
    seconds: float
    words: Words


def make_clips(sheet_path, folder, *, tell=lambda line: None):
    """Write the chosen clips, wide and upright; the names that can be chosen stand in ``clips.toml`` beside them.

    Parameters
    ----------
    sheet_path : path-like
    folder : path-like
        It is made if only it, and not its parent, is missing.
    tell : callable
        Hears a line for every clip that is ready.

    Returns
    -------
    pathlib.Path
        The folder. Progress is shown; stopped half-way (Ctrl C), every clip in it is a whole one.

    Raises
    ------
    SheetError
    ChoiceError
    RecordingError
        If an overlay is asked for and its film has no clap that can be found.
    OSError
        If a clip cannot be written, or if something that is no such clip stands in its place.
    """
    sheet = read_sheet(sheet_path)
    own = {one.key: (one, reading, sheet.machine.name) for one, reading in own_pictures(sheet)}
    found = own | {one.key: (one, None, "") for one in live_pictures()}
    folder = check_places((), folder, ours=_OURS, what=_WHAT)
    wanted, rest = choices(folder / CHOICE, names={name: one.goal for name, (one, *_) in found.items()},
                           usual=[*own, *_OF_THE_SERIES], more=overlay_words(sheet))
    laid = overlays(rest, sheet, folder)
    made = [(f"{name}-{shape}.mp4", sweep_frames(*found[name], shape)) for name in wanted for shape in SHAPES]
    made += [(f"{one.name}-{shape}.webm", one.frames(shape)) for one in laid for shape in SHAPES]
    check_places([name for name, _ in made], folder, ours=_OURS, what=_WHAT, within=None)
    for place, (name, frames) in enumerate(made, 1):
        tell(f"{name}: {write_clip(folder / name, frames):.0f} s long, {place} of {len(made)}")
    return folder


def shots(declaration, reading=None, machine=""):
    """What a clip of a live picture shows, one after the other.

    Parameters
    ----------
    declaration : LivePicture
        The first slider of its small page sweeps from its start to its low and then to its high end.
    reading : Reading, optional
    machine : str

    Returns
    -------
    list of Shot
    """
    slider = next(one for one in declaration.sliders if one.name == declaration.phone_sliders[0])
    last, start = len(slider.steps) - 1, slider.start_position
    shown = sorted({start, *np.linspace(0, last, min(_STEPS, last + 1)).round().astype(int).tolist()})
    rising, falling = shown, [step for step in reversed(shown) if step < start]
    found = [_shot(declaration, reading, {**declaration.start}, machine, "goal"), _shot(declaration, reading, declaration.start, machine, "told")]
    for way in (falling, rising[1:] if falling else rising[rising.index(start) + 1:]):
        for step in way:
            at = {**declaration.start, slider.name: step}
            found.append(_shot(declaration, reading, at, machine, "told" if step in way[-1:] else "moving"))
    return found


def _shot(declaration, reading, at, machine, kind):
    if kind == "goal":
        text = f"Guess first. {declaration.goal}"
    else:
        text = picture_at(declaration, at, reading).sentence if kind == "told" else ""
    return Shot(at, standing_time(letters=len(text)).m_as("s") if text else _STEP, Words(settings(declaration, at), text, machine))


def sweep_frames(declaration, reading, machine, shape):
    """The frames of such a clip with the seconds that each stays; a drawing that comes again is made once."""
    place, made, figures = None, {}, Figures()
    for shot in tqdm(shots(declaration, reading, machine), desc=f"{declaration.key}, {shape}", unit="drawing", delay=1, leave=False, disable=None):
        key = tuple(shot.positions.values())
        if key not in made:
            picture = picture_at(declaration, shot.positions, reading)
            place = place or layout(picture, shape)
            made[key] = picture_pixels(place, figures.of(picture))
        yield pixels(place, made[key], shot.words), shot.seconds


def write_clip(path, frames):
    """Write frames as a clip that is there whole or not at all.

    Parameters
    ----------
    path : path-like
        Ends in ``.mp4`` for H.264, or in ``.webm`` for VP9, which can be see-through.
    frames : iterable of (numpy.ndarray, float)
        Pixels, with a fourth number for opacity where it is to be seen through, and the seconds that they stay.

    Returns
    -------
    float
        Its length [s].

    Raises
    ------
    OSError
    """
    path = Path(path)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=f".saving{path.suffix}")
    os.close(handle)
    try:
        seconds = _encode(name, frames)
        os.chmod(name, 0o644)
        os.replace(name, path)
    finally:
        Path(name).unlink(missing_ok=True)
    return seconds


def _encode(name, frames):
    import av  # only here: it takes a while to load

    film = name.endswith(".mp4")
    with av.open(name, "w", options={"movflags": "+faststart"} if film else {}) as file:
        file.metadata["comment"] = _OURS
        stream, count = None, 0
        for frame, seconds in frames:
            if stream is None:
                stream = file.add_stream("libx264" if film else "libvpx-vp9", rate=RATE)
                stream.height, stream.width = frame.shape[:2]
                stream.pix_fmt = "yuv420p" if frame.shape[2] == 3 else "yuva420p"
                stream.options = {"preset": "veryfast", "crf": "20"} if film else {"deadline": "realtime", "cpu-used": "8", "crf": "30"}
            shown = av.VideoFrame.from_ndarray(frame, format="rgb24" if frame.shape[2] == 3 else "rgba").reformat(format=stream.pix_fmt)
            for _ in range(max(1, round(seconds * RATE))):
                shown.pts, shown.time_base, count = count, Fraction(1, RATE), count + 1
                file.mux(stream.encode(shown))
        file.mux(stream.encode())
    return count / RATE
