#include "coldtally/review_work.hpp"

#include <algorithm>

namespace coldtally {

namespace {

constexpr std::size_t most_named = 20;  // more are counted

class Named {
public:
    void add(const ReviewAnswer::Row& row) {
        doses_ += row.doses.count();
        if (++count_ <= most_named) entries_ += (entries_.empty() ? "" : ", ") + std::to_string(row.entry);
    }
    bool any() const { return count_ > 0; }
    /// "3 doses given (entries 4, 7)"
    std::string words() const {
        return std::to_string(doses_) + (doses_ == 1 ? " dose" : " doses") + " given (" +
               (count_ == 1 ? "entry " : "entries ") + entries_ +
               (count_ > most_named ? " and " + std::to_string(count_ - most_named) + " more" : "") + ")";
    }

private:
    std::int64_t doses_ = 0;
    std::size_t count_ = 0;
    std::string entries_;
};

/// By the at-most sums, and not by the estimates that decide.
bool may_be_more(const ReviewAnswer::Row& row) {
    const Exposure& e = row.history.total;
    if (e.frozen.estimate.sign() == 0 && e.frozen.at_most.sign() > 0) return true;
    const Rational most = e.warm.at_most + e.cold.at_most;
    Rational allowed;
    for (std::size_t i = 0; i < row.allowance_seconds.size(); ++i) {
        const Rational one(row.allowance_seconds[i].seconds());
        allowed = i == 0 ? one : std::min(allowed, one);
    }
    return most > e.warm.estimate + e.cold.estimate && most > allowed;
}

}  // namespace

std::vector<std::string> beside_review(const Ledger& ledger, const Question& question, Instant now) {
    std::vector<std::string> out;
    for (const auto& row : ledger.incidents(std::nullopt, std::nullopt, Instant(0), now, question, now).incidents) {
        if (row.closed) continue;
        Named given;
        for (const auto& dose : ledger.incident(row.incident, std::nullopt, question, now).given)
            if (dose.finding == "clear") given.add(dose);
        if (given.any())
            out.push_back("IN DOUBT, and not listed here: " + given.words() + " in the time in doubt of incident " +
                          row.incident + ", which is open: `coldtally incident` lists them");
    }
    Named unsure;
    for (const auto& row : ledger.review(question, now, true).doses)
        if (row.finding == "clear" && may_be_more(row)) unsure.add(row);
    if (unsure.any())
        out.push_back("NOT SURE, and not listed here: " + unsure.words() +
                      " may have been out of range for longer than is permitted, or have frozen, by the values around "
                      "it; the finding counts the estimate alone: --all lists them");
    return out;
}

}  // namespace coldtally
