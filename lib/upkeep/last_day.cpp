#include "upkeep/last_day.hpp"

#include "quantities/calendar.hpp"
#include "words/upkeep.hpp"

namespace coldtally::answers {

std::optional<std::int64_t> every_days(const World& w, const std::string& what) {
    const auto* rules = w.known.rules();
    if (!rules) return std::nullopt;
    const auto found = rules->fact.every_days.find(what);
    return found == rules->fact.every_days.end() ? std::nullopt : std::optional(found->second);
}

std::optional<LastDay> last_day(const std::optional<Date>& stated, const std::optional<Date>& done,
                                std::optional<std::int64_t> days) {
    std::optional<LastDay> out;
    if (stated) out = LastDay{*stated, words::as_stated_there};
    if (done && days) {
        const Date day = calendar::date_of(calendar::days_of(*done) + *days);
        if (!out || day < out->day) out = LastDay{day, words::by_rules_every_days(*days)};
    }
    return out;
}

}  // namespace coldtally::answers
