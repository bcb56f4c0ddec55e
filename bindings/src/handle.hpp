// Handle: one open ledger as Python holds it: shared by threads one after the other, never by a forked process.
#pragma once

#include <unistd.h>

#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>

#include <pybind11/pybind11.h>

#include "coldtally/forms.hpp"
#include "coldtally/ledger.hpp"

namespace coldtally::python {

using Text = const std::string&;
using OptionalText = const std::optional<std::string>&;

struct ClosedLedger {};
struct ForkedProcess {};

class Handle {
public:
    Handle(const std::string& path, Ledger::Mode mode, Duration wait) : owner_(::getpid()) {
        const pybind11::gil_scoped_release no_gil;
        ledger_ = std::make_unique<Ledger>(path, mode, wait);
    }
    Handle(const Handle&) = delete;
    Handle& operator=(const Handle&) = delete;
    ~Handle() {
        // a child of fork() must not touch what SQLite holds open for its parent
        if (::getpid() != owner_) (void)ledger_.release();
    }

    /// Calls f(ledger) without the GIL, one thread at a time.
    template <class F>
    auto with(F f) {
        check_process();
        const pybind11::gil_scoped_release no_gil;
        const std::lock_guard lock(mutex_);
        if (!ledger_) throw ClosedLedger{};
        return f(*ledger_);
    }
    void close() {
        check_process();
        const pybind11::gil_scoped_release no_gil;
        const std::lock_guard lock(mutex_);
        ledger_.reset();
    }
    bool closed() {
        check_process();
        const pybind11::gil_scoped_release no_gil;
        const std::lock_guard lock(mutex_);
        return !ledger_;
    }

private:
    void check_process() const {
        if (::getpid() != owner_) throw ForkedProcess{};
    }

    pid_t owner_;
    std::mutex mutex_;
    std::unique_ptr<Ledger> ledger_;
};

/// An answer of any kind in the two forms in which it is printed.
struct Answer {
    std::function<std::string()> json;
    std::function<std::string(const TableStyle&)> table;  ///< none: it has no table
    std::optional<Instant> known_on;
    std::optional<EntryNumber> last_entry;  ///< the highest known; none: the answer is of no question
    std::optional<Zone> zone;               ///< for its table; none: the ledger's
};

template <class T>
Answer answer_of(T value) {
    const auto kept = std::make_shared<const T>(std::move(value));
    Answer out;
    out.json = [kept] { return to_json(*kept); };
    if constexpr (requires(const TableStyle& style) { to_table(*kept, style); })
        out.table = [kept](const TableStyle& style) { return to_table(*kept, style); };
    if constexpr (requires { kept->head; }) {
        out.known_on = kept->head.known_on;
        out.last_entry = kept->head.last_entry;
    }
    return out;
}

/// What a question asks, as Python passes it: instants as text, RFC 3339 or local time of the site.
struct Asked {
    std::optional<std::string> at, known_on;
    std::int64_t now = 0;  ///< seconds since 1970
};

/// An instant as people type it; `name` begins the message of a refusal.
Instant read_instant(const Ledger& ledger, const char* name, const std::string& text, std::optional<Instant> known_on,
                     Instant now);
/// The two ends of a window; of a date alone its first instant, and the end of that day.
Instant read_from(const Ledger& ledger, const std::string& text, std::optional<Instant> known_on, Instant now);
Instant read_until(const Ledger& ledger, const std::string& text, std::optional<Instant> known_on, Instant now,
                   std::optional<Instant> from);
Question read_question(const Ledger& ledger, const Asked& asked);

/// How papers of a ledger look.
TableStyle paper_of(const Ledger& ledger, std::optional<Instant> known_on);

/// "C" or "F"; Code::bad_value with the field's name.
Scale scale_of(const std::string& text);

using LedgerClass = pybind11::class_<Handle, std::shared_ptr<Handle>>;
void bind_ledger(pybind11::module_& module);
void bind_questions(LedgerClass& ledger);
void bind_work(LedgerClass& ledger);
void bind_arrays(LedgerClass& ledger);

}  // namespace coldtally::python
