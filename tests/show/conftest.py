"""The made-up picture, for every test in this folder."""

import pathlib
import runpy
import types

import pytest


@pytest.fixture(scope="session")
def demo():
    return types.SimpleNamespace(**runpy.run_path(str(pathlib.Path(__file__).with_name("demo.py"))))
