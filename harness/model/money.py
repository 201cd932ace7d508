"""Money: whole hundredths of one currency, never a float."""

from __future__ import annotations

from typing import NamedTuple


class Money(NamedTuple):
    """`minor` hundredths of `currency` (three letters, ISO 4217)."""

    minor: int
    currency: str

    @property
    def words(self) -> str:
        """`38.50 EUR`."""
        sign = "-" if self.minor < 0 else ""
        whole, rest = divmod(abs(self.minor), 100)
        return f"{sign}{whole}.{rest:02d} {self.currency}"


def read_money(text: str) -> Money:
    """`38.5 EUR` as 3850 hundredths. Raises ValueError where it is no price."""
    number, _, currency = text.partition(" ")
    whole, _, rest = number.partition(".")
    if not whole.isdecimal() or (rest and not rest.isdecimal()) or len(rest) > 2 or len(currency) != 3:
        raise ValueError(f"{text!r} is no price such as 38.50 EUR")
    return Money(int(whole) * 100 + int(rest.ljust(2, "0") or 0), currency)
