#include "coldtally/error.hpp"
#include "coldtally/nearest.hpp"
#include "coldtally/quantities.hpp"
#include "quantities/calendar.hpp"
#include "quantities/digits.hpp"
#include "quantities/zone_rules.hpp"
#include "text/json_text.hpp"

namespace coldtally {

struct Zone::Rules {
    std::shared_ptr<const ZoneRules> rules;
};

Zone::Zone(const std::string& name) : name_(name) {
    auto rules = ZoneRules::load(name);
    if (!rules)
        throw Error(Code::bad_value, text::quoted(name) + ": must be an IANA time zone such as \"Europe/Berlin\"" +
                                         did_you_mean(zones_like(name)));
    rules_ = std::make_shared<Rules>(Rules{std::move(rules)});
}

Duration Zone::offset_at(Instant t) const { return Duration(rules_->rules->offset_at(t.seconds_since_1970())); }

Zone::Candidates Zone::candidates(Date date, int hour, int minute, int second) const {
    const std::int64_t clock = calendar::days_of(date) * 86400 + hour * 3600 + minute * 60 + second;
    Candidates found;
    // the offsets a day before and after are the only two that can hold in between
    const auto earlier = rules_->rules->offset_at(clock - 86400), later = rules_->rules->offset_at(clock + 86400);
    const auto try_offset = [&](std::int64_t offset) {
        if (rules_->rules->offset_at(clock - offset) != offset) return;
        (found.count++ == 0 ? found.first : found.second) = Instant(clock - offset);
    };
    try_offset(earlier);
    if (later != earlier) try_offset(later);
    if (found.count == 2 && found.second < found.first) std::swap(found.first, found.second);
    return found;
}

Instant Zone::resolve(Date date, int hour, int minute, int second) const {
    const auto c = candidates(date, hour, minute, second);
    if (c.count == 0)
        throw Error(Code::bad_value, "no such local time in " + name_ + " (the clock skips it); give an offset");
    if (c.count == 2) throw Error(Code::ambiguous, "this local time occurs twice in " + name_ + "; give an offset");
    return c.first;
}

Instant Zone::end_of_day(Date date) const {
    const Date next = date.next();
    const auto c = candidates(next, 0, 0, 0);
    if (c.count > 0) return c.first;
    // midnight is skipped: the first instant whose clock shows a later time
    const std::int64_t midnight = calendar::days_of(next) * 86400;
    std::int64_t before = midnight - 26 * 3600, after = midnight + 26 * 3600;
    while (after - before > 1) {
        const std::int64_t mid = before + (after - before) / 2;
        (mid + rules_->rules->offset_at(mid) >= midnight ? after : before) = mid;
    }
    return Instant(after);
}

Zone::Local Zone::local(Instant t) const {
    const std::int64_t clock = t.seconds_since_1970() + offset_at(t).seconds();
    const std::int64_t days = calendar::floor_div(clock, 86400);
    return {calendar::date_of(days), static_cast<int>(clock - days * 86400)};
}

std::string Zone::local_text(Instant t) const {
    const Local l = local(t);
    std::string out = l.date.text() + " 00:00";
    digits::write2(out, 11, l.second_of_day / 3600);
    digits::write2(out, 14, l.second_of_day / 60 % 60);
    if (l.second_of_day % 60 != 0) {
        out += ":00";
        digits::write2(out, 17, l.second_of_day % 60);
    }
    return out;
}

}  // namespace coldtally
