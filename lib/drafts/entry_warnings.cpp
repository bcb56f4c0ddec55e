#include "drafts/entry_warnings.hpp"

#include <algorithm>

#include "conditions/incident_spans.hpp"
#include "drafts/limit_doubts.hpp"
#include "drafts/read_back.hpp"
#include "drafts/token_doubts.hpp"
#include "ledger/funds.hpp"
#include "stock/last_use.hpp"
#include "text/json_text.hpp"

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

void lose(std::vector<std::string>& out, const char* name, const std::optional<Limit>& before,
          const std::optional<Limit>& now) {
    if (before && !now) out.push_back(std::string(name) + " " + both_scales(*before));
}

void lose_sides(std::vector<std::string>& out, const Range& before, const Range& now) {
    lose(out, "the lower limit", before.low, now.low);
    lose(out, "the upper limit", before.high, now.high);
}

template <class T>
void lose(std::vector<std::string>& out, const char* name, const std::optional<T>& before,
          const std::optional<T>& now) {
    if (before && !now) out.emplace_back(name);
}

/// What stands in `before` and not in `now`.
struct Loser {
    const ledger::Known& known;
    const bool changed_too;  // also an allowance whose time alone is another
    using Lost = std::vector<std::string>;

    Lost operator()(const Product& p) const {
        Lost out;
        const Product* before = known.product(p.product);
        if (!before) return out;
        lose_sides(out, before->range, p.range);
        lose(out, "the freeze limit", before->freeze_limit, p.freeze_limit);
        const auto now = p.allowances.value_or(std::vector<Allowance>());
        for (const auto& a : before->allowances.value_or(std::vector<Allowance>())) {
            const auto same = std::find_if(now.begin(), now.end(),
                                           [&](const auto& b) { return b.low == a.low && b.high == a.high; });
            if (same != now.end() && (same->seconds >= a.seconds || !changed_too)) continue;
            out.push_back("the allowance of " + whole_duration_words(a.seconds) + " from " +
                          both_scales(Range{a.low, a.high}) +
                          (same != now.end() ? " (now " + whole_duration_words(same->seconds) + ")" : ""));
        }
        for (const auto& [event, period] : before->beyond_use.value_or(std::map<std::string, Duration>()))
            if (!p.beyond_use || !p.beyond_use->contains(event))
                out.push_back("the period of beyond-use after " + text::quoted(event));
        lose(out, "the CVX code", before->cvx, p.cvx);
        for (const auto& gtin : before->gtin.value_or(std::vector<std::string>()))
            if (!p.gtin || std::find(p.gtin->begin(), p.gtin->end(), gtin) == p.gtin->end())
                out.push_back("the GTIN " + gtin);
        lose(out, "the doses in a vial", before->doses_per_vial, p.doses_per_vial);
        return out;
    }
    Lost operator()(const Place& p) const {
        Lost out;
        const Place* before = known.place(p.place);
        if (!before) return out;
        lose_sides(out, before->range, p.range);
        lose(out, "the longest step between two readings", before->max_gap, p.max_gap);
        lose(out, "the longest step between two checks", before->max_check_gap, p.max_check_gap);
        lose(out, "how far a reading in range speaks for the time around it", before->near, p.near);
        return out;
    }
    Lost operator()(const Probe& p) const {
        Lost out;
        if (const Probe* before = known.probe(p.probe)) lose(out, "the serial number", before->serial, p.serial);
        return out;
    }
    Lost operator()(const Site& s) const {
        Lost out;
        if (known.sites.empty()) return out;
        lose(out, "the time without known temperature that does not yet mean quarantine",
             known.site().unmonitored_limit, s.unmonitored_limit);
        lose(out, "the time after which data that have not come count as not known", known.site().stale_after,
             s.stale_after);
        return out;
    }
    Lost operator()(const Maker& m) const {
        Lost out;
        const Maker* before = known.maker(m.product);
        if (!before) return out;
        lose(out, "the contact", before->contact, m.contact);
        lose(out, "the telephone number", before->phone, m.phone);
        lose(out, "the email address", before->email, m.email);
        return out;
    }
    Lost operator()(const Certificate& c) const {
        Lost out;
        const auto all = known.certificates.find(c.probe);
        if (all == known.certificates.end() || all->second.empty()) return out;
        const Certificate& before = all->second.back().fact;
        lose(out, "a tolerance", before.tolerance, c.tolerance);
        lose(out, "corrections", before.correction, c.correction);
        return out;
    }
    template <class Other>
    Lost operator()(const Other&) const {
        return {};
    }
};

std::string joined(const std::vector<std::string>& parts) {
    std::string out;
    for (std::size_t i = 0; i < parts.size(); ++i)
        out += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
    return out;
}

}  // namespace

struct EntryWarnings::Teller {
    EntryWarnings& of;
    const Entry& entry;
    std::vector<std::string>& out;
    const UseBy& use_by;

    void say(const std::string& text) const {
        if (std::find(out.begin(), out.end(), text) == out.end()) out.push_back(text);
    }
    const ledger::Known& known() const { return of.known_; }

    std::optional<Date> expiry(const std::string& product, const std::string& lot) const {
        const auto id = of.store_.lot(product, lot);
        const std::string text = id ? known().expiry(of.store_.lot_definitions(*id)) : std::string();
        return text.empty() ? std::nullopt : std::optional(Date::parse_expiry(text));
    }

    void limits(const std::string& thing, const std::string& id) const {
        for (const auto& doubt : limit_doubts(entry.fact)) say(thing + " " + text::quoted(id) + ": " + doubt);
        for (const auto& unusual : unusual_limits(entry.fact)) say(thing + " " + text::quoted(id) + ": " + unusual);
    }
    /// What the definition that holds says and this one in its place would not; empty where it is the first.
    std::vector<std::string> lost() const {
        return std::visit(Loser{known(), of.changes_ == Changes::not_said}, entry.fact);
    }
    void loses(const std::string& thing, const std::string& id) const {
        const auto gone = lost();
        if (!gone.empty())
            say(thing + " " + text::quoted(id) + " loses, for all that was and will be asked: " + joined(gone));
    }

    void operator()(const Site& s) const {
        if (!known().sites.empty()) loses("site", s.name);
    }
    void operator()(const Product& p) const {
        limits("product", p.product);
        for (const auto& hole : holes(p))
            say("HOLE between the limits of product " + text::quoted(p.product) + ": " + hole);
        loses("product", p.product);
    }
    void operator()(const Place& p) const {
        limits("place", p.place);
        loses("place", p.place);
    }
    void operator()(const Probe& p) const { loses("probe", p.probe); }
    void operator()(const Maker& m) const { loses("maker of", m.product); }
    void operator()(const Certificate& c) const {
        const auto gone = lost();
        if (!gone.empty())
            say("the certificate before of probe " + text::quoted(c.probe) + " states " + joined(gone) +
                ", and this one does not");
        if (const Probe* probe = known().probe(c.probe))
            for (const auto& doubt : correction_doubts(c, probe->scale))
                say("certificate of probe " + text::quoted(c.probe) + ": " + doubt);
    }
    void operator()(const ProgrammeRules& r) const {
        for (const auto& rule : r.report)
            if (rule.temperature && rule.temperature->limit)
                for (const auto& doubt :
                     pair_doubts("the limit of rule " + text::quoted(rule.rule), *rule.temperature->limit))
                    say(doubt);
    }

    void new_fund(const std::string& fund) const {
        const auto& used = of.funds();
        if (used.empty() || used.contains(fund)) return;
        std::string others;
        for (const auto& other : used)
            others +=
                (others.empty() ? "" : ", ") + (other.empty() ? std::string("the empty one") : text::quoted(other));
        say((fund.empty() ? std::string("the empty fund") : "fund " + text::quoted(fund)) +
            " has never been used here; used are " + others +
            ": read it again, since stocks of two funds are never one");
    }
    void operator()(const Receive& r) const {
        new_fund(r.fund);
        if (of.funds_) of.funds_->insert(r.fund);
    }
    void operator()(const Loan& l) const { new_fund(l.eligible); }
    void operator()(const Give& g) const {
        if (const auto doubt = token_doubt(g.patient); !doubt.empty()) say(doubt);
    }

    void operator()(const Incident& i) const {
        if (i.step != "noticed" || !entry.at) return;
        const std::int64_t at = entry.at->seconds_since_1970();
        const auto said = [&](std::int64_t t) { return known().zone().local_text(Instant(t)); };
        for (const auto& span : incident_spans(incident_steps(of.store_, known(), std::nullopt)))
            if (span.incident == i.incident && span.notice > 0)
                say("incident " + i.incident + " was noticed already, at " + said(*span.noticed) + " (entry " +
                    std::to_string(span.notice) + "): the earlier notice counts");
        for (const auto& span : incident_spans(incident_steps(of.store_, known(), at)))
            if (span.incident != i.incident && span.is_open() && (!i.place || span.of(*i.place)))
                say("incident " + span.incident + (i.place ? " of " + *i.place : "") + " is open since " +
                    said(span.since()) + (span.notice > 0 ? " (entry " + std::to_string(span.notice) + ")" : "") +
                    ": a second notice of one place is a second incident; if it is the same, note a step of " +
                    span.incident + " instead");
    }

    void after_expiry(const std::string& product, const std::string& lot,
                      const std::variant<Instant, Date>& until) const {
        const auto last = expiry(product, lot);
        if (!last) return;
        const auto* date = std::get_if<Date>(&until);
        const Instant ends = date ? known().zone().end_of_day(*date) : std::get<Instant>(until);
        if (ends <= known().zone().end_of_day(*last)) return;
        say("the use-by, " + (date ? date->text() : known().zone().local_text(ends)) + ", is after the expiry of lot " +
            text::quoted(lot) + ", " + last->text() +
            ": the expiry stays the last day; a longer one is the lot's, defined anew by the maker's letter");
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
        say("the reason says expired, and " +
            (sooner
                 ? "these doses of lot " + text::quoted(t.lot) + " may be used " + usable_words(*until, known().zone())
                 : "lot " + text::quoted(t.lot) + " may be used through " + last->text()) +
            (use_by ? "" : ", unless these doses had a use-by of their own") + ": read the label again");
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

void EntryWarnings::add(const Entry& entry, std::vector<std::string>& out, const UseBy& use_by) {
    std::visit(Teller{*this, entry, out, use_by}, entry.fact);
}

}  // namespace coldtally::answers
