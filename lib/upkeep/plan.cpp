#include "upkeep/plan.hpp"

#include <algorithm>
#include <map>

#include "stock/loans.hpp"
#include "upkeep/last_day.hpp"
#include "words/upkeep.hpp"

namespace coldtally {

std::string_view plan_part_name(PlanFinding::What what) noexcept {
    constexpr std::string_view names[] = {
        "plan",      "people",            "number", "number at night", "alternate", "backup",   "contact",
        "agreement", "date of agreement", "power",  "distance",        "capacity",  "services", "notify",
        "containers", "packing",          "steps",  "review",          "reviewer",  "signature"};
    return names[static_cast<int>(what)];
}

namespace answers {

namespace {

using What = PlanFinding::What;

bool none(const std::optional<std::string>& text) { return !text || text->empty(); }

/// A day that has begun when the question is asked; what is dated later has not been done.
std::optional<Date> done(const World& w, const std::optional<Date>& date) {
    return date && *date <= w.known.zone().local(w.head.at).date ? date : std::nullopt;
}

std::optional<LastDay> last_day_of_review(const World& w, const Plan& p) {
    return last_day(p.review_due, done(w, p.reviewed), every_days(w, "plan review"));
}

class Check {
public:
    Check(const World& w, Instant since) : w_(w), since_(since) {}

    std::vector<PlanFinding> of(const Plan& p) {
        people(p);
        if (p.backups.empty()) missing(What::backup, "", words::no_backup);
        for (const auto& b : p.backups) backup(b);
        if (p.services.empty()) missing(What::services, "", words::no_services);
        if (p.notify.empty()) missing(What::notify, "", words::nobody_to_notify);
        if (none(p.containers)) missing(What::containers, "", words::no_containers);
        if (none(p.packing)) missing(What::packing, "", words::no_packing);
        if (none(p.steps)) missing(What::steps, "", words::no_first_steps);
        review(p);
        signatures(p);
        return std::move(out_);
    }

private:
    /// `says`: of a date that has not come, that.
    template <class Says>
    bool is_to_come(What what, const std::string& of, const std::optional<Date>& date, const Says& says) {
        if (!date || done(w_, date)) return false;
        missing(what, of, says(date->text()));
        return true;
    }
    void missing(What what, const std::string& of, Remark text) {
        out_.push_back({what, of, false, since_, std::move(text)});
    }
    template <class Says>
    void ran_out(What what, const std::string& of, const LastDay& last, const Says& says) {
        const Instant end = w_.known.zone().end_of_day(last.day);
        if (w_.head.at >= end) out_.push_back({what, of, true, end, says(last.day.text(), last.said_by)});
    }

    void people(const Plan& p) {
        if (p.people.empty()) return missing(What::people, "", words::no_people);
        bool at_night = false;
        for (const auto& x : p.people) {
            at_night = at_night || !none(x.home) || !none(x.mobile);
            if (none(x.office) && none(x.home) && none(x.mobile))
                missing(What::number, x.name, words::no_number_for(x.name));
        }
        if (!at_night) missing(What::number_at_night, "", words::no_number_at_night);
        if (std::none_of(p.people.begin(), p.people.end(), [](const auto& x) { return x.alternate; }))
            missing(What::alternate, "", words::no_alternate);
    }

    void agreement(const Plan::Backup& b) {
        if (none(b.agreement) && !b.agreed)
            missing(What::agreement, b.name, words::no_agreement(b.name));
        else if (!b.agreed)
            missing(What::date_of_agreement, b.name, words::agreement_without_date(b.name));
        else
            is_to_come(What::date_of_agreement, b.name, b.agreed,
                       [&](const std::string& day) { return words::agreement_to_come(b.name, day); });
    }

    void backup(const Plan::Backup& b) {
        if (none(b.contact) && none(b.phone)) missing(What::contact, b.name, words::no_contact(b.name));
        if (!w_.known.place(b.name)) agreement(b);  // a place of the site itself needs nobody's agreement
        if (none(b.power)) missing(What::power, b.name, words::no_power(b.name));
        if (none(b.distance)) missing(What::distance, b.name, words::no_distance(b.name));
        if (none(b.capacity)) missing(What::capacity, b.name, words::no_capacity(b.name));
        if (const auto last = last_day(b.agreed_until, done(w_, b.agreed), every_days(w_, "backup agreement")))
            ran_out(What::agreement, b.name, *last, [&](const std::string& day, const Remark& said_by) {
                return words::agreement_ran_out(b.name, day, said_by);
            });
    }

    void review(const Plan& p) {
        if (!p.reviewed)
            missing(What::review, "", words::no_review);
        else if (!is_to_come(What::review, "", p.reviewed, words::review_to_come) && none(p.reviewed_by))
            missing(What::reviewer, "", words::no_reviewer);
        if (const auto last = last_day_of_review(w_, p)) ran_out(What::review, "", *last, words::review_was_due);
    }

    void signatures(const Plan& p) {
        if (p.signatures.empty()) return missing(What::signature, "", words::no_signatures);
        std::map<std::string, Date> last;
        for (const auto& s : p.signatures) {
            if (is_to_come(What::signature, s.name, s.date,
                           [&](const std::string& day) { return words::signature_to_come(s.name, day); }))
                continue;
            const auto [at, fresh] = last.emplace(s.name, s.date);
            if (!fresh) at->second = std::max(at->second, s.date);
        }
        for (const auto& x : p.people)
            if (!last.contains(x.name) &&
                std::none_of(p.signatures.begin(), p.signatures.end(), [&](const auto& s) { return s.name == x.name; }))
                missing(What::signature, x.name, words::no_signature_of(x.name));
        if (!done(w_, p.reviewed)) return;
        for (const auto& [name, signed_on] : last)
            if (signed_on < *p.reviewed)
                out_.push_back({What::signature, name, true, since_,
                                words::signed_before_review(name, signed_on.text(), p.reviewed->text())});
    }

    const World& w_;
    Instant since_;
    std::vector<PlanFinding> out_;
};

/// Has nothing to do with the time that passes, but with what is written.
bool stands_in(const PlanFinding& f) { return !f.old || f.what == What::signature; }
bool same(const PlanFinding& a, const PlanFinding& b) {
    return a.what == b.what && a.of == b.of && a.old == b.old && stands_in(a);
}

std::vector<PlanFinding> findings(World& w, const std::vector<Entry>& plans) {
    if (plans.empty()) return {{What::plan, "", false, first_record(w), words::no_plan}};
    std::vector<PlanFinding> before, now;
    for (const auto& e : plans) {
        now = plan_findings(w, std::get<Plan>(e.fact), *e.at);
        for (auto& f : now)
            for (const auto& b : before)
                if (same(f, b)) f.since = b.since;
        before = now;
    }
    return now;
}

}  // namespace

std::vector<PlanFinding> plan_findings(const World& w, const Plan& p, Instant at) { return Check(w, at).of(p); }
std::vector<PlanFinding> plan_findings(World& w) { return findings(w, duties(w, Plan::kind)); }

PlanAnswer plan(World& w) {
    PlanAnswer out;
    out.head = w.head;
    const auto plans = duties(w, Plan::kind);
    out.findings = findings(w, plans);
    if (plans.empty()) return out;
    const Entry& e = plans.back();
    out.entry = e.number;
    out.since = *e.at;
    out.by = e.by;
    out.plan = std::get<Plan>(e.fact);
    if (const auto last = last_day_of_review(w, out.plan)) out.review_due = w.known.zone().end_of_day(last->day);
    return out;
}

}  // namespace answers
}  // namespace coldtally
