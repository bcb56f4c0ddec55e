#include "coldtally/columns.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "coldtally/error.hpp"
#include "logger/local_clock.hpp"
#include "logger/message.hpp"
#include "words/logger.hpp"

namespace coldtally {

namespace {

constexpr std::int64_t per_thousandth = 1'000'000'000'000'000;  // of 1e-18 degrees
constexpr std::int64_t most = 1'000'000'000;                    // thousandths: a million degrees

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

struct Decimal {
    std::int64_t thousandths = 0;  ///< cut
    std::int64_t beyond = 0;       ///< of 1e-18 degrees, cut
    bool more = false;             ///< digits beyond those, which are not all 0
    bool negative = false;
};

std::optional<Decimal> parse(std::string_view text) {
    Decimal out;
    std::size_t i = 0;
    if (!text.empty() && text[0] == '-') {
        out.negative = true;
        ++i;
    }
    const std::size_t whole = i;
    for (; i < text.size() && is_digit(text[i]); ++i)
        if (out.thousandths <= most) out.thousandths = out.thousandths * 10 + (text[i] - '0');
    if (i == whole) return std::nullopt;
    out.thousandths *= 1000;
    if (i == text.size()) return out;
    if (text[i] != '.' || ++i == text.size()) return std::nullopt;
    std::int64_t unit = 100, fine = per_thousandth / 10;
    for (; i < text.size(); ++i) {
        if (!is_digit(text[i])) return std::nullopt;
        const int digit = text[i] - '0';
        if (unit > 0) {
            out.thousandths += digit * unit;
            unit /= 10;
        } else if (fine > 0) {
            out.beyond += digit * fine;
            fine /= 10;
        } else {
            out.more = out.more || digit != 0;
        }
    }
    return out;
}

Error refuse(std::string_view text, const std::string& why) {
    return Error(Code::bad_value, logger::shown(text) + ": " + why);
}

}  // namespace

DegreesColumn::DegreesColumn(std::optional<TemperatureDifference> resolution) {
    if (!resolution) return;
    unit_ = resolution->thousandths();
    rounds_ = true;
    if (unit_ != 1 && unit_ != 10 && unit_ != 100 && unit_ != 1000)
        throw Error(Code::bad_value, "resolution: " + text::quoted(resolution->text()) +
                                         R"(: must be "1", "0.1", "0.01" or "0.001" of a degree)");
}

std::int32_t DegreesColumn::read(std::string_view degrees) {
    const auto n = parse(degrees);
    if (!n) throw refuse(degrees, "must be degrees, as text (\"4.2\") or a whole number");
    if (n->thousandths > most) throw refuse(degrees, "no temperature is that far from 0");
    const bool finer = n->beyond > 0 || n->more;
    if (!rounds_ && finer)
        throw refuse(degrees,
                     "has more than three fractional digits: at most thousandths of a degree can be kept; "
                     "a resolution (\"0.1\") says to what it is rounded");
    // halves are exact in thousandths, or, where those are kept, in the digit that follows
    const std::int64_t rest = n->thousandths % unit_;
    const bool up = unit_ > 1 ? 2 * rest >= unit_ : 2 * n->beyond >= per_thousandth;
    const std::int64_t kept = n->thousandths - rest + (up ? unit_ : 0);
    if (rest != 0 || finer) {
        const std::int64_t cut = rest * per_thousandth + n->beyond;
        ++rounded_;
        largest_ = std::max(largest_, up ? unit_ * per_thousandth - cut : cut + (n->more ? 1 : 0));
    }
    return static_cast<std::int32_t>(n->negative ? -kept : kept);
}

template <class Float>
std::int32_t DegreesColumn::read_float(Float degrees) {
    if (!std::isfinite(degrees))
        throw Error(Code::bad_value, std::string(std::isnan(degrees) ? "NaN"
                                                 : degrees < 0       ? "-inf"
                                                                     : "inf") +
                                         ": is no temperature; leave rows without a reading out");
    char text[400];  // the longest double takes 326 characters
    const auto end = std::to_chars(text, text + sizeof text, degrees, std::chars_format::fixed).ptr;
    const std::string_view decimal(text, static_cast<std::size_t>(end - text));
    if (!rounds_)
        throw refuse(decimal,
                     "a float is not the number that was read: a resolution (\"0.1\", that of the logger) says "
                     "to what it is rounded");
    return read(decimal);
}

std::int32_t DegreesColumn::read(double degrees) { return read_float(degrees); }
std::int32_t DegreesColumn::read(float degrees) { return read_float(degrees); }

Rational DegreesColumn::largest_change() const { return Rational(largest_, per_thousandth * 1000); }

namespace {

std::string row_name(std::size_t i) { return "rows[" + std::to_string(i) + "]"; }

/// The rows of one column, oldest first, and what each may mean.
class LocalColumn {
public:
    LocalColumn(const std::vector<std::int64_t>& shown, const Zone& zone) : zone_(zone) {
        std::int64_t up = 0;
        for (std::size_t i = 1; i < shown.size(); ++i) up += (shown[i] > shown[i - 1]) - (shown[i] < shown[i - 1]);
        newest_first_ = up < 0;
        shown_ = shown;
        if (newest_first_) std::reverse(shown_.begin(), shown_.end());
        logger::LocalClock clock(zone);
        meanings_.reserve(shown_.size());
        for (std::size_t i = 0; i < shown_.size(); ++i) {
            meanings_.push_back(clock.at(shown_[i]));
            if (meanings_[i].count == 0)
                throw refuse(Code::bad_value, i,
                             "does not exist in " + zone.name() + " (the clock is put forward over it)" + way_out);
        }
    }

    LocalRows settled() {
        LocalRows out;
        for (std::size_t from = 0, until = 0; from < shown_.size(); from = until) {
            until = from + 1;
            if (meanings_[from].count != 2) continue;
            const auto near = [&](std::size_t i) { return std::abs(shown_[i] - shown_[i - 1]) < logger::day_s; };
            while (until < shown_.size() && meanings_[until].count == 2 && near(until)) ++until;
            const std::size_t second = second_pass(from, until);
            for (std::size_t i = second; i < until; ++i) meanings_[i].first = meanings_[i].second;
            out.remarks.push_back(words::second_pass_from(zone_.name(), text(from), name(second)));
        }
        for (std::size_t i = 1; i < shown_.size(); ++i)
            if (meanings_[i].first < meanings_[i - 1].first)
                throw refuse(
                    Code::ambiguous, i,
                    "goes back from " + text(i - 1) + " in " + name(i - 1) + ": was the clock set back? If only " +
                        "the order is not right, sort the rows by time; else give each row its offset from UTC");
        out.at.reserve(shown_.size());
        for (const auto& meaning : meanings_) out.at.push_back(meaning.first);
        if (newest_first_) std::reverse(out.at.begin(), out.at.end());
        return out;
    }

private:
    /// Of the rows [from, until), which may be of either pass of an hour, the first of the second pass.
    std::size_t second_pass(std::size_t from, std::size_t until) const {
        std::size_t second = until;
        for (std::size_t i = from + 1; i < until; ++i) {
            if (shown_[i] >= shown_[i - 1]) continue;
            if (second != until) throw twice(i, "the rows go back more than once in it");
            second = i;
        }
        if (second != until) return second;
        // two rows of one time, an hour apart as most rows are: a row that is there twice would have others around it
        const auto hour = (meanings_[from].second - meanings_[from].first).seconds();
        if (until == from + 2 && shown_[from] == shown_[from + 1] && 3 * usual_step() >= 2 * hour) return from + 1;
        throw twice(from, "the order of the rows does not settle which");
    }

    std::int64_t usual_step() const {
        std::vector<std::int64_t> steps;
        for (std::size_t i = 1; i < shown_.size(); ++i)
            if (shown_[i] > shown_[i - 1]) steps.push_back(shown_[i] - shown_[i - 1]);
        if (steps.empty()) return 0;
        const auto middle = steps.begin() + std::ssize(steps) / 2;
        std::nth_element(steps.begin(), middle, steps.end());
        return *middle;
    }

    std::string name(std::size_t i) const { return row_name(newest_first_ ? shown_.size() - 1 - i : i); }
    std::string text(std::size_t i) const { return text::quoted(logger::clock_text(shown_[i])); }
    Error refuse(Code code, std::size_t i, const std::string& why) const {
        return Error(code, name(i) + ": " + text(i) + ": " + why);
    }
    Error twice(std::size_t i, const std::string& why) const {
        return refuse(Code::ambiguous, i, "occurs twice in " + zone_.name() + ", and " + why + way_out);
    }

    static constexpr const char* way_out =
        "; give each row its offset from UTC, or, if the clock does not change with the season, its zone";

    const Zone& zone_;
    bool newest_first_ = false;
    std::vector<std::int64_t> shown_;
    std::vector<Zone::Candidates> meanings_;
};

}  // namespace

LocalRows resolve_local_rows(const std::vector<std::int64_t>& shown, const Zone& zone) {
    return LocalColumn(shown, zone).settled();
}

}  // namespace coldtally
