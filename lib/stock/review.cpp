#include "stock/review.hpp"

#include <algorithm>

#include "stock/given_doses.hpp"
#include "stock/may_be_more.hpp"
#include "stock/not_come.hpp"
#include "stock/reasons.hpp"

namespace coldtally::answers {

namespace {

using ledger::Dated;
using ledger::Movement;

class Reviewer final : public timeline::Observer {
public:
    Reviewer(World& w, const ledger::Store::LotRow& lot, bool all, std::vector<ReviewAnswer::Row>& out,
             GivenDoses& unsure, GivenDoses& not_come)
        : world_(w),
          product_(*w.known.product(lot.product)),
          expired_from_(w.expired_from(lot)),
          all_(all),
          out_(out),
          unsure_(unsure),
          not_come_(not_come) {
        for (const auto& g : w.known.guidance)
            if (g.fact.product == lot.product && g.fact.lot == lot.number) guidance_.push_back(&g);
        std::ranges::sort(guidance_, {}, [](const auto* g) { return std::pair(g->at, g->entry); });
    }

    bool judges() const override { return true; }
    void receives(const Movement& m, const timeline::Holding& target, const History& incoming) override {
        sent_.receives(m, target, incoming);
    }
    void moves(const Movement&, const timeline::Holding& source, const timeline::Holding& target) override {
        sent_.moves(source, target);
    }
    void guides(const Dated<Guidance>&, const timeline::Holding& h, bool clears) override {
        if (clears) sent_.clears(h);
    }
    /// The reasons are those of the history as it was: where there are none, the dose is clear.
    bool leaves_quietly(const Movement& m, const timeline::Holding& source) override {
        if (all_) return false;
        const History& h = source.history;
        const bool clear = !is_expired(h, expired_from_, Instant(m.at)) && h.condemned_by.empty() &&
                           !condemned_later(m, source.key, h) &&
                           quarantine_reasons(h, product_, world_.known.unmonitored_limit()).empty();
        if (clear) look_beyond(m, source.key, h);
        return clear;
    }

    void leaves(const Movement& m, const timeline::Holding& source, const History* judged) override {
        if (m.op != ledger::MovementOp::give) return;
        const bool certain = !m.flag;
        const Dated<Guidance>* last = nullptr;
        bool any_discard = false;
        for (const auto* g : guidance_) {
            if (!covers(*g, m, source.key, *judged, certain)) continue;
            last = g;
            any_discard = any_discard || g->fact.verdict == Verdict::discard;
        }
        ReviewAnswer::Row row;
        row.reasons = quarantine_reasons(*judged, product_, world_.known.unmonitored_limit());
        if (is_expired(*judged, expired_from_, Instant(m.at)))
            row.finding = "expired";
        else if (!judged->condemned_by.empty() ||
                 (any_discard && shows_exposure(*judged, product_, world_.known.unmonitored_limit())))
            row.finding = "not viable";
        else if (!row.reasons.empty())
            row.finding = last ? "cleared" : "pending guidance";
        else
            row.finding = any_discard ? "condemned later" : "clear";
        if (row.finding == "clear") {
            if (!last) look_beyond(m, source.key, *judged);
            if (!all_) return;
        }
        row.entry = m.entry;
        row.at = Instant(m.at);
        row.patient = world_.store.fact<Give>(m.entry).patient;
        row.holding = source.key;
        row.doses = Doses(m.doses);
        row.certain = certain;
        if (last) row.guidance = last->entry;
        row.history = *judged;
        row.allowance_seconds = ledger::allowance_seconds(product_);
        // doses that have not stayed anywhere yet have no entry for any allowance
        row.history.total.allowances.resize(row.allowance_seconds.size());
        row.history.open.allowances.resize(row.allowance_seconds.size());
        out_.push_back(std::move(row));
    }

private:
    /// What the estimates, which found nothing, do not show. Time that goes by quietly adds nothing to it.
    void look_beyond(const Movement& m, const HoldingKey& key, const History& h) {
        if (may_have_frozen(h) || !may_be_more(h, product_).empty()) unsure_.add(m.entry, m.doses);
        if (sent_.is_open(key)) not_come_.add(m.entry, m.doses);
    }

    /// Guidance that says discard covers the give, whatever was told.
    bool condemned_later(const Movement& m, const HoldingKey& key, const History& h) const {
        return std::any_of(guidance_.begin(), guidance_.end(), [&](const auto* g) {
            return g->fact.verdict == Verdict::discard && covers(*g, m, key, h, true);
        });
    }

    bool covers(const Dated<Guidance>& g, const Movement& m, const HoldingKey& key, const History& judged,
                bool certain) const {
        const Guidance& f = g.fact;
        if (f.through.seconds_since_1970() < m.at || (f.since && f.since->seconds_since_1970() > m.at)) return false;
        if (!certain && (f.place || f.mark)) return false;
        if (f.mark && *f.mark != key.mark) return false;
        if (f.place && !judged.places.contains(*f.place)) return false;
        if (f.verdict != Verdict::discard && timeline::shows_more_than_told(judged, f)) return false;
        return f.verdict != Verdict::use_by || world_.known.zone().end_of_day(*f.use_by).seconds_since_1970() > m.at;
    }

    World& world_;
    const Product& product_;
    Instant expired_from_;
    bool all_;
    std::vector<ReviewAnswer::Row>& out_;
    GivenDoses &unsure_, &not_come_;
    NotCome sent_;
    std::vector<const Dated<Guidance>*> guidance_;  // of the lot, by (at, number)
};

void judge_lot(World& w, const ledger::Store::LotRow& lot, bool all, std::vector<ReviewAnswer::Row>& out,
               GivenDoses& unsure, GivenDoses& not_come) {
    Reviewer reviewer(w, lot, all, out, unsure, not_come);
    timeline::LotTimeline timeline(w.store, w.known, w.engine, lot);
    timeline.run(w.at, false, &reviewer);
}

void order(std::vector<ReviewAnswer::Row>& rows) {
    std::ranges::sort(rows, {}, [](const auto& row) { return std::pair(row.at, row.entry); });
}

}  // namespace

std::vector<ReviewAnswer::Row> review_lot(World& w, const ledger::Store::LotRow& lot, bool all) {
    std::vector<ReviewAnswer::Row> out;
    GivenDoses unsure, not_come;
    judge_lot(w, lot, all, out, unsure, not_come);
    order(out);
    return out;
}

ReviewAnswer review(World& w, bool all) {
    ReviewAnswer out;
    out.head = w.head;
    GivenDoses unsure, not_come;
    for (const auto& lot : w.lots()) judge_lot(w, lot, all, out.doses, unsure, not_come);
    order(out.doses);
    if (unsure.any())
        out.not_listed.push_back("NOT SURE, " + unlisted(all) + unsure.words() +
                                 " may have been out of range for longer than is permitted, or have frozen, by the "
                                 "values around it; the finding counts the estimate alone" +
                                 (all ? "" : ". They are listed where all are asked for"));
    if (not_come.any())
        out.not_listed.push_back("NOT KNOWN, " + unlisted(all) + not_come.words() +
                                 " came from another site with time whose readings were missing there and have not "
                                 "come here: ask for their handover anew" +
                                 (all ? "" : ". They are listed where all are asked for"));
    return out;
}

}  // namespace coldtally::answers
