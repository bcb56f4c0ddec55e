// Traces: what a ledger knows of temperatures and of who was where, as plain data to be drawn or computed with.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/answers.hpp"

namespace coldtally {

/// The readings of one probe that are known and not voided, as indicated, in the probe's scale.
struct ReadingsAnswer {
    AnswerHead head;
    std::string probe;
    Scale scale = Scale::C;
    std::vector<Reading> rows;  ///< ascending, one an instant
};

/// What is known of a place's temperature in a window, after the corrections of the probes' certificates.
struct TraceAnswer {
    AnswerHead head;
    std::string place;
    Instant from, until;  ///< the window, as asked
    struct Point {
        Instant at;
        Temperature temperature{Scale::C, 0};
        TemperatureDifference tolerance;  ///< of the probe, in the scale of the temperature
        bool joined = false;              ///< the time to the next point is logged: straight from the one to the other
    };
    std::vector<Point> readings;  ///< that count for the place, ascending
    struct Check {
        EntryNumber entry = 0;
        Instant at;
        Temperature temperature{Scale::C, 0};
        std::optional<Temperature> lowest, highest;  ///< since the check before; both or none
        TemperatureDifference tolerance;
    };
    std::vector<Check> checks;  ///< ascending, one an instant
    struct Part {
        Class kind = Class::unmonitored;
        Instant from, until;
    };
    std::vector<Part> parts;  ///< the time of the window that is not logged, ascending, with what stands for it
    Range range;              ///< the place's own
};

/// When doses of a lot were where: for each holding the times in which it had doses.
struct StaysAnswer {
    AnswerHead head;
    std::string product, lot;
    struct Row {
        HoldingKey holding;
        Instant from;
        std::optional<Instant> until;  ///< none: doses are still there
        Doses most;                    ///< the most there was at once
    };
    std::vector<Row> stays;  ///< by (from, holding)
};

}  // namespace coldtally
