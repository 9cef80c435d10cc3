"""Bench Reckoner: from the readings of one repair to reasons that others can follow."""
