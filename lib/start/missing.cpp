#include "start/missing.hpp"

#include <algorithm>
#include <set>

#include "coldtally/words.hpp"
#include "trace/assignment.hpp"
#include "upkeep/plan.hpp"
#include "upkeep/training.hpp"
#include "words/lists.hpp"
#include "words/start.hpp"

namespace coldtally::start {

namespace {

/// "a, b, c, and 4 more"
Field some(const std::vector<Field>& all) {
    constexpr std::size_t most = 6;
    if (all.size() <= most) return words::listed(all);
    return words::start_more_of_them(words::listed({all.begin(), all.begin() + most}), all.size() - most);
}

bool is_unit(const Place& place) {
    return place.type != PlaceType::room && place.type != PlaceType::transport_container;
}

void of_places(answers::World& w, std::vector<Remark>& out) {
    std::set<std::string> watched, read;
    for (const auto& a : trace::assignments(w.known)) {
        if (a.from <= w.at && a.until > w.at) watched.insert(a.place);
        const auto probe = w.store.probe(a.probe);
        if (probe && !w.store.blocks(*probe, a.from).empty()) read.insert(a.place);
    }
    std::vector<Field> without, unread;
    for (const auto& [id, definitions] : w.known.places) {
        const Place* place = w.known.place(id);
        if (!place || !is_unit(*place)) continue;
        if (!watched.contains(id)) without.emplace_back(id);
        if (!read.contains(id) && !w.store.last_check_scale(id)) unread.emplace_back(id);
    }
    if (!without.empty()) out.push_back(words::start_no_probe_in(some(without), words::task("assign")));
    if (!unread.empty()) out.push_back(words::start_not_read(some(unread), words::task("check")));
}

void of_probes(const answers::World& w, std::vector<Remark>& out) {
    std::vector<Field> without;
    for (const auto& [id, definitions] : w.known.probes) {
        const auto all = w.known.certificates.find(id);
        const bool none = all == w.known.certificates.end() || all->second.empty();
        if (!definitions.empty() && none) without.emplace_back(id);
    }
    if (!without.empty()) out.push_back(words::start_without_certificate(some(without), words::task("certificate")));
}

void of_products(const answers::World& w, std::vector<Remark>& out) {
    std::vector<Field> without;
    for (const auto& [id, definitions] : w.known.products)
        if (!definitions.empty() && !w.known.maker(id)) without.emplace_back(id);
    if (!without.empty()) out.push_back(words::start_without_maker(some(without), words::task("maker")));
}

void of_papers(answers::World& w, std::vector<Remark>& out) {
    const Suggestion begin_plan = words::task("template", {{"", "plan"}, {"", "plan.csv"}});
    const PlanAnswer plan = answers::plan(w);
    if (!plan.entry) {
        out.push_back(words::start_no_plan(begin_plan));
    } else if (!plan.findings.empty()) {
        std::vector<Field> what;
        for (const auto& finding : plan.findings) what.emplace_back(finding.text);
        out.push_back(words::start_plan_lacks(plan.findings.size(), some(what), begin_plan));
    }
    const auto untrained = answers::training(w).without;
    if (!untrained.empty())
        out.push_back(words::start_not_trained(some({untrained.begin(), untrained.end()}), words::task("trained")));
    if (!w.known.rules())
        out.push_back(words::start_no_rules(words::task("template", {{"", "rules"}, {"", "rules.csv"}})));
}

}  // namespace

std::vector<Remark> missing(answers::World& world) {
    std::vector<Remark> out;
    of_places(world, out);
    of_probes(world, out);
    of_products(world, out);
    of_papers(world, out);
    if (!out.empty()) out.push_back(words::start_more_missing(words::task("readiness")));
    return out;
}

}  // namespace coldtally::start
