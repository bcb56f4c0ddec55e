// FHIR's dates: of a year, a month, a day, or with a time. https://hl7.org/fhir/R4/datatypes.html
#include <algorithm>
#include <chrono>

#include "coldtally/error.hpp"
#include "coldtally/fhir.hpp"
#include "quantities/digits.hpp"
#include "text/json_text.hpp"

namespace coldtally {

namespace {

/// Reads a text from its beginning.
class Digits {
public:
    explicit Digits(std::string_view text) : text_(text) {}
    bool done() const { return text_.empty(); }
    bool take(char c) {
        if (text_.empty() || text_.front() != c) return false;
        text_.remove_prefix(1);
        return true;
    }
    /// `count` digits; -1 where they are not there.
    int number(std::size_t count) {
        const int out = digits::read(text_, 0, count);
        if (out >= 0) text_.remove_prefix(count);
        return out;
    }
    bool fraction() {
        const auto end = std::min(text_.find_first_not_of("0123456789"), text_.size());
        text_.remove_prefix(end);
        return end > 0;
    }

private:
    std::string_view text_;
};

bool is_offset(Digits& d) {
    if (d.take('Z')) return true;
    if (!d.take('+') && !d.take('-')) return false;
    const int hours = d.number(2);
    const bool colon = d.take(':');
    const int minutes = d.number(2);
    return colon && ((hours >= 0 && hours < 14 && minutes >= 0 && minutes < 60) || (hours == 14 && minutes == 0));
}

bool is_time(Digits& d) {
    const int hour = d.number(2);
    if (hour < 0 || hour > 23 || !d.take(':')) return false;
    const int minute = d.number(2);
    if (minute < 0 || minute > 59 || !d.take(':')) return false;
    const int second = d.number(2);
    if (second < 0 || second > 60) return false;
    return (!d.take('.') || d.fraction()) && is_offset(d) && d.done();
}

bool is_date(Digits d, bool with_time) {
    const int year = d.number(4);
    if (year <= 0) return false;
    if (d.done()) return true;
    const int month = d.take('-') ? d.number(2) : 0;
    if (month < 1 || month > 12) return false;
    if (d.done()) return true;
    const int day = d.take('-') ? d.number(2) : 0;
    if (day < 1 ||
        !std::chrono::year_month_day(std::chrono::year(year), std::chrono::month(static_cast<unsigned>(month)),
                                     std::chrono::day(static_cast<unsigned>(day)))
             .ok())
        return false;
    return d.done() || (with_time && d.take('T') && is_time(d));
}

}  // namespace

void check_fhir_date(std::string_view text, bool with_time) {
    if (!is_date(Digits(text), with_time))
        throw Error(Code::bad_value,
                    text::quoted(text.substr(0, 80)) + ": must be a date of the calendar: 2018-06-18, 2018-06 or 2018" +
                        (with_time ? ", or an instant with seconds and an offset: 2018-06-18T08:05:00-05:00" : ""));
}

}  // namespace coldtally
