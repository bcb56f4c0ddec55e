// The questions of coldtally._core.Ledger, by the rooms of the library.
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include "coldtally/handover_work.hpp"
#include "handle.hpp"

namespace py = pybind11;

namespace coldtally::python {

namespace {

/// f(ledger, question, now) -> a plain answer
template <class F>
Answer ask(Handle& handle, const Asked& asked, F f) {
    return handle.with(
        [&](Ledger& ledger) { return answer_of(f(ledger, read_question(ledger, asked), Instant(asked.now))); });
}

struct Window {
    Instant from, until;
};

Window window_of(const Ledger& ledger, Text from, Text until, const Question& question, Instant now) {
    const Instant a = read_from(ledger, from, question.known_on, now);
    return {a, read_until(ledger, until, question.known_on, now, a)};
}

void bind_stock(LedgerClass& ledger) {
    ledger.def(
        "stock",
        [](Handle& handle, const Asked& asked) {
            return ask(handle, asked, [](Ledger& l, const Question& q, Instant now) { return l.stock(q, now); });
        },
        py::arg("asked"), "Doses by holding.");
    ledger.def(
        "lists",
        [](Handle& handle, const Asked& asked) {
            return ask(handle, asked, [](Ledger& l, const Question& q, Instant now) { return l.lists(q, now); });
        },
        py::arg("asked"), "The three lists.");
    ledger.def(
        "scan",
        [](Handle& handle, const Asked& asked, Text code) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) { return l.scan(code, q, now); });
        },
        py::arg("asked"), py::arg("code"), "What a scanned code says.");
    ledger.def(
        "review",
        [](Handle& handle, const Asked& asked, bool all) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) { return l.review(q, now, all); });
        },
        py::arg("asked"), py::arg("all"), "Doses given.");
    ledger.def(
        "immunizations",
        [](Handle& handle, const Asked& asked, OptionalText patient) {
            return ask(handle, asked,
                       [&](Ledger& l, const Question& q, Instant now) { return l.immunizations(q, patient, now); });
        },
        py::arg("asked"), py::arg("patient"), "Doses given, as FHIR R4 resources.");
    ledger.def(
        "stays",
        [](Handle& handle, const Asked& asked, Text product, Text lot) {
            return ask(handle, asked,
                       [&](Ledger& l, const Question& q, Instant now) { return l.stays(product, lot, q, now); });
        },
        py::arg("asked"), py::arg("product"), py::arg("lot"), "When a lot was where.");
    ledger.def(
        "explain",
        [](Handle& handle, const Asked& asked, Text place, Text product, Text lot, Text fund, Text mark) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                return l.explain({place, product, lot, fund, mark}, q, now);
            });
        },
        py::arg("asked"), py::arg("place"), py::arg("product"), py::arg("lot"), py::arg("fund"), py::arg("mark"),
        "Why a holding is on its list.");
    ledger.def(
        "dates",
        [](Handle& handle, const Asked& asked) {
            return ask(handle, asked, [](Ledger& l, const Question& q, Instant now) { return l.dates(q, now); });
        },
        py::arg("asked"), "Until when doses may be used.");
    ledger.def(
        "loans",
        [](Handle& handle, const Asked& asked, bool all, bool patients) {
            return ask(handle, asked,
                       [&](Ledger& l, const Question& q, Instant now) { return l.loans(q, now, all, patients); });
        },
        py::arg("asked"), py::arg("all"), py::arg("patients"), "Doses lent between funds.");
    ledger.def(
        "accountability",
        [](Handle& handle, const Asked& asked, Text from, Text until) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                const auto [a, b] = window_of(l, from, until, q, now);
                return l.accountability(a, b, q, now);
            });
        },
        py::arg("asked"), py::arg("from_"), py::arg("until"), "Every dose of a period.");
}

void bind_conditions(LedgerClass& ledger) {
    ledger.def(
        "excursions",
        [](Handle& handle, const Asked& asked, Text place, Text from, Text until) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                const auto [a, b] = window_of(l, from, until, q, now);
                return l.excursions(place, a, b, q, now);
            });
        },
        py::arg("asked"), py::arg("place"), py::arg("from_"), py::arg("until"), "Excursions of a place.");
    ledger.def(
        "conditions",
        [](Handle& handle, const Asked& asked, Text place, Text from, Text until, std::int64_t activation_K) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                const auto [a, b] = window_of(l, from, until, q, now);
                return l.conditions(place, a, b, q, now, activation_K);
            });
        },
        py::arg("asked"), py::arg("place"), py::arg("from_"), py::arg("until"), py::arg("activation_K"),
        "Conditions of a place.");
    ledger.def(
        "rules",
        [](Handle& handle, const Asked& asked, OptionalText place, OptionalText from, OptionalText until) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                // the command line's window where none is given: the 30 days before the instant of the question
                std::optional<Instant> a;
                if (from) a = read_from(l, *from, q.known_on, now);
                const Instant b = until ? read_until(l, *until, q.known_on, now, a) : q.at.value_or(now);
                return l.rules(place, a.value_or(b - Duration(30 * 86400)), b, q, now);
            });
        },
        py::arg("asked"), py::arg("place"), py::arg("from_"), py::arg("until"),
        "The programme's rules and what was met.");
    ledger.def(
        "unit",
        [](Handle& handle, const Asked& asked, Text place, OptionalText from, OptionalText until,
           std::int64_t activation_K) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                std::optional<Instant> a, b;
                if (from) a = read_from(l, *from, q.known_on, now);
                if (until) b = read_until(l, *until, q.known_on, now, a);
                return l.unit(place, a, b, q, now, activation_K);
            });
        },
        py::arg("asked"), py::arg("place"), py::arg("from_"), py::arg("until"), py::arg("activation_K"),
        "The history of a unit.");
}

void bind_journeys(LedgerClass& ledger) {
    ledger.def(
        "move_list",
        [](Handle& handle, const Asked& asked, Text place, OptionalText container) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                return l.move_list(place, container, q, now);
            });
        },
        py::arg("asked"), py::arg("place"), py::arg("container"), "What to move first.");
    ledger.def(
        "handover",
        [](Handle& handle, const Asked& asked, EntryNumber entry, OptionalText file) {
            return handle.with([&](Ledger& l) {
                HandoverAnswer answer = l.handover(entry, read_question(l, asked), Instant(asked.now));
                if (file) write_handover(answer, *file, paper_of(l, answer.head.known_on));
                return answer_of(std::move(answer));
            });
        },
        py::arg("asked"), py::arg("entry"), py::arg("file"), "The history of doses as they left by a transfer.");
    ledger.def(
        "trip",
        [](Handle& handle, const Asked& asked, Text container, std::optional<std::int64_t> limit_s) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                return l.trip(container, limit_s ? std::optional(Duration(*limit_s)) : std::nullopt, q, now);
            });
        },
        py::arg("asked"), py::arg("container"), py::arg("limit_s"), "The last journey of a container.");
}

void bind_incidents(LedgerClass& ledger) {
    ledger.def(
        "incident",
        [](Handle& handle, const Asked& asked, Text incident, OptionalText maker, bool patients) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                return l.incident(incident, maker, q, now, patients);
            });
        },
        py::arg("asked"), py::arg("incident"), py::arg("maker"), py::arg("patients"), "The whole of an incident.");
    ledger.def(
        "incidents",
        [](Handle& handle, const Asked& asked, OptionalText place, OptionalText probe, OptionalText from,
           OptionalText until) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                const Instant a = from ? read_from(l, *from, q.known_on, now) : Instant(0);
                const Instant b = until ? read_until(l, *until, q.known_on, now, a) : q.at.value_or(now);
                return l.incidents(place, probe, a, b, q, now);
            });
        },
        py::arg("asked"), py::arg("place"), py::arg("probe"), py::arg("from_"), py::arg("until"),
        "Which excursions belong to which incident.");
    ledger.def(
        "follow_up",
        [](Handle& handle, const Asked& asked, OptionalText lot, OptionalText product) {
            return ask(handle, asked,
                       [&](Ledger& l, const Question& q, Instant now) { return l.follow_up(lot, product, q, now); });
        },
        py::arg("asked"), py::arg("lot"), py::arg("product"), "Doses under review, or of a lot, and what was done.");
}

void bind_entered(LedgerClass& ledger) {
    ledger.def(
        "entered",
        [](Handle& handle, const Asked& asked, OptionalText from, OptionalText until, OptionalText place,
           OptionalText product, OptionalText lot, OptionalText patient, OptionalText kind, OptionalText by,
           OptionalText text, std::int64_t most, bool patients) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                EnteredRequest request{{}, {}, place, product, lot, patient, kind, by, text, most, patients};
                if (from) request.from = read_from(l, *from, q.known_on, now);
                if (until) request.until = read_until(l, *until, q.known_on, now, request.from);
                return l.entered(request, q, now);
            });
        },
        py::arg("asked"), py::arg("from_"), py::arg("until"), py::arg("place"), py::arg("product"), py::arg("lot"),
        py::arg("patient"), py::arg("kind"), py::arg("by"), py::arg("text"), py::arg("most"), py::arg("patients"),
        "What was entered.");
    ledger.def(
        "show",
        [](Handle& handle, const Asked& asked, OptionalText name, OptionalText kind) {
            return ask(handle, asked,
                       [&](Ledger& l, const Question& q, Instant now) { return l.show({name, kind}, q, now); });
        },
        py::arg("asked"), py::arg("name"), py::arg("kind"), "What is defined under a name.");
}

void bind_upkeep(LedgerClass& ledger) {
    ledger.def(
        "plan",
        [](Handle& handle, const Asked& asked) {
            return ask(handle, asked, [](Ledger& l, const Question& q, Instant now) { return l.plan(q, now); });
        },
        py::arg("asked"), "The contingency plan.");
    ledger.def(
        "training",
        [](Handle& handle, const Asked& asked) {
            return ask(handle, asked, [](Ledger& l, const Question& q, Instant now) { return l.training(q, now); });
        },
        py::arg("asked"), "Who was trained.");
    ledger.def(
        "today",
        [](Handle& handle, const Asked& asked) {
            return ask(handle, asked, [](Ledger& l, const Question& q, Instant now) { return l.today(q, now); });
        },
        py::arg("asked"), "What must be known and done on the day.");
    ledger.def(
        "readiness",
        [](Handle& handle, const Asked& asked, OptionalText from) {
            return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                std::optional<Instant> a;
                if (from) a = read_from(l, *from, q.known_on, now);
                return l.readiness(a, q, now);
            });
        },
        py::arg("asked"), py::arg("from_"), "What an inspector would find missing.");
}

}  // namespace

void bind_questions(LedgerClass& ledger) {
    bind_stock(ledger);
    bind_conditions(ledger);
    bind_journeys(ledger);
    bind_incidents(ledger);
    bind_entered(ledger);
    bind_upkeep(ledger);
}

}  // namespace coldtally::python
