#include "upkeep/plan.hpp"

#include <algorithm>
#include <map>

#include "stock/loans.hpp"
#include "upkeep/last_day.hpp"

namespace coldtally::answers {

namespace {

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
        if (p.backups.empty()) missing("backup", "", "no backup place is named that could take the stock");
        for (const auto& b : p.backups) backup(b);
        if (p.services.empty()) missing("services", "", "no utility and no repair service is named");
        if (p.notify.empty()) missing("notify", "", "nobody is named who must be told");
        if (none(p.containers)) missing("containers", "", "it is not said where containers and coolants are");
        if (none(p.packing)) missing("packing", "", "no way of packing is stated");
        if (none(p.steps)) missing("steps", "", "it is not said what to do first");
        review(p);
        signatures(p);
        return std::move(out_);
    }

private:
    bool is_to_come(const char* what, const std::string& of, const std::optional<Date>& date, const std::string& text) {
        if (!date || done(w_, date)) return false;
        missing(what, of, text + " is dated " + date->text() + ", a day that has not come");
        return true;
    }
    void missing(const char* what, const std::string& of, const std::string& text) {
        out_.push_back({what, of, false, since_, text});
    }
    void ran_out(const char* what, const std::string& of, const LastDay& last, const std::string& text) {
        const Instant end = w_.known.zone().end_of_day(last.day);
        if (w_.head.at >= end)
            out_.push_back({what, of, true, end, text + " on " + last.day.text() + " (" + last.said_by + ")"});
    }

    void people(const Plan& p) {
        if (p.people.empty()) return missing("people", "", "nobody is named to be called");
        bool at_night = false;
        for (const auto& x : p.people) {
            at_night = at_night || !none(x.home) || !none(x.mobile);
            if (none(x.office) && none(x.home) && none(x.mobile))
                missing("number", x.name, "no number is stated for " + x.name);
        }
        if (!at_night)
            missing("number at night", "",
                    "nobody has a number at home or a mobile: outside office hours nobody can be called");
        if (std::none_of(p.people.begin(), p.people.end(), [](const auto& x) { return x.alternate; }))
            missing("alternate", "", "nobody is marked as the coordinator's alternate");
    }

    void backup(const Plan::Backup& b) {
        if (none(b.contact) && none(b.phone))
            missing("contact", b.name, "no contact and no telephone are stated for " + b.name);
        if (!w_.known.place(b.name)) {  // a place of the site itself needs nobody's agreement
            if (none(b.agreement) && !b.agreed) missing("agreement", b.name, "no agreement is stated with " + b.name);
            else if (!b.agreed) missing("date of agreement", b.name, "the agreement with " + b.name + " has no date");
            else is_to_come("date of agreement", b.name, b.agreed, "the agreement with " + b.name);
        }
        if (none(b.power)) missing("power", b.name, "it is not said whether " + b.name + " has alternate power");
        if (none(b.distance)) missing("distance", b.name, "no distance is stated to " + b.name);
        if (none(b.capacity)) missing("capacity", b.name, "it is not said how much " + b.name + " can take");
        if (const auto last = last_day(b.agreed_until, done(w_, b.agreed), every_days(w_, "backup agreement")))
            ran_out("agreement", b.name, *last, "the agreement with " + b.name + " ran out");
    }

    void review(const Plan& p) {
        if (!p.reviewed) missing("review", "", "no date of a review is stated");
        else if (!is_to_come("review", "", p.reviewed, "the review") && none(p.reviewed_by))
            missing("reviewer", "", "it is not said who reviewed the plan");
        if (const auto last = last_day_of_review(w_, p)) ran_out("review", "", *last, "the review was due");
    }

    void signatures(const Plan& p) {
        if (p.signatures.empty()) return missing("signature", "", "nobody has signed the plan");
        std::map<std::string, Date> last;
        for (const auto& s : p.signatures) {
            if (is_to_come("signature", s.name, s.date, "the signature of " + s.name)) continue;
            const auto [at, fresh] = last.emplace(s.name, s.date);
            if (!fresh) at->second = std::max(at->second, s.date);
        }
        for (const auto& x : p.people)
            if (!last.contains(x.name) &&
                std::none_of(p.signatures.begin(), p.signatures.end(), [&](const auto& s) { return s.name == x.name; }))
                missing("signature", x.name, x.name + " has not signed the plan");
        if (!done(w_, p.reviewed)) return;
        for (const auto& [name, signed_on] : last)
            if (signed_on < *p.reviewed)
                out_.push_back(
                    {"signature", name, true, since_,
                     name + " signed on " + signed_on.text() + ", before the review of " + p.reviewed->text()});
    }

    const World& w_;
    Instant since_;
    std::vector<PlanFinding> out_;
};

/// Has nothing to do with the time that passes, but with what is written.
bool stands_in(const PlanFinding& f) { return !f.old || f.what == "signature"; }
bool same(const PlanFinding& a, const PlanFinding& b) {
    return a.what == b.what && a.of == b.of && a.old == b.old && stands_in(a);
}

std::vector<PlanFinding> findings(World& w, const std::vector<Entry>& plans) {
    if (plans.empty()) return {{"plan", "", false, first_record(w), "there is no contingency plan"}};
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

}  // namespace coldtally::answers
