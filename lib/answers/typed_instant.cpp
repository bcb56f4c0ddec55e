#include <algorithm>

#include "coldtally/drafts.hpp"
#include "quantities/calendar.hpp"

namespace coldtally {

namespace {

bool fits(std::string_view text, std::string_view form) {
    return text.size() == form.size() && std::equal(text.begin(), text.end(), form.begin(), [](char c, char f) { return f == '9' ? c >= '0' && c <= '9' : c == f; });
}

}  // namespace

Instant typed_instant(std::string_view text, const Zone& zone, Instant now) {
    std::string t(text);
    if (fits(t, "9:99") || fits(t, "9:99:99")) t = "0" + t;
    if (fits(t, "99:99") || fits(t, "99:99:99"))
        t = zone.local(now).date.text() + "T" + t;
    else if (t.size() > 10 && fits(t.substr(0, 11), "9999-99-99 "))
        t[10] = 'T';
    if (t.size() > 11 && t[10] == 'T' && (fits(t.substr(11), "9:99") || fits(t.substr(11), "9:99:99"))) t.insert(11, "0");
    if (fits(t, "9999-99-99T99:99")) t += ":00";
    return parse_instant(t, zone);
}

Instant typed_bound(std::string_view text, const Zone& zone, Instant now) {
    if (!fits(text, "9999-99-99")) return typed_instant(text, zone, now);
    return zone.end_of_day(calendar::date_of(calendar::days_of(Date::parse(text)) - 1));
}

}  // namespace coldtally
