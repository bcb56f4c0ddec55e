// Readings as NumPy arrays, into a ledger and out of it, each row copied once.
#include <limits>

#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include "handle.hpp"

namespace py = pybind11;

namespace coldtally::python {

namespace {

constexpr std::int64_t not_a_time = std::numeric_limits<std::int64_t>::min();  // NumPy's NaT
constexpr py::ssize_t rows_per_entry = 100'000;

struct Batch {
    Entry entry;  ///< without rows
    Scale scale;
    std::int64_t now;
    bool dry_run;
};

Batch batch_of(const std::string& probe, const std::string& scale, const std::string& by, const std::optional<std::string>& note,
               const std::optional<std::pair<std::string, std::string>>& source, std::int64_t now, bool dry_run) {
    Batch out{{}, scale_of(scale), now, dry_run};
    out.entry.by = by;
    out.entry.note = note;
    Readings readings;
    readings.probe = probe;
    readings.scale = out.scale;
    if (source) readings.source = Readings::Source{source->first, source->second, {}};
    out.entry.fact = std::move(readings);
    return out;
}

/// As many entries as the rows need; row i is row(i).
template <class Row>
std::vector<EntryNumber> post(Ledger& ledger, const Batch& batch, py::ssize_t count, Row row) {
    std::vector<Entry> entries;
    for (py::ssize_t from = 0; from < count || from == 0; from += rows_per_entry) {
        entries.push_back(batch.entry);
        auto& rows = std::get<Readings>(entries.back().fact).rows;
        const auto until = std::min(count, from + rows_per_entry);
        rows.reserve(static_cast<std::size_t>(until - from));
        for (py::ssize_t i = from; i < until; ++i) rows.push_back(row(i));
    }
    return ledger.post(std::move(entries), Instant(batch.now), batch.dry_run);
}

[[noreturn]] void refuse_row(py::ssize_t i, const std::string& why) { throw Error(Code::bad_value, "rows[" + std::to_string(i) + "]: " + why); }

template <class Whole>
std::vector<EntryNumber> post_whole(Handle& handle, py::array_t<std::int64_t, 0> at, py::array_t<Whole, 0> thousandths, const std::string& probe,
                                    const std::string& scale, const std::string& by, const std::optional<std::string>& note,
                                    const std::optional<std::pair<std::string, std::string>>& source, std::int64_t now, bool dry_run) {
    const auto batch = batch_of(probe, scale, by, note, source, now, dry_run);
    const auto instants = at.template unchecked<1>();
    const auto values = thousandths.template unchecked<1>();
    if (instants.shape(0) != values.shape(0))
        throw Error(Code::contradiction, "temperatures: " + std::to_string(values.shape(0)) + " of them: must be as many as the instants, " + std::to_string(instants.shape(0)));
    return handle.with([&](Ledger& ledger) {
        return post(ledger, batch, values.shape(0), [&](py::ssize_t i) {
            if (instants(i) == not_a_time) refuse_row(i, "NaT: must be an instant");
            const std::int64_t value = values(i);
            if (value != static_cast<std::int32_t>(value)) refuse_row(i, std::to_string(value) + " thousandths of a degree: no temperature is that far from 0");
            return Reading{Instant(instants(i)), static_cast<std::int32_t>(value)};
        });
    });
}

py::array_t<std::int32_t> thousandths_of(const std::vector<std::string>& temperatures, const std::string& scale) {
    const Scale s = scale_of(scale);
    py::array_t<std::int32_t> out(static_cast<py::ssize_t>(temperatures.size()));
    auto* to = out.mutable_data();
    const py::gil_scoped_release no_gil;
    for (std::size_t i = 0; i < temperatures.size(); ++i) {
        try {
            to[i] = Temperature::parse(temperatures[i], s).thousandths();
        } catch (const Error& error) {
            throw Error(error.code(), "rows[" + std::to_string(i) + "]: " + error.what());
        }
    }
    return out;
}

/// An array of one member of each row.
template <class To, class Row, class F>
py::array_t<To> column(const std::vector<Row>& rows, F f) {
    py::array_t<To> out(static_cast<py::ssize_t>(rows.size()));
    To* to = out.mutable_data();
    const py::gil_scoped_release no_gil;
    for (const Row& row : rows) *to++ = static_cast<To>(f(row));
    return out;
}

py::tuple readings_of(Handle& handle, const Asked& asked, const std::string& probe, const std::string& from, const std::string& until) {
    auto answer = handle.with([&](Ledger& ledger) {
        const Question q = read_question(ledger, asked);
        return ledger.readings(probe, read_bound(ledger, "from", from, q.known_on, Instant(asked.now)), read_bound(ledger, "until", until, q.known_on, Instant(asked.now)), q, Instant(asked.now));
    });
    const std::vector<Reading> rows = std::move(answer.rows);
    answer.rows.clear();
    return py::make_tuple(to_json(answer), column<std::int64_t>(rows, [](const Reading& r) { return r.at.seconds_since_1970(); }),
                          column<std::int32_t>(rows, [](const Reading& r) { return r.thousandths; }));
}

py::tuple trace_of(Handle& handle, const Asked& asked, const std::string& place, const std::string& from, const std::string& until) {
    using Point = TraceAnswer::Point;
    auto answer = handle.with([&](Ledger& ledger) {
        const Question q = read_question(ledger, asked);
        return ledger.trace(place, read_bound(ledger, "from", from, q.known_on, Instant(asked.now)), read_bound(ledger, "until", until, q.known_on, Instant(asked.now)), q, Instant(asked.now));
    });
    const std::vector<Point> points = std::move(answer.readings);
    answer.readings.clear();
    return py::make_tuple(to_json(answer), column<std::int64_t>(points, [](const Point& p) { return p.at.seconds_since_1970(); }),
                          column<std::int32_t>(points, [](const Point& p) { return p.temperature.thousandths(); }),
                          column<bool>(points, [](const Point& p) { return p.temperature.scale() == Scale::F; }),
                          column<std::int32_t>(points, [](const Point& p) { return p.tolerance.thousandths(); }),
                          column<bool>(points, [](const Point& p) { return p.joined; }));
}

}  // namespace

void bind_arrays(py::module_& module, py::class_<Handle, std::shared_ptr<Handle>>& ledger) {
    module.def("thousandths_of", &thousandths_of, py::arg("temperatures"), py::arg("scale"), "Texts of degrees as int32 thousandths of a degree.");
    const auto bind = [&](auto post_rows) {
        ledger.def("post_rows", post_rows, py::arg("at").noconvert(), py::arg("thousandths").noconvert(), py::arg("probe"), py::arg("scale"), py::arg("by"), py::arg("note"), py::arg("source"), py::arg("now"), py::arg("dry_run"),
                   "Posts rows of a probe's memory: int64 seconds since 1970, int32 or int64 thousandths of a degree.");
    };
    bind(&post_whole<std::int32_t>);
    bind(&post_whole<std::int64_t>);
    ledger.def("readings", &readings_of, py::arg("asked"), py::arg("probe"), py::arg("from_"), py::arg("until"), "(JSON without rows, int64 seconds, int32 thousandths)");
    ledger.def("trace", &trace_of, py::arg("asked"), py::arg("place"), py::arg("from_"), py::arg("until"), "(JSON without readings, int64 seconds, int32 thousandths, is it °F, int32 tolerance, joined to the next)");
}

}  // namespace coldtally::python
