// Stewardship: answers on how doses are used and accounted for: dates, loans between funds, accountability.
#pragma once

#include "coldtally/stock.hpp"

namespace coldtally {

/// Until when each holding may be used and what sets that, in which order to use what is on keep, and what will be left
/// over at the rate of the last 90 days.
struct DatesAnswer {
    AnswerHead head;
    struct Limit {
        UseLimitKind what = UseLimitKind::expiry;
        std::optional<EntryNumber> entry;  ///< none for the expiry
        Instant until;     ///< the first instant at which the doses may no longer be used
    };
    struct Row {
        HoldingKey holding;
        Doses doses;
        List list = List::keep;
        std::vector<Limit> limits;  ///< ascending; the first binds. Never empty
        LastUse last_use;           ///< of that first limit
        Rational out_of_range_s;    ///< too warm and too cold, since receipt
        std::optional<std::int64_t>
            order;                  ///< of use, from 1 within product and fund; none where do_not_use()
        Doses left_over;            ///< of those on keep: will not be used in time
        std::vector<std::string> in_doubt;  ///< as in ListsAnswer
        std::vector<Remark> notes;          ///< what the list alone does not say of their use; as in ListsAnswer
    };
    std::vector<Row> holdings;      ///< by product, fund, order (those without last), holding
    struct Use {
        std::string product, fund;
        Doses given;                ///< in the 90 days up to the instant of the question
        std::optional<Instant> first_received;
        Doses on_keep, left_over;
    };
    std::vector<Use> use;           ///< by product and fund
};
inline constexpr std::int64_t use_rate_days = 90;

struct LoansAnswer {
    AnswerHead head;
    std::optional<std::int64_t> repay_within_days;  ///< the programme's
    struct Payment {
        EntryNumber entry = 0;
        Instant at;
        Doses doses;
        std::optional<EntryNumber> with;
    };
    struct Row {
        EntryNumber loan = 0, give = 0;
        Instant given;
        HoldingKey holding;       ///< its fund lent them
        std::string owed_by;      ///< the fund that owes them
        std::string patient;      ///< empty where nobody asked for it
        std::string reason;
        Doses lent, open;
        std::vector<Payment> payments;
        Duration age;             ///< from the give to the instant of the question, or to the last repayment
        std::optional<Instant> due;  ///< the first instant at which it is overdue
        bool overdue = false;
    };
    std::vector<Row> loans;       ///< by (given, loan)
    struct Balance {
        std::string product, lent_by, owed_by;
        Doses open;
    };
    std::vector<Balance> balances;  ///< of what is open
};

/// Doses by product, lot and fund over [from, until): what was there, came and went. Moves within the site change
/// nothing.
struct AccountabilityAnswer {
    AnswerHead head;
    Instant from, until;
    struct Figures {
        std::int64_t start = 0, received = 0, transferred_in = 0, found = 0;
        std::int64_t given = 0, wasted = 0, returned = 0, transferred_out = 0, lost = 0, end = 0;
        std::int64_t given_on_loan = 0;  ///< of those given: to somebody another fund should have paid for
        void add(const Figures& other);
        /// start + received + transferred_in + found = given + wasted + returned + transferred_out + lost + end
        bool adds_up() const;
    };
    struct Row {
        std::string product, lot, fund;
        Figures figures;
    };
    std::vector<Row> lots;    ///< by product, lot, fund; those without any doses left out
    std::vector<Row> funds;   ///< by product and fund; lot empty
    Figures total;
    struct Loss {
        std::string product, fund, reason;  ///< as it was written down
        std::int64_t wasted = 0, returned = 0;
    };
    std::vector<Loss> losses; ///< by product, fund, reason; they add up to the wasted and the returned of the total
};

}  // namespace coldtally
