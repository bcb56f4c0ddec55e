#include <algorithm>

#include "coldtally/drafts.hpp"
#include "coldtally/error.hpp"
#include "quantities/calendar.hpp"
#include "text/json_text.hpp"

namespace coldtally {

namespace {

bool fits(std::string_view text, std::string_view form) {
    return text.size() == form.size() && std::equal(text.begin(), text.end(), form.begin(), [](char c, char f) {
               return f == '9' ? c >= '0' && c <= '9' : c == f;
           });
}

}  // namespace

Instant typed_instant(std::string_view text, const Zone& zone, Instant now) {
    std::string t(text);
    if (fits(t, "9:99") || fits(t, "9:99:99")) t = "0" + t;
    if (fits(t, "99:99") || fits(t, "99:99:99"))
        t = zone.local(now).date.text() + "T" + t;
    else if (t.size() > 10 && fits(t.substr(0, 11), "9999-99-99 "))
        t[10] = 'T';
    if (t.size() > 11 && t[10] == 'T' && (fits(t.substr(11), "9:99") || fits(t.substr(11), "9:99:99")))
        t.insert(11, "0");
    if (fits(t, "9999-99-99T99:99")) t += ":00";
    return parse_instant(t, zone);
}

namespace {

bool is_date(std::string_view text) { return fits(text, "9999-99-99"); }

}  // namespace

Instant typed_until(std::string_view text, const Zone& zone, Instant now, std::optional<Instant> from) {
    if (!is_date(text)) return typed_instant(text, zone, now);
    const Instant end = zone.end_of_day(Date::parse(text));
    if (from && end <= *from)
        throw Error(Code::contradiction, text::quoted(std::string(text)) +
                                             ": that day ends before the window begins, at " + zone.local_text(*from) +
                                             ": must be that day or a later one");
    return end;
}

Instant typed_from(std::string_view text, const Zone& zone, Instant now) {
    if (!is_date(text)) return typed_instant(text, zone, now);
    return zone.end_of_day(calendar::date_of(calendar::days_of(Date::parse(text)) - 1));
}

std::string window_words(Instant from, Instant until, Instant at, const Zone& zone) {
    // an answer of nothing about no time is easily read as an answer of nothing found
    if (from == until && until < at)
        return "the instant " + zone.local_text(from) + ", WHICH HOLDS NO TIME: nothing was looked at";
    if (from > at)
        return "from " + zone.local_text(from) + ", AFTER THE INSTANT ASKED ABOUT, " + zone.local_text(at) +
               ": nothing was looked at";
    if (from == until) return "the instant " + zone.local_text(from);
    // the day before an instant that begins one: said so, since "until the 8th, 00:00" is easily read as the 8th
    const Date day = zone.local(until - Duration(1)).date;
    const std::string end =
        zone.end_of_day(day) == until ? " through the end of " + day.text() : " until " + zone.local_text(until);
    return "from " + zone.local_text(from) + end + (until > at ? ", seen up to " + zone.local_text(at) : "");
}

}  // namespace coldtally
