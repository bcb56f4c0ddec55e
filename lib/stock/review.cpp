#include "stock/review.hpp"

#include <algorithm>
#include <iterator>
#include <map>

#include "stock/cleared.hpp"
#include "stock/given_doses.hpp"
#include "stock/may_be_more.hpp"
#include "stock/not_come.hpp"
#include "stock/reasons.hpp"
#include "stock/recalls.hpp"
#include "stock/restated.hpp"
#include "stock/sender_note.hpp"
#include "stock/vial_in_use.hpp"
#include "words/lists.hpp"
#include "words/review.hpp"

namespace coldtally::answers {

namespace {

using ledger::Dated;
using ledger::Movement;

/// Doses given of which the finding does not say all.
struct Unsaid {
    GivenDoses unsure, unknown, not_come, learnt, held, shown, sent, recalled;
    bool handed_over = false;  ///< some of the lot came with the handover of another site
};

Remark lot_words(const ledger::Store::LotRow& lot) { return words::lot_of(lot.product, lot.number); }

/// The recalls of a lot; none: there are none.
std::optional<Remark> recalled(const World& w, const ledger::Store::LotRow& lot) {
    std::vector<Remark> out;
    for (const auto& hold : recalls(w, lot.product, lot.number)) out.push_back(recall_words(hold));
    return words::semicolons(out);
}

/// What a review says of a recalled lot: doses of it are listed by what they went through alone.
Remark recalled_words(const World& w, const ledger::Store::LotRow& lot, const GivenDoses& given, bool all) {
    return (all ? words::recalled_listed : words::recalled_unlisted)(
        given.words(), lot_words(lot), *recalled(w, lot),
        words::task("follow_up", {{"lot", lot.number}, {"product", lot.product}}));
}

class Reviewer final : public timeline::Observer {
public:
    Reviewer(World& w, const ledger::Store::LotRow& lot, bool all, std::vector<ReviewAnswer::Row>& out, Unsaid& unsaid)
        : world_(w),
          lot_(lot),
          product_(*w.known.product(lot.product)),
          expired_from_(w.expired_from(lot)),
          all_(all),
          out_(out),
          unsaid_(unsaid) {
        for (const auto& g : w.known.guidance)
            if (g.fact.product == lot.product && g.fact.lot == lot.number) guidance_.push_back(&g);
        std::ranges::sort(guidance_, {}, [](const auto* g) { return std::pair(g->at, g->entry); });
        recalled_ = recalled(w, lot);
    }

    bool judges() const override { return true; }
    void receives(const Movement& m, const timeline::Holding& target, const History& incoming) override {
        clearings_.receives(target);
        sent_.receives(m, target, incoming);
        unsaid_.handed_over = unsaid_.handed_over || m.flag;
    }
    void moves(const Movement&, const timeline::Holding& source, const timeline::Holding& target) override {
        clearings_.moves(source, target);
        sent_.moves(source, target);
    }
    void guides(const Dated<Guidance>& g, const timeline::Holding& h, bool clears) override {
        clearings_.guides(g, h, clears);
        if (clears) sent_.clears(h);
    }
    /// The reasons are those of the history as it was: where there are none, the dose is clear.
    bool leaves_quietly(const Movement& m, const timeline::Holding& source) override {
        if (all_) return false;
        const History& h = source.history;
        const bool clear = !is_expired(h, expired_from_, Instant(m.at)) && h.condemned_by.empty() &&
                           !condemned_later(m, source.key, h) &&
                           quarantine_reasons(h, product_, world_.known.unmonitored_limit()).empty();
        if (clear) {
            if (recalled_) unsaid_.recalled.add(m.entry, m.doses);
            look_beyond(m, source.key, h);
            say_learnt(m, source.key, nullptr);
            say_held(m, h, clearings_.of(source.key));
            say_shown(m, source.key, h);
            say_sent(m, source.key, h);
        }
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
            row.finding = Finding::expired;
        else if (!judged->condemned_by.empty() ||
                 (any_discard && shows_exposure(*judged, product_, world_.known.unmonitored_limit())))
            row.finding = Finding::not_viable;
        else if (!row.reasons.empty())
            row.finding = last ? Finding::cleared : Finding::pending_guidance;
        else
            row.finding = any_discard ? Finding::condemned_later : Finding::clear;
        const auto* covering = certain && last && !any_discard ? last : nullptr;
        row.beside = say_learnt(m, source.key, covering, judged);
        for (auto& said : say_held(m, History(), clearings_of(m, source.key, covering, *judged)))
            row.beside.push_back(std::move(said));
        for (auto& said : say_shown(m, source.key, *judged)) row.beside.push_back(std::move(said));
        for (auto& said : say_sent(m, source.key, *judged)) row.beside.push_back(std::move(said));
        if (recalled_) row.beside.push_back(words::recalled_dose(lot_words(lot_), *recalled_));
        if (row.finding == Finding::clear) {
            if (recalled_) unsaid_.recalled.add(m.entry, m.doses);
            if (!last)
                for (auto& said : look_beyond(m, source.key, *judged)) row.beside.push_back(std::move(said));
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
    std::vector<Remark> look_beyond(const Movement& m, const HoldingKey& key, const History& h) {
        std::vector<Remark> out = more_words(h, product_);
        if (!out.empty()) unsaid_.unsure.add(m.entry, m.doses);
        if (auto unknown = unknown_let_pass(h, world_.known.unmonitored_limit())) {
            unsaid_.unknown.add(m.entry, m.doses);
            out.push_back(std::move(*unknown));
        }
        if (sent_.is_open(key)) unsaid_.not_come.add(m.entry, m.doses);
        return out;
    }

    /// What guidance cleared of these doses before they were given, or covers of them, and was learnt after it.
    std::vector<Remark> say_learnt(const Movement& m, const HoldingKey& key, const Dated<Guidance>* covering,
                                   const History* judged = nullptr) {
        const auto all = covering ? clearings_of(m, key, covering, *judged) : clearings_.of(key);
        std::vector<Remark> out;
        if (all.empty()) return out;
        std::string name;
        for (const Clearing& c : all) name += std::to_string(c.guidance->entry) + " " + std::to_string(c.at) + ";";
        const auto [kept, fresh] = learnt_.try_emplace({key, std::move(name)});
        if (fresh) kept->second = learnt_after(world_, lot_, all);
        out = kept->second;
        if (!out.empty()) unsaid_.learnt.add(m.entry, m.doses);
        return out;
    }

    /// With the guidance that covers them.
    std::vector<Clearing> clearings_of(const Movement& m, const HoldingKey& key, const Dated<Guidance>* covering,
                                       const History& judged) const {
        std::vector<Clearing> out = clearings_.of(key);
        if (covering && std::ranges::none_of(out, [&](const Clearing& c) { return c.guidance == covering; }))
            out.push_back({covering, key, m.at, judged});
        return out;
    }

    /// Holds that guidance lifted, or covers, and that were posted after it. `now`: what holds them still is a reason.
    std::vector<Remark> say_held(const Movement& m, const History& now, const std::vector<Clearing>& all) {
        std::vector<Remark> out;
        for (auto& held : held_after(world_, now, all)) out.push_back(std::move(held.said));
        if (!out.empty()) unsaid_.held.add(m.entry, m.doses);
        return out;
    }

    std::vector<Remark> say_shown(const Movement& m, const HoldingKey& key, const History& h) {
        auto out = displays_shown(world_, lot_, h.places, m.at, clearings_.of(key));
        if (!out.empty()) unsaid_.shown.add(m.entry, m.doses);
        return out;
    }

    std::vector<Remark> say_sent(const Movement& m, const HoldingKey& key, const History& h) {
        if (!came_from_elsewhere(h)) return {};
        if (!sender_said_) sender_said_ = sender_said(world_, lot_.lot);
        EntryNumber covered = 0;
        for (const auto* g : guidance_)
            if (g->fact.verdict != Verdict::discard && covers(*g, m, key, h, !m.flag))
                covered = std::max(covered, g->entry);
        auto out = sender_words(*sender_said_, key, h, clearings_, covered);
        if (!out.empty()) unsaid_.sent.add(m.entry, m.doses);
        return out;
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
    const ledger::Store::LotRow lot_;
    const Product& product_;
    Instant expired_from_;
    bool all_;
    std::vector<ReviewAnswer::Row>& out_;
    Unsaid& unsaid_;
    std::optional<Remark> recalled_;  // of all doses of the lot
    std::optional<std::vector<SenderSaid>> sender_said_;  // once it has been looked for
    Clearings clearings_;
    std::map<std::pair<HoldingKey, std::string>, std::vector<Remark>> learnt_;  // of the same guidance, once
    NotCome sent_;
    std::vector<const Dated<Guidance>*> guidance_;  // of the lot, by (at, number)
};

void judge_lot(World& w, const ledger::Store::LotRow& lot, bool all, std::vector<ReviewAnswer::Row>& out,
               Unsaid& unsaid) {
    Reviewer reviewer(w, lot, all, out, unsaid);
    timeline::LotTimeline timeline(w.store, w.known, w.engine, lot);
    timeline.run(w.at, false, &reviewer);
}

void order(std::vector<ReviewAnswer::Row>& rows) {
    std::ranges::sort(rows, {}, [](const auto& row) { return std::pair(row.at, row.entry); });
}

}  // namespace

std::vector<ReviewAnswer::Row> review_lot(World& w, const ledger::Store::LotRow& lot, bool all) {
    std::vector<ReviewAnswer::Row> out;
    Unsaid unsaid;
    judge_lot(w, lot, all, out, unsaid);
    order(out);
    return out;
}

ReviewAnswer review(World& w, bool all) {
    ReviewAnswer out;
    out.head = w.head;
    Unsaid unsaid;
    std::vector<ledger::Store::LotRow> handed_over;  // lots of which some came with a handover
    std::vector<Remark> of_recalls;
    for (const auto& lot : w.lots()) {
        unsaid.handed_over = false;
        unsaid.recalled = {};
        judge_lot(w, lot, all, out.doses, unsaid);
        if (unsaid.recalled.any()) of_recalls.push_back(recalled_words(w, lot, unsaid.recalled, all));
        if (unsaid.handed_over) handed_over.push_back(lot);
    }
    order(out.doses);
    const auto say = [&](const GivenDoses& given, const words::Says<1>& listed, const words::Says<1>& unlisted) {
        if (given.any()) out.not_listed.push_back((all ? listed : unlisted)(given.words()));
    };
    say(unsaid.unsure, words::not_sure_listed, words::not_sure_unlisted);
    say(unsaid.unknown, words::unknown_given_listed, words::unknown_given_unlisted);
    say(unsaid.not_come, words::not_come_listed, words::not_come_unlisted);
    say(unsaid.learnt, words::learnt_later_listed, words::learnt_later_unlisted);
    say(unsaid.held, words::held_later_listed, words::held_later_unlisted);
    say(unsaid.shown, words::display_more_listed, words::display_more_unlisted);
    say(unsaid.sent, words::sender_more_listed, words::sender_more_unlisted);
    std::ranges::move(of_recalls, std::back_inserter(out.not_listed));
    for (const auto& lot : w.lots()) std::ranges::move(given_past_vials(w, lot), std::back_inserter(out.not_listed));
    for (const auto& lot : handed_over)
        std::ranges::move(given_before_restated(w, lot), std::back_inserter(out.not_listed));
    return out;
}

}  // namespace coldtally::answers
