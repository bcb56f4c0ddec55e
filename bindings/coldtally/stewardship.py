"""Stewardship: until when doses may be used and in which order, loans between funds, and every dose of a period
accounted for. Doses are whole numbers, rates and seconds out of range exact fractions. The page is
lib/answers/README.md."""
from __future__ import annotations

import datetime
from fractions import Fraction

from .answers import LISTS, Answer, HoldingName, LastUse
from .wire import Record

__all__ = [
    "AccountabilityAnswer",
    "DateLimit",
    "DatedHolding",
    "DatesAnswer",
    "DoseAccount",
    "FundAccount",
    "LoanBalance",
    "LoanPayment",
    "LoanedDoses",
    "LoansAnswer",
    "LossReason",
    "LotAccount",
    "UseRate",
]


class DateLimit(Record):
    """What sets an end to the use of doses: expiry, beyond-use, guidance or handover; its entry (None: the expiry), and
    the first instant at which they may no longer be used."""

    what: str
    entry: int | None
    until: datetime.datetime


class DatedHolding(HoldingName):
    """Doses and the limits of their use, ascending: the first binds. `out_of_range_s`: exact seconds too warm or too
    cold since receipt. `order`: of use, from 1 within product and fund; None unless on keep. `left_over`: doses that
    will not be used in time. `in_doubt` as in ListedHolding. `notes`: what the list alone does not say of their use."""

    doses: int
    list: str
    do_not_use: bool
    usable_until: datetime.datetime
    binding: str
    last_use: LastUse
    limits: tuple[DateLimit, ...]
    out_of_range_s: Fraction
    order: int | None
    left_over: int
    in_doubt: tuple[str, ...]
    notes: tuple[str, ...]


class UseRate(Record):
    """Doses of a product and fund given in the last `days`, exact doses a day, and what of those on keep will be left
    over."""

    product: str
    fund: str
    given: int
    days: int
    per_day: Fraction
    first_received: datetime.datetime | None
    on_keep: int
    left_over: int


class DatesAnswer(Answer):
    """Until when each holding may be used, what sets that, and in which order to use what is on keep."""

    _rows = "holdings"
    _categories = {"list": LISTS}
    holdings: tuple[DatedHolding, ...]
    use: tuple[UseRate, ...]
    caution: str


class LoanPayment(Record):
    """Doses that came back, by its entry. `with_`: the receive or give by which they did. The attribute `with_` is the
    wire's `with`."""

    entry: int
    at: datetime.datetime
    doses: int
    with_: int | None


class LoanedDoses(HoldingName):
    """A loan by its entry `loan`, of the doses of the entry `give`: the holding's fund lent them, the fund `owed_by`
    owes them. `age_s`: seconds from the give to the instant of the question, or to the last repayment. `due`: the first
    instant at which it is overdue. `patient`: the token, None unless it was asked for."""

    loan: int
    give: int
    given: datetime.datetime
    owed_by: str
    patient: str | None
    reason: str
    lent: int
    open: int
    repayments: tuple[LoanPayment, ...]
    age_s: int
    due: datetime.datetime | None
    overdue: bool


class LoanBalance(Record):
    """Doses of a product that are open between two funds."""

    product: str
    lent_by: str
    owed_by: str
    open: int


class LoansAnswer(Answer):
    """Doses of one fund that were given to somebody another fund should have paid for. `repay_within_days`: the
    programme's."""

    _rows = "loans"
    repay_within_days: int | None
    loans: tuple[LoanedDoses, ...]
    balances: tuple[LoanBalance, ...]


class DoseAccount(Record):
    """Doses of a period: start + received + transferred_in + found = given + wasted + returned + transferred_out + lost
    + end. `given_on_loan`: of those given, to somebody another fund should have paid for."""

    start: int
    received: int
    transferred_in: int
    found: int
    given: int
    wasted: int
    returned: int
    transferred_out: int
    lost: int
    end: int
    given_on_loan: int

    def adds_up(self) -> bool:
        """Do the two sides agree? Where not, the ledger is damaged: verify it."""
        came = self.start + self.received + self.transferred_in + self.found
        return came == self.given + self.wasted + self.returned + self.transferred_out + self.lost + self.end


class FundAccount(DoseAccount):
    """The doses of a product and fund."""

    product: str
    fund: str


class LotAccount(FundAccount):
    """The doses of a lot and fund."""

    lot: str


class LossReason(Record):
    """Doses of a product and fund that were wasted or returned for a reason, as it was written down."""

    product: str
    fund: str
    reason: str
    wasted: int
    returned: int


class AccountabilityAnswer(Answer):
    """Every dose of a period [from_, until) by product, lot and fund. Moves within the site change nothing. `losses`
    add up to the wasted and the returned of the total. `window`: the period in words."""

    _rows = "lots"
    from_: datetime.datetime
    until: datetime.datetime
    window: str
    lots: tuple[LotAccount, ...]
    funds: tuple[FundAccount, ...]
    total: DoseAccount
    losses: tuple[LossReason, ...]
