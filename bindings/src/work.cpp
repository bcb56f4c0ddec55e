// coldtally._core.Ledger: everyday work: drafts, journeys, steps of an incident, and what entries would change.
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include "coldtally/work.hpp"
#include "handle.hpp"

namespace py = pybind11;

namespace coldtally::python {

namespace {


Meant meant(bool yes, bool dry_run) { return {yes, dry_run}; }

Instant instant_or_now(const Ledger& ledger, OptionalText at, Instant now) {
    return at ? read_instant(ledger, "at", *at, std::nullopt, now) : now;
}

/// What was posted; what is asked about is raised, and nothing was written.
Answer answer_of_work(WorkDone done) {
    require_meant(done);
    std::optional<Zone> zone;  // of a ledger that a dry run does not make
    if (std::holds_alternative<Site>(done.posted.what.entries.front().fact)) zone = done.zone;
    Answer out = answer_of(std::move(done));
    out.zone = std::move(zone);
    return out;
}

Answer post_draft(Handle& handle, Text fields, bool yes, std::int64_t now, bool dry_run) {
    return handle.with(
        [&](Ledger& l) { return answer_of_work(Work(l, Instant(now)).post(fields, meant(yes, dry_run))); });
}

Answer post_definition(Handle& handle, Text fields, bool yes, std::int64_t now, bool dry_run) {
    return handle.with(
        [&](Ledger& l) { return answer_of_work(Work(l, Instant(now)).define(fields, meant(yes, dry_run))); });
}

Answer post_transfer(Handle& handle, Text fields, OptionalText file, bool yes, std::int64_t now, bool dry_run) {
    return handle.with([&](Ledger& l) {
        return answer_of(Work(l, Instant(now))
                             .transfer(fields, file, false, meant(yes, dry_run), paper_of(l, std::nullopt)));
    });
}

Answer post_with_changes(Handle& handle, Text fields, std::int64_t now, bool dry_run) {
    return handle.with(
        [&](Ledger& l) { return answer_of_work(Work(l, Instant(now)).judge(fields, meant(false, dry_run))); });
}

Answer changes(Handle& handle, const std::vector<std::string>& drafts, std::int64_t now) {
    return handle.with([&](Ledger& l) {
        std::vector<Entry> entries;
        for (const auto& fields : drafts)
            for (auto& entry : l.draft(fields, Instant(now)).entries) entries.push_back(std::move(entry));
        return answer_of(l.changes(std::move(entries), Instant(now)));
    });
}

Answer pack(Handle& handle, Text place, Text container, Text destination, Text by, OptionalText at,
            const std::vector<std::string>& lots, Text reason, OptionalText unsuited, OptionalText temperature,
            OptionalText container_temperature, OptionalText packed_by, OptionalText approval, OptionalText coolant,
            OptionalText conditioning, OptionalText note, bool yes, std::int64_t now, bool dry_run) {
    if (unsuited && *unsuited != "take" && *unsuited != "leave")
        throw Error(Code::bad_value,
                    "unsuited: \"" + unsuited->substr(0, 80) + "\": must be one of \"take\", \"leave\"");
    PackRequest request;
    request.place = place;
    request.container = container;
    request.destination = destination;
    request.by = by;
    request.at = at;
    request.lots = lots;
    request.reason = reason;
    request.take_unsuited = unsuited == "take";
    request.leave_unsuited = unsuited == "leave";
    request.place_temperature = temperature;
    request.container_temperature = container_temperature;
    request.packed_by = packed_by;
    request.approval = approval;
    request.coolant = coolant;
    request.conditioning = conditioning;
    request.note = note;
    return handle.with(
        [&](Ledger& l) { return answer_of_work(Work(l, Instant(now)).pack(request, meant(yes, dry_run))); });
}

Answer unpack(Handle& handle, Text container, Text place, Text by, OptionalText at,
              const std::vector<std::pair<std::string, std::int64_t>>& counts, bool as_listed, OptionalText mark,
              OptionalText temperature, OptionalText container_temperature, OptionalText received_by, OptionalText note,
              bool yes, std::int64_t now, bool dry_run) {
    UnpackRequest request;
    request.container = container;
    request.place = place;
    request.by = by;
    request.at = at;
    request.counts = counts;
    request.as_listed = as_listed;
    request.mark = mark;
    request.place_temperature = temperature;
    request.container_temperature = container_temperature;
    request.received_by = received_by;
    request.note = note;
    return handle.with(
        [&](Ledger& l) { return answer_of_work(Work(l, Instant(now)).unpack(request, meant(yes, dry_run))); });
}

/// A step of an incident; without a name the next one is opened, with one, and a step other than "noticed", it must be
/// known.
Answer step(Handle& handle, OptionalText incident, Text what, Text text, Text by, OptionalText place, OptionalText at,
            OptionalText no_hold, bool release, OptionalText despite, const std::vector<EntryNumber>& told,
            OptionalText since, OptionalText note, std::int64_t now, bool dry_run) {
    return handle.with([&](Ledger& l) {
        const IncidentStep stated = incident_step_of(what);
        StepRequest request{incident, stated, text, by, place, note, no_hold, release, despite, told};
        if (since) request.since = instant_or_now(l, since, Instant(now));
        const Instant when = instant_or_now(l, at, Instant(now));
        return answer_of(posted_of(Work(l, Instant(now)).step(request, when, dry_run)));
    });
}

Answer report(Handle& handle, Text incident, Text to, Text recipient, Text by, OptionalText reference,
              OptionalText text, bool uncounted, OptionalText at, std::int64_t now, bool dry_run) {
    return handle.with([&](Ledger& l) {
        const ReportRequest request{incident, recipient_of(to), recipient, by, reference, text, uncounted};
        const Instant when = instant_or_now(l, at, Instant(now));
        return answer_of(Work(l, Instant(now)).report(request, when, false, dry_run).posted);
    });
}

Verdict verdict_of(Text name) {
    for (const Verdict v : {Verdict::use, Verdict::use_by, Verdict::discard})
        if (name == verdict_name(v)) return v;
    throw Error(Code::bad_value,
                "verdict: \"" + name.substr(0, 80) + "\": must be one of \"use\", \"use-by\", \"discard\"");
}

Answer answer(Handle& handle, std::int64_t report, Text product, Text lot, Text verdict, Text issuer, Text reference,
              Text by, OptionalText use_by, OptionalText place, OptionalText mark, OptionalText since, OptionalText at,
              OptionalText despite, bool wanted, std::int64_t now) {
    Guidance guidance;
    guidance.product = product;
    guidance.lot = lot;
    guidance.place = place;
    guidance.mark = mark;
    if (since) guidance.since = handle.with([&](Ledger& l) { return instant_or_now(l, since, Instant(now)); });
    guidance.verdict = verdict_of(verdict);
    if (use_by) guidance.use_by = Date::parse(*use_by);
    if ((guidance.verdict == Verdict::use_by) != guidance.use_by.has_value())
        throw Error(Code::contradiction, "use_by: comes with the verdict use-by, and only with it");
    guidance.issuer = issuer;
    guidance.reference = reference;
    return handle.with([&](Ledger& l) {
        Entry entry;
        entry.at = instant_or_now(l, at, Instant(now));
        entry.by = by;
        entry.note = despite;
        entry.fact = guidance;
        AnswerDone answered = Work(l, Instant(now)).answer(report, entry, wanted);
        const Instant known_on = answered.draft.changes.head.known_on;
        Answer out = answer_of(std::move(answered));
        out.known_on = known_on;
        return out;
    });
}

Answer give_records(Handle& handle, Text records, Text by, OptionalText place, OptionalText product, OptionalText fund,
                    OptionalText mark, bool certain, OptionalText note, bool yes, std::int64_t now, bool dry_run) {
    return handle.with([&](Ledger& l) {
        return answer_of(Work(l, Instant(now))
                             .give_records({by, note, place, product, fund, mark, certain}, records,
                                           meant(yes, dry_run)));
    });
}

/// What was taken in; mistakes, and what is asked about, are raised, and nothing was written.
Answer start(Handle& handle, const std::string& file, const std::string& name, Text by, OptionalText at, bool yes,
             std::int64_t now, bool dry_run) {
    return handle.with([&](Ledger& l) {
        StartDone done = Work(l, Instant(now)).start({name, file, by, at}, meant(yes, dry_run));
        require_taken(done);
        const Zone zone(done.draft.zone);  // of a ledger that a dry run does not make
        Answer out = answer_of(std::move(done));
        out.zone = zone;
        return out;
    });
}

std::string make_template(Text what) { return start_template(start_template_of(what), english_for_python()); }

}  // namespace

void bind_work(py::class_<Handle, std::shared_ptr<Handle>>& ledger) {
    using py::arg;
    ledger.def("post_draft", &post_draft, arg("fields"), arg("yes"), arg("now"), arg("dry_run"),
               "Makes a draft (JSON) whole and posts it.");
    ledger.def("post_definition", &post_definition, arg("fields"), arg("yes"), arg("now"), arg("dry_run"),
               "Makes a definition (JSON) whole and posts it, with what it changes.");
    ledger.def("post_transfer", &post_transfer, arg("fields"), arg("file"), arg("yes"), arg("now"), arg("dry_run"),
               "Posts a transfer (JSON), with its handover.");
    ledger.def("post_with_changes", &post_with_changes, arg("fields"), arg("now"), arg("dry_run"),
               "Posts a draft (JSON), with what it changes.");
    ledger.def("changes", &changes, arg("drafts"), arg("now"), "What drafts (JSON each) would change.");
    ledger.def("pack", &pack, arg("place"), arg("container"), arg("destination"), arg("by"), arg("at"), arg("lots"),
               arg("reason"), arg("unsuited"), arg("temperature"), arg("container_temperature"), arg("packed_by"),
               arg("approval"), arg("coolant"), arg("conditioning"), arg("note"), arg("yes"), arg("now"),
               arg("dry_run"), "A place, or lots of it, into a container.");
    ledger.def("unpack", &unpack, arg("container"), arg("place"), arg("by"), arg("at"), arg("counts"), arg("as_listed"),
               arg("mark"), arg("temperature"), arg("container_temperature"), arg("received_by"), arg("note"),
               arg("yes"), arg("now"), arg("dry_run"), "A container, counted, into a place.");
    ledger.def("give_records", &give_records, arg("records"), arg("by"), arg("place"), arg("product"), arg("fund"),
               arg("mark"), arg("certain"), arg("note"), arg("yes"), arg("now"), arg("dry_run"),
               "Gives of the FHIR R4 records of another system.");
    ledger.def("start", &start, arg("file"), arg("name"), arg("by"), arg("at"), arg("yes"), arg("now"), arg("dry_run"),
               "Takes in a file in which a clinic describes itself.");
    ledger.def_static("template", &make_template, arg("what"), "A file to fill in.");
    ledger.def("step", &step, arg("incident"), arg("what"), arg("text"), arg("by"), arg("place"), arg("at"),
               arg("no_hold"), arg("release"), arg("despite"), arg("told"), arg("since"), arg("note"),
               arg("now"), arg("dry_run"), "A step of an incident; without a name: of the next one.");
    ledger.def("report", &report, arg("incident"), arg("to"), arg("recipient"), arg("by"), arg("reference"),
               arg("text"), arg("uncounted"), arg("at"), arg("now"), arg("dry_run"), "A report that was sent.");
    ledger.def("answer", &answer, arg("report"), arg("product"), arg("lot"), arg("verdict"), arg("issuer"),
               arg("reference"), arg("by"), arg("use_by"), arg("place"), arg("mark"), arg("since"), arg("at"),
               arg("despite"), arg("wanted"), arg("now"), "Guidance that answers a report.");
}

}  // namespace coldtally::python
