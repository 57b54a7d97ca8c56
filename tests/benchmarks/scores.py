"""Scores of stated chances against what came true."""

import numpy as np


def log_score(chance_of_truth) -> float:
    """Mean of -log2 p(true), in bits; less is better."""
    return float(-np.log2(np.maximum(chance_of_truth, 1e-300)).mean())


def brier_score(stated, came_true) -> float:
    """Mean squared difference (Brier 1950, Mon. Wea. Rev. 78:1, cited from memory)."""
    return float(((np.asarray(stated, float) - np.asarray(came_true, float)) ** 2).mean())


def calibration_error(stated, came_true, groups: int = 10) -> float:
    """Σ share |mean stated - share right| over equal steps of the stated chance (Naeini et al. 2015, from memory)."""
    stated, came_true = np.asarray(stated, float), np.asarray(came_true, float)
    group = np.minimum((stated * groups).astype(int), groups - 1)
    parts = [group == one for one in np.unique(group)]
    return float(sum(part.mean() * abs(stated[part].mean() - came_true[part].mean()) for part in parts))


def area_under_curve(of_known, of_new) -> float:
    """Chance that a new thing scores above a known one, half for ties: Mann-Whitney U / (n1 n2)."""
    known, new = np.asarray(of_known, float)[:, None], np.asarray(of_new, float)[None, :]
    return float((new > known).mean() + (new == known).mean() / 2)
