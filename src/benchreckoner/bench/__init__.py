"""One repair: its sheet of readings, and what the readings say."""
