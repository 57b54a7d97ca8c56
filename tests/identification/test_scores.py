"""The scores that the benchmarks print, against general libraries."""

import subprocess
import sys
from math import log
from pathlib import Path

import pytest
from scipy import stats
from sklearn import metrics

from tests.benchmarks import scores

ROOT = Path(__file__).parents[2]


@pytest.mark.once
def test_the_benchmark_runs_by_its_path_as_the_guide_says():
    command = [sys.executable, "tests/benchmarks/identification.py", "no-such-part"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=60)

    assert done.stderr.strip().startswith("No part no-such-part; there are speed, open, demo,")


def test_scores_agree_with_scikit_learn_and_scipy():
    """scikit-learn's documented examples; AUC as Mann-Whitney U by scipy; the calibration example by hand."""
    assert scores.brier_score([0.1, 0.9, 0.8, 0.3], [0, 1, 1, 0]) == pytest.approx(0.0375)
    assert scores.brier_score([0.1, 0.9, 0.8, 0.3], [0, 1, 1, 0]) == metrics.brier_score_loss(
        [0, 1, 1, 0], [0.1, 0.9, 0.8, 0.3]
    )
    truth = [0.9, 0.9, 0.8, 0.65]
    nats = metrics.log_loss(["spam", "ham", "ham", "spam"], [[0.1, 0.9], [0.9, 0.1], [0.8, 0.2], [0.35, 0.65]])
    assert scores.log_score(truth) * log(2) == pytest.approx(nats) == pytest.approx(0.21616, abs=5e-6)
    stated, came_true = [0.9, 0.9, 0.8, 0.8, 0.3], [1, 1, 1, 0, 0]
    assert scores.calibration_error(stated, came_true) == pytest.approx(0.22)
    assert scores.brier_score(stated, came_true) == pytest.approx(0.158)
    known, new = [0.1, 0.35], [0.4, 0.8]
    assert scores.area_under_curve([0.1, 0.4], [0.35, 0.8]) == pytest.approx(0.75)
    assert scores.area_under_curve(known, new) == metrics.roc_auc_score([0, 0, 1, 1], known + new)
    assert scores.area_under_curve([0.1, 0.4], [0.35, 0.8]) == stats.mannwhitneyu([0.35, 0.8], [0.1, 0.4]).statistic / 4
