// Readings as NumPy arrays, into a ledger and out of it, each row copied once.
#include <algorithm>
#include <limits>
#include <type_traits>

#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include "coldtally/columns.hpp"
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

Batch batch_of(const std::string& probe, const std::string& scale, const std::string& by,
               const std::optional<std::string>& note, const std::optional<std::pair<std::string, std::string>>& source,
               std::int64_t now, bool dry_run) {
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

[[noreturn]] void refuse_row(py::ssize_t i, const std::string& why) {
    throw Error(Code::bad_value, "rows[" + std::to_string(i) + "]: " + why);
}

template <class Value>
using Column = py::array_t<Value, 0>;

/// Thousandths of a degree of every row, by f(i).
template <class F>
std::vector<std::int32_t> thousandths_by(std::size_t count, F f) {
    std::vector<std::int32_t> out(count);
    for (std::size_t i = 0; i < count; ++i) {
        try {
            out[i] = f(i);
        } catch (const Error& error) {
            throw Error(error.code(), "rows[" + std::to_string(i) + "]: " + error.what());
        }
    }
    return out;
}

template <class Value>
std::vector<std::int32_t> thousandths_of(const Column<Value>& values, bool degrees, DegreesColumn& column) {
    const auto rows = values.template unchecked<1>();
    const py::gil_scoped_release no_gil;
    return thousandths_by(static_cast<std::size_t>(rows.shape(0)), [&](std::size_t i) {
        const Value value = rows(static_cast<py::ssize_t>(i));
        if constexpr (std::is_floating_point_v<Value>) {
            return column.read(value);
        } else {
            constexpr std::int64_t most = std::numeric_limits<std::int32_t>::max();
            const std::int64_t unit = degrees ? 1000 : 1;
            if (value > most / unit || value < -most / unit) {
                const std::string what = degrees ? " degrees: no temperature is that far from 0; thousandths of a "
                                                   "degree have a parameter of their own"
                                                 : " thousandths of a degree: no temperature is that far from 0";
                throw Error(Code::bad_value, std::to_string(value) + what);
            }
            return static_cast<std::int32_t>(value * unit);
        }
    });
}

std::vector<std::int32_t> thousandths_of(const std::vector<std::string>& texts, bool, DegreesColumn& column) {
    const py::gil_scoped_release no_gil;
    return thousandths_by(texts.size(), [&](std::size_t i) { return column.read(texts[i]); });
}

/// Posts rows. `zone`: `at` is what a clock of that zone showed ("site": of the site's), else UTC.
template <class Values>
py::tuple post_rows(Handle& handle, const Column<std::int64_t>& at, const std::optional<std::string>& zone,
                    const Values& values, bool degrees, const std::optional<std::string>& resolution,
                    const std::string& probe, const std::string& scale, const std::string& by,
                    const std::optional<std::string>& note,
                    const std::optional<std::pair<std::string, std::string>>& source, std::int64_t now, bool dry_run) {
    auto batch = batch_of(probe, scale, by, note, source, now, dry_run);
    const auto step = resolution ? std::optional(TemperatureDifference::parse(*resolution)) : std::nullopt;
    DegreesColumn column(step);
    if (auto& file = std::get<Readings>(batch.entry.fact).source) file->resolution = step;
    const auto rows = at.unchecked<1>();
    const auto thousandths = thousandths_of(values, degrees, column);
    const std::size_t count = thousandths.size();
    if (static_cast<std::size_t>(rows.shape(0)) != count)
        throw Error(Code::contradiction, std::string(degrees ? "degrees" : "thousandths") + ": " +
                                             std::to_string(count) + " of them: must be as many as the instants, " +
                                             std::to_string(rows.shape(0)));
    std::vector<std::int64_t> seconds(count);
    for (std::size_t i = 0; i < count; ++i) {
        seconds[i] = rows(static_cast<py::ssize_t>(i));
        if (seconds[i] == not_a_time) refuse_row(static_cast<py::ssize_t>(i), "NaT: must be an instant");
    }
    std::vector<Remark> remarks;
    std::vector<Instant> instants;
    const auto entries = handle.with([&](Ledger& ledger) {
        if (zone) {
            auto local = resolve_local_rows(seconds, *zone == "site" ? ledger.zone() : Zone(*zone));
            instants = std::move(local.at);
            remarks = std::move(local.remarks);
        } else {
            for (const std::int64_t s : seconds) instants.emplace_back(s);
        }
        return post(ledger, batch, static_cast<py::ssize_t>(count), [&](py::ssize_t i) {
            const auto row = static_cast<std::size_t>(i);
            return Reading{instants[row], thousandths[row]};
        });
    });
    const auto [lowest, highest] = std::minmax_element(thousandths.begin(), thousandths.end());
    const auto [first, last] = std::minmax_element(instants.begin(), instants.end());
    std::vector<std::string> codes;
    for (const Remark& remark : remarks) codes.push_back(to_json(remark));
    return py::make_tuple(entries, first->seconds_since_1970(), last->seconds_since_1970(), *lowest, *highest,
                          column.rounded(), column.largest_change().text(), english_for_python().say(remarks),
                          codes);
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

py::tuple readings_of(Handle& handle, const Asked& asked, const std::string& probe, const std::string& from,
                      const std::string& until) {
    auto answer = handle.with([&](Ledger& ledger) {
        const Question q = read_question(ledger, asked);
        const Instant first = read_from(ledger, from, q.known_on, Instant(asked.now));
        return ledger.readings(probe, first, read_until(ledger, until, q.known_on, Instant(asked.now), first), q,
                               Instant(asked.now));
    });
    const std::vector<Reading> rows = std::move(answer.rows);
    answer.rows.clear();
    return py::make_tuple(to_json(answer),
                          column<std::int64_t>(rows, [](const Reading& r) { return r.at.seconds_since_1970(); }),
                          column<std::int32_t>(rows, [](const Reading& r) { return r.thousandths; }));
}

py::tuple trace_of(Handle& handle, const Asked& asked, const std::string& place, const std::string& from,
                   const std::string& until) {
    using Point = TraceAnswer::Point;
    auto answer = handle.with([&](Ledger& ledger) {
        const Question q = read_question(ledger, asked);
        const Instant first = read_from(ledger, from, q.known_on, Instant(asked.now));
        return ledger.trace(place, first, read_until(ledger, until, q.known_on, Instant(asked.now), first), q,
                            Instant(asked.now));
    });
    const std::vector<Point> points = std::move(answer.readings);
    answer.readings.clear();
    return py::make_tuple(to_json(answer),
                          column<std::int64_t>(points, [](const Point& p) { return p.at.seconds_since_1970(); }),
                          column<std::int32_t>(points, [](const Point& p) { return p.temperature.thousandths(); }),
                          column<bool>(points, [](const Point& p) { return p.temperature.scale() == Scale::F; }),
                          column<std::int32_t>(points, [](const Point& p) { return p.tolerance.thousandths(); }),
                          column<bool>(points, [](const Point& p) { return p.joined; }));
}

}  // namespace

void bind_arrays(py::class_<Handle, std::shared_ptr<Handle>>& ledger) {
    const auto bind = [&](auto post_them) {
        ledger.def(
            "post_rows", post_them, py::arg("at").noconvert(), py::arg("zone"), py::arg("values").noconvert(),
            py::arg("degrees"), py::arg("resolution"), py::arg("probe"), py::arg("scale"), py::arg("by"),
            py::arg("note"), py::arg("source"), py::arg("now"), py::arg("dry_run"),
            "Posts rows of a probe's memory: int64 seconds since 1970, and degrees, or whole thousandths of a degree.");
    };
    bind(&post_rows<Column<std::int32_t>>);
    bind(&post_rows<Column<std::int64_t>>);
    bind(&post_rows<Column<float>>);
    bind(&post_rows<Column<double>>);
    bind(&post_rows<std::vector<std::string>>);
    ledger.def("readings", &readings_of, py::arg("asked"), py::arg("probe"), py::arg("from_"), py::arg("until"),
               "(JSON without rows, int64 seconds, int32 thousandths)");
    ledger.def(
        "trace", &trace_of, py::arg("asked"), py::arg("place"), py::arg("from_"), py::arg("until"),
        "(JSON without readings, int64 seconds, int32 thousandths, is it °F, int32 tolerance, joined to the next)");
}

}  // namespace coldtally::python
