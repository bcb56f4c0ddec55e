// Upkeep: answers on what a site must keep in order: the contingency plan, doses under review followed to their end,
// training; the history of a storage unit, and readiness for an inspection.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "coldtally/answers.hpp"
#include "coldtally/departures.hpp"

namespace coldtally {

/// One thing that the contingency plan lacks, or that is old in it.
struct PlanFinding {
    /// "plan", "people", "number", "number at night", "alternate", "backup", "contact", "agreement", "date of
    /// agreement", "power", "distance", "capacity", "services", "notify", "containers", "packing", "steps", "review",
    /// "reviewer", "signature"
    std::string what;
    std::string of;     ///< the person or backup place it is about; empty: the plan
    bool old = false;   ///< it is there, and has run out; else it is missing
    Instant since;      ///< missing: since the first plan from which on all lacked it; old: the first instant of it
    std::string text;   ///< a sentence without its stop
};

/// The contingency plan that holds: of those that are known, not void and of an `at` up to the instant, the last.
struct PlanAnswer {
    AnswerHead head;
    std::optional<EntryNumber> entry;  ///< none: there is no plan, and `plan` is empty
    Instant since;                     ///< its `at`
    std::string by;
    Plan plan;
    std::optional<Instant>
        review_due;  ///< the first instant at which its review has lapsed; none: nobody says how often
    std::vector<PlanFinding> findings;   ///< in the order of the plan's parts
};

/// Doses given that must be followed to their end, with what was done: those of the review list, or all of a lot (a
/// recall).
struct FollowUpAnswer {
    AnswerHead head;
    std::optional<std::string> product, lot;  ///< of a recall
    struct Step {
        EntryNumber entry = 0;
        Instant at;
        std::string by, step, text;
    };
    struct Dose {
        EntryNumber give = 0;
        Instant given;
        std::string patient;
        HoldingKey holding;
        Doses doses;
        bool certain = true;
        std::string finding;      ///< of the review; of a dose apart "void", "clear" or "given later"
        std::vector<Step> steps;  ///< by (at, entry)
        std::string standing;     ///< the last of them; "none yet" where there is none
    };
    std::vector<Dose> doses;      ///< by the order of follow_up_standings, then by (given, give)
    std::vector<std::string> not_listed = {};  ///< as in ReviewAnswer; of a recall, whose list is whole: none
    std::vector<Dose> apart;      ///< with steps, but no longer on that list; in no count. By (given, give)
    struct Count {
        std::string name;
        std::int64_t gives = 0;
        Doses doses;
    };
    std::vector<Count> standings; ///< one for each of follow_up_standings; they add up to `whole`
    std::vector<Count> ever;      ///< one for each but "none yet": of the doses that ever had such a step
    Count whole;
    /// Doses that left this site, which no review holds: of a recall all of the lot, else those with `news`. By (at,
    /// entry).
    std::vector<DepartedDoses> left = {};
};
/// "none yet", "decided", "told", "no answer", "answered", "repeated", "tested", "not needed"
const std::vector<std::string>& follow_up_standings();

/// The last training of each person in each topic, and until when it is good.
struct TrainingAnswer {
    AnswerHead head;
    std::optional<std::int64_t> every_days;  ///< the programme's
    struct Row {
        EntryNumber entry = 0;
        Instant at;
        std::string person, topic;
        std::optional<std::string> reference;
        std::optional<Instant>
            due;  ///< the first instant at which it has lapsed; none: nobody says how long it is good
        bool lapsed = false;
    };
    std::vector<Row> training;         ///< by due (those without last), person, topic
    std::vector<std::string> without;  ///< people of the plan that holds of whom no training is known, in calling order
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
    std::vector<std::string> marks;           ///< when the probe had no valid certificate
    std::vector<std::string> cut;             ///< excursions that the window cuts, in words: they lasted longer

    static Rational unknown_tolerance_C() { return Rational(1, 2); }
};
std::string_view disagreement_name(UnitAnswer::Disagreement::What what) noexcept;

/// What an inspector would find missing at the instant of the question, and what was looked at. It judges papers and
/// habits, never a dose: the lists do that.
struct ReadinessAnswer {
    AnswerHead head;
    Instant from;  ///< how far back checks, the temperature record and certificates were looked at
    std::optional<EntryNumber>
        rules_entry;  ///< the programme's rules; none: none are known, and nothing is made up for them
    enum class Urgency {
        act,      ///< doses may be at stake now
        overdue,
        soon,     ///< in order today, and due within soon_days
    };
    struct Finding {
        std::string topic;  ///< one of those below
        Urgency urgency = Urgency::overdue;
        std::string where;  ///< place, probe, holding, incident or person; may be empty
        std::string text;   ///< a sentence without its stop
        std::optional<Instant> since;  ///< none: not known since when
        std::string rule;              ///< what makes it due
        std::vector<std::string> details;  ///< in words, times local
    };
    std::vector<Finding> findings;  ///< by urgency, topic, since (not known first), where

    /// Everything that was looked at, so that no finding is not mistaken for nothing looked at.
    struct Topic {
        std::string topic;
        bool judged = true;  ///< false: no rule says what is due, or the ledger keeps no record of it
        std::string rule;    ///< what was asked; where not judged, why not
        std::string what;    ///< what was counted: "checks", "places"
        std::int64_t looked_at = 0, in_order = 0;
        std::int64_t findings =
            0;  ///< but those that are due soon: 0 where all that was looked at is in order, and only there
        std::int64_t due_soon = 0;  ///< of what is in order today, or was found besides
    };
    std::vector<Topic> topics;      ///< in a fixed order
    /// Names of the topics that could not be judged, in their order.
    std::vector<std::string> not_judged() const;

    /// How long records must be kept. Nothing in a ledger is ever deleted.
    struct Kept {
        std::string records;  ///< in the programme's words
        std::int64_t years = 0;
        Date first_until,
            today_until;  ///< the last day on which the first records, and those of today, must still be there
    };
    std::vector<Kept> retention;    ///< longest first; the first holds for all that is in one ledger
    Instant first_record;           ///< of the earliest thing the ledger knows of
    static constexpr std::int64_t soon_days = 30;
};
std::string_view urgency_name(ReadinessAnswer::Urgency urgency) noexcept;

}  // namespace coldtally
