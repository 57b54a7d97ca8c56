"""The bare identification model, written a second time: plain loops, no numpy, no logarithms, nothing shared.

Rank answers, exactly: P(answer) as issued (0.98 d + 0.02 base, base where blank), as found (lost or added parts), as
answered (errors spread evenly); naive Bayes with a version that is not recorded, half unlike anything, half a relative.
"""

from fractions import Fraction
from math import fsum


def shares_of(cell, states):
    """Shares of the states in a cell, or None where nothing is recorded or the feature does not apply."""
    named = [one for one in cell if one.state in states]
    if not named:
        return None
    total = fsum(1.0 if one.share is None else one.share for one in named)
    row = [0.0] * len(states)
    for one in named:
        row[states.index(one.state)] += (1.0 if one.share is None else one.share) / total
    return row


def as_answered(row, feature):
    """From states as issued to answers: parts lost or added, then errors."""
    states = list(feature.states)
    number = len(states)
    found = [0.0] * number
    for i, chance in enumerate(row):
        if feature.absent is None:
            found[i] += chance
            continue
        absent = states.index(feature.absent)
        for j in range(number):
            if i == absent:
                found[j] += chance * (1 - feature.gain if j == absent else feature.gain / (number - 1))
            elif j == i:
                found[j] += chance * (1 - feature.loss)
            elif j == absent:
                found[j] += chance * feature.loss
    return [
        fsum(found[i] * (1 - feature.error if i == j else feature.error / (number - 1)) for i in range(number))
        for j in range(number)
    ]


class SlowModel:
    def __init__(self, features, versions, unrecorded=0.05):
        self.features = {feature.code: feature for feature in features}
        self.versions = versions
        self.unrecorded = unrecorded
        self.tables, self.bases = {}, {}
        for code, feature in self.features.items():
            rows = [shares_of(version.cells.get(code, ()), feature.states) for version in versions]
            known = [row for row in rows if row]
            number = len(feature.states)
            base = [(fsum(row[i] for row in known) + 1 / number) / (len(known) + 1) for i in range(number)]
            doubted = [
                [0.98 * d + 0.02 * b for d, b in zip(row, base, strict=True)] if row else list(base) for row in rows
            ]
            self.tables[code] = [as_answered(row, feature) for row in doubted]
            self.bases[code] = as_answered(base, feature)

    def counts(self, code, answers):
        """`answers`: feature to state, with ? and - as they stand in a file."""
        feature = self.features[code]
        if answers[code] not in feature.states:
            return False
        while feature.parent is not None:
            if answers.get(feature.parent) not in feature.shown_when:
                return False
            feature = self.features[feature.parent]
        return True

    def posterior(self, answers):
        """Chances of the versions, and of none of them. Products are kept as exact fractions of the floats."""
        counted = [code for code in answers if self.counts(code, answers)]
        weights = [version.weight for version in self.versions]
        known, unrecorded = [], Fraction(0)
        u = Fraction(self.unrecorded)
        alike = Fraction(1)
        for code in counted:
            alike *= Fraction(self.bases[code][self.features[code].states.index(answers[code])])
        for place, weight in enumerate(weights):
            prior = Fraction(weight) / sum(map(Fraction, weights))
            straight = changed = Fraction(1)
            for code in counted:
                state = self.features[code].states.index(answers[code])
                of_version, of_base = self.tables[code][place][state], self.bases[code][state]
                straight *= Fraction(of_version)
                changed *= Fraction(9, 10) * Fraction(of_version) + Fraction(1, 10) * Fraction(of_base)
            known.append((1 - u) * prior * straight)
            unrecorded += u / 2 * prior * changed
        unrecorded += u / 2 * alike
        total = sum(known) + unrecorded
        return [float(one / total) for one in known], float(unrecorded / total)
