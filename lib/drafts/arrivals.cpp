#include "drafts/arrivals.hpp"

#include <algorithm>
#include <set>

#include "stock/lists.hpp"
#include "text/json_text.hpp"

namespace coldtally::answers {

namespace {

std::vector<Judged> rows_of(World& w, const std::vector<Arrival>& arrivals) {
    std::set<std::pair<std::string, std::string>> lots;
    for (const auto& a : arrivals) lots.emplace(a.target.product, a.target.lot);
    std::vector<Judged> out;
    for (const auto& [product, number] : lots)
        for (const auto& lot : w.lots_of(number, product))
            for (auto& row : listed(w, lot)) out.push_back(std::move(row));
    return out;
}

/// Does a warning that says DO NOT USE name each of the reasons? Of a hold, any such warning does.
bool is_said(const std::vector<std::string>& said, const std::vector<std::string>& reasons) {
    return std::ranges::all_of(reasons, [&](const std::string& reason) {
        return std::ranges::any_of(said, [&](const std::string& one) {
            return one.starts_with("DO NOT USE") && (reason == "held" || one.find(reason) != std::string::npos);
        });
    });
}

}  // namespace

std::vector<Arrival> arrivals(const std::vector<Entry>& entries, Instant now) {
    std::vector<Arrival> out;
    for (const Entry& e : entries) {
        if (const auto* r = std::get_if<Receive>(&e.fact))
            out.push_back({{r->place, r->product, r->lot, r->fund, r->mark}, std::nullopt});
        else if (const auto* m = std::get_if<Move>(&e.fact); m && m->from_place != m->to_place && e.at && *e.at < now)
            out.push_back({{m->to_place, m->product, m->lot, m->fund, m->to_mark},
                           HoldingKey{m->from_place, m->product, m->lot, m->fund, m->from_mark}});
    }
    return out;
}

std::map<HoldingKey, List> lists_of(World& w, const std::vector<Arrival>& arrivals) {
    std::map<HoldingKey, List> out;
    if (std::ranges::none_of(arrivals, [](const auto& a) { return a.source.has_value(); })) return out;
    for (const auto& row : rows_of(w, arrivals)) out[row.holding] = row.list;
    return out;
}

std::vector<std::string> must_not_be_used(World& w, const std::vector<Arrival>& arrivals,
                                          const std::map<HoldingKey, List>& before,
                                          const std::vector<std::string>& said) {
    std::vector<std::string> out;
    for (const auto& row : rows_of(w, arrivals)) {
        if (row.list == List::keep || is_said(said, row.reasons)) continue;
        const bool comes = std::ranges::any_of(arrivals, [&](const Arrival& a) {
            if (a.target != row.holding) return false;
            const auto it = a.source ? before.find(*a.source) : before.end();
            return it == before.end() || row.list < it->second;
        });
        if (!comes) continue;
        std::string why;
        for (const auto& reason : row.reasons) why += (why.empty() ? "" : ", ") + reason;
        const HoldingKey& key = row.holding;
        const bool unknown = row.reasons == std::vector<std::string>{"unmonitored"};
        out.push_back((unknown ? "NOT KNOWN YET" : "DO NOT USE") + std::string(": by what is known now lot ") +
                      text::quoted(key.lot) + " in " + text::quoted(key.place) +
                      (key.mark.empty() ? "" : ", mark " + text::quoted(key.mark)) + " is on the list " +
                      std::string(list_name(row.list)) + " (" + why +
                      (unknown ? "): read its logger or display, and use none of them before"
                               : "): mark the doses, keep them in range, throw nothing away"));
    }
    return out;
}

}  // namespace coldtally::answers
