#include "incidents/given_in_doubt.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "conditions/incidents.hpp"
#include "conditions/released.hpp"
#include "incidents/incident_report.hpp"
#include "stock/doubt.hpp"
#include "stock/given_doses.hpp"
#include "stock/review.hpp"
#include "words/incidents.hpp"

namespace coldtally::answers {

namespace {

/// Doses that are clear and were given in the time in doubt of an incident that is open, or closed without an answer;
/// and those that guidance cleared which was posted before it was noticed.
struct InDoubt {
    std::string incident;
    bool open = true;
    std::map<EntryNumber, Doses> given, cleared;
    std::map<EntryNumber, EntryNumber> before;  ///< guidance that covers them and was posted before: by the give

    bool any() const { return !given.empty() || !cleared.empty(); }
};

/// Gives of a lot whose doses stood in a time in doubt of a closed incident, and were given before it was closed.
class GivenBefore final : public StayCollector {
public:
    struct One {
        Doses doses;
        EntryNumber noticed = 0;  // by which the doubt was
    };
    using Given = std::map<std::string, std::map<EntryNumber, One>>;  // by incident

    GivenBefore(World& w, const std::vector<Doubt>& closed, Given& out) : w_(w), closed_(closed), out_(out) {}

    /// Of a dose of which the chart names the lot alone: of every box that it may have come out of.
    bool judges() const override { return true; }
    void leaves(const ledger::Movement& m, const timeline::Holding& source, const History* judged) override {
        if (m.op != ledger::MovementOp::give) return;
        for (const Doubt& d : doubts_of(w_, closed_, m.at, source.key, *judged, *this))
            out_[d.incident].emplace(m.entry, One{Doses(m.doses), d.noticed});
    }

private:
    World& w_;
    const std::vector<Doubt>& closed_;
    Given& out_;
};

/// Was any of the lot in one of the places, and any given between the beginning of a doubt and the closing?
bool may_be_given(const World& w, const ledger::Store::LotRow& lot, const std::vector<Doubt>& closed) {
    std::set<std::string> places;
    for (const auto& h : w.store.holdings(lot.lot)) places.insert(h.place);
    const auto movements = w.store.movements(lot.lot);
    return std::ranges::any_of(closed, [&](const Doubt& d) {
        return places.contains(d.place) && std::ranges::any_of(movements, [&](const auto& m) {
                   return m.op == ledger::MovementOp::give && d.from <= m.at && m.at <= *d.closed;
               });
    });
}

/// A dose of the doubt of a closed incident, that was noticed by an entry.
void add(const ReviewAnswer::Row& dose, EntryNumber noticed, InDoubt& to) {
    const bool before = dose.guidance && *dose.guidance < noticed;
    if (dose.guidance && !before) return;
    if (before) to.before.emplace(dose.entry, *dose.guidance);
    if (dose.finding == Finding::clear) to.given.emplace(dose.entry, dose.doses);
    if (dose.finding == Finding::cleared) to.cleared.emplace(dose.entry, dose.doses);
}

void add_closed(World& w, std::vector<InDoubt>& out) {
    const auto closed = closed_doubts(w);
    if (closed.empty()) return;
    GivenBefore::Given given;
    for (const auto& lot : w.lots()) {
        if (!w.known.product(lot.product) || !may_be_given(w, lot, closed)) continue;
        GivenBefore seen(w, closed, given);
        timeline::LotTimeline timeline(w.store, w.known, w.engine, lot);
        timeline.run(w.at, false, &seen);
    }
    if (given.empty()) return;
    const auto reviewed = review(w, true).doses;
    for (const auto& [incident, entries] : given) {
        InDoubt one{incident, false, {}, {}, {}};
        for (const auto& dose : reviewed)
            if (const auto it = entries.find(dose.entry); it != entries.end()) add(dose, it->second.noticed, one);
        if (one.any()) out.push_back(std::move(one));
    }
}

std::vector<InDoubt> given_in_doubt(World& w) {
    std::vector<InDoubt> out;
    for (const auto& span : open_incidents(w)) {
        InDoubt one{span.incident, true, {}, {}, {}};
        for (const auto& dose : incident(w, span.incident, std::nullopt).given) {
            const bool before = std::ranges::any_of(
                dose.beside, [](const Remark& said) { return said.is(words::given_in_doubt_noticed_after); });
            if (before) one.before.emplace(dose.entry, *dose.guidance);
            if (dose.finding == Finding::clear) one.given.emplace(dose.entry, dose.doses);
            if (dose.finding == Finding::cleared && before) one.cleared.emplace(dose.entry, dose.doses);
        }
        if (one.any()) out.push_back(std::move(one));
    }
    add_closed(w, out);
    return out;
}

/// What a review says of them.
void not_listed(const InDoubt& one, bool all, std::vector<Remark>& out) {
    GivenDoses given, cleared;
    for (const auto& [entry, doses] : one.given) given.add(entry, doses.count());
    for (const auto& [entry, doses] : one.cleared) cleared.add(entry, doses.count());
    const auto& says = one.open ? (all ? words::in_doubt_listed : words::in_doubt_unlisted)
                                : (all ? words::in_doubt_closed_listed : words::in_doubt_closed_unlisted);
    if (given.any()) out.push_back(says(given.words(), one.incident));
    if (cleared.any()) out.push_back(words::in_doubt_cleared(cleared.words(), one.incident));
}

void say(const std::vector<InDoubt>& all, ReviewAnswer::Row& dose) {
    std::vector<Remark> said;
    for (const InDoubt& one : all)
        if (const auto before = one.before.find(dose.entry); before != one.before.end())
            said.push_back(words::given_in_doubt_noticed_after(one.incident, before->second));
        else if (one.given.contains(dose.entry))
            said.push_back(!one.open       ? words::given_in_doubt_closed(one.incident)
                           : dose.guidance ? words::given_in_doubt_covered(one.incident, *dose.guidance)
                                           : words::given_in_doubt(one.incident));
    dose.beside.insert(dose.beside.begin(), said.begin(), said.end());
}

}  // namespace

void add_in_doubt(World& w, ReviewAnswer& answer, bool all) {
    const auto in_doubt = given_in_doubt(w);
    std::vector<Remark> said;
    for (const InDoubt& one : in_doubt) not_listed(one, all, said);
    answer.not_listed.insert(answer.not_listed.begin(), said.begin(), said.end());
    for (auto& dose : answer.doses) say(in_doubt, dose);
}

void add_in_doubt(World& w, ImmunizationsAnswer& answer) {
    if (answer.doses.empty()) return;
    const auto in_doubt = given_in_doubt(w);
    for (auto& row : answer.doses) say(in_doubt, row.dose);
}

}  // namespace coldtally::answers
