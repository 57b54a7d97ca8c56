"""What was worked out from the reference stays at hand as long as it is asked for."""

from catalogue.reference.snapshots import KeptForState


def test_what_was_asked_for_longest_ago_goes_first_when_there_is_no_room():
    keep = KeptForState(most=2)
    KeptForState.of_this_process.remove(keep)
    made = []

    def ask(key: str) -> str:
        return keep((key,), lambda: made.append(key) or key, number=1)

    for key in ("front", "old", "front", "new", "front", "old"):
        assert ask(key) == key

    assert made == ["front", "old", "new", "old"]


def test_after_the_reference_changed_it_is_worked_out_anew():
    keep = KeptForState(most=2)
    KeptForState.of_this_process.remove(keep)
    assert [keep(("a",), lambda n=n: n, number=n) for n in (1, 1, 2)] == [1, 1, 2]
