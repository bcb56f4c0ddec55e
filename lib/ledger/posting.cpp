#include "ledger/posting.hpp"

#include <algorithm>

#include "coldtally/error.hpp"
#include "text/json_text.hpp"
#include "text/limits.hpp"

namespace coldtally::ledger {

namespace {

[[noreturn]] void refuse(Code code, const std::string& where, const std::string& field, const std::string& value,
                         const std::string& why) {
    throw Error(code, where + ": " + field + ": " + value + ": " + why);
}

std::string quoted(const std::string& s) { return text::quoted(s); }

std::string reading_text(const Reading& r, Scale scale) {
    return Temperature(scale, r.thousandths).text() + " at " + r.at.text();
}

/// The seconds of allowances, as "[259200, 3600]".
std::string seconds_text(const std::vector<Duration>& allowances) {
    std::string out;
    for (const auto& a : allowances) out += (out.empty() ? "" : ", ") + std::to_string(a.seconds());
    return "[" + out + "]";
}

bool overlaps(const BlockSummary& b, std::int64_t from, std::int64_t until) {
    return b.first_at <= until && b.last_at >= from;
}

}  // namespace

void check_clock(Instant recorded, const std::string& where) {
    const auto at = recorded.seconds_since_1970();
    if (at < limits::first_second || at > limits::last_second)
        refuse(Code::bad_value, where, "recorded", std::to_string(at) + " s since 1970",
               "must be in the years 1970 to 2199: this computer's clock is wrong; set it, and post again");
}

ReadingsBetween::ReadingsBetween(const Store& store, const Known& known, const std::string& probe, std::int64_t from,
                                 std::int64_t until)
    : store_(store), from_(from), until_(until) {
    const auto id = store.probe(probe);
    if (!id) return;
    for (const auto& b : store.blocks(*id, from))
        if (overlaps(b.summary, from, until) && known.is_known(b.entry)) blocks_.push_back(b);
}

const ReadingsBetween::Row* ReadingsBetween::next() {
    // what is held may be handed out up to where the next block begins
    while (block_ < blocks_.size() &&
           (at_ == held_.size() || held_[at_].first.at.seconds_since_1970() >= blocks_[block_].summary.first_at)) {
        held_.erase(held_.begin(), held_.begin() + static_cast<std::ptrdiff_t>(at_));
        at_ = 0;
        const auto before = static_cast<std::ptrdiff_t>(held_.size());
        const BlockRow& b = blocks_[block_++];
        rows_.clear();
        store_.read_block(b.block, rows_);
        for (const auto& r : rows_)
            if (r.at.seconds_since_1970() >= from_ && r.at.seconds_since_1970() <= until_)
                held_.emplace_back(r, b.entry);
        std::inplace_merge(held_.begin(), held_.begin() + before, held_.end(),
                           [](const Row& x, const Row& y) { return x.first.at < y.first.at; });
    }
    return at_ < held_.size() ? &held_[at_++] : nullptr;
}

std::vector<Reading> readings_between(const Store& store, const Known& known, const std::string& probe,
                                      std::int64_t from, std::int64_t until) {
    std::vector<Reading> out;
    ReadingsBetween all(store, known, probe, from, until);
    while (const auto* row = all.next())
        if (out.empty() || out.back().at != row->first.at) out.push_back(row->first);
    return out;
}

/// References and rules of each kind; what needs the timeline or the readings is left to the members of Posting.
struct Posting::Rules {
    Posting& p;
    const Entry& entry;
    const std::string& where;

    void product(const std::string& id) const {
        if (!p.known_.product(id))
            refuse(Code::not_defined, where, "product", quoted(id),
                   "no product of this id is defined; post its definition first");
    }
    void lot(const std::string& product_id, const std::string& number) const {
        product(product_id);
        if (!p.lot_defined(product_id, number))
            refuse(Code::not_defined, where, "lot", quoted(number),
                   "no lot of this number is defined for product " + quoted(product_id) +
                       "; post its definition with the expiry first");
    }
    void place(const std::string& id, const char* field = "place") const {
        if (!p.known_.place(id))
            refuse(Code::not_defined, where, field, quoted(id),
                   "no place of this id is defined" + p.known_.place_names() + "; post its definition first");
    }
    const Probe& probe(const std::string& id) const {
        const auto* probe = p.known_.probe(id);
        if (!probe)
            refuse(Code::not_defined, where, "probe", quoted(id),
                   "no probe of this id is defined; post its definition first");
        return *probe;
    }
    void scale_of(const std::string& probe_id, Scale scale) const {
        const Scale own = probe(probe_id).scale;
        if (own != scale)
            refuse(Code::wrong_scale, where, "scale", quoted(std::string(1, scale_letter(scale))),
                   "must be " + quoted(std::string(1, scale_letter(own))) + ", the scale of probe " + quoted(probe_id));
    }

    void operator()(const Site&) const {}
    void operator()(const Product& product) const {
        p.check_handovers(product.product, product, where, "allowances");
    }
    void operator()(const Lot& l) const { product(l.product); }
    void operator()(const Place&) const {}
    void operator()(const Probe& b) const {
        if (const auto* before = p.known_.probe(b.probe); before && before->scale != b.scale)
            refuse(
                Code::wrong_scale, where, "scale", quoted(std::string(1, scale_letter(b.scale))),
                "must be " + quoted(std::string(1, scale_letter(before->scale))) + ": a probe's scale never changes");
    }
    void operator()(const Certificate& c) const { probe(c.probe); }
    void operator()(const Assign& a) const {
        probe(a.probe);
        if (a.place) place(*a.place);
    }
    void operator()(const Readings& r) const { scale_of(r.probe, r.scale); }
    void operator()(const Check& c) const {
        place(c.place);
        if (c.probe) scale_of(*c.probe, c.temperature.scale());
    }
    void operator()(const Receive& r) const {
        lot(r.product, r.lot);
        place(r.place);
        if (r.handover && r.handover->allowance_seconds != allowance_seconds(*p.known_.product(r.product)))
            refuse(Code::handover_differs, where, "handover: allowances", seconds_text(r.handover->allowance_seconds),
                   "must equal those of product " + quoted(r.product) + " in number and seconds, in order: " +
                       seconds_text(allowance_seconds(*p.known_.product(r.product))) +
                       "; define its allowances here as the sender has them, and do not leave the handover off");
    }
    void operator()(const Move& m) const {
        lot(m.product, m.lot);
        place(m.from_place, "from: place");
        place(m.to_place, "to: place");
    }
    void operator()(const BeyondUse& b) const {
        lot(b.product, b.lot);
        place(b.place);
        if (!b.event) return;
        const auto& events = p.known_.product(b.product)->beyond_use;
        if (!events || !events->contains(*b.event)) {
            std::string names;
            if (events)
                for (const auto& [name, period] : *events) names += (names.empty() ? "" : ", ") + quoted(name);
            refuse(Code::not_defined, where, "event", quoted(*b.event),
                   names.empty() ? "product " + quoted(b.product) + " has no such events; give use_by"
                                 : "must be one of " + names);
        }
    }
    void operator()(const Hold& h) const {
        if (h.lot)
            lot(h.product, *h.lot);
        else
            product(h.product);
        if (h.place) place(*h.place);
    }
    void operator()(const Guidance& g) const {
        lot(g.product, g.lot);
        if (g.place) place(*g.place);
    }
    void operator()(const Incident& i) const {
        if (i.place) place(*i.place);
    }
    void operator()(const Plan&) const {}
    void operator()(const ProgrammeRules& r) const {
        for (const auto& condition : r.report)
            for (const auto& id : condition.products) product(id);
    }
    void operator()(const Maker& m) const { product(m.product); }
    void operator()(const Report& r) const {
        if (!p.store_.incident_named(r.incident, [&](EntryNumber n) { return p.known_.is_known(n); }))
            refuse(Code::not_defined, where, "incident", quoted(r.incident),
                   "no entry of this incident is there; post its step \"noticed\" first");
        for (const auto& t : r.told) {
            lot(t.product, t.lot);
            place(t.place);
        }
    }
    Give give_of(EntryNumber number) const {
        const auto e =
            number <= p.tip_.entry && p.known_.is_known(number) ? p.store_.entry(number, false) : std::nullopt;
        const auto* g = e ? std::get_if<Give>(&e->fact) : nullptr;
        if (!g)
            refuse(Code::not_defined, where, "give", std::to_string(number),
                   "must be the number of a give that is not void");
        return *g;
    }
    void operator()(const Loan& l) const {
        if (give_of(l.give).fund == l.eligible)
            refuse(Code::contradiction, where, "eligible", quoted(l.eligible),
                   "is the fund the dose came from: nothing is owed");
        p.store_.for_each_duty(Loan::kind, p.tip_.entry, [&](const Entry& e) {
            if (p.known_.is_known(e.number) && std::get<Loan>(e.fact).give == l.give)
                refuse(Code::contradiction, where, "give", std::to_string(l.give),
                       "is lent already, by entry " + std::to_string(e.number));
        });
    }
    void operator()(const Repayment& r) const {
        const auto e =
            r.loan <= p.tip_.entry && p.known_.is_known(r.loan) ? p.store_.entry(r.loan, false) : std::nullopt;
        const auto* loan = e ? std::get_if<Loan>(&e->fact) : nullptr;
        if (!loan)
            refuse(Code::not_defined, where, "loan", std::to_string(r.loan),
                   "must be the number of a loan that is not void");
        const Give lent = give_of(loan->give);
        std::int64_t open = lent.doses.count(), left = 0;
        if (r.with) left = doses_back(*r.with, lent, *loan);
        p.store_.for_each_duty(Repayment::kind, p.tip_.entry, [&](const Entry& other) {
            if (!p.known_.is_known(other.number)) return;
            const auto& o = std::get<Repayment>(other.fact);
            if (o.loan == r.loan) open -= o.doses.count();
            if (r.with && o.with == r.with) left -= o.doses.count();
        });
        if (r.doses.count() > open)
            refuse(Code::not_enough, where, "doses", std::to_string(r.doses.count()),
                   "must be at most the " + std::to_string(open) + " that are still owed");
        if (r.with && r.doses.count() > left)
            refuse(Code::not_enough, where, "with", std::to_string(*r.with),
                   "that entry has only " + std::to_string(left) + " doses left to repay with");
    }
    /// Doses of the entry by which a loan is said to be repaid.
    std::int64_t doses_back(EntryNumber number, const Give& lent, const Loan& loan) const {
        const auto e =
            number <= p.tip_.entry && p.known_.is_known(number) ? p.store_.entry(number, false) : std::nullopt;
        if (e) {
            const auto* r = std::get_if<Receive>(&e->fact);
            const auto* g = std::get_if<Give>(&e->fact);
            if (r && r->product == lent.product && r->fund == lent.fund) return r->doses.count();
            if (g && g->product == lent.product && g->fund == loan.eligible) return g->doses.count();
        }
        refuse(Code::not_defined, where, "with", std::to_string(number),
               "must be a receive of " + quoted(lent.product) + " into fund " + quoted(lent.fund) +
                   ", or a give of it out of fund " + quoted(loan.eligible) + ", not void");
    }
    void operator()(const FollowUp& u) const { give_of(u.give); }
    void operator()(const Training&) const {}
    void operator()(const Trip& t) const { place(t.container, "container"); }
    void operator()(const Void& v) const { p.check_void(v, where); }
    /// give, waste, return, transfer, count
    template <class Leaving>
    void operator()(const Leaving& l) const {
        lot(l.product, l.lot);
        place(l.place);
    }
};

Posting::Posting(Store& store) : store_(store), tip_(store.tip()) {
    if (tip_.entry == 0) return;
    known_ = Known::load(store, tip_.entry);
    last_recorded_ = store.recorded(tip_.entry);
}

void Posting::post(Entry& e, const std::string& where) {
    new_balances_.clear();
    if (tip_.entry == 0 && !std::holds_alternative<Site>(e.fact))
        refuse(Code::no_site, where, "kind", quoted(std::string(kind_of(e))),
               "the first entry of a ledger must be a site");
    if (e.number != tip_.entry + 1)
        refuse(Code::out_of_order, where, "entry", std::to_string(e.number),
               "must be " + std::to_string(tip_.entry + 1) + ", the number after the last");
    if (last_recorded_ && *e.recorded < *last_recorded_)
        refuse(Code::out_of_order, where, "recorded", e.recorded->text(),
               "must not be before the entry before, " + last_recorded_->text());
    check_clock(*e.recorded, where);
    if (e.at && *e.at > *e.recorded)
        refuse(Code::too_late, where, "at", e.at->text(), "must not be later than the posting, " + e.recorded->text());

    std::visit(Rules{*this, e, where}, e.fact);
    if (auto* r = std::get_if<Readings>(&e.fact)) check_readings(*r, e, where);
    check_movement(e, where);

    tip_ = store_.append(e, tip_);
    for (const auto& [holding, balance] : new_balances_)
        store_.set_balance(holding > 0 ? holding : id_of_new(holding, e), balance);
    store_.set_tip(tip_);
    known_.add(e);
    last_recorded_ = e.recorded;
}

bool Posting::lot_defined(const std::string& product, const std::string& lot) const {
    const auto id = store_.lot(product, lot);
    return id && !known_.expiry(store_.lot_definitions(*id)).empty();
}

// ---- stock

std::vector<Movement> Posting::timeline_of(std::int64_t lot, const Movement* extra, EntryNumber without) const {
    auto all = store_.movements(lot);
    std::erase_if(all, [&](const Movement& m) { return m.entry == without || known_.voided.contains(m.entry); });
    if (extra) {
        const auto place = std::upper_bound(all.begin(), all.end(), *extra, [](const Movement& a, const Movement& b) {
            return std::pair(a.at, a.entry) < std::pair(b.at, b.entry);
        });
        all.insert(place, *extra);
    }
    return all;
}

void Posting::walk(std::int64_t lot, const Movement* extra, EntryNumber without, const std::string& where,
                   const std::string& field) {
    StockWalk stock;
    std::unordered_map<std::int64_t, std::int64_t> last_at;
    for (const Movement& m : timeline_of(lot, extra, without)) {
        if (const auto refused = stock.apply(m)) {
            const std::string against = english().say(*refused);
            const Code code = m.op == MovementOp::count ? Code::not_there : Code::not_enough;
            if (extra && m.entry == extra->entry) throw Error(code, where + ": " + field + ": " + against);
            const Entry other = store_.named_entry(m.entry);
            throw Error(
                code, where + ": " + field + ": entry " + std::to_string(m.entry) + " (" + std::string(kind_of(other)) +
                          " at " + known_.zone().local_text(Instant(m.at)) + ") then " + against +
                          "; take back or correct that one first, or, where more were there than the book says, note a "
                          "count of them just before this");
        }
        if (m.op == MovementOp::beyond_use) continue;
        if (m.source) last_at[m.source] = m.at;
        if (m.target) last_at[m.target] = m.at;
    }
    for (const auto& h : store_.holdings(lot)) last_at.try_emplace(h.holding, INT64_MIN);
    for (const auto& [holding, at] : last_at) new_balances_[holding] = {stock.doses(holding), at};
}

namespace {

// Holdings that the entry to be posted makes: they have no row before it has one.
constexpr std::int64_t new_source = -1, new_target = -2;

}  // namespace

std::int64_t Posting::id_of_new(std::int64_t holding, const Entry& e) const {
    const auto names = *movement_names(e.fact);
    const bool source = holding == new_source;
    return *store_.holding(*store_.lot(names.product, names.lot), source ? names.source_place : names.target_place,
                           names.fund, source ? names.source_mark : names.target_mark);
}

void Posting::check_movement(const Entry& e, const std::string& where) {
    const auto names = movement_names(e.fact);
    if (!names) return;
    const auto lot = *store_.lot(names->product, names->lot);
    const auto holding = [&](const std::string& place, const std::string& mark, std::int64_t if_new) {
        return place.empty() ? 0 : store_.holding(lot, place, names->fund, mark).value_or(if_new);
    };
    const Movement m{e.at->seconds_since_1970(),
                     e.number,
                     names->op,
                     holding(names->source_place, names->source_mark, new_source),
                     holding(names->target_place, names->target_mark, new_target),
                     names->doses,
                     names->flag};

    if (m.op == MovementOp::beyond_use) {
        auto balance = store_.balance(m.source);
        if (balance.last_at > m.at) {
            StockWalk stock;
            for (const Movement& other : timeline_of(lot, nullptr, 0))
                if (other.at <= m.at) stock.apply(other);
            balance.doses = stock.doses(m.source);
        }
        if (balance.doses == 0)
            throw Error(Code::not_there, where + ": place: " + quoted(names->source_place) + ": no doses of lot " +
                                             quoted(names->lot) + " are there then (with this fund and mark)");
        return;
    }

    const std::string field = "doses: " + std::to_string(m.doses);
    // the newest of its holdings: their balances say all; else the lot's whole timeline must hold with it
    auto source = m.source ? store_.balance(m.source) : Store::Balance{};
    auto target = m.target ? store_.balance(m.target) : Store::Balance{};
    if (source.last_at > m.at || target.last_at > m.at) {
        walk(lot, &m, 0, where, field);
        return;
    }
    const auto lot_text = [&] {
        return "; lot " + quoted(names->lot) + " in " + quoted(names->source_place) +
               (names->fund.empty() ? "" : ", fund " + quoted(names->fund)) +
               (names->source_mark.empty() ? "" : ", mark " + quoted(names->source_mark));
    };
    if (m.op == MovementOp::count) {
        if (m.doses > 0 && source.doses == 0)
            throw Error(Code::not_there,
                        where + ": " + field + ": no doses are there then: receive or move them instead" + lot_text());
        if (source.doses > 0) source.doses = m.doses;
    } else if (m.source) {
        if (source.doses < m.doses)
            throw Error(Code::not_enough, where + ": " + field + ": must be at most the " +
                                              std::to_string(source.doses) + " that are there then" + lot_text());
        source.doses -= m.doses;
    }
    if (m.source) new_balances_[m.source] = {source.doses, m.at};
    if (m.target) new_balances_[m.target] = {target.doses + m.doses, m.at};
}

// ---- readings

void Posting::check_readings(Readings& r, const Entry& e, const std::string& where) {
    auto& rows = r.rows;
    const auto earlier = [](const Reading& a, const Reading& b) { return a.at < b.at; };
    const bool ascend = std::adjacent_find(rows.begin(), rows.end(), [](const Reading& a, const Reading& b) {
                            return a.at >= b.at;
                        }) == rows.end();
    if (!ascend || rows.back().at > *e.recorded)
        for (std::size_t i = 0; i < rows.size(); ++i)
            if (rows[i].at > *e.recorded)
                refuse(Code::too_late, where, "rows[" + std::to_string(i) + "]", rows[i].at.text(),
                       "must not be later than the posting, " + e.recorded->text());
    if (!ascend) {
        std::stable_sort(rows.begin(), rows.end(), earlier);
        for (std::size_t i = 1; i < rows.size(); ++i)
            if (rows[i].at == rows[i - 1].at && rows[i].thousandths != rows[i - 1].thousandths)
                refuse(Code::readings_differ, where, "rows", reading_text(rows[i], r.scale),
                       "another row says " + reading_text(rows[i - 1], r.scale));
        rows.erase(std::unique(rows.begin(), rows.end()), rows.end());
    }

    ReadingsBetween there(store_, known_, r.probe, rows.front().at.seconds_since_1970(),
                          rows.back().at.seconds_since_1970());
    auto row = rows.begin();
    while (const auto* next = there.next()) {
        const auto& [old, entry] = *next;
        while (row != rows.end() && row->at < old.at) ++row;
        if (row == rows.end()) break;
        if (row->at == old.at && row->thousandths != old.thousandths)
            refuse(Code::readings_differ, where, "rows", reading_text(*row, r.scale),
                   "entry " + std::to_string(entry) + " says " + reading_text(old, r.scale) +
                       "; void that entry first if it is wrong");
    }
}

// ---- handovers and voids

void Posting::check_handovers(const std::string& product, const Product& definition, const std::string& where,
                              const std::string& field) const {
    const auto seconds = allowance_seconds(definition);
    for (const auto& [number, lot] : store_.handovers()) {
        if (known_.voided.contains(number)) continue;
        const auto r = store_.fact<Receive>(number);
        if (r.product == product && r.handover.value().allowance_seconds != seconds)
            refuse(Code::handover_differs, where, field, seconds_text(seconds),
                   "must equal those of the handover of entry " + std::to_string(number) +
                       " in number and seconds, in order: " + seconds_text(r.handover.value().allowance_seconds));
    }
}

/// What taking back an entry would leave: no definition may go that nothing else makes and that an entry still names.
struct Posting::Voiding {
    Posting& p;
    EntryNumber voids;
    const Entry& target;
    const std::string& where;

    [[noreturn]] void refuse(Code code, const std::string& why) const {
        ledger::refuse(code, where, "voids", std::to_string(voids), why);
    }
    [[noreturn]] void refuse_in_use(EntryNumber by) const {
        refuse(Code::in_use, "entry " + std::to_string(by) +
                                 " names it, and nothing else defines it; define it anew first, or void that entry");
    }
    void none_names_it(const std::vector<EntryNumber>& entries) const {
        for (const EntryNumber n : entries)
            if (!p.known_.voided.contains(n)) refuse_in_use(n);
    }
    void none_names_it(const auto& facts, auto names) const {
        for (const auto& x : facts)
            if (names(x.fact)) refuse_in_use(x.entry);
    }
    /// The same of reports, which name what they told.
    void none_told_it(auto names) const {
        none_names_it(p.known_.reports, [&](const Report& r) { return std::ranges::any_of(r.told, names); });
    }
    bool is_defined_otherwise(const auto& definitions, const std::string& id) const {
        const auto it = definitions.find(id);
        return it != definitions.end() && std::ranges::any_of(it->second, [&](const auto& d) {
                   return d.entry != voids;
               });
    }
    std::string field() const { return "voids: " + std::to_string(voids); }

    void operator()(const Product& product) const {
        const Known& known = p.known_;
        const std::string& id = product.product;
        if (is_defined_otherwise(known.products, id)) {
            const auto& all = known.products.at(id);
            if (all.back().entry == voids) p.check_handovers(id, all[all.size() - 2].fact, where, field());
            return;
        }
        for (const auto& l : p.store_.lots()) {
            if (l.product != id) continue;
            none_names_it(p.store_.movements_of(l.lot));
            none_names_it(entries_defining(l.lot));
        }
        none_names_it(known.holds, [&](const Hold& h) { return h.product == id; });
        none_names_it(known.guidance, [&](const Guidance& g) { return g.product == id; });
        none_names_it(known.programme_rules, [&](const ProgrammeRules& r) {
            return std::ranges::any_of(r.report, [&](const auto& c) { return std::ranges::count(c.products, id) > 0; });
        });
        if (const auto it = known.makers.find(id); it != known.makers.end())
            none_names_it(it->second, [](const Maker&) { return true; });
        none_told_it([&](const Report::Told& t) { return t.product == id; });
    }
    void operator()(const Lot& lot) const {
        const auto id = *p.store_.lot(lot.product, lot.lot);
        for (const EntryNumber n : entries_defining(id))
            if (n != voids && !p.known_.voided.contains(n)) return;
        const auto is_it = [&](const auto& x) { return x.product == lot.product && x.lot == lot.lot; };
        none_names_it(p.store_.movements_of(id));
        none_names_it(p.known_.holds, is_it);
        none_names_it(p.known_.guidance, is_it);
        none_told_it(is_it);
    }
    void operator()(const Place& place) const {
        if (is_defined_otherwise(p.known_.places, place.place)) return;
        const auto is_it = [&](const auto& x) { return x.place == place.place; };
        none_names_it(p.store_.entries_naming_place(place.place));
        none_names_it(p.known_.assigns, is_it);
        none_names_it(p.known_.holds, is_it);
        none_names_it(p.known_.guidance, is_it);
        none_told_it(is_it);
        none_names_it(p.known_.trips, [&](const Trip& t) { return t.container == place.place; });
    }
    void operator()(const Probe& probe) const {
        if (is_defined_otherwise(p.known_.probes, probe.probe)) return;
        none_names_it(p.store_.entries_naming_probe(probe.probe));
        none_names_it(p.known_.assigns, [&](const Assign& a) { return a.probe == probe.probe; });
        if (const auto it = p.known_.certificates.find(probe.probe); it != p.known_.certificates.end())
            none_names_it(it->second, [](const Certificate&) { return true; });
    }
    /// Of the other kinds, movements leave a balance.
    template <class Other>
    void operator()(const Other&) const {
        if (const auto names = movement_names(target.fact))
            p.walk(*p.store_.lot(names->product, names->lot), nullptr, voids, where, field());
    }

    std::vector<EntryNumber> entries_defining(std::int64_t lot) const {
        std::vector<EntryNumber> out;
        for (const auto& [entry, expiry] : p.store_.lot_definitions(lot)) out.push_back(entry);
        return out;
    }
};

void Posting::check_void(const Void& v, const std::string& where) {
    const auto no = [&](const std::string& why) {
        refuse(Code::not_voidable, where, "voids", std::to_string(v.voids), why);
    };
    if (v.voids > tip_.entry) no("must be the number of an entry before this one");
    if (known_.voided.contains(v.voids)) no("is void already");
    const auto target = store_.entry(v.voids, false);
    if (!target) throw Error(Code::damaged, "entry " + std::to_string(v.voids) + " is missing");
    if (std::holds_alternative<Void>(target->fact)) no("is a void, which cannot be voided; post the entry anew");
    if (v.voids == 1) no("is the first site entry, which cannot be voided; post a site entry that corrects it");
    std::visit(Voiding{*this, v.voids, *target, where}, target->fact);
}

}  // namespace coldtally::ledger
