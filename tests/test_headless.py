"""Which browser the browser tests and benchmarks use."""

from benchreckoner.headless import find_chromium


def test_a_browser_named_by_the_reader_comes_first():
    assert find_chromium(environment={"BENCH_RECKONER_CHROMIUM": "mine"}, which=lambda name: name) == "mine"


def test_else_the_first_that_is_installed():
    assert find_chromium(environment={}, which={"chromium-browser": "here"}.get) == "here"


def test_without_any_it_says_so():
    assert find_chromium(environment={}, which=lambda name: None) is None
