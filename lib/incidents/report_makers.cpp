#include <algorithm>

#include "conditions/time_in_doubt.hpp"
#include "incidents/investigation.hpp"
#include "question/said.hpp"
#include "stock/reasons.hpp"
#include "timeline/lot_timeline.hpp"
#include "words/history.hpp"
#include "words/incidents.hpp"
#include "words/lists.hpp"
#include "words/stock.hpp"

namespace coldtally::answers {

namespace {

using Answer = IncidentAnswer::Asked::Answer;

bool is_of(const HoldingKey& k, const Answer& answer) { return k.product == answer.product && k.lot == answer.lot; }

/// For more than that they are held back.
bool waits(std::vector<Reason> reasons) {
    std::erase(reasons, Reason::held);
    return !reasons.empty();
}

bool waits(const ReviewAnswer::Row& row, const Answer& answer) {
    return is_of(row.holding, answer) && row.finding == Finding::pending_guidance;
}

/// "use-by 2026-07-15, M Works, case 7"
Remark said(const Guidance& g) {
    return words::answer_said(said::verdict_words(g), g.issuer, g.reference);
}

Answer answer_of(const Investigation& i, const LotName& lot) {
    Answer out{lot.first, lot.second, {}, {}, false, {}};
    for (const auto& g : i.w.known.guidance)
        // what was posted before anybody had noticed it answers nothing of it
        if (g.fact.product == out.product && g.fact.lot == out.lot && g.at <= i.w.at && g.entry > i.span.notice &&
            g.fact.through.seconds_since_1970() >= i.since) {
            out.guidance.push_back(g.entry);
            out.said.push_back(said(g.fact));
        }
    return out;
}

/// Did doses of the lot wait at that instant?
bool any_waits(const Investigation& i, const Answer& answer, std::int64_t instant) {
    if (std::ranges::any_of(i.out.given, [&](const auto& r) {
            return waits(r, answer) && r.at.seconds_since_1970() <= instant;
        }))
        return true;
    for (const auto& lot : i.w.lots_of(answer.lot, answer.product)) {
        timeline::LotTimeline timeline(i.w.store, i.w.known, i.w.engine, lot);
        timeline.run(instant, true);
        for (const auto& [id, h] : timeline.holdings())
            if (h.doses > 0 && h.history.condemned_by.empty() && i.affects(h.key, h.history) &&
                waits(quarantine_reasons(h.history, timeline.product(), i.w.known.unmonitored_limit())))
                return true;
    }
    return false;
}

/// The first instant at which none did: once everything is judged of which it was in doubt, or after an answer.
std::optional<std::int64_t> complete_at(const Investigation& i, const Answer& answer) {
    std::int64_t end = i.begins;
    for (const auto& [place, times] : i.windows) end = std::max(end, times.back().until);
    std::set<std::int64_t> instants{end};
    for (const auto& g : i.w.known.guidance)
        if (std::ranges::count(answer.guidance, g.entry) > 0 && g.fact.through.seconds_since_1970() > end)
            instants.insert(std::min(g.fact.through.seconds_since_1970(), i.w.at));
    for (const std::int64_t t : instants)
        if (!any_waits(i, answer, t)) return t;
    return std::nullopt;
}

/// Doses here that wait for what came after all that it is about.
Remark waits_since(World& w, const ListsAnswer::Row& r) {
    const Rational& unknown = r.history.open.unmonitored;
    const Remark out = words::holding_waits_for_later(r.doses.count(), said::place_words(r.holding),
                                                      said::reasons_words(r.reasons));
    if (unknown.sign() == 0) return out;
    const Remark time = words::reason_unmonitored(duration_words(unknown, true));
    // what nobody has read yet is another thing than what will never be known
    const auto last = w.engine.trace_of(r.holding.place).last();
    if (!last || *last >= w.at) return words::semicolon(out, time);
    return words::semicolon(out, words::colon(time, words::nothing_read_since(
                                                        r.holding.place, w.known.zone().local_text(Instant(*last)))));
}

/// Doses here that stood in a part of its time in doubt which was noticed after all of the answers were posted.
void noticed_since(Investigation& i, Answer& answer) {
    if (answer.guidance.empty()) return;
    const EntryNumber last = std::ranges::max(answer.guidance);
    for (const auto& r : i.out.now) {
        if (!is_of(r.holding, answer) || std::ranges::count(r.in_doubt, i.out.incident) == 0) continue;
        EntryNumber noticed = 0;
        for (const Doubt& d : open_doubts(i.w))
            if (d.incident == i.out.incident && !d.lapsed && r.history.places.contains(d.place))
                noticed = std::max(noticed, d.noticed);
        if (noticed > last)
            answer.waits_since.push_back(
                words::noticed_since_answer(r.doses.count(), said::place_words(r.holding), noticed));
    }
}

/// Doses here that the answers clear of what was learnt, or held, after they were posted.
void known_since(Investigation& i, Answer& answer) {
    if (answer.guidance.empty()) return;
    for (const auto& r : i.out.now)
        if (is_of(r.holding, answer))
            for (const Remark& one : r.beside)
                if (one.is(words::learnt_after_guidance) || one.is(words::held_after_guidance))
                    answer.waits_since.push_back(
                        words::known_since_answer(r.doses.count(), said::place_words(r.holding), one));
}

/// Doses may wait for what the answers leave open, or for what came after all that they are about.
void set_waiting(Investigation& i, Answer& answer) {
    const auto complete = complete_at(i, answer);
    answer.waits = !complete;
    if (!complete) return;
    i.complete[{answer.product, answer.lot}] = *complete;
    for (const auto& r : i.out.now)
        if (is_of(r.holding, answer) && r.list == List::quarantine && waits(r.reasons))
            answer.waits_since.push_back(waits_since(i.w, r));
    for (const auto& r : i.out.given)
        if (waits(r, answer))
            answer.waits_since.push_back(words::waits_for_later(i.w.known.zone().local_text(r.at), r.entry));
}

}  // namespace

void add_makers(Investigation& i) {
    // those that are known by name, then the products of which none is
    std::map<std::pair<bool, std::string>, IncidentAnswer::Asked> all;
    for (const LotName& lot : i.lots) {
        const std::string& product = lot.first;
        const Maker* m = i.w.known.maker(product);
        auto& asked = all[{!m, m ? m->name : product}];
        if (m) {
            asked.maker = m->name;
            asked.contact = m->contact;
            asked.phone = m->phone;
            asked.email = m->email;
        }
        if (std::ranges::count(asked.products, product) == 0) asked.products.push_back(product);
        Answer answer = answer_of(i, lot);
        set_waiting(i, answer);
        noticed_since(i, answer);
        known_since(i, answer);
        asked.answers.push_back(std::move(answer));
    }
    for (auto& [name, asked] : all) {
        for (const auto& r : i.w.known.reports)
            if (r.at <= i.w.at && r.fact.incident == i.out.incident && r.fact.to == Recipient::manufacturer &&
                !asked.maker.empty() && r.fact.recipient == asked.maker)
                asked.reports.push_back(r.entry);
        i.out.makers.push_back(std::move(asked));
    }
}

void add_reports(Investigation& i) {
    for (const auto& r : i.w.known.reports)
        if (r.at <= i.w.at && r.fact.incident == i.out.incident &&
            (!i.out.maker || (r.fact.to == Recipient::manufacturer && r.fact.recipient == *i.out.maker)))
            i.out.reports.push_back({r.entry, Instant(r.at), i.w.store.named_entry(r.entry).by, r.fact.to,
                                     r.fact.recipient, r.fact.reference, r.fact.counted});
}

}  // namespace coldtally::answers
