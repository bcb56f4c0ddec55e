// coldtally._core.Ledger: each call of the facade, its answer kept in a form that is printed when asked for.
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include <variant>

#include "coldtally/copies.hpp"
#include "coldtally/work.hpp"
#include "handle.hpp"

namespace py = pybind11;

namespace coldtally::python {

namespace {

Ledger::Mode mode_of(Text name) {
    if (name == "read") return Ledger::Mode::read;
    if (name == "write") return Ledger::Mode::write;
    if (name == "create") return Ledger::Mode::create;
    throw Error(Code::bad_value, "mode: \"" + name + "\": must be one of \"read\", \"write\", \"create\"");
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
    if (contents.empty()) throw Error(Code::bad_value, "files: none: must be at least one file of a logger");
    return handle.with([&](Ledger& ledger) {
        auto file = contents.begin();
        const auto next = [&] { return file == contents.end() ? std::nullopt : std::optional(*file++); };
        return answer_of(Work(ledger, Instant(now)).import_readings(request, next, dry_run));
    });
}

std::string table_of(Handle& handle, const Answer& answer, int columns, bool color, OptionalText zone,
                     OptionalText scale, bool why) {
    if (!answer.table) throw Error(Code::bad_value, "table: this answer has none; to_json and to_frame give it whole");
    return handle.with([&](Ledger& ledger) {
        TableStyle style{zone ? Zone(*zone) : answer.zone ? *answer.zone : ledger.zone(answer.known_on)};
        style.scale = scale ? scale_of(*scale) : answer.zone ? Scale::C : ledger.sheet_scale();
        style.columns = columns;
        style.color = color;
        style.why = why;
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

namespace {

void bind_file(LedgerClass& ledger) {
    ledger.def(py::init([](Text path, Text mode, std::int64_t wait_s) {
                   return std::make_shared<Handle>(path, mode_of(mode), Duration(wait_s));
               }),
               py::arg("path"), py::arg("mode"), py::arg("wait_s"));
    ledger.def("close", &Handle::close, "Closes the file; again: nothing.");
    ledger.def("closed", &Handle::closed, "Has it been closed?");
    ledger.def(
        "post",
        [](Handle& handle, Text lines, std::int64_t now, bool dry_run) {
            std::vector<Remark> warnings;
            auto numbers = handle.with([&](Ledger& l) { return l.post(lines, Instant(now), dry_run, &warnings); });
            return std::pair(std::move(numbers), english_for_python().say(warnings));
        },
        py::arg("lines"), py::arg("now"), py::arg("dry_run"),
        "Posts JSON Lines; the entries' numbers, and what is to be warned of.");
    ledger.def(
        "replay", [](Handle& handle, Text lines) { return handle.with([&](Ledger& l) { return l.replay(lines); }); },
        py::arg("lines"), "Fills a new ledger from exported entries.");
    ledger.def("entries", &entries_of, "JSON of every entry.");
    ledger.def("import_files", &import_files, py::arg("probe"), py::arg("by"), py::arg("files"), py::arg("layout"),
               py::arg("accept_guesses"), py::arg("loosen"), py::arg("note"), py::arg("now"), py::arg("dry_run"),
               "Reads logger files, (name, bytes) each.");
    ledger.def("table", &table_of, py::arg("answer"), py::arg("columns"), py::arg("color"), py::arg("zone"),
               py::arg("scale"), py::arg("why"), "An answer as a table for people.");
    ledger.def(
        "zone",
        [](Handle& handle, OptionalText known_on, std::int64_t now) {
            return handle.with([&](Ledger& l) {
                return l
                    .zone(known_on ? std::optional(read_instant(l, "known_on", *known_on, std::nullopt, Instant(now)))
                                   : std::nullopt)
                    .name();
            });
        },
        py::arg("known_on"), py::arg("now"), "The site's zone.");
    ledger.def(
        "sheet_scale",
        [](Handle& handle) {
            return handle.with([](Ledger& l) { return std::string(1, scale_letter(l.sheet_scale())); });
        },
        "The scale of the site's sheets.");
    ledger.def(
        "verify",
        [](Handle& handle, OptionalText against) {
            return handle.with([&](Ledger& l) {
                return answer_of(l.verify(against ? std::optional(parse_noted_link(*against)) : std::nullopt));
            });
        },
        py::arg("against"), "Recomputes everything.");
    ledger.def(
        "backup",
        [](Handle& handle, Text copy) {
            return handle.with([&](Ledger& l) { return answer_of(back_up(l.path(), copy)); });
        },
        py::arg("copy"), "Copies the file.");
    ledger.def_static(
        "restore",
        [](Text copy, Text made, std::int64_t wait_s) {
            const py::gil_scoped_release no_gil;
            return answer_of(restore(copy, made, Duration(wait_s)));
        },
        py::arg("copy"), py::arg("ledger"), py::arg("wait_s"), "Makes a ledger from a copy.");
    ledger.def(
        "head",
        [](Handle& handle, const Asked& asked) {
            const AnswerHead head =
                handle.with([&](Ledger& l) { return l.training(read_question(l, asked), Instant(asked.now)).head; });
            return std::tuple(head.at.seconds_since_1970(), head.known_on.seconds_since_1970(), head.last_entry);
        },
        py::arg("asked"), "What an answer would begin with: the two instants, and the last entry that is known.");
}

}  // namespace

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

    LedgerClass ledger(module, "Ledger", "An open ledger.");
    bind_file(ledger);
    bind_questions(ledger);
    bind_work(ledger);
    bind_arrays(ledger);
}

}  // namespace coldtally::python
