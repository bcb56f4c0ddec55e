// Investigation: an incident's report while it is made, and its parts in files of their own.
#pragma once

#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "coldtally/incidents.hpp"
#include "conditions/incident_spans.hpp"
#include "question/world.hpp"

namespace coldtally::answers {

/// A product and a lot's number.
using LotName = std::pair<std::string, std::string>;

/// The answer, and beside it what its parts find out for those after them.
struct Investigation {
    World& w;
    IncidentAnswer out;
    std::int64_t since = 0;                  ///< when it was noticed, or its first step
    IncidentSpan span;
    std::int64_t begins = INT64_MAX;         ///< the first instant in doubt of all places
    /// The time in doubt of each affected place, ascending, apart from each other; at least one of each.
    std::map<std::string, std::vector<Window>> windows;
    /// Since when: the lines' holdings, and those into which their doses were moved.
    std::map<HoldingKey, std::int64_t> followed;
    std::set<LotName> lots;                  ///< of the lines
    std::map<LotName, std::int64_t> complete;  ///< up to when the answers leave nothing of a lot open

    bool is_wanted(const std::string& product) const;
    /// Doses of these lots that were in one of the places.
    bool affects(const HoldingKey& holding, const History& history) const;
};

// The parts; incident() states their order.
void add_steps(Investigation& i);       // report_steps.cpp: when it was noticed and closed
void add_units(Investigation& i);       // report_units.cpp: the places, and the times in doubt
void add_conditions(Investigation& i);  // the programme's, in those times
void add_displays(Investigation& i);    // what displays showed before doses came
void add_lines(Investigation& i);       // report_lines.cpp: the doses that were there, and where they went
void add_given(Investigation& i);       // report_doses.cpp: those of them that were given, left, or are here
void add_left(Investigation& i);
void add_now(Investigation& i);
void add_makers(Investigation& i);      // report_makers.cpp: makers, their answers, and reports to all
void add_reports(Investigation& i);
void add_figures(Investigation& i);     // report_figures.cpp: the figures to tell
void add_duties(Investigation& i);      // report_duties.cpp: what is due
void add_missing(Investigation& i);     // report_missing.cpp: what it lacks

/// An exact number of seconds of a class.
inline const Rational& seconds_of(const Exposure& exposure, Class c) {
    return exposure.seconds[static_cast<std::size_t>(c)];
}
/// Time whose temperature is not known: not at all, not yet, or only that it is near a reading in range.
inline Rational unknown_seconds(const IncidentAnswer::Unit& unit) {
    return seconds_of(unit.exposure, Class::near) + seconds_of(unit.exposure, Class::awaiting) +
           seconds_of(unit.exposure, Class::unmonitored);
}

}  // namespace coldtally::answers
