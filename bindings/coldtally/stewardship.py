"""Stewardship: until when doses may be used and in which order, loans between funds, and every dose of a period
accounted for. Doses are whole numbers, rates and seconds out of range exact fractions. The page is
lib/stock/README.md."""
from __future__ import annotations

import datetime
from fractions import Fraction

from .answers import LISTS, Answer, HoldingName, LastUse, Rows
from .remarks import Remark
from .terms import ListName, UseLimit
from .answered import Answered

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


class DateLimit(Answered):
    """What sets an end to the use of doses.

    Attributes
    ----------
    what : UseLimit
        expiry, beyond-use, guidance or handover.
    entry : int | None
        The number of its entry; None: the expiry.
    until : datetime.datetime
        The first instant at which they may no longer be used.
    """

    what: UseLimit
    entry: int | None
    until: datetime.datetime


class DatedHolding(HoldingName):
    """Doses and the limits of their use.

    Attributes
    ----------
    do_not_use : bool
        True for all that are not on keep, are in doubt, or of which a note forbids it (what was learnt or held after
        guidance cleared them): they must not be used as they stand. False is no promise: read `in_doubt`, the notes
        and the caution.
    usable_until : datetime.datetime
        The first instant at which they may no longer be used.
    binding : UseLimit
        What sets that.
    limits : tuple[DateLimit, ...]
        Ascending: the first binds.
    out_of_range_s : Fraction
        Exact seconds too warm or too cold since receipt.
    order : int | None
        Of use, from 1 within product and fund; None unless on keep.
    left_over : int
        Doses that will not be used in time.
    notes : tuple[str, ...]
        What the list alone does not say of their use.
    """

    doses: int
    list: ListName
    do_not_use: bool
    usable_until: datetime.datetime
    binding: UseLimit
    last_use: LastUse
    limits: tuple[DateLimit, ...]
    out_of_range_s: Fraction
    order: int | None
    left_over: int
    in_doubt: tuple[str, ...]
    notes: tuple[str, ...]
    notes_codes: tuple[Remark, ...]


class UseRate(Answered):
    """Doses of a product and fund given, and what of those on keep will be left over.

    Attributes
    ----------
    given : int
        Doses given in the last `days`.
    days : int
        How many days.
    per_day : Fraction
        Exact doses a day.
    first_received : datetime.datetime | None
        When its first doses came in.
    on_keep : int
        Doses on keep.
    left_over : int
        Doses of them that will not be used in time.
    """

    product: str
    fund: str
    given: int
    days: int
    per_day: Fraction
    first_received: datetime.datetime | None
    on_keep: int
    left_over: int


class DatesAnswer(Answer, Rows[DatedHolding]):
    """Until when each holding may be used, what sets that, and in which order to use what is on keep; a sequence of the
    holdings.

    Attributes
    ----------
    holdings : tuple[DatedHolding, ...]
        The holdings.
    use : tuple[UseRate, ...]
        The rates of use.
    """

    _rows = "holdings"
    _categories = {"list": LISTS}
    holdings: tuple[DatedHolding, ...]
    use: tuple[UseRate, ...]
    caution: str


class LoanPayment(Answered):
    """Doses that came back.

    Attributes
    ----------
    with_ : int | None
        The number of the receive or give by which they did. The wire's `with`.
    """

    entry: int
    at: datetime.datetime
    doses: int
    with_: int | None


class LoanedDoses(HoldingName):
    """A loan: the holding's fund lent the doses of a give.

    Attributes
    ----------
    loan : int
        The number of the loan's entry.
    give : int
        The number of the give's entry.
    given : datetime.datetime
        When.
    owed_by : str
        The fund that owes them.
    patient : str | None
        The token; None unless it was asked for.
    lent : int
        Doses lent.
    open : int
        Doses that are not repaid.
    repayments : tuple[LoanPayment, ...]
        What came back.
    age_s : int
        Seconds from the give to the instant of the question, or to the last repayment.
    due : datetime.datetime | None
        The first instant at which it is overdue; None: nobody says.
    overdue : bool
        It is.
    """

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


class LoanBalance(Answered):
    """Doses of a product that are open between two funds.

    Attributes
    ----------
    lent_by : str
        The fund that lent them.
    owed_by : str
        The fund that owes them.
    open : int
        Doses that are not repaid.
    """

    product: str
    lent_by: str
    owed_by: str
    open: int


class LoansAnswer(Answer, Rows[LoanedDoses]):
    """Doses of one fund that were given to somebody another fund should have paid for; a sequence of the loans.

    Attributes
    ----------
    repay_within_days : int | None
        The programme's, days; None: it does not say.
    loans : tuple[LoanedDoses, ...]
        The loans.
    balances : tuple[LoanBalance, ...]
        What is open between the funds.
    """

    _rows = "loans"
    repay_within_days: int | None
    loans: tuple[LoanedDoses, ...]
    balances: tuple[LoanBalance, ...]


class DoseAccount(Answered):
    """Doses of a period: start + received + transferred_in + found = given + wasted + returned + transferred_out + lost
    + end.

    Attributes
    ----------
    start : int
        Doses at its beginning.
    received : int
        Doses of suppliers.
    transferred_in : int
        Doses of other sites.
    found : int
        Doses that counts found.
    given : int
        Doses given.
    wasted : int
        Doses wasted.
    returned : int
        Doses sent back.
    transferred_out : int
        Doses sent to other sites.
    lost : int
        Doses that counts did not find.
    end : int
        Doses at its end.
    given_on_loan : int
        Of those given, to somebody another fund should have paid for.
    """

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
        """Do the two sides agree? Where not, the ledger is damaged: verify it.

        Returns
        -------
        bool
            Whether they do.
        """
        came = self.start + self.received + self.transferred_in + self.found
        return came == self.given + self.wasted + self.returned + self.transferred_out + self.lost + self.end


class FundAccount(DoseAccount):
    """The doses of a product and fund."""

    product: str
    fund: str


class LotAccount(FundAccount):
    """The doses of a lot and fund."""

    lot: str


class LossReason(Answered):
    """Doses of a product and fund that were wasted or returned for a reason.

    Attributes
    ----------
    reason : str
        As it was written down.
    wasted : int
        Doses wasted.
    returned : int
        Doses sent back.
    """

    product: str
    fund: str
    reason: str
    wasted: int
    returned: int


class AccountabilityAnswer(Answer, Rows[LotAccount]):
    """Every dose of a period [from_, until) by product, lot and fund; a sequence of the lots. Moves within the site
    change nothing.

    Attributes
    ----------
    from_ : datetime.datetime
        Its beginning.
    until : datetime.datetime
        Its end, which is not in it.
    lots : tuple[LotAccount, ...]
        By product, lot and fund.
    funds : tuple[FundAccount, ...]
        By product and fund.
    total : DoseAccount
        Of all.
    losses : tuple[LossReason, ...]
        They add up to the wasted and the returned of the total.
    """

    _rows = "lots"
    from_: datetime.datetime
    until: datetime.datetime
    window: str
    window_code: Remark | None
    lots: tuple[LotAccount, ...]
    funds: tuple[FundAccount, ...]
    total: DoseAccount
    losses: tuple[LossReason, ...]
