// Incidents: what a programme's rules make of a place's temperatures, and excursions with what people did about them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/answers.hpp"

namespace coldtally {

/// One condition of a programme for one place in a window.
struct RuleFinding {
    std::string rule, text;  ///< as the programme names and words it
    std::string place;
    ProgrammeRules::Reportable::Form form = ProgrammeRules::Reportable::Form::reading;
    /// Once for each way of judging a reading whose probe has a tolerance; at_least met implies the other two.
    struct Level {
        bool met = false;
        std::optional<Rational> first_s;  ///< of what lies in the window, seconds since 1970-01-01T00:00:00Z: when it was met
        Rational most;  ///< longest run or largest sum in seconds, readings beyond the limit, or excursions counted together
    };
    Level at_least, estimate, at_most;
};

/// The rules that hold, and which of their conditions were met where.
struct RulesAnswer {
    AnswerHead head;
    std::optional<EntryNumber> entry;  ///< none: no rules are known
    ProgrammeRules rules;
    Instant from, until;               ///< the window, as asked
    struct Unknown {
        std::string place;
        Rational unmonitored_s;        ///< time in the window of which nothing is known: it may hide more
    };
    std::vector<Unknown> places;       ///< all that were looked at, by id
    std::vector<RuleFinding> findings; ///< by place, then in the order of the rules; also those that were not met
};

}  // namespace coldtally
