#include "coldtally/drafts.hpp"
#include "coldtally/error.hpp"
#include "quantities/calendar.hpp"
#include "question/typed_clock.hpp"
#include "text/json_text.hpp"
#include "words/general.hpp"

namespace coldtally {

namespace {

constexpr const char* forms = "write 2026-11-02 07:00, or 07:00 for today";

/// A date and a time, in any of the forms of typed_clock.hpp, a blank or a T between them; a time alone is today's.
std::optional<std::string> local_form(std::string_view text, const Zone& zone, Instant now) {
    if (const auto time = typed_time(text)) return zone.local(now).date.text() + "T" + *time;
    std::size_t between = text.find(' ');
    if (between == text.npos) between = text.size() > 10 && text[10] == 'T' ? 10 : text.npos;
    if (between == text.npos) return std::nullopt;
    const auto date = typed_date(text.substr(0, between), zone, now);
    const auto time = date ? typed_time(text.substr(between + 1)) : std::nullopt;
    if (!time) return std::nullopt;
    return date->text() + "T" + *time;
}

std::optional<Date> date_alone(std::string_view text, const Zone& zone, Instant now) {
    return text.find_first_of(" :") == text.npos ? typed_date(text, zone, now) : std::nullopt;
}

}  // namespace

Instant typed_instant(std::string_view text, const Zone& zone, Instant now) {
    if (const auto local = local_form(text, zone, now)) return parse_instant(*local, zone);
    if (date_alone(text, zone, now))
        throw Error(Code::bad_value, text::quoted(std::string(text)) + ": is a day without a time; " + forms);
    try {
        return parse_instant(text, zone);
    } catch (const Error& error) {
        if (error.code() != Code::bad_value || text.find('T') != text.npos) throw;
        throw Error(Code::bad_value, text::quoted(std::string(text)) + ": is no time of a day; " + forms);
    }
}

Instant typed_until(std::string_view text, const Zone& zone, Instant now, std::optional<Instant> from) {
    const auto day = date_alone(text, zone, now);
    if (!day) return typed_instant(text, zone, now);
    const Instant end = zone.end_of_day(*day);
    if (from && end <= *from)
        throw Error(Code::contradiction, text::quoted(std::string(text)) +
                                             ": that day ends before the window begins, at " + zone.local_text(*from) +
                                             ": must be that day or a later one");
    return end;
}

Instant typed_from(std::string_view text, const Zone& zone, Instant now) {
    const auto day = date_alone(text, zone, now);
    if (!day) return typed_instant(text, zone, now);
    return zone.end_of_day(calendar::date_of(calendar::days_of(*day) - 1));
}

Remark window_words(Instant from, Instant until, Instant at, const Zone& zone) {
    // an answer of nothing about no time is easily read as an answer of nothing found
    if (from == until && until < at) return words::window_no_time(zone.local_text(from));
    if (from > at) return words::window_later(zone.local_text(from), zone.local_text(at));
    if (from == until) return words::window_instant(zone.local_text(from));
    // the day before an instant that begins one: said so, since "until the 8th, 00:00" is easily read as the 8th
    const Date day = zone.local(until - Duration(1)).date;
    const Remark window = zone.end_of_day(day) == until
                              ? words::window_through(zone.local_text(from), day.text())
                              : words::window_until(zone.local_text(from), zone.local_text(until));
    return until > at ? words::window_seen(window, zone.local_text(at)) : window;
}

}  // namespace coldtally
