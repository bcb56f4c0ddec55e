#include "entries/duties.hpp"

#include "entries/fields.hpp"

namespace coldtally::entries {

namespace {

constexpr const char* steps[] = {"decided", "told", "answered", "repeated", "tested", "no answer", "not needed"};

std::string needed_text(Fields& f, const char* field) {
    std::string out = f.free_text(field);
    if (out.empty()) f.refuse_value(field, f.value(field), "must not be empty");
    return out;
}

}  // namespace

Loan read_loan(Fields& f) { return {f.whole("give", 1, INT64_MAX), f.label("eligible"), f.free_text("reason")}; }

Repayment read_repayment(Fields& f) {
    Repayment r;
    r.loan = f.whole("loan", 1, INT64_MAX);
    r.doses = f.doses("doses");
    if (f.has("with")) r.with = f.whole("with", 1, INT64_MAX);
    return r;
}

FollowUp read_follow_up(Fields& f) {
    FollowUp u;
    u.give = f.whole("give", 1, INT64_MAX);
    u.step = steps[f.choice("step", {steps[0], steps[1], steps[2], steps[3], steps[4], steps[5], steps[6]})];
    if (f.has("text")) u.text = f.free_text("text");
    return u;
}

Training read_training(Fields& f) {
    Training t;
    t.person = needed_text(f, "person");
    t.topic = needed_text(f, "topic");
    if (f.has("due")) t.due = f.date("due");
    if (f.has("reference")) t.reference = f.free_text("reference");
    return t;
}

void print_loan(nlohmann::ordered_json& out, const Loan& l) {
    out["give"] = l.give;
    out["eligible"] = l.eligible;
    out["reason"] = l.reason;
}

void print_repayment(nlohmann::ordered_json& out, const Repayment& r) {
    out["loan"] = r.loan;
    out["doses"] = r.doses.count();
    if (r.with) out["with"] = *r.with;
}

void print_follow_up(nlohmann::ordered_json& out, const FollowUp& u) {
    out["give"] = u.give;
    out["step"] = u.step;
    if (!u.text.empty()) out["text"] = u.text;
}

void print_training(nlohmann::ordered_json& out, const Training& t) {
    out["person"] = t.person;
    out["topic"] = t.topic;
    if (t.due) out["due"] = t.due->text();
    if (t.reference) out["reference"] = *t.reference;
}

}  // namespace coldtally::entries
