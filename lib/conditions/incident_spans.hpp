// Incident spans: from when to when each incident is, of which places, and whether it is open. Every answer and every
// warning has it from here.
#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "ledger/known.hpp"
#include "ledger/store.hpp"

namespace coldtally::answers {

/// What the steps of an incident say of its times and places. Instants in seconds since 1970.
struct IncidentSpan {
    std::string incident;
    EntryNumber notice = 0;                       ///< the entry by which it was noticed first; 0: by none
    EntryNumber closing = 0;                      ///< the entry that closed it last; 0: it is open
    std::int64_t first = 0;                       ///< its first step, of whatever kind
    std::optional<std::int64_t> noticed, closed;  ///< `closed`: none where it was noticed again afterwards
    std::set<std::string> places;                 ///< none: it is of all
    struct Notice {
        std::int64_t at = 0;
        std::optional<std::string> place;         ///< none: of all
        EntryNumber entry = 0;                    ///< by which it is known
    };
    std::vector<Notice> notices;  ///< each step `noticed`, and the first that names a place; and since when it was out
                                  ///< of range, where a notice says so
    std::optional<std::int64_t> out_since;        ///< the earliest such instant

    bool is_open() const { return !closed; }
    /// When it was noticed; where nobody wrote that down, its first step.
    std::int64_t since() const { return noticed.value_or(first); }
    bool of(const std::string& place) const { return places.empty() || places.contains(place); }
    /// When something was noticed that is of the place: since(), and what was noticed there later. Ascending.
    std::vector<std::int64_t> noticed_in(const std::string& place) const;
    /// The last entry by which anything of [from, until) was noticed in the place, else the notice of it all: what was
    /// posted before that could not know of it.
    EntryNumber noticed_by(const std::string& place, std::int64_t from, std::int64_t until) const;
};

/// The text of a notice that says since when the place was out of range. Entries keep it, and the instant is read back
/// from it: it is no phrase.
std::string out_since_text(Instant since, const std::string& text);
std::optional<Instant> out_since_of(const std::string& text);

/// Incident entries that are known, up to an instant (none: all), by (at, number).
std::vector<ledger::Dated<Incident>> incident_steps(const ledger::Store& store, const ledger::Known& known,
                                                    std::optional<std::int64_t> upto);
/// Of those steps, by name. At the instant of the last of them.
std::vector<IncidentSpan> incident_spans(const std::vector<ledger::Dated<Incident>>& steps);

}  // namespace coldtally::answers
