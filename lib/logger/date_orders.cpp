#include "logger/date_orders.hpp"

#include <algorithm>

namespace coldtally::logger {

namespace {

constexpr std::int64_t day_s = 86400;

}  // namespace

void DateOrders::Candidate::go_on(std::int64_t now) {
    if (last) {
        const std::int64_t step = now - *last;
        longest_step = std::max(longest_step, step < 0 ? -step : step);
        // the clock changes of a year are no other direction
        up = up || step > 2 * 3600;
        down = down || step < -2 * 3600;
    }
    last = now;
}

DateOrders::DateOrders(const std::vector<std::string>& patterns, Pattern::Of what, const char* field)
    : patterns_(patterns), what_(what), field_(field) {
    for (const auto& text : patterns) {
        Candidate c{Pattern::compile(text, what, field)};
        c.number = left_.size();
        left_.push_back(std::move(c));
    }
}

DateOrders DateOrders::anew() const {
    DateOrders out(patterns_, what_, field_.c_str());
    out.steps_matter_ = open();
    return out;
}

void DateOrders::row(std::string_view cell, const ClockParts* of_day, int line) {
    struct Reads {
        bool at_all;
        std::int64_t now;
    };
    std::vector<Reads> reads;
    for (const auto& c : left_) {
        ClockParts parts;
        if (of_day) parts = *of_day;
        const bool at_all = c.pattern.read(cell, parts) == nullptr;
        reads.push_back({at_all, parts.days * day_s + parts.second_of_day - parts.offset_s});
    }
    if (std::none_of(reads.begin(), reads.end(), [](const Reads& r) { return r.at_all; })) return;
    std::vector<Candidate> still;
    std::vector<std::int64_t> now;
    for (std::size_t i = 0; i < left_.size(); ++i) {
        if (!reads[i].at_all) continue;
        still.push_back(std::move(left_[i]));
        now.push_back(reads[i].now);
    }
    if (still.size() == 1 && left_.size() > 1) still[0].settled_by = line;
    left_ = std::move(still);
    if (what_ == Pattern::Of::date && !of_day) return;
    for (std::size_t i = 0; i < left_.size(); ++i) {
        for (std::size_t k = 0; k < left_.size(); ++k)
            if (now[k] != now[i]) left_[i].unlike |= 1u << left_[k].number;
        left_[i].go_on(now[i]);
    }
}

DateOrders::Settled DateOrders::settled() const {
    Settled out;
    out.pattern = left_[0].pattern.text();
    if (left_.size() == 1) {
        out.by_line = left_[0].settled_by;
        return out;
    }
    unsigned all = 0;
    for (const auto& c : left_) all |= 1u << c.number;
    // 03/03: whichever it is
    if (std::all_of(left_.begin(), left_.end(), [&](const Candidate& c) { return (c.unlike & all) == 0; })) return out;
    // read wrongly, the days of one month become the same day of following months
    const auto steady = [](const Candidate& c) { return c.one_direction() && c.longest_step <= 4 * day_s; };
    const auto torn = [](const Candidate& c) { return !c.one_direction() || c.longest_step >= 20 * day_s; };
    const auto first = std::find_if(left_.begin(), left_.end(), steady);
    if (first != left_.end() && std::count_if(left_.begin(), left_.end(), torn) + 1 == std::ssize(left_)) {
        out.pattern = first->pattern.text();
        out.by_steps = true;
        return out;
    }
    for (std::size_t i = 1; i < left_.size(); ++i) out.others.push_back(left_[i].pattern.text());
    return out;
}

}  // namespace coldtally::logger
