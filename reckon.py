#!/usr/bin/env python3
"""The one way in: makes the project's Python environment if need be, then runs a command in it.

Standard library only. The file must parse on Python 3.8, so that a reader with an
older Python sees the message below instead of a syntax error.
"""

import collections
import contextlib
import hashlib
import importlib.util
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent
OLDEST = (3, 11)
BASE = ("requirements.txt",)
TESTS = ("requirements.txt", os.path.join("tests", "requirements.txt"))
STAMPS = {BASE: "reckon-installed", TESTS: "reckon-installed-tests"}
UNFINISHED = "reckon-unfinished"
LOCK = "reckon-lock"
INSTALLING = "Installing collected packages"  # how pip says that it now changes things
VENV_MISSING = (
    "Python's venv module is missing. On Debian and Ubuntu this line mends it:\n"
    "    sudo apt install python3-venv"
)
PIP_FAILED = (
    "The packages could not be installed; pip's own words are above.\n"
    "Check the network and the free disk space (about 1 GB), then give the same command again."
)


class Trouble(Exception):
    """Something the reader can mend, with the exit code that goes with it."""

    def __init__(self, message, code):
        super().__init__(message)
        self.code = code


def say(message):
    """Tell the reader on stderr: stdout belongs to the command, which may print JSON."""
    print(message, file=sys.stderr, flush=True)


def refuse_old_python(version):
    """Raise Trouble where this Python is too old for the packages."""
    if tuple(version[:2]) < OLDEST:
        raise Trouble(
            "Bench Reckoner needs Python %d.%d or newer; this is Python %d.%d."
            % (OLDEST + tuple(version[:2])),
            2,
        )


def refuse_missing_venv():
    """Raise Trouble where the system's Python came without its venv module."""
    if any(importlib.util.find_spec(name) is None for name in ("venv", "ensurepip")):
        raise Trouble(VENV_MISSING, 2)


def interpreter(environment, windows=os.name == "nt"):
    """Path of the Python inside an environment."""
    return environment / "Scripts" / "python.exe" if windows else environment / "bin" / "python"


def interpreter_version(environment):
    """Version of the environment's Python as "3.11.7", or "" where it does not run."""
    if not (environment / "pyvenv.cfg").exists():
        return ""
    question = "import sys; print('%d.%d.%d' % sys.version_info[:3])"
    try:
        answer = subprocess.run(
            [str(interpreter(environment)), "-I", "-S", "-c", question],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            check=True,
        )
    except (OSError, subprocess.CalledProcessError):
        return ""
    return answer.stdout.decode("ascii", "replace").strip()


def stamp_text(root, files, version):
    """One line that changes when an installation made earlier no longer fits.

    The folder belongs to it because the package is installed from where it lies.
    """
    digest = hashlib.sha256()
    for name in files + ("pyproject.toml",):
        digest.update((root / name).read_bytes() + b"\0")
    digest.update(os.fsencode(str(root)) + b"\0" + version.encode("ascii"))
    return digest.hexdigest()


def is_ready(root, environment, files):
    """Whether all that `files` ask for was installed here, and to the end."""
    stamp = environment / STAMPS[files]
    if not stamp.exists() or (environment / UNFINISHED).exists():
        return False
    version = interpreter_version(environment)
    return bool(version) and stamp.read_text("utf-8") == stamp_text(root, files, version)


def is_usable(environment):
    """Whether pip can go on from what stands here."""
    version = interpreter_version(environment)
    if not version or (environment / UNFINISHED).exists():
        return False
    if tuple(int(number) for number in version.split(".")[:2]) < OLDEST:
        return False
    pip = subprocess.run(
        [str(interpreter(environment)), "-m", "pip", "--version"],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    return pip.returncode == 0


@contextlib.contextmanager
def one_builder(environment):
    """Let one process at a time build. The system lets go of the lock if that process dies."""
    environment.mkdir(exist_ok=True)
    waiting = "Another reckon.py is at work on .venv; waiting for it."
    with open(str(environment / LOCK), "a", encoding="utf-8") as lock:
        if os.name == "nt":
            import msvcrt

            while True:
                try:
                    msvcrt.locking(lock.fileno(), msvcrt.LK_NBLCK, 1)
                    break
                except OSError:
                    say(waiting)
                    time.sleep(5)
        else:
            import fcntl

            try:
                fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError:
                say(waiting)
                fcntl.flock(lock, fcntl.LOCK_EX)
        yield lock


def clear(environment):
    """Empty the environment's folder, all but the lock that we hold."""
    configuration = environment / "pyvenv.cfg"
    if configuration.exists():
        configuration.unlink()  # first: without it a half-emptied folder counts as no environment
    for entry in environment.iterdir():
        if entry.is_dir() and not entry.is_symlink():
            shutil.rmtree(str(entry))
        elif entry.name != LOCK:
            entry.unlink()


def child_surroundings():
    """Environment variables for our children: UTF-8 on every system, whatever its locale."""
    return dict(os.environ, PYTHONUTF8="1")


def create(environment):
    """Make a fresh environment where none, or none usable, stands."""
    refuse_missing_venv()
    say("Making the Python environment in .venv.")
    clear(environment)
    (environment / UNFINISHED).touch()
    # Called from inside an old environment, sys.executable may be the very file just removed.
    python = getattr(sys, "_base_executable", None) or sys.executable
    made = subprocess.run([python, "-m", "venv", str(environment)], env=child_surroundings())
    if made.returncode != 0:
        raise Trouble("Python could not make the environment; its own words are above.", 1)


def friendly(line):
    """What to show of a line of pip's; "" where the reader need not see it."""
    for start in ("Downloading ", "Using cached "):
        if line.startswith(start):
            file, _, size = line[len(start):].partition(" ")
            return "  fetching %s %s" % (" ".join(file.split("/")[-1].split("-")[:2]), size)
    if line.startswith(INSTALLING):
        return "  installing %d packages" % len(line.split(","))
    return line if "Retrying" in line else ""


def run_pip(root, environment, files, lock):
    """Install, showing one short line a package.

    Returns whether pip succeeded, and whether it had begun to change the environment.
    """
    command = [str(interpreter(environment)), "-m", "pip", "install"]
    command += ["--disable-pip-version-check", "--no-input", "--progress-bar", "off"]
    for name in files:
        command += ["-r", name]
    # A pip that outlives us keeps the lock, so that the next call waits for it to end.
    keep = {} if os.name == "nt" else {"pass_fds": (lock.fileno(),)}
    last_lines = collections.deque(maxlen=40)
    began = False
    with subprocess.Popen(
        command,
        cwd=str(root),
        env=dict(child_surroundings(), PYTHONUNBUFFERED="1"),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
        **keep
    ) as pip:
        for line in pip.stdout:
            line = line.strip()
            last_lines.append(line)
            began = began or line.startswith(INSTALLING)
            if friendly(line):
                say(friendly(line))
    if pip.returncode != 0:
        say("\n".join(last_lines))
    return pip.returncode == 0, began


def install(root, environment, files, lock):
    """Bring the environment up to what `files` ask for and stamp it."""
    say("Installing what is needed. The first time takes a few minutes; later calls start at once.")
    unfinished = environment / UNFINISHED
    unfinished.touch()
    succeeded, began = run_pip(root, environment, files, lock)
    if not succeeded:
        if not began:
            unfinished.unlink()  # nothing was changed: what stood before still stands
        raise Trouble(PIP_FAILED, 1)
    version = interpreter_version(environment)
    for name in STAMPS.values():
        if (environment / name).exists():
            (environment / name).unlink()  # what it vouched for may just have been changed
    for done in (BASE, files):
        (environment / STAMPS[done]).write_text(stamp_text(root, done, version), "utf-8")
    unfinished.unlink()
    say("Ready.")


def prepare(root, files):
    """Path of a Python in which everything that `files` ask for is installed."""
    environment = root / ".venv"
    if not is_ready(root, environment, files):
        with one_builder(environment) as lock:
            if not is_ready(root, environment, files):
                if not is_usable(environment):
                    create(environment)
                install(root, environment, files, lock)
    return interpreter(environment)


def run_inside(python, words):
    """Run the command in the environment and end with its exit code."""
    # -P: a file of the reader's own, lying in the current folder, must not shadow a package.
    command = [str(python), "-P", "-m", "benchreckoner.commands"] + words
    if os.name != "nt":
        os.execve(command[0], command, child_surroundings())
    child = subprocess.Popen(command, env=child_surroundings())
    while True:
        try:
            return child.wait()
        except KeyboardInterrupt:
            continue  # the child got it too, and decides what it means


def main(words):
    """Check the words, prepare the environment, run the command."""
    sys.stderr.reconfigure(errors="replace")
    try:
        refuse_old_python(sys.version_info)
        sys.path.insert(0, str(ROOT / "src"))
        from benchreckoner import commands

        command = commands.read_words(words).command  # a slip of the pen ends here, before any installing
        files = TESTS if command in ("test", "benchmark") else BASE  # both drive a browser
        return run_inside(prepare(ROOT, files), words)
    except Trouble as trouble:
        say("reckon.py: %s" % trouble)
        return trouble.code
    except KeyboardInterrupt:
        say("Stopped. Give the same command again to go on.")
        return 130
    except OSError as error:
        say("reckon.py: the system refused: %s" % error)
        return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
