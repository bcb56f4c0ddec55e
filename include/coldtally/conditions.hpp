// Conditions: what a place was like: excursions with what was inside, means, the history of its unit, what is known of
// its temperature to be drawn or computed with, and what a programme's conditions make of it.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/entries.hpp"
#include "coldtally/exposure.hpp"
#include "coldtally/question.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

enum class Side { cold, warm };
std::string_view side_name(Side side) noexcept;

enum class ExcursionKind { bounded, line, point };
std::string_view excursion_kind_name(ExcursionKind kind) noexcept;

struct ExcursionsAnswer {
    AnswerHead head;
    std::string place;
    Instant from, until;  ///< the window, as asked
    std::array<Rational, class_count>
        seconds;  ///< of each Class in it: between checks, and where nothing is known, excursions may hide
    struct Inside {
        HoldingKey holding;
        Doses doses;
        Exposure exposure;  ///< of its product, over the overlap
        std::vector<Duration> allowance_seconds;
    };
    struct Row {
        Side side = Side::warm;
        ExcursionKind kind = ExcursionKind::line;
        Rational from_s, until_s;  ///< seconds since 1970-01-01T00:00:00Z
        Rational duration_s, degree_s, peak_C;
        Rational
            checked_s;  ///< of the duration, what rests on a line between plain checks: of that time nothing is known
        bool open = false;
        std::vector<Remark>
            marks;  ///< what its readings lack: a valid certificate, a distance from the limit beyond the tolerance
        std::vector<Inside> holdings;
    };
    std::vector<Row> excursions;
    std::vector<Remark> beside = {};  ///< what no figure of these counts: what a display showed at the first check
};

struct ConditionsAnswer {
    AnswerHead head;
    std::string place;
    Instant from, until;
    std::array<Rational, class_count> seconds;
    std::optional<Rational> lowest_C, highest_C, mean_C;
    std::optional<std::string> mean_kinetic_C;  ///< decimal, 6 places, correctly rounded
    std::int64_t excursions = 0;
    std::vector<Remark> marks;        ///< when the probe had no valid certificate
    std::vector<Remark> beside = {};  ///< as ExcursionsAnswer
};

/// What a storage unit has been like, month by month: an ageing one shows. It judges nothing.
struct UnitAnswer {
    AnswerHead head;
    std::string place;
    Range range;            ///< the place's own, as defined now
    Instant from, until;    ///< the window
    struct Figures {
        std::int64_t excursions = 0;        ///< that began in this time, on either side and of any kind
        std::optional<Rational>
            longest_s;  ///< seconds of the longest of them, to its end or the window's; none without any
        SideExposure warm, cold;            ///< out of the place's range
        Rational out_of_range_s;            ///< warm or cold by the estimate; time that may be both is counted once
        std::array<Rational, class_count> seconds;   ///< of each Class; only the first three are known time
        Rational measured_out_s;                     ///< of out_of_range_s, what a logger measured
        std::optional<Rational> in_range;  ///< share of the measured time, 0 to 1; none where none was measured
        std::optional<Rational> lowest_C, highest_C, mean_C;
        std::optional<std::string> mean_kinetic_C;   ///< decimal, 6 places, correctly rounded
        std::int64_t disagreements = 0;
        Rational known_s() const;     ///< logged, bounded and checked
        Rational measured_s() const;  ///< logged alone: between checks nothing is measured
    };
    struct Month {
        int year = 1970, month = 1;  ///< of the site's zone
        Instant from, until;         ///< cut to the window
        Figures figures;
    };
    Figures whole;              ///< of the window; its counts and seconds are the sums of the months'
    std::vector<Month> months;  ///< ascending, each month of the window, also those of which nothing is known

    /// What fell into an hour of the day by the local clock, over the whole window.
    struct Hour {
        std::int64_t excursions = 0;  ///< that began in it
        Rational warm_s, cold_s;
    };
    std::array<Hour, 24> hours;
    Hour hour_not_known;        ///< known from a minimum or maximum alone: at which hour it was, nobody knows

    /// The same month of several years.
    struct Compared {
        int month = 1;
        std::vector<std::size_t> months;  ///< indices, by year; two or more
    };
    std::vector<Compared> compared;

    /// One temperature of one device.
    struct Device {
        std::optional<std::string> probe;   ///< none: a check that names no thermometer
        std::optional<EntryNumber> check;   ///< none: a logger's reading
        Instant at;
        Rational C;                         ///< corrected by its certificate
        std::optional<Rational> tolerance_C;  ///< none: no tolerance is known, and unknown_tolerance is assumed
    };
    /// Two devices in one place that differ by more than both tolerances together: at least one of them is wrong, and
    /// nothing here says which. Never averaged.
    struct Disagreement {
        enum class What {
            reading,  ///< at one instant
            minimum,  ///< of a check, and the lowest reading of the logger since the check before
            maximum,
        } what = What::reading;
        Instant from, until;  ///< from the check before to this one; equal for a reading
        Device check, other;
        Rational difference_C, allowed_C;  ///< the first is the larger
    };
    std::vector<Disagreement> disagreements;  ///< by until, then what
    std::vector<Remark> marks;                ///< when the probe had no valid certificate
    std::vector<Remark> cut;                  ///< excursions that the window cuts: they lasted longer

    static Rational unknown_tolerance_C() { return Rational(1, 2); }
};
std::string_view disagreement_name(UnitAnswer::Disagreement::What what) noexcept;

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

/// One condition of a programme for one place in a window.
struct RuleFinding {
    std::string rule, text;  ///< as the programme names and words it
    std::string place;
    ProgrammeRules::Reportable::Form form = ProgrammeRules::Reportable::Form::reading;
    /// Once for each way of judging a reading whose probe has a tolerance; at_least met implies the other two.
    struct Level {
        bool met = false;
        std::optional<Rational>
            first_s;  ///< of what reaches into the window, seconds since 1970-01-01T00:00:00Z: when it was met
        Rational
            most;  ///< longest run or largest sum in seconds, readings beyond the limit, or excursions counted together
    };
    Level at_least, estimate, at_most;
    Level with_unknown;  ///< at_most, and had it been beyond the limit in all the time that is not known, too; `most`
                         ///< of readings and excursions is that of at_most: nobody can say how many there were
    Rational unknown_s;  ///< seconds of the time that the condition asks about of which the temperature is not known,
                         ///< not yet, only that it is near a reading in range, or only on a line between plain checks
    Rational checked_s;  ///< of them, those between plain checks
    /// `cannot_be_said`: not by what is known, and the time that is not known could have met it.
    enum class State { met, met_by_estimate, perhaps_met, cannot_be_said, not_met };
    State state() const noexcept;
};
/// "met", "met by the estimate", "perhaps met", "cannot be said", "not met"
std::string_view rule_state_name(RuleFinding::State state) noexcept;

/// The rules that hold, and which of their conditions were met where.
struct RulesAnswer {
    AnswerHead head;
    std::optional<EntryNumber> entry;  ///< none: no rules are known
    ProgrammeRules rules;
    Instant from, until;               ///< the window, as asked
    struct Unknown {
        std::string place;
        Rational unmonitored_s;        ///< time in the window of which nothing is known: it may hide more
        Rational checked_s;            ///< and time on a line between plain checks: nothing is known between them
    };
    std::vector<Unknown> places;       ///< all that were looked at, by id
    std::vector<RuleFinding> findings; ///< by place, then in the order of the rules; also those that were not met
    struct NotJudged {
        std::string place;
        Remark why;
    };
    std::vector<NotJudged> not_judged; ///< places that no condition is for
};

/// An excursion of a place, without what was inside.
struct IncidentExcursion {
    std::string place;
    Side side = Side::warm;
    ExcursionKind kind = ExcursionKind::line;
    Rational from_s, until_s, duration_s, peak_C;  ///< as ExcursionsAnswer::Row
    bool open = false;
    Rational checked_s;
};

/// Which excursions belong to which incident. An excursion belongs to the incident that was noticed while it lasted or
/// soon after (each at most the place's longest time between checks later than the one before); else to one that was
/// open when it began; else to none.
struct IncidentsAnswer {
    AnswerHead head;
    struct Row {
        std::string incident;
        std::optional<Instant> noticed, closed;      ///< `closed`: none where it was noticed again afterwards
        Instant since;  ///< when it was noticed; where nobody wrote that down, its first step
        bool open = true;
        std::vector<std::string> places;             ///< that its steps name; none: it is of all places
        std::vector<IncidentExcursion> excursions;   ///< in the window asked about
    };
    std::vector<Row> incidents;                      ///< those not closed first, then by when they were noticed
    std::vector<IncidentExcursion> without_incident; ///< nobody has opened one for them
    std::vector<Remark> not_listed = {};  ///< excursions outside what was asked for; all are looked for
};

/// Many excursions in short.
struct ExcursionsInShort {
    std::int64_t count = 0;
    std::optional<IncidentExcursion> longest;  ///< of equally long ones the latest; none: there is none
    std::optional<IncidentExcursion> latest;   ///< the last to end, of those the longest
};

ExcursionsInShort in_short(const std::vector<IncidentExcursion>& excursions);
/// Of all that were found, whether they belong to an incident or not.
ExcursionsInShort in_short(const IncidentsAnswer& found);

}  // namespace coldtally
