#include "coldtally/error.hpp"
#include "coldtally/quantities.hpp"
#include "quantities/calendar.hpp"
#include "quantities/digits.hpp"
#include "text/json_text.hpp"

namespace coldtally {

namespace {

constexpr std::string_view form = "must be YYYY-MM-DDTHH:MM:SS with Z, an offset up to ±14:00, or nothing (local time)";

Error refuse(Code code, std::string_view text, std::string_view why) {
    return Error(code, text::quoted(text) + ": " + std::string(why));
}

}  // namespace

std::string Instant::text() const {
    const std::int64_t days = calendar::floor_div(seconds_, 86400);
    const int s = static_cast<int>(seconds_ - days * 86400);
    std::string out = calendar::date_of(days).text() + "T00:00:00Z";
    digits::write2(out, 11, s / 3600);
    digits::write2(out, 14, s / 60 % 60);
    digits::write2(out, 17, s % 60);
    return out;
}

Instant parse_instant(std::string_view text, const Zone& zone) {
    using digits::read;
    // YYYY-MM-DDTHH:MM:SS
    if (text.size() < 19 || text[4] != '-' || text[7] != '-' || text[10] != 'T' || text[13] != ':' || text[16] != ':')
        throw refuse(Code::bad_value, text, form);
    const int year = read(text, 0, 4), month = read(text, 5, 2), day = read(text, 8, 2);
    const int hour = read(text, 11, 2), minute = read(text, 14, 2), second = read(text, 17, 2);
    if (year < 0 || month < 0 || day < 0 || hour < 0 || minute < 0 || second < 0)
        throw refuse(Code::bad_value, text, form);
    const Date date{year, month, day};
    if (!calendar::valid(date)) throw refuse(Code::bad_value, text, "no such date in the years 1970 to 2199");
    if (hour > 23 || minute > 59 || second > 59)
        throw refuse(Code::bad_value, text, "no such time of day (hours to 23, minutes and seconds to 59)");
    std::string_view rest = text.substr(19);
    if (!rest.empty() && rest[0] == '.') {
        std::size_t n = 1;
        while (n < rest.size() && rest[n] >= '0' && rest[n] <= '9') {
            if (rest[n] != '0') throw refuse(Code::bad_value, text, "must be a whole second");
            ++n;
        }
        if (n == 1) throw refuse(Code::bad_value, text, form);
        rest = rest.substr(n);
    }
    const std::int64_t clock = calendar::days_of(date) * 86400 + hour * 3600 + minute * 60 + second;
    if (rest.empty()) {
        try {
            return zone.resolve(date, hour, minute, second);
        } catch (const Error& e) {
            throw refuse(e.code(), text, e.what());
        }
    }
    if (rest == "Z") return Instant(clock);
    if (rest.size() != 6 || (rest[0] != '+' && rest[0] != '-') || rest[3] != ':')
        throw refuse(Code::bad_value, text, form);
    const int h = read(rest, 1, 2), m = read(rest, 4, 2);
    if (h < 0 || m < 0 || m > 59 || h * 60 + m > 14 * 60) throw refuse(Code::bad_value, text, form);
    const std::int64_t offset = (h * 60 + m) * 60;
    return Instant(rest[0] == '+' ? clock - offset : clock + offset);
}

}  // namespace coldtally
