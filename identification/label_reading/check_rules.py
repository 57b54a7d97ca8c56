"""Check rules of number forms: words and arithmetic over a number's groups, as a society writes them.

`group 1 lies between 1 and 40 and group 2 between 55 and 140`; `group 1 is not 0`;
`group 4 = (sum of all figures of groups 1 to 3) mod 10`; `group 3 = (3 * group 1 + group 2) mod 7`.
"""

import re
from collections.abc import Callable, Sequence
from functools import lru_cache

CLAUSES = re.compile(r"\s*(?:;|,?\band\b)\s*(?=group\b)", re.IGNORECASE)
BETWEEN = re.compile(r"group (\d+) (?:lies )?(?:is )?between (-?\d+) and (-?\d+)", re.IGNORECASE)
NOT = re.compile(r"group (\d+) (?:is not|<>|!=) (\d+)", re.IGNORECASE)
EQUALS = re.compile(r"group (\d+) (?:=|is) (.{1,150})", re.IGNORECASE)
ONE_FIGURE = re.compile(r"group (\d+) (?:=|is) (\d+)", re.IGNORECASE)
EXAMPLES = (
    "“group 1 lies between 1 and 40 and group 2 is not 0”, or “group 3 = (sum of all figures of groups 1 to 2) mod 10”"
)
TOKENS = re.compile(
    r"\s*(?:(sum of (?:all |the )*(?:figures|digits) (?:of|in) groups? (\d+)(?: to (\d+))?)"
    r"|group (\d+)|(\d+)|(mod|[-+*()]))",
    re.IGNORECASE,
)


class NotUnderstood(ValueError):
    """A rule, or a part of one, that cannot be worked out."""


def keeps_rule(rule: str, groups: Sequence[str]) -> bool:
    """Whether the groups keep every clause of the rule; an empty rule is kept. Raises NotUnderstood."""
    return all(clause(groups) for clause in clauses_of(rule))


@lru_cache(maxsize=512)
def clauses_of(rule: str) -> tuple[Callable[[Sequence[str]], bool], ...]:
    """For each clause of a rule whether groups keep it. One that is not understood raises when it is asked."""
    return tuple(clause_of(clause.strip(" .")) for clause in CLAUSES.split(rule) if clause.strip(" ."))


def fault_in_rule(rule: str, groups: Sequence[tuple[int, int] | None]) -> str | None:
    """What is wrong with a rule, in words; None where numbers of the form can keep it. `groups`: of each group of the
    pattern its least and most figures, or None where other signs stand in it."""
    for clause in (clause.strip(" .") for clause in CLAUSES.split(rule)):
        if clause and (fault := fault_in_clause(clause, groups)):
            return fault
    return None


def fault_in_clause(clause: str, groups: Sequence[tuple[int, int] | None]) -> str | None:
    if not groups:
        return "the pattern has no groups in brackets to which it could apply"
    try:
        clause_of(clause)(["1" * group[0] if group else "A" for group in groups])
    except NotUnderstood as problem:
        said = str(problem)
        if number := re.fullmatch(r"there is no group \d+", said):
            return f"{number.group()}: the pattern has {len(groups)}"
        if number := re.fullmatch(r"group (\d+) is no figure", said):
            return f"group {number[1]} has other signs than figures, or none"
        because = f" ({said})" if said.startswith(("a ", "mod ")) else ""
        return f"“{clause}” cannot be worked out{because}. Write such as {EXAMPLES}"
    return fault_in_bounds(clause, groups)


def fault_in_bounds(clause: str, groups: Sequence[tuple[int, int] | None]) -> str | None:
    """Of a range, or of one figure, whether any number of the group lies in it."""
    if match := BETWEEN.fullmatch(clause):
        number, low, high = map(int, match.groups())
        words = f"lies between {low} and {high}"
    elif match := ONE_FIGURE.fullmatch(clause):
        number, low = map(int, match.groups())
        high, words = low, f"is {low}"
    else:
        return None
    if low > high:
        return f"no number {words}"
    figures = groups[number - 1][1]
    if high < 0 or low >= 10**figures:
        return f"no number of {figures} figure{'' if figures == 1 else 's'} {words}"
    return None


def clause_of(clause: str) -> Callable[[Sequence[str]], bool]:
    if match := BETWEEN.fullmatch(clause):
        number, low, high = map(int, match.groups())
        return lambda groups: low <= value_of(groups, number) <= high
    if match := NOT.fullmatch(clause):
        number, figure = map(int, match.groups())
        return lambda groups: value_of(groups, number) != figure
    if match := EQUALS.fullmatch(clause):
        number, words = int(match.group(1)), match.group(2)
        return lambda groups: value_of(groups, number) == Sum(words, groups).value()

    def not_understood(groups: Sequence[str]) -> bool:
        raise NotUnderstood(clause)

    return not_understood


def group_text(groups: Sequence[str], number: int) -> str:
    if not 1 <= number <= len(groups):
        raise NotUnderstood(f"there is no group {number}")
    return groups[number - 1]


def value_of(groups: Sequence[str], number: int) -> int:
    text = group_text(groups, number)
    if not text.isdecimal():
        raise NotUnderstood(f"group {number} is no figure")
    return int(text)


@lru_cache(maxsize=512)
def tokens_of(words: str) -> tuple[int | str | Callable[[Sequence[str]], int], ...]:
    """Figures, signs, and what is worked out from a number's groups. Raises NotUnderstood."""
    tokens, place = [], 0
    while words[place:].strip():
        match = TOKENS.match(words, place)
        if not match:
            raise NotUnderstood(words[place:])
        tokens.append(token_of(match))
        place = match.end()
    return tuple(tokens)


def token_of(match: re.Match) -> int | str | Callable[[Sequence[str]], int]:
    figures, first, last, group, number, sign = match.groups()
    if figures:
        wanted = range(int(first), int(last or first) + 1)
        return lambda groups: sum(
            int(character) for n in wanted for character in group_text(groups, n) if character.isdecimal()
        )
    if group:
        return lambda groups: value_of(groups, int(group))
    return int(number) if number else sign.lower()


class Sum:
    """Addition, multiplication and remainders over whole numbers, worked out from left to right."""

    def __init__(self, words: str, groups: Sequence[str]):
        self.tokens = [token if isinstance(token, int | str) else token(groups) for token in tokens_of(words)]

    def value(self) -> int:
        result = self.remainder()
        if self.tokens:
            raise NotUnderstood(str(self.tokens[0]))
        return result

    def remainder(self) -> int:
        result = self.added()
        while self.next_is("mod"):
            by = self.factor()
            if not by:
                raise NotUnderstood("mod 0")
            result %= by
        return result

    def added(self) -> int:
        result = self.multiplied()
        while self.tokens and self.tokens[0] in ("+", "-"):
            result += self.multiplied() if self.tokens.pop(0) == "+" else -self.multiplied()
        return result

    def multiplied(self) -> int:
        result = self.factor()
        while self.next_is("*"):
            result *= self.factor()
        return result

    def factor(self) -> int:
        if not self.tokens:
            raise NotUnderstood("a number is missing")
        part = self.tokens.pop(0)
        if part == "(":
            result = self.remainder()
            if not self.next_is(")"):
                raise NotUnderstood("a bracket is missing")
            return result
        if not isinstance(part, int):
            raise NotUnderstood(part)
        return part

    def next_is(self, sign: str) -> bool:
        if self.tokens and self.tokens[0] == sign:
            self.tokens.pop(0)
            return True
        return False
