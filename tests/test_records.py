"""Records behave as the named tuples that a type checker takes them for."""

import pickle
from collections.abc import Callable
from typing import Generic, NamedTuple, TypeVar

import pytest

from garmentc.record import Record

Held = TypeVar("Held")


class Pair(Record):
    """Two things."""

    first: int
    second: str = "two"

    @property
    def both(self) -> str:
        return f"{self.first}{self.second}"


class Twin(NamedTuple):
    first: int
    second: str = "two"


class Box(Record, Generic[Held]):
    held: Held


@pytest.mark.parametrize(
    "make",
    [
        lambda kind: kind(1),
        lambda kind: kind(1, "b"),
        lambda kind: kind(second="b", first=1),
        lambda kind: kind(1, second="b"),
    ],
)
def test_a_record_is_made_like_a_named_tuple(make: Callable[[type], tuple[object, ...]]) -> None:
    assert make(Pair) == make(Twin)
    assert make(Pair)._replace(first=3) == make(Twin)._replace(first=3)
    assert make(Pair)._asdict() == make(Twin)._asdict()
    assert repr(make(Pair)).removeprefix("Pair") == repr(make(Twin)).removeprefix("Twin")


@pytest.mark.parametrize("values", [(), (1, "b", 3)])
def test_a_wrong_number_of_values_is_refused(values: tuple[object, ...]) -> None:
    for kind in (Pair, Twin):
        with pytest.raises(TypeError):
            kind(*values)


@pytest.mark.parametrize("named", [{"third": 1}, {"first": 1, "third": 2}])
def test_an_unknown_field_is_refused(named: dict[str, object]) -> None:
    for kind in (Pair, Twin):
        with pytest.raises(TypeError):
            kind(**named)
    with pytest.raises(TypeError):
        Pair(1, first=2)
    for one in (Pair(1), Twin(1)):
        with pytest.raises((TypeError, ValueError)):
            one._replace(third=1)


def test_a_record_is_frozen_has_no_room_for_more_and_can_be_sent() -> None:
    pair = Pair(1)
    with pytest.raises(AttributeError):
        pair.first = 2
    with pytest.raises(AttributeError):
        pair.third = 2
    assert pickle.loads(pickle.dumps(pair)) == pair
    assert type(pickle.loads(pickle.dumps(pair))) is Pair
    assert hash(pair) == hash(Twin(1))


def test_a_record_can_be_taken_apart() -> None:
    first, second = Pair(1)
    assert (first, second, Pair(1).both) == (1, "two", "1two")
    match Pair(4, "x"):
        case Pair(found, "x"):
            assert found == 4
        case _:
            pytest.fail("the pattern did not match")
    assert Box[int](3).held == 3
