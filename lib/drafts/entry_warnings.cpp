#include "drafts/entry_warnings.hpp"

#include <algorithm>

#include "conditions/incident_spans.hpp"
#include "drafts/limit_doubts.hpp"
#include "drafts/read_back.hpp"
#include "drafts/redefine.hpp"
#include "drafts/token_doubts.hpp"
#include "ledger/funds.hpp"
#include "stock/last_use.hpp"
#include "text/json_text.hpp"
#include "words/drafts.hpp"
#include "words/drafts_checks.hpp"
#include "words/drafts_limits.hpp"
#include "words/explanation.hpp"
#include "words/lists.hpp"

namespace coldtally::answers {

namespace {

template <class T>
HoldingKey key_of(const T& t) {
    return {t.place, t.product, t.lot, t.fund, t.mark};
}

/// Does a reason say that doses were past their expiry?
bool says_expired(const std::string& reason) {
    std::string lower;
    for (const char c : reason) lower += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const auto begins_word = [&](std::size_t at) { return at == 0 || lower[at - 1] < 'a' || lower[at - 1] > 'z'; };
    const auto says_any = [&](std::initializer_list<const char*> all) {
        for (const char* words : all)
            for (auto at = lower.find(words); at != std::string::npos; at = lower.find(words, at + 1))
                if (begins_word(at) && !(at >= 4 && lower.compare(at - 4, 4, "not ") == 0)) return true;
        return false;
    };
    return says_any({"expired", "out of date", "outdated"}) ||
           (says_any({"expir", "use-by", "use by"}) &&
            says_any({"past", "passed", "exceeded", "elapsed", "lapsed", "ended", "after"}));
}

using Lost = std::vector<Field>;

void lose_limit(Lost& out, const words::Says<1>& says, const std::optional<Limit>& before,
                const std::optional<Limit>& now) {
    if (before && !now) out.push_back(says(both_scales(*before)));
}

void lose_sides(Lost& out, const Range& before, const Range& now) {
    lose_limit(out, words::lost_lower_limit, before.low, now.low);
    lose_limit(out, words::lost_upper_limit, before.high, now.high);
}

template <class T>
void lose(Lost& out, const words::Says<0>& what, const std::optional<T>& before, const std::optional<T>& now) {
    if (before && !now) out.push_back(what());
}

/// What stands in `before` and not in `now`.
struct Loser {
    const ledger::Known& known;
    const bool changed_too;  // also an allowance whose time alone is another

    Lost operator()(const Product& p) const {
        Lost out;
        const Product* before = known.product(p.product);
        if (!before) return out;
        lose_sides(out, before->range, p.range);
        lose_limit(out, words::lost_freeze_limit, before->freeze_limit, p.freeze_limit);
        const auto now = p.allowances.value_or(std::vector<Allowance>());
        for (const auto& a : before->allowances.value_or(std::vector<Allowance>())) {
            const auto same = std::find_if(now.begin(), now.end(),
                                           [&](const auto& b) { return b.low == a.low && b.high == a.high; });
            if (same != now.end() && (same->seconds >= a.seconds || !changed_too)) continue;
            const Field time = whole_duration_words(a.seconds), range = both_scales(Range{a.low, a.high});
            out.push_back(same == now.end()
                              ? words::lost_allowance(time, range)
                              : words::shorter_allowance(time, range, whole_duration_words(same->seconds)));
        }
        for (const auto& [event, period] : before->beyond_use.value_or(std::map<std::string, Duration>()))
            if (!p.beyond_use || !p.beyond_use->contains(event))
                out.push_back(words::lost_period(text::quoted(event)));
        lose(out, words::lost_cvx, before->cvx, p.cvx);
        for (const auto& gtin : before->gtin.value_or(std::vector<std::string>()))
            if (!p.gtin || std::find(p.gtin->begin(), p.gtin->end(), gtin) == p.gtin->end())
                out.push_back(words::lost_gtin(gtin));
        lose(out, words::lost_doses_per_vial, before->doses_per_vial, p.doses_per_vial);
        return out;
    }
    Lost operator()(const Place& p) const {
        Lost out;
        const Place* before = known.place(p.place);
        if (!before) return out;
        lose_sides(out, before->range, p.range);
        lose(out, words::lost_max_gap, before->max_gap, p.max_gap);
        lose(out, words::lost_max_check_gap, before->max_check_gap, p.max_check_gap);
        lose(out, words::lost_near, before->near, p.near);
        return out;
    }
    Lost operator()(const Probe& p) const {
        Lost out;
        if (const Probe* before = known.probe(p.probe)) lose(out, words::lost_serial, before->serial, p.serial);
        return out;
    }
    Lost operator()(const Site& s) const {
        Lost out;
        if (known.sites.empty()) return out;
        lose(out, words::lost_unmonitored_limit, known.site().unmonitored_limit, s.unmonitored_limit);
        lose(out, words::lost_stale_after, known.site().stale_after, s.stale_after);
        return out;
    }
    Lost operator()(const Maker& m) const {
        Lost out;
        const Maker* before = known.maker(m.product);
        if (!before) return out;
        lose(out, words::lost_contact, before->contact, m.contact);
        lose(out, words::lost_phone, before->phone, m.phone);
        lose(out, words::lost_email, before->email, m.email);
        return out;
    }
    Lost operator()(const Certificate& c) const {
        Lost out;
        const auto all = known.certificates.find(c.probe);
        if (all == known.certificates.end() || all->second.empty()) return out;
        const Certificate& before = all->second.back().fact;
        lose(out, words::lost_tolerance, before.tolerance, c.tolerance);
        lose(out, words::lost_corrections, before.correction, c.correction);
        return out;
    }
    template <class Other>
    Lost operator()(const Other&) const {
        return {};
    }
};

}  // namespace

struct EntryWarnings::Teller {
    EntryWarnings& of;
    const Entry& entry;
    std::vector<Remark>& out;
    const UseBy& use_by;

    void say(Remark what) const {
        if (std::find(out.begin(), out.end(), what) == out.end()) out.push_back(std::move(what));
    }
    const ledger::Known& known() const { return of.known_; }

    std::optional<Date> expiry(const std::string& product, const std::string& lot) const {
        const auto id = of.store_.lot(product, lot);
        const std::string text = id ? known().expiry(of.store_.lot_definitions(*id)) : std::string();
        return text.empty() ? std::nullopt : std::optional(Date::parse_expiry(text));
    }

    void limits(const Remark& thing) const {
        for (const auto& doubt : limit_doubts(entry.fact)) say(words::colon(thing, doubt));
        if (!held(known(), of.store_, entry.fact))
            for (const auto& doubt : time_doubts(entry.fact)) say(words::colon(thing, doubt));
        for (const auto& unusual : unusual_limits(entry.fact)) say(words::colon(thing, unusual));
    }
    /// What the definition that holds says and this one in its place would not; empty where it is the first.
    Lost lost() const {
        return std::visit(Loser{known(), of.changes_ == Changes::not_said}, entry.fact);
    }
    void loses(const Remark& thing) const {
        const auto gone = lost();
        if (!gone.empty()) say(words::definition_loses(thing, words::listed_with_and(gone)));
    }

    void operator()(const Site& s) const {
        const Remark thing = words::site_named(text::quoted(s.name));
        limits(thing);
        if (!known().sites.empty()) loses(thing);
    }
    void operator()(const Product& p) const {
        const Remark thing = words::product_named(text::quoted(p.product));
        limits(thing);
        for (const auto& hole : holes(p)) say(words::hole_of_product(text::quoted(p.product), hole));
        loses(thing);
    }
    void operator()(const Place& p) const {
        const Remark thing = words::place_named(text::quoted(p.place));
        limits(thing);
        loses(thing);
    }
    void operator()(const Probe& p) const { loses(words::probe_named(text::quoted(p.probe))); }
    void operator()(const Maker& m) const { loses(words::maker_named(text::quoted(m.product))); }
    void operator()(const Certificate& c) const {
        const auto gone = lost();
        if (!gone.empty())
            say(words::certificate_loses(text::quoted(c.probe), words::listed_with_and(gone)));
        if (const Probe* probe = known().probe(c.probe))
            for (const auto& doubt : correction_doubts(c, probe->scale))
                say(words::certificate_doubt(text::quoted(c.probe), doubt));
    }
    void operator()(const ProgrammeRules& r) const {
        for (const auto& rule : r.report)
            if (rule.temperature && rule.temperature->limit)
                for (const auto& doubt :
                     pair_doubts(words::limit_of_rule(text::quoted(rule.rule)), *rule.temperature->limit))
                    say(doubt);
    }

    void new_fund(const std::string& fund) const {
        const auto& used = of.funds();
        if (used.empty() || used.contains(fund)) return;
        std::vector<Field> others;
        for (const auto& other : used)
            others.push_back(other.empty() ? Field(words::the_empty_one()) : Field(text::quoted(other)));
        say(words::fund_never_used(fund.empty() ? words::the_empty_fund() : words::fund_named(text::quoted(fund)),
                                   words::listed(others)));
    }
    void operator()(const Receive& r) const {
        new_fund(r.fund);
        if (of.funds_) of.funds_->insert(r.fund);
    }
    void operator()(const Loan& l) const { new_fund(l.eligible); }
    void operator()(const Give& g) const {
        if (auto doubt = token_doubt(g.patient)) say(std::move(*doubt));
    }

    void operator()(const Incident& i) const {
        if (i.step != IncidentStep::noticed || !entry.at) return;
        const std::int64_t at = entry.at->seconds_since_1970();
        const auto said = [&](std::int64_t t) { return known().zone().local_text(Instant(t)); };
        for (const auto& span : incident_spans(incident_steps(of.store_, known(), std::nullopt)))
            if (span.incident == i.incident && span.notice > 0)
                say(words::noticed_already(i.incident, said(*span.noticed), span.notice));
        for (const auto& span : incident_spans(incident_steps(of.store_, known(), at)))
            if (span.incident != i.incident && span.is_open() && (!i.place || span.of(*i.place)))
                say(words::another_notice(
                    i.place ? words::incident_of_place(span.incident, *i.place) : words::incident_named(span.incident),
                    span.notice > 0 ? Field(words::in_brackets(said(span.since()), words::entry(span.notice)))
                                    : Field(said(span.since())),
                    span.incident));
    }

    void after_expiry(const std::string& product, const std::string& lot,
                      const std::variant<Instant, Date>& until) const {
        const auto last = expiry(product, lot);
        if (!last) return;
        const auto* date = std::get_if<Date>(&until);
        const Instant ends = date ? known().zone().end_of_day(*date) : std::get<Instant>(until);
        if (ends <= known().zone().end_of_day(*last)) return;
        say(words::use_by_after_expiry(date ? date->text() : known().zone().local_text(ends), text::quoted(lot),
                                       last->text()));
    }
    void operator()(const BeyondUse& b) const {
        if (b.use_by) after_expiry(b.product, b.lot, *b.use_by);
    }
    void operator()(const Guidance& g) const {
        if (g.use_by) after_expiry(g.product, g.lot, *g.use_by);
    }

    template <class T>
    void called_expired(const T& t) const {
        if (!entry.at || !says_expired(t.reason)) return;
        const auto last = expiry(t.product, t.lot);
        if (!last || *entry.at >= known().zone().end_of_day(*last)) return;
        const auto until = use_by ? use_by(key_of(t)) : std::nullopt;
        if (until && *entry.at >= *until) return;
        const bool sooner = until && *until < known().zone().end_of_day(*last);
        if (sooner)
            say(words::called_expired_usable(text::quoted(t.lot), usable_words(*until, known().zone())));
        else
            say((use_by ? words::called_expired : words::called_expired_unless)(text::quoted(t.lot), last->text()));
    }
    void operator()(const Waste& t) const { called_expired(t); }
    void operator()(const Return& t) const { called_expired(t); }

    template <class Other>
    void operator()(const Other&) const {}
};

const std::set<std::string>& EntryWarnings::funds() {
    if (!funds_) funds_ = ledger::funds_used(store_, known_);
    return *funds_;
}

void EntryWarnings::add(const Entry& entry, std::vector<Remark>& out, const UseBy& use_by) {
    std::visit(Teller{*this, entry, out, use_by}, entry.fact);
}

}  // namespace coldtally::answers
