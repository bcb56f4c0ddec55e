// coldtally._core.Ledger: each call of the facade, its answer kept in a form that is printed when asked for.
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include <variant>

#include "coldtally/copies.hpp"
#include "coldtally/handover_work.hpp"
#include "coldtally/incident_work.hpp"
#include "handle.hpp"

namespace py = pybind11;

namespace coldtally::python {

namespace {

using Text = const std::string&;
using OptionalText = const std::optional<std::string>&;

Ledger::Mode mode_of(Text name) {
    if (name == "read") return Ledger::Mode::read;
    if (name == "write") return Ledger::Mode::write;
    if (name == "create") return Ledger::Mode::create;
    throw Error(Code::bad_value, "mode: \"" + name + "\": must be one of \"read\", \"write\", \"create\"");
}

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

std::vector<std::string> entries_of(Handle& handle) {
    return handle.with([](Ledger& ledger) {
        std::vector<std::string> out;
        ledger.for_each_entry([&](const Entry& entry) { out.push_back(to_json(entry)); });
        return out;
    });
}

Answer import_files(Handle& handle, Text probe, Text by,
                    const std::vector<std::pair<std::string, std::variant<py::bytes, std::string>>>& files,
                    OptionalText layout, bool accept_guesses, bool loosen, OptionalText note, std::int64_t now,
                    bool dry_run) {
    ImportRequest request;
    request.probe = probe;
    request.by = by;
    if (layout) request.layout = LoggerLayout::parse(*layout);
    request.accept_guesses = accept_guesses;
    request.loosen = loosen;
    request.note = note;
    std::vector<LoggerFile> contents;
    for (const auto& [name, what] : files) {
        if (const auto* bytes = std::get_if<py::bytes>(&what))
            contents.push_back({name, std::string(*bytes)});
        else  // the path of one that is large: a part of it at a time is held
            contents.push_back(open_logger_file(std::get<std::string>(what)));
    }
    return handle.with([&](Ledger& ledger) {
        struct Imported {
            ImportReport report;
            std::optional<IncidentsAnswer> found;
        };
        const auto all = std::make_shared<Imported>();
        all->report = ledger.import_readings(request, contents, Instant(now), dry_run);
        if (!dry_run)
            all->found =
                incidents_found(ledger, probe, all->report, Instant(now));  // an old file may hold what nobody noticed
        Answer out;
        out.json = [all, dry_run] { return to_json(all->report, dry_run, all->found ? &*all->found : nullptr); };
        out.table = [all, dry_run](const TableStyle& style) {
            return to_table(all->report, style, dry_run) +
                   (all->found ? "\n" + to_short_table(*all->found, style) : "");
        };
        return out;
    });
}

std::string table_of(Handle& handle, const Answer& answer, int columns, bool color, OptionalText zone,
                     OptionalText scale) {
    if (!answer.table) throw Error(Code::bad_value, "table: this answer has none; to_json and to_frame give it whole");
    return handle.with([&](Ledger& ledger) {
        TableStyle style{zone ? Zone(*zone) : answer.zone ? *answer.zone : ledger.zone(answer.known_on)};
        style.scale = scale ? scale_of(*scale) : answer.zone ? Scale::C : ledger.sheet_scale();
        style.columns = columns;
        style.color = color;
        return answer.table(style);
    });
}

}  // namespace

namespace {

template <class Typed>
Instant read(Typed typed, const Ledger& ledger, const char* name, const std::string& text,
             std::optional<Instant> known_on, Instant now) {
    static const Zone utc("UTC");
    try {
        // most instants state their offset, and need no zone of the ledger
        return typed(text, !text.empty() && text.back() == 'Z' ? utc : ledger.zone(known_on), now);
    } catch (const Error& error) {
        throw Error(error.code(), std::string(name) + ": " + error.what());
    }
}

}  // namespace

Instant read_instant(const Ledger& ledger, const char* name, const std::string& text, std::optional<Instant> known_on,
                     Instant now) {
    return read(typed_instant, ledger, name, text, known_on, now);
}

Instant read_from(const Ledger& ledger, const std::string& text, std::optional<Instant> known_on, Instant now) {
    return read(typed_from, ledger, "from", text, known_on, now);
}

Instant read_until(const Ledger& ledger, const std::string& text, std::optional<Instant> known_on, Instant now,
                   std::optional<Instant> from) {
    return read([&](std::string_view t, const Zone& zone, Instant n) { return typed_until(t, zone, n, from); }, ledger,
                "until", text, known_on, now);
}

Question read_question(const Ledger& ledger, const Asked& asked) {
    Question out;
    if (asked.known_on)
        out.known_on = read_instant(ledger, "known_on", *asked.known_on, std::nullopt, Instant(asked.now));
    if (asked.at) out.at = read_instant(ledger, "at", *asked.at, out.known_on, Instant(asked.now));
    return out;
}

TableStyle paper_of(const Ledger& ledger, std::optional<Instant> known_on) {
    TableStyle style{ledger.zone(known_on)};
    style.scale = ledger.sheet_scale();
    return style;
}

Scale scale_of(const std::string& text) {
    if (text == "C") return Scale::C;
    if (text == "F") return Scale::F;
    throw Error(Code::bad_value, "scale: \"" + text.substr(0, 80) + "\": must be one of \"C\", \"F\"");
}

void bind_ledger(py::module_& module) {
    py::class_<Asked>(module, "Asked", "The instants of a question.")
        .def(py::init([](std::optional<std::string> at, std::optional<std::string> known_on, std::int64_t now) {
                 return Asked{std::move(at), std::move(known_on), now};
             }),
             py::arg("at"), py::arg("known_on"), py::arg("now"));
    py::class_<Answer>(module, "Answer", "An answer, to be printed.")
        .def(
            "json",
            [](const Answer& answer) {
                const py::gil_scoped_release no_gil;
                return answer.json();
            },
            "JSON in one line with a line end: what the command line prints.")
        .def(
            "last_entry", [](const Answer& answer) { return answer.last_entry; },
            "The highest entry that the answer knows of; None: it is of no question.");

    py::class_<Handle, std::shared_ptr<Handle>> ledger(module, "Ledger", "An open ledger.");
    ledger
        .def(py::init([](Text path, Text mode, std::int64_t wait_s) {
                 return std::make_shared<Handle>(path, mode_of(mode), Duration(wait_s));
             }),
             py::arg("path"), py::arg("mode"), py::arg("wait_s"))
        .def("close", &Handle::close, "Closes the file; again: nothing.")
        .def("closed", &Handle::closed, "Has it been closed?")
        .def(
            "post",
            [](Handle& handle, Text lines, std::int64_t now, bool dry_run) {
                std::vector<std::string> warnings;
                auto numbers = handle.with([&](Ledger& l) { return l.post(lines, Instant(now), dry_run, &warnings); });
                return std::pair(std::move(numbers), std::move(warnings));
            },
            py::arg("lines"), py::arg("now"), py::arg("dry_run"),
            "Posts JSON Lines; the entries' numbers, and what is to be warned of.")
        .def(
            "replay",
            [](Handle& handle, Text lines) { return handle.with([&](Ledger& l) { return l.replay(lines); }); },
            py::arg("lines"), "Fills a new ledger from exported entries.")
        .def("entries", &entries_of, "JSON of every entry.")
        .def("import_files", &import_files, py::arg("probe"), py::arg("by"), py::arg("files"), py::arg("layout"),
             py::arg("accept_guesses"), py::arg("loosen"), py::arg("note"), py::arg("now"), py::arg("dry_run"),
             "Reads logger files, (name, bytes) each.")
        .def("table", &table_of, py::arg("answer"), py::arg("columns"), py::arg("color"), py::arg("zone"),
             py::arg("scale"), "An answer as a table for people.")
        .def(
            "zone",
            [](Handle& handle, OptionalText known_on, std::int64_t now) {
                return handle.with([&](Ledger& l) {
                    return l
                        .zone(known_on
                                  ? std::optional(read_instant(l, "known_on", *known_on, std::nullopt, Instant(now)))
                                  : std::nullopt)
                        .name();
                });
            },
            py::arg("known_on"), py::arg("now"), "The site's zone.")
        .def(
            "sheet_scale",
            [](Handle& handle) {
                return handle.with([](Ledger& l) { return std::string(1, scale_letter(l.sheet_scale())); });
            },
            "The scale of the site's sheets.")
        .def(
            "verify",
            [](Handle& handle, OptionalText against) {
                return handle.with([&](Ledger& l) {
                    return answer_of(l.verify(against ? std::optional(parse_noted_link(*against)) : std::nullopt));
                });
            },
            py::arg("against"), "Recomputes everything.")
        .def(
            "backup",
            [](Handle& handle, Text copy) {
                return handle.with([&](Ledger& l) { return answer_of(back_up(l.path(), copy)); });
            },
            py::arg("copy"), "Copies the file.")
        .def_static(
            "restore",
            [](Text copy, Text made, std::int64_t wait_s) {
                const py::gil_scoped_release no_gil;
                return answer_of(restore(copy, made, Duration(wait_s)));
            },
            py::arg("copy"), py::arg("ledger"), py::arg("wait_s"), "Makes a ledger from a copy.")
        .def(
            "head",
            [](Handle& handle, const Asked& asked) {
                const AnswerHead head = handle.with(
                    [&](Ledger& l) { return l.training(read_question(l, asked), Instant(asked.now)).head; });
                return std::tuple(head.at.seconds_since_1970(), head.known_on.seconds_since_1970(), head.last_entry);
            },
            py::arg("asked"), "What an answer would begin with: the two instants, and the last entry that is known.")
        .def(
            "stock",
            [](Handle& handle, const Asked& asked) {
                return ask(handle, asked, [](Ledger& l, const Question& q, Instant now) { return l.stock(q, now); });
            },
            py::arg("asked"), "Doses by holding.")
        .def(
            "lists",
            [](Handle& handle, const Asked& asked) {
                return ask(handle, asked, [](Ledger& l, const Question& q, Instant now) { return l.lists(q, now); });
            },
            py::arg("asked"), "The three lists.")
        .def(
            "scan",
            [](Handle& handle, const Asked& asked, Text code) {
                return ask(handle, asked,
                           [&](Ledger& l, const Question& q, Instant now) { return l.scan(code, q, now); });
            },
            py::arg("asked"), py::arg("code"), "What a scanned code says.")
        .def(
            "review",
            [](Handle& handle, const Asked& asked, bool all) {
                return ask(handle, asked,
                           [&](Ledger& l, const Question& q, Instant now) { return l.review(q, now, all); });
            },
            py::arg("asked"), py::arg("all"), "Doses given.")
        .def(
            "immunizations",
            [](Handle& handle, const Asked& asked, OptionalText patient) {
                return ask(handle, asked,
                           [&](Ledger& l, const Question& q, Instant now) { return l.immunizations(q, patient, now); });
            },
            py::arg("asked"), py::arg("patient"), "Doses given, as FHIR R4 resources.")
        .def(
            "stays",
            [](Handle& handle, const Asked& asked, Text product, Text lot) {
                return ask(handle, asked,
                           [&](Ledger& l, const Question& q, Instant now) { return l.stays(product, lot, q, now); });
            },
            py::arg("asked"), py::arg("product"), py::arg("lot"), "When a lot was where.")
        .def(
            "explain",
            [](Handle& handle, const Asked& asked, Text place, Text product, Text lot, Text fund, Text mark) {
                return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                    return l.explain({place, product, lot, fund, mark}, q, now);
                });
            },
            py::arg("asked"), py::arg("place"), py::arg("product"), py::arg("lot"), py::arg("fund"), py::arg("mark"),
            "Why a holding is on its list.")
        .def(
            "excursions",
            [](Handle& handle, const Asked& asked, Text place, Text from, Text until) {
                return ask(handle, asked, [&](Ledger& l, const Question& q, Instant now) {
                    const auto [a, b] = window_of(l, from, until, q, now);
                    return l.excursions(place, a, b, q, now);
                });
            },
            py::arg("asked"), py::arg("place"), py::arg("from_"), py::arg("until"), "Excursions of a place.")
        .def(
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
    ledger.def(
        "plan",
        [](Handle& handle, const Asked& asked) {
            return ask(handle, asked, [](Ledger& l, const Question& q, Instant now) { return l.plan(q, now); });
        },
        py::arg("asked"), "The contingency plan.");
    ledger.def(
        "follow_up",
        [](Handle& handle, const Asked& asked, OptionalText lot, OptionalText product) {
            return ask(handle, asked,
                       [&](Ledger& l, const Question& q, Instant now) { return l.follow_up(lot, product, q, now); });
        },
        py::arg("asked"), py::arg("lot"), py::arg("product"), "Doses under review, or of a lot, and what was done.");
    ledger.def(
        "training",
        [](Handle& handle, const Asked& asked) {
            return ask(handle, asked, [](Ledger& l, const Question& q, Instant now) { return l.training(q, now); });
        },
        py::arg("asked"), "Who was trained.");
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
    bind_work(ledger);
    bind_arrays(ledger);
}

}  // namespace coldtally::python
