"""What every run of the tests has to say at its end."""

NOT_RUN = "browser tests not run"


def pytest_terminal_summary(terminalreporter):
    """Say that no browser was found where the reader looks, not only behind a letter s."""
    skipped = terminalreporter.stats.get("skipped", [])
    if any(NOT_RUN in str(report.longrepr) for report in skipped):
        terminalreporter.write_line(f"{NOT_RUN}: no Chromium found", yellow=True)
