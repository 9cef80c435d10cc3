"""Machinery that knows no audio gear: pictures as data, stills, live pictures and their tables."""
