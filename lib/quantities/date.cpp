#include <chrono>

#include "coldtally/error.hpp"
#include "coldtally/quantities.hpp"
#include "quantities/calendar.hpp"
#include "quantities/digits.hpp"
#include "text/json_text.hpp"

namespace coldtally {

namespace calendar {

using namespace std::chrono;

std::int64_t days_of(const Date& d) {
    return sys_days{year{d.year} / month{static_cast<unsigned>(d.month)} / day{static_cast<unsigned>(d.day)}}
        .time_since_epoch()
        .count();
}

Date date_of(std::int64_t n) {
    const year_month_day d{sys_days{days{n}}};
    return {static_cast<int>(d.year()), static_cast<int>(static_cast<unsigned>(d.month())),
            static_cast<int>(static_cast<unsigned>(d.day()))};
}

int days_in_month(int y, int m) {
    return static_cast<int>(static_cast<unsigned>((year{y} / month{static_cast<unsigned>(m)} / last).day()));
}

bool valid(const Date& d) {
    return d.year >= 1970 && d.year <= 2199 && d.month >= 1 && d.month <= 12 && d.day >= 1 &&
           d.day <= days_in_month(d.year, d.month);
}

}  // namespace calendar

namespace {

Error refuse(std::string_view text, const char* form) {
    return Error(Code::bad_value, text::quoted(text) + ": must be a date of the years 1970 to 2199, " + form);
}

Date parse_day(std::string_view text, const char* form) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') throw refuse(text, form);
    const Date d{digits::read(text, 0, 4), digits::read(text, 5, 2), digits::read(text, 8, 2)};
    if (!calendar::valid(d)) throw refuse(text, form);
    return d;
}

}  // namespace

Date Date::parse(std::string_view text) { return parse_day(text, "YYYY-MM-DD"); }

Date Date::parse_expiry(std::string_view text) {
    const char* form = "YYYY-MM-DD or YYYY-MM";
    if (text.size() != 7) return parse_day(text, form);
    Date d{digits::read(text, 0, 4), digits::read(text, 5, 2), 1};
    if (text[4] != '-' || !calendar::valid(d)) throw refuse(text, form);
    d.day = calendar::days_in_month(d.year, d.month);
    return d;
}

std::string Date::text() const {
    std::string out = "0000-00-00";
    digits::write2(out, 0, year / 100);
    digits::write2(out, 2, year % 100);
    digits::write2(out, 5, month);
    digits::write2(out, 8, day);
    return out;
}

Date Date::next() const { return calendar::date_of(calendar::days_of(*this) + 1); }

}  // namespace coldtally
