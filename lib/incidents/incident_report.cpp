#include "incidents/incident_report.hpp"

#include <algorithm>
#include <set>

#include "coldtally/error.hpp"
#include "conditions/disagreements.hpp"
#include "conditions/display_memory.hpp"
#include "conditions/rule_times.hpp"
#include "exposure/limits.hpp"
#include "incidents/release.hpp"
#include "stock/doubt.hpp"
#include "stock/lists.hpp"
#include "stock/notes.hpp"
#include "stock/reasons.hpp"
#include "stock/review.hpp"
#include "text/json_text.hpp"
#include "trace/calibration.hpp"

namespace coldtally::answers {

namespace {

using ledger::MovementOp;
using trace::Point;

constexpr const char* unknown_maker = "maker not known";

/// What is out of range after t may have begun before t, within the tolerance of a probe or between two readings: the
/// first instant from which on, up to t, it is never known to have been well inside the limits, though never read
/// beyond them. What is before that is another exposure.
std::int64_t may_have_begun(World& w, const exposure::LimitsOf& limits, const std::string& place, std::int64_t t) {
    const auto& trace = w.engine.trace_of(place);
    const auto& spans = trace.spans();
    const auto read_beyond = [&](exposure::Ticks low, exposure::Ticks high, Scale s) {
        const auto& in = limits.in(s);
        return in.is_warm(high) || in.is_cold(low) || (in.freeze && low <= *in.freeze);
    };
    const auto in_doubt = [&](const Point& a, const Point& b) {
        const exposure::TraceLine l(a, b);
        const auto& in = limits.in(l.scale);
        const bool inside =
            in.well_inside(l.p.value, l.p.value, l.p.tolerance) && in.well_inside(l.q.value, l.q.value, l.q.tolerance);
        return !inside && !read_beyond(std::min(l.p.value, l.q.value), std::max(l.p.value, l.q.value), l.scale);
    };
    std::vector<Point> rows;
    for (;;) {
        const std::int64_t end = t;
        const std::size_t i = trace.span_at(t);
        if (i < spans.size() && spans[i].first_at < t) {
            rows.clear();
            spans[i].read(rows);
            for (std::size_t r = rows.size() - 1; r > 0 && (rows[r - 1].at >= t || in_doubt(rows[r - 1], rows[r])); --r)
                t = std::min(t, rows[r - 1].at);
        } else if (i > 0 && spans[i - 1].joined) {
            if (i < spans.size() && in_doubt(spans[i - 1].last_point(), spans[i].first_point()))
                t = spans[i - 1].last_at;
        } else {
            const auto& part = trace.parts()[trace.part_at(t - 1)];
            if (part.from >= t) return t;
            if (part.kind == Class::checked && in_doubt(part.earlier->point, part.later->point)) t = part.from;
            if (part.kind == Class::bounded) {
                const auto& later = *part.later;
                const auto low = exposure::ticks(*later.lowest), high = exposure::ticks(*later.highest);
                const Scale s = later.point.scale;
                if (!limits.in(s).well_inside(low, high, exposure::ticks(later.point.tolerance)) &&
                    !read_beyond(low, high, s))
                    t = part.from;
            }
        }
        if (t == end) return t;
    }
}

std::vector<IncidentAnswer::Device> devices(World& w, const std::string& place, std::int64_t from, std::int64_t until) {
    std::vector<IncidentAnswer::Device> out;
    for (const auto& a : w.engine.assignments()) {
        if (a.place != place || a.until <= from || a.from > until || a.from == a.until) continue;
        if (std::any_of(out.begin(), out.end(), [&](const auto& d) { return d.probe == a.probe; })) continue;
        const Probe& probe = *w.known.probe(a.probe);
        IncidentAnswer::Device d{a.probe, probe.serial, {}, {}, {}};
        if (const Certificate* c = trace::Calibration(w.known, a.probe).at(std::max(from, a.from))) {
            d.certificate = c->number;
            d.certified_until = c->expires;
            if (c->tolerance) d.tolerance = c->tolerance->text() + " °" + scale_letter(probe.scale);
        }
        out.push_back(std::move(d));
    }
    return out;
}

/// Time whose temperature is not known: not at all, not yet, or only that it is near a reading in range.
Rational unknown(const IncidentAnswer::Unit& u) {
    const auto of = [&](Class c) { return u.exposure.seconds[static_cast<std::size_t>(c)]; };
    return of(Class::near) + of(Class::awaiting) + of(Class::unmonitored);
}

class Reporter {
public:
    Reporter(World& w, const std::string& id, const std::optional<std::string>& maker) : w_(w) {
        out_.head = w.head;
        out_.incident = id;
        out_.maker = maker;
    }

    IncidentAnswer run() {
        steps();
        units();
        rules();
        lines();
        displays();
        given();
        left();
        now();
        makers();
        reports();
        told();
        duties();
        missing();
        return std::move(out_);
    }

    std::vector<RuleFinding> conditions() {
        steps();
        units();
        rules();
        return std::move(out_.findings);
    }

private:
    bool wanted(const std::string& product) const { return !out_.maker || maker_of(product) == *out_.maker; }
    std::string maker_of(const std::string& product) const {
        const Maker* m = w_.known.maker(product);
        return m ? m->name : unknown_maker + std::string(" (") + product + ")";
    }

    void steps() {
        const auto all = incident_steps(w_);
        for (const auto& s : all) {
            if (s.fact.incident != out_.incident) continue;
            const Entry entry = w_.store.named_entry(s.entry);
            out_.steps.push_back(
                {s.entry, Instant(s.at), entry.by, s.fact.step, s.fact.text, s.fact.place, entry.note});
        }
        if (out_.steps.empty())
            throw Error(Code::not_known,
                        "incident: " + text::quoted(out_.incident) + ": no incident of this name is known");
        for (const auto& span : incident_spans(all)) {
            if (span.incident != out_.incident) continue;
            if (span.noticed) out_.noticed = Instant(*span.noticed);
            if (span.closed) out_.closed = Instant(*span.closed);
            since_ = span.since();
        }
    }

    void units() {
        const auto all = incidents(w_, std::nullopt, std::nullopt, Instant(0), w_.head.at);
        std::set<std::string> places;
        const IncidentsAnswer::Row* own = nullptr;
        for (const auto& row : all.incidents)
            if (row.incident == out_.incident) own = &row;
        places.insert(own->places.begin(), own->places.end());
        for (const auto& e : own->excursions) places.insert(e.place);
        if (own->places.empty())  // it is of all: of each in which there ever were doses
            for (const auto& [id, definitions] : w_.known.places)
                if (!definitions.empty() && !w_.store.lots_in_place(id).empty()) places.insert(id);
        for (const auto& id : places) {
            const Place& place = w_.place(id);
            IncidentAnswer::Unit u;
            u.place = id;
            u.name = place.name;
            u.type = place.type;
            for (const auto& e : own->excursions)
                if (e.place == id) u.excursions.push_back(e);
            const TimeInDoubt doubt = time_in_doubt(w_, id, u.excursions, since_);
            if (doubt.last_good) {
                u.last_good = Instant(doubt.last_good->at);
                u.last_good_C = doubt.last_good->celsius;
            }
            if (doubt.back_in_range) u.back_in_range = Instant(doubt.back_in_range->at);
            windows_[id] = doubt.window;
            const std::int64_t from = doubt.window.from, until = doubt.window.until;
            begins_ = std::min(begins_, from);
            const std::int64_t begun = may_have_begun(w_, exposure::LimitsOf(place.range), id, from);
            u.exposure = w_.engine.over_range(place.range, id, begun, until, until == w_.at);
            u.devices = devices(w_, id, from, until);
            for (const auto& e : all.without_incident)
                u.earlier_excursions += e.place == id && e.until_s < Rational(since_);
            for (const auto& row : all.incidents) {
                const bool here = row.places.empty() || std::count(row.places.begin(), row.places.end(), id) > 0;
                if (row.incident != out_.incident && here && row.noticed && row.noticed->seconds_since_1970() < since_)
                    u.earlier_incidents.push_back(row.incident);
            }
            out_.units.push_back(std::move(u));
        }
    }

    void rules() {
        const auto* known = w_.known.rules();
        if (!known) return;
        out_.rules_entry = known->entry;
        for (const auto& u : out_.units)
            if (auto none = no_condition_for(known->fact, u.type))
                out_.not_judged.push_back(u.place + ": " + std::move(*none));
        for (const auto& [place, window] : windows_)
            for (auto& f : rule_findings(w_, known->fact, place, window)) out_.findings.push_back(std::move(f));
    }

    /// The holdings with doses in an affected place while it was in doubt.
    void lines() {
        for (const auto& [place, window] : windows_)
            for (const auto& lot : w_.store.lots_in_place(place)) {
                if (!w_.known.product(lot.product) || !wanted(lot.product)) continue;
                const auto movements = w_.store.movements(lot.lot);
                for (const auto& h : w_.store.holdings(lot.lot))
                    if (h.place == place) line(lot, h, window, movements);
            }
        std::sort(out_.lines.begin(), out_.lines.end(),
                  [](const auto& a, const auto& b) { return a.holding < b.holding; });
        std::sort(moves_.begin(), moves_.end());
        for (auto& [at, words] : moves_) out_.moved.push_back(std::move(words));
        out_.counted = !out_.lines.empty() && std::all_of(out_.lines.begin(), out_.lines.end(),
                                                          [](const auto& l) { return l.counted.has_value(); });
        if (out_.maker && out_.lines.empty())
            throw Error(Code::not_known, "maker: " + text::quoted(*out_.maker) +
                                             ": no product known to be of this maker was in the affected places; a "
                                             "maker entry (product, name) says who makes a product");
    }

    void line(const ledger::Store::LotRow& lot, const ledger::HoldingRow& h, const Window& window,
              const std::vector<ledger::Movement>& movements) {
        const Product& product = *w_.known.product(lot.product);
        IncidentAnswer::Line l;
        std::optional<std::int64_t> first;  // in the time in doubt
        std::int64_t exposed = 0;           // what it did to them may have begun before
        const std::int64_t begun = may_have_begun(w_, exposure::LimitsOf(product), h.place, window.from);
        Exposure sum;
        ledger::StockWalk walk;
        std::int64_t since = 0, came = 0;
        const auto stay = [&](std::int64_t from, std::int64_t until, std::int64_t doses) {
            const auto a = std::max(from, window.from), b = std::min(until, window.until);
            const bool last = window.with_end && b == window.until && until > b;
            if (doses == 0 || a > b || (a == b && !last)) return;
            if (first) return sum.add(w_.engine.over(product, h.place, a, b, last));
            first = a;
            exposed = from > window.from ? from : std::max(came, begun);
            sum = w_.engine.over(product, h.place, exposed, b, last);
            l.doses = Doses(doses);
        };
        for (const auto& m : movements) {
            if (m.at > w_.at || !w_.known.is_known(m.entry)) continue;
            const auto before = walk.doses(h.holding);
            walk.apply(m);
            if (walk.doses(h.holding) == before) continue;
            stay(since, m.at, before);
            since = m.at;
            if (m.target == h.holding) came = m.at;  // what came in had a history of its own
        }
        stay(since, INT64_MAX, walk.doses(h.holding));
        if (!first) return;

        l.holding = {h.place, lot.product, lot.number, h.fund, h.mark};
        l.product_name = product.name;
        if (const Maker* m = w_.known.maker(lot.product)) l.maker = m->name;
        l.expiry = w_.expiry(lot);
        l.exposure = sum;
        l.allowance_seconds = ledger::allowance_seconds(product);
        timeline::LotTimeline timeline(w_.store, w_.known, w_.engine, lot);
        timeline.run(exposed, false);
        l.before = timeline.holdings().at(h.holding).history;
        if (timeline.holdings().at(h.holding).since < exposed)
            l.before.accrue(w_.engine.over(product, h.place, timeline.holdings().at(h.holding).since, exposed, false));
        std::map<std::int64_t, const ledger::HoldingRow*> where;
        const auto holdings = w_.store.holdings(lot.lot);
        for (const auto& other : holdings) where[other.holding] = &other;
        std::set<std::int64_t> reached{h.holding};  // this one, and those into which its doses were moved
        follow(l.holding, *first);
        walk = {};
        for (const auto& m : movements) {
            if (m.at > w_.at || !w_.known.is_known(m.entry)) continue;
            const auto booked = m.op == MovementOp::count ? walk.doses(m.source) : 0;
            walk.apply(m);
            if (m.at < *first || !reached.contains(m.source)) continue;
            if (m.op == MovementOp::count) {
                if (m.at >= since_) l.counted = Instant(m.at);
                (m.doses > booked ? l.found : l.missing) += std::abs(m.doses - booked);
            }
            if (m.op == MovementOp::move && reached.insert(m.target).second) {
                const auto& to = *where.at(m.target);
                follow({to.place, lot.product, lot.number, to.fund, to.mark}, m.at);
            }
            if (m.op == MovementOp::give) l.given += m.doses;
            if (m.op == MovementOp::waste) l.wasted += m.doses;
            if (m.op == MovementOp::give_back) l.returned += m.doses;
            if (m.op == MovementOp::transfer) l.transferred += m.doses;
            if (m.op == MovementOp::move && m.source == h.holding && m.at >= since_)
                moves_.emplace_back(m.at, std::to_string(m.doses) + " doses of " + lot.product + " lot " + lot.number +
                                              " from " + h.place + " to " + where.at(m.target)->place + " at " +
                                              w_.known.zone().local_text(Instant(m.at)) + " (entry " +
                                              std::to_string(m.entry) + ")");
        }
        lots_.insert({lot.product, lot.number});
        out_.lines.push_back(std::move(l));
    }

    /// What the display of a place showed at its first check, where the doubt or the doses were there before it.
    void displays() {
        for (auto& u : out_.units) {
            const FirstDisplay* d = first_display(w_, u.place);
            if (!d) continue;
            bool concerns = windows_.at(u.place).from < d->at;
            for (const auto& lot : w_.store.lots_in_place(u.place)) {
                if (concerns) break;
                if (!lots_.contains({lot.product, lot.number})) continue;
                std::set<std::int64_t> here;
                for (const auto& h : w_.store.holdings(lot.lot))
                    if (h.place == u.place) here.insert(h.holding);
                concerns = std::ranges::any_of(w_.store.movements(lot.lot), [&](const auto& m) {
                    return m.at < d->at && w_.known.is_known(m.entry) && here.contains(m.target);
                });
            }
            if (!concerns) continue;
            if (auto said = shown_out(w_, u.place)) u.beside.push_back(std::move(*said));
        }
    }

    void follow(const HoldingKey& key, std::int64_t since) {
        const auto [at, fresh] = followed_.emplace(key, since);
        if (!fresh) at->second = std::min(at->second, since);
    }

    bool affected(const HoldingKey& k, const History& h) const {
        return lots_.contains({k.product, k.lot}) &&
               std::any_of(windows_.begin(), windows_.end(), [&](const auto& p) { return h.places.contains(p.first); });
    }

    void given() {
        for (auto& row : review(w_, true).doses) {
            if (row.at.seconds_since_1970() < begins_ || !affected(row.holding, row.history)) continue;
            const auto followed = followed_.find(row.holding);
            const bool since = followed != followed_.end() && row.at.seconds_since_1970() >= followed->second &&
                               (!out_.closed || row.at <= *out_.closed);
            if (since || row.finding != "clear") out_.given.push_back(std::move(row));
        }
        std::set<std::string_view> patients;
        for (const auto& row : out_.given) patients.insert(row.patient);
        out_.patients = std::ssize(patients);
    }

    /// Doses that were in it and are at another site now, or with those who take them back.
    void left() {
        const auto steps = incident_steps(w_);
        for (const auto& [product, number] : lots_)
            for (const auto& lot : w_.lots_of(number, product))
                for (auto& d : departures(w_, lot)) {
                    const auto since = followed_.find(d.holding);
                    if (since == followed_.end() || d.at.seconds_since_1970() < since->second) continue;
                    if (out_.closed && d.at > *out_.closed) continue;
                    d.told = told_of(w_, steps, d, out_.incident);
                    if (d.told && is_overtaken(lot, d)) d.told.reset();
                    out_.left.push_back(std::move(d));
                }
        std::ranges::sort(out_.left, {}, [](const auto& l) { return std::pair(l.at, l.entry); });
    }

    /// Has anything worse been learnt of them since they were told of?
    bool is_overtaken(const ledger::Store::LotRow& lot, const Departure& d) {
        auto all = departed(w_, lot, d.entry);
        if (all.empty()) return false;
        all.front().departure.told = d.told;
        return !learnt_since(w_, all.front()).empty();
    }

    void now() {
        for (auto& row : lists(w_).holdings)
            if (affected(row.holding, row.history)) out_.now.push_back(std::move(row));
    }

    void makers() {
        std::map<std::string, IncidentAnswer::Asked> all;
        for (const auto& [product, lot] : lots_) {
            auto& asked = all[maker_of(product)];
            asked.maker = maker_of(product);
            if (const Maker* m = w_.known.maker(product)) {
                asked.known = true;
                asked.contact = m->contact;
                asked.phone = m->phone;
                asked.email = m->email;
            }
            if (std::count(asked.products.begin(), asked.products.end(), product) == 0)
                asked.products.push_back(product);
            IncidentAnswer::Asked::Answer answer{product, lot, {}, {}, false, {}};
            for (const auto& g : w_.known.guidance)
                if (g.fact.product == product && g.fact.lot == lot && g.at <= w_.at &&
                    g.fact.through.seconds_since_1970() >= since_) {
                    answer.guidance.push_back(g.entry);
                    answer.said.push_back(std::string(verdict_name(g.fact.verdict)) +
                                          (g.fact.use_by ? " " + g.fact.use_by->text() : "") + ", " + g.fact.issuer +
                                          ", " + g.fact.reference);
                }
            waiting(answer);
            asked.answers.push_back(std::move(answer));
        }
        for (auto& [name, asked] : all) {
            for (const auto& r : w_.known.reports)
                if (r.at <= w_.at && r.fact.incident == out_.incident && r.fact.to == "manufacturer" &&
                    r.fact.recipient == name)
                    asked.reports.push_back(r.entry);
            out_.makers.push_back(std::move(asked));
        }
    }

    /// Doses may wait for what the answers leave open, or for what came after all that they are about.
    void waiting(IncidentAnswer::Asked::Answer& answer) {
        const auto of_lot = [&](const HoldingKey& k) { return k.product == answer.product && k.lot == answer.lot; };
        const auto waits = [](std::vector<std::string> reasons) {
            std::erase(reasons, "held");
            return !reasons.empty();
        };
        // once everything is judged of which it was in doubt, and again after each answer: they are complete when
        // nothing waited
        std::int64_t end = begins_;
        for (const auto& [place, window] : windows_) end = std::max(end, window.until);
        std::set<std::int64_t> instants{end};
        for (const auto& g : w_.known.guidance)
            if (std::count(answer.guidance.begin(), answer.guidance.end(), g.entry) > 0 &&
                g.fact.through.seconds_since_1970() > end)
                instants.insert(std::min(g.fact.through.seconds_since_1970(), w_.at));
        std::optional<std::int64_t> complete;
        for (const std::int64_t t : instants) {
            bool any = std::any_of(out_.given.begin(), out_.given.end(), [&](const auto& r) {
                return of_lot(r.holding) && r.finding == "pending guidance" && r.at.seconds_since_1970() <= t;
            });
            for (const auto& lot : w_.lots_of(answer.lot, answer.product)) {
                timeline::LotTimeline timeline(w_.store, w_.known, w_.engine, lot);
                timeline.run(t, true);
                for (const auto& [id, h] : timeline.holdings())
                    any =
                        any || (h.doses > 0 && h.history.condemned_by.empty() && affected(h.key, h.history) &&
                                waits(quarantine_reasons(h.history, timeline.product(), w_.known.unmonitored_limit())));
            }
            if (!any) {
                complete = t;
                break;
            }
        }
        answer.waits = !complete;
        if (!complete) return;
        complete_[{answer.product, answer.lot}] = *complete;
        for (const auto& r : out_.now)
            if (of_lot(r.holding) && r.list == List::quarantine && waits(r.reasons))
                answer.waits_since.push_back(since_words(r));
        for (const auto& r : out_.given)
            if (of_lot(r.holding) && r.finding == "pending guidance")
                answer.waits_since.push_back("a dose given " + w_.known.zone().local_text(r.at) + " (entry " +
                                             std::to_string(r.entry) + ") waits for what came after");
    }

    std::string since_words(const ListsAnswer::Row& r) {
        const HoldingKey& k = r.holding;
        const Rational& unknown = r.history.open.unmonitored;
        std::string out = std::to_string(r.doses.count()) + (r.doses.count() == 1 ? " dose" : " doses") + " in " +
                          k.place + (k.fund.empty() ? "" : ", fund " + k.fund) +
                          (k.mark.empty() ? "" : ", mark " + k.mark) + (r.doses.count() == 1 ? " waits" : " wait") +
                          " for what came after: ";
        for (std::size_t i = 0; i < r.reasons.size(); ++i) out += (i ? ", " : "") + r.reasons[i];
        if (unknown.sign() == 0) return out;
        out += "; the temperature is not known for " + duration_words(unknown, true);
        // what nobody has read yet is another thing than what will never be known
        const auto last = w_.engine.trace_of(k.place).last();
        if (last && *last < w_.at)
            out += ": nothing of " + k.place + " has been read since " + w_.known.zone().local_text(Instant(*last));
        return out;
    }

    void reports() {
        for (const auto& r : w_.known.reports)
            if (r.at <= w_.at && r.fact.incident == out_.incident &&
                (!out_.maker || (r.fact.to == "manufacturer" && r.fact.recipient == *out_.maker)))
                out_.reports.push_back({r.entry, Instant(r.at), w_.store.named_entry(r.entry).by, r.fact.to,
                                        r.fact.recipient, r.fact.reference, r.fact.counted});
    }

    static void keep_most(std::vector<IncidentAnswer::ToTell::Over>& into,
                          const std::vector<IncidentAnswer::ToTell::Over>& other) {
        for (const auto& one : other) {
            const auto it = std::ranges::find(into, one.allowance, &IncidentAnswer::ToTell::Over::allowance);
            if (it == into.end()) into.push_back(one);
            else it->over_s = std::max(it->over_s, one.over_s);
        }
    }

    /// What is open: that is what guidance has to cover. Rounded up: nobody is told less than it was. Doses that were
    /// given are told of by what they had been through when they were, as far as nothing covers it, and never as if
    /// those that are there had been.
    void told() {
        const auto figures = [](const History& h) {
            return Report::Figures{Duration((h.open.warm + h.open.cold).ceil()),
                                   Duration(h.open.unmonitored.ceil()), h.open.points};
        };
        const auto beyond = [](const History& h) { return h.open.beyond_warm + h.open.beyond_cold; };
        const auto at_most = [](const History& h) { return h.total.warm.at_most + h.total.cold.at_most; };
        const auto checked = [](const History& h) { return h.total.seconds[static_cast<std::size_t>(Class::checked)]; };
        const auto over = [&](const std::string& product, const History& h) {
            std::vector<IncidentAnswer::ToTell::Over> out;
            const auto bands = w_.known.product(product)->allowances.value_or(std::vector<Allowance>());
            for (std::size_t i = 0; i < bands.size() && i < h.open.allowances.size(); ++i)
                if (const Rational more = h.total.allowances[i] - Rational(bands[i].seconds.seconds());
                    more.sign() > 0 && h.open.allowances[i].sign() > 0)
                    out.push_back({i, bands[i].seconds, more, bands[i].source});
            return out;
        };
        const auto row = [&](const HoldingKey& k) {
            return IncidentAnswer::ToTell{{k.place, k.product, k.lot, k.fund, k.mark, Doses(0), {}}, 0, {}, {}, {}};
        };
        const auto open = [](const auto& f) {
            return f.out_of_range > Duration(0) || f.unmonitored > Duration(0) || f.points > 0;
        };
        for (const auto& u : out_.units)
            out_.unread_s = std::max(out_.unread_s, u.exposure.seconds[static_cast<std::size_t>(Class::awaiting)]);
        std::map<HoldingKey, IncidentAnswer::ToTell> there, gone;
        for (const auto& r : out_.now) {
            out_.unread_s = std::max(out_.unread_s, awaited(w_, r));
            auto t = row(r.holding);
            t.doses = r.doses;
            t.figures = figures(r.history);
            t.beyond_s = beyond(r.history);
            t.at_most_s = at_most(r.history);
            t.checked_s = checked(r.history);
            t.over = over(r.holding.product, r.history);
            if (open(t.figures)) there.emplace(r.holding, std::move(t));
        }
        for (const auto& r : out_.given) {
            if (r.guidance || r.reasons.empty()) continue;
            auto& t = gone.try_emplace(r.holding, row(r.holding)).first->second;
            const auto f = figures(r.history);
            t.given += r.doses.count();
            t.figures = {std::max(t.figures.out_of_range, f.out_of_range),
                         std::max(t.figures.unmonitored, f.unmonitored), std::max(t.figures.points, f.points)};
            t.beyond_s = std::max(t.beyond_s, beyond(r.history));
            t.at_most_s = std::max(t.at_most_s, at_most(r.history));
            t.checked_s = std::max(t.checked_s, checked(r.history));
            keep_most(t.over, over(r.holding.product, r.history));
        }
        for (auto& [key, t] : gone) {
            const auto with = there.find(key);
            if (with == there.end()) continue;
            const auto &f = t.figures, &g = with->second.figures;
            if (f.out_of_range > g.out_of_range || f.unmonitored > g.unmonitored || f.points > g.points) continue;
            with->second.given = t.given;  // what is told of those that are there holds for them
            with->second.at_most_s = std::max(with->second.at_most_s, t.at_most_s);
            with->second.checked_s = std::max(with->second.checked_s, t.checked_s);
            keep_most(with->second.over, t.over);
            t.given = 0;
        }
        for (auto& [key, t] : there) out_.told.push_back(std::move(t));
        for (auto& [key, t] : gone)
            if (t.given > 0) out_.told.push_back(std::move(t));
        std::stable_sort(out_.told.begin(), out_.told.end(), [](const auto& a, const auto& b) {
            return HoldingKey{a.place, a.product, a.lot, a.fund, a.mark} <
                   HoldingKey{b.place, b.product, b.lot, b.fund, b.mark};
        });
    }

    void duties() {
        const auto* rules = w_.known.rules();
        // what is not known may have been what must be reported
        const bool reportable =
            std::any_of(out_.findings.begin(), out_.findings.end(),
                        [](const auto& f) { return f.state() != RuleFinding::State::not_met; }) ||
            (out_.findings.empty() && std::any_of(out_.units.begin(), out_.units.end(), [](const auto& u) {
                 return (unknown(u) + u.exposure.seconds[static_cast<std::size_t>(Class::checked)]).sign() > 0;
             }));
        const auto first_step = [&](const std::string& step) -> std::optional<Instant> {
            for (const auto& s : out_.steps)
                if (s.step == step) return s.at;
            return std::nullopt;
        };
        const auto first_report = [&](const std::string& to,
                                      const std::optional<std::string>& recipient) -> std::optional<Instant> {
            for (const auto& r : w_.known.reports)
                if (r.at <= w_.at && r.fact.incident == out_.incident && r.fact.to == to &&
                    (!recipient || r.fact.recipient == *recipient))
                    return Instant(r.at);
            return std::nullopt;
        };
        const auto earlier = [](std::optional<Instant> a, std::optional<Instant> b) {
            return !a ? b : !b ? a : std::min(a, b);
        };
        const auto limit = [&](const std::string& step, bool& stated) -> std::optional<Duration> {
            stated = false;
            if (rules)
                for (const auto& d : rules->fact.duties)
                    if (d.step == step && (!d.if_reportable || reportable)) {
                        stated = true;
                        return d.within;
                    }
            return std::nullopt;
        };
        const auto add = [&](DutyClock c, const std::optional<Duration>& within) {
            c.state = DutyClock::State::no_limit;
            if (within && c.since) c.due = *c.since + *within;
            if (c.done)
                c.state = c.due && *c.done > *c.due ? DutyClock::State::done_late : DutyClock::State::done;
            else if (c.due)
                c.state = w_.head.at > *c.due ? DutyClock::State::overdue : DutyClock::State::due;
            out_.duties.push_back(std::move(c));
        };
        const Instant since(since_);
        bool stated = false;
        for (const char* step : {"supervisor told", "health department told", "cause", "action", "closed"}) {
            const auto within = limit(step, stated);
            std::optional<Instant> done = std::string(step) == "closed" ? out_.closed : first_step(step);
            if (std::string(step).ends_with(" told"))
                done = earlier(done,
                               first_report(std::string(step).substr(0, std::string(step).size() - 5), std::nullopt));
            if (stated || done || std::string(step).ends_with(" told"))
                add({step, "", since, {}, done, {}, {}}, within);
        }
        for (const auto& m : out_.makers) {
            // a step is of the maker whose name its text holds, or of the only one
            auto asked = first_report("manufacturer", m.maker);
            for (const auto& s : out_.steps)
                if (s.step == "manufacturer told" && ((out_.makers.size() == 1 && !out_.maker) ||
                                                      (m.known && s.text.find(m.maker) != std::string::npos)))
                    asked = earlier(asked, s.at);
            add({"manufacturer told", m.maker, since, {}, asked, {}, {}}, limit("manufacturer told", stated));
            std::optional<Instant> answered;
            bool all = !m.answers.empty();
            for (const auto& a : m.answers) {
                if (a.guidance.empty() || a.waits)
                    all = false;  // an answer that covers less than is known is not the whole of it
                // of those up to the one that left nothing open, the last; where nothing waited anyway, the first there
                // is
                const auto complete = complete_.find({a.product, a.lot});
                std::optional<Instant> first, last;
                for (const auto& g : w_.known.guidance) {
                    if (std::count(a.guidance.begin(), a.guidance.end(), g.entry) == 0) continue;
                    const Instant when(g.at);
                    if (!first || when < *first) first = when;
                    const bool of_another_event =
                        complete != complete_.end() && g.fact.through.seconds_since_1970() > complete->second;
                    if (!of_another_event && (!last || when > *last)) last = when;
                }
                const auto of_lot = last ? last : first;
                if (of_lot && (!answered || *of_lot > *answered)) answered = of_lot;
            }
            DutyClock answer{"answer", m.maker, asked, {}, all ? answered : std::nullopt, {}, {}};
            if (all)
                for (const auto& a : m.answers)
                    for (const auto& text : a.waits_since)
                        answer.since_done.push_back(a.product + " lot " + a.lot + ": " + text);
            add(std::move(answer), limit("answer", stated));
        }
        std::stable_sort(out_.duties.begin(), out_.duties.end(), [](const DutyClock& a, const DutyClock& b) {
            const Instant never(INT64_MAX);
            return std::pair(a.state, a.due.value_or(never)) < std::pair(b.state, b.due.value_or(never));
        });
    }

    void missing() {
        auto& m = out_.missing;
        for (const char* always :
             {"who: programme number, address, telephone and e-mail of the site, kind of facility, contact person",
              "who: title of the person reporting, signature; the programme's consultant and zone",
              "unit: model and grade; what else was inside (water bottles, coolant)",
              "device: position and medium of the probe; the logs of the weeks before, to be attached",
              "time: temperature of the room; whether there was light",
              "story: whether the doses are apart and labelled",
              "vaccine: presentation, unit price and value; opened vials, vial monitors",
              "end: the programme's decision; who signed for it"})
            m.emplace_back(always);
        const auto has = [&](const char* step) {
            return std::any_of(out_.steps.begin(), out_.steps.end(), [&](const auto& s) { return s.step == step; });
        };
        if (!out_.noticed) m.emplace_back("time: when it was noticed");
        if (!has("cause")) m.emplace_back("story: the cause");
        if (!has("action")) m.emplace_back("story: what was done, and what prevents it next time");
        if (out_.units.empty()) m.emplace_back("unit: which place it was");
        for (const auto& u : out_.units) {
            if (!u.last_good) m.push_back("time: the last reading in range of " + u.place);
            if (!u.back_in_range) m.push_back("time: when " + u.place + " was back in range");
            if (unknown(u).sign() > 0)
                m.push_back("time: the temperature of " + u.place + " for " + duration_words(unknown(u), true));
            if (const auto& checked = u.exposure.seconds[static_cast<std::size_t>(Class::checked)]; checked.sign() > 0)
                m.push_back("time: the temperature of " + u.place + " for " + duration_words(checked, true) +
                            " between plain checks, where nothing is known");
            if (u.devices.empty()) m.push_back("device: what measured " + u.place);
            const auto differ = disagreements(w_, u.place, windows_.at(u.place));
            if (!differ.empty())
                m.push_back("device: which of those in " + u.place +
                            " was right: they differed by more than their tolerances" +
                            (differ.size() > 1 ? " " + std::to_string(differ.size()) + " times, first" : "") + " at " +
                            w_.known.zone().local_text(differ.front().until) + " (see unit " + u.place + ")");
            for (const auto& d : u.devices) {
                if (!d.serial) m.push_back("device: serial number of " + d.probe);
                if (!d.certified_until) m.push_back("device: certificate of " + d.probe);
            }
        }
        for (const auto& row : out_.now)
            if (const Rational awaiting = awaited(w_, row); awaiting.sign() > 0)
                m.push_back("time: the readings of the last " + duration_words(awaiting, true) + " of " +
                            row.holding.product + " lot " + row.holding.lot + " in " + row.holding.place +
                            ": they have not been read yet, and no figure above counts this time");
        for (const auto& a : out_.makers) {
            if (!a.known) m.push_back("maker: who makes " + a.products.front());
            for (const auto& x : a.answers)
                if (x.guidance.empty()) m.push_back("maker: answer for " + x.product + " lot " + x.lot);
                else if (x.waits)
                    m.push_back("maker: answer for all of " + x.product + " lot " + x.lot +
                                ": doses still wait, which the one that came does not cover");
        }
        for (const auto& l : out_.lines)
            if (!l.counted)
                m.push_back("vaccine: a count of " + l.holding.product + " lot " + l.holding.lot + " in " +
                            l.holding.place + (l.holding.fund.empty() ? "" : ", fund " + l.holding.fund) +
                            (l.holding.mark.empty() ? "" : ", mark " + l.holding.mark) + " after it was noticed");
        for (const auto& none : out_.not_judged)
            m.push_back("rules: whether it must be reported; " + none);
        if (!out_.rules_entry) m.emplace_back("rules: what the programme asks to be reported, and how soon");
    }

    World& w_;
    IncidentAnswer out_;
    std::int64_t since_ = 0, begins_ = INT64_MAX;
    std::map<std::string, Window> windows_;
    std::map<HoldingKey, std::int64_t>
        followed_;  ///< since when: the lines' holdings, and those into which their doses were moved
    std::vector<std::pair<std::int64_t, std::string>> moves_;
    std::set<std::pair<std::string, std::string>> lots_;
    std::map<std::pair<std::string, std::string>, std::int64_t>
        complete_;  ///< of a lot, up to when the answers leave nothing open
};

}  // namespace

IncidentAnswer incident(World& w, const std::string& id, const std::optional<std::string>& maker) {
    IncidentAnswer out = Reporter(w, id, maker).run();
    add_release(w, out);
    return out;
}

std::vector<RuleFinding> findings_of(World& w, const std::string& id) {
    const auto steps = incident_steps(w);
    if (std::none_of(steps.begin(), steps.end(), [&](const auto& s) { return s.fact.incident == id; })) return {};
    return Reporter(w, id, std::nullopt).conditions();
}

}  // namespace coldtally::answers
