// Upkeep: what a site must keep in order: the contingency plan, training, and readiness for an inspection.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/conditions.hpp"
#include "coldtally/incidents.hpp"
#include "coldtally/stock.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

/// One thing that the contingency plan lacks, or that is old in it.
struct PlanFinding {
    enum class What {
        plan,
        people,
        number,
        number_at_night,
        alternate,
        backup,
        contact,
        agreement,
        date_of_agreement,
        power,
        distance,
        capacity,
        services,
        notify,
        containers,
        packing,
        steps,
        review,
        reviewer,
        signature,
    } what = What::plan;
    std::string of;     ///< the person or backup place it is about; empty: the plan
    bool old = false;   ///< it is there, and has run out; else it is missing
    Instant since;      ///< missing: since the first plan from which on all lacked it; old: the first instant of it
    Remark text;        ///< a sentence without its stop
};
/// "number at night", "date of agreement"
std::string_view plan_part_name(PlanFinding::What what) noexcept;

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
    /// What is looked at, in the order of `topics`.
    enum class Matter {
        doses_to_discard,
        guidance,
        opened_vials,
        incidents,
        excursions,
        temperature_record,
        checks,
        certificates,
        logger_readings,
        counts,
        plan,
        training,
        doses_followed_up,
        doses_that_left,
        loans,
        log_review,
        service,
        self_audit,
        retention,
    };
    struct Finding {
        Matter topic = Matter::plan;  ///< one of those below
        Urgency urgency = Urgency::overdue;
        Field where;  ///< place, probe, holding, incident or person; may be empty
        Remark text;  ///< a sentence without its stop
        std::optional<Instant> since;  ///< none: not known since when
        Remark rule;                   ///< what makes it due
        std::vector<Remark> details;   ///< times local
    };
    std::vector<Finding> findings;  ///< by urgency, topic, since (not known first), where as English says it

    /// Everything that was looked at, so that no finding is not mistaken for nothing looked at.
    struct Topic {
        Matter topic = Matter::plan;
        bool judged = true;  ///< false: no rule says what is due, or the ledger keeps no record of it
        Remark rule;         ///< what was asked; where not judged, why not
        std::optional<Remark> what;  ///< what was counted: "checks", "places"; none where not judged
        std::int64_t looked_at = 0, in_order = 0;
        std::int64_t findings =
            0;  ///< but those that are due soon: 0 where all that was looked at is in order, and only there
        std::int64_t due_soon = 0;  ///< of what is in order today, or was found besides
    };
    std::vector<Topic> topics;      ///< in a fixed order
    /// The topics that could not be judged, in their order.
    std::vector<Matter> not_judged() const;

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
/// "act now", "overdue", "due soon"
std::string_view urgency_name(ReadinessAnswer::Urgency urgency) noexcept;
/// "doses to discard", "log review"
std::string_view matter_name(ReadinessAnswer::Matter matter) noexcept;

}  // namespace coldtally
