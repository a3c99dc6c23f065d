"""Whatever stands in a commission, it is read or refused with a code and a remedy; nothing else comes out."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from moldwright.commission.keys import keys
from moldwright.commission.orders import Commission
from moldwright.commission.reading import commission_from_toml
from moldwright.errors import InputRefused

KEYS = sorted(key.dotted for table in keys().values() for key in table.values())
VALUES = st.one_of(
    st.sampled_from(['"4 mm"', '"22 °C"', '"0.1 g"', "4", "-1", "4.5", "nan", "true", "[]", "[0, 0, 1]", "{}", '""']),
    st.sampled_from(["1979-05-27", "07:32:00", '[{name = "a", thickness = "2 mm"}]', "[[1]]", "[{}]", '"\\u0000"']),
    st.text(alphabet=st.characters(blacklist_categories=["Cs", "Cc"], blacklist_characters="'"), max_size=30).map(
        lambda text: f"'{text}'"
    ),
)


def read_or_refused(text: str) -> Commission | InputRefused:
    try:
        return commission_from_toml(text)
    except InputRefused as refused:
        return refused


@given(st.dictionaries(st.sampled_from(KEYS), VALUES, max_size=5))
def test_any_value_under_any_key(written: dict[str, str]) -> None:
    got = read_or_refused("\n".join(f"{key} = {value}" for key, value in written.items()))
    if isinstance(got, InputRefused):
        assert got.code
        assert got.remedy
    else:
        assert set(got.given) == set(written)


@given(st.text(max_size=60))
def test_any_text(text: str) -> None:
    got = read_or_refused(text)
    assert isinstance(got, InputRefused)
    assert got.remedy
