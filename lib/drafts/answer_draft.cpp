#include "drafts/answer_draft.hpp"

#include <algorithm>
#include <set>

#include "coldtally/error.hpp"
#include "drafts/entry_warnings.hpp"
#include "incidents/incident_report.hpp"
#include "question/said.hpp"
#include "stock/cleared.hpp"
#include "stock/last_use.hpp"
#include "stock/lists.hpp"
#include "stock/opened_vials.hpp"
#include "stock/recalls.hpp"
#include "stock/review.hpp"
#include "text/json_text.hpp"
#include "timeline/lot_timeline.hpp"
#include "words/answer_draft.hpp"
#include "words/general.hpp"
#include "words/history.hpp"

namespace coldtally::answers {

namespace {

using Told = std::vector<const Report::Told*>;

const Report& report_of(const World& w, EntryNumber number) {
    for (const auto& r : w.known.reports)
        if (r.entry == number) return r.fact;
    throw Error(Code::not_known, "report: entry " + std::to_string(number) + ": no report of this number is known");
}

/// What it told of the doses that the guidance is about.
Told told_of(const Report& report, EntryNumber number, const Guidance& g) {
    Told out;
    for (const auto& t : report.told)
        if (t.product == g.product && t.lot == g.lot && (!g.place || *g.place == t.place) &&
            (!g.mark || *g.mark == t.mark))
            out.push_back(&t);
    if (out.empty())
        throw Error(Code::not_known, "lot: " + text::quoted(g.lot) + ": report " + std::to_string(number) +
                                         " told nothing of doses of this lot" + (g.place || g.mark ? " there" : ""));
    return out;
}

Guidance::Told figures_of(const Report::Figures& f) { return {f.out_of_range, f.unmonitored, f.points}; }

bool is_about(const Guidance& g, const HoldingKey& k) {
    return (!g.place || *g.place == k.place) && (!g.mark || *g.mark == k.mark);
}

bool is_of_lot(const Guidance& g, const HoldingKey& k) { return k.product == g.product && k.lot == g.lot; }

/// One guidance where all were told of with the same figures, else one a place and mark.
std::vector<Entry> guidance_as_told(const Entry& like, const Guidance& g, const Told& told, bool one) {
    std::vector<Entry> out;
    std::set<std::pair<std::string, std::string>> stated;
    for (const auto* t : told) {
        if (!one && !stated.insert({t->place, t->mark}).second) continue;
        Entry e = like;
        Guidance each = g;
        Report::Figures figures = t->figures;
        if (!one) {
            each.place = t->place;
            each.mark = t->mark;
            for (const auto* other : told)  // of two funds there, what both were told of
                if (other->place == t->place && other->mark == t->mark)
                    figures = {std::min(figures.out_of_range, other->figures.out_of_range),
                               std::min(figures.unmonitored, other->figures.unmonitored),
                               std::min(figures.points, other->figures.points)};
        }
        each.told = figures_of(figures);
        e.fact = std::move(each);
        out.push_back(std::move(e));
        if (one) break;
    }
    return out;
}

/// What of a holding's history, as it is known now, is more than was told.
void more_than_told(const History& history, const Field& name, const Report::Figures& told, std::vector<Remark>& out) {
    const auto more = [&](const auto& what, const Rational& known, std::int64_t said, bool seconds) {
        if (known <= Rational(said)) return;
        const auto amount = [&](const Rational& n) { return seconds ? duration_words(n, true) : n.text(); };
        const std::string before = amount(Rational(said)), now = amount(known);
        out.push_back(words::more_than_told(
            name, what(before), before == now ? Field(words::so_much_more(now, amount(known - Rational(said)))) : now));
    };
    more(words::things_out_of_range, history.open.warm + history.open.cold, told.out_of_range.seconds(), true);
    more(words::time_unknown, history.open.unmonitored, told.unmonitored.seconds(), true);
    more(words::readings_out, Rational(history.open.points), told.points, false);
}

/// Is what was told still all that is known of that instant, and of all doses there?
void ask_of_holding(World& w, const Guidance& g, EntryNumber report, const Told& told,
                    const ledger::Store::LotRow& lot, const timeline::LotTimeline& timeline,
                    const timeline::Holding& h, std::vector<Remark>& out) {
    const std::int64_t through = g.through.seconds_since_1970();
    History history = h.history;
    if (h.since < through) history.accrue(w.engine.over(timeline.product(), h.key.place, h.since, through, false));
    const Field name = said::place_words(h.key);
    const auto t = std::find_if(told.begin(), told.end(), [&](const auto* x) {
        return x->place == h.key.place && x->fund == h.key.fund && x->mark == h.key.mark;
    });
    if (t == told.end()) {
        const OpenExposure& open = history.open;
        if ((open.warm + open.cold + open.unmonitored).sign() == 0 && open.points == 0) return;  // nothing to tell
        out.push_back(words::doses_not_told(h.doses, name));
        return;
    }
    if (h.doses > (*t)->doses.count())
        out.push_back(words::fewer_were_told((*t)->doses.count(), name, h.doses));
    Guidance asked = g;
    asked.told = figures_of((*t)->figures);
    if (timeline::shows_more_than_told(history, asked)) more_than_told(history, name, (*t)->figures, out);
    // the sums tell no kind, and not how warm or cold
    if (const auto worse = not_known_before(w, lot, h.key, through, history, report))
        out.push_back(words::worse_than_told(name, *worse));
}

/// Doses of the lot elsewhere, and those of opened vials, of which the issuer may not have thought.
std::vector<Remark> besides(World& w, const Guidance& g, const std::string& incident_id) {
    std::vector<Remark> out;
    for (const auto& l : incident(w, incident_id, std::nullopt).left)
        if (is_of_lot(g, l.holding)) {
            const Remark left = left_words(l, w.known.zone());
            out.push_back(l.to.empty() ? words::answer_to_who_has_them(left) : words::answer_to_site(left, l.to));
        }
    if (g.verdict == Verdict::discard) return out;
    for (const auto& lot : w.lots_of(g.lot, g.product)) {
        const auto use = use_of(w, lot);
        for (const auto& row : listed(w, lot))
            if (is_about(g, row.holding) && is_opened(use.limits(row.holding)))
                out.push_back(words::of_an_opened_vial(
                    row.doses.count(), said::place_words({row.holding.place, {}, {}, {}, row.holding.mark}),
                    g.issuer));
    }
    return out;
}

}  // namespace

AnswerDraft answer_draft(World& w, EntryNumber number, const Entry& like) {
    Guidance g = std::get<Guidance>(like.fact);
    const Report& report = report_of(w, number);
    g.through = report.through;
    const Told told = told_of(report, number, g);
    const bool one =
        std::all_of(told.begin(), told.end(), [&](const auto* t) { return t->figures == told.front()->figures; });

    AnswerDraft out;
    out.entries = guidance_as_told(like, g, told, one);
    for (const Entry& e : out.entries) EntryWarnings(w.store, w.known).add(e, out.concerns);
    for (const auto& said : recalls_lifted(w, g)) out.concerns.push_back(said);
    auto reviewed = review(w, true).doses;
    if (!one && std::any_of(reviewed.begin(), reviewed.end(), [&](const auto& r) {
            return is_of_lot(g, r.holding) && !r.certain && r.at <= g.through;
        }))
        out.concerns.push_back(words::told_different_figures);
    for (const auto& lot : w.lots_of(g.lot, g.product)) {
        timeline::LotTimeline timeline(w.store, w.known, w.engine, lot);
        timeline.run(g.through.seconds_since_1970(), false);
        for (const auto& [id, h] : timeline.holdings())
            if (h.doses > 0 && is_about(g, h.key)) ask_of_holding(w, g, number, told, lot, timeline, h, out.concerns);
    }
    out.besides = besides(w, g, report.incident);
    for (auto& row : reviewed)
        if (is_of_lot(g, row.holding) && row.finding == Finding::pending_guidance)
            out.pending.push_back(std::move(row));
    for (auto& row : lists(w).holdings)
        if (is_of_lot(g, row.holding) && row.list == List::quarantine) out.quarantined.push_back(std::move(row));
    return out;
}

void ask_what_is_meant(AnswerDraft& draft, const Zone& zone) {
    const auto condemns = [](const Entry& e) { return std::get<Guidance>(e.fact).verdict == Verdict::discard; };
    if (std::none_of(draft.entries.begin(), draft.entries.end(), condemns)) return;
    for (const auto& h : draft.changes.holdings)
        if (h.before && h.before->list == List::keep && h.after && h.after->list == List::discard)
            draft.concerns.push_back(
                words::condemned_as_well(h.after->doses.count(), said::holding_words(h.holding)));
    for (const auto& d : draft.changes.doses)
        if (d.before == Finding::clear && d.after && d.after != d.before)
            draft.concerns.push_back(words::given_found_against(zone.local_text(d.at), d.entry,
                                                                said::finding_name_words(*d.after)));
}

}  // namespace coldtally::answers
