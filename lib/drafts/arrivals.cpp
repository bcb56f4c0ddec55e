#include "drafts/arrivals.hpp"

#include <algorithm>
#include <set>

#include "drafts/naming.hpp"
#include "question/said.hpp"
#include "stock/lists.hpp"
#include "words/drafts_arrivals.hpp"
#include "words/drafts_warnings.hpp"

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

bool says_do_not_use(const Remark& one) {
    return one.is(words::arrives_do_not_use) || one.is(words::moves_do_not_use) || one.is(words::late_held) ||
           one.is(words::history_in_quarantine) || one.is(words::sent_held) || one.is(words::recall_holds_it);
}

/// Is that anywhere in it?
bool names(const Remark& one, const Remark& what) {
    return one == what || std::ranges::any_of(one.fields, [&](const Field& field) {
               return !field.remark.empty() && names(field.remark.front(), what);
           });
}

/// Does a warning that says DO NOT USE name each of the reasons? Of a hold, any such warning does.
bool is_said(const std::vector<Remark>& warnings, const std::vector<Reason>& reasons) {
    return std::ranges::all_of(reasons, [&](Reason reason) {
        return std::ranges::any_of(warnings, [&](const Remark& one) {
            return says_do_not_use(one) && (reason == Reason::held || names(one, said::reason_words(reason)));
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

std::vector<Remark> must_not_be_used(World& w, const std::vector<Arrival>& arrivals,
                                     const std::map<HoldingKey, List>& before,
                                     const std::vector<Remark>& warnings) {
    std::vector<Remark> out;
    for (const auto& row : rows_of(w, arrivals)) {
        if (row.list == List::keep || is_said(warnings, row.reasons)) continue;
        const bool comes = std::ranges::any_of(arrivals, [&](const Arrival& a) {
            if (a.target != row.holding) return false;
            const auto it = a.source ? before.find(*a.source) : before.end();
            return it == before.end() || row.list < it->second;
        });
        if (!comes) continue;
        const bool unknown = row.reasons == std::vector<Reason>{Reason::unmonitored};
        out.push_back((unknown ? words::arrives_not_known : words::arrives_do_not_use)(
            lot_in(row.holding), said::list_words(row.list), said::reasons_words(row.reasons)));
    }
    return out;
}

}  // namespace coldtally::answers
