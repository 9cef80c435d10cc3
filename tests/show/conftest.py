"""The made-up picture, for every test in this folder."""

import pathlib
import runpy
import types

import pytest


@pytest.fixture(scope="session")
def demo():
    return types.SimpleNamespace(**runpy.run_path(str(pathlib.Path(__file__).with_name("demo.py"))))


@pytest.fixture
def hands(monkeypatch):
    """What a reader does to a teaching widget: find, type, press; an error inside fails the test."""
    from benchreckoner.show import words

    monkeypatch.setattr(words, "_DOUBLE_CLICK", 0)
    found = types.SimpleNamespace(
        **runpy.run_path(str(pathlib.Path(__file__).with_name("hands.py"))))
    monkeypatch.setattr(found.Dispatcher, "__call__", found.call_and_raise)
    return found
