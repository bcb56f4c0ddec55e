#include "incidents/incident_report.hpp"

#include <algorithm>

#include "incidents/investigation.hpp"
#include "incidents/release.hpp"
#include "words/incidents.hpp"

namespace coldtally::answers {

namespace {

Investigation begun(World& w, const std::string& id, const std::optional<std::string>& maker) {
    Investigation i{w, {}, 0, {}, INT64_MAX, {}, {}, {}, {}};
    i.out.head = w.head;
    i.out.incident = id;
    i.out.maker = maker;
    return i;
}

}  // namespace

IncidentAnswer incident(World& w, const std::string& id, const std::optional<std::string>& maker) {
    Investigation i = begun(w, id, maker);
    // each needs what those before it found: the doses are those of the times in doubt, the answers are about the doses
    add_steps(i);
    add_units(i);
    add_conditions(i);
    add_lines(i);
    add_displays(i);
    add_given(i);
    add_left(i);
    add_now(i);
    add_makers(i);
    add_reports(i);
    add_figures(i);
    add_duties(i);
    add_missing(i);
    add_release(w, i.out);
    return std::move(i.out);
}

IncidentAnswer given_and_left(World& w, const std::string& id) {
    const auto steps = incident_steps(w);
    if (std::none_of(steps.begin(), steps.end(), [&](const auto& s) { return s.fact.incident == id; })) return {};
    Investigation i = begun(w, id, std::nullopt);
    add_steps(i);
    add_units(i);
    add_lines(i);
    add_given(i);
    add_left(i);
    return std::move(i.out);
}

bool is_answered(const IncidentAnswer& a, const std::string& product, const std::string& lot) {
    for (const auto& maker : a.makers)
        for (const auto& answer : maker.answers)
            if (answer.product == product && answer.lot == lot) return !answer.guidance.empty() && !answer.waits;
    return false;
}

std::vector<RuleFinding> findings_of(World& w, const std::string& id) {
    const auto steps = incident_steps(w);
    if (std::none_of(steps.begin(), steps.end(), [&](const auto& s) { return s.fact.incident == id; })) return {};
    Investigation i = begun(w, id, std::nullopt);
    add_steps(i);
    add_units(i);
    add_conditions(i);
    return std::move(i.out.findings);
}

std::vector<IncidentAnswer::Unit> units_of(World& w, const std::string& id) {
    const auto steps = incident_steps(w);
    if (std::none_of(steps.begin(), steps.end(), [&](const auto& s) { return s.fact.incident == id; })) return {};
    Investigation i = begun(w, id, std::nullopt);
    add_steps(i);
    add_units(i);
    return std::move(i.out.units);
}

Field maker_words(const std::string& maker, const std::string& product) {
    return maker.empty() ? Field(words::maker_not_known(product)) : Field(maker);
}

std::optional<Field> who_words(const DutyClock& duty) {
    if (duty.who.empty() && duty.product.empty()) return std::nullopt;
    return maker_words(duty.who, duty.product);
}

}  // namespace coldtally::answers
