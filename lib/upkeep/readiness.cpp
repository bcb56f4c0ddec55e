#include "upkeep/readiness.hpp"

#include <algorithm>
#include <tuple>

#include "coldtally/error.hpp"
#include "conditions/rule_times.hpp"
#include "quantities/calendar.hpp"

namespace coldtally {

std::string_view urgency_name(ReadinessAnswer::Urgency urgency) noexcept {
    using Urgency = ReadinessAnswer::Urgency;
    return urgency == Urgency::act ? "act now" : urgency == Urgency::overdue ? "overdue" : "due soon";
}

std::string_view matter_name(ReadinessAnswer::Matter matter) noexcept {
    constexpr std::string_view names[] = {"doses to discard",
                                          "guidance",
                                          "opened vials",
                                          "incidents",
                                          "excursions",
                                          "temperature record",
                                          "checks",
                                          "certificates",
                                          "logger readings",
                                          "counts",
                                          "plan",
                                          "training",
                                          "doses followed up",
                                          "doses that left",
                                          "loans",
                                          "log review",
                                          "service",
                                          "self-audit",
                                          "retention"};
    return names[static_cast<int>(matter)];
}

std::vector<ReadinessAnswer::Matter> ReadinessAnswer::not_judged() const {
    std::vector<Matter> out;
    for (const Topic& t : topics)
        if (!t.judged) out.push_back(t.topic);
    return out;
}

namespace answers {

ReadinessAnswer::Topic& Inspection::topic(Matter matter, Remark rule, Remark what) {
    out.topics.push_back({matter, true, std::move(rule), std::move(what), 0, 0, 0, 0});
    return out.topics.back();
}

void Inspection::not_judged(Matter matter, Remark why) {
    out.topics.push_back({matter, false, std::move(why), std::nullopt, 0, 0, 0, 0});
}

Inspection::Finding& Inspection::find(Urgency urgency, Field where, Remark text, std::optional<Instant> since) {
    auto& topic = out.topics.back();
    ++(urgency == Urgency::soon ? topic.due_soon : topic.findings);
    out.findings.push_back({topic.topic, urgency, std::move(where), std::move(text), since, topic.rule, {}});
    return out.findings.back();
}

Remark Inspection::by_programme() const {
    const auto& r = *w.known.rules();
    return words::so_say_rules(r.fact.programme, r.entry);
}

std::optional<std::int64_t> Inspection::every_days(const std::string& thing) const {
    if (!rules()) return std::nullopt;
    const auto it = rules()->every_days.find(thing);
    if (it == rules()->every_days.end()) return std::nullopt;
    return it->second;
}

Instant Inspection::due(Instant t, std::int64_t days) const {
    const Zone& zone = w.known.zone();
    return zone.end_of_day(calendar::date_of(calendar::days_of(zone.local(t).date) + days));
}

std::vector<std::pair<std::int64_t, std::int64_t>> Inspection::in_use(const std::string& place) {
    const PlaceType type = w.place(place).type;
    auto times = times_with(w, place, {}, out.from.seconds_since_1970());
    if (times.empty()) times = times_with(w, place, {});  // did it ever hold any?
    if (times.empty() && type != PlaceType::room && type != PlaceType::transport_container)
        times.emplace_back(first_known_of(w, place), w.at);
    std::vector<std::pair<std::int64_t, std::int64_t>> used;
    for (const auto& [a, b] : times) {
        const auto from = std::max(a, out.from.seconds_since_1970());
        if (from < b) used.emplace_back(from, b);
    }
    return used;
}

Instant excursions_from(const ReadinessAnswer& a) { return std::min(a.from, a.head.at - usual_window); }

void sort_findings(std::vector<ReadinessAnswer::Finding>& findings) {
    using Finding = ReadinessAnswer::Finding;
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
        return std::tuple(a.urgency, a.topic, a.since, english().say(a.where)) <
               std::tuple(b.urgency, b.topic, b.since, english().say(b.where));
    });
}

ReadinessAnswer readiness(World& w, std::optional<Instant> from) {
    ReadinessAnswer out;
    out.head = w.head;
    out.from = from.value_or(w.head.at - usual_window);
    if (out.from > w.head.at)
        throw Error(Code::contradiction,
                    "from: " + out.from.text() + ": must not be after the instant asked about, " + w.head.at.text());
    if (const auto* rules = w.known.rules()) out.rules_entry = rules->entry;
    Inspection inspection(w, out);
    for (const auto inspect : {inspect_stock, inspect_vials, inspect_incidents, inspect_record, inspect_devices,
                               inspect_counts, inspect_papers, inspect_retention})
        inspect(inspection);
    sort_findings(out.findings);
    return out;
}

}  // namespace answers
}  // namespace coldtally
